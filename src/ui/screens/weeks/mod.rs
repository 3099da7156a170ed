//! Over the weeks: every child in the squad's order with one sentence; one child with its charts in `child`.

mod chart;
mod child;

pub use child::ChildOverWeeks;

use leptos::prelude::*;

use super::parts::{Empty, Head, WayTo};
use super::pictures::{Glyph, court, glyph};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::today::Picture;
use crate::app::view::weeks::{ChildLine, State, WeeksView};
use crate::app::words::{screens, trust, weeks as words};
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn OverWeeks(view: Part<WeeksView>, shell: Shell) -> impl IntoView {
    let state = Part::new(move || view.with(|v| v.state.clone()));
    let rows = Part::new(move || view.with(|v| v.children.clone()));
    view! {
        <main class="screen" data-screen="weeks">
            <Head title=words::TITLE.to_owned() shell back=(Screen::After, screens::BACK_TO_AFTER) />
            {live(move || state.with(standing))}
            <p class="hint">{words::EFFORTS_LINE}</p>
            {live(move || {
                rows.with(|rows| {
                    let rows: Vec<_> = rows.iter().enumerate().map(|(i, row)| child(i, row, shell)).collect();
                    view! { <ul class="rows card">{rows}</ul> }
                })
            })}
            <WayTo key="trust" label=trust::TITLE line=trust::OPEN_LINE to=Screen::Trust shell />
        </main>
    }
}

fn child(i: usize, row: &ChildLine, shell: Shell) -> AnyView {
    let player = row.player;
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=format!("child.{i}")
                on:click=shell.sends(Action::Go(Screen::Weeks(Some(player))))
            >
                <span class="row-words">
                    <bdi class="row-name">{row.name.clone()}</bdi>
                    {row.effort.clone().map(|line| view! { <span class="row-line">{line}</span> })}
                    {row.line.clone().map(|line| view! { <span class="row-line" data-fig=format!("change.{i}")>{line}</span> })}
                </span>
                {glyph(Glyph::Onward)}
            </button>
        </li>
    }
}

/// What there is to say while the levels are not there.
pub(super) fn standing(state: &State) -> Option<AnyView> {
    Some(match state {
        State::Known => return None,
        State::Working => view! { <p class="hint" role="status" data-fig="working">{words::WORKING}</p> },
        State::Nothing => {
            view! { <Empty heading=words::NOTHING line=words::NOTHING_LINE picture=|| court(Picture::Told) /> }
        }
        State::Trouble(why) => {
            let line = format!("{} {why}", words::NOT_WORKED);
            view! { <p class="fault" role="alert">{line}</p> }
        }
    })
}
