//! When something was noted: wall time with its offset, and a reading that no one can turn back. Reads no clock itself.

use chrono::{DateTime, FixedOffset, NaiveDate, TimeZone};

/// The moment of an entry, as the phone told it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stamp {
    /// Milliseconds since 1970-01-01 UTC by the phone's wall clock. May jump either way.
    pub wall_ms: i64,
    /// Minutes east of UTC at that moment.
    pub offset_min: i16,
    /// Milliseconds since the page was loaded, those included in which the phone slept; monotonic within one series.
    pub mono_ms: u64,
}

impl Stamp {
    /// The date on the wall where it was noted. A wall time outside the calendar gives the first day of 1970.
    pub fn day(self) -> NaiveDate {
        self.local().map_or(NaiveDate::MIN, |t| t.date_naive()).max(NaiveDate::default())
    }

    /// Hour and minute on the wall where it was noted; 00:00 for a time outside the calendar.
    pub fn hour_minute(self) -> (u32, u32) {
        use chrono::Timelike;
        self.local().map_or((0, 0), |t| (t.hour(), t.minute()))
    }

    fn local(self) -> Option<DateTime<FixedOffset>> {
        let offset = FixedOffset::east_opt(i32::from(self.offset_min) * 60)?;
        offset.timestamp_millis_opt(self.wall_ms).single()
    }
}

/// How long a phone slept. A browser's monotonic clock may stand still then; only while its page is hidden can a phone sleep, so what
/// the wall clock is ahead by when the page is shown again is sleep. What it jumps by in between, before somebody's eyes, is not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Slept {
    hidden: Option<(i64, u64)>,
    slept_ms: u64,
}

impl Slept {
    /// Clocks drift, and are put right by less than this without anyone asleep.
    const LEAST_MS: u64 = 2_000;

    /// The page was hidden at these readings of the browser's two clocks.
    pub fn hidden(&mut self, wall_ms: i64, mono_ms: u64) {
        self.hidden.get_or_insert((wall_ms, mono_ms));
    }

    /// It is seen again.
    pub fn shown(&mut self, wall_ms: i64, mono_ms: u64) {
        let Some((wall_before, mono_before)) = self.hidden.take() else { return };
        let wall = u64::try_from(wall_ms.saturating_sub(wall_before)).unwrap_or(0);
        let ahead = wall.saturating_sub(mono_ms.saturating_sub(mono_before));
        if ahead >= Self::LEAST_MS {
            self.slept_ms += ahead;
        }
    }

    /// A reading of the browser's monotonic clock, with the time asleep.
    pub fn awake_ms(&self, mono_ms: u64) -> u64 {
        mono_ms + self.slept_ms
    }
}
