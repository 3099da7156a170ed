//! A part of what is stored, or a table of it: how much, whose, and as what. It is saved, or shared where there is a share sheet.

use leptos::prelude::*;

use super::pictures::{Glyph, glyph};
use crate::app::action::{Action, CopyHow};
use crate::app::view::share::ShareView;
use crate::app::words::{family, screens as words};
use crate::app::work::{Goes, TableOf};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn InParts(view: Part<ShareView>, writing: Part<bool>, shell: Shell) -> impl IntoView {
    let (span, whose) = (RwSignal::new(0usize), RwSignal::new(0usize));
    let one_child = Part::new(move || view.with(|v| v.whose.get(whose.get()).is_some_and(|(_, key)| key.is_some())));
    let send = move |table: Option<TableOf>| {
        let chosen = view.with_untracked(|v| {
            let span = v.spans.get(span.get_untracked()).map(|(_, span)| span.clone())?;
            let only = v.whose.get(whose.get_untracked()).and_then(|(_, key)| key.clone());
            let how = if v.can_share { CopyHow::ShareSheet } else { CopyHow::Download };
            Some(Action::CopyWanted(how, Goes { table, span, only }))
        });
        if let Some(action) = chosen {
            shell.send(action);
        }
    };
    let key = move |key: &'static str, label: &'static str, table: Option<TableOf>| {
        view! {
            <button
                class="row-key"
                type="button"
                data-key=key
                prop:disabled=move || writing.get()
                on:click=clicked(move |_| send(table))
            >
                <span class="row-words">{label}</span>
                {glyph(Glyph::Onward)}
            </button>
        }
    };
    let spans = Part::new(move || view.with(|v| v.spans.iter().map(|(label, _)| label.clone()).collect::<Vec<_>>()));
    let children = Part::new(move || view.with(|v| v.whose.iter().map(|(label, _)| label.clone()).collect::<Vec<_>>()));
    view! {
        <details class="parts-out card">
            <summary data-key="parts-out">{words::PART_OPEN}</summary>
            {choice("span", words::PART_OF, spans, span)}
            {choice("whose", family::OPEN, children, whose)}
            <Show when=move || !one_child.get()>{key("part-copy", words::PART_COPY, None)}</Show>
            <Show when=move || one_child.get()>{key("child-page", words::CHILD_PAGE, Some(TableOf::Page))}</Show>
            {key("table-contacts", words::TABLE_CONTACTS, Some(TableOf::Contacts))}
            <Show when=move || !one_child.get()>
                {key("table-children", words::TABLE_CHILDREN, Some(TableOf::Children))}
            </Show>
            <p class="hint">{words::TABLE_LINE}</p>
        </details>
    }
}

pub(super) fn choice(
    key: &'static str,
    label: &'static str,
    of: Part<Vec<String>>,
    chosen: RwSignal<usize>,
) -> AnyView {
    let options = move || {
        of.with(|labels| {
            let one = |(at, label): (usize, &String)| {
                view! { <option value=at.to_string() selected=at == chosen.get_untracked()>{label.clone()}</option> }
            };
            labels.iter().enumerate().map(one).collect::<Vec<_>>()
        })
    };
    view! {
        <label class="parts-span">
            <span>{label}</span>
            <select
                data-key=key
                on:change:target=move |ev| ev.target().value().parse().into_iter().for_each(|at| chosen.set(at))
            >
                {live(options)}
            </select>
        </label>
    }
}
