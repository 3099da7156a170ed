//! The board of a run: head, net, keys, foot, and what may lie over them. Its geometry follows from the kind of board and the
//! screen alone: nothing that is counted, said or covered moves a key.

mod choices;
mod cover;
mod figures;
mod foot;
mod game;
mod groups;
mod head;
mod here;
mod keys;
mod lanes;
mod notes;
mod station;
mod strip;
mod told;

use leptos::prelude::*;

use cover::OverKeys;
use foot::Foot;
use head::Head;
use keys::Court;
use station::Station;
use strip::Strip;

use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::{BoardView, Cover, Ground, Keys, SavedView};
use crate::app::view::report::{Missing, missing};
use crate::app::words::{board as words, screens as screen_words};
use crate::domain::ids::RunId;
use crate::ui::markup::{live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::Key;

/// The board, or the way back when this phone has no such run.
#[component]
pub fn Run(view: Part<Option<BoardView>>, run: RunId, shell: Shell) -> impl IntoView {
    let here = Part::new(move || view.with(Option::is_some));
    let why = shell.view(missing);
    live(move || {
        // Asked first and always: else a board that comes later would be missed.
        let is_here = here.get();
        match view.get_untracked().filter(|_| is_here) {
            Some(first) => view! { <Board view=Watched::new(view, first) run shell /> },
            None => match why.get() {
                Missing::BeingRead => view! { <Opening /> },
                Missing::Unread(why) => view! { <Unread why shell /> },
                Missing::Gone => view! { <Gone shell /> },
            },
        }
    })
}

/// The board itself, over any view model.
#[component]
pub fn Board(view: Watched<BoardView>, run: RunId, shell: Shell) -> impl IntoView {
    announce(view, shell);
    let kind = view.part(kind);
    let at_station = view.part(|v| v.station.is_some());
    let extra = view.part(|v| {
        let groups = match v.groups.first() {
            None => "",
            Some(first) if first.ball.is_none() => " has-groups",
            Some(_) => " has-groups has-balls",
        };
        (groups, if v.clock.is_some() { " has-clock" } else { "" })
    });
    let ground = view.part(|v| v.ground);
    let left = view.part(|v| v.left_handed);
    let has_roles = view.part(|v| v.roles.is_some());
    // Without how many, so that it is told once and not at every tap.
    let not_saved = view.part(|v| match &v.saved {
        SavedView::NotSaved { why, .. } => words::saved(&SavedView::NotSaved { n: 0, why: why.clone() }),
        _ => String::new(),
    });
    let class = move || {
        let ground = match ground.get() {
            Ground::Plain => "",
            Ground::Easy => " is-easy",
            Ground::Challenge => " is-challenge",
        };
        let left = if left.get() { " is-left-handed" } else { "" };
        let roles = if has_roles.get() { " has-roles" } else { "" };
        let (groups, clock) = extra.get();
        format!("run run-{}{groups}{clock}{ground}{left}{roles}", kind.get())
    };
    view! {
        <main class=class data-screen="run">
            {live(move || {
                if at_station.get() {
                    view! { <Station view shell /> }
                } else {
                    view! { <Whole view run shell /> }
                }
            })}
            <p class="visually-hidden" role="alert">
                {move || not_saved.get()}
            </p>
            <OverKeys view run shell />
        </main>
    }
}

/// The coach's board.
#[component]
fn Whole(view: Watched<BoardView>, run: RunId, shell: Shell) -> impl IntoView {
    // Over by its rule: undo and the list stay within reach.
    let covered_whole = view.part(|v| v.cover.as_ref().is_some_and(|c| !matches!(c, Cover::Over { .. })));
    let calm = view.part(|v| v.calm.is_some());
    let choosing = RwSignal::new(None);
    let covered = view.part(|v| v.cover.is_some());
    view! {
        <div class="run-band" aria-hidden="true"></div>
        <div class="run-head" class:is-calm=move || calm.get() inert=move || covered_whole.get()>
            <Head view run choosing shell />
            <Strip view run choosing shell />
        </div>
        <div class="run-court" inert=move || covered.get()>
            <Court view choosing shell />
        </div>
        <Foot view shell />
    }
}

/// The storage is still being opened: a moment, usually.
#[component]
fn Opening() -> impl IntoView {
    view! {
        <main class="run run-gone" data-screen="run-opening">
            <h1 tabindex="-1">{words::OPENING}</h1>
        </main>
    }
}

/// A run that may lie here and can't be read.
#[component]
fn Unread(why: String, shell: Shell) -> impl IntoView {
    view! {
        <main class="run run-gone" data-screen="run">
            <h1 tabindex="-1">{words::CLOSED}</h1>
            <p role="alert">{why}</p>
            <Key key="read-again" class="way-out" press=shell.press(Action::ReadAgain)>
                {screen_words::READ_AGAIN}
            </Key>
            <Key key="leave" class="way-out is-first" press=shell.press(Action::Go(Screen::Today))>
                {words::LEAVE}
            </Key>
        </main>
    }
}

/// A run that isn't on this phone.
#[component]
fn Gone(shell: Shell) -> impl IntoView {
    view! {
        <main class="run run-gone" data-screen="run">
            <h1 tabindex="-1">{words::GONE}</h1>
            <p>{words::GONE_LINE}</p>
            <Key key="leave" class="way-out is-first" press=shell.press(Action::Go(Screen::Today))>
                {words::LEAVE}
            </Key>
        </main>
    }
}

/// What geometry follows from; constant in a run.
fn kind(view: &BoardView) -> &'static str {
    if view.station.is_some() {
        return "station";
    }
    match &view.keys {
        Keys::Floor { .. } if view.duel.is_some() => "floor run-duel",
        Keys::Floor { .. } => "floor",
        Keys::Line { .. } if view.watching => "line run-ten",
        Keys::Line { .. } => "line",
        Keys::Serve { rows, standing, .. } => match (rows.len() > 4, standing) {
            (false, false) => "serve",
            (true, false) => "serve run-five",
            (false, true) => "serve run-standing",
            (true, true) => "serve run-standing run-five",
        },
        Keys::Told { .. } => "told",
        Keys::Group { .. } => "group",
        Keys::Lanes { .. } => "lanes",
        Keys::Propped { .. } => "propped",
        Keys::Game(game) => match game.notes.as_ref().map(|notes| notes.passes) {
            None => "game",
            Some(false) => "game run-notes",
            Some(true) => "game run-notes run-passes",
        },
    }
}

/// A long name is written smaller, so that it stays whole.
fn length(name: &str) -> &'static str {
    match name.chars().count() {
        0..=6 => "is-short",
        7..=9 => "is-mid",
        _ => "is-long",
    }
}

/// For those who hear the board: the last tap, the phase when it changes. A cover takes the focus and is read by that.
fn announce(view: Watched<BoardView>, shell: Shell) {
    let heard = view.part(|v| (v.n_taps, v.ground, v.cover.clone()));
    let mut before = None;
    watch(move || {
        let now = heard.get();
        if let Some(before) = before.replace(now.clone()) {
            let line = view.now(|v| match &v.cover {
                Some(_) if now.2 != before.2 => None,
                // Of what came of a ball nothing is said where children stand around.
                _ if v.station.is_some() => v.station.as_ref().map(|s| s.turn.clone()),
                _ if now.1 != before.1 => Some(v.call.clone()),
                _ => Some(v.undo.clone().unwrap_or_else(|| words::NOTHING_TO_UNDO.to_owned())),
            });
            if let Some(line) = line {
                shell.say(line);
            }
        }
    });
}
