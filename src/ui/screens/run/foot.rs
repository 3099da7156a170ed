//! The foot: no chance, serve missed, effort; then, behind a dead gap, undo. Every key keeps its place for the whole run.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::view::board::{BoardView, Cover};
use crate::app::words::board as words;
use crate::ui::shell::Shell;
use crate::ui::widgets::{Icon, Key, Shape};

#[component]
pub fn Foot(view: Memo<BoardView>, shell: Shell) -> impl IntoView {
    // A run that is over by its rule counts nothing more, but undo stays live under the cover.
    let over = Memo::new(move |_| view.with(|v| matches!(v.cover, Some(Cover::Over { .. }))));
    let covered = Memo::new(move |_| view.with(|v| v.cover.is_some() && !matches!(v.cover, Some(Cover::Over { .. }))));
    let no_chance = Memo::new(move |_| view.with(|v| v.no_chance));
    let missed = Memo::new(move |_| view.with(|v| v.serve_missed));
    let missed_off = Memo::new(move |_| over.get() || missed.get().is_none_or(|m| !m.live));
    let undo = Memo::new(move |_| view.with(|v| v.undo.clone()));
    let undo_off = Memo::new(move |_| undo.with(Option::is_none));
    view! {
        <div class="run-foot" inert=move || covered.get()>
            <Key key="no-chance" class="foot-key" off=over press=shell.press(Action::NoChanceTapped)>
                {no_chance}
            </Key>
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
                <span class="undo-what" data-fig="undo" dir="auto">
                    {move || undo.get().unwrap_or_else(|| words::NOTHING_TO_UNDO.to_owned())}
                </span>
            </Key>
        </div>
    }
}
