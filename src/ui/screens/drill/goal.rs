//! The card of a goal that fits: a sentence, the goal between its neighbours as keys, the wish and the time, and what it rests on.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::goals::GoalsTap;
use crate::app::view::goals::{GoalKey, GoalsView, State, goals};
use crate::app::words::goals as words;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::Stepper;
use crate::ui::shell::Shell;

#[component]
pub(super) fn GoalField(shell: Shell) -> impl IntoView {
    let view = shell.view(goals);
    let shown = Part::new(move || view.with(|v| v.state != State::Hidden));
    live(move || shown.get().then(|| view! { <Card view shell /> }))
}

#[component]
fn Card(view: Part<GoalsView>, shell: Shell) -> impl IntoView {
    let state = Part::new(move || view.with(|v| v.state.clone()));
    let known = Part::new(move || view.with(|v| (v.said.clone(), v.keys.clone(), v.hints.clone())));
    let rests_on = Part::new(move || view.with(|v| v.rests_on.clone()));
    let is_known = Part::new(move || state.with(|state| *state == State::Known));
    let timed = Part::new(move || view.with(|v| v.minutes.is_some()));
    let wish = move |f: fn(&GoalsView) -> bool| Signal::derive(move || view.with(f));
    view! {
        <section class="card goal-card" data-fig="goal-card">
            <h2 class="section-head">{words::HEAD}</h2>
            {live(move || match state.get() {
                State::Hidden => None,
                State::Working => Some(view! { <p class="hint" role="status" data-fig="goal-working">{words::WORKING}</p> }),
                State::Told(line) => Some(view! { <p class="hint" role="status" data-fig="goal-told">{line}</p> }),
                State::Known => Some(view! { <Known known shell /> }),
            })}
            <Show when=move || timed.get()>
                <Stepper
                    key="goal-minutes"
                    label=words::MINUTES
                    figure=Signal::derive(move || view.with(|v| v.minutes.clone().unwrap_or_default()))
                    at_least=wish(|v| v.minutes_ends.0)
                    at_most=wish(|v| v.minutes_ends.1)
                    on_step=move |more| shell.send(Action::Goals(GoalsTap::MinutesStepped(more)))
                />
            </Show>
            <Stepper
                key="goal-wish"
                label=words::WISH
                figure=Signal::derive(move || view.with(|v| v.wish.clone()))
                at_least=wish(|v| v.wish_ends.0)
                at_most=wish(|v| v.wish_ends.1)
                on_step=move |more| shell.send(Action::Goals(GoalsTap::WishStepped(more)))
            />
            <Show when=move || is_known.get()>
                <details class="weeks-how">
                    <summary data-key="goal-rests">{words::OPENS}</summary>
                    {live(move || {
                        let lines = rests_on.get().into_iter();
                        lines.map(|line| view! { <p class="hint">{line}</p> }).collect::<Vec<_>>()
                    })}
                </details>
            </Show>
        </section>
    }
}

#[component]
fn Known(known: Part<(String, Vec<GoalKey>, Vec<String>)>, shell: Shell) -> impl IntoView {
    live(move || {
        known.with(|(said, keys, hints)| {
            let keys: Vec<_> = keys.iter().map(|key| goal_key(key, shell)).collect();
            let hints: Vec<_> = hints.iter().map(|line| view! { <p class="hint">{line.clone()}</p> }).collect();
            view! {
                <p class="lead" role="status" data-fig="goal-said">{said.clone()}</p>
                <div class="goal-keys" role="group" aria-label=words::NEXT_TO_IT>{keys}</div>
                {hints}
            }
        })
    })
}

/// One tap takes the goal; one that can only be said is no key.
fn goal_key(key: &GoalKey, shell: Shell) -> AnyView {
    let class = if key.fits { "goal-key is-fit" } else { "goal-key" };
    let inner = view! {
        <b class="goal-n">{key.goal}</b>
        <span>{key.short.clone()}</span>
        <span class="visually-hidden">{key.label.clone()}</span>
    };
    if !key.takes {
        return view! { <p class=class>{inner}</p> };
    }
    view! {
        <button
            class=class
            type="button"
            data-key=format!("goal.{}", if key.fits { "fits".to_owned() } else { key.goal.to_string() })
            aria-pressed=key.chosen.to_string()
            on:click=shell.sends(Action::Goals(GoalsTap::Taken(key.goal)))
        >
            {inner}
        </button>
    }
}
