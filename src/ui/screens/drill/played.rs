//! The part of a drill's form that chooses its rule, and that rule's few settings. Only what fits the board is offered.

use leptos::prelude::*;

use super::Draft;
use super::change::{self, Played};
use crate::app::words::{rules, screens as words};
use crate::domain::rule::{Rule, Whose};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::{Choice, Stepper, Switch};

#[component]
pub(super) fn PlayedFor(draft: Draft) -> impl IntoView {
    let offered = draft.part(change::offered);
    let chosen = draft.part(|s| Played::of(&s.rule));
    let choices = move || {
        let choice = |which: Played| {
            let (key, label) = words_of(which);
            view! {
                <Choice
                    key=key.to_owned()
                    label
                    chosen=Signal::derive(move || chosen.get() == Some(which))
                    on_tap=move || draft.change(|s| change::with_played(s, which))
                />
            }
        };
        offered.get().into_iter().map(choice).collect::<Vec<_>>()
    };
    view! {
        <Show when=move || !offered.with(Vec::is_empty)>
            <section>
                <h2 class="section-head">{words::PLAYED_FOR}</h2>
                <div class="choices choices-two">{choices}</div>
                <Settings draft chosen />
            </section>
        </Show>
    }
}

const fn words_of(which: Played) -> (&'static str, &'static str) {
    match which {
        Played::Goal => ("played.goal", words::PLAYED_GOAL),
        Played::InRow => ("played.row", words::PLAYED_ROW),
        Played::Tens => ("played.tens", words::PLAYED_TENS),
        Played::FirstTo => ("played.first", words::PLAYED_FIRST),
        Played::InTime => ("played.time", words::PLAYED_TIME),
        Played::Together => ("played.together", words::PLAYED_TOGETHER),
    }
}

/// Each stands where the rule has it; what a rule hasn't isn't there.
#[component]
fn Settings(draft: Draft, chosen: Part<Option<Played>>) -> impl IntoView {
    view! {
        {live(move || chosen.get().map(|played| view! { <Number draft played /> }))}
        <OneRow draft />
        {live(move || chosen.get().map(|played| view! { <Goal draft played /> }))}
        <Owner draft />
        {live(move || chosen.get().map(|played| view! { <Besides draft played /> }))}
        <Groups draft />
    }
}

/// Balls of a series, points of a race, the time.
#[component]
fn Number(draft: Draft, played: Played) -> impl IntoView {
    let number = draft.part(change::number);
    let is_time = played == Played::InTime;
    let (key, label) = match played {
        Played::Tens => ("series", words::SERIES_BALLS),
        Played::FirstTo => ("race", words::RACE_POINTS),
        _ => ("seconds", words::TIME_LONG),
    };
    let figure = move || match number.get() {
        Some((n, ..)) if is_time => rules::clock(n),
        Some((n, ..)) => n.to_string(),
        None => String::new(),
    };
    view! {
        <Show when=move || number.with(Option::is_some)>
            <Stepper
                key
                label
                figure=Signal::derive(figure)
                at_least=Signal::derive(move || number.get().is_some_and(|(n, least, _)| n <= least))
                at_most=Signal::derive(move || number.get().is_some_and(|(n, _, most)| n >= most))
                on_step=move |more| draft.change(|s| change::step_number(s, more))
            />
        </Show>
    }
}

/// A goal, a row's goal, the balls of a total: each may be left out.
#[component]
fn Goal(draft: Draft, played: Played) -> impl IntoView {
    let goal = draft.part(change::goal);
    let has = Part::new(move || goal.with(Option::is_some));
    let on = Part::new(move || goal.get().flatten().is_some());
    let (switch, label) = match played {
        Played::InRow => (words::ROW_GOAL_ON, words::ROW_GOAL),
        Played::Together => (words::BALLS_ON, words::BALLS),
        _ => (words::GOAL_ON, words::GOAL),
    };
    let figure = move || goal.get().flatten();
    view! {
        <Show when=move || has.get()>
            <Switch key="goal-on" label=switch on on_tap=move |on| draft.change(|s| change::with_goal(s, on)) />
            <Show when=move || on.get()>
                <Stepper
                    key="goal"
                    label
                    figure=Signal::derive(move || figure().map(|n| n.to_string()).unwrap_or_default())
                    at_least=Signal::derive(move || figure().is_some_and(|n| n <= 1))
                    at_most=Signal::derive(move || figure().is_some_and(|n| n >= change::MAX_GOAL))
                    on_step=move |more| draft.change(|s| change::step_goal(s, more))
                />
            </Show>
        </Show>
    }
}

