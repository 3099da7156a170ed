//! A file that was opened and not yet taken in: one sentence, then by practice, by phone, by child, then what both sides changed.

use leptos::prelude::*;

use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::view::share::{LookingView, ParcelView};
use crate::app::words::copies as told;
use crate::app::words::screens as words;
use crate::app::work::Line;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;

/// So many practices are looked over at once.
const MOST_OPEN: usize = 6;

pub fn preview(parcel: &ParcelView, shell: Shell) -> impl IntoView + use<> {
    let preview = &parcel.preview;
    let lines: Vec<_> = preview.lines.iter().map(|line| view! { <p class="hint">{line.clone()}</p> }).collect();
    let differs: Vec<_> = preview.differs.iter().map(|line| view! { <li dir="auto">{line.clone()}</li> }).collect();
    let differ = (!differs.is_empty()).then(|| {
        view! {
            <section class="card differs" data-fig="differs">
                <h2 class="section-head">{told::DIFFERS}</h2>
                <p class="hint">{told::DIFFERS_LINE}</p>
                <ul class="news">{differs}</ul>
            </section>
        }
    });
    let nothing_new = preview.nothing_new;
    let removes = preview.removes.is_some();
    let stored = if removes { told::NOTHING_STORED_REMOVES } else { told::NOTHING_STORED };
    view! {
        <section class="card parcel" data-fig="parcel">
            {preview.removes.clone().map(|line| view! { <p class="parcel-removes" data-fig="removes">{glyph(Glyph::Warn)} <span>{line}</span></p> })}
            <p class="lead" data-fig="lead">{preview.lead.clone()}</p>
            {parcel.differ.clone().map(|line| view! { <p class="parcel-differ" data-fig="differ">{line}</p> })}
            {lines}
            <p class="hint"><bdi>{parcel.name.clone()}</bdi> " · " {parcel.from.clone()}</p>
            {(!nothing_new).then(|| view! { <p class="hint">{stored}</p> })}
        </section>
        {part("practices", told::BY_PRACTICE, &preview.practices, preview.practices.len() <= MOST_OPEN)}
        {part("phones", told::BY_PHONE, &preview.phones, false)}
        {part("children", told::BY_CHILD, &preview.children, false)}
        {differ}
        <div class="foot">
            {(!nothing_new)
                .then(|| {
                    view! {
                        <button
                            class="big"
                            type="button"
                            data-key="parcel-accept"
                            on:click=shell.sends(Action::ParcelAccepted)
                        >
                            {if removes { words::PARCEL_ACCEPT_REMOVES } else { words::PARCEL_ACCEPT }}
                        </button>
                    }
                })}
            <button
                class="quiet"
                type="button"
                data-key="parcel-decline"
                on:click=shell.sends(Action::ParcelDeclined)
            >
                {if nothing_new { words::CLOSE } else { words::PARCEL_DECLINE }}
            </button>
        </div>
    }
}

/// How far the file was looked at, and the key that leaves it.
#[component]
pub fn Looking(view: Part<Option<LookingView>>, shell: Shell) -> impl IntoView {
    let at = move || view.with(|v| v.as_ref().map_or(0, |v| v.at).to_string());
    let says = move || view.with(|v| v.as_ref().map(|v| v.says));
    view! {
        <section class="card looking" data-fig="looking">
            <p role="status">{says}</p>
            <progress class="looking-bar" max="100" prop:value=at aria-label=words::FILE_READING></progress>
            <button class="quiet" type="button" data-key="look-stop" on:click=shell.sends(Action::LookStopped)>
                {told::LOOK_STOP}
            </button>
        </section>
    }
}

fn part(key: &'static str, head: &'static str, lines: &[Line], open: bool) -> Option<impl IntoView + use<>> {
    let rows: Vec<_> = lines
        .iter()
        .map(|line| {
            view! {
                <li class="merge-row">
                    <bdi class="row-name">{line.name.clone()}</bdi>
                    <span class="row-line" dir="auto">{line.what.clone()}</span>
                </li>
            }
        })
        .collect();
    let head = told::counted_head(head, rows.len());
    (!rows.is_empty()).then(|| {
        view! {
            <details class="card merge-part" data-fig=key open=open>
                <summary data-key=format!("by-{key}")>{head}</summary>
                <ul class="merge-rows">{rows}</ul>
            </details>
        }
    })
}
