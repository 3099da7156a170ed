//! Samples of children who are one, and of those who are two. A frozen fixture holds exactly these.

use super::samples::{MIRA, ODILE, Pages, TOVE};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{EntryId, PlayerId, Revision};

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 1_000 };
    // One that is nowhere: its entry is still on another phone.
    let elsewhere = PlayerId(EntryId::new(u64::MAX, u32::MAX));
    for (stays, also, revision) in [(MIRA, TOVE, 1), (TOVE, MIRA, 2), (ODILE, elsewhere, u32::MAX), (MIRA, MIRA, 0)] {
        pages.note(Fact::ChildrenJoined { stays, also, revision: Revision(revision) });
    }
    for (one, other, revision) in [(MIRA, ODILE, 1), (elsewhere, TOVE, u32::MAX)] {
        pages.note(Fact::ChildrenToldApart { one, other, revision: Revision(revision) });
    }
    let target = pages.entries[0].id;
    pages.note(Fact::EntryTakenBack { run: None, target, revision: Revision(1), back: true });
    let by = pages.note(Fact::ChildrenJoined { stays: MIRA, also: ODILE, revision: Revision(3) });
    by.extra = Some(r#"{"by":"shirt"}"#.into());
    pages.entries
}
