//! Everyone at a glance: a small picture of one kind of ball beside each name, in the squad's order, with a sentence; and, behind a tap, whom the
//! coach hasn't noticed yet.

use super::State;
use super::chart::{Span, band};
use super::effort::efforts_line;
use super::kinds::{told_change, told_day};
use super::load::this_week;
use super::past::{WEEKS, is_recent, up_to_today};
use crate::app::model::Model;
use crate::app::practices::Practices;
use crate::app::weeks::of_child;
use crate::app::words::weeks as words;
use crate::app::words::weeks::squad as squad_words;
use crate::domain::ids::PlayerId;
use crate::domain::summary::PracticeSummary;

#[derive(Clone, Debug, PartialEq)]
pub struct WeeksView {
    pub state: State,
    /// What the small pictures may be of, those with most balls first.
    pub kinds: Vec<String>,
    pub children: Vec<ChildLine>,
    /// Who was there and of whom no effort was noticed; `None` where nobody is missing or nothing was noticed of anyone.
    pub not_noticed: Option<NotNoticed>,
    /// Overhead swings and jumps this week, of those of whom any were noted, in the squad's order.
    pub load: Vec<(String, String)>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct ChildLine {
    pub player: PlayerId,
    pub name: String,
    pub effort: Option<String>,
    /// What there is more of, if anything. What is less stands on the child's own page alone, with its question.
    pub line: Option<String>,
}

/// A small picture, in a field of [`SPARK`] by [`SPARK_HIGH`].
#[derive(Clone, Debug, PartialEq)]
pub struct Spark {
    pub band: String,
    pub line: String,
    pub label: String,
    /// "About as on 3 September, as far as the balls tell", where that is all there is to say. Of less nothing is said here.
    pub says: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotNoticed {
    pub names: Vec<String>,
    pub line: String,
}

const SPARK: f64 = 72.0;
const SPARK_HIGH: f64 = 36.0;
/// A child that was there once may simply not have been looked at.
const THERE: usize = 2;

pub fn weeks(model: &Model) -> WeeksView {
    let all = Practices::of(model);
    let practices = up_to_today(model, all.latest_first());
    let line = |player: PlayerId| ChildLine {
        player,
        name: model.name_of(player),
        effort: efforts_line(model, &practices, player),
        line: of_child(model, player).iter().find_map(|(series, found, _)| {
            let change = found.change.filter(|change| change.up > 0.5)?;
            let line = told_change(model, &series.skill, change)?;
            Some(words::of_kind(&words::kind(&series.skill, series.feed, series.by_one_line), &line))
        }),
    };
    let title = |s: &crate::domain::weeks::Series| words::kind(&s.skill, s.feed, s.by_one_line);
    WeeksView {
        state: super::state(model),
        kinds: model.weeks.series.iter().filter(|_| model.weeks.found.is_some()).map(title).collect(),
        children: model.squad().iter().map(|player| line(player.id)).collect(),
        not_noticed: not_noticed(model, &practices),
        load: this_week(model, &practices),
    }
}

/// The small pictures of one of the kinds, a child each in the squad's order: only these are on screen. The same days for everyone, so that pictures
/// under one another can be read alike.
pub fn pictures(model: &Model, kind: usize) -> Vec<Option<Spark>> {
    let found = model.weeks.found.as_ref().and_then(|found| found.get(kind));
    let (Some(series), Some(found)) = (model.weeks.series.get(kind), found) else { return Vec::new() };
    let days = || found.iter().flat_map(|child| &child.at).map(|(day, ..)| *day);
    let span = || Span::new(days().min()?, days().max()?, SPARK);
    let Some(span) = span() else { return Vec::new() };
    let picture = |player: PlayerId| {
        let at = series.children.iter().position(|(child, _)| *child == player)?;
        let found = found.get(at)?;
        let at = &found.at;
        // One day is no path.
        at.first().zip(at.last()).filter(|(first, last)| first.0 < last.0)?;
        let (band, line) = band(at, span, SPARK_HIGH);
        let level = found.change.filter(|change| !change.stands);
        let says = level.map(|change| squad_words::as_on(&told_day(model, change.since)));
        Some(Spark { band, line, label: squad_words::spark(at.len()), says })
    };
    model.squad().iter().map(|player| picture(player.id)).collect()
}

fn not_noticed(model: &Model, practices: &[&PracticeSummary]) -> Option<NotNoticed> {
    let recent: Vec<&PracticeSummary> = practices.iter().copied().filter(|p| is_recent(model, p)).collect();
    let noticed = |player: PlayerId| {
        let counts = recent.iter().flat_map(|p| &p.runs).flat_map(|run| &run.children);
        counts.filter(|(child, _)| *child == player).any(|(_, counts)| counts.n_efforts > 0)
    };
    let there = |player: PlayerId| recent.iter().filter(|p| p.took_part(player)).count() >= THERE;
    let squad = model.squad();
    let (seen, unseen): (Vec<PlayerId>, Vec<PlayerId>) =
        squad.iter().map(|player| player.id).filter(|player| there(*player)).partition(|player| noticed(*player));
    let names: Vec<String> = unseen.into_iter().map(|player| model.name_of(player)).collect();
    (!names.is_empty()).then(|| NotNoticed { line: squad_words::not_noticed(seen.len(), WEEKS), names })
}
