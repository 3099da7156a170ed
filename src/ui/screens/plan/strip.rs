//! On the first screen: what is on and how much of it is left, read from two metres; at the thumb, the next part by one tap.

use leptos::prelude::*;

use super::super::parts::Stepper;
use super::super::pictures::{Glyph, glyph};
use super::tap;
use super::timeline::tracks;
use crate::app::action::Action;
use crate::app::plan::PlanTap;
use crate::app::screen::Screen;
use crate::app::view::plan::{Question, Running, StripView};
use crate::app::words::plan as words;
use crate::domain::plan::refit::Way as Fit;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

/// What is on, above everything else.
#[component]
pub fn Strip(view: Part<StripView>, shell: Shell) -> impl IntoView {
    let running = Part::new(move || view.with(|v| v.running.is_some()));
    view! {
        <Show when=move || running.get()>
            <On view shell />
        </Show>
    }
}

/// The way to the plan while nothing is on.
#[component]
pub fn Way(view: Part<StripView>, shell: Shell) -> impl IntoView {
    let running = Part::new(move || view.with(|v| v.running.is_some()));
    let short = Part::new(move || view.with(|v| v.short.clone()));
    view! {
        <Show when=move || !running.get()>
            <button class="plan-way" type="button" data-key="plan" on:click=shell.sends(Action::Go(Screen::Plan))>
                <span class="fold-label">{words::TITLE}</span>
                <span class="fold-count" data-fig="plan">
                    {move || short.get()}
                </span>
                {glyph(Glyph::Onward)}
            </button>
        </Show>
    }
}

#[component]
fn On(view: Part<StripView>, shell: Shell) -> impl IntoView {
    let of = move |f: fn(&Running) -> String| {
        Part::new(move || view.with(|v| v.running.as_ref().map(f).unwrap_or_default()))
    };
    let title = of(|r| r.title.clone());
    let what = of(|r| r.what.clone());
    let (left, word) = (of(|r| r.left.clone()), of(|r| r.left_word.to_owned()));
    let (late, gym) = (of(|r| r.late.clone()), of(|r| r.gym.clone()));
    let marks =
        Part::new(move || view.with(|v| v.running.as_ref().map(|r| (r.ball, r.net, r.game)).unwrap_or_default()));
    let over = Part::new(move || view.with(|v| v.running.as_ref().is_some_and(|r| r.over)));
    let nothing = Part::new(move || view.with(|v| v.running.as_ref().is_some_and(|r| r.nothing)));
    let percent = Part::new(move || view.with(|v| v.running.as_ref().map_or(0, |r| r.percent)));
    let question = Part::new(move || view.with(|v| v.running.as_ref().and_then(|r| r.question.clone())));
    let trouble = Part::new(move || view.with(|v| v.running.as_ref().and_then(|r| r.trouble.clone())));
    let fitted = Part::new(move || view.with(|v| v.running.as_ref().and_then(|r| r.fitted.clone())));
    let board = Part::new(move || view.with(|v| v.running.as_ref().and_then(|r| r.board.clone())));
    view! {
        <section class="now card" class:is-over=move || over.get() class:is-nothing=move || nothing.get() data-fig="strip">
            <div class="now-row">
                {move || marks.with(|(ball, net, game)| tracks(*ball, *net, *game))}
                <div class="now-words">
                    <h2 class="now-title" dir="auto" data-fig="part-on">{move || title.get()}</h2>
                    <p class="hint">{move || what.get()}</p>
                </div>
                <p class="now-time" role="timer">
                    <span class="now-left" data-fig="part-left">{move || left.get()}</span>
                    <span class="now-word">{move || word.get()}</span>
                </p>
            </div>
            <span class="plan-bar" aria-hidden="true">
                <i class="is-gone" style:width=move || format!("{}%", percent.get())></i>
            </span>
            <p class="now-late">
                <span data-fig="late">{move || late.get()}</span>
                <span data-fig="gym-left">{move || gym.get()}</span>
            </p>
            {move || {
                board
                    .get()
                    .map(|action| {
                        view! {
                            <button class="quiet" type="button" data-key="part-board" on:click=shell.sends(action)>
                                {words::BOARD}
                            </button>
                        }
                    })
            }}
            {move || trouble.get().map(|line| view! { <p class="fault" data-fig="part-out">{line}</p> })}
            {move || question.with(|q| q.as_ref().map(|q| ask(q, shell)))}
            {move || fitted.get().map(|line| fitted_line(line, shell))}
            <Hand view shell />
        </section>
    }
}

