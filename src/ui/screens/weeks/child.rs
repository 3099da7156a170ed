//! One child over the weeks: its effort, then each kind of ball in a sentence with its chart; what it rests on opens under it.

use leptos::prelude::*;

use super::chart::chart;
use super::standing;
use crate::app::screen::Screen;
use crate::app::view::weeks::{ChildWeeks, KindView, ServeRow, State};
use crate::app::words::weeks as words;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::{Head, NotHere};
use crate::ui::shell::Shell;

const BACK: (Screen, &str) = (Screen::Weeks(None), words::TO_WEEKS);

#[component]
pub fn ChildOverWeeks(view: Part<Option<ChildWeeks>>, shell: Shell) -> impl IntoView {
    live(move || {
        view.with(|v| match v {
            None => view! { <NotHere screen="child-weeks" back=BACK shell /> },
            Some(child) => page(child, shell),
        })
    })
}

fn page(child: &ChildWeeks, shell: Shell) -> AnyView {
    let kinds: Vec<_> = child.kinds.iter().enumerate().map(|(i, kind)| of_kind(i, kind)).collect();
    let gaps: Vec<_> = child
        .gaps
        .iter()
        .map(|(line, counted)| view! { <p class="lead" data-fig="gap">{line.clone()}</p><p class="hint">{counted.clone()}</p> })
        .collect();
    let how: Vec<_> = words::HOW_LINES.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    view! {
        <main class="screen" data-screen="child-weeks">
            <Head title=child.name.clone() shell back=BACK />
            {child.effort.clone().map(|line| view! { <p class="lead" data-fig="effort">{line}</p> })}
            {standing(&child.state)}
            {(child.state == State::Known && kinds.is_empty()).then(|| view! { <p class="hint">{words::NO_KIND}</p> })}
            {kinds}
            {(!gaps.is_empty())
                .then(|| {
                    view! {
                        <section class="weeks-kind">
                            <h2 class="section-head">{words::GAP}</h2>
                            <p class="hint">{words::GAP_LINE}</p>
                            {gaps}
                        </section>
                    }
                })}
            {serves(&child.serves)}
            <details class="weeks-how">
                <summary data-key="how">{words::HOW}</summary>
                {how}
            </details>
        </main>
    }
}

fn of_kind(i: usize, kind: &KindView) -> AnyView {
    let days: Vec<_> = kind
        .days
        .iter()
        .map(|(day, count, share)| {
            view! {
                <tr>
                    <th scope="row">{day.clone()}</th>
                    <td>{count.clone()}</td>
                    <td>{share.clone()}</td>
                </tr>
            }
        })
        .collect();
    view! {
        <section class="weeks-kind card">
            <h2 class="weeks-title" dir="auto">{kind.title.clone()}</h2>
            <p class="weeks-now" data-fig=format!("now.{i}")>{kind.now.clone()}</p>
            {kind.chart.as_ref().map(chart)}
            {(i == 0 && kind.chart.is_some()).then(|| view! { <p class="hint">{words::SCALE}</p> })}
            {kind.change.clone().map(|line| view! { <p data-fig=format!("change.{i}")>{line}</p> })}
            {kind.question.then(|| view! { <p class="weeks-ask">{words::QUESTION}</p> })}
            {kind.would_tell.clone().map(|line| view! { <p class="hint">{line}</p> })}
            <details>
                <summary data-key=format!("days.{i}")>{words::BY_DAY}</summary>
                <table class="weeks-table">
                    <thead>
                        <tr>
                            <td></td>
                            <th scope="col">{words::COUNTED}</th>
                            <th scope="col">{words::LEVEL}</th>
                        </tr>
                    </thead>
                    <tbody>{days}</tbody>
                </table>
            </details>
        </section>
    }
}

fn serves(rows: &[ServeRow]) -> Option<AnyView> {
    let bar = |percent: u8, word: String, class: &'static str| {
        view! {
            <span class="weeks-bar">
                <i class=class style:width=format!("{percent}%")></i>
            </span>
            <span class="hint">{word}</span>
        }
    };
    let row = |row: &ServeRow| {
        view! {
            <li>
                <b>{row.month.clone()}</b>
                {bar(row.percent_fast, row.fast.clone(), "is-fast")}
                {bar(row.percent_in, row.line.clone(), "is-in")}
            </li>
        }
    };
    let list: Vec<_> = rows.iter().map(row).collect();
    (!list.is_empty()).then(|| {
        view! {
            <section class="weeks-kind">
                <h2 class="section-head">{words::SERVES}</h2>
                <p class="hint">{words::SERVES_LINE}</p>
                <ul class="weeks-serves card" data-fig="serves">{list}</ul>
            </section>
        }
    })
}
