//! What children see who score themselves: whose turn it is, huge keys, their names, one undo. Nothing else can be reached; the coach
//! holds a key of its own to end it.

use std::time::Duration;

use leptos::prelude::*;

use super::keys::{OutcomeButton, name_key};
use super::length;
use crate::app::action::Action;
use crate::app::view::board::{BoardView, NameKey, StationCheck as Check, StationKeys, StationView};
use crate::app::words::{board as board_words, station as words};
use crate::domain::skill::Outcome;
use crate::ui::markup::{live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, HoldKey, Icon, Key, Saved, Shape, unmark};

/// Longer than a child leans on a key; `--hold` in station.css shows the same time.
const LEAVE: Duration = Duration::from_millis(2_000);

/// Up to so many names stand in rows of three, and so many without scrolling.
const N_WIDE: usize = 9;
const N_STANDING: usize = 12;

#[component]
pub fn Station(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let text = move |f: fn(&StationView) -> String| view.part(move |v| v.station.as_ref().map(f).unwrap_or_default());
    let title = view.part(|v| match v.station.as_ref().and_then(|s| s.group.as_ref()) {
        Some(group) => format!("{}, {group}", v.title),
        None => v.title.clone(),
    });
    let saved = view.part(|v| v.saved.clone());
    let turn = text(|s| s.turn.clone());
    let played = text(|s| s.played.clone());
    let undo = view.part(|v| v.station.as_ref().and_then(|s| s.undo.clone()));
    let covered = view.part(|v| v.cover.is_some());
    let done = view.part(|v| v.station.as_ref().is_some_and(|s| s.done));
    let waits = view.part(|v| v.station.as_ref().is_some_and(|s| s.waits));
    let off = view.part(|v| v.station.as_ref().is_none_or(|s| s.rests));
    let named = view.part(|v| v.station.as_ref().is_some_and(|s| !s.names.is_empty()));
    let coach = view.part(|v| v.station.as_ref().is_some_and(|s| s.check == Some(Check::Coach)));
    let checks = view.part(|v| v.station.as_ref().is_some_and(|s| s.check.is_some()));
    // Which key the child tapped is no hint for the coach.
    watch(move || {
        if coach.get() {
            unmark();
        }
    });
    let ten = view.part(|v| v.station.as_ref().and_then(|s| s.ten.clone()));
    let says = move || match (done.get(), waits.get()) {
        _ if coach.get() => words::COACH_SEES.to_owned(),
        (true, _) => words::DONE.to_owned(),
        (_, true) => words::WAITS.to_owned(),
        _ if named.get() => ten.get().map_or_else(|| words::TURN.to_owned(), |ten| words::ten_and_turn(&ten)),
        _ => words::SCORE.to_owned(),
    };
    let keys = view.part(|v| v.station.as_ref().map(|s| s.keys.clone()));
    let undo_off = Signal::derive(move || undo.with(Option::is_none));
    let pressed = move || match keys.get() {
        None => Vec::new(),
        Some(StationKeys::Lane(group)) => vec![view! {
            <Key key="lane.own" class="station-lane" off=off press=shell.press(Action::LaneTapped(group))>
                <b>{words::GOOD_ONE}</b>
            </Key>
        }],
        Some(StationKeys::Outcomes(keys)) => keys
            .into_iter()
            .map(|key| view! { <OutcomeButton key off=off press=shell.press(Action::OutcomeTapped(key.outcome)) /> })
            .collect(),
    };
    let class = move || {
        let n = keys.with(|keys| match keys {
            Some(StationKeys::Outcomes(keys)) => keys.len(),
            _ => 1,
        });
        format!("outcomes station-keys has-{n}")
    };
    view! {
        <div class="run-band" aria-hidden="true"></div>
        <div
            class="station"
            class:is-check=move || checks.get()
            class:is-coach=move || coach.get()
            inert=move || covered.get()
        >
            <div class="station-head">
                <div class="station-bar">
                    <h1 tabindex="-1" dir="auto">{move || title.get()}</h1>
                    <Saved saved shell />
                </div>
                <p class="station-says" role="status" data-fig="station">
                    {says}
                </p>
                <strong class=move || turn.with(|name| format!("station-name {}", length(name))) data-fig="turn" dir="auto">
                    {move || turn.get()}
                </strong>
                <span class="station-played" data-fig="played">{move || played.get()}</span>
            </div>
            <Names view shell />
            <div class=class>{live(pressed)}</div>
            <div class="station-foot">
                <Key key="undo" class="undo-key" off=undo_off press=shell.press(Action::UndoTapped)>
                    <Icon shape=Shape::Undo />
                    <bdi>{move || undo.get().unwrap_or_else(|| words::UNDO.to_owned())}</bdi>
                </Key>
                {live(move || checks.get().then(|| not_seen(coach, shell)))}
                <HoldKey
                    key="station-leave"
                    class="hold-key"
                    long=LEAVE
                    label=words::LEAVE_LABEL
                    held=shell.press(Action::StationLeft)
                >
                    <Icon shape=Shape::Hold />
                    <span>{words::LEAVE}</span>
                </HoldKey>
            </div>
        </div>
    }
}

/// For a ball that the coach had no eye on.
fn not_seen(coach: Part<bool>, shell: Shell) -> AnyView {
    let off = Signal::derive(move || !coach.get());
    view! {
        <Key key="not-seen" class="undo-key" off=off press=shell.press(Action::OutcomeTapped(Outcome::NoChance))>
            {words::NOT_SEEN}
        </Key>
    }
}

/// The children's names, to say who it is.
#[component]
fn Names(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let names = view.part(|v| names_of(v).iter().map(|n| (n.player, n.name.clone())).collect::<Vec<_>>());
    let current = view.part(|v| names_of(v).iter().find(|n| n.current).map(|n| n.player));
    live(move || {
        let names = names.get();
        if names.is_empty() {
            return None;
        }
        let (long, close) = (names.len() > N_STANDING, names.len() > N_WIDE);
        let answer = if long { Answer::Up } else { Answer::Down };
        let keys: Vec<_> = names
            .into_iter()
            .enumerate()
            .map(|(i, (player, name))| name_key(i, player, name, current, answer, shell))
            .collect();
        Some(view! {
            <div class="names station-names" class:is-long=long class:is-close=close role="group" aria-label=board_words::NAMES>
                {keys}
            </div>
        })
    })
}

fn names_of(view: &BoardView) -> &[NameKey] {
    view.station.as_ref().map(|s| s.names.as_slice()).unwrap_or_default()
}
