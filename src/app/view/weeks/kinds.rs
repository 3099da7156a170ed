//! Each kind of ball of a child: how many are good now in a sentence and a chart, what has changed, which days were more than chance, and the
//! change since a day that the coach touches.

use super::chart::{Chart, Dot, Span, WIDTH, band, days};
use crate::app::model::Model;
use crate::app::weeks::of_child;
use crate::app::words::weeks::days as day_words;
use crate::app::words::{counts, weeks as words};
use crate::app::work::levels::days::OddDay;
use crate::app::work::levels::{Changed, Found};
use crate::domain::ids::PlayerId;
use crate::domain::skill::Skill;
use crate::domain::weeks::{Series, day_of};
use crate::stats::chart::limits;
use crate::stats::level::{Level, Seen as Occasion};
use crate::stats::proportion::{Confidence, Range};
use crate::stats::share::Share;

/// One kind of ball.
#[derive(Clone, Debug, PartialEq)]
pub struct KindView {
    /// Its place among all that were worked out.
    pub no: usize,
    pub title: String,
    pub now: String,
    /// What has changed, and a question where less is good.
    pub change: Option<String>,
    pub question: bool,
    pub would_tell: Option<String>,
    pub chart: Option<Chart>,
    /// "From 214 balls on 18 days."
    pub from: String,
    /// The latest first.
    pub days: Vec<DayRow>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct DayRow {
    pub day: String,
    /// "7 of 10"
    pub count: String,
    /// "about 5 to 8 in 10"
    pub level: String,
}

/// Fewer balls of its own than this say less than the squad's do.
const FEW: u32 = 10;
/// Of a wider range than this hardly anything is known.
const WIDE: f64 = 0.45;
/// More balls than anyone would wait for.
const MOST_MORE: u32 = 300;
/// So many standard deviations either side a day's count strays by chance (Shewhart's three).
const REACH: f64 = 3.0;

/// What was judged by one line for all comes before what was told, those with most balls of the squad first.
pub fn kinds(model: &Model, player: PlayerId) -> Vec<KindView> {
    let all = of_child(model, player);
    let told_last = |by_one_line: bool| all.iter().enumerate().filter(move |(_, (s, ..))| s.by_one_line == by_one_line);
    let both = told_last(true).chain(told_last(false));
    both.map(|(no, (series, found, seen))| KindView { no, ..kind(model, series, found, seen) }).collect()
}

/// The change of a kind since one of its days, as the chart's touch asks for it. `None` where there is no such kind or day.
pub fn since(model: &Model, player: PlayerId, kind: usize, at: usize) -> Option<String> {
    let all = of_child(model, player);
    let (_, found, _) = all.get(kind)?;
    let (_, mean, sd) = found.at.get(at)?;
    let (_, last_mean, last_sd) = found.at.last()?;
    if at + 1 == found.at.len() {
        return Some(day_words::LATEST.to_owned());
    }
    let (then, now) = (Level::new(*mean, *sd)?, Level::new(*last_mean, *last_sd)?);
    let change = then.change_to(now, *found.with_last.get(at)?, Confidence::P95);
    Some(day_words::since(change.low, change.high, change.up))
}

pub fn told_day(model: &Model, day: i32) -> String {
    counts::date(day_of(day), model.now.day())
}

/// Only one that stands is told as one.
pub fn told_change(model: &Model, skill: &Skill, change: Changed) -> Option<String> {
    let since = told_day(model, change.since);
    change
        .stands
        .then(|| if change.up > 0.5 { words::more(&since, change.likely) } else { words::fewer(skill, &since) })
}

fn kind(model: &Model, series: &Series, found: &Found, seen: &[Occasion]) -> KindView {
    let n_tries: u32 = seen.iter().fold(0, |sum, seen| sum.saturating_add(seen.count.tries()));
    let level = Level::new(found.now.0, found.now.1);
    let range = level.map_or(Range::ALL, |level| level.range(Confidence::P95));
    let title = words::kind(&series.skill, series.feed, series.by_one_line);
    let open = n_tries < FEW || range.high() - range.low() > WIDE;
    let now = if open { words::now_open(range, n_tries) } else { words::now(range) };
    let upper = f64::from(model.settings.upper) / 100.0;
    let apart = level.filter(|level| (0.05..0.95).contains(&level.above(upper)));
    let more = apart.and_then(|level| level.more_tries(upper, 0.9, MOST_MORE)).filter(|n| *n > 0);
    let row = |(seen, (day, mean, sd)): (&Occasion, &(i32, f64, f64))| {
        let range = Level::new(*mean, *sd).map_or(Range::ALL, |level| level.range(Confidence::P95));
        let level = counts::share_words(Share::of_range(range));
        DayRow { day: told_day(model, *day), count: counted(seen), level }
    };
    KindView {
        no: 0,
        change: found.change.map(|change| {
            let told = told_change(model, &series.skill, change);
            told.unwrap_or_else(|| words::no_change(&told_day(model, change.since)))
        }),
        question: found.change.is_some_and(|change| change.stands && change.up < 0.5),
        would_tell: more.map(|n| words::would_tell(n, model.settings.upper)),
        chart: chart(model, seen, found, &title, &now),
        from: day_words::from(n_tries, seen.len()),
        days: seen.iter().zip(&found.at).rev().map(row).collect(),
        title,
        now,
    }
}

fn counted(seen: &Occasion) -> String {
    let count = counts::of(seen.count);
    if seen.weight < 1.0 { words::by_itself(&count) } else { count }
}

fn chart(model: &Model, seen: &[Occasion], found: &Found, title: &str, now: &str) -> Option<Chart> {
    let (first, last) = (found.at.first()?.0, found.at.last()?.0);
    // One day is a point and no path.
    let span = Span::new(first, last, WIDTH)?;
    let (band, line) = band(&found.at, span, super::chart::HEIGHT);
    let dots = seen.iter().zip(&found.at).enumerate().filter_map(|(at, (seen, (day, mean, sd)))| {
        let share = seen.count.share()?;
        let odd = found.odd.iter().find(|odd| odd.at as usize == at);
        let likely = Level::new(*mean, *sd)?.likely();
        let expected = found.expected.get(at).copied().flatten();
        Some(Dot {
            day: *day,
            share,
            n_tries: seen.count.tries(),
            reach: expected.and_then(|(centre, sd)| limits(centre, sd, REACH)).map(|reach| with(reach, share, odd)),
            marked: odd.is_some_and(|odd| odd.stands),
            hard: false,
            told: counts::day(day_of(*day), model.now.day()),
            says: says(seen, odd, share > expected.map_or(likely, |(centre, _)| centre)),
        })
    });
    let days = days(dots.collect(), span);
    let (first, last) = (told_day(model, first), told_day(model, last));
    let label = words::chart(title, &first, &last, now);
    Some(Chart { band: Some(band), line: Some(line), days, first, last, label })
}

/// The limits are those of a normal curve, the chance is exact: where few balls are within chance and yet outside, the bar reaches to them.
fn with(reach: Range, share: f64, odd: Option<&OddDay>) -> Range {
    let wider = Range::new(reach.low().min(share), reach.high().max(share));
    wider.filter(|_| odd.is_none()).unwrap_or(reach)
}

fn says(seen: &Occasion, odd: Option<&OddDay>, more: bool) -> String {
    let count = counted(seen);
    match odd {
        None => day_words::within(&count),
        Some(odd) if odd.stands => day_words::beyond(&count, odd.chance, more),
        Some(odd) => day_words::rare(&count, odd.chance),
    }
}
