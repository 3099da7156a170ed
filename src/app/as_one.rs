//! Practices that may be one: begun on several phones of one evening, each without knowing of the others. Which pairs are put to the coach, and
//! which others a practice may be by hand. Nothing is joined by itself.

use std::collections::BTreeSet;

use super::model::Model;
use super::phones::{named, opening};
use super::practices::Practices;
use crate::domain::ids::{PlayerId, PracticeId};
use crate::domain::phones::Phones;
use crate::domain::summary::PracticeSummary;
use crate::domain::time::Stamp;
use crate::stats::arrange::arranged;

/// So near a practice was begun to the other's time of counting: common practice is one evening in one gym. A choice of ours.
const NEAR_MS: i64 = 3 * 3_600_000;

/// A practice as it was begun.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Begun {
    pub practice: PracticeId,
    pub at: Stamp,
}

/// Two that may be one. The one that began first comes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MayBeOne {
    pub one: Begun,
    pub other: Begun,
}

/// What is asked of a practice.
struct Known {
    begun: Begun,
    /// When something was counted last, as far as it is known.
    until_ms: i64,
    children: Vec<PlayerId>,
    phone: Phone,
}

/// Whose page began it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Phone {
    This,
    Named(String),
    /// Another one that never got a name.
    Other,
}

/// Pairs of which nothing was said, the nearest in time first; of three that may all be one with each other two pairs are enough.
pub fn may_be_one(model: &Model) -> Vec<MayBeOne> {
    let all = Practices::of(model);
    let all: Vec<Known> =
        all.latest_first().into_iter().filter(|p| is_asked(model, p)).map(|p| known(model, p)).collect();
    let settled = settled(model);
    let mut found = Vec::new();
    for (i, a) in all.iter().enumerate() {
        for b in &all[..i] {
            if may_be(a, b) && !settled.contains(&ordered(a.begun.practice, b.begun.practice)) {
                let (one, other) = if order(a.begun) < order(b.begun) { (a, b) } else { (b, a) };
                found.push(MayBeOne { one: one.begun, other: other.begun });
            }
        }
    }
    let apart = |pair: &MayBeOne| pair.one.at.wall_ms.abs_diff(pair.other.at.wall_ms);
    let key = |pair: &MayBeOne| (apart(pair), order(pair.one), order(pair.other));
    let found = arranged(found, |a, b| key(a).cmp(&key(b)));
    // Whoever says of A and B, and of A and C, has said all.
    let mut with: Vec<Vec<PracticeId>> = Vec::new();
    let leads_on = |pair: &MayBeOne| {
        let ends = [pair.one.practice, pair.other.practice];
        if with.iter().any(|set| ends.iter().all(|end| set.contains(end))) {
            return false;
        }
        let (touched, rest): (Vec<_>, Vec<_>) =
            std::mem::take(&mut with).into_iter().partition(|set| ends.iter().any(|end| set.contains(end)));
        with = rest;
        with.push([touched.concat(), ends.to_vec()].concat());
        true
    };
    found.into_iter().filter(leads_on).collect()
}

/// All others that are over, the nearest in time first: by hand any may be the same.
pub fn others(model: &Model, practice: PracticeId) -> Vec<Begun> {
    let all = Practices::of(model);
    let begun = |p: &PracticeSummary| Begun { practice: p.practice, at: p.started };
    let all: Vec<Begun> = all.latest_first().into_iter().map(begun).filter(|p| !model.goes_on(p.practice)).collect();
    let Some(of) = all.iter().find(|begun| begun.practice == practice).copied() else { return Vec::new() };
    let apart = |other: &Begun| (other.at.wall_ms.abs_diff(of.at.wall_ms), other.practice);
    let others = all.into_iter().filter(|other| other.practice != practice).collect();
    arranged(others, |a, b| apart(a).cmp(&apart(b)))
}

/// The phone that a practice was begun on.
pub fn phone(model: &Model, practice: PracticeId) -> Phone {
    let first = opening(practice.0.series);
    if model.own.get(first).is_some() {
        return Phone::This;
    }
    let phones = Phones::of(model.theirs.iter());
    named(&phones, first.series).map_or(Phone::Other, |name| Phone::Named(name.to_owned()))
}

/// Only once it is over, and where something was done in it. Of another phone's that isn't known to be over, another day.
fn is_asked(model: &Model, practice: &PracticeSummary) -> bool {
    let over = || practice.ended || practice.started.day() != model.now.day();
    let done = || practice.n_counted() > 0 || practice.runs.iter().any(|run| run.everyone.n_efforts > 0);
    !model.goes_on(practice.practice) && over() && (done() || practice.plan.is_some())
}

fn known(model: &Model, practice: &PracticeSummary) -> Known {
    let until = practice
        .runs
        .iter()
        .map(|run| run.started.wall_ms.saturating_add(i64::try_from(run.span_ms).unwrap_or(i64::MAX)));
    Known {
        begun: Begun { practice: practice.practice, at: practice.started },
        until_ms: until.fold(practice.started.wall_ms, i64::max),
        // Summaries may have been made before two children became one.
        children: practice.everyone().into_iter().map(|player| model.base.same().of(player)).collect(),
        phone: phone(model, practice.practice),
    }
}

/// Led by two phones, of one evening, with somebody in both.
fn may_be(a: &Known, b: &Known) -> bool {
    let shared = || a.children.iter().any(|child| b.children.contains(child));
    let nobody = a.children.is_empty() || b.children.is_empty();
    let near = || begun_near(a, b) || begun_near(b, a);
    // What costs least is asked first: a season has many pairs.
    (a.begun.at.day() == b.begun.at.day() || near()) && are_two_phones(a, b) && (nobody || shared())
}

fn begun_near(a: &Known, b: &Known) -> bool {
    let at = a.begun.at.wall_ms;
    let from = b.begun.at.wall_ms.saturating_sub(NEAR_MS);
    (from..=b.until_ms.saturating_add(NEAR_MS)).contains(&at)
}

/// Of two that never got a name nobody knows. One phone has one practice at a time, so where they were on at once it was two.
fn are_two_phones(a: &Known, b: &Known) -> bool {
    let at_once = || a.begun.at.wall_ms <= b.until_ms && b.begun.at.wall_ms <= a.until_ms;
    a.phone != b.phone || a.phone == Phone::Other && at_once()
}

/// Pairs that the coach has spoken of, under those that they are read under.
fn settled(model: &Model) -> BTreeSet<(PracticeId, PracticeId)> {
    let mut settled = BTreeSet::new();
    let pairs = model.base.practice_pairs();
    settled.extend(pairs.iter().map(|pair| ordered(model.read_under(pair.one), model.read_under(pair.other))));
    settled
}

fn order(begun: Begun) -> (i64, PracticeId) {
    (begun.at.wall_ms, begun.practice)
}

fn ordered(one: PracticeId, other: PracticeId) -> (PracticeId, PracticeId) {
    if one < other { (one, other) } else { (other, one) }
}
