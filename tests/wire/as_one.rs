//! Samples of practices that are one, and of those that are two. A frozen fixture holds exactly these.

use super::samples::{PRACTICE, Pages};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{EntryId, PracticeId, Revision};

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 2_000 };
    // Their entries are still on other phones.
    let [other, elsewhere] = [(7, 3), (u64::MAX, u32::MAX)].map(|(series, no)| PracticeId(EntryId::new(series, no)));
    let same = [(PRACTICE, other, 1), (other, PRACTICE, 2), (other, elsewhere, u32::MAX), (other, other, 0)];
    for (stays, also, revision) in same {
        pages.note(Fact::PracticesJoined { stays, also, revision: Revision(revision) });
    }
    for (one, other, revision) in [(PRACTICE, elsewhere, 1), (elsewhere, other, u32::MAX)] {
        pages.note(Fact::PracticesToldApart { one, other, revision: Revision(revision) });
    }
    let target = pages.entries[0].id;
    pages.note(Fact::EntryTakenBack { run: None, target, revision: Revision(1), back: true });
    let by = pages.note(Fact::PracticesToldApart { one: PRACTICE, other, revision: Revision(3) });
    by.extra = Some(r#"{"by":"clock"}"#.into());
    pages.entries
}
