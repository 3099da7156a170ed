//! The list: typed or pasted, each line shown as it was understood before anything is added.

use leptos::prelude::*;

use super::parts::Head;
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::squad::{LineView, RosterLine, RosterView};
use crate::app::words::screens as words;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Roster(view: Part<RosterView>, shell: Shell) -> impl IntoView {
    let take = Part::new(move || view.with(|v| v.take.clone()));
    view! {
        <main class="screen" data-screen="roster">
            <Head title=words::ROSTER.to_owned() shell back=(Screen::Squad, words::BACK_TO_SQUAD) />
            <label class="field">
                <span class="field-label">{words::ROSTER_LABEL}</span>
                <textarea
                    class="sheet-of-names"
                    data-field="roster"
                    rows="6"
                    dir="auto"
                    autocomplete="off"
                    autocapitalize="words"
                    spellcheck="false"
                    aria-describedby="roster-hint"
                    prop:value=move || view.with(|v| v.text.clone())
                    on:input:target=move |ev| shell.send(Action::RosterTyped(ev.target().value()))
                ></textarea>
            </label>
            <p class="hint" id="roster-hint">{words::ROSTER_HINT}</p>
            <section class="understood">
                <h2 class="section-head">{words::ROSTER_PREVIEW}</h2>
                <p class="hint" role="status" data-fig="roster">
                    {move || {
                        view.with(|v| {
                            if v.lines.is_empty() { words::ROSTER_EMPTY.to_owned() } else { v.summary.clone() }
                        })
                    }}
                </p>
                <ol class="lines">
                    {move || view.with(|v| v.lines.iter().map(line).collect::<Vec<_>>())}
                </ol>
            </section>
            <div class="foot">
                <button
                    class="big"
                    type="button"
                    data-key="roster-take"
                    prop:disabled=move || take.with(Option::is_none)
                    on:click=shell.sends(Action::RosterTaken)
                >
                    {move || take.get().unwrap_or_else(|| words::ROSTER_NOTHING.to_owned())}
                </button>
            </div>
        </main>
    }
}

fn line(line: &RosterLine) -> AnyView {
    match &line.read {
        LineView::Child { name, number, note } => view! {
            <li class="line">
                <span class="shirt">{number.clone().unwrap_or_default()}</span>
                <span class="line-words">
                    <bdi class="line-name">{name.clone()}</bdi>
                    {note.clone().map(|note| view! { <span class="hint">{note}</span> })}
                </span>
                {glyph(Glyph::Tick)}
            </li>
        },
        LineView::NotUnderstood { why } => view! {
            <li class="line line-lost">
                {glyph(Glyph::Warn)}
                <span class="line-words">
                    <bdi class="line-name">{line.as_typed.clone()}</bdi>
                    <span class="line-why">{why.clone()}</span>
                </span>
            </li>
        },
    }
}
