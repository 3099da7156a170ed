//! The board of groups: one large key each, and an undo of its own. Counts only.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::view::board::{BoardView, Keys, Lane};
use crate::app::words::board as words;
use crate::domain::ids::GroupNo;
use crate::ui::markup::view;
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::Key;

#[component]
pub fn Lanes(view: Watched<BoardView>, n: usize, shell: Shell) -> impl IntoView {
    let lanes: Vec<_> = (0..n).map(|at| lane(view, at, shell)).collect();
    view! { <div class="lanes">{lanes}</div> }
}

fn lane(view: Watched<BoardView>, at: usize, shell: Shell) -> AnyView {
    let now = view.part(move |v| of(v, at).map(|lane| lane.figure.now).unwrap_or_default());
    let name = view.part(move |v| of(v, at).map(|lane| lane.figure.name.clone()).unwrap_or_default());
    let who = view.part(move |v| of(v, at).map(|lane| lane.figure.who.clone()).unwrap_or_default());
    let empty = view.part(move |v| of(v, at).is_none_or(|lane| lane.empty));
    let nothing = view.part(move |v| of(v, at).is_none_or(|lane| !lane.can_undo));
    let group = GroupNo(u8::try_from(at).unwrap_or(u8::MAX));
    let label = Signal::derive(move || name.with(|name| words::lane_good(name)));
    let undo_label = Signal::derive(move || name.with(|name| words::lane_undo(name)));
    view! {
        <div class="lane">
            <Key
                key=format!("lane.{at}")
                class="lane-key"
                label=label
                off=empty
                press=shell.press(Action::LaneTapped(group))
            >
                <b class="lane-now numeral" data-fig=format!("lane.{at}")>
                    {move || now.get()}
                </b>
                <span class="lane-name">{move || name.get()}</span>
                <bdi class="lane-who">{move || who.get()}</bdi>
            </Key>
            <Key
                key=format!("lane-undo.{at}")
                class="lane-undo"
                label=undo_label
                off=nothing
                press=shell.press(Action::LaneUndone(group))
            >
                <span>{words::LANE_UNDO}</span>
            </Key>
        </div>
    }
}

fn of(view: &BoardView, at: usize) -> Option<&Lane> {
    match &view.keys {
        Keys::Lanes { lanes } => lanes.get(at),
        _ => None,
    }
}
