//! What the strip offers beside names: a child's step on the drill's ladder, and to whom the phone is handed.

use leptos::prelude::*;

use super::strip::Choice;
use crate::app::action::Action;
use crate::app::view::board::{BoardView, Keys, stations};
use crate::app::words::{board as words, ladder, station};
use crate::domain::ids::{PlayerId, RunId, Step};
use crate::domain::skill::Skill;
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, Key};

/// Steps to choose from: those that have a word, and some of a skill of the coach's own.
const N_NAMED: u8 = 5;
const N_OWN: u8 = 8;

/// The ladder as keys: the child's ball from now on, in this drill.
#[component]
pub fn Steps(
    view: Watched<BoardView>,
    player: PlayerId,
    /// They have the strip to themselves: all are in sight.
    #[prop(optional)]
    alone: bool,
    shell: Shell,
) -> impl IntoView {
    let ladder = view.part(|v| v.ladder.clone());
    let now = view.part(move |v| step_of(v, player));
    let keys = move || {
        let skill = ladder.get()?;
        let n = if matches!(skill, Skill::Own(_)) { N_OWN } else { N_NAMED };
        let keys: Vec<_> = (0..n)
            .map(|i| {
                let step = Step(i);
                let word = ladder::step(&skill, step);
                view! {
                    <Key
                        key=format!("step.{i}")
                        class="run-chip is-kind"
                        answer=Answer::Up
                        chosen=Signal::derive(move || now.get() == Some(step))
                        press=shell.press(Action::StepChosen(player, step))
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
    // While the clock stands the phone isn't handed out: no ball would count.
    let waits = view.part(|v| v.clock.as_ref().and_then(|clock| clock.waits));
    live(move || match waits.get() {
        Some(why) => view! { <p class="strip-line">{why}</p> },
        None => view! {
            <div class="strip-chips" role="group" aria-label=station::OPEN_LABEL>
                {live(keys)}
            </div>
            <p class="strip-line">{station::OPEN_LINE}</p>
        },
    })
}

/// The step of the ball that comes to this child.
fn step_of(view: &BoardView, player: PlayerId) -> Option<Step> {
    match &view.keys {
        Keys::Floor { columns, .. } => columns.iter().find(|c| c.player == Some(player)).and_then(|c| c.step),
        Keys::Line { current, .. } | Keys::Serve { current, .. } | Keys::Propped { current, .. } => {
            current.as_ref().filter(|c| c.player == player).map(|c| c.step)
        }
        _ => None,
    }
}
