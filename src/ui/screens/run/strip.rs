//! The strip over the head: whose effort it was and of which kind, if the coach wants to say; or who serves, or comes on. It covers
//! figures, never a key.

use leptos::html::Div;
use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast;

use super::choices::{Stations, Steps, group_of};
use super::here::Here;
use super::length;
use super::notes::{AskStrip, NoteStrip};
use crate::app::action::Action;
use crate::app::view::board::{BoardView, EffortView, Keys, NameKey, may_come};
use crate::app::words::{board as words, station};
use crate::domain::ids::{GroupNo, PlayerId, RunId};
use crate::ui::markup::{live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, Icon, Key, Shape};

/// What is being chosen by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// Another one serves next.
    Server,
    /// Another one stands where this child does; and this child's step.
    InFor(PlayerId),
    /// The step of a child or of a group.
    Step(Whose),
    /// To whom the phone is handed.
    Station,
    /// Who is here: children come and go, and the run is fitted to them.
    Here,
    /// A note is written; a question asked.
    Note,
    Ask,
    /// In a game: the first of two who change places.
    Anyone,
}

/// Whose ball it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    Child(PlayerId),
    Group(GroupNo),
}

#[component]
pub fn Strip(view: Watched<BoardView>, run: RunId, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let effort = view.part(|v| v.effort.clone());
    let open = view.part(|v| v.effort.is_some());
    let n_taps = view.part(|v| v.n_taps);
    watch(move || {
        n_taps.track();
        choosing.set(None);
    });
    live(move || {
        if open.get() {
            return Some(view! { <Effort effort shell /> });
        }
        let choice = choosing.get()?;
        if choice == Choice::Here {
            return Some(view! { <Here view run choosing shell /> });
        }
        if choice == Choice::Note {
            return Some(view! { <NoteStrip choosing shell /> });
        }
        if choice == Choice::Ask {
            return Some(view! { <AskStrip choosing shell /> });
        }
        Some(view! { <Choosing view run choice choosing shell /> })
    })
}

#[component]
fn Choosing(
    view: Watched<BoardView>,
    run: RunId,
    choice: Choice,
    choosing: RwSignal<Option<Choice>>,
    shell: Shell,
) -> impl IntoView {
    let servers = view.part(|v| v.duel.as_ref().map(|d| d.servers_here.clone()).unwrap_or_default());
    let others = shell.view(move |m| may_come(m, run));
    let in_game = view.now(|v| matches!(v.keys, Keys::Game(_)));
    let keys = move || {
        let servers = servers.get();
        let (first, instead_of) = match choice {
            Choice::Server => (servers.clone(), servers.iter().find(|n| n.current).map(|n| n.player)),
            Choice::InFor(player) => (Vec::new(), Some(player)),
            Choice::Step(_) | Choice::Station | Choice::Here | Choice::Note | Choice::Ask => return Vec::new(),
            Choice::Anyone => (Vec::new(), None),
        };
        let is_first = |name: &NameKey| first.iter().any(|n| n.player == name.player);
        let others: Vec<_> =
            others.get().into_iter().filter(|n| Some(n.player) != instead_of && !is_first(n)).collect();
        let next = first.into_iter().map(|name| (Some(Action::NameTapped(name.player)), name));
        let come = others.into_iter().map(|name| (instead_of.map(|out| Action::Exchanged(out, name.player)), name));
        next.chain(come)
            .enumerate()
            .map(|(i, (action, name))| {
                let player = name.player;
                let press = move || match &action {
                    // The first of two: then the other is asked for.
                    None => choosing.set(Some(Choice::InFor(player))),
                    Some(action) => {
                        choosing.set(None);
                        shell.send(action.clone());
                    }
                };
                view! {
                    <Key key=format!("name.{i}") class="run-chip" answer=Answer::Up chosen=name.current press>
                        <bdi class=length(&name.name)>{name.name.clone()}</bdi>
                    </Key>
                }
            })
            .collect::<Vec<_>>()
    };
    let title = match choice {
        Choice::Server => words::WHO_SERVES.to_owned(),
        Choice::InFor(_) if in_game => words::WITH_WHOM.to_owned(),
        Choice::InFor(_) => words::WHO_STANDS.to_owned(),
        Choice::Anyone => words::WHO_CHANGES.to_owned(),
        Choice::Step(whose) => {
            let name = name_of(view, whose);
            view.now(|v| words::which_ball(&name, &v.skill))
        }
        Choice::Station => station::OPEN_LABEL.to_owned(),
        // These have strips of their own.
        Choice::Here | Choice::Note | Choice::Ask => String::new(),
    };
    let label = title.clone();
    view! {
        <section class="strip">
            <div class="strip-head">
                <h2 dir="auto">{title}</h2>
                <Key key="choice-close" class="small-key" press=move || choosing.set(None)>
                    <Icon shape=Shape::Close />
                    <span>{words::CLOSE}</span>
                </Key>
            </div>
            {match choice {
                Choice::Server | Choice::Anyone | Choice::Here | Choice::Note | Choice::Ask => view! { <Others keys=ViewFn::from(keys) label /> },
                // Of a game the balls have no step.
                Choice::InFor(_) if in_game => view! { <Others keys=ViewFn::from(keys) label /> },
                Choice::InFor(player) => view! {
                    <Others keys=ViewFn::from(keys) label />
                    <Steps view whose=Whose::Child(player) shell />
                },
                Choice::Step(whose) => view! { <Steps view whose alone=true shell /> },
                Choice::Station => view! { <Stations view run choosing shell /> },
            }}
        </section>
    }
}

