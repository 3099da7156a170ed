//! The clock of a run: goes, stands, and is told by its entries alone, so it survives reload and kill. Reads no clock itself.

use super::entry::Entry;
use super::ids::SeriesId;
use super::time::Stamp;

/// What the clock shows, and since when it goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RunClock {
    shown_ms: u32,
    since: Option<(SeriesId, Stamp)>,
}

impl RunClock {
    /// Set going or standing by this entry, with what it showed then.
    pub fn set(&mut self, entry: &Entry, going: bool, shown_ms: u32) {
        *self = RunClock { shown_ms, since: going.then_some((entry.id.series, entry.at)) };
    }

    pub fn is_going(&self) -> bool {
        self.since.is_some()
    }

    /// Whether it was ever set.
    pub fn was_set(&self) -> bool {
        *self != RunClock::default()
    }

    /// A ball was noted with what the clock showed then: from there it goes on. So a new page, which has only the wall clock to go by,
    /// shows no less than a ball was noted at, and a wall clock that was set before that ball moves nothing.
    pub fn seen(&mut self, series: SeriesId, at: Stamp, shown_ms: u32) {
        if self.is_going() && shown_ms >= self.shown_ms {
            *self = RunClock { shown_ms, since: Some((series, at)) };
        }
    }

    /// What it shows on the page of this series, never less than it showed when it was set or a ball was noted. That page has a reading
    /// which no one can set; the wall clock, which somebody may put forward in the middle of a run, is all that another page has.
    pub fn shown_ms(&self, series: SeriesId, now: Stamp) -> u32 {
        let gone = self.since.map_or(0, |(set_by, at)| {
            let mono = now.mono_ms.saturating_sub(at.mono_ms);
            let wall = u64::try_from(now.wall_ms.saturating_sub(at.wall_ms)).unwrap_or(0);
            if set_by == series { mono } else { wall }
        });
        self.shown_ms.saturating_add(u32::try_from(gone).unwrap_or(u32::MAX))
    }
}
