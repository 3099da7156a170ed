//! One row of the list: a contact, or an effort with its choices.

use leptos::prelude::*;

use super::super::parts::Choice;
use crate::app::action::Action;
use crate::app::view::report::{ContactRow, EffortRow};
use crate::app::words::screens as words;
use crate::ui::markup::view;
use crate::ui::shell::Shell;

/// A contact: a tap opens the sheet that puts it right.
pub fn contact(key: String, row: &ContactRow, shell: Shell) -> impl IntoView + use<> {
    let id = row.contact;
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=key
                on:click=shell.sends(Action::ContactChosen(Some(id)))
            >
                <span class="row-no">{row.no.clone().unwrap_or_else(|| "–".to_owned())}</span>
                <span class="row-words">
                    <bdi class="row-name">{row.who.clone()}</bdi>
                    <span class="row-line">
                        {row.what.clone()}
                        {row.feed.clone().map(|feed| view! { <span class="row-feed">{feed}</span> })}
                    </span>
                </span>
                <span class="row-side">
                    <span class="hint">{row.when.clone()}</span>
                    {row.corrected.then(|| view! { <span class="badge">{words::CORRECTED}</span> })}
                </span>
            </button>
        </li>
    }
}

/// An effort, with the names and kinds under it once it is tapped.
pub fn effort(key: String, row: &EffortRow, shell: Shell) -> impl IntoView + use<> {
    let id = row.effort;
    let is_open = row.open.is_some();
    let kind_now = row.kind.clone();
    let choice = row.open.clone().map(|open| {
        let player_now = open.player;
        let names: Vec<_> = open
            .names
            .into_iter()
            .enumerate()
            .map(|(i, (player, name, is))| {
                let kind = kind_now.clone();
                view! {
                    <Choice
                        key=format!("effort-name.{i}")
                        label=name
                        chosen=Signal::derive(move || is)
                        on_tap=shell.press(Action::EffortGiven(id, Some(player), kind.clone()))
                    />
                }
            })
            .collect();
        let kinds: Vec<_> = open
            .kinds
            .into_iter()
            .enumerate()
            .map(|(i, (kind, is))| {
                let to = (!is).then(|| kind.clone());
                view! {
                    <Choice
                        key=format!("effort-kind.{i}")
                        label=kind
                        chosen=Signal::derive(move || is)
                        on_tap=shell.press(Action::EffortGiven(id, player_now, to.clone()))
                    />
                }
            })
            .collect();
        view! {
            <div class="choices choices-names" role="group" aria-label=words::EFFORT_WHOSE>{names}</div>
            <div class="choices choices-outcomes" role="group" aria-label=words::EFFORT_KIND>{kinds}</div>
        }
    });
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=key
                aria-expanded=if is_open { "true" } else { "false" }
                on:click=shell.sends(Action::EffortChosen((!is_open).then_some(id)))
            >
                <span class="row-words">
                    <bdi class="row-name">{row.who.clone()}</bdi>
                    <span class="row-line">{row.kind.clone().unwrap_or_else(|| words::EFFORT_NO_KIND.to_owned())}</span>
                </span>
                <span class="row-side">
                    <span class="hint">{row.when.clone()}</span>
                </span>
            </button>
            {choice}
        </li>
    }
}
