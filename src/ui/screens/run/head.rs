//! Title, saved, the list, finish; the call; the figures or the duel; swap and turn round.

use leptos::prelude::*;

use super::figures::{Calm, Current, Duel, Figures};
use super::strip::Choice;
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::{BoardView, Keys};
use crate::app::words::board as words;
use crate::domain::ids::RunId;
use crate::ui::markup::view;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Icon, Key, Saved, Shape};

/// A title of more letters takes two smaller lines.
const ONE_LINE: usize = 16;

#[component]
pub fn Head(view: Watched<BoardView>, run: RunId, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let title = view.part(|v| v.title.clone());
    let long = view.part(|v| v.title.chars().count() > ONE_LINE);
    let saved = view.part(|v| v.saved.clone());
    let call = view.part(|v| v.call.clone());
    let is_duel = view.part(|v| v.duel.is_some());
    let has_current = view.part(|v| matches!(v.keys, Keys::Line { .. } | Keys::Serve { .. } | Keys::Propped { .. }));
    let n_side = view.part(n_side_keys);
    view! {
        <div class="run-bar">
            <div class="run-what">
                <h1 tabindex="-1" dir="auto" class:is-long=move || long.get()>
                    {move || title.get()}
                </h1>
                <Saved saved shell />
            </div>
            <Key
                key="contacts"
                class="small-key is-stacked"
                label=words::LIST_LABEL
                press=shell.press(Action::Go(Screen::Contacts(run)))
            >
                <Icon shape=Shape::List />
                <span>{words::LIST}</span>
            </Key>
            <Key key="finish" class="small-key is-strong" press=shell.press(Action::Finish)>
                <span>{words::FINISH}</span>
            </Key>
        </div>
        <p class="run-call" data-fig="call" dir="auto">
            {move || call.get()}
        </p>
        <div class="run-room">
            <div class="run-figures">
                {move || {
                    if is_duel.get() {
                        view! { <Duel view choosing shell /> }
                    } else if has_current.get() {
                        view! {
                            <Current view shell />
                            <Figures view />
                        }
                    } else {
                        view! { <Figures view /> }
                    }
                }}
                <Calm view />
            </div>
            {move || (n_side.get() > 0).then(|| view! { <Side view shell n_keys=n_side.get() /> })}
        </div>
    }
}

/// Keys that change who stands where.
fn n_side_keys(view: &BoardView) -> u8 {
    match &view.keys {
        Keys::Floor { .. } => 2,
        Keys::Serve { standing: true, .. } => 1,
        _ => 0,
    }
}

#[component]
fn Side(view: Watched<BoardView>, shell: Shell, n_keys: u8) -> impl IntoView {
    let still = view.part(|v| !v.can_swap);
    view! {
        <div class="run-side">
            <Key key="swap" class="small-key is-stacked" off=still press=shell.press(Action::SwapTapped)>
                <Icon shape=Shape::Swap />
                <span>{words::SWAP}</span>
            </Key>
            {(n_keys > 1)
                .then(|| {
                    view! {
                        <Key
                            key="turn-round"
                            class="small-key is-stacked"
                            label=words::TURN_ROUND_LABEL
                            press=shell.press(Action::TurnRoundTapped)
                        >
                            <Icon shape=Shape::TurnRound />
                            <span>{words::TURN_ROUND}</span>
                        </Key>
                    }
                })}
        </div>
    }
}
