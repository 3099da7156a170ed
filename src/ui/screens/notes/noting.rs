//! A note between drills: a name, a tag, and it is kept. Words below.

use leptos::prelude::*;

use super::super::parts::{Head, WayTo};
use super::{chip, said, tap, words_field};
use crate::app::notes::NotesTap;
use crate::app::screen::Screen;
use crate::app::view::notes::{PadView, SubjectKey};
use crate::app::words::{notes as words, screens};
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Noting(view: Part<PadView>, shell: Shell) -> impl IntoView {
    let title = Signal::derive(move || view.with(|v| v.title.clone()));
    let of = Part::new(move || view.with(|v| v.of.clone()));
    let children = Part::new(move || view.with(|v| v.children.clone()));
    let others = Part::new(move || view.with(|v| v.others.clone()));
    let tags = Part::new(move || view.with(|v| (v.tags.clone(), v.nobody)));
    let nobody = Part::new(move || view.with(|v| v.nobody));
    let said_now = Part::new(move || view.with(|v| v.said.clone()));
    let some_said = Part::new(move || said_now.with(Option::is_some));
    let no_words = Part::new(move || view.with(|v| v.nobody || v.words.trim().is_empty()));
    view! {
        <main class="screen" data-screen="note">
            <Head title shell back=(Screen::Today, screens::BACK_TO_TODAY) />
            {move || of.get().map(|name| view! { <p class="hint" dir="auto">{name}</p> })}
            <ul class="note-chips" aria-label=words::ABOUT>
                {move || children.with(|list| subjects("note-child", list, shell))}
            </ul>
            <ul class="note-chips note-all" aria-label=words::ABOUT_ALL>
                {move || others.with(|list| subjects("note-all", list, shell))}
            </ul>
            <section>
                <h2 class="section-head">{words::TAGS_LABEL}</h2>
                <p class="hint">{move || if nobody.get() { words::WHOM_FIRST } else { words::THEN_TAG }}</p>
                <ul class="note-chips">
                    {move || {
                        tags.with(|(tags, nobody)| {
                            let one = |(i, (tag, on)): (usize, &(String, bool))| {
                                chip(format!("tag.{i}"), tag, *on, *nobody, shell, tap(NotesTap::Tagged(tag.clone())))
                            };
                            tags.iter().enumerate().map(one).collect::<Vec<_>>()
                        })
                    }}
                </ul>
            </section>
            <section>
                <h2 class="section-head">{words::WORDS}</h2>
                {words_field(Part::new(move || view.with(|v| v.words.clone())), shell)}
                <button
                    class="quiet"
                    type="button"
                    data-key="words-keep"
                    prop:disabled=move || no_words.get()
                    on:click=shell.sends(tap(NotesTap::Kept))
                >
                    {words::WORDS_KEEP}
                </button>
            </section>
            <p class="hint">{words::PRIVATE}</p>
            <WayTo key="notes" label=words::ALL line=words::ALL_LINE to=Screen::Notes shell />
            <Show when=move || some_said.get()>
                <div class="foot">{said(said_now, shell)}</div>
            </Show>
        </main>
    }
}

fn subjects(key: &'static str, list: &[SubjectKey], shell: Shell) -> Vec<AnyView> {
    let one = |(i, of): (usize, &SubjectKey)| {
        chip(format!("{key}.{i}"), &of.label, of.chosen, false, shell, tap(NotesTap::About(of.subject)))
    };
    list.iter().enumerate().map(one).collect()
}
