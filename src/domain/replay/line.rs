//! The main line of a run: who went on from whom. Owns the choice among those who went on at the same time; knows no totals.

use std::collections::{BTreeMap, HashMap, HashSet};
use std::ops::{Bound, RangeInclusive};

use super::super::ids::{EntryId, EntryNo, RunId, SeriesId};
use super::super::log::Order;

/// A stretch of the main line by one writer: numbers `from` to `to`, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    pub series: SeriesId,
    pub from: EntryNo,
    pub to: EntryNo,
}

/// The way from the one who writes now back to the start, each stretch ending with what the next writer had seen.
///
/// Invariant: it is found by following `after` backwards, never by clocks: importing moves no clock, so the clock of one who
/// goes on may well be below the clocks of what it has seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MainLine {
    /// The start first. Never empty.
    stretches: Vec<Stretch>,
}

/// A `RunTakenOver`: its place in time, and what its writer had seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GoneOn {
    pub order: Order,
    pub after: EntryId,
}

impl MainLine {
    /// Of those who went on and whom nobody followed, the one with the most before it writes now; ties go to the highest
    /// (clock, identity). So whoever went on from another always comes after it.
    pub fn find(run: RunId, gone_on: impl Iterator<Item = GoneOn>) -> MainLine {
        let mut openings: BTreeMap<EntryId, Option<GoneOn>> = BTreeMap::new();
        openings.extend(gone_on.map(|g| (g.order.id, Some(g))));
        openings.insert(run.0, None);
        let depths = depths(&openings);
        let last = openings
            .iter()
            .filter_map(|(id, gone)| Some(((*depths.get(id)?)?, gone.map(|g| g.order), *id)))
            .max()
            .map_or(run.0, |(_, _, id)| id);
        MainLine { stretches: way_to(last, run, &openings) }
    }

    pub fn stretches(&self) -> &[Stretch] {
        &self.stretches
    }

    /// The stretch being written now; its series may go on writing.
    pub fn now(&self) -> Stretch {
        self.stretches[self.stretches.len() - 1]
    }

    pub fn holds(&self, id: EntryId) -> bool {
        self.stretches.iter().any(|s| s.holds(id))
    }
}

impl Stretch {
    pub fn holds(self, id: EntryId) -> bool {
        self.ids().contains(&id)
    }

    pub fn ids(self) -> RangeInclusive<EntryId> {
        EntryId { series: self.series, no: self.from }..=EntryId { series: self.series, no: self.to }
    }
}

/// The opening (start or going-on) whose writer wrote this entry: the nearest at or before it in its series.
fn opening_of(entry: EntryId, openings: &BTreeMap<EntryId, Option<GoneOn>>) -> Option<EntryId> {
    let first = EntryId { no: EntryNo(0), ..entry };
    openings.range(first..=entry).next_back().map(|(id, _)| *id)
}

/// How many went on before each; `None` for those that lead back to themselves (only damage can), which never write now. One
/// whose forerunner is not here counts as following the start.
fn depths(openings: &BTreeMap<EntryId, Option<GoneOn>>) -> HashMap<EntryId, Option<u32>> {
    let mut known: HashMap<EntryId, Option<u32>> = HashMap::new();
    for id in openings.keys() {
        let mut path = Vec::new();
        let mut walked = HashSet::new();
        let mut at = *id;
        let mut depth = loop {
            if let Some(depth) = known.get(&at) {
                break *depth;
            }
            if !walked.insert(at) {
                break None;
            }
            let Some(Some(gone)) = openings.get(&at) else {
                known.insert(at, Some(0));
                break Some(0);
            };
            path.push(at);
            match opening_of(gone.after, openings) {
                Some(before) => at = before,
                None => break Some(0),
            }
        };
        for id in path.into_iter().rev() {
            depth = depth.map(|d| d + 1);
            known.insert(id, depth);
        }
    }
    known
}

/// Who opens anew ends its own stretch before, so no two stretches share an entry.
fn way_to(last: EntryId, run: RunId, openings: &BTreeMap<EntryId, Option<GoneOn>>) -> Vec<Stretch> {
    let mut way = Vec::new();
    let mut opening = last;
    let mut seen = EntryNo(u32::MAX);
    loop {
        let EntryId { series, no: from } = opening;
        let end = EntryId { series, no: seen };
        let anew = openings.range((Bound::Excluded(opening), Bound::Included(end))).next().map(|(id, _)| id.no);
        let to = anew.map_or(seen, |anew| EntryNo(anew.0 - 1));
        way.push(Stretch { series, from, to });
        let Some(Some(gone)) = openings.get(&opening) else { break };
        seen = gone.after.no;
        // What it had seen is not here: of the start it has only the rule and the players.
        opening = opening_of(gone.after, openings).unwrap_or_else(|| {
            seen = run.0.no;
            run.0
        });
    }
    way.reverse();
    way
}
