//! How a child is doing over weeks: effort first, then each kind of ball in a sentence and a chart, where serves went, easy balls against
//! challenge balls; everything opens to what it rests on. All children in the squad's order, never by how good they are.

use crate::app::model::Model;
use crate::app::practices::Practices;
use crate::app::weeks::of_child;
use crate::app::words::{counts, weeks as words};
use crate::app::work::levels::{Changed, Found};
use crate::domain::ids::PlayerId;
use crate::domain::lots::{Lot, Seen, What};
use crate::domain::skill::{FeedKind, Skill};
use crate::domain::summary::PracticeSummary;
use crate::domain::weeks::{Series, day_no, day_of};
use crate::stats::level::{Level, Seen as Occasion};
use crate::stats::proportion::{Confidence, Count, Range, difference};
use crate::stats::share::{ENOUGH, Share};

#[derive(Clone, Debug, PartialEq)]
pub struct WeeksView {
    pub children: Vec<ChildLine>,
    pub state: State,
}

#[derive(Clone, Debug, PartialEq)]
pub struct ChildLine {
    pub player: PlayerId,
    pub name: String,
    pub effort: Option<String>,
    /// What there is more of, if anything. What is less stands on the child's own page alone, with its question.
    pub line: Option<String>,
}

/// Whether the levels are there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    Working,
    Known,
    /// Nobody has a ball.
    Nothing,
    Trouble(String),
}

#[derive(Clone, Debug, PartialEq)]
pub struct ChildWeeks {
    pub player: PlayerId,
    pub name: String,
    pub state: State,
    pub effort: Option<String>,
    pub kinds: Vec<KindView>,
    pub gaps: Vec<(String, String)>,
    pub serves: Vec<ServeRow>,
}

/// One kind of ball.
#[derive(Clone, Debug, PartialEq)]
pub struct KindView {
    pub title: String,
    pub now: String,
    /// What has changed, and a question where less is good.
    pub change: Option<String>,
    pub question: bool,
    pub would_tell: Option<String>,
    pub chart: Option<Chart>,
    /// Day, "7 of 10", "about 5 to 8 in 10".
    pub days: Vec<(String, String, String)>,
}

/// Paths in a field of 100 by 40, the first day at the left, all good at the top.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    pub band: String,
    pub line: String,
    /// Each day's own count: across, down, radius.
    pub dots: Vec<(String, String, String)>,
    pub first: String,
    pub last: String,
    pub label: String,
}

/// A month's serves.
#[derive(Clone, Debug, PartialEq)]
pub struct ServeRow {
    pub month: String,
    pub line: String,
    /// In hundredths.
    pub percent_in: u8,
    pub percent_fast: u8,
    pub fast: String,
}

/// Fewer balls of its own than this say less than the squad's do.
const FEW: u32 = 10;
/// What is told as lately.
const WEEKS: u32 = 6;
/// Of a wider range than this hardly anything is known.
const WIDE: f64 = 0.45;
/// The line from which a ball may be harder: 80 in 100 beat practice without a criterion in volleyball (French and others 1991).
const UPPER: f64 = 0.8;
/// More balls than anyone would wait for.
const MOST_MORE: u32 = 300;
const WIDTH: f64 = 100.0;
const HEIGHT: f64 = 40.0;

pub fn weeks(model: &Model) -> WeeksView {
    let all = Practices::of(model);
    let practices = all.latest_first();
    let line = |player: PlayerId| ChildLine {
        player,
        name: model.name_of(player),
        effort: efforts(model, &practices, player),
        line: of_child(model, player).iter().find_map(|(series, found, _)| {
            let change = found.change.filter(|change| change.up > 0.5)?;
            let line = told_change(model, &series.skill, change)?;
            Some(words::of_kind(&words::kind(&series.skill, series.feed, series.by_one_line), &line))
        }),
    };
    WeeksView { children: model.squad().iter().map(|player| line(player.id)).collect(), state: state(model) }
}

pub fn child_weeks(model: &Model, player: PlayerId) -> Option<ChildWeeks> {
    model.base.player(player)?;
    let all = Practices::of(model);
    let practices = all.latest_first();
    Some(ChildWeeks {
        player,
        name: model.name_of(player),
        state: state(model),
        effort: efforts(model, &practices, player),
        kinds: of_child(model, player).iter().map(|(series, found, seen)| kind(model, series, found, seen)).collect(),
        gaps: gaps(model, &practices, player),
        serves: serves(&practices, player),
    })
}

