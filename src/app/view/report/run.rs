//! After a run: each child's tries, rate in words and range, best row, efforts; passing on easy and on challenge balls apart.

use std::collections::BTreeMap;

use super::noted::noted;
use super::touches::touches;
use super::{Bar, BesideReport, EffortLine, ReportRow, ReportSection, RunReportView, score};
use crate::app::model::Model;
use crate::app::plan::standing;
use crate::app::words::{self, counts};
use crate::domain::drill::Board;
use crate::domain::entry::Contact;
use crate::domain::ids::{PartNo, PlayerId, RunId};
use crate::domain::replay::part::{Effort, Part};
use crate::domain::replay::run::RunState;
use crate::domain::rule::Rule;
use crate::domain::scoring::court::Played;
use crate::domain::scoring::tally::{ServeTally, Tally};
use crate::domain::scoring::{Score, Who};
use crate::domain::skill::{FeedKind, Outcome, Skill};
use crate::domain::summary::{Counts, GameSummary};
use crate::stats::arrange::arranged;
use crate::stats::proportion::{Confidence, Count, Range, wilson};
use crate::stats::share::overlap;

pub fn run_report(model: &Model, id: RunId) -> Option<RunReportView> {
    let run = model.runs.get(&id)?;
    let goes_on = model.practice_today().is_some_and(|p| p.id == run.practice);
    Some(RunReportView {
        run: id,
        practice: run.practice,
        title: run.spec.name.clone(),
        when: counts::when(run.started, model.now),
        everyone: told(&run.main),
        self_scored: self_scored(&run.main),
        row: counts::best_row(run.main.everyone.of(None).rows.best())
            .filter(|_| run.spec.board == Board::Group && matches!(run.spec.rule, Rule::Tally { .. })),
        sections: sections(model, run, &run.main),
        caution: run.parts().any(|part| part.everyone.serve.n_fast > 0).then_some(words::report::FAST_CAUTION),
        duel: duel(model, run),
        score: score::score(model, run),
        groups: score::groups(model, run),
        counts_only: (run.main.everyone.n_counted > 0).then_some(words::scores::COUNTS_ONLY),
        goals: score::goals(model, run),
        steps: super::steps::steps(model, run),
        touches: touches(model, &run.everyone(), |p| {
            (run.main.touches.of(p), run.main.by_child.get(&p).map_or(0, |tally| tally.told().tries()))
        }),
        efforts: efforts(model, run.main.efforts.iter()),
        beside: run
            .beside
            .iter()
            .map(|(_, part)| BesideReport {
                everyone: told(part),
                sections: sections(model, run, part),
                efforts: efforts(model, part.efforts.iter()),
            })
            .collect(),
        finished: run.main.finished,
        goes_on,
        next_part: if goes_on && run.main.finished { next_part(model) } else { None },
        empty: !run.main.counts_something(),
    })
}

fn next_part(model: &Model) -> Option<(PartNo, String)> {
    let (plan, standing) = standing(model)?;
    let part = model.base.plan(plan)?.part(standing.next?)?;
    Some((part.no, words::plan::next(&part.title)))
}

/// What everyone did together, in a sentence.
fn told(part: &Part) -> String {
    let of_game = GameSummary::of(part).and_then(|game| match game.n_rallies {
        // Serves and passes of a rally that nobody has won yet.
        0 => words::in_match::everyone(&game).map(|noted| format!("{noted}.")),
        _ => Some(words::report::game(&game)),
    });
    of_game.unwrap_or_else(|| words::report::everyone(&Counts::of(&part.everyone)))
}

/// A game's: what each child had of the court, in the order of the squad, since a report is no ranking.
fn court(model: &Model, part: &Part) -> Option<ReportSection> {
    let (shares, points) = match &part.score {
        Score::WinnersStay(score) => (&score.shares, true),
        Score::MatchGame(score) => (&score.shares, false),
        _ => return None,
    };
    let children = in_squad_order(model, shares.iter().collect(), |(player, _)| *player);
    let row = |(player, played): (PlayerId, Played)| ReportRow {
        player: Some(player),
        name: model.name_of(player),
        count: words::report::on_court(played.n_rallies, played.court_ms),
        share: match points {
            true => words::report::games_won(played.n_won, part.score.rule().standing(Who::Child(player)).now),
            false => String::new(),
        },
        bar: None,
        row: None,
        more: words::report::longest_wait(played.longest_wait, played.longest_wait_ms),
    };
    let rows: Vec<ReportRow> = children.into_iter().map(row).collect();
    (!rows.is_empty()).then(|| ReportSection { heading: words::report::COURT.to_owned(), rows, order: None })
}

pub fn in_squad_order<T>(model: &Model, children: Vec<T>, player: fn(&T) -> PlayerId) -> Vec<T> {
    let squad = model.base.players();
    let place = |p: PlayerId| squad.iter().position(|known| known.id == p).unwrap_or(usize::MAX);
    arranged(children, |a, b| (place(player(a)), player(a)).cmp(&(place(player(b)), player(b))))
}

