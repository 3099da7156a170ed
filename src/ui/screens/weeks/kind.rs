//! One kind of ball: closed a sentence with a small picture, open its chart and what it rests on.

use leptos::prelude::*;

use super::chart::chart;
use super::{table, what};
use crate::app::view::weeks::kinds::KindView;
use crate::app::words::weeks as words;
use crate::app::words::weeks::days as day_words;
use crate::domain::ids::PlayerId;
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;

/// The first of a page stands open. What the others hold is drawn when it is first wanted: a chart has some hundred shapes.
pub fn kind(i: usize, kind: &KindView, player: PlayerId, shell: Shell) -> AnyView {
    let wanted = RwSignal::new(i == 0);
    let whole = kind.clone();
    view! {
        <details class="kind card" open=i == 0 on:toggle=move |_| wanted.set(true)>
            <summary class="kind-head" data-key=format!("kind.{i}")>
                <span class="kind-words">
                    <h2 class="weeks-title" dir="auto">{kind.title.clone()}</h2>
                    <span class="weeks-now" data-fig=format!("now.{i}")>{kind.now.clone()}</span>
                </span>
                {kind.chart.as_ref().map(|chart| small(chart.band.clone(), chart.line.clone()))}
            </summary>
            {live(move || wanted.get().then(|| inside(i, &whole, player, shell)))}
        </details>
    }
}

fn inside(i: usize, kind: &KindView, player: PlayerId, shell: Shell) -> AnyView {
    let rows = kind.days.iter().map(|row| (row.day.clone(), vec![row.count.clone(), row.level.clone()])).collect();
    view! {
        {kind.change.clone().map(|line| view! { <p class="kind-change" data-fig=format!("change.{i}")>{line}</p> })}
        {kind.question.then(|| view! { <p class="weeks-ask">{words::QUESTION}</p> })}
        {kind.chart.as_ref().map(|view| chart(view, i, Some((player, kind.no)), shell))}
        {kind.would_tell.clone().map(|line| view! { <p class="hint">{line}</p> })}
        <p class="hint">{kind.from.clone()}</p>
        <details>
            <summary data-key=format!("days.{i}")>{words::BY_DAY}</summary>
            {table(&[words::COUNTED, words::LEVEL], rows)}
        </details>
        {what(format!("what.{i}"), &day_words::WHAT_LINES)}
    }
}

/// The band alone, to be read at a glance.
fn small(band: Option<String>, line: Option<String>) -> AnyView {
    view! {
        <svg class="spark" viewBox="0 -4 320 136" preserveAspectRatio="none" aria-hidden="true" focusable="false">
            <path class="spark-grid" d="M0 0H320M0 64H320M0 128H320" />
            <path class="chart-band" d=band.unwrap_or_default() />
            <path class="spark-line" d=line.unwrap_or_default() />
        </svg>
    }
}
