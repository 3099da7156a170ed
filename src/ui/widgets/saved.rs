//! Is what was tapped safe? Told by a shape and a word, never by hue alone.

use leptos::prelude::*;

use super::key::Key;
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::SavedView;
use crate::app::words::board as words;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;

/// A lamp and a word; when something isn't saved, a key that leads to the whole story.
#[component]
pub fn Saved(#[prop(into)] saved: Signal<SavedView>, shell: Shell) -> impl IntoView {
    let lamp = move || {
        saved.with(|s| match s {
            SavedView::Opening => "lamp is-opening",
            SavedView::Saved => "lamp is-saved",
            SavedView::Saving => "lamp is-saving",
            SavedView::NotSaved { .. } => "lamp is-not-saved",
        })
    };
    let word = move || saved.with(words::saved);
    let trouble = Part::new(move || saved.with(|s| matches!(s, SavedView::NotSaved { .. })));
    view! {
        <div class="saved">
            <p class="saved-line">
                <span class=lamp aria-hidden="true"></span>
                <span data-fig="saved">{word}</span>
            </p>
            {move || {
                trouble
                    .get()
                    .then(|| {
                        view! {
                            <Key
                                key="not-saved"
                                class="saved-why"
                                press=shell.press(Action::Go(Screen::Phone))
                                label=words::NOT_SAVED_WHY
                            >
                                <span></span>
                            </Key>
                        }
                    })
            }}
        </div>
    }
}
