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

    /// As ISO 8601 with milliseconds and its offset; `None` for a time outside the calendar.
    ///
    /// ```
    /// use peppertally::domain::time::Stamp;
    /// let at = Stamp { wall_ms: 1_700_000_000_007, offset_min: -210, mono_ms: 0 };
    /// assert_eq!(at.iso().as_deref(), Some("2023-11-14T18:43:20.007-03:30"));
    /// ```
    pub fn iso(self) -> Option<String> {
        self.local().map(|local| local.format("%Y-%m-%dT%H:%M:%S%.3f%:z").to_string())
    }

    fn local(self) -> Option<DateTime<FixedOffset>> {
        let offset = FixedOffset::east_opt(i32::from(self.offset_min) * 60)?;
        offset.timestamp_millis_opt(self.wall_ms).single()
    }
}

/// How long a phone slept. A browser's monotonic clock may stand still then; only while its page is hidden can a phone sleep, so what
/// the wall clock is ahead by when the page is shown again is taken for sleep. What it jumps by in between, before somebody's eyes, is not.
/// A wall clock that is put forward while the page is hidden can't be told from sleep: `Absence` says how long that was, so that nothing
/// is ended by it alone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Slept {
    hidden: Option<(i64, u64)>,
    slept_ms: u64,
}

/// What is known of the time in which a page was hidden and its phone slept, or had its wall clock put forward.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Absence {
    pub slept_ms: u64,
    /// With what it was awake for meanwhile.
    pub hidden_ms: u64,
}

impl Absence {
    const LONG_MS: u64 = 120_000;

    /// Too long to let it end anything by itself.
    pub fn is_long(self) -> bool {
        self.slept_ms > Self::LONG_MS
    }
}

impl Slept {
    /// Clocks drift, and are put right by less than this without anyone asleep.
    const LEAST_MS: u64 = 2_000;

    /// The page was hidden at these readings of the browser's two clocks.
    pub fn hidden(&mut self, wall_ms: i64, mono_ms: u64) {
        self.hidden.get_or_insert((wall_ms, mono_ms));
    }

    /// It is seen again: what it was absent for, if it slept.
    pub fn shown(&mut self, wall_ms: i64, mono_ms: u64) -> Option<Absence> {
        let (wall_before, mono_before) = self.hidden.take()?;
        let wall = u64::try_from(wall_ms.saturating_sub(wall_before)).unwrap_or(0);
        let awake_ms = mono_ms.saturating_sub(mono_before);
        let slept_ms = wall.saturating_sub(awake_ms);
        if slept_ms < Self::LEAST_MS {
            return None;
        }
        self.slept_ms += slept_ms;
        Some(Absence { slept_ms, hidden_ms: awake_ms.saturating_add(slept_ms) })
    }

    /// A reading of the browser's monotonic clock, with the time asleep.
    pub fn awake_ms(&self, mono_ms: u64) -> u64 {
        mono_ms + self.slept_ms
    }
}
