//! One note: whom it is about, its tags and words, changed or taken back. Of a question what was asked; it can be taken back.

use leptos::prelude::*;

use super::super::parts::{Head, NotHere};
use super::{chip, tap};
use crate::app::notes::{EditTap, NotesTap};
use crate::app::screen::Screen;
use crate::app::view::notes::{EditView, RemarkView};
use crate::app::words::notes as words;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

const BACK: (Screen, &str) = (Screen::Notes, words::BACK);

#[component]
pub fn OneRemark(view: Part<Option<RemarkView>>, shell: Shell) -> impl IntoView {
    let there = Part::new(move || view.with(Option::is_some));
    live(move || {
        if there.get() {
            view! { <One view shell /> }
        } else {
            view! { <NotHere screen="remark" back=BACK shell /> }
        }
    })
}

#[component]
fn One(view: Part<Option<RemarkView>>, shell: Shell) -> impl IntoView {
    let when = Part::new(move || view.with(|v| v.as_ref().map(|v| v.when.clone()).unwrap_or_default()));
    let asked = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.asked.clone())));
    let is_note = Part::new(move || view.with(|v| v.as_ref().is_some_and(|v| v.edit.is_some())));
    let taken = Part::new(move || view.with(|v| v.as_ref().is_some_and(|v| v.taken_back)));
    let changed = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.edit.as_ref()).is_some_and(|e| e.changed)));
    let off = Part::new(move || {
        view.with(|v| v.as_ref().and_then(|v| v.edit.as_ref()).is_none_or(|e| e.empty || e.too_long))
    });
    let title = Signal::derive(move || {
        if asked.with(Option::is_some) { words::REMARK_ASKED.to_owned() } else { words::REMARK_NOTE.to_owned() }
    });
    let back = move |_| {
        let id = view.with_untracked(|v| v.as_ref().map(|v| v.id));
        if let Some(id) = id {
            let to = if taken.get_untracked() { NotesTap::PutBack(id) } else { NotesTap::TakenBack(id) };
            shell.send(tap(to));
        }
    };
    view! {
        <main class="screen" data-screen="remark">
            <Head title shell back=BACK />
            <p class="hint" dir="auto">{move || when.get()}</p>
            <Show when=move || taken.get()>
                <p class="notice" role="status">{words::IS_TAKEN_BACK}</p>
            </Show>
            {move || {
                asked
                    .get()
                    .map(|(who, what)| {
                        view! {
                            <p class="lead" dir="auto">{who}</p>
                            <p class="ask-said is-page" dir="auto">{format!("“{what}”")}</p>
                        }
                    })
            }}
            <Show when=move || is_note.get()>
                <Edit view shell />
            </Show>
            <button class="quiet" type="button" data-key="remark-back" on:click=clicked(back)>
                {move || if taken.get() { words::PUT_BACK } else { words::TAKE_BACK }}
            </button>
            // At the thumb as soon as something is changed: nobody goes back without having seen it.
            <Show when=move || changed.get()>
                <div class="foot is-bar">
                    <button
                        class="big"
                        type="button"
                        data-key="note-keep"
                        prop:disabled=move || off.get()
                        on:click=shell.sends(tap(NotesTap::Edit(EditTap::Kept)))
                    >
                        {words::KEEP}
                    </button>
                </div>
            </Show>
        </main>
    }
}

#[component]
fn Edit(view: Part<Option<RemarkView>>, shell: Shell) -> impl IntoView {
    fn of<T: PartialEq + Default + Clone + Send + Sync + 'static>(
        view: Part<Option<RemarkView>>,
        f: fn(&EditView) -> T,
    ) -> Part<T> {
        Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.edit.as_ref()).map(f).unwrap_or_default()))
    }
    let (children, others) = (of(view, |e| e.children.clone()), of(view, |e| e.others.clone()));
    let (tags, text) = (of(view, |e| e.tags.clone()), of(view, |e| e.text.clone()));
    let too_long = of(view, |e| e.too_long);
    let edit = |to: EditTap| tap(NotesTap::Edit(to));
    view! {
        <ul class="note-chips" aria-label=words::ABOUT>
            {move || {
                children.with(|list| {
                    let one = |(i, (player, name, on)): (usize, &(_, String, bool))| {
                        chip(format!("about.{i}"), name, *on, false, shell, edit(EditTap::Child(*player)))
                    };
                    list.iter().enumerate().map(one).collect::<Vec<_>>()
                })
            }}
        </ul>
        <ul class="note-chips note-all" aria-label=words::ABOUT_ALL>
            {move || {
                others.with(|list| {
                    let one = |(i, (about, label, on)): (usize, &(crate::domain::notes::NoteAbout, String, bool))| {
                        chip(format!("about-all.{i}"), label, *on, false, shell, edit(EditTap::About(about.clone())))
                    };
                    list.iter().enumerate().map(one).collect::<Vec<_>>()
                })
            }}
        </ul>
        <section>
            <h2 class="section-head">{words::TAGS_LABEL}</h2>
            <ul class="note-chips">
                {move || {
                    tags.with(|list| {
                        let one = |(i, (tag, on)): (usize, &(String, bool))| {
                            chip(format!("tag.{i}"), tag, *on, false, shell, edit(EditTap::Tagged(tag.clone())))
                        };
                        list.iter().enumerate().map(one).collect::<Vec<_>>()
                    })
                }}
            </ul>
        </section>
        <label class="note-words field">
            <span class="field-label">{words::WORDS}</span>
            <textarea
                class="input"
                data-field="note-change"
                rows="4"
                maxlength=words::MOST_WORDS.to_string()
                dir="auto"
                prop:value=move || text.get()
                on:input:target=move |ev| shell.send(edit(EditTap::Typed(ev.target().value())))
            ></textarea>
        </label>
        <Show when=move || too_long.get()>
            <p class="notice" role="status">{words::TOO_LONG}</p>
        </Show>
    }
}
