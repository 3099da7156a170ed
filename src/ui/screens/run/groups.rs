//! What each group has, in one line over the figures; and the run's clock, with the key that sets it going or standing.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::view::board::{BoardView, ClockView, GroupFigure};
use crate::app::words::board as words;
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::Key;

/// Up to four groups side by side. How many there are is settled when the run starts.
#[component]
pub fn Groups(view: Watched<BoardView>) -> impl IntoView {
    let n = view.part(|v| v.groups.len());
    live(move || {
        let groups: Vec<_> = (0..n.get()).map(|at| group(view, at)).collect();
        view! { <ul class="run-groups" aria-label=words::GROUPS>{groups}</ul> }
    })
}

fn group(view: Watched<BoardView>, at: usize) -> AnyView {
    let part = move |of: fn(&GroupFigure) -> String| view.part(move |v| v.groups.get(at).map(of).unwrap_or_default());
    let name = part(|group| group.name.clone());
    let now = part(|group| group.now.to_string());
    let reached = view.part(move |v| v.groups.get(at).is_some_and(|group| group.reached));
    view! {
        <li class="group-chip" class:is-reached=move || reached.get()>
            <span>{move || name.get()}</span>
            " "
            <b data-fig=format!("group.{at}")>{move || now.get()}</b>
        </li>
    }
}

/// The time that is left, large; what a tap does, small.
#[component]
pub fn Clock(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let part = move |of: fn(&ClockView) -> String| view.part(move |v| v.clock.as_ref().map(of).unwrap_or_default());
    let left = part(|clock| clock.left.clone());
    let does = part(|clock| does(clock).to_owned());
    let over = view.part(|v| v.clock.as_ref().is_none_or(|clock| clock.over));
    let going = view.part(|v| v.clock.as_ref().is_some_and(|clock| clock.going));
    let label = Signal::derive(move || words::clock(&left.get(), &does.get()));
    let class = Signal::derive(move || if going.get() { "clock-key is-going" } else { "clock-key" }.to_owned());
    view! {
        <Key key="clock" class off=over label press=shell.press(Action::ClockTapped)>
            <span class="clock-left"><b data-fig="clock">{move || left.get()}</b></span>
            " "
            <span class="clock-does">{move || does.get()}</span>
        </Key>
    }
}

const fn does(clock: &ClockView) -> &'static str {
    match clock {
        ClockView { over: true, .. } => words::CLOCK_OVER,
        ClockView { going: true, .. } => words::CLOCK_PAUSE,
        ClockView { started: true, .. } => words::CLOCK_GO_ON,
        ClockView { .. } => words::CLOCK_START,
    }
}
