//! The live figures: the count towards the goal, the child whose turn it is, the duel; and the calm view that joins them when
//! nobody taps. All of them live in one room whose size nothing in it can change.

use leptos::prelude::*;

use super::length;
use super::strip::Choice;
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::{BoardView, CurrentView, DuelView, Keys, Pip};
use crate::app::words::board as words;
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{Answer, Key};

#[component]
pub fn Figures(view: Watched<BoardView>) -> impl IntoView {
    let good = view.part(|v| v.figures.n_good);
    let wide = view.part(|v| v.figures.n_good > 99);
    let of = view.part(|v| v.figures.of.clone());
    let goal = view.part(|v| v.figures.goal.clone().unwrap_or_default());
    let reached = view.part(|v| v.figures.reached);
    view! {
        <div class="tally-room">
            <div class="tally">
                <b class="numeral" class:is-wide=move || wide.get() data-fig="good">
                    {move || good.get()}
                </b>
                <span class="tally-words">
                    <span data-fig="of">{move || of.get()}</span>
                    <span class="tally-goal" class:is-reached=move || reached.get() data-fig="goal">
                        {move || goal.get()}
                    </span>
                </span>
            </div>
        </div>
    }
}

/// Whose turn it is, as large as a name can be.
#[component]
pub fn Current(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let current = view.part(|v| current_of(v).cloned());
    let size = view.part(|v| length(current_of(v).map_or("", |c| &c.name)));
    let has_style = view.part(|v| current_of(v).is_some_and(|c| c.style.is_some()));
    let part = move |f: fn(&CurrentView) -> Option<String>| {
        move || current.with(|c| c.as_ref().and_then(f)).unwrap_or_default()
    };
    let change_style = move || {
        if let Some(player) = current.with_untracked(|c| c.as_ref().map(|c| c.player)) {
            shell.send(Action::StyleTapped(player));
        }
    };
    view! {
        <div class="current">
            <strong class=move || format!("current-name {}", size.get()) data-fig="current" dir="auto">
                {move || current.with(|c| c.as_ref().map_or_else(|| words::NO_NAME.to_owned(), |c| c.name.clone()))}
            </strong>
            <span class="current-line">
                <span class="current-of">{part(|c| Some(c.of.clone()))}</span>
                <span class="current-step" data-fig="step">{part(|c| c.step_words.clone())}</span>
                <bdi class="current-then">{part(|c| c.then.clone())}</bdi>
            </span>
            {move || {
                has_style
                    .get()
                    .then(|| {
                        view! {
                            <Key key="style" class="small-key" press=change_style>
                                <span>{part(|c| c.style.clone())}</span>
                            </Key>
                        }
                    })
            }}
        </div>
    }
}

pub fn current_of(view: &BoardView) -> Option<&CurrentView> {
    match &view.keys {
        Keys::Line { current, .. } | Keys::Serve { current, .. } | Keys::Propped { current, .. } => current.as_ref(),
        _ => None,
    }
}

#[component]
pub fn Duel(view: Watched<BoardView>, choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let text = move |f: fn(&DuelView) -> String| view.part(move |v| v.duel.as_ref().map(f).unwrap_or_default());
    let pips = view.part(|v| v.duel.as_ref().map(|d| (d.easy.clone(), d.pips.clone())).unwrap_or_default());
    let easier = view.part(|v| v.duel.as_ref().and_then(|d| d.offer_easier.clone()));
    let server = view.part(|v| v.duel.as_ref().and_then(|d| d.server.clone()));
    let round = text(|d| d.round.clone());
    let together = text(|d| d.together.to_string());
    let (passers_are, servers_are) = (text(|d| d.sides.0.to_owned()), text(|d| d.sides.1.to_owned()));
    let passers = text(|d| d.passers.to_string());
    let servers = text(|d| d.servers.to_string());
    let passers_wide = view.part(|v| v.duel.as_ref().is_some_and(|d| d.passers > 9));
    let servers_wide = view.part(|v| v.duel.as_ref().is_some_and(|d| d.servers > 9));
    view! {
        <div class="duel">
            <div class="duel-round">
                <span>{move || round.get()}</span>
                <span class="pips" role="img" aria-label=move || pips.with(|(easy, pips)| words::pips(easy, pips))>
                    {move || {
                        pips.with(|(easy, pips)| {
                            let shape = |p: &Pip| view! { <i class=pip_shape(*p)></i> };
                            let easy: Vec<_> = easy.iter().map(shape).collect();
                            let pips: Vec<_> = pips.iter().map(shape).collect();
                            view! {
                                {(!easy.is_empty()).then(|| view! { <span class="pips-easy">{easy}</span> })}
                                {pips}
                            }
                        })
                    }}
                </span>
            </div>
            <div class="duel-score">
                <span class="duel-side">
                    <b class="numeral" class:is-wide=move || passers_wide.get() data-fig="passers">
                        {move || passers.get()}
                    </b>
                    <span>{move || passers_are.get()}</span>
                </span>
                <span class="duel-side is-joint">
                    <b class="numeral" data-fig="joint">
                        {move || together.get()}
                    </b>
                    <span>{words::TOGETHER}</span>
                </span>
                <span class="duel-side">
                    <b class="numeral" class:is-wide=move || servers_wide.get() data-fig="servers">
                        {move || servers.get()}
                    </b>
                    <span>{move || servers_are.get()}</span>
                </span>
            </div>
            <div class="duel-foot">
                {move || {
                    server
                        .get()
                        .map(|line| {
                            view! {
                                <Key
                                    key="server"
                                    class="small-key duel-server"
                                    press=move || {
                                        choosing.update(|choice| *choice = choice.is_none().then_some(Choice::Server))
                                    }
                                >
                                    <span>{line}</span>
                                </Key>
                            }
                        })
                }}
                {move || {
                    easier
                        .get()
                        .map(|line| {
                            view! {
                                <Key
                                    key="easier"
                                    class="small-key duel-easier"
                                    press=shell.press(Action::EasierFeedTaken)
                                >
                                    <span>{line}</span>
                                </Key>
                            }
                        })
                }}
            </div>
        </div>
    }
}

const fn pip_shape(pip: Pip) -> &'static str {
    match pip {
        Pip::Good => "pip is-good",
        Pip::NotGood => "pip is-not-good",
        Pip::NoChance => "pip is-no-chance",
        Pip::Now => "pip is-now",
        Pip::Ahead => "pip is-ahead",
    }
}

/// Joins the figures after five seconds without a tap.
#[component]
pub fn Calm(view: Watched<BoardView>, shell: Shell) -> impl IntoView {
    let calm = view.part(|v| v.calm.clone());
    live(move || {
        calm.get().map(|calm| {
            let lines: Vec<_> = calm
                .lines
                .into_iter()
                .map(|line| {
                    view! {
                        <p class="calm-line">
                            <b dir="auto">{line.who}</b>
                            <span>{line.rate}</span>
                            {(!line.rows.is_empty()).then(|| view! { <small>{line.rows}</small> })}
                        </p>
                    }
                })
                .collect();
            view! {
                <div class="calm">
                    {lines}
                    {match calm.step {
                        Some((line, drill)) => Some(view! {
                            <Key
                                key="step-line"
                                class="small-key calm-step"
                                answer=Answer::Up
                                press=shell.press(Action::Go(Screen::Drill(Some(drill))))
                            >
                                <span data-fig="step-line">{line}</span>
                            </Key>
                        }),
                        None => calm.pace.map(|pace| view! { <p class="calm-pace">{pace}</p> }),
                    }}
                </div>
            }
        })
    })
}
