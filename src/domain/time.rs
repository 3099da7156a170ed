//! When something was noted: wall time with its offset, and a reading that no one can turn back. Reads no clock itself.

use chrono::{DateTime, FixedOffset, NaiveDate, TimeZone};

/// The moment of an entry, as the phone told it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Stamp {
    /// Milliseconds since 1970-01-01 UTC by the phone's wall clock. May jump either way.
    pub wall_ms: i64,
    /// Minutes east of UTC at that moment.
    pub offset_min: i16,
    /// Milliseconds since the page was loaded, monotonic within one series.
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
