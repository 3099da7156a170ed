//! Notes and questions off the board: writing one between drills, asking, reading them all, one of them changed, and who wasn't heard.

mod asking;
mod heard;
mod list;
mod noting;
mod one;

pub use asking::Asking;
pub use heard::Heard;
pub use list::{Notes, remarks};
pub use noting::Noting;
pub use one::OneRemark;

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::notes::NotesTap;
use crate::app::screen::Screen;
use crate::app::view::notes::{AskView, SaidView};
use crate::app::words::notes as words;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

pub const fn tap(tap: NotesTap) -> Action {
    Action::Notes(tap)
}

/// What was just kept, else the title.
pub fn said_line(view: Part<AskView>, title: &'static str) -> String {
    view.with(|v| v.said.as_ref().map_or_else(|| title.to_owned(), |said| said.line.clone()))
}

/// Plain text, so that the phone's own dictation works in it. What is typed outlives the page.
pub fn words_field(text: Part<String>, shell: Shell) -> AnyView {
    view! {
        <label class="note-words">
            <span class="visually-hidden">{words::WORDS_LABEL}</span>
            <textarea
                class="input"
                data-field="note"
                rows="3"
                maxlength=words::MOST_WORDS.to_string()
                dir="auto"
                placeholder=words::WORDS_HINT
                prop:value=move || text.get()
                on:input:target=move |ev| shell.send(tap(NotesTap::Typed(ev.target().value())))
            ></textarea>
        </label>
    }
}

/// Between drills: a note, a question, and who wasn't asked for a while.
pub fn note_ways(shell: Shell) -> AnyView {
    let key = |(key, label, to): (&'static str, &'static str, Screen)| {
        view! {
            <button class="small-key" type="button" data-key=key on:click=shell.sends(Action::Go(to))>
                {label}
            </button>
        }
    };
    let keys =
        [("note", words::NOTE, Screen::Note), ("ask", words::ASK, Screen::Ask), ("heard", words::HEARD, Screen::Heard)];
    view! { <div class="note-ways">{keys.map(key).into_iter().collect::<Vec<_>>()}</div> }
}

/// One of several answers, as a chip.
fn chip(key: String, label: &str, on: bool, off: bool, shell: Shell, action: Action) -> AnyView {
    view! {
        <li>
            <button
                class="note-chip"
                type="button"
                data-key=key
                aria-pressed=on.to_string()
                prop:disabled=off
                on:click=shell.sends(action)
            >
                <bdi>{label.to_owned()}</bdi>
            </button>
        </li>
    }
}

/// The line that says what was kept, with the way back of that very thing.
fn said(view: Part<Option<SaidView>>, shell: Shell) -> AnyView {
    let word = Part::new(move || view.with(|said| said.as_ref().map(|said| said.word)));
    let line = Part::new(move || view.with(|said| said.as_ref().map(|said| said.line.clone()).unwrap_or_default()));
    let back = move || {
        if let Some(said) = view.get_untracked() {
            shell.send(said.back);
        }
    };
    view! {
        <div class="note-said">
            <p role="status" dir="auto" data-fig="noted">{move || line.get()}</p>
            {move || {
                word.get()
                    .map(|word| {
                        view! {
                            <button class="notice-act" type="button" data-key="note-undo" on:click=clicked(move |_| back())>
                                {word}
                            </button>
                        }
                    })
            }}
        </div>
    }
}
