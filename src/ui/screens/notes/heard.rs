//! Who was asked, noted and seen in the last weeks: first a sentence with those to think of next, then the squad in its own order.

use leptos::prelude::*;

use super::super::parts::{Empty, Head, WayTo};
use super::super::pictures::{Glyph, court, glyph};
use super::tap;
use crate::app::action::Action;
use crate::app::notes::{AskTap, NotesTap, Sought, Source};
use crate::app::screen::Screen;
use crate::app::view::notes::{HeardRow, HeardView};
use crate::app::view::today::Picture;
use crate::app::words::{notes as words, screens};
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn Heard(view: Part<HeardView>, shell: Shell) -> impl IntoView {
    let spans = Part::new(move || view.with(|v| v.spans.clone()));
    let first = Part::new(move || view.with(|v| v.first.clone()));
    let rows = Part::new(move || view.with(|v| v.rows.clone()));
    let no_practice = Part::new(move || first.with(Vec::is_empty));
    let can_ask = Part::new(move || view.with(|v| v.can_ask));
    view! {
        <main class="screen" data-screen="heard">
            <Head title=words::HEARD.to_owned() shell back=(Screen::After, screens::BACK_TO_AFTER) />
            <Show
                when=move || no_practice.get()
                fallback=move || {
                    view! {
                        <section class="card heard-first" data-fig="heard-first">
                            {move || {
                                first.with(|lines| {
                                    lines.iter().map(|line| view! { <p dir="auto">{line.clone()}</p> }).collect::<Vec<_>>()
                                })
                            }}
                        </section>
                        <p class="hint" data-fig="spans">{move || spans.get()}</p>
                        <ul class="rows card">
                            {move || rows.with(|rows| rows.iter().enumerate().map(|(i, r)| row(i, r, shell)).collect::<Vec<_>>())}
                        </ul>
                        <p class="hint">{words::HEARD_HINT}</p>
                    }
                }
            >
                <Empty heading=screens::AFTER_EMPTY line=words::HEARD_NOBODY picture=|| court(Picture::Group) />
            </Show>
            <WayTo key="notes" label=words::ALL line=words::ALL_LINE to=Screen::Notes shell />
            <Show when=move || can_ask.get()>
                <div class="foot">
                    <button
                        class="big"
                        type="button"
                        data-key="ask"
                        on:click=shell.sends(tap(NotesTap::Question(AskTap::Wanted(Source::Here, None))))
                    >
                        {words::ASK_LABEL}
                    </button>
                </div>
            </Show>
        </main>
    }
}

/// Leads to what was noted of this child.
fn row(i: usize, row: &HeardRow, shell: Shell) -> AnyView {
    let player = row.player;
    let go = move |_| {
        shell.send(tap(NotesTap::Sought(Sought { child: Some(player), tag: None })));
        shell.send(Action::Go(Screen::Notes));
    };
    view! {
        <li>
            <button class="row-key" type="button" data-key=format!("heard.{i}") on:click=clicked(go)>
                <span class="row-words">
                    <bdi class="row-name">{row.name.clone()}</bdi>
                    <span class="row-line" data-fig=format!("heard.{i}")>{row.asked.clone()}</span>
                    <span class="row-line">{row.seen.clone()}</span>
                </span>
                {glyph(Glyph::Onward)}
            </button>
        </li>
    }
}
