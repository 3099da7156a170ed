//! What the strip offers beside names: a child's step on the drill's ladder, and to whom the phone is handed.

use leptos::prelude::*;

use super::strip::{Choice, Whose};
use crate::app::action::Action;
use crate::app::view::board::{BoardView, GroupFigure, Keys, can_check, stations};
use crate::app::words::{board as words, ladder, station};
use crate::domain::ids::{GroupNo, RunId, Step};
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, Key};

/// The ladder as keys: the ball of a child, or of a whole group, from now on, in this drill.
#[component]
pub fn Steps(
    view: Watched<BoardView>,
    whose: Whose,
    /// They have the strip to themselves: all are in sight.
    #[prop(optional)]
    alone: bool,
    shell: Shell,
) -> impl IntoView {
    let now = view.part(move |v| step_of(v, whose));
    let has_steps = view.part(move |v| matches!(whose, Whose::Group(_)) || v.has_ladder);
    let keys = move || {
        if !has_steps.get() {
            return None;
        }
        let skill = view.now(|v| v.skill.clone());
        // Whichever is chosen then, the keys stay as the strip opened.
        let keys: Vec<_> = ladder::rungs(&skill, now.get_untracked())
            .into_iter()
            .map(|step| {
                let word = ladder::step(&skill, step);
                let action = match whose {
                    Whose::Child(player) => Action::StepChosen(player, step),
                    Whose::Group(group) => Action::GroupStepChosen(group, step),
                };
                view! {
                    <Key
                        key=format!("step.{}", step.0)
                        class="run-chip is-kind"
                        answer=Answer::Up
                        chosen=Signal::derive(move || now.get() == Some(step))
                        press=shell.press(action)
                    >
                        {word}
                    </Key>
                }
            })
            .collect();
        let class = if alone { "strip-chips is-wrapped" } else { "strip-chips" };
        Some(view! { <div class=class role="group" aria-label=words::STEPS>{keys}</div> })
    };
    live(keys)
}

/// To whom the phone is handed, and how it comes back.
#[component]
pub fn Stations(
    view: Watched<BoardView>,
    run: RunId,
    choosing: RwSignal<Option<Choice>>,
    shell: Shell,
) -> impl IntoView {
    let stations = shell.view(move |m| stations(m, run));
    let keys = move || {
        stations
            .get()
            .into_iter()
            .enumerate()
            .map(|(i, (group, name))| {
                let press = move || {
                    choosing.set(None);
                    shell.send(Action::StationOpened(group));
                };
                view! {
                    <Key key=format!("station.{i}") class="run-chip" answer=Answer::Up press>
                        <bdi>{name}</bdi>
                    </Key>
                }
            })
            .collect::<Vec<_>>()
    };
    let can_check = shell.view(move |m| can_check(m, run));
    let check = move || {
        let press = move || {
            choosing.set(None);
            shell.send(Action::CheckOpened);
        };
        can_check.get().then(|| {
            view! {
                <Key key="station-check" class="run-chip" answer=Answer::Up press>
                    {station::CHECK}
                </Key>
            }
        })
    };
    // While the clock stands the phone isn't handed out: no ball would count.
    let waits = view.part(|v| v.clock.as_ref().and_then(|clock| clock.waits));
    live(move || match waits.get() {
        Some(why) => view! { <p class="strip-line">{why}</p> },
        None => view! {
            <div class="strip-chips" role="group" aria-label=station::OPEN_LABEL>
                {live(keys)}
                {live(check)}
            </div>
            <p class="strip-line">{station::OPEN_LINE}</p>
            <p class="strip-line">{move || can_check.get().then_some(station::CHECK_LINE)}</p>
        },
    })
}

/// The step of the ball that comes to this child, or to this group.
fn step_of(view: &BoardView, whose: Whose) -> Option<Step> {
    let player = match whose {
        Whose::Child(player) => player,
        Whose::Group(group) => return group_of(view, group).and_then(|g| g.ball.as_ref()).map(|ball| ball.step),
    };
    match &view.keys {
        Keys::Floor { columns, .. } => columns.iter().find(|c| c.player == Some(player)).and_then(|c| c.step),
        Keys::Line { current, .. } | Keys::Serve { current, .. } | Keys::Propped { current, .. } => {
            current.as_ref().filter(|c| c.player == player).map(|c| c.step)
        }
        _ => None,
    }
}

/// A group's figure, wherever the board shows it.
pub fn group_of(view: &BoardView, group: GroupNo) -> Option<&GroupFigure> {
    let lane = match &view.keys {
        Keys::Lanes { lanes } => lanes.iter().map(|lane| &lane.figure).find(|figure| figure.group == group),
        _ => None,
    };
    lane.or_else(|| view.groups.iter().find(|figure| figure.group == group))
}