/// Balls, the plan, and the way back from a tap too many.
#[component]
fn Hand(view: Part<StripView>, shell: Shell) -> impl IntoView {
    let balls = Part::new(move || view.with(|v| v.running.as_ref().map(|r| r.balls.to_string()).unwrap_or_default()));
    let least = Part::new(move || view.with(|v| v.running.as_ref().is_some_and(|r| r.balls_least)));
    let most = Part::new(move || view.with(|v| v.running.as_ref().is_some_and(|r| r.balls_most)));
    let undo = Part::new(move || view.with(|v| v.running.as_ref().map(|r| r.undo.clone()).unwrap_or_default()));
    let step = move |more: bool| {
        let action = view.with_untracked(|v| {
            v.running.as_ref().map(|r| if more { r.more_balls.clone() } else { r.fewer_balls.clone() })
        });
        if let Some(action) = action {
            shell.send(action);
        }
    };
    view! {
        <Stepper key="strip-balls" label=words::BALLS figure=balls at_least=least at_most=most on_step=step />
        <div class="now-keys">
            <button class="notice-act" type="button" data-key="plan" on:click=shell.sends(Action::Go(Screen::Plan))>
                {words::TO_PLAN}
            </button>
            <button class="notice-later" type="button" data-key="not-begun" on:click=shell.sends(tap(PlanTap::NotBegun))>
                {move || undo.get()}
            </button>
        </div>
    }
}

/// What is left no longer fits: three ways, each with what would come of it.
fn ask(question: &Question, shell: Shell) -> AnyView {
    let ways = [
        ("refit-shorten", words::SHORTEN, question.shorten.clone(), PlanTap::Refit(Fit::Shorten)),
        ("refit-drop", words::DROP, question.drop.clone(), PlanTap::Refit(Fit::Drop)),
        ("refit-keep", words::KEEP, question.keep.clone(), PlanTap::KeptOn),
    ];
    let keys: Vec<_> = ways
        .into_iter()
        .map(|(key, label, line, action)| {
            view! {
                <button class="quiet" type="button" data-key=key on:click=shell.sends(tap(action))>
                    <span>{label}</span>
                    <span class="hint">{line}</span>
                </button>
            }
        })
        .collect();
    view! {
        <div class="now-ask" role="group" aria-label=question.line.clone()>
            <p class="now-asked" data-fig="asked">{question.line.clone()}</p>
            {question.locked.clone().map(|line| view! { <p class="fault" data-fig="locked">{line}</p> })}
            {question
                .unlock
                .clone()
                .map(|(label, action)| {
                    view! {
                        <button class="quiet" type="button" data-key="refit-unlock" on:click=shell.sends(action)>
                            {label}
                        </button>
                    }
                })}
            <div class="now-ways">{keys}</div>
        </div>
    }
}

/// What the choice made of the rest, and the way back from it.
pub(super) fn fitted_line(line: String, shell: Shell) -> AnyView {
    view! {
        <div class="now-fitted">
            <p class="hint" role="status" data-fig="fitted">{line}</p>
            <button class="notice-later" type="button" data-key="refit-back" on:click=shell.sends(tap(PlanTap::FitBack))>
                {words::AS_IT_WAS}
            </button>
        </div>
    }
}

/// The next part, or the first one: one tap at the thumb.
#[component]
pub fn NextKey(view: Part<StripView>, shell: Shell) -> impl IntoView {
    let next = Part::new(move || {
        view.with(|v| match &v.running {
            Some(running) => running.next.clone().map(|(no, label, line)| (no, label, Some(line))),
            None => v.begin.clone().map(|(no, label)| (no, label, None)),
        })
    });
    view! {
        {move || {
            next.get()
                .map(|(no, label, line)| {
                    view! {
                        <button class="big" type="button" data-key="next-part" on:click=shell.sends(tap(PlanTap::Begun(no)))>
                            <span class="big-words">
                                <span dir="auto">{label}</span>
                                {line.map(|line| view! { <span class="big-line">{line}</span> })}
                            </span>
                        </button>
                    }
                })
        }}
    }
}
