//! Pages that write entries with made-up clocks, shared by the tests of the domain. Owns identity and time, decides nothing.

use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::{Contact, Entry, Fact, Lineup};
use peppertally::domain::ids::{Clock, EntryId, PlayerId, PracticeId};
use peppertally::domain::skill::{Outcome, Role};
use peppertally::domain::time::Stamp;

/// The practice that every run of the tests belongs to; its own entry is on another phone.
pub const PRACTICE: PracticeId = PracticeId(EntryId::new(9, 0));

/// One load of the app: a series of its own, a clock of its own, a ball every four seconds.
#[derive(Clone, Debug)]
pub struct Page {
    series: u64,
    no: u32,
    clock: u64,
}

impl Page {
    /// `clock` is where this page's clock stands; importing moves no clock, so a later page may stand far behind.
    pub fn new(series: u64, clock: u64) -> Self {
        Page { series, no: 0, clock }
    }

    /// By the same tap as the entry before: at the same moment.
    pub fn write_with_it(&mut self, fact: Fact) -> Entry {
        let before = Page { no: self.no.saturating_sub(1), ..*self }.write(fact.clone()).at;
        Entry { at: before, ..self.write(fact) }
    }

    pub fn write(&mut self, fact: Fact) -> Entry {
        let id = EntryId::new(self.series, self.no);
        // A later page (of a lower series) reads a later time, as if both were one clock; they aren't.
        let mono_ms = u64::from(self.no) * 4_000 + 1_000u64.saturating_sub(self.series) * 20_000;
        self.no += 1;
        self.clock += 1;
        let at = Stamp { wall_ms: 1_700_000_000_000 + i64::from(self.no), offset_min: 60, mono_ms };
        Entry { id, clock: Clock(self.clock), at, fact, extra: None }
    }
}

pub fn child(n: usize) -> PlayerId {
    PlayerId(EntryId::new(7, n as u32))
}

pub fn run_started(spec: &DrillSpec, lineup: Lineup) -> Fact {
    Fact::RunStarted { practice: PRACTICE, drill: None, spec: spec.clone(), lineup, recorder: String::new() }
}

/// A contact with the facts that this drill's screen would show, outside transition scoring.
pub fn contact(spec: &DrillSpec, player: Option<PlayerId>, outcome: Outcome) -> Contact {
    let role = match outcome {
        Outcome::Serve { .. } | Outcome::ServeMissed => Role::Server,
        Outcome::TwoKey { .. } => Role::Doer,
        _ => Role::Passer,
    };
    Contact {
        player,
        role,
        place: None,
        outcome,
        good_from: spec.good_from,
        feed: spec.feed,
        style: None,
        turn: None,
        server: None,
        self_scored: false,
        group: None,
        clock_ms: None,
        watched: false,
    }
}

/// The same entries in another order, the same for the same seed (the generator of Knuth's MMIX).
pub fn shuffled(entries: &[Entry], seed: u64) -> Vec<Entry> {
    let mut out = entries.to_vec();
    let mut state = seed | 1;
    for i in (1..out.len()).rev() {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        out.swap(i, (state >> 33) as usize % (i + 1));
    }
    out
}
