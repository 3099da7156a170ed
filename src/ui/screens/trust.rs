//! How far to trust what children score themselves, a sentence at a time; what it rests on opens under it.

use leptos::prelude::*;

use super::parts::Head;
use crate::app::screen::Screen;
use crate::app::view::trust::{KindTrust, TrustView};
use crate::app::words::trust as words;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Trust(view: Part<TrustView>, shell: Shell) -> impl IntoView {
    let cards = |all: &[KindTrust], from: usize| -> Vec<AnyView> {
        all.iter().enumerate().map(|(i, kind)| of_kind(from + i, kind)).collect()
    };
    let kinds = move || view.with(|v| cards(&v.kinds, 0));
    let stations = move || {
        view.with(|v| {
            let cards = cards(&v.stations, v.kinds.len());
            (!cards.is_empty()).then(|| {
                view! {
                    <h2 class="section-head">{words::STATIONS}</h2>
                    <p class="hint">{words::STATIONS_LINE}</p>
                    {cards}
                }
            })
        })
    };
    let alone =
        move || view.with(|v| v.alone.clone()).map(|line| view! { <p class="hint" data-fig="alone">{line}</p> });
    let how: Vec<_> = words::HOW_LINES.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    view! {
        <main class="screen" data-screen="trust">
            <Head title=words::TITLE.to_owned() shell back=(Screen::After, words::TO_AFTER) />
            <p class="hint">{words::LEAD}</p>
            {live(kinds)}
            <section class="weeks-kind card">
                <h2 class="weeks-title">{words::TOLD}</h2>
                <p class="trust-line">{words::TOLD_LINE}</p>
            </section>
            {live(stations)}
            {live(alone)}
            <p class="trust-line">{words::TO_CHECK}</p>
            <details class="weeks-how">
                <summary data-key="how">{words::HOW}</summary>
                {how}
            </details>
        </main>
    }
}

fn of_kind(i: usize, kind: &KindTrust) -> AnyView {
    let lines: Vec<_> = kind
        .lines
        .iter()
        .enumerate()
        .map(|(n, line)| {
            let class = if n == 0 { "weeks-now" } else { "trust-line" };
            view! { <p class=class data-fig=format!("trust.{i}.{n}")>{line.clone()}</p> }
        })
        .collect();
    let figures: Vec<_> = kind
        .figures
        .iter()
        .enumerate()
        .map(|(n, line)| view! { <p class="hint" data-fig=format!("figure.{i}.{n}")>{line.clone()}</p> })
        .collect();
    view! {
        <section class="weeks-kind card">
            <h2 class="weeks-title" dir="auto">{kind.title.clone()}</h2>
            {lines}
            {figures}
        </section>
    }
}
