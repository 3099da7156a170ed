//! All practices, the latest first.

use leptos::prelude::*;

use super::joining::way;
use super::parts::{Empty, Head, WayTo, closed_hint};
use super::pictures::{Glyph, court, glyph};
use crate::app::action::Action;
use crate::app::model::Model;
use crate::app::screen::Screen;
use crate::app::view::report::{AfterView, PracticeRow};
use crate::app::view::today::Picture;
use crate::app::words::{fair, notes as note_words, screens as words, trust, weeks};
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn After(view: Part<AfterView>, shell: Shell) -> impl IntoView {
    let empty = Part::new(move || view.with(|v| v.practices.is_empty()));
    let closed = shell.view(Model::is_closed);
    let hint = move || closed.get().then(|| closed_hint(words::AFTER_CLOSED_LINE, shell));
    let body = move || {
        // Of the view itself: why stands at `Part::new`.
        let empty = view.with(|v| v.practices.is_empty());
        if empty && closed.get() {
            // Why stands under it.
            return view! { <h2 class="section-head">{words::AFTER_CLOSED}</h2> };
        }
        if empty {
            return view! {
                <Empty heading=words::AFTER_EMPTY line=words::AFTER_EMPTY_LINE picture=|| court(Picture::Told) />
            };
        }
        view.with(|v| {
            let rows: Vec<_> = v.practices.iter().enumerate().map(|(i, row)| practice(i, row, shell)).collect();
            view! {
                <button class="plan-way" type="button" data-key="weeks" on:click=shell.sends(Action::Go(Screen::Weeks(None)))>
                    <span class="fold-label">{weeks::OPEN}</span>
                    <span class="fold-count">{weeks::OPEN_LINE}</span>
                    {glyph(Glyph::Onward)}
                </button>
                <button class="plan-way" type="button" data-key="fair" on:click=shell.sends(Action::Go(Screen::Fair))>
                    <span class="fold-label">{fair::OPEN}</span>
                    <span class="fold-count">{fair::OPEN_SHORT}</span>
                    {glyph(Glyph::Onward)}
                </button>
                {v.as_one.clone().map(|line| way("as-one", line, Screen::AsOne(None), shell))}
                <ul class="rows card">{rows}</ul>
            }
        })
    };
    let key = move || {
        let (key, label, to) = if empty.get() {
            ("today", words::TO_TODAY, Screen::Today)
        } else {
            ("send", words::SEND_COPY, Screen::Share)
        };
        view! {
            <button class="big" type="button" data-key=key on:click=shell.sends(Action::Go(to))>
                {label}
            </button>
        }
    };
    view! {
        <main class="screen" data-screen="after">
            <Head title=words::AFTER.to_owned() shell />
            {live(body)}
            {live(hint)}
            <WayTo key="notes" label=note_words::ALL line=note_words::ALL_LINE to=Screen::Notes shell />
            <WayTo key="heard" label=note_words::HEARD line=note_words::HEARD_LINE to=Screen::Heard shell />
            {move || (!empty.get()).then(|| view! { <WayTo key="trust" label=trust::TITLE line=trust::OPEN_LINE to=Screen::Trust shell /> })}
            <div class="foot">{live(key)}</div>
        </main>
    }
}

fn practice(i: usize, row: &PracticeRow, shell: Shell) -> impl IntoView + use<> {
    let practice = row.practice;
    view! {
        <li>
            <button
                class="row-key"
                class:row-on=row.on
                type="button"
                data-key=format!("practice.{i}")
                on:click=shell.sends(Action::Go(Screen::PracticeReport(practice)))
            >
                <span class="row-words">
                    <span class="row-name">{row.title.clone()}</span>
                    <span class="row-line">{row.when.clone()}</span>
                    <span class="row-line">{row.what.clone()}</span>
                </span>
                {row.on.then(|| view! { <span class="badge">{words::ON_NOW}</span> })}
                {glyph(Glyph::Onward)}
            </button>
        </li>
    }
}
