//! What lies over the keys when none of them answers: one sentence and the ways out. Moves nothing under it.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::{BoardView, Cover};
use crate::app::words::board as words;
use crate::domain::ids::RunId;
use crate::ui::shell::Shell;
use crate::ui::widgets::{HoldKey, Icon, Key, Shape};

#[component]
pub fn OverKeys(view: Memo<BoardView>, run: RunId, shell: Shell) -> impl IntoView {
    let cover = Memo::new(move |_| view.with(|v| v.cover.clone()));
    move || {
        let cover = cover.get()?;
        let class = match cover {
            Cover::Over { .. } => "cover",
            Cover::Elsewhere | Cover::Finished | Cover::Pocket => "cover is-whole",
        };
        let line = words::cover(&cover).to_owned();
        // Over everything it is the heading, because the head under it rests.
        let line = if matches!(cover, Cover::Over { .. }) {
            view! { <p class="cover-line">{line}</p> }.into_any()
        } else {
            view! { <h1 class="cover-line">{line}</h1> }.into_any()
        };
        Some(view! {
            <section class=class>
                <div class="cover-card">
                    {line}
                    <div class="cover-ways">{ways(&cover, run, shell)}</div>
                </div>
            </section>
        })
    }
}

fn ways(cover: &Cover, run: RunId, shell: Shell) -> AnyView {
    let way = move |key: &'static str, first: bool, word: &'static str, action: Action| {
        view! {
            <Key
                key
                class=if first { "way-out is-first" } else { "way-out" }
                press=move || shell.send(action.clone())
            >
                {word}
            </Key>
        }
    };
    match cover {
        Cover::Elsewhere => view! {
            {way("take-over", true, words::GO_ON_HERE, Action::TakeOver(run))}
            {way("leave", false, words::LEAVE, Action::Go(Screen::Today))}
        }
        .into_any(),
        Cover::Over { .. } => view! {
            {way("over-finish", true, words::FINISH, Action::Finish)}
            {way("play-on", false, words::PLAY_ON, Action::PlayOn)}
        }
        .into_any(),
        Cover::Finished => view! {
            {way("report", true, words::SEE_REPORT, Action::Go(Screen::RunReport(run)))}
            {way("reopen", false, words::OPEN_AGAIN, Action::RunReopened(run))}
            {way("leave", false, words::LEAVE, Action::Go(Screen::Today))}
        }
        .into_any(),
        Cover::Pocket => view! {
            <HoldKey key="uncover" class="hold-key" held=move || shell.send(Action::Uncovered)>
                <Icon shape=Shape::Hold />
                <span>{words::HOLD_TO_UNCOVER}</span>
            </HoldKey>
        }
        .into_any(),
    }
}
