//! The floor of a game, drawn as it lies: the side at the top, the net, the side at the bottom, and the line at the edge. A tap on a
//! half says that it won the rally. The floor is the key; nothing on it answers by itself.

use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast;

use super::keys::OutcomeButton;
use super::length;
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::{
    BoardView, GameView, Keys, NameKey, NoteDue, NotesView, OutcomeKey, TeamView, Token, note_keys,
};
use crate::app::words::{board as words, board_lines};
use crate::domain::entry::Side;
use crate::ui::markup::{live, view};
use crate::ui::part::watch;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::Key;

#[component]
pub fn Game(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let line = view.part(|v| of(v).map(|game| game.line.clone()).unwrap_or_default());
    let too_few = view.part(|v| v.nobody);
    let notes = view.part(|v| notes_of(v).is_some());
    let waiting = move || {
        let line = line.get();
        if line.is_empty() {
            return view! { <p class="game-nobody">{words::NOBODY_WAITS}</p> };
        }
        let teams: Vec<_> = line
            .into_iter()
            .map(|team| {
                view! {
                    <li>
                        <span>{team.word}</span>
                        " "
                        <b dir="auto">{team.who}</b>
                    </li>
                }
            })
            .collect();
        view! { <ol class="game-teams" aria-label=words::GAME_LINE>{teams}</ol> }
    };
    view! {
        <div class="game">
            <div class="game-court">
                {side(view, true, shell)} {net(view)} {side(view, false, shell)}
            </div>
            {live(move || match notes.get() {
                true => view! { <Notes view shell /> },
                false => view! { <div class="game-line" data-fig="line">{live(waiting)}</div> },
            })}
            {live(move || too_few.get().then(|| view! { <TooFew shell /> }))}
        </div>
    }
}

/// Serves and passes, where a match notes them: one room for three sets of keys, of which the one that is due is seen. All are laid
/// out from the start, so that a tap writes no key anew.
#[component]
fn Notes(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let due = view.part(|v| notes_of(v).map(|notes| notes.due));
    let noted = view.part(|v| notes_of(v).map(|notes| notes.noted.clone()).unwrap_or_default());
    let receivers = view.part(|v| notes_of(v).map(|notes| notes.receivers.clone()).unwrap_or_default());
    let nobody = view.part(|v| v.nobody);
    let (serves, grades) = note_keys();
    let outcome = move |key: OutcomeKey| {
        view! { <OutcomeButton key off=nobody press=shell.press(Action::OutcomeTapped(key.outcome)) /> }
    };
    let room = move |mine: NoteDue, class: &'static str, label: &'static str, keys: AnyView| {
        view! {
            <div class=class class:is-due=move || due.get() == Some(mine) role="group" aria-label=label>
                {keys}
            </div>
        }
    };
    let names = move || {
        let row = |(at, row): (usize, Vec<NameKey>)| {
            let keys: Vec<_> = row.into_iter().enumerate().map(|(i, key)| passer((at, i), key, shell)).collect();
            view! { <span class="notes-row">{keys}</span> }
        };
        receivers.get().into_iter().enumerate().map(row).collect::<Vec<_>>()
    };
    let keys = |keys: Vec<AnyView>| view! { {keys} };
    watch(move || follow(due.get()));
    view! {
        <div class="game-notes">
            {room(NoteDue::Serve, "notes-keys is-serve", words::NOTE_SERVE, keys(serves.into_iter().map(outcome).collect()))}
            {room(NoteDue::Passer, "notes-names", words::NOTE_PASSER, view! { {live(names)} })}
            {room(NoteDue::Grade, "notes-keys is-pass", words::NOTE_PASS, keys(grades.into_iter().map(outcome).collect()))}
            <p class="notes-rest" class:is-due=move || due.get() == Some(NoteDue::Rally) data-fig="noted">
                {move || noted.get()}
            </p>
        </div>
    }
}

/// The key that a keyboard pressed is unseen as soon as something else is due, and the focus would be lost at every ball: it goes on to
/// the first key that is due. A thumb's touch shows no focus, and is left alone.
fn follow(due: Option<NoteDue>) {
    let first = match due {
        None => return,
        Some(NoteDue::Rally) => ".game-side",
        Some(_) => ".game-notes > .is-due [data-key]",
    };
    if find(".game-notes :focus-visible").is_none() {
        return;
    }
    // By then what is due is seen, and before that nothing can have the focus.
    request_animation_frame(move || {
        if let Some(key) = find(first)
            && let Err(why) = key.focus()
        {
            leptos::logging::warn!("the focus stays behind: {why:?}");
        }
    });
}

