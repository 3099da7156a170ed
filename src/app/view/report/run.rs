//! After a run: each child's tries, rate in words and range, best row, efforts; passing on easy and on challenge balls apart.

use std::collections::BTreeMap;

use super::{Bar, BesideReport, EffortLine, ReportRow, ReportSection, RunReportView};
use crate::app::model::Model;
use crate::app::words::{self, counts};
use crate::domain::drill::Rule;
use crate::domain::ids::{PlayerId, RunId};
use crate::domain::replay::part::{Effort, Part};
use crate::domain::replay::run::RunState;
use crate::domain::scoring::tally::Tally;
use crate::domain::skill::{FeedKind, Skill};
use crate::stats::arrange::arranged;
use crate::stats::proportion::{Confidence, Count, Range, wilson};
use crate::stats::share::overlap;

pub fn run_report(model: &Model, id: RunId) -> Option<RunReportView> {
    let run = model.runs.get(&id)?;
    let rows = rows(model, run, &run.main, Tally::all);
    Some(RunReportView {
        run: id,
        practice: run.practice,
        title: run.spec.name.clone(),
        when: counts::when(run.started, model.now),
        everyone: words::report::everyone(run.main.everyone.all()),
        order: order(&rows),
        sections: sections(model, run, rows),
        caution: run.parts().any(|part| part.everyone.serve.n_fast > 0).then_some(words::report::FAST_CAUTION),
        duel: duel(model, run),
        efforts: efforts(model, run.main.efforts.iter()),
        beside: run
            .beside
            .iter()
            .map(|(_, part)| BesideReport {
                section: ReportSection {
                    heading: words::report::everyone(part.everyone.all()),
                    rows: drawn(self::rows(model, run, part, Tally::all)),
                },
                efforts: efforts(model, part.efforts.iter()),
            })
            .collect(),
        finished: run.main.finished,
        goes_on: model.practice_today().is_some_and(|p| p.id == run.practice),
        empty: !run.main.counts_something(),
    })
}

/// A row with the count it came from, so that order can be judged before it is drawn.
struct Counted {
    row: ReportRow,
    count: Count,
}

fn rows(model: &Model, run: &RunState, part: &Part, of: impl Fn(&Tally) -> Count) -> Vec<Counted> {
    // In the order of the squad: a report is not a ranking.
    let order = model.base.players();
    let place = |p: &PlayerId| order.iter().position(|known| known.id == *p).unwrap_or(usize::MAX);
    let children: Vec<(PlayerId, &Tally)> = part.by_child.iter().map(|(p, t)| (*p, t)).collect();
    arranged(children, |(a, _), (b, _)| (place(a), a).cmp(&(place(b), b)))
        .into_iter()
        .filter(|(_, tally)| of(tally).tries() > 0)
        .map(|(player, tally)| {
            let count = of(tally);
            Counted { count, row: row(Some(player), model.name_of(player), count, tally, &run.spec.skill) }
        })
        .collect()
}

fn row(player: Option<PlayerId>, name: String, count: Count, tally: &Tally, skill: &Skill) -> ReportRow {
    ReportRow {
        player,
        name,
        count: counts::of(count),
        share: counts::share(count),
        bar: bar(count),
        row: counts::best_row(tally.rows.best()),
        more: if *skill == Skill::Serve { words::report::serves(&tally.serve) } else { None },
    }
}

/// The Wilson range and the share itself, in hundredths.
pub fn bar(count: Count) -> Option<Bar> {
    let range = wilson(count, Confidence::P95)?;
    let hundredths = |share: f64| (share * 100.0).round() as u8;
    Some(Bar {
        low: hundredths(range.low()),
        tick: hundredths(f64::from(count.good()) / f64::from(count.tries())),
        high: hundredths(range.high()),
    })
}

fn drawn(rows: Vec<Counted>) -> Vec<ReportRow> {
    rows.into_iter().map(|r| r.row).collect()
}

/// Where bars overlap no order can be told, and the screen says so.
fn order(rows: &[Counted]) -> Option<String> {
    let ranges: Vec<Range> = rows.iter().filter_map(|r| wilson(r.count, Confidence::P95)).collect();
    if ranges.len() < 2 {
        return None;
    }
    Some(if overlap(&ranges) { words::report::OVERLAP } else { words::report::APART }.to_owned())
}

fn sections(model: &Model, run: &RunState, all: Vec<Counted>) -> Vec<ReportSection> {
    let heading = |kind| words::report::section(&run.spec, kind);
    let section = |kind| ReportSection {
        heading: heading(Some(kind)),
        rows: drawn(rows(model, run, &run.main, |t: &Tally| t.of(kind))),
    };
    match run.spec.rule {
        Rule::Transition(_) => vec![section(FeedKind::Easy), section(FeedKind::Challenge)],
        Rule::Tally { .. } => vec![ReportSection { heading: heading(None), rows: drawn(all) }],
    }
    .into_iter()
    .filter(|s| !s.rows.is_empty())
    .collect()
}

fn duel(model: &Model, run: &RunState) -> Option<String> {
    let Rule::Transition(rule) = &run.spec.rule else { return None };
    let score = &run.main.transition;
    let mut text = words::report::duel(score.duel, score.joint);
    if rule.between == crate::domain::drill::DuelBetween::Children && !score.by_child.is_empty() {
        let points: Vec<String> =
            score.by_child.iter().map(|(p, n)| words::report::points(&model.name_of(*p), *n)).collect();
        text = format!("{text} {}", words::report::by_child(&points));
    }
    Some(text)
}

/// Efforts by child, the nameless last: moments and kinds, no rate.
pub fn efforts<'a>(model: &Model, all: impl Iterator<Item = &'a Effort>) -> Vec<EffortLine> {
    let mut by_child: BTreeMap<(bool, Option<PlayerId>), Vec<Option<&str>>> = BTreeMap::new();
    for effort in all {
        by_child.entry((effort.player.is_none(), effort.player)).or_default().push(effort.kind.as_deref());
    }
    by_child
        .into_iter()
        .map(|((_, player), kinds)| EffortLine {
            name: player.map_or_else(|| words::report::NOBODY_NAMED.to_owned(), |p| model.name_of(p)),
            what: words::report::efforts(&kinds),
        })
        .collect()
}
