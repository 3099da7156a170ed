//! What the last copy holds and what it lacks. Refuses to guess: a copy holds everything only where nothing of this phone and no
//! accepted parcel is newer, and everything stored could be read.

use std::collections::BTreeMap;

use super::super::model::{Model, PackedPractice, StorageState};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{Clock, RunId};

/// What no copy has carried.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Unsent {
    /// Contacts, told counts and rallies.
    pub n_counted: usize,
    /// Of these, rallies.
    pub n_rallies: usize,
    /// Not more than that: of a packed practice that isn't wholly in the last copy all count, for which of them it holds isn't in
    /// memory.
    pub at_most: bool,
    /// Nothing at all is missing: no correction, no name, no parcel either.
    pub nothing: bool,
    /// What is stored can't be read: there may be more.
    pub unknown: bool,
}

pub fn unsent(model: &Model) -> Unsent {
    let sent = model.settings.copied_clock;
    let summaries = || model.packed.values().filter(|p| !p.own_here).map(|p| &p.summary);
    let parted = || summaries().filter(|s| s.counted.0 > sent);
    // Started after the copy had left, it is wholly outside.
    let copied_ms = model.settings.copied_wall_ms;
    let partly = parted().any(|s| copied_ms.is_some_and(|copied_ms| s.started.wall_ms <= copied_ms));
    let newer_own = model.own.iter().any(|e| e.clock.0 > sent) || summaries().any(|s| s.clock.0 > sent);
    let mut accepted = model.parcels.iter().filter(|p| p.note.accepted);
    let newer_parcel = accepted.any(|p| !model.settings.copied_parcels.contains(&p.key));
    let unknown = model.storage.state != StorageState::Ready;
    Unsent {
        n_counted: n_in_memory(model, sent, Fact::is_counted) + parted().map(|s| s.n_counted()).sum::<usize>(),
        n_rallies: n_in_memory(model, sent, is_rally) + parted().map(|s| s.n_rallies()).sum::<usize>(),
        at_most: partly,
        nothing: !newer_own && !newer_parcel && !unknown,
        unknown,
    }
}

fn is_rally(fact: &Fact) -> bool {
    matches!(fact, Fact::RallyNoted { .. })
}

/// Of the entries in memory. A practice counts from here or from its summary, never from both: where the summary stands for it,
/// only what came after the summary counts here.
fn n_in_memory(model: &Model, sent: u64, counts: fn(&Fact) -> bool) -> usize {
    let mut summed: BTreeMap<RunId, Clock> = BTreeMap::new();
    for PackedPractice { summary, .. } in model.packed.values().filter(|p| !p.own_here) {
        summed.extend(summary.runs.iter().map(|r| (r.run, summary.clock)));
    }
    let after_summary = |e: &Entry| {
        let summary = e.fact.run(e.id).and_then(|run| summed.get(&run));
        summary.is_none_or(|clock| e.clock > *clock)
    };
    // A tap that was undone is in no figure on screen, so it is in none here.
    let stands = |e: &Entry| {
        let run = e.fact.run(e.id).and_then(|run| model.runs.get(&run));
        run.is_none_or(|run| !run.amended.is_taken_back(e.id))
    };
    model.own.iter().filter(|e| e.clock.0 > sent && counts(&e.fact) && after_summary(e) && stands(e)).count()
}