fn state(model: &Model) -> State {
    match (&model.weeks.trouble, &model.weeks.found) {
        (Some(trouble), _) => State::Trouble(trouble.clone()),
        (None, Some(_)) => State::Known,
        (None, None) if model.weeks.series.is_empty() => State::Nothing,
        (None, None) => State::Working,
    }
}

fn efforts(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Option<String> {
    let recent: Vec<&PracticeSummary> = practices.iter().copied().filter(|p| is_recent(model, p)).collect();
    let of = recent.iter().flat_map(|p| &p.runs).flat_map(|run| &run.children).filter(|(child, _)| *child == player);
    let n_there = recent.iter().filter(|p| p.took_part(player)).count();
    words::efforts(of.map(|(_, counts)| counts.n_efforts).sum(), n_there, recent.len(), WEEKS)
}

fn is_recent(model: &Model, practice: &PracticeSummary) -> bool {
    let ago = day_no(model.now.day()) - day_no(practice.started.day());
    (0..=i32::try_from(WEEKS * 7).unwrap_or(0)).contains(&ago)
}

fn kind(model: &Model, series: &Series, found: &Found, seen: &[Occasion]) -> KindView {
    let n_tries: u32 = seen.iter().map(|seen| seen.count.tries()).sum();
    let level = Level::new(found.now.0, found.now.1);
    let range = level.map_or(Range::ALL, |level| level.range(Confidence::P95));
    let title = words::kind(&series.skill, series.feed, series.by_one_line);
    let open = n_tries < FEW || range.high() - range.low() > WIDE;
    let now = if open { words::now_open(range, n_tries) } else { words::now(range) };
    let apart = level.filter(|level| (0.05..0.95).contains(&level.above(UPPER)));
    let more = apart.and_then(|level| level.more_tries(UPPER, 0.9, MOST_MORE)).filter(|n| *n > 0);
    let days = seen.iter().zip(&found.at).rev();
    KindView {
        change: found.change.map(|change| change_line(model, &series.skill, change)),
        question: found.change.is_some_and(|change| change.stands && change.up < 0.5),
        would_tell: more.map(|n| words::would_tell(n, UPPER)),
        chart: chart(model, seen, &found.at, &title, &now),
        days: days
            .map(|(seen, (day, mean, sd))| {
                let range = Level::new(*mean, *sd).map_or(Range::ALL, |level| level.range(Confidence::P95));
                let count = counts::of(seen.count);
                let count = if seen.weight < 1.0 { words::by_itself(&count) } else { count };
                (told_day(model, *day), count, counts::share_words(Share::of_range(range)))
            })
            .collect(),
        title,
        now,
    }
}

/// Only one that stands is told as one.
fn change_line(model: &Model, skill: &Skill, change: Changed) -> String {
    told_change(model, skill, change).unwrap_or_else(|| words::no_change(&told_day(model, change.since)))
}

fn told_change(model: &Model, skill: &Skill, change: Changed) -> Option<String> {
    let since = told_day(model, change.since);
    change
        .stands
        .then(|| if change.up > 0.5 { words::more(&since, change.likely) } else { words::fewer(skill, &since) })
}

fn told_day(model: &Model, day: i32) -> String {
    counts::date(day_of(day), model.now.day())
}

fn chart(model: &Model, seen: &[Occasion], at: &[(i32, f64, f64)], title: &str, now: &str) -> Option<Chart> {
    let (first, last) = (at.first()?.0, at.last()?.0);
    let span = f64::from(last - first);
    // One day is a point and no path.
    if at.len() < 2 || span <= 0.0 {
        return None;
    }
    let x = |day: i32| WIDTH * f64::from(day - first) / span;
    let y = |share: f64| HEIGHT * (1.0 - share);
    let levels: Vec<(f64, f64, f64, f64)> = at
        .iter()
        .filter_map(|(day, mean, sd)| {
            let level = Level::new(*mean, *sd)?;
            let range = level.range(Confidence::P95);
            Some((x(*day), y(range.low()), y(level.likely()), y(range.high())))
        })
        .collect();
    let path = |points: &mut dyn Iterator<Item = (f64, f64)>| {
        let points: Vec<String> = points.map(|(x, y)| format!("{x:.1} {y:.1}")).collect();
        format!("M{}", points.join("L"))
    };
    let there = levels.iter().map(|(x, _, _, high)| (*x, *high));
    let back = levels.iter().rev().map(|(x, low, _, _)| (*x, *low));
    let dots = seen.iter().filter_map(|seen| {
        let radius = (f64::from(seen.count.tries()).sqrt() * 0.45).clamp(0.8, 2.6);
        Some((format!("{:.1}", x(seen.day)), format!("{:.1}", y(seen.count.share()?)), format!("{radius:.1}")))
    });
    let (first, last) = (told_day(model, first), told_day(model, last));
    Some(Chart {
        band: path(&mut there.chain(back)) + "Z",
        line: path(&mut levels.iter().map(|(x, _, likely, _)| (*x, *likely))),
        dots: dots.collect(),
        label: words::chart(title, &first, &last, now),
        first,
        last,
    })
}

/// Balls of one child in runs that are no games, of the last weeks.
fn recent_lots<'a>(
    model: &'a Model,
    practices: &'a [&'a PracticeSummary],
    player: PlayerId,
) -> impl Iterator<Item = (&'a Skill, &'a Lot)> {
    let runs = practices.iter().filter(|p| is_recent(model, p)).flat_map(|p| &p.runs);
    let drills = runs.filter(|run| run.game.is_none());
    drills
        .flat_map(|run| run.lots.iter().map(move |lot| (&run.skill, lot)))
        .filter(move |(_, lot)| lot.player == player)
}

