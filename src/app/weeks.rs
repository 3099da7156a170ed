//! Levels over weeks in memory: what they were worked out of, and what came of it. Asked of the worker once a screen wants them and
//! something has been counted since; says nothing, for that is the view's. What is known for making groups stays until the next answer.

use super::effect::Effect;
use super::model::Model;
use super::practices::Practices;
use super::work::Job;
use super::work::levels::{Counts, Found};
use super::work::rated::{Met, hundredths};
use crate::domain::ids::PlayerId;
use crate::domain::skill::Skill;
use crate::domain::summary::PracticeSummary;
use crate::domain::weeks::{Series, day_no, games, series};
use crate::stats::level::Seen;

/// Kinds of balls that are looked at, those with most balls.
pub const MOST_SERIES: usize = 6;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weeks {
    /// What the last question was about.
    pub series: Vec<Series>,
    /// Who met whom, as it was asked; and the children by their places there.
    met: Met,
    children: Vec<PlayerId>,
    today: i32,
    /// It has no answer yet: one question at a time, however much comes in meanwhile.
    asking: bool,
    /// How much there was when it was asked, and whether it was wanted again since: to ask again takes a look at the whole season.
    asked_of: (u64, usize, usize),
    again: bool,
    /// One a series, a child each in the series' order; empty where nothing could be told.
    pub found: Option<Vec<Vec<Found>>>,
    /// Why they could not be worked out.
    pub trouble: Option<String>,
    /// What even groups are made of: of the last answer, whatever was counted since.
    pub known: Known,
}

/// How far each is from the squad's middle, in log-odds. Never shown, and of nobody alone.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Known {
    /// A skill, a child, how far from the others, and how many balls all of them had.
    levels: Vec<(Skill, PlayerId, f64, u32)>,
    sides: Vec<(PlayerId, f64)>,
}

impl Weeks {
    /// Somebody in it was removed: it is worked out anew.
    pub fn forget(&mut self) {
        (self.found, self.known) = (None, Known::default());
        self.series.clear();
    }
}

impl Known {
    /// Of a skill, or of all: weighed by how many balls each kind had. `None` where nothing was worked out of it for anyone.
    pub fn level(&self, player: PlayerId, skill: Option<&Skill>) -> Option<f64> {
        let of_skill = || self.levels.iter().filter(|(of, ..)| skill.is_none_or(|skill| skill == of));
        of_skill().next()?;
        let (mut sum, mut weight) = (0.0, 0.0);
        for (_, _, from_middle, n) in of_skill().filter(|(_, of, ..)| *of == player) {
            sum += from_middle * f64::from(*n);
            weight += f64::from(*n);
        }
        Some(if weight > 0.0 { sum / weight } else { 0.0 })
    }

    /// What a child gives a side, as games went. `None` where there were none.
    pub fn side(&self, player: PlayerId) -> Option<f64> {
        let own = self.sides.iter().find(|(of, _)| *of == player).map_or(0.0, |(_, gives)| *gives);
        (!self.sides.is_empty()).then_some(own)
    }
}

/// What the worker is asked, unless it has been.
pub fn want(model: &mut Model) -> Option<Effect> {
    if model.weeks.asking {
        model.weeks.again = true;
        return None;
    }
    let today = day_no(model.now.day());
    let (wanted, met, children) = {
        let all = Practices::of(model);
        let practices = all.latest_first();
        let mut wanted = series(&practices, model.now.day());
        wanted.truncate(MOST_SERIES);
        let (met, children) = met(&wanted, &practices, model);
        (wanted, met, children)
    };
    let nothing = wanted.is_empty() && met.sides.is_empty();
    let weeks = &model.weeks;
    let same = wanted == weeks.series && met == weeks.met;
    if same && (today == weeks.today || nothing) && weeks.trouble.is_none() {
        return None;
    }
    let job = Job::Levels { today, series: counts(&wanted), met: met.clone() };
    let asking = !nothing;
    let known = std::mem::take(&mut model.weeks.known);
    let asked_of = there_is(model);
    let (found, trouble, again) = (None, None, false);
    model.weeks = Weeks { series: wanted, met, children, today, asking, asked_of, again, found, trouble, known };
    asking.then_some(Effect::Work(job))
}

