//! Title, saved, the list, finish; the call; the figures or the duel; swap and turn round.

use leptos::prelude::*;

use super::figures::{Calm, Current, Duel, Figures, current_of};
use super::groups::{Clock, Groups, choose};
use super::notes::note_key;
use super::strip::{Choice, Whose};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::{BoardView, Keys};
use crate::app::words::{board as words, ladder, station};
use crate::domain::ids::RunId;
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Icon, Key, Saved, Shape};

/// A title of more letters takes two smaller lines.
const ONE_LINE: usize = 9;
/// One of more still takes three.
const TWO_LINES: usize = 18;
/// So does a call; that of a game is written larger.
const CALL_LINE: usize = 36;
const GAME_CALL_LINE: usize = 25;

#[component]
pub fn Head(view: Watched<BoardView>, run: RunId, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let title = view.part(|v| v.title.clone());
    let long = view.part(|v| v.title.chars().count() > ONE_LINE);
    let longer = view.part(|v| v.title.chars().count() > TWO_LINES);
    let saved = view.part(|v| v.saved.clone());
    let call = view.part(|v| v.call.clone());
    let long_call = view.part(|v| {
        let whole = if matches!(v.keys, Keys::Game(_)) { GAME_CALL_LINE } else { CALL_LINE };
        v.call.chars().count() > whole
    });
    let is_duel = view.part(|v| v.duel.is_some());
    let has_current = view.part(|v| matches!(v.keys, Keys::Line { .. } | Keys::Serve { .. } | Keys::Propped { .. }));
    let side = view.part(SideKeys::of);
    // What keeps the keys from answering is said in the place of the groups; but before the clock first goes their balls are chosen,
    // and the clock's own key says what to do.
    let has_groups = view.part(|v| {
        let to_choose =
            v.clock.as_ref().is_some_and(|clock| !clock.started) && v.groups.iter().any(|g| g.ball.is_some());
        !v.groups.is_empty() && (!v.nobody || to_choose && !v.keys.for_nobody())
    });
    let has_clock = view.part(|v| v.clock.is_some());
    let here = view.part(|v| v.here.clone());
    let here_label = Signal::derive(move || here.with(|here| words::here_key(here)));
    // A phone that is propped up is looked at by children.
    let has_notes = view.part(|v| !matches!(v.keys, Keys::Propped { .. }));
    let choose_here = move || choose(choosing, Choice::Here);
    let timed = view.part(|v| v.part_left.is_some());
    let left = view.part(|v| v.part_left.as_ref().map(|p| p.short.clone()).unwrap_or_default());
    let over = view.part(|v| v.part_left.as_ref().is_some_and(|p| p.over));
    let finish_label =
        view.part(|v| v.part_left.as_ref().map_or_else(|| words::FINISH.to_owned(), |p| words::finish_key(&p.line)));
    let finish_label = Signal::derive(move || finish_label.get());
    let finish_class = Signal::derive(move || {
        let (timed, over) = (timed.get(), over.get());
        format!("small-key is-strong{}{}", if timed { " is-timed" } else { "" }, if over { " is-over" } else { "" })
    });
    let has_roles = view.part(|v| v.roles.is_some());
    let roles = view.part(|v| v.roles.clone().unwrap_or_default());
    let swap_in = view.part(|v| v.swap_in.clone().unwrap_or_default());
    let next_on = view.part(|v| v.next_on.clone().unwrap_or_default());
    let is_game = view.part(|v| matches!(v.keys, Keys::Game(_)));
    view! {
        <div class="run-bar">
            <div class="run-what">
                <h1 tabindex="-1" dir="auto" class:is-long=move || long.get() class:is-longer=move || longer.get()>
                    {move || title.get()}
                </h1>
                <Saved saved shell />
            </div>
            <Key
                key="contacts"
                class="small-key is-stacked"
                label=words::LIST_LABEL
                press=shell.press(Action::Go(Screen::Contacts(run)))
            >
                <Icon shape=Shape::List />
                <span>{words::LIST}</span>
            </Key>
            {move || has_notes.get().then(|| note_key(choosing, shell))}
            <Key key="here" class="small-key is-stacked" label=here_label press=choose_here>
                <Icon shape=Shape::Squad />
                <span data-fig="here">{move || here.get()}</span>
            </Key>
            <Key key="finish" class=finish_class label=finish_label press=shell.press(Action::Finish)>
                <span>{words::FINISH}</span>
                {move || {
                    timed
                        .get()
                        .then(|| {
                            view! {
                                <span class="finish-left" data-fig="part-left">
                                    {move || left.get()}
                                </span>
                            }
                        })
                }}
            </Key>
        </div>
        {live(move || {
            if has_groups.get() {
                view! { <Groups view choosing /> }
            } else {
                view! {
                    <p class="run-call" class:is-long=move || long_call.get() data-fig="call" dir="auto">
                        {move || call.get()}
                    </p>
                }
            }
        })}
        {move || {
            has_roles
                .get()
                .then(|| {
                    view! {
                        <p class="run-roles">
                            <span data-fig="roles" dir="auto">
                                {move || roles.get()}
                            </span>
                            <span class="run-next">
                                <b data-fig="swap-in">{move || swap_in.get()}</b>
                                " "
                                <span data-fig="next-on" dir="auto">
                                    {move || next_on.get()}
                                </span>
                            </span>
                        </p>
                    }
                })
        }}
        <div class="run-room">
            <div class="run-figures">
                {move || {
                    if is_duel.get() {
                        view! { <Duel view choosing shell /> }
                    } else if has_current.get() {
                        view! {
                            <Current view shell />
                            <Figures view />
                        }
                    } else {
                        view! { <Figures view /> }
                    }
                }}
                <Calm view shell />
            </div>
            {move || has_clock.get().then(|| view! { <Clock view shell /> })}
            {move || (side.get().n() > 0).then(|| view! { <Side view keys=side.get() choosing shell /> })}
            {move || is_game.get().then(|| view! { <GameKeys view choosing shell /> })}
        </div>
    }
}

