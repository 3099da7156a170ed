//! Makes entries of this page: identity, clock, stamp. The only place where an entry of our own is born. Invariant: no clock is
//! ever above [`MAX_NUMBER`], or every later copy would be refused by whoever opens it.

use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{Clock, EntryId, EntryNo, SeriesId};
use crate::domain::time::Stamp;
use crate::wire::file::MAX_NUMBER;

/// Writes the series of this page load. Its first entry names device and app version.
#[derive(Clone, Debug, PartialEq)]
pub struct Writer {
    series: SeriesId,
    next: u32,
    clock: Clock,
    pub device: String,
}

impl Writer {
    /// `bits`: 64 random bits, new at each page load.
    pub fn new(bits: u64, device: String) -> Self {
        Writer { series: SeriesId(bits), next: 0, clock: Clock(0), device }
    }

    pub fn series(&self) -> SeriesId {
        self.series
    }

    pub fn clock(&self) -> Clock {
        self.clock
    }

    /// Moves the clock past an entry of this phone's log (another tab's, an earlier page's). Never for imported ones.
    pub fn heard(&mut self, entry: &Entry) {
        self.heard_clock(entry.clock);
    }

    /// Moves the clock past what lies packed, or was sent. A clock that no writer can have reached is damage and moves nothing.
    pub fn heard_clock(&mut self, clock: Clock) {
        if clock.0 <= MAX_NUMBER {
            self.clock = self.clock.max(clock);
        }
    }

    /// Entries for these facts, with the series' first entry before them if this is its first.
    pub fn write(&mut self, facts: Vec<Fact>, at: Stamp) -> Vec<Entry> {
        let opening = (self.next == 0).then(|| Fact::SeriesOpened {
            device: self.device.clone(),
            app_version: env!("CARGO_PKG_VERSION").to_owned(),
        });
        opening.into_iter().chain(facts).map(|fact| self.one(fact, at)).collect()
    }

    /// The identity of the `n`th fact of the next [`Writer::write`], for facts that name each other.
    pub fn id_ahead(&self, n: u32) -> EntryId {
        EntryId { series: self.series, no: EntryNo(self.next + u32::from(self.next == 0) + n) }
    }

    fn one(&mut self, fact: Fact, at: Stamp) -> Entry {
        // At its end, which only a damaged record can reach, the clock stands still: identity goes on telling the order.
        self.clock = Clock((self.clock.0 + 1).min(MAX_NUMBER));
        let id = EntryId { series: self.series, no: EntryNo(self.next) };
        self.next += 1;
        Entry { id, clock: self.clock, at, fact, extra: None }
    }
}
