//! One child: name, number, how it serves; archived or not.

use leptos::prelude::*;

use super::notes::{remarks, tap};
use super::parts::{Choice, Head, NotHere};
use super::pictures::{Glyph, glyph, serving};
use super::removal::Removal;
use crate::app::action::Action;
use crate::app::notes::NotesTap;
use crate::app::screen::Screen;
use crate::app::view::notes::of_child;
use crate::app::view::squad::ChildView;
use crate::app::words::{notes as note_words, screens as words, weeks};
use crate::domain::skill::ServeStyle;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

const BACK: (Screen, &str) = (Screen::Squad, words::BACK_TO_SQUAD);

#[component]
pub fn Child(view: Part<Option<ChildView>>, shell: Shell) -> impl IntoView {
    let there = Part::new(move || view.with(Option::is_some));
    live(move || {
        if there.get() {
            view! { <Form view shell /> }
        } else {
            view! { <NotHere screen="child" back=BACK shell /> }
        }
    })
}

#[component]
fn Form(view: Part<Option<ChildView>>, shell: Shell) -> impl IntoView {
    // The form stands only while the child is there; the spare values never show.
    let of = move |f: fn(&ChildView) -> String| view.with(|v| v.as_ref().map(f).unwrap_or_default());
    let title = Signal::derive(move || {
        let name = of(|v| v.name.clone());
        if name.trim().is_empty() { words::CHILD.to_owned() } else { name }
    });
    let fault = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.fault.clone())));
    let style = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.style)));
    let changed = Part::new(move || view.with(|v| v.as_ref().is_some_and(|v| v.changed)));
    let archived = Part::new(move || view.with(|v| v.as_ref().is_some_and(|v| v.archived)));
    let archive = move |to: bool| {
        if let Some(player) = view.with_untracked(|v| v.as_ref().map(|v| v.player)) {
            shell.send(Action::ChildArchived(player, to));
        }
    };
    let player = Part::new(move || view.with(|v| v.as_ref().map(|v| v.player)));
    let over_weeks = move || {
        if let Some(player) = player.get_untracked() {
            shell.send(Action::Go(Screen::Weeks(Some(player))));
        }
    };
    let noted = shell.view(move |m| match m.screen {
        Screen::Child(player) => of_child(m, player),
        _ => Vec::new(),
    });
    let note = move || {
        if let Some(player) = player.get_untracked() {
            shell.send(tap(NotesTap::Wanted(None, Some(player))));
        }
    };
    let styles = ServeStyle::ALL.into_iter().enumerate().map(|(i, which)| {
        view! {
            <Choice
                key=format!("style.{i}")
                label=words::serve_style(which)
                chosen=Signal::derive(move || style.get() == Some(which))
                on_tap=shell.press(Action::ChildStyleChosen(which))
                picture=move || serving(which)
            />
        }
    });
    view! {
        <main class="screen" data-screen="child">
            <Head title shell back=BACK />
            <Show when=move || archived.get()>
                <p class="notice">{words::IS_ARCHIVED}</p>
            </Show>
            <div class="field-pair">
                <label class="field">
                    <span class="field-label">{words::NAME}</span>
                    <input
                        class="input"
                        data-field="child-name"
                        type="text"
                        dir="auto"
                        autocomplete="off"
                        spellcheck="false"
                        prop:value=move || of(|v| v.name.clone())
                        on:input:target=move |ev| shell.send(Action::ChildNameTyped(ev.target().value()))
                    />
                </label>
                <label class="field field-short">
                    <span class="field-label">{words::NUMBER}</span>
                    <input
                        class="input"
                        data-field="child-number"
                        type="text"
                        inputmode="numeric"
                        autocomplete="off"
                        placeholder=words::NUMBER_HINT
                        prop:value=move || of(|v| v.number.clone())
                        on:input:target=move |ev| shell.send(Action::ChildNumberTyped(ev.target().value()))
                    />
                </label>
            </div>
            <section>
                <h2 class="section-head">{words::SERVES}</h2>
                <p class="hint">{words::SERVES_HINT}</p>
                <div class="choices choices-two">{styles.collect::<Vec<_>>()}</div>
            </section>
            <button class="plan-way" type="button" data-key="weeks" on:click=clicked(move |_| over_weeks())>
                <span class="fold-label">{weeks::OPEN}</span>
                <span class="fold-count"></span>
                {glyph(Glyph::Onward)}
            </button>
            {move || noted.with(|rows| remarks(rows, shell))}
            <button class="quiet" type="button" data-key="note-add" on:click=clicked(move |_| note())>
                {note_words::ADD_NOTE}
            </button>
            <Show
                when=move || archived.get()
                fallback=move || {
                    view! {
                        <button
                            class="quiet"
                            type="button"
                            data-key="child-archive"
                            on:click=clicked(move |_| archive(true))
                        >
                            {words::ARCHIVE}
                        </button>
                    }
                }
            >
                <button class="quiet" type="button" data-key="child-back" on:click=clicked(move |_| archive(false))>
                    {words::BRING_BACK}
                </button>
            </Show>
            <Removal shell />
            <div class="foot">
                <p class="fault" role="status">{move || fault.get()}</p>
                <button
                    class="big"
                    type="button"
                    data-key="child-keep"
                    prop:disabled=move || !changed.get() || fault.with(Option::is_some)
                    on:click=shell.sends(Action::ChildKept)
                >
                    {move || if changed.get() { words::KEEP } else { words::KEPT }}
                </button>
            </div>
        </main>
    }
}
