//! The part of a drill's form that says what is played for: rounds of easy and challenge balls, or a rule that is chosen.

use leptos::prelude::*;

use super::Draft;
use super::change::{self, EndChoice};
use super::played::PlayedFor;
use crate::app::words::screens as words;
use crate::domain::drill::{DuelBetween, Transition};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::{Choice, Stepper, Switch};

#[component]
pub(super) fn RuleFields(draft: Draft) -> impl IntoView {
    let duel = draft.part(|s| change::transition(s).is_some());
    let game = draft.part(|s| s.rule.is_game());
    live(move || {
        if game.get() {
            view! { <super::game::GameFields draft /> }
        } else if duel.get() {
            view! { <Rounds draft /> }
        } else {
            view! { <PlayedFor draft /> }
        }
    })
}

/// The rule of a draft that has one, and its change.
#[derive(Clone, Copy)]
struct Rule {
    draft: Draft,
    t: Part<Transition>,
}

impl Rule {
    fn change(self, change: impl FnOnce(&mut Transition)) {
        self.draft.change(|s| change::with_transition(s, change));
    }
}

#[component]
fn Rounds(draft: Draft) -> impl IntoView {
    // The fields stand only while the draft is a duel; the default never shows.
    let t = draft.part(|s| change::transition(s).unwrap_or_default());
    let rule = Rule { draft, t };
    view! {
        <section>
            <h2 class="section-head">{words::ROUNDS_HEAD}</h2>
            <Stepper
                key="easy"
                label=words::N_EASY
                figure=Signal::derive(move || t.get().n_easy.to_string())
                at_least=Signal::derive(move || t.get().n_easy <= 1)
                at_most=Signal::derive(move || t.get().n_easy >= change::MAX_ROUND)
                on_step=move |more| rule.change(|t| t.n_easy = change::step_u8(t.n_easy, more, 1, change::MAX_ROUND))
            />
            <Stepper
                key="challenge"
                label=words::N_CHALLENGE
                figure=Signal::derive(move || t.get().n_challenge.to_string())
                at_least=Signal::derive(move || t.get().n_challenge <= 1)
                at_most=Signal::derive(move || t.get().n_challenge >= change::MAX_ROUND)
                on_step=move |more| {
                    rule.change(|t| t.n_challenge = change::step_u8(t.n_challenge, more, 1, change::MAX_ROUND))
                }
            />
            <EarnIt rule />
            <Switch
                key="swap-on"
                label=words::SWAP_ON
                on=Signal::derive(move || t.get().swap)
                on_tap=move |on| rule.change(|t| t.swap = on)
            />
        </section>
        <Between rule />
        <End rule />
    }
}

#[component]
fn EarnIt(rule: Rule) -> impl IntoView {
    let t = rule.t;
    let on = Part::new(move || t.get().earn.is_some());
    view! {
        <Switch
            key="earn-on"
            label=words::EARN_ON
            line=words::EARN_LINE
            on
            on_tap=move |on: bool| rule.change(|t| t.earn = on.then_some(t.n_easy))
        />
        <Show when=move || on.get()>
            <Stepper
                key="earn"
                label=words::EARN
                figure=Signal::derive(move || t.get().earn.map(|n| n.to_string()).unwrap_or_default())
                at_least=Signal::derive(move || t.get().earn.is_some_and(|n| n <= 1))
                at_most=Signal::derive(move || t.get().earn.is_some_and(|n| n >= t.get().n_easy))
                on_step=move |more| {
                    rule.change(|t| t.earn = t.earn.map(|n| change::step_u8(n, more, 1, t.n_easy)))
                }
            />
        </Show>
    }
}

#[component]
fn Between(rule: Rule) -> impl IntoView {
    let t = rule.t;
    let sides = [
        (DuelBetween::Sides, "between.sides", words::SIDES),
        (DuelBetween::Children, "between.children", words::CHILDREN),
    ];
    view! {
        <section>
            <h2 class="section-head">{words::BETWEEN}</h2>
            <div class="choices choices-two">
                {sides
                    .map(|(which, key, label)| {
                        view! {
                            <Choice
                                key=key.to_owned()
                                label
                                chosen=Signal::derive(move || t.get().between == which)
                                on_tap=move || rule.change(|t| t.between = which)
                            />
                        }
                    })}
            </div>
        </section>
    }
}

#[component]
fn End(rule: Rule) -> impl IntoView {
    let t = rule.t;
    let end = Part::new(move || t.get().end);
    let choice = Part::new(move || EndChoice::of(end.get()));
    let choices = EndChoice::ALL.map(|which| {
        let (key, label) = match which {
            EndChoice::Points => ("end.points", words::END_POINTS),
            EndChoice::Rounds => ("end.rounds", words::END_ROUNDS),
            EndChoice::Coach => ("end.coach", words::END_COACH),
        };
        view! {
            <Choice
                key=key.to_owned()
                label
                chosen=Signal::derive(move || choice.get() == which)
                on_tap=move || {
                    if choice.get_untracked() != which {
                        rule.change(|t| t.end = which.usual());
                    }
                }
            />
        }
    });
    view! {
        <section>
            <h2 class="section-head">{words::END_HEAD}</h2>
            <div class="choices choices-three">{choices}</div>
            {move || {
                let label = match choice.get() {
                    EndChoice::Points => words::POINTS,
                    EndChoice::Rounds => words::ROUNDS,
                    EndChoice::Coach => return None,
                };
                Some(
                    view! {
                        <Stepper
                            key="end"
                            label
                            figure=Signal::derive(move || {
                                change::end_figure(end.get()).map(|n| n.to_string()).unwrap_or_default()
                            })
                            at_least=Signal::derive(move || change::end_figure(end.get()).is_some_and(|n| n <= 1))
                            at_most=Signal::derive(move || {
                                change::end_figure(end.get()).is_some_and(|n| n >= change::MAX_END)
                            })
                            on_step=move |more| rule.change(|t| t.end = change::step_end(t.end, more))
                        />
                    },
                )
            }}
        </section>
    }
}
