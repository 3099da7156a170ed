//! A question off the board, read from the phone and said aloud; and the coach's own questions.

use leptos::prelude::*;

use super::super::parts::{Head, WayTo};
use super::super::pictures::{Glyph, glyph};
use super::{chip, said, tap};
use crate::app::notes::{AskTap, ListTap, NotesTap};
use crate::app::screen::Screen;
use crate::app::view::notes::{AskView, own, pad};
use crate::app::words::notes as words;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Asking(view: Part<AskView>, shell: Shell) -> impl IntoView {
    let back = view.with_untracked(|v| v.back).unwrap_or(Screen::Today);
    let sentence = Part::new(move || view.with(|v| v.sentence.clone()));
    let nobody = Part::new(move || sentence.with(Option::is_none));
    let why = Part::new(move || view.with(|v| v.why.clone()));
    let drill = Part::new(move || view.with(|v| v.drill.clone()));
    let said_now = Part::new(move || view.with(|v| v.said.clone()));
    let asked = Part::new(move || said_now.with(Option::is_some));
    let no_other = Part::new(move || view.with(|v| (!v.other_question, !v.other_child)));
    let other = move |key: &'static str, label: &'static str, off: Part<bool>, to: AskTap| {
        view! {
            <button
                class="quiet"
                type="button"
                data-key=key
                prop:disabled=move || off.get()
                on:click=shell.sends(tap(NotesTap::Question(to)))
            >
                {label}
            </button>
        }
    };
    view! {
        <main class="screen" data-screen="ask">
            <Head title=words::ASK_TITLE.to_owned() shell back=(back, words::BACK_THERE) />
            {move || drill.get().map(|name| view! { <p class="hint" dir="auto">{words::drill(&name)}</p> })}
            <p class="ask-said is-page" dir="auto" data-fig="question">
                {move || sentence.get().map_or_else(|| words::NOBODY.to_owned(), |s| format!("“{s}”"))}
            </p>
            <p class="hint" data-fig="why">{move || why.get()}</p>
            <Show
                when=move || asked.get()
                fallback=move || {
                    view! {
                        <div class="keys-two">
                            {other("other-question", words::OTHER_QUESTION, Part::new(move || no_other.get().0), AskTap::OtherQuestion)}
                            {other("other-child", words::OTHER_CHILD, Part::new(move || no_other.get().1), AskTap::OtherChild)}
                        </div>
                        <p class="hint">{words::ASK_HOW}</p>
                    }
                }
            >
                <Answer shell />
            </Show>
            <Own shell />
            <WayTo key="heard" label=words::HEARD line=words::HEARD_LINE to=Screen::Heard shell />
            <div class="foot">
                <Show
                    when=move || asked.get()
                    fallback=move || {
                        view! {
                            <button
                                class="big"
                                type="button"
                                data-key="asked"
                                prop:disabled=move || nobody.get()
                                on:click=shell.sends(tap(NotesTap::Question(AskTap::Asked)))
                            >
                                {words::ASKED}
                            </button>
                        }
                    }
                >
                    {said(said_now, shell)}
                    <button
                        class="big"
                        type="button"
                        data-key="ask-next"
                        on:click=shell.sends(tap(NotesTap::Question(AskTap::Opened)))
                    >
                        {words::ASK_NEXT}
                    </button>
                </Show>
            </div>
        </main>
    }
}

/// What came of it, as a note about the child.
#[component]
fn Answer(shell: Shell) -> impl IntoView {
    let tags = shell.view(|m| pad(m).tags);
    let noted = shell.view(|m| pad(m).said.map(|said| said.line).unwrap_or_default());
    view! {
        <section>
            <p class="hint">{words::ANSWER}</p>
            <ul class="note-chips">
                {move || {
                    tags.with(|tags| {
                        let one = |(i, (tag, on)): (usize, &(String, bool))| {
                            chip(format!("tag.{i}"), tag, *on, false, shell, tap(NotesTap::Tagged(tag.clone())))
                        };
                        tags.iter().enumerate().map(one).collect::<Vec<_>>()
                    })
                }}
            </ul>
            <p class="hint" role="status" dir="auto" data-fig="answer">{move || noted.get()}</p>
        </section>
    }
}

/// Questions of the coach's own: of this drill, or of any.
#[component]
fn Own(shell: Shell) -> impl IntoView {
    let list = shell.view(own);
    let questions = Part::new(move || list.with(|l| l.questions.clone()));
    let typed = Part::new(move || list.with(|l| l.typing.text.clone()));
    let has_drill = Part::new(move || list.with(|l| l.has_drill));
    let of_any = Part::new(move || list.with(|l| l.of_any));
    let of = move || {
        let both = [(false, "own.drill", words::OWN_OF_DRILL), (true, "own.any", words::OWN_OF_ANY)];
        both.map(|(any, key, label)| {
            chip(key.to_owned(), label, of_any.get() == any, false, shell, tap(NotesTap::OwnOf(any)))
        })
        .into_iter()
        .collect::<Vec<_>>()
    };
    let row = move |(i, question): (usize, &String)| {
        view! {
            <li class="row-plain">
                <bdi class="row-name">{question.clone()}</bdi>
                <button
                    class="small-key"
                    type="button"
                    data-key=format!("own-remove.{i}")
                    aria-label=format!("{}: {question}", words::REMOVE)
                    on:click=shell.sends(tap(NotesTap::Own(ListTap::Removed(question.clone()))))
                >
                    {glyph(Glyph::Cross)}
                </button>
            </li>
        }
    };
    view! {
        <section class="card">
            <h2 class="section-head">{words::OWN_HEAD}</h2>
            <Show when=move || has_drill.get()>
                <ul class="note-chips">{of}</ul>
            </Show>
            <ul class="rows">{move || questions.with(|list| list.iter().enumerate().map(row).collect::<Vec<_>>())}</ul>
            <Show when=move || questions.with(Vec::is_empty)>
                <p class="hint">{words::OWN_NONE}</p>
            </Show>
            <div class="field-and-key">
                <label class="field">
                    <span class="field-label">{words::OWN_NEW}</span>
                    <input
                        class="input"
                        data-field="own"
                        type="text"
                        dir="auto"
                        autocomplete="off"
                        prop:value=move || typed.get()
                        on:input:target=move |ev| shell.send(tap(NotesTap::Own(ListTap::Typed(ev.target().value()))))
                    />
                    <span class="hint">{words::OWN_HINT}</span>
                </label>
                <button
                    class="small-key"
                    type="button"
                    data-key="own-add"
                    prop:disabled=move || typed.with(|text| text.trim().is_empty())
                    on:click=shell.sends(tap(NotesTap::Own(ListTap::Kept)))
                >
                    {words::ADD}
                </button>
            </div>
        </section>
    }
}