/// Easy balls against challenge balls, skill by skill, where there are enough of both to say anything.
fn gaps(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Vec<(String, String)> {
    let mut skills: Vec<(Skill, Count, Count)> = Vec::new();
    let seen_by_others = |lot: &Lot| matches!(lot.seen, Seen::Tapped | Seen::Watched);
    for (skill, lot) in recent_lots(model, practices, player).filter(|(_, lot)| seen_by_others(lot)) {
        let at = skills.iter().position(|(known, ..)| known == skill).unwrap_or_else(|| {
            skills.push((skill.clone(), Count::NONE, Count::NONE));
            skills.len() - 1
        });
        let (_, easy, challenge) = &mut skills[at];
        let to = if lot.feed.kind == FeedKind::Easy { easy } else { challenge };
        *to = *to + lot.by_the_common_line();
    }
    let both = skills.into_iter().filter(|(_, a, b)| a.tries() >= ENOUGH && b.tries() >= ENOUGH);
    both.filter_map(|(skill, easy, challenge)| {
        let gap = difference(challenge, easy, Confidence::P95)?;
        let counted = words::counted(&skill, easy, challenge);
        Some((words::gap(gap.low, gap.high), counted))
    })
    .collect()
}

/// Month by month, the latest first.
fn serves(practices: &[&PracticeSummary], player: PlayerId) -> Vec<ServeRow> {
    let mut months: Vec<((i32, u32), [u32; 4], u32)> = Vec::new();
    for practice in practices {
        let month = counts::month_of(practice.started.day());
        let lots = practice.runs.iter().filter(|run| run.game.is_none()).flat_map(|run| &run.lots);
        for lot in lots.filter(|lot| lot.player == player && lot.what == What::Serve && lot.seen != Seen::Told) {
            let at = months.iter().position(|(known, ..)| *known == month).unwrap_or_else(|| {
                months.push((month, [0; 4], 0));
                months.len() - 1
            });
            let (_, outcomes, fast) = &mut months[at];
            outcomes.iter_mut().zip(lot.outcomes).for_each(|(sum, n)| *sum += n);
            *fast += lot.n_fast;
        }
    }
    let row = |((year, month), outcomes, fast): ((i32, u32), [u32; 4], u32)| {
        let n: u32 = outcomes.iter().sum();
        let percent = |of: u32| u8::try_from(u64::from(of) * 100 / u64::from(n.max(1))).unwrap_or(100).min(100);
        ServeRow {
            month: counts::month(year, month),
            line: words::serves(n, outcomes),
            percent_in: percent(outcomes[0]),
            percent_fast: percent(fast),
            fast: words::fast(fast),
        }
    };
    months.into_iter().map(row).collect()
}
