//! The floor of a game, drawn as it lies: the side at the top, the net, the side at the bottom, and the line at the edge. A tap on a side
//! says that it won the rally.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::view::board::{BoardView, GameView, Keys, TeamView};
use crate::app::words::board as words;
use crate::domain::entry::Side;
use crate::ui::markup::view;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::Key;

#[component]
pub fn Game(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let line = view.part(|v| of(v).map(|game| game.line.clone()).unwrap_or_default());
    view! {
        <div class="game">
            <div class="game-court">
                {side(view, true, shell)} <div class="game-net" aria-hidden="true"></div> {side(view, false, shell)}
            </div>
            <ol class="game-line" aria-label=words::GAME_LINE>
                {move || {
                    line.with(|line| {
                        line.iter().map(|team| view! { <li dir="auto">{team.clone()}</li> }).collect::<Vec<_>>()
                    })
                }}
            </ol>
        </div>
    }
}

/// The half at the top of the screen, or at the bottom.
fn side(view: Watched<BoardView>, top: bool, shell: Shell) -> AnyView {
    let which = view.part(move |v| of(v).map_or(Side::Far, |game| side_at(game, top)));
    let part = move |f: fn(&TeamView) -> String| {
        view.part(move |v| of(v).map(|game| f(team(game, side_at(game, top)))).unwrap_or_default())
    };
    let name = part(|team| team.side.to_owned());
    let who = part(|team| team.who.join(", "));
    let points = part(|team| team.points.map(|n| n.to_string()).unwrap_or_default());
    let more = part(|team| team.more.clone().unwrap_or_default());
    let serves = view.part(move |v| of(v).is_some_and(|game| game.serves == side_at(game, top)));
    let nobody = view.part(|v| v.nobody);
    let at = if top { "top" } else { "bottom" };
    view! {
        <Key
            key=format!("side.{at}")
            class="game-side"
            off=nobody
            press=move || shell.send(Action::SideWon(which.get_untracked()))
        >
            <span class="game-name">{move || name.get()}</span>
            <b class="game-who" dir="auto">
                {move || who.get()}
            </b>
            <span class="game-points numeral" data-fig=format!("points.{at}")>
                {move || points.get()}
            </span>
            <span class="game-more">{move || more.get()}</span>
            <span class="game-serves">{move || serves.get().then_some(words::GAME_SERVES)}</span>
        </Key>
    }
}

fn of(view: &BoardView) -> Option<&GameView> {
    match &view.keys {
        Keys::Game(game) => Some(game),
        _ => None,
    }
}

fn side_at(game: &GameView, top: bool) -> Side {
    if top == game.turned { Side::Near } else { Side::Far }
}

fn team(game: &GameView, side: Side) -> &TeamView {
    match side {
        Side::Near => &game.near,
        Side::Far => &game.far,
    }
}
