//! A drill over the weeks: every run of it, the balls it was played with, and what everyone reached together. Says nothing of single children.

use super::Told;
use super::chart::{Chart, Columns, Dot, Span, WIDTH, columns, days};
use super::kinds::told_day;
use super::past::up_to_today;
use crate::app::model::Model;
use crate::app::practices::Practices;
use crate::app::words::weeks::drill as words;
use crate::app::words::{counts, ladder};
use crate::domain::ids::{DrillId, Step};
use crate::domain::skill::{FeedKind, Skill};
use crate::domain::summary::{Count, Reached, RunSummary};
use crate::domain::weeks::day_no;
use crate::stats::arrange::arranged;
use crate::stats::proportion::{Confidence, wilson};

#[derive(Clone, Debug, PartialEq)]
pub struct DrillWeeks {
    pub name: String,
    /// "9 runs since 3 September."
    pub line: String,
    pub chart: Option<Chart>,
    /// Ball by ball: what it was, and how many were good.
    pub balls: Vec<(String, String)>,
    /// What everyone reached together.
    pub together: Option<Told>,
    /// The latest first: day, good of tries, with which ball.
    pub runs: Vec<RunRow>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct RunRow {
    pub day: String,
    pub counted: String,
    pub ball: String,
}

/// So many runs stand side by side.
const MOST: usize = 12;

pub fn drill_weeks(model: &Model, drill: DrillId) -> Option<DrillWeeks> {
    let spec = model.base.drill(drill)?;
    let all = Practices::of(model);
    let practices = up_to_today(model, all.latest_first());
    let runs =
        practices.iter().flat_map(|practice| &practice.runs).filter(|run| run.drill == Some(drill) && is_played(run));
    let runs: Vec<&RunSummary> =
        arranged(runs.collect(), |a: &&RunSummary, b| a.started.wall_ms.cmp(&b.started.wall_ms));
    Some(DrillWeeks {
        name: spec.name.clone(),
        line: words::runs(runs.len(), runs.first().map(|run| told_day(model, day_no(run.started.day()))).as_deref()),
        chart: chart(model, &runs, &spec.name),
        balls: balls(&runs),
        together: together(model, &runs),
        runs: runs.iter().rev().map(|run| row(model, run)).collect(),
    })
}

fn is_played(run: &RunSummary) -> bool {
    run.everyone.n_noted() > 0 || run.game.as_ref().is_some_and(|game| game.n_rallies > 0)
}

/// Of every ball that was a try; numbers told are tries too.
fn tries(run: &RunSummary) -> Count {
    run.everyone.easy + run.everyone.challenge + run.everyone.told
}

fn chart(model: &Model, runs: &[&RunSummary], name: &str) -> Option<Chart> {
    let judged: Vec<&RunSummary> =
        runs.iter().copied().filter(|run| run.game.is_none() && tries(run).tries() > 0).collect();
    let day = |run: &RunSummary| day_no(run.started.day());
    let (first, last) = (day(judged.first()?), day(judged.last()?));
    let span = Span::new(first, last, WIDTH)?;
    let dot = |run: &&RunSummary| {
        let count = tries(run);
        Some(Dot {
            day: day(run),
            share: count.share()?,
            n_tries: count.tries(),
            reach: wilson(count, Confidence::P95),
            marked: false,
            hard: run.everyone.challenge.tries() > (run.everyone.easy + run.everyone.told).tries(),
            told: counts::day(run.started.day(), model.now.day()),
            says: words::says(&counted(run), &ball(run)),
        })
    };
    let days = days(judged.iter().filter_map(dot).collect(), span);
    let (first, last) = (told_day(model, first), told_day(model, last));
    Some(Chart { band: None, line: None, days, label: words::chart(name, &first, &last), first, last })
}

/// "41 of 60, about 6 to 8 in 10"; of a game its rallies; of good ones counted alone just those.
fn counted(run: &RunSummary) -> String {
    let count = tries(run);
    match &run.game {
        Some(game) => words::rallies(game.n_rallies),
        None if count.tries() > 0 => counts::rate(count),
        None => words::counted(run.everyone.n_counted),
    }
}

/// The balls of a run, the easiest first: "from 6 m", "served easy, easy and challenge".
fn ball(run: &RunSummary) -> String {
    let mut steps: Vec<(Step, bool, bool)> = Vec::new();
    for (_, step, kind) in given(&[run]) {
        let at = steps.iter().position(|(known, ..)| *known == step).unwrap_or_else(|| {
            steps.push((step, false, false));
            steps.len() - 1
        });
        let (_, easy, challenge) = &mut steps[at];
        *(if kind == FeedKind::Easy { easy } else { challenge }) = true;
    }
    let told = |(step, easy, hard): &(Step, bool, bool)| words::ball(&ladder::from(&run.skill, *step), *easy, *hard);
    steps.iter().map(told).collect::<Vec<_>>().join(", ")
}

/// Which balls were given, the easier steps first. Of told counts and of balls without a child's name there is none.
fn given<'a>(runs: &[&'a RunSummary]) -> Vec<(&'a Skill, Step, FeedKind)> {
    let mut all: Vec<(&Skill, Step, FeedKind)> = Vec::new();
    for run in runs {
        for lot in &run.lots {
            let ball = (&run.skill, lot.feed.step, lot.feed.kind);
            if !all.contains(&ball) {
                all.push(ball);
            }
        }
    }
    let rung = |(skill, step, _): &(&Skill, Step, FeedKind)| {
        ladder::rungs(skill, Some(*step)).iter().position(|known| known == step).unwrap_or(usize::MAX)
    };
    arranged(all, |a: &(&Skill, Step, FeedKind), b| (rung(a), a.2).cmp(&(rung(b), b.2)))
}

