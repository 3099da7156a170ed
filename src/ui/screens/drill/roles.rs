//! The part of a drill's form that says who stands beside the passers, and when everyone moves on.

use leptos::prelude::*;

use super::Draft;
use super::change::step_u8;
use super::change_roles::{self as change, MAX_FEEDERS, MAX_GETTERS, SwapChoice};
use crate::app::words::groups as words;
use crate::domain::drill::OnFloor;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::{Choice, Stepper, Switch};

#[component]
pub(super) fn RoleFields(draft: Draft) -> impl IntoView {
    let stands = draft.part(|s| change::on_floor(s).is_some());
    live(move || stands.get().then(|| view! { <Beside draft /> }))
}

#[component]
fn Beside(draft: Draft) -> impl IntoView {
    let on_floor = draft.part(|s| s.on_floor);
    let set = move |f: fn(&mut OnFloor, bool), more: bool| draft.change(|s| change::with(s, |o| f(o, more)));
    let choice = Part::new(move || SwapChoice::of(on_floor.get().swap));
    let figure = Part::new(move || change::figure(on_floor.get().swap));
    let choices = SwapChoice::ALL.map(|which| {
        let (key, label) = match which {
            SwapChoice::OnTap => ("swap.tap", words::SWAP_TAP),
            SwapChoice::Balls => ("swap.balls", words::SWAP_BALLS),
            SwapChoice::Minutes => ("swap.minutes", words::SWAP_MINUTES),
        };
        view! {
            <Choice
                key=key.to_owned()
                label
                chosen=Signal::derive(move || choice.get() == which)
                on_tap=move || {
                    if choice.get_untracked() != which {
                        draft.change(|s| change::with(s, |o| o.swap = which.usual()));
                    }
                }
            />
        }
    });
    view! {
        <section>
            <h2 class="section-head">{words::BESIDE}</h2>
            <p class="hint">{words::BESIDE_LINE}</p>
            <Stepper
                key="feeders"
                label=words::FEEDERS
                figure=Signal::derive(move || on_floor.get().n_feeders.to_string())
                at_least=Signal::derive(move || on_floor.get().n_feeders == 0)
                at_most=Signal::derive(move || on_floor.get().n_feeders >= MAX_FEEDERS)
                on_step=move |more| set(|o, more| o.n_feeders = step_u8(o.n_feeders, more, 0, MAX_FEEDERS), more)
            />
            <Switch
                key="target-on"
                label=words::TARGET
                on=Signal::derive(move || on_floor.get().target)
                on_tap=move |on| set(|o, on| o.target = on, on)
            />
            <Stepper
                key="getters"
                label=words::GETTERS
                figure=Signal::derive(move || on_floor.get().n_getters.to_string())
                at_least=Signal::derive(move || on_floor.get().n_getters == 0)
                at_most=Signal::derive(move || on_floor.get().n_getters >= MAX_GETTERS)
                on_step=move |more| set(|o, more| o.n_getters = step_u8(o.n_getters, more, 0, MAX_GETTERS), more)
            />
            <h3 class="ask">{words::SWAP_WHEN}</h3>
            <div class="choices choices-three">{choices}</div>
            {move || {
                let label = match choice.get() {
                    SwapChoice::OnTap => return None,
                    SwapChoice::Balls => words::BALLS_A_TURN,
                    SwapChoice::Minutes => words::MINUTES_A_TURN,
                };
                Some(
                    view! {
                        <Stepper
                            key="swap-every"
                            label
                            figure=Signal::derive(move || figure.get().map(|(n, ..)| n.to_string()).unwrap_or_default())
                            at_least=Signal::derive(move || figure.get().is_some_and(|(n, least, _)| n <= least))
                            at_most=Signal::derive(move || figure.get().is_some_and(|(n, _, most)| n >= most))
                            on_step=move |more| draft.change(|s| change::with(s, |o| o.swap = change::step(o.swap, more)))
                        />
                    },
                )
            }}
        </section>
    }
}
