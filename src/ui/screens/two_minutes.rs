//! The first two minutes after a practice: what went to plan, three things worth knowing, three worth asking. What a thing worth knowing
//! rests on, and who it is about, stands behind a tap; a question names whom to ask.

use leptos::prelude::*;

use crate::app::action::Action;
use crate::app::view::after::{AskRow, Know, Minutes};
use crate::app::words::after as words;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn TwoMinutes(minutes: Part<Option<Minutes>>, asks: Part<Vec<AskRow>>, shell: Shell) -> impl IntoView {
    let plan = Part::new(move || minutes.with(|m| m.as_ref().map(|m| m.plan.clone()).unwrap_or_default()));
    let know = Part::new(move || minutes.with(|m| m.as_ref().map(|m| m.know.clone()).unwrap_or_default()));
    let none = Part::new(move || minutes.with(|m| m.as_ref().and_then(|m| m.know_none)));
    let working = Part::new(move || minutes.with(|m| m.as_ref().is_some_and(|m| m.working)));
    let trouble = Part::new(move || minutes.with(|m| m.as_ref().and_then(|m| m.trouble.clone())));
    let n_asks = Part::new(move || asks.with(Vec::len));
    let one = move |(i, line): (usize, &Know)| worth_knowing(i, line, shell);
    view! {
        <section class="two-plan">
            <h2 class="section-head">{words::PLAN}</h2>
            <p class="lead" dir="auto" data-fig="to-plan">{move || plan.get()}</p>
        </section>
        <section>
            <h2 class="section-head">{words::KNOW}</h2>
            {live(move || none.get().map(|line| view! { <p data-fig="know-none">{line}</p> }))}
            <ul class="rows card two-know">
                {move || know.with(|know| know.iter().enumerate().map(one).collect::<Vec<_>>())}
            </ul>
            <Show when=move || working.get()>
                <p class="hint" role="status" data-fig="working">{words::WORKING}</p>
            </Show>
            {live(move || trouble.get().map(|line| view! { <p class="fault" role="status" data-fig="know-trouble">{line}</p> }))}
        </section>
        {live(move || {
            let n = n_asks.get();
            (n > 0)
                .then(|| {
                    let rows: Vec<_> = (0..n).map(|i| worth_asking(i, asks, shell)).collect();
                    view! {
                        <section>
                            <h2 class="section-head">{words::ASK}</h2>
                            <p class="hint">{words::ASK_LINE}</p>
                            <ul class="rows card">{rows}</ul>
                        </section>
                    }
                })
        })}
    }
}

fn worth_knowing(i: usize, know: &Know, shell: Shell) -> AnyView {
    let rests: Vec<_> = know.rests.iter().map(|line| view! { <p dir="auto">{line.clone()}</p> }).collect();
    let how = (!know.how.is_empty()).then_some(know.how);
    let (label, action) = know.way.clone();
    view! {
        <li>
            <details class="two-line">
                <summary data-key=format!("know.{i}") dir="auto">
                    <span data-fig=format!("know.{i}")>{know.line.clone()}</span>
                </summary>
                <div class="two-rests" data-fig=format!("rests.{i}")>
                    {rests}
                    {how.map(|line| view! { <p class="hint">{line}</p> })}
                </div>
            </details>
            <button class="two-way" type="button" data-key=format!("way.{i}") on:click=shell.sends(action)>
                {label}
            </button>
        </li>
    }
}

/// The row stays under the thumb while it is asked: what it says changes, not where it is.
fn worth_asking(i: usize, asks: Part<Vec<AskRow>>, shell: Shell) -> AnyView {
    let of =
        move |f: fn(&AskRow) -> String| Part::new(move || asks.with(|asks| asks.get(i).map(f).unwrap_or_default()));
    let (said, why) = (of(|row| row.said.clone()), of(|row| row.why.clone()));
    let asked = Part::new(move || asks.with(|asks| asks.get(i).is_some_and(|row| row.asked)));
    // A thing to tap until it is done, then what was done.
    let label = move || if asked.get() { words::IS_ASKED } else { words::NOTE_ASKED };
    let tapped = move || {
        let action: Option<Action> = asks.with_untracked(|asks| asks.get(i).map(|row| row.tap.clone()));
        if let Some(action) = action {
            shell.send(action);
        }
    };
    view! {
        <li class="row-plain two-ask">
            <span class="row-words">
                <span class="two-said" dir="auto" data-fig=format!("ask.{i}")>{move || said.get()}</span>
                <span class="row-line">{move || why.get()}</span>
            </span>
            <button
                class="two-asked"
                type="button"
                data-key=format!("ask.{i}")
                aria-pressed=move || asked.get().to_string()
                aria-label=move || format!("{}: {}", label(), said.get())
                on:click=clicked(move |_| tapped())
            >
                {label}
            </button>
        </li>
    }
}