/// Each child's own, or a group's.
#[component]
fn Owner(draft: Draft) -> impl IntoView {
    let whose = draft.part(change::whose);
    let is_row = draft.part(|s| matches!(s.rule, Rule::InRow(_)));
    let choices = move || {
        let group = if is_row.get() { words::WHOSE_GROUP_ROW } else { words::WHOSE_GROUP };
        [(Whose::Child, "whose.child", words::WHOSE_CHILD), (Whose::Group, "whose.group", group)]
            .map(|(which, key, label)| {
                view! {
                    <Choice
                        key=key.to_owned()
                        label
                        chosen=Signal::derive(move || whose.get() == Some(which))
                        on_tap=move || draft.change(|s| change::with_whose(s, which))
                    />
                }
            })
            .into_iter()
            .collect::<Vec<_>>()
    };
    view! {
        <Show when=move || whose.with(Option::is_some)>
            <h3 class="ask">{words::WHOSE}</h3>
            <div class="choices choices-two">{choices}</div>
        </Show>
    }
}

/// One total of everyone, or one row that all keep alive.
#[component]
fn OneRow(draft: Draft) -> impl IntoView {
    let row = draft.part(change::one_row);
    let choices = [(false, "together.total", words::TOGETHER_TOTAL), (true, "together.row", words::TOGETHER_ROW)];
    view! {
        <Show when=move || row.with(Option::is_some)>
            <p class="hint">{words::TOGETHER_LINE}</p>
            <div class="choices choices-two">
                {choices
                    .map(|(which, key, label)| {
                        view! {
                            <Choice
                                key=key.to_owned()
                                label
                                chosen=Signal::derive(move || row.get() == Some(which))
                                on_tap=move || draft.change(|s| change::with_one_row(s, which))
                            />
                        }
                    })}
            </div>
        </Show>
    }
}

/// Falls to the last five; wins by two.
#[component]
fn Besides(draft: Draft, played: Played) -> impl IntoView {
    let besides = draft.part(change::besides);
    let (key, label, line) = match played {
        Played::InRow => ("falls-to-five", words::FALLS, words::FALLS_LINE),
        _ => ("by-two", words::BY_TWO, words::BY_TWO_LINE),
    };
    view! {
        <Show when=move || besides.with(Option::is_some)>
            <Switch
                key
                label
                line
                on=Signal::derive(move || besides.get() == Some(true))
                on_tap=move |on| draft.change(|s| change::with_besides(s, on))
            />
        </Show>
    }
}

#[component]
fn Groups(draft: Draft) -> impl IntoView {
    let groups = draft.part(change::groups);
    let one = Part::new(move || groups.get().is_some_and(|(n, ..)| n <= 1));
    view! {
        <Show when=move || groups.with(Option::is_some)>
            <Stepper
                key="groups"
                label=words::GROUPS
                figure=Signal::derive(move || {
                    groups.get().map(|(n, ..)| n.to_string()).unwrap_or_default()
                })
                at_least=Signal::derive(move || groups.get().is_some_and(|(n, least, _)| n <= least))
                at_most=Signal::derive(move || groups.get().is_some_and(|(n, _, most)| n >= most))
                on_step=move |more| draft.change(|s| change::step_groups(s, more))
            />
            <p class="hint">{move || if one.get() { words::GROUPS_ONE } else { words::GROUPS_LINE }}</p>
        </Show>
    }
}
