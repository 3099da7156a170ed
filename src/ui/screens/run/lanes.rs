//! The board of groups: one large key each, and an undo of its own. Counts only.

use leptos::prelude::*;

use super::groups::{ball_of, choose};
use super::strip::{Choice, Whose};
use crate::app::action::Action;
use crate::app::view::board::{BoardView, Keys, Lane};
use crate::app::words::board as words;
use crate::domain::ids::GroupNo;
use crate::ui::markup::view;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Icon, Key, Shape};

#[component]
pub fn Lanes(view: Watched<BoardView>, n: usize, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let lanes: Vec<_> = (0..n).map(|at| lane(view, at, choosing, shell)).collect();
    let class = if n > 2 { "lanes is-three" } else { "lanes" };
    view! { <div class=class>{lanes}</div> }
}

fn lane(view: Watched<BoardView>, at: usize, choosing: RwSignal<Option<Choice>>, shell: Shell) -> AnyView {
    let now = view.part(move |v| of(v, at).map(|lane| lane.figure.now).unwrap_or_default());
    let wide = view.part(move |v| of(v, at).is_some_and(|lane| lane.figure.now > 99));
    let name = view.part(move |v| of(v, at).map(|lane| lane.figure.name.clone()).unwrap_or_default());
    let who = view.part(move |v| of(v, at).map(|lane| lane.figure.who.clone()).unwrap_or_default());
    let reached = view.part(move |v| of(v, at).is_some_and(|lane| lane.figure.reached));
    let off = view.part(move |v| v.nobody || of(v, at).is_none_or(|lane| lane.empty));
    let nothing = view.part(move |v| of(v, at).is_none_or(|lane| !lane.can_undo));
    let has_step = view.part(move |v| of(v, at).is_some_and(|lane| lane.figure.ball.is_some()));
    let group = GroupNo(u8::try_from(at).unwrap_or(u8::MAX));
    let label = Signal::derive(move || words::lane_good(&name.get(), now.get(), &who.get()));
    let undo_label = Signal::derive(move || name.with(|name| words::lane_undo(name)));
    view! {
        <div class="lane" class:is-empty=move || off.get() class:is-reached=move || reached.get()>
            <Key
                key=format!("lane.{at}")
                class="lane-key"
                label=label
                off
                press=shell.press(Action::LaneTapped(group))
            >
                <span class="lane-name">{move || name.get()}</span>
                " "
                <span class="lane-room">
                    <b class="lane-now numeral" class:is-wide=move || wide.get() data-fig=format!("lane.{at}")>
                        {move || now.get()}
                    </b>
                </span>
                " "
                <bdi class="lane-who">{move || who.get()}</bdi>
            </Key>
            {move || has_step.get().then(|| step(view, at, group, choosing))}
            <Key
                key=format!("lane-undo.{at}")
                class="lane-undo"
                label=undo_label
                off=nothing
                press=shell.press(Action::LaneUndone(group))
            >
                <Icon shape=Shape::Undo />
                <span>{words::LANE_UNDO}</span>
            </Key>
        </div>
    }
}

/// The ball this group is fed; a tap leads to the ladder.
fn step(view: Watched<BoardView>, at: usize, group: GroupNo, choosing: RwSignal<Option<Choice>>) -> AnyView {
    let word = view.part(move |v| of(v, at).map(|lane| ball_of(&lane.figure)).unwrap_or_default());
    let told = view
        .part(move |v| of(v, at).and_then(|lane| lane.figure.ball.as_ref()).is_some_and(|ball| ball.word.is_some()));
    let name = view.part(move |v| of(v, at).map(|lane| lane.figure.name.clone()).unwrap_or_default());
    let label = Signal::derive(move || words::group_ball(&name.get(), None, &word.get()));
    let press = move || choose(choosing, Choice::Step(Whose::Group(group)));
    view! {
        <Key key=format!("lane-step.{at}") class="lane-step" label press>
            {move || told.get().then(|| view! { <small>{words::LANE_BALL}</small> })}
            " "
            <span data-fig=format!("lane-ball.{at}")>{move || word.get()}</span>
        </Key>
    }
}

fn of(view: &BoardView, at: usize) -> Option<&Lane> {
    match &view.keys {
        Keys::Lanes { lanes } => lanes.get(at),
        _ => None,
    }
}
