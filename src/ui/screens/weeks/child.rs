//! One child over the weeks: its effort, then each kind of ball, where serves went, what carries over, rows, shoulder and knees. What each rests
//! on opens under it.

use leptos::prelude::*;

use super::columns::{columns, columns_table, picture};
use super::kind::kind;
use super::serves::serves;
use super::{splits, standing, table, what};
use crate::app::screen::Screen;
use crate::app::view::weeks::carry::Gap;
use crate::app::view::weeks::chart::Columns;
use crate::app::view::weeks::effort::EffortView;
use crate::app::view::weeks::grades::GradesView;
use crate::app::view::weeks::load::LoadView;
use crate::app::view::weeks::{ChildWeeks, State, Told};
use crate::app::words::weeks::{
    carry, effort as effort_words, grades as grade_words, load as load_words, rows as row_words,
};
use crate::app::words::{home, weeks as words};
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::{Head, NotHere, WayTo};
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
    let kinds: Vec<_> = child.kinds.iter().enumerate().map(|(i, one)| kind(i, one, child.player, shell)).collect();
    let how: Vec<_> = words::HOW_LINES.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    view! {
        <main class="screen" data-screen="child-weeks">
            <Head title=child.name.clone() shell back=BACK />
            {effort(&child.effort)}
            {standing(&child.state)}
            {(child.state == State::Known && kinds.is_empty()).then(|| view! { <p class="hint">{words::NO_KIND}</p> })}
            {kinds}
            {child.grades.as_ref().map(grades)}
            {child.serves.as_ref().map(serves)}
            {carry_over(&child.gaps, &child.match_gaps)}
            {child.rows.as_ref().map(rows)}
            {child.load.as_ref().map(load)}
            <WayTo key="home" label=home::OPEN line=home::OPEN_LINE to=Screen::Home(child.player) shell />
            <details class="weeks-how">
                <summary data-key="how">{words::HOW}</summary>
                {how}
            </details>
        </main>
    }
}

fn effort(effort: &EffortView) -> Option<AnyView> {
    let line = effort.line.clone()?;
    let kinds: Vec<_> =
        effort.kinds.iter().map(|(kind, n)| view! { <li><bdi>{kind.clone()}</bdi><b>{*n}</b></li> }).collect();
    let noticed = !kinds.is_empty();
    let open = noticed.then(|| {
        view! {
            <ul class="moments" data-fig="moments">{kinds}</ul>
            {by_week(effort.weeks.as_ref())}
        }
    });
    Some(view! {
        <section class="weeks-effort">
            <p class="lead" data-fig="effort">{line}</p>
            {open}
        </section>
    })
}

/// Behind a tap: the sentence and the kinds say it at a glance.
fn by_week(weeks: Option<&Columns>) -> AnyView {
    view! {
        <details>
            <summary data-key="effort-weeks">{effort_words::BY_WEEK}</summary>
            {weeks.map(picture)}
            {weeks.map(|weeks| columns_table(weeks, effort_words::MOMENTS))}
            <p class="hint">{effort_words::WHAT}</p>
        </details>
    }
}

fn grades(grades: &GradesView) -> AnyView {
    let means = grades.means.iter().map(|(month, mean)| (month.clone(), vec![mean.clone()])).collect();
    view! {
        <section class="weeks-kind card" data-fig="grades">
            <h2 class="section-head">{grade_words::HEAD}</h2>
            <p class="hint">{grade_words::LINE}</p>
            {splits(&grades.months)}
            <details>
                <summary data-key="mean">{grade_words::MEAN}</summary>
                <p class="hint">{grade_words::MEAN_LINE}</p>
                {table(&[], means)}
            </details>
            {what("what.grades".to_owned(), &grade_words::WHAT_LINES)}
        </section>
    }
}

fn carry_over(feeds: &[Gap], matches: &[Gap]) -> Option<AnyView> {
    let list = |gaps: &[Gap], fig: &'static str, hint: &'static str| {
        let lines: Vec<_> = gaps
            .iter()
            .map(|gap| view! { <p class="gap" data-fig=fig>{gap.line.clone()}</p><p class="hint">{gap.counted.clone()}</p> })
            .collect();
        (!lines.is_empty()).then(|| view! { {lines}<p class="hint">{hint}</p> })
    };
    (!feeds.is_empty() || !matches.is_empty()).then(|| {
        view! {
            <section class="weeks-kind card">
                <h2 class="section-head">{carry::HEAD}</h2>
                {list(feeds, "gap", words::GAP_LINE)}
                {list(matches, "match-gap", carry::MATCH_LINE)}
                {what("what.carry".to_owned(), &carry::WHAT_LINES)}
            </section>
        }
    })
}

fn rows(rows: &Told) -> AnyView {
    view! {
        <section class="weeks-kind card">
            <h2 class="section-head">{row_words::HEAD}</h2>
            <p class="weeks-line" data-fig="rows">{rows.line.clone()}</p>
            {rows.columns.as_ref().map(|c| columns(c, "row-days", row_words::BY_DAY, row_words::IN_A_ROW))}
            {what("what.rows".to_owned(), &row_words::WHAT_LINES)}
        </section>
    }
}

fn load(load: &LoadView) -> AnyView {
    let lines: Vec<_> = load.lines.iter().map(|line| view! { <p class="weeks-line">{line.clone()}</p> }).collect();
    view! {
        <section class="weeks-kind card" data-fig="load">
            <h2 class="section-head">{load_words::HEAD}</h2>
            {lines}
            {load.weeks.as_ref().map(|w| columns(w, "load-weeks", load_words::BY_WEEK, load_words::NOTED))}
            <p class="caution">{load_words::CAUTION}</p>
            {what("what.load".to_owned(), &load_words::WHAT_LINES)}
        </section>
    }
}
