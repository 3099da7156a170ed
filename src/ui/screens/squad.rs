//! The squad: who is in it, who was archived, and the way to add more.

use leptos::prelude::*;

use super::joining::twice;
use super::parts::{Empty, Head, closed_hint};
use super::pictures::{Glyph, court, glyph};
use crate::app::action::Action;
use crate::app::model::Model;
use crate::app::screen::Screen;
use crate::app::view::squad::{ChildRow, SquadView};
use crate::app::view::today::Picture;
use crate::app::words::screens as words;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Squad(view: Part<SquadView>, shell: Shell) -> impl IntoView {
    let closed = shell.view(Model::is_closed);
    let hint = move || closed.get().then(|| closed_hint(words::SQUAD_CLOSED_LINE, shell));
    let rows = move || {
        view.with(|v| {
            if v.active.is_empty() && closed.get() {
                // Why stands under it.
                return view! { <h2 class="section-head">{words::SQUAD_CLOSED}</h2> };
            }
            if v.active.is_empty() {
                return view! {
                    <Empty heading=words::SQUAD_EMPTY line=words::SQUAD_EMPTY_LINE picture=|| court(Picture::Group) />
                };
            }
            let rows = children(&v.active, "child", shell);
            view! { <ul class="rows card">{rows}</ul> }
        })
    };
    let archived = move || {
        view.with(|v| {
            (!v.archived.is_empty()).then(|| {
                let rows = children(&v.archived, "archived", shell);
                view! {
                    <section>
                        <h2 class="section-head">{words::ARCHIVED}</h2>
                        <p class="hint">{words::ARCHIVED_LINE}</p>
                        <ul class="rows card">{rows}</ul>
                    </section>
                }
            })
        })
    };
    let twice_there = move || view.with(|v| v.twice.clone().map(|line| twice(line, shell)));
    view! {
        <main class="screen" data-screen="squad">
            <Head title=words::SQUAD.to_owned() shell />
            {live(rows)}
            {live(hint)}
            {live(twice_there)}
            {live(archived)}
            <div class="foot">
                <button class="big" type="button" data-key="roster" on:click=shell.sends(Action::Go(Screen::Roster))>
                    {words::ADD_CHILDREN}
                </button>
            </div>
        </main>
    }
}

fn children(rows: &[ChildRow], key: &'static str, shell: Shell) -> Vec<impl IntoView + use<>> {
    rows.iter()
        .enumerate()
        .map(|(i, row)| {
            let player = row.player;
            view! {
                <li>
                    <button
                        class="row-key"
                        type="button"
                        data-key=format!("{key}.{i}")
                        on:click=shell.sends(Action::Go(Screen::Child(player)))
                    >
                        <span class="shirt">{row.number.clone().unwrap_or_default()}</span>
                        <span class="row-words">
                            <bdi class="row-name">{row.name.clone()}</bdi>
                            {row.style.map(|style| view! { <span class="row-line">{style}</span> })}
                        </span>
                        {glyph(Glyph::Onward)}
                    </button>
                </li>
            }
        })
        .collect()
}
