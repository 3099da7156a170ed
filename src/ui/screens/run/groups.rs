//! What each group has, in one line over the figures; and the run's clock, with the key that sets it going or standing.

use leptos::prelude::*;

use super::strip::{Choice, Whose};
use crate::app::action::Action;
use crate::app::view::board::{BoardView, ClockView, GroupFigure};
use crate::app::words::board as words;
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::Key;

/// Up to four groups side by side. How many there are is settled when the run starts. Where groups play each other a tap leads to the
/// ball that each is fed.
#[component]
pub fn Groups(view: Watched<BoardView>, choosing: RwSignal<Option<Choice>>) -> impl IntoView {
    let n = view.part(|v| v.groups.len());
    let has_balls = view.part(|v| v.groups.iter().any(|group| group.ball.is_some()));
    live(move || {
        let has_balls = has_balls.get();
        let groups: Vec<_> = (0..n.get()).map(|at| group(view, at, has_balls, choosing)).collect();
        view! { <ul class="run-groups" aria-label=words::GROUPS>{groups}</ul> }
    })
}

fn group(view: Watched<BoardView>, at: usize, has_ball: bool, choosing: RwSignal<Option<Choice>>) -> AnyView {
    let part = move |of: fn(&GroupFigure) -> String| view.part(move |v| v.groups.get(at).map(of).unwrap_or_default());
    let name = part(|group| group.name.clone());
    let now = view.part(move |v| v.groups.get(at).map(|group| group.now).unwrap_or_default());
    let reached = view.part(move |v| v.groups.get(at).is_some_and(|group| group.reached));
    let figure = move || {
        view! {
            <span class="group-score">
                <span>{move || name.get()}</span>
                " "
                <b data-fig=format!("group.{at}")>{move || now.get()}</b>
            </span>
        }
    };
    let key = move || {
        let word = part(ball_of);
        let label = Signal::derive(move || words::group_ball(&name.get(), Some(now.get()), &word.get()));
        let press = move || {
            if let Some(group) = view.now(|v| v.groups.get(at).map(|group| group.group)) {
                choose(choosing, Choice::Step(Whose::Group(group)));
            }
        };
        view! {
            <Key key=format!("group-step.{at}") class="group-key" label press>
                {figure()}
                " "
                <small class="group-ball" data-fig=format!("group-ball.{at}")>{move || word.get()}</small>
            </Key>
        }
    };
    view! {
        <li class="group-chip" class:is-key=has_ball class:is-reached=move || reached.get()>
            {if has_ball { view! { {key()} } } else { view! { {figure()} } }}
        </li>
    }
}

/// What a group is fed, or that it is a ball.
pub fn ball_of(group: &GroupFigure) -> String {
    let word = group.ball.as_ref().and_then(|ball| ball.word.clone());
    word.unwrap_or_else(|| words::LANE_BALL.to_owned())
}

/// Opens the strip of a choice, or closes it again.
pub fn choose(choosing: RwSignal<Option<Choice>>, choice: Choice) {
    choosing.update(|now| *now = (*now != Some(choice)).then_some(choice));
}

/// The time that is left, large; what a tap does, small.
#[component]
pub fn Clock(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let part = move |of: fn(&ClockView) -> String| view.part(move |v| v.clock.as_ref().map(of).unwrap_or_default());
    let left = part(|clock| clock.left.clone());
    let does = part(|clock| does(clock).to_owned());
    let over = view.part(|v| v.clock.as_ref().is_none_or(|clock| clock.over));
    let going = view.part(|v| v.clock.as_ref().is_some_and(|clock| clock.going));
    // Ten minutes and more have a digit more.
    let wide = part(|clock| if clock.left.len() > 4 { "clock-left is-wide" } else { "clock-left" }.to_owned());
    let label = Signal::derive(move || words::clock(&left.get(), &does.get()));
    let class = Signal::derive(move || if going.get() { "clock-key is-going" } else { "clock-key" }.to_owned());
    view! {
        <Key key="clock" class off=over label press=shell.press(Action::ClockTapped)>
            <span class=move || wide.get()><b data-fig="clock">{move || left.get()}</b></span>
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
