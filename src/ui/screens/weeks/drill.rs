//! A drill over the weeks: every run a ball on the chart, the balls it was played with, what everyone reached together, and all runs as a table.

use leptos::prelude::*;

use super::chart::chart;
use super::columns::columns;
use super::{table, what};
use crate::app::screen::Screen;
use crate::app::view::today::Picture;
use crate::app::view::weeks::{DrillWeeks, Told};
use crate::app::words::weeks::drill as words;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::{Empty, Head, NotHere};
use crate::ui::screens::pictures::court;
use crate::ui::shell::Shell;

const BACK: (Screen, &str) = (Screen::MyDrills, words::TO_DRILLS);

#[component]
pub fn DrillOverWeeks(view: Part<Option<DrillWeeks>>, shell: Shell) -> impl IntoView {
    live(move || {
        view.with(|v| match v {
            None => view! { <NotHere screen="drill-weeks" back=BACK shell /> },
            Some(drill) => page(drill, shell),
        })
    })
}

fn page(drill: &DrillWeeks, shell: Shell) -> AnyView {
    view! {
        <main class="screen" data-screen="drill-weeks">
            <Head title=drill.name.clone() shell back=BACK />
            {if drill.runs.is_empty() {
                view! { <Empty heading=words::NOTHING line=words::NOTHING_LINE picture=|| court(Picture::Told) /> }
            } else {
                played(drill, shell)
            }}
        </main>
    }
}

fn played(drill: &DrillWeeks, shell: Shell) -> AnyView {
    let rows = drill.runs.iter().map(|run| (run.day.clone(), vec![run.counted.clone(), run.ball.clone()])).collect();
    let balls: Vec<_> = drill
        .balls
        .iter()
        .map(|(ball, counted)| view! { <li><b>{ball.clone()}</b><span class="hint">{counted.clone()}</span></li> })
        .collect();
    view! {
        <p class="lead" data-fig="runs">{drill.line.clone()}</p>
        {drill.chart.as_ref().map(|view| view! { <section class="weeks-kind card">{chart(view, 0, None, shell)}</section> })}
        {(!balls.is_empty())
            .then(|| {
                view! {
                    <section class="weeks-kind card">
                        <h2 class="section-head">{words::BALLS}</h2>
                        <ul class="balls" data-fig="balls">{balls}</ul>
                    </section>
                }
            })}
        {drill.together.as_ref().map(together)}
        <details class="weeks-kind card">
            <summary data-key="runs">{words::RUNS}</summary>
            {table(&[words::GOOD, words::BALL], rows)}
        </details>
        {what("what.drill".to_owned(), &words::WHAT_LINES)}
    }
}

fn together(together: &Told) -> AnyView {
    view! {
        <section class="weeks-kind card">
            <h2 class="section-head">{words::TOGETHER}</h2>
            <p class="weeks-line" data-fig="together">{together.line.clone()}</p>
            {together.columns.as_ref().map(|c| columns(c, "together-runs", words::RUNS, words::REACHED))}
        </section>
    }
}