fn find(what: &str) -> Option<HtmlElement> {
    let found = document().query_selector(what).unwrap_or_else(|why| {
        leptos::logging::warn!("a key of the match is not looked for: {why:?}");
        None
    });
    // Every key is one.
    found?.dyn_into::<HtmlElement>().ok()
}

fn passer((row, at): (usize, usize), key: NameKey, shell: Shell) -> AnyView {
    let NameKey { player, name, .. } = key;
    view! {
        <Key key=format!("passer.{row}.{at}") class="passer" press=shell.press(Action::NameTapped(player))>
            <bdi class=length(&name)>{name.clone()}</bdi>
        </Key>
    }
}

/// One child alone, or nobody: the floor waits, and there is a way out.
#[component]
fn TooFew(shell: Shell) -> impl IntoView {
    view! {
        <div class="game-few">
            <p>{board_lines::TOO_FEW} " " {words::TOO_FEW_WAY}</p>
            <Key key="leave" class="way-out is-first" press=shell.press(Action::Go(Screen::Today))>
                {words::LEAVE}
            </Key>
        </div>
    }
}

/// Between two rallies its marks count to the next serve: shown one after another, nothing moves.
fn net(view: Watched<BoardView>) -> AnyView {
    let paced = view.part(|v| of(v).and_then(|game| game.paced));
    let marks = board_lines::PACE.map(|word| view! { <i>{word}</i> });
    let class = move || match paced.get() {
        None => "game-net",
        Some(true) => "game-net is-paced",
        Some(false) => "game-net is-paced is-odd",
    };
    view! {
        <div class=class aria-hidden="true">
            <span class="game-pace">{marks}</span>
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
    let points = part(|team| team.points.map(|n| n.to_string()).unwrap_or_default());
    let more = part(|team| team.more.clone().unwrap_or_default());
    let rows = view.part(move |v| of(v).map(|game| team(game, side_at(game, top)).rows.clone()).unwrap_or_default());
    let serves = view.part(move |v| of(v).is_some_and(|game| game.serves == side_at(game, top)));
    let nobody = view.part(|v| v.nobody);
    let at = if top { "top" } else { "bottom" };
    let stand = move || rows.get().iter().map(|row| standing(row)).collect::<Vec<_>>();
    view! {
        <Key
            key=format!("side.{at}")
            class=format!("game-side is-{at}")
            off=nobody
            press=move || shell.send(Action::SideWon(which.get_untracked()))
        >
            <span class="game-stand" data-fig=format!("who.{at}")>
                {live(stand)}
            </span>
            <span class="game-edge">
                <span class="game-name">
                    <b>{move || name.get()}</b>
                    <span class="game-more" data-fig=format!("more.{at}")>
                        {move || more.get()}
                    </span>
                </span>
                <span class="game-serves" class:is-on=move || serves.get() data-fig=format!("serves.{at}")>
                    <i class="game-ball" aria-hidden="true"></i>
                    {move || if serves.get() { words::GAME_SERVES } else { "" }}
                </span>
                <span class="game-points numeral" data-fig=format!("points.{at}")>
                    {move || points.get()}
                </span>
            </span>
            <span class="visually-hidden">{words::WON_IT}</span>
        </Key>
    }
}

fn standing(row: &[Token]) -> AnyView {
    let tokens: Vec<_> = row
        .iter()
        .map(|token| {
            let class = match (token.serves, token.place) {
                (true, _) => "game-token is-placed is-server",
                (false, Some(_)) => "game-token is-placed",
                (false, None) => "game-token",
            };
            view! {
                <span class=class>
                    {token.place.map(|place| view! { <i>{place}</i> })} " "
                    <bdi class=length(&token.name)>{token.name.clone()}</bdi> " "
                </span>
            }
        })
        .collect();
    let class = if row.len() > 2 { "game-row is-full" } else { "game-row" };
    view! { <span class=class>{tokens}</span> }
}

fn of(view: &BoardView) -> Option<&GameView> {
    match &view.keys {
        Keys::Game(game) => Some(game),
        _ => None,
    }
}

fn notes_of(view: &BoardView) -> Option<&NotesView> {
    of(view)?.notes.as_ref()
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