fn balls(runs: &[&RunSummary]) -> Vec<(String, String)> {
    let drills: Vec<&RunSummary> = runs.iter().copied().filter(|run| run.game.is_none()).collect();
    let one = |(skill, step, kind): (&Skill, Step, FeedKind)| {
        let of_run = |run: &&RunSummary| {
            let alike = run.lots.iter().filter(move |lot| lot.feed.step == step && lot.feed.kind == kind);
            alike.map(|lot| lot.count).sum::<Count>()
        };
        let counts: Vec<Count> =
            drills.iter().filter(|run| run.skill == *skill).map(of_run).filter(|count| count.tries() > 0).collect();
        let (easy, hard) = (kind == FeedKind::Easy, kind == FeedKind::Challenge);
        let label = words::ball(&ladder::from(skill, step), easy, hard);
        (label, words::of_runs(counts.len(), &counts::rate(counts.into_iter().sum())))
    };
    given(&drills).into_iter().map(one).collect()
}

/// Only what was reached by the same rule as last time is compared.
fn together(model: &Model, runs: &[&RunSummary]) -> Option<Told> {
    let same = runs.iter().rev().find_map(|run| run.together)?;
    let is_same = |reached: &Reached| reached.row == same.row && reached.balls == same.balls;
    let all: Vec<(&RunSummary, u32)> =
        runs.iter().filter_map(|run| run.together.filter(is_same).map(|reached| (*run, reached.best))).collect();
    let best = all.iter().map(|(_, best)| *best).max()?;
    let shown: Vec<(&RunSummary, u32)> = all[all.len().saturating_sub(MOST)..].to_vec();
    let told = |run: &RunSummary| told_day(model, day_no(run.started.day()));
    let columns = (shown.len() > 1).then(|| Columns {
        columns: columns(&shown.iter().map(|(_, n)| (*n, 0)).collect::<Vec<_>>()),
        first: shown.first().map(|(run, _)| told(run)).unwrap_or_default(),
        last: shown.last().map(|(run, _)| told(run)).unwrap_or_default(),
        label: words::together_columns(shown.len()),
        rows: shown.iter().rev().map(|(run, n)| (told(run), n.to_string())).collect(),
    });
    Some(Told { line: words::together(best, same.row, same.balls), columns })
}

fn row(model: &Model, run: &RunSummary) -> RunRow {
    RunRow { day: told_day(model, day_no(run.started.day())), counted: counted(run), ball: ball(run) }
}
