//! A game's rallies in the list: who won one may be changed, and one may be taken back.

use leptos::prelude::*;

use super::super::parts::Choice;
use crate::app::action::Action;
use crate::app::view::report::{ContactsView, RallyRow};
use crate::app::words::screens as words;
use crate::domain::entry::Side;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

/// Every rally with the side that won it: a tap on the other one says so.
#[component]
pub fn Rallies(view: Part<Option<ContactsView>>, shell: Shell) -> impl IntoView {
    let rallies = Part::new(move || view.with(|v| v.as_ref().map(|v| v.rallies.clone()).unwrap_or_default()));
    let rows = move || rallies.get().into_iter().enumerate().map(|(i, row)| rally(i, row, shell)).collect::<Vec<_>>();
    view! {
        <p class="hint">{words::RALLIES_LINE}</p>
        <ol class="rows card">{live(rows)}</ol>
    }
}

fn rally(i: usize, row: RallyRow, shell: Shell) -> AnyView {
    let id = row.rally;
    let sides = row.sides.map(|(side, label)| {
        let is = row.won == side;
        let at = if side == Side::Near { "near" } else { "far" };
        view! {
            <Choice
                key=format!("rally.{i}.{at}")
                label=words::side_had_it(label)
                chosen=Signal::derive(move || is)
                on_tap=shell.press(Action::RallyFixed(id, side))
            />
        }
    });
    view! {
        <li class="rally-row">
            <div class="row-plain">
                <span class="row-no">{row.no}</span>
                <span class="row-words">
                    <bdi class="row-name">{row.who.clone()}</bdi>
                    <span class="row-line">{row.when} {row.corrected.then(|| view! { " " <span class="badge">{words::CORRECTED}</span> })}</span>
                </span>
                <button
                    class="small-key"
                    type="button"
                    data-key=format!("rally.{i}.back")
                    aria-label=format!("{}: {}", words::TAKE_BACK_SHORT, row.who)
                    on:click=shell.sends(Action::RallyTakenBack(id))
                >
                    {words::TAKE_BACK_SHORT}
                </button>
            </div>
            <div class="choices choices-two" role="group" aria-label=words::RALLY_WON>
                {sides}
            </div>
        </li>
    }
}