/// The names that may be chosen.
#[component]
fn Others(keys: ViewFn, label: String) -> impl IntoView {
    view! {
        <div class="strip-chips is-names" role="group" aria-label=label>
            {keys.run()}
        </div>
    }
}

/// The child whose turn it is, or the group.
fn name_of(view: Watched<BoardView>, whose: Whose) -> String {
    let player = match whose {
        Whose::Child(player) => player,
        Whose::Group(group) => {
            return view.now(|v| group_of(v, group).map(|figure| figure.name.clone()).unwrap_or_default());
        }
    };
    view.now(|v| match &v.keys {
        Keys::Line { current, .. } | Keys::Serve { current, .. } | Keys::Propped { current, .. } => {
            current.as_ref().filter(|c| c.player == player).map(|c| c.name.clone()).unwrap_or_default()
        }
        _ => String::new(),
    })
}

#[component]
fn Effort(effort: Part<Option<EffortView>>, shell: Shell) -> impl IntoView {
    let line = move || effort.with(|e| e.as_ref().map(|e| e.line.clone()).unwrap_or_default());
    let frame = NodeRef::<Div>::new();
    watch(move || {
        effort.track();
        // The names are drawn by the time the frame is.
        request_animation_frame(move || {
            if let Some(Some(frame)) = frame.try_get_untracked() {
                show_chosen(&frame);
            }
        });
    });
    view! {
        <section class="strip">
            <div class="strip-head">
                <h2 dir="auto">{line}</h2>
                <Key key="effort-close" class="small-key" press=shell.press(Action::EffortStripClosed)>
                    <Icon shape=Shape::Close />
                    <span>{words::CLOSE}</span>
                </Key>
            </div>
            <div class="strip-chips is-names" role="group" aria-label=words::WHOSE_EFFORT node_ref=frame>
                {move || effort.get().map(|e| names(&e, shell))}
            </div>
            <div class="strip-chips" role="group" aria-label=words::KIND_OF_EFFORT>
                {move || effort.get().map(|e| kinds(&e, shell))}
            </div>
        </section>
    }
}

/// Scrolls the names until the chosen one is in sight.
pub(super) fn show_chosen(frame: &HtmlElement) {
    let Ok(Some(chosen)) = frame.query_selector("[aria-pressed=true]") else { return };
    let Some(chosen) = chosen.dyn_ref::<HtmlElement>() else { return };
    let (start, end) = (chosen.offset_left(), chosen.offset_left() + chosen.offset_width());
    if start < frame.scroll_left() || end > frame.scroll_left() + frame.client_width() {
        frame.set_scroll_left(start);
    }
}

/// Whose it was; the kind chosen stays.
fn names(effort: &EffortView, shell: Shell) -> Vec<AnyView> {
    let kind = effort.kinds.iter().find(|(_, on)| *on).map(|(kind, _)| kind.clone());
    let id = effort.effort;
    effort
        .names
        .iter()
        .enumerate()
        .map(|(i, name)| {
            let (player, word, kind) = (name.player, name.name.clone(), kind.clone());
            view! {
                <Key
                    key=format!("effort-name.{i}")
                    class="run-chip"
                    answer=Answer::Up
                    chosen=name.current
                    press=shell.press(Action::EffortGiven(id, Some(player), kind.clone()))
                >
                    <bdi class=length(&word)>{word.clone()}</bdi>
                </Key>
            }
        })
        .collect()
}

/// Which kind; a tap on the one chosen takes it away again.
fn kinds(effort: &EffortView, shell: Shell) -> Vec<AnyView> {
    let player = effort.names.iter().find(|n| n.current).map(|n| n.player);
    let id = effort.effort;
    effort
        .kinds
        .iter()
        .enumerate()
        .map(|(i, (kind, on))| {
            let (word, on) = (kind.clone(), *on);
            let given = (!on).then(|| kind.clone());
            view! {
                <Key
                    key=format!("effort-kind.{i}")
                    class="run-chip is-kind"
                    answer=Answer::Up
                    chosen=on
                    press=shell.press(Action::EffortGiven(id, player, given.clone()))
                >
                    <bdi>{word}</bdi>
                </Key>
            }
        })
        .collect()
}