/// The answer to this question. Of another one (a page that began anew) it is dropped.
pub fn worked_out(
    model: &mut Model,
    today: i32,
    (asked, met): (&[Vec<Counts>], &Met),
    (found, sides): (Vec<Vec<Found>>, Vec<i16>),
) -> Option<Effect> {
    let weeks = &mut model.weeks;
    weeks.asking = false;
    let is_of = counts(&weeks.series) == asked && *met == weeks.met;
    let is_answer = today == weeks.today && is_of && found.len() == weeks.series.len();
    if is_answer {
        weeks.known = known(weeks, &found, &sides);
        // Games alone are no kind of ball.
        weeks.found = (!weeks.series.is_empty()).then_some(found);
        weeks.trouble = None;
    }
    // What was counted meanwhile.
    let changed = !is_answer || model.weeks.again || there_is(model) != model.weeks.asked_of;
    if changed { super::update::wanted_by_screen(model) } else { None }
}

/// The clock of the entries, how many lie loose and how many practices packed: where none of it changed, nothing was counted.
fn there_is(model: &Model) -> (u64, usize, usize) {
    (model.writer.clock().0, model.loose.len(), model.packed.len())
}

pub fn not_worked_out(model: &mut Model, why: String) {
    model.weeks.asking = false;
    model.weeks.trouble = Some(why);
}

/// Of one child: each kind of ball with what was found of it.
pub fn of_child(model: &Model, player: PlayerId) -> Vec<(&Series, &Found, &[Seen])> {
    let Some(found) = &model.weeks.found else { return Vec::new() };
    let both = model.weeks.series.iter().zip(found);
    both.filter_map(|(series, found)| {
        let at = series.children.iter().position(|(child, _)| *child == player)?;
        Some((series, found.get(at)?, &series.children[at].1[..]))
    })
    .collect()
}

fn counts(all: &[Series]) -> Vec<Vec<Counts>> {
    all.iter().map(|series| series.children.iter().map(|(_, seen)| counted(seen)).collect()).collect()
}

/// A child's counts as the worker is given them.
pub fn counted(seen: &[Seen]) -> Counts {
    let worth = |weight: f64| (weight * 100.0).round() as u8;
    seen.iter().map(|s| (s.day, s.count.good(), s.count.tries(), worth(s.weight), hundredths(s.offset))).collect()
}

/// Everyone by a number, and what is known of who met whom. The numbers are those of this one question.
fn met(wanted: &[Series], practices: &[&PracticeSummary], model: &Model) -> (Met, Vec<PlayerId>) {
    let mut children: Vec<PlayerId> = Vec::new();
    let mut no = |player: PlayerId| {
        let at = children.iter().position(|known| *known == player).unwrap_or_else(|| {
            children.push(player);
            children.len() - 1
        });
        u16::try_from(at).unwrap_or(u16::MAX)
    };
    let mut met = Met::default();
    let (of_games, sides) = games(practices, model.now.day());
    for series in wanted {
        met.who.push(series.children.iter().map(|(player, _)| no(*player)).collect());
    }
    let kinds = wanted.iter().map(|series| &series.served).chain([&of_games]);
    for (kind, served) in (0_u16..).zip(kinds) {
        for one in served {
            let (server, passer) = (no(one.server), no(one.passer));
            met.served.push((kind, one.day, server, passer, one.count.good(), one.count.tries()));
        }
    }
    for one in sides {
        let [first, second] = [&one.first, &one.second].map(|side| side.iter().map(|player| no(*player)).collect());
        met.sides.push((first, second, one.served, one.won, one.lost));
    }
    met.n_children = u16::try_from(children.len()).unwrap_or(u16::MAX);
    (met, children)
}

fn known(weeks: &Weeks, found: &[Vec<Found>], sides: &[i16]) -> Known {
    let mut known = Known::default();
    for (series, found) in weeks.series.iter().zip(found).filter(|(_, found)| !found.is_empty()) {
        let middle = found.iter().map(|found| found.now.0).sum::<f64>() / found.len() as f64;
        for ((player, _), found) in series.children.iter().zip(found) {
            known.levels.push((series.skill.clone(), *player, found.now.0 - middle, series.n_tries));
        }
    }
    known.sides = weeks.children.iter().zip(sides).map(|(child, gives)| (*child, f64::from(*gives) / 100.0)).collect();
    known
}
