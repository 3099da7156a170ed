//! The keys of each board. They are laid out once for a run; what changes under a thumb is names and figures, never a place.

use std::cell::Cell;

use leptos::html::Div;
use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast;

use super::game::Game;
use super::lanes::Lanes;
use super::length;
use super::strip::Choice;
use super::told::Told;
use crate::app::action::Action;
use crate::app::view::board::{BoardView, Column, Keys, NameKey, OutcomeKey};
use crate::app::words::board as words;
use crate::domain::ids::PlayerId;
use crate::ui::markup::{live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, Key, Press, unmark};

/// Up to so many names stand without scrolling.
const N_STANDING: usize = 12;

/// The lower edge of names that scroll fades over so many CSS px (board.css).
const FADE: i32 = 18;

/// What the layout depends on. Everything else in `Keys` flows in by itself.
#[derive(Clone, PartialEq)]
enum Layout {
    Floor { n_columns: usize, rows: Vec<OutcomeKey> },
    Line { outcomes: Vec<OutcomeKey> },
    Serve { rows: Vec<(OutcomeKey, OutcomeKey)> },
    Told { of: u8 },
    Group { outcomes: Vec<OutcomeKey> },
    Lanes { n: usize },
    Propped { outcomes: Vec<OutcomeKey> },
    Game,
}

impl Layout {
    fn of(keys: &Keys) -> Self {
        match keys {
            Keys::Floor { columns, rows, .. } => Layout::Floor { n_columns: columns.len(), rows: rows.clone() },
            Keys::Line { outcomes, .. } => Layout::Line { outcomes: outcomes.clone() },
            Keys::Serve { rows, .. } => Layout::Serve { rows: rows.clone() },
            Keys::Told { of, .. } => Layout::Told { of: *of },
            Keys::Group { outcomes } => Layout::Group { outcomes: outcomes.clone() },
            Keys::Lanes { lanes } => Layout::Lanes { n: lanes.len() },
            Keys::Propped { outcomes, .. } => Layout::Propped { outcomes: outcomes.clone() },
            Keys::Game(_) => Layout::Game,
        }
    }
}

#[component]
pub fn Court(view: Watched<BoardView>, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let layout = view.part(|v| Layout::of(&v.keys));
    let nobody = view.part(|v| v.nobody);
    let outcome = move |key: OutcomeKey| {
        view! { <OutcomeButton key off=nobody press=shell.press(Action::OutcomeTapped(key.outcome)) /> }
    };
    live(move || match layout.get() {
        Layout::Floor { n_columns, rows } => {
            let columns: Vec<_> =
                (0..n_columns).map(|i| floor_column(view, i, rows.clone(), choosing, shell)).collect();
            view! { <div class="floor">{columns}</div> }
        }
        Layout::Line { outcomes } => {
            let class = if outcomes.len() > 2 { "outcomes is-four" } else { "outcomes is-two" };
            view! {
                <Names view shell />
                <div class=class>{outcomes.into_iter().map(outcome).collect::<Vec<_>>()}</div>
            }
        }
        Layout::Serve { rows } => {
            let keys: Vec<_> = rows.into_iter().flat_map(|(steady, fast)| [outcome(steady), outcome(fast)]).collect();
            view! {
                <Names view shell />
                <div class="serves">
                    <span class="serves-head" aria-hidden="true">
                        {words::STEADY}
                    </span>
                    <span class="serves-head is-fast" aria-hidden="true">
                        {words::FAST_SWING}
                    </span>
                    {keys}
                </div>
            }
        }
        Layout::Told { of } => view! { <Told view of shell /> },
        Layout::Group { outcomes } => {
            let keys: Vec<_> = outcomes.into_iter().map(outcome).collect();
            view! { <div class="outcomes is-group">{keys}</div> }
        }
        Layout::Lanes { n } => view! { <Lanes view n choosing shell /> },
        Layout::Propped { outcomes } => {
            let keys: Vec<_> = outcomes.into_iter().map(outcome).collect();
            view! { <div class="outcomes is-propped">{keys}</div> }
        }
        Layout::Game => view! { <Game view shell /> },
    })
}

/// A child where it stands, and under its name what came of the ball.
fn floor_column(
    view: Watched<BoardView>,
    at: usize,
    rows: Vec<OutcomeKey>,
    choosing: RwSignal<Option<Choice>>,
    shell: Shell,
) -> impl IntoView {
    let name = view.part(move |v| column_of(v, at).map(|c| c.name.clone()).unwrap_or_default());
    let of = view.part(move |v| column_of(v, at).map(|c| of_column(v, c)).unwrap_or_default());
    let has_step = view.part(move |v| column_of(v, at).is_some_and(|c| c.step.is_some()));
    let nobody = view.part(move |v| column_of(v, at).is_none_or(|c| c.player.is_none()));
    let rests = view.part(move |v| v.nobody || column_of(v, at).is_none_or(|c| c.player.is_none()));
    // A place keeps its number when the floor is turned round, so its keys are made anew then.
    let place = view.part(move |v| column_of(v, at).map(|c| c.place));
    let keys = move || {
        let place = place.get()?;
        Some(
            rows.iter()
                .map(|row| {
                    let OutcomeKey { outcome, word, digit, .. } = *row;
                    let grade = digit.map_or_else(|| row.id.to_owned(), |d| d.to_string());
                    let label = Signal::derive(move || name.with(|n| words::key_of(n, word, digit)));
                    view! {
                        <GradeKey
                            id=format!("pass.{}.{grade}", place.0)
                            key=*row
                            off=rests
                            label
                            press=shell.press(Action::PlaceTapped(place, outcome))
                        />
                    }
                })
                .collect::<Vec<_>>(),
        )
    };
    // A tap on the name: another one may stand here.
    let player = view.part(move |v| column_of(v, at).and_then(|c| c.player));
    let choose = move || choosing.set(player.get_untracked().map(Choice::InFor));
    // The mark of the last touch is about the child who stood here, not about the one who came.
    let stood = Cell::new(player.get_untracked());
    watch(move || {
        let stands = player.get();
        if stood.replace(stands) != stands {
            unmark();
        }
    });
    view! {
        <div class="floor-column" class:is-empty=move || nobody.get()>
            <Key key=format!("stand.{at}") class="stand" off=nobody press=choose>
                <b dir="auto" class=move || name.with(|n| length(n))>
                    {move || if nobody.get() { words::FREE.to_owned() } else { name.get() }}
                </b>
                " "
                <span class="stand-of" class:has-step=move || has_step.get()>
                    <span class="own-line">{move || of.get()}</span>
                </span>
            </Key>
            {live(keys)}
        </div>
    }
}

