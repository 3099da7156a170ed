//! Levels over weeks in memory: what they were worked out of, and what came of it. Asked of the worker once a screen wants them and
//! something has been counted since; says nothing, for that is the view's.

use super::effect::Effect;
use super::model::Model;
use super::practices::Practices;
use super::work::Job;
use super::work::levels::{Counts, Found};
use crate::domain::ids::PlayerId;
use crate::domain::weeks::{Series, day_no, series};
use crate::stats::level::Seen;

/// Kinds of balls that are looked at, those with most balls.
pub const MOST_SERIES: usize = 6;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weeks {
    /// What the last question was about.
    pub series: Vec<Series>,
    today: i32,
    /// It has no answer yet: one question at a time, however much comes in meanwhile.
    asking: bool,
    /// One a series, a child each in the series' order; empty where nothing could be told.
    pub found: Option<Vec<Vec<Found>>>,
    /// Why they could not be worked out.
    pub trouble: Option<String>,
}

/// What the worker is asked, unless it has been.
pub fn want(model: &mut Model) -> Option<Effect> {
    if model.weeks.asking {
        return None;
    }
    let today = day_no(model.now.day());
    let mut wanted = series(&Practices::of(model).latest_first(), model.now.day());
    wanted.truncate(MOST_SERIES);
    let weeks = &model.weeks;
    if wanted == weeks.series && (today == weeks.today || wanted.is_empty()) && weeks.trouble.is_none() {
        return None;
    }
    let job = Job::Levels { today, series: counts(&wanted) };
    let asking = !wanted.is_empty();
    model.weeks = Weeks { series: wanted, today, asking, found: None, trouble: None };
    asking.then_some(Effect::Work(job))
}

/// The answer to this question. Of another one (a page that began anew) it is dropped.
pub fn worked_out(model: &mut Model, today: i32, asked: &[Vec<Counts>], found: Vec<Vec<Found>>) -> Option<Effect> {
    let weeks = &mut model.weeks;
    weeks.asking = false;
    if today == weeks.today && counts(&weeks.series) == asked && found.len() == weeks.series.len() {
        weeks.found = Some(found);
        weeks.trouble = None;
    }
    // What was counted meanwhile.
    super::update::wanted_by_screen(model)
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
    let worth = |weight: f64| (weight * 100.0) as u8;
    let one = |seen: &[Seen]| seen.iter().map(|s| (s.day, s.count.good(), s.count.tries(), worth(s.weight))).collect();
    all.iter().map(|series| series.children.iter().map(|(_, seen)| one(seen)).collect()).collect()
}
