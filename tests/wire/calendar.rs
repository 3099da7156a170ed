//! Samples of dates and of what is said of them. A frozen fixture holds exactly these.

use super::samples::Pages;
use chrono::NaiveDate;
use peppertally::domain::calendar::PracticeDate;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{DateId, EntryId, PlanId, PracticeId, Revision};
use peppertally::wire::calendar::day;

const DATE: DateId = DateId(EntryId::new(0x11, 7));

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 600 };
    let on = |text: &str, start_min, minutes, place: &str| PracticeDate {
        day: day(text).unwrap(),
        start_min,
        minutes,
        place: place.into(),
    };
    pages.note(Fact::DateSet { date: on("2026-12-03", 17 * 60 + 30, 90, "Hall 2, \"upstairs\" \u{1f3d0}") });
    pages.note(Fact::DateSet { date: on("1970-01-01", 0, 1, "") });
    pages.note(Fact::DateChanged { date: DATE, revision: Revision(1), changed: on("9999-12-31", 1380, 60, "\u{5d0}") });
    for dropped in [true, false] {
        pages.note(Fact::DateDropped { date: DATE, revision: Revision(u32::MAX), dropped });
    }
    for plan in [Some(PlanId(EntryId::new(0x11, 6))), None] {
        pages.note(Fact::DatePlanned { date: DATE, revision: Revision(2), plan });
    }
    for practice in [Some(PracticeId(EntryId::new(0x11, 5))), None] {
        pages.note(Fact::DateHeld { date: DATE, revision: Revision(3), practice });
    }
    pages.entries
}

/// Any day that the type can hold is written and read again; what is no day isn't one.
#[test]
fn days_are_written_and_read() {
    for date in [NaiveDate::MIN, NaiveDate::MAX, NaiveDate::default(), NaiveDate::from_ymd_opt(2028, 2, 29).unwrap()] {
        assert_eq!(day(&date.to_string()), Some(date));
    }
    for wrong in [
        "",
        "2026",
        "2026-1-3",
        "2026-13-01",
        "2027-02-29",
        "26-01-03",
        "2026-01-0x",
        "2026-01-03T",
        "é2026-01-03",
        "--",
    ] {
        assert_eq!(day(wrong), None, "{wrong}");
    }
}