/// A table of bars for each kind of ball that the drill has: their counts, rows and order are never mixed.
fn sections(model: &Model, run: &RunState, part: &Part) -> Vec<ReportSection> {
    let both = Counts::of(&part.everyone).apart().len() > 1;
    let kinds = match run.spec.rule.transition() {
        Some(_) => vec![Some(FeedKind::Easy), Some(FeedKind::Challenge)],
        None if both => vec![Some(FeedKind::Easy), Some(FeedKind::Challenge)],
        None => vec![None],
    };
    let ruled = both.then(|| by_rule(model, run, part)).flatten();
    let bars = kinds.into_iter().filter_map(|kind| section(model, run, part, kind));
    court(model, part).into_iter().chain(noted(model, part)).chain(ruled).chain(bars).collect()
}

/// What the rule makes of each child's balls of both kinds, where their tables stand apart: said once, in neither.
fn by_rule(model: &Model, run: &RunState, part: &Part) -> Option<ReportSection> {
    let child = |player: &PlayerId| {
        let row = score::own_row(run, part, *player).flatten();
        Some((*player, joined([score::own(model, run, part, *player), row])?))
    };
    let children = in_squad_order(model, part.by_child.keys().filter_map(child).collect(), |(player, _)| *player);
    let row = |(player, count): (PlayerId, String)| ReportRow {
        player: Some(player),
        name: model.name_of(player),
        count,
        share: String::new(),
        bar: None,
        row: None,
        more: None,
    };
    let rows: Vec<ReportRow> = children.into_iter().map(row).collect();
    (!rows.is_empty()).then(|| ReportSection { heading: words::report::BOTH_KINDS.to_owned(), rows, order: None })
}

fn section(model: &Model, run: &RunState, part: &Part, kind: Option<FeedKind>) -> Option<ReportSection> {
    let count = |tally: &Tally| if kind.is_none() { tally.all() } else { tally.of(kind).count };
    let children: Vec<(PlayerId, &Tally)> =
        part.by_child.iter().filter(|(_, tally)| count(tally).tries() > 0).map(|(p, t)| (*p, t)).collect();
    // In the order of the squad: a report is not a ranking.
    let children = in_squad_order(model, children, |(player, _)| *player);
    let row = |(player, tally): &(PlayerId, &Tally)| ReportRow {
        player: Some(*player),
        name: model.name_of(*player),
        count: counts::of(count(tally)),
        share: counts::share(count(tally)),
        bar: bar(count(tally)),
        // What the rule says of balls of both kinds stands in no table of one kind.
        row: match score::own_row(run, part, *player) {
            None => counts::best_row(tally.of(kind).rows.best()),
            Some(own) => own.filter(|_| kind.is_none()),
        },
        more: joined([
            score::own(model, run, part, *player).filter(|_| kind.is_none()),
            serves(run, part, *player, kind),
            samples(part, *player, kind),
        ]),
    };
    (!children.is_empty()).then(|| ReportSection {
        heading: words::report::section(&run.spec, kind),
        rows: children.iter().map(row).collect(),
        order: order(children.iter().map(|(_, tally)| count(tally))),
    })
}

/// A child's contacts on balls of this kind.
fn own(part: &Part, player: PlayerId, kind: Option<FeedKind>) -> impl Iterator<Item = &Contact> {
    let contacts = part.contacts.iter().map(|c| &c.contact);
    contacts.filter(move |c| c.player == Some(player) && kind.is_none_or(|kind| c.feed.kind == kind))
}

/// Where serves went, and how many swings were fast.
fn serves(run: &RunState, part: &Part, player: PlayerId, kind: Option<FeedKind>) -> Option<String> {
    let mut serves = ServeTally::default();
    for contact in own(part, player, kind) {
        if let Outcome::Serve { outcome, fast } = contact.outcome {
            serves.note(outcome, fast);
        }
    }
    words::report::serves(&serves).filter(|_| run.spec.skill == Skill::Serve)
}

/// `8 of 12 self-scored; 14 of 20 while watched`: whose eyes judged them.
fn samples(part: &Part, player: PlayerId, kind: Option<FeedKind>) -> Option<String> {
    let of = |judged_so: fn(&Contact) -> bool| {
        let mut count = Count::NONE;
        for contact in own(part, player, kind).filter(|c| judged_so(c)) {
            if let Some(good) = contact.good_from.judge(contact.outcome) {
                count.note(good);
            }
        }
        (count.tries() > 0).then(|| counts::of(count))
    };
    joined([
        of(|c| c.self_scored).map(|count| words::station::self_scored(&count)),
        of(|c| c.watched).map(|count| words::station::watched(&count)),
    ])
}

fn joined(parts: impl IntoIterator<Item = Option<String>>) -> Option<String> {
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join("; "))
}

/// Balls that children scored by themselves, in a sentence.
fn self_scored(part: &Part) -> Option<String> {
    let n = part.contacts.iter().filter(|c| c.contact.self_scored).count();
    (n > 0).then(|| words::station::scored_by_children(u32::try_from(n).unwrap_or(u32::MAX)))
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

/// Where bars overlap no order can be told, and the screen says so.
pub fn order(counts: impl Iterator<Item = Count>) -> Option<String> {
    let ranges: Vec<Range> = counts.filter_map(|count| wilson(count, Confidence::P95)).collect();
    if ranges.len() < 2 {
        return None;
    }
    Some(if overlap(&ranges) { words::report::OVERLAP } else { words::report::APART }.to_owned())
}

fn duel(model: &Model, run: &RunState) -> Option<String> {
    let rule = run.spec.rule.transition()?;
    let score = run.main.transition()?;
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