/// Which keys stand beside the figures: constant in a run.
#[derive(Clone, Copy, PartialEq)]
struct SideKeys {
    swap: bool,
    turn_round: bool,
    challenge: bool,
    step: bool,
    children: bool,
}

impl SideKeys {
    fn of(view: &BoardView) -> SideKeys {
        let floor = matches!(view.keys, Keys::Floor { .. });
        SideKeys {
            swap: floor || matches!(view.keys, Keys::Serve { standing: true, .. }),
            turn_round: floor,
            challenge: view.challenge.is_some(),
            // On the floor a tap on the name leads to it.
            step: view.has_ladder && !floor,
            children: view.has_stations,
        }
    }

    fn n(self) -> usize {
        [self.swap, self.turn_round, self.challenge, self.step, self.children].into_iter().filter(|is| *is).count()
    }
}

#[component]
fn Side(view: Watched<BoardView>, keys: SideKeys, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let still = view.part(|v| !v.can_swap);
    let challenge = view.part(|v| v.challenge == Some(true));
    let step = view.part(|v| current_of(v).map_or_else(|| words::STEP.to_owned(), |c| ladder::short(&v.skill, c.step)));
    let nobody = view.part(|v| v.nobody);
    let current = view.part(|v| current_of(v).map(|c| c.player));
    let (many, three) = (keys.n() > 2, keys.n() == 3);
    let choose_step = move || {
        if let Some(player) = current.get_untracked() {
            choose(choosing, Choice::Step(Whose::Child(player)));
        }
    };
    view! {
        <div class="run-side" class:is-many=many class:is-three=three>
            {keys
                .swap
                .then(|| {
                    view! {
                        <Key key="swap" class="small-key is-stacked" off=still press=shell.press(Action::SwapTapped)>
                            <Icon shape=Shape::Swap />
                            <span>{words::SWAP}</span>
                        </Key>
                    }
                })}
            {keys.turn_round.then(|| turn_round(shell))}
            {keys
                .challenge
                .then(|| {
                    view! {
                        <Key
                            key="challenge"
                            class="small-key is-stacked"
                            label=words::CHALLENGE_LABEL
                            chosen=Signal::derive(move || challenge.get())
                            press=shell.press(Action::ChallengeTapped)
                        >
                            <Icon shape=Shape::Challenge />
                            <span>{words::CHALLENGE}</span>
                        </Key>
                    }
                })}
            {keys
                .step
                .then(|| {
                    view! {
                        <Key key="step" class="small-key is-stacked" off=nobody press=choose_step>
                            <Icon shape=Shape::Steps />
                            <span>{move || step.get()}</span>
                        </Key>
                    }
                })}
            {keys
                .children
                .then(|| {
                    view! {
                        <Key
                            key="children"
                            class="small-key is-stacked"
                            label=station::OPEN_LABEL
                            press=move || choose(choosing, Choice::Station)
                        >
                            <Icon shape=Shape::Squad />
                            <span>{station::OPEN}</span>
                        </Key>
                    }
                })}
        </div>
    }
}

fn turn_round(shell: Shell) -> AnyView {
    view! {
        <Key
            key="turn-round"
            class="small-key is-stacked"
            label=words::TURN_ROUND_LABEL
            press=shell.press(Action::TurnRoundTapped)
        >
            <Icon shape=Shape::TurnRound />
            <span>{words::TURN_ROUND}</span>
        </Key>
    }
}

/// Of a game: who stands where and who serves, otherwise than the rule has it.
#[component]
fn GameKeys(view: Watched<BoardView>, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let few = view.part(|v| v.nobody);
    let other = view.part(|v| matches!(&v.keys, Keys::Game(game) if game.other));
    let over = view.part(|v| v.cover.is_some());
    let off = Signal::derive(move || few.get() || over.get());
    let served = view.part(|v| matches!(&v.keys, Keys::Game(game) if game.no_other));
    let other_off = Signal::derive(move || off.get() || served.get());
    view! {
        <div class="run-side is-four">
            <Key
                key="new-teams"
                class="small-key is-stacked"
                off
                label=words::NEW_TEAMS_LABEL
                press=shell.press(Action::TeamsMixed)
            >
                <span>{words::NEW_TEAMS}</span>
            </Key>
            <Key
                key="swap-two"
                class="small-key is-stacked"
                off
                label=words::SWAP_TWO_LABEL
                press=move || choosing.set(Some(Choice::Anyone))
            >
                <span>{words::SWAP_TWO}</span>
            </Key>
            <Key
                key="other-serves"
                class="small-key is-stacked"
                off=other_off
                label=words::OTHER_SERVES_LABEL
                chosen=Signal::derive(move || other.get())
                press=shell.press(Action::OtherServesTapped)
            >
                <span>{words::OTHER_SERVES}</span>
            </Key>
            {turn_round(shell)}
        </div>
    }
}
