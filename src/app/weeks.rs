//! Levels over weeks in memory: what they were worked out of, and what came of it. Asked of the worker once a screen wants them and
//! something has been counted since; says nothing, for that is the view's.

use super::effect::Effect;
use super::model::Model;
use super::plan::practices;
use super::work::Job;
use super::work::levels::Found;
use crate::domain::ids::PlayerId;
use crate::domain::weeks::{Series, day_no, series};

/// Kinds of balls that are looked at, those with most balls.
const MOST_SERIES: usize = 6;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weeks {
    pub series: Vec<Series>,
    /// One a series, a child each in the series' order; empty where nothing could be told.
    pub found: Option<Vec<Vec<Found>>>,
    /// Why they could not be worked out.
    pub trouble: Option<String>,
}

/// What the worker is asked, unless it has been.
pub fn want(model: &mut Model) -> Option<Effect> {
    let today = model.now.day();
    let mut wanted = series(&practices(model), today);
    wanted.truncate(MOST_SERIES);
    if wanted == model.weeks.series && model.weeks.trouble.is_none() {
        return None;
    }
    let worth = |weight: f64| (weight * 100.0) as u8;
    let counts = |series: &Series| {
        let one = |seen: &[crate::stats::level::Seen]| {
            seen.iter().map(|s| (s.day, s.count.good(), s.count.tries(), worth(s.weight))).collect()
        };
        series.children.iter().map(|(_, seen)| one(seen)).collect()
    };
    let job = Job::Levels { today: day_no(today), series: wanted.iter().map(counts).collect() };
    model.weeks = Weeks { series: wanted, found: None, trouble: None };
    (!model.weeks.series.is_empty()).then_some(Effect::Work(job))
}

/// They are worked out; what was asked before the last time is late and dropped.
pub fn worked_out(model: &mut Model, found: Vec<Vec<Found>>) {
    let fits = found.len() == model.weeks.series.len();
    model.weeks.found = fits.then_some(found);
}

/// Of one child: each kind of ball with what was found of it.
pub fn of_child(model: &Model, player: PlayerId) -> Vec<(&Series, &Found, usize)> {
    let Some(found) = &model.weeks.found else { return Vec::new() };
    let both = model.weeks.series.iter().zip(found);
    both.filter_map(|(series, found)| {
        let at = series.children.iter().position(|(child, _)| *child == player)?;
        Some((series, found.get(at)?, at))
    })
    .collect()
}
