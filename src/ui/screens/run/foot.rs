//! The foot: no chance, serve missed, effort; then, behind a dead gap, undo. Every key keeps its place for the whole run.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::view::board::{BoardView, Cover, Keys};
use crate::app::words::board as words;
use crate::ui::markup::view;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Icon, Key, Shape};

#[component]
pub fn Foot(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    // A run that is over by its rule counts nothing more, but undo stays live under the cover.
    let over = view.part(|v| matches!(v.cover, Some(Cover::Over { .. })));
    let covered = view.part(|v| v.cover.is_some() && !matches!(v.cover, Some(Cover::Over { .. })));
    let no_chance = view.part(|v| v.no_chance);
    // In a game every rally is somebody's; what may be said of the next one there is that it is served again.
    let is_game = view.part(|v| matches!(v.keys, Keys::Game(_)));
    let second = view.part(|v| match &v.keys {
        Keys::Game(game) => game.second,
        _ => None,
    });
    let has_second = view.part(|v| matches!(&v.keys, Keys::Game(game) if game.second.is_some()));
    // Where only good ones are counted a ball without a chance is none of them.
    let no_chance_off =
        view.part(|v| matches!(v.cover, Some(Cover::Over { .. })) || matches!(v.keys, Keys::Lanes { .. }));
    let missed = view.part(|v| v.serve_missed);
    let missed_off = Signal::derive(move || over.get() || missed.get().is_none_or(|m| !m.live));
    let undo = view.part(|v| v.undo.clone());
    let undo_off = view.part(|v| v.undo.is_none());
    view! {
        <div class="run-foot" inert=move || covered.get()>
            {move || {
                if !is_game.get() {
                    Some(
                        view! {
                            <Key key="no-chance" class="foot-key" off=no_chance_off press=shell.press(Action::NoChanceTapped)>
                                {move || no_chance.get()}
                            </Key>
                        },
                    )
                } else if has_second.get() {
                    let on = Signal::derive(move || second.get() == Some(true));
                    Some(
                        view! {
                            <Key
                                key="second-serve"
                                class="foot-key"
                                off=over
                                chosen=on
                                press=shell.press(Action::SecondServeTapped)
                            >
                                {words::SECOND_SERVE}
                            </Key>
                        },
                    )
                } else {
                    None
                }
            }}
            {move || {
                missed
                    .get()
                    .is_some()
                    .then(|| {
                        view! {
                            <Key
                                key="serve-missed"
                                class="foot-key"
                                off=missed_off
                                press=shell.press(Action::ServeMissedTapped)
                            >
                                {words::SERVE_MISSED}
                            </Key>
                        }
                    })
            }}
            <Key key="effort" class="foot-key" off=over press=shell.press(Action::EffortTapped)>
                {words::EFFORT}
            </Key>
            <Key
                key="undo"
                class="undo-key"
                off=undo_off
                press=shell.press(Action::UndoTapped)
            >
                <span class="undo-word">
                    <Icon shape=Shape::Undo />
                    {words::UNDO}
                </span>
                " "
                <span class="undo-what">
                    <span data-fig="undo">
                        {move || undo.get().unwrap_or_else(|| words::NOTHING_TO_UNDO.to_owned())}
                    </span>
                </span>
            </Key>
        </div>
    }
}
