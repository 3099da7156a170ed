//! Samples of a station that is checked, and of what the coach saw there. A frozen fixture holds exactly these.

use super::samples::{Pages, RUN};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{ContactId, EntryId, GroupNo};
use peppertally::domain::skill::{Outcome, PassGrade, ServeOutcome};
use peppertally::wire::record;

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 900 };
    let run = RUN;
    for (group, check) in [(None, true), (Some(GroupNo(1)), true), (None, false)] {
        pages.note(Fact::StationSet { run, open: true, group, check });
    }
    let contact = ContactId(EntryId::new(0x11, 7));
    for outcome in [
        Outcome::Pass { grade: PassGrade::Gone, over_net: true },
        Outcome::Pass { grade: PassGrade::Stood, over_net: false },
        Outcome::Serve { outcome: ServeOutcome::Long, fast: true },
        Outcome::TwoKey { good: false },
        Outcome::NoChance,
    ] {
        pages.note(Fact::BallChecked { run, contact, outcome });
    }
    pages.entries
}

/// A station without a check is written as it always was.
#[test]
fn a_station_without_a_check_says_nothing_of_it() {
    let texts: Vec<String> = entries().iter().take(3).map(record::encode).collect();
    let says: Vec<bool> = texts.iter().map(|text| text.contains("\"check\"")).collect();
    assert_eq!(says, [true, true, false], "{texts:?}");
}
