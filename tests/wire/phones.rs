//! Samples of phones that are named. A frozen fixture holds exactly these.

use super::samples::{PAGE, Pages};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{EntryId, Revision};

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 2_000 };
    let opened = |series: &[u64]| series.iter().map(|series| EntryId::new(*series, 0)).collect::<Vec<_>>();
    let mut named = |revision: u32, name: &str, series: &[u64]| {
        let fact = Fact::PhoneNamed { revision: Revision(revision), name: name.to_owned(), opened: opened(series) };
        pages.note(fact).clone()
    };
    named(0, "", &[PAGE, u64::MAX]);
    named(1, "Gym phone, l\u{2019}autre", &[]);
    named(u32::MAX, "Phone 2", &[0]);
    pages.note(Fact::PhoneNamed { revision: Revision(2), name: "Phone 3".into(), opened: opened(&[1]) }).extra =
        Some(r#"{"by":"lid"}"#.into());
    pages.entries
}