/// `9 of 14`, and the step where the child has one of its own.
fn of_column(view: &BoardView, column: &Column) -> String {
    column.step.map_or_else(|| column.of.clone(), |step| words::of_at(&column.of, &view.skill, step))
}

fn column_of(view: &BoardView, at: usize) -> Option<&Column> {
    match &view.keys {
        Keys::Floor { columns, .. } => columns.get(at),
        _ => None,
    }
}

/// A key whose data-key is the outcome's own.
#[component]
pub fn OutcomeButton(key: OutcomeKey, off: Part<bool>, #[prop(into)] press: Press) -> impl IntoView {
    view! { <GradeKey id=key.id.to_owned() key press label=MaybeProp::default() off /> }
}

/// The vessel: how full it is tells how good, the word says it, the digit is small.
#[component]
fn GradeKey(
    id: String,
    key: OutcomeKey,
    #[prop(into)] press: Press,
    #[prop(into)] label: MaybeProp<String>,
    #[prop(into)] off: Signal<bool>,
) -> impl IntoView {
    let class = match key.full {
        0 => "grade is-0",
        1 => "grade is-1",
        2 => "grade is-2",
        _ => "grade is-3",
    };
    view! {
        <Key key=id class off label press>
            <span class="vessel">
                <span class="grade-text">
                    <b>{key.word}</b>
                    {key.digit.map(|digit| view! { " "<i>{digit}</i> })}
                </span>
            </span>
        </Key>
    }
}

/// The names of the line. A tap says who is next; whose turn it is stays in view.
#[component]
fn Names(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let names = view.part(|v| names_of(v).iter().map(|n| (n.player, n.name.clone())).collect::<Vec<_>>());
    let current = view.part(|v| names_of(v).iter().find(|n| n.current).map(|n| n.player));
    // Names that scroll answer as the thumb leaves, or a finger that looks for the ninth child would choose the fourth.
    let long = view.part(|v| names_of(v).len() > N_STANDING || matches!(v.keys, Keys::Serve { standing: false, .. }));
    let frame = NodeRef::<Div>::new();
    watch(move || {
        current.track();
        if let Some(frame) = frame.get() {
            show_current(&frame);
        }
    });
    view! {
        <div class="names" class:is-long=move || long.get() role="group" aria-label=words::NAMES node_ref=frame>
            {move || {
                let answer = if long.get() { Answer::Up } else { Answer::Down };
                names
                    .get()
                    .into_iter()
                    .enumerate()
                    .map(|(i, (player, name))| name_key(i, player, name, current, answer, shell))
                    .collect::<Vec<_>>()
            }}
        </div>
    }
}

fn names_of(view: &BoardView) -> &[NameKey] {
    match &view.keys {
        Keys::Line { names, .. } | Keys::Serve { names, .. } => names,
        _ => &[],
    }
}

pub(super) fn name_key(
    at: usize,
    player: PlayerId,
    name: String,
    current: Part<Option<PlayerId>>,
    answer: Answer,
    shell: Shell,
) -> impl IntoView {
    let on = Signal::derive(move || (current.get() == Some(player)).then_some("true"));
    view! {
        <Key
            key=format!("name.{at}")
            class=format!("name-key {}", length(&name))
            answer
            current=on
            press=shell.press(Action::NameTapped(player))
        >
            <bdi>{name}</bdi>
        </Key>
    }
}

/// Scrolls the names alone (never the page) until the current one is in sight, and the one after it.
fn show_current(frame: &HtmlElement) {
    let Ok(Some(current)) = frame.query_selector("[aria-current]") else { return };
    let Some(current) = current.dyn_ref::<HtmlElement>() else { return };
    let next = current.next_element_sibling().and_then(|next| next.dyn_into::<HtmlElement>().ok());
    let last = next.as_ref().unwrap_or(current);
    let (top, bottom) = (current.offset_top(), last.offset_top() + last.offset_height() + FADE);
    if top < frame.scroll_top() {
        frame.set_scroll_top(top);
    } else if bottom > frame.scroll_top() + frame.client_height() {
        frame.set_scroll_top(bottom - frame.client_height());
    }
}
