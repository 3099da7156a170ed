//! Which phone wrote a series, by what phones say of themselves: a page load's first entry names its phone as it was called then, a later one
//! may name it anew and says which series are its own. Owns no sentence, and knows not which phone is this one.

use std::collections::BTreeMap;

use super::entry::{Entry, Fact};
use super::ids::{Revision, SeriesId};
use super::log::Order;

/// What is known of the phones that wrote some entries.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Phones {
    /// As it was called when the series began.
    opened: BTreeMap<SeriesId, String>,
    /// Said later: the highest stands.
    named: BTreeMap<SeriesId, ((Revision, Order), String)>,
    /// Said to be of one phone with another series, which may be so of a third.
    of_one: BTreeMap<SeriesId, SeriesId>,
}

impl Phones {
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Phones {
        let mut phones = Phones::default();
        for entry in entries {
            phones.note(entry);
        }
        phones
    }

    fn note(&mut self, entry: &Entry) {
        let by = entry.id.series;
        match &entry.fact {
            // Nowhere but at its start: a file may claim anything.
            Fact::SeriesOpened { device, .. } if entry.id.no.0 == 0 => {
                self.opened.insert(by, device.clone());
            }
            Fact::PhoneNamed { revision, name, opened } => {
                let rank = (*revision, entry.order());
                for series in opened.iter().map(|first| first.series).chain([by]) {
                    let (had, said) = self.named.entry(series).or_insert_with(|| (rank, name.clone()));
                    if rank > *had {
                        (*had, *said) = (rank, name.clone());
                    }
                    self.join(series, by);
                }
            }
            _ => {}
        }
    }

    /// Under the lower, so that the order in which things are said is nothing to it.
    fn join(&mut self, one: SeriesId, other: SeriesId) {
        let (one, other) = (self.phone(one), self.phone(other));
        if one != other {
            self.of_one.insert(one.max(other), one.min(other));
        }
    }

    /// One of its series stands for a phone: the same for all that are said to be of one.
    pub fn phone(&self, series: SeriesId) -> SeriesId {
        let mut found = series;
        while let Some(next) = self.of_one.get(&found) {
            found = *next;
        }
        found
    }

    /// What the phone that wrote it is called; `None` where nobody said. As it was called when the series began where nothing was said
    /// since, which for a phone without a name is what the app calls it.
    pub fn name(&self, series: SeriesId) -> Option<&str> {
        let said = self.named.get(&series).map(|(_, name)| name);
        said.or_else(|| self.opened.get(&series)).map(String::as_str).filter(|name| !name.is_empty())
    }
}
