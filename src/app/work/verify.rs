//! Everything stored read again and counted again, held against what was counted before. Finds what can't be read and what is counted
//! otherwise; puts the counts right where asked. Never touches a stored ball.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::copies::{Unread, own};
use super::doing::{Change, Done, Found, Read, loose, taken_in};
use super::practices::{PARCEL, as_read, practice_of, summarised};
use super::{Answer, KeyedSummary};
use crate::app::words;
use crate::domain::entry::Entry;
use crate::domain::ids::PracticeId;
use crate::domain::log::Log;
use crate::domain::replay::base::{Base, Practice};
use crate::domain::same::Same;
use crate::wire::summary;

/// What was found.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Verified {
    pub n_entries: usize,
    pub n_practices: usize,
    /// Of what is packed and of the files taken in.
    pub n_bytes: usize,
    /// Practices that are counted otherwise than they should be, as they should be.
    pub otherwise: Vec<KeyedSummary>,
    /// What can't be read, a line each.
    pub unread: Vec<String>,
}

/// `counted`: the summaries as the page has them, by key.
pub fn verify(counted: &[(String, String)], repair: bool, found: &Found) -> Done {
    let (own, unreadable) = own(found);
    let parcels = taken_in(found, None);
    let blocks = unreadable.blocks.iter().map(|(key, why)| format!("practice {key}: {why}"));
    let loose = loose(found).lines("entry");
    let without_note = found.without_note.iter().map(|key| format!("{PARCEL} {key}: {}", words::work::NO_NOTE));
    let unread: Vec<String> = blocks.chain(parcels.lines(PARCEL)).chain(without_note).chain(loose).collect();
    let unknown = Unknown::of(found, &unreadable, &parcels);
    let mut all = own.clone();
    all.extend(parcels.entries);
    let base = Base::fold(all.iter());
    let practices = base.practices();
    let n_bytes = |bytes: &Result<Vec<u8>, String>| bytes.as_ref().map_or(0, Vec::len);
    let mut verified = Verified {
        n_entries: all.len(),
        n_practices: practices.len(),
        n_bytes: found.blocks.iter().map(|(_, bytes)| n_bytes(bytes)).sum::<usize>()
            + found.parcels.iter().map(|parcel| n_bytes(&parcel.bytes)).sum::<usize>(),
        otherwise: counted_anew(counted, &unknown, &all, &own, &base),
        unread,
    };
    verified
        .otherwise
        .retain(|(key, now)| !counted.iter().any(|(of, before)| of == key && now.as_ref() == Some(before)));
    let change = repair.then(|| put_right(&verified.otherwise, found));
    Done { answer: Answer::Verified(verified), change, file: None }
}

/// Children turned out to be one, or two after all: these practices are counted under those who stay now.
pub fn recount(practices: &[String], same: &Same, found: &Found) -> Done {
    let (own, unreadable) = own(found);
    let parcels = taken_in(found, None);
    let unknown = Unknown::of(found, &unreadable, &parcels);
    let damaged = parcels.lines(PARCEL);
    let mut all = own.clone();
    all.extend(parcels.entries);
    let base = Base::fold(all.iter()).under(same.clone());
    let wanted: Vec<(String, String)> = practices.iter().map(|key| (key.clone(), String::new())).collect();
    let summaries = counted_anew(&wanted, &unknown, &all, &own, &base);
    let change = Some(put_right(&summaries, found));
    Done { answer: Answer::Recounted { summaries, damaged }, change, file: None }
}

/// The summaries of these practices as they should be. Of what can't be read the counts before are all there is.
fn counted_anew(
    counted: &[(String, String)],
    unknown: &Unknown,
    all: &Log,
    own: &Log,
    base: &Base,
) -> Vec<KeyedSummary> {
    let practices = base.practices();
    let parted = Parted::of(all, &practices);
    let known = counted.iter().filter(|(key, _)| !unknown.concerns(key));
    known
        .map(|(key, _)| {
            let practice = practices.iter().find(|practice| practice.id.0.to_string() == *key);
            (key.clone(), practice.map(|practice| parted.summary(practice, own, base.same())))
        })
        .collect()
}

fn put_right(summaries: &[KeyedSummary], found: &Found) -> Change {
    let gone = summaries.iter().filter(|(_, now)| now.is_none());
    Change {
        as_read: as_read(summaries.iter().map(|(key, _)| key.as_str()), found),
        summaries: summaries.iter().filter_map(|(key, now)| Some((key.clone(), now.clone()?))).collect(),
        remove_summaries: gone.map(|(key, _)| key.clone()).collect(),
        ..Change::default()
    }
}

/// Practices of which something can't be read.
enum Unknown {
    These(Vec<String>),
    /// A file without its note may speak of any.
    All,
}

impl Unknown {
    fn of(found: &Found, unreadable: &Unread, parcels: &Read) -> Unknown {
        if !found.without_note.is_empty() {
            return Unknown::All;
        }
        let damaged = found.parcels.iter().filter(|parcel| parcels.damaged.iter().any(|(key, _)| *key == parcel.key));
        let theirs = damaged.flat_map(|parcel| parcel.note.practices.iter().cloned());
        Unknown::These(unreadable.blocks.iter().map(|(key, _)| key.clone()).chain(theirs).collect())
    }

    fn concerns(&self, key: &str) -> bool {
        match self {
            Unknown::These(keys) => keys.iter().any(|unread| unread == key),
            Unknown::All => true,
        }
    }
}

/// Entries by practice, so that counting a season takes each of them once.
pub(super) struct Parted<'a> {
    of_none: Vec<&'a Entry>,
    by_practice: BTreeMap<PracticeId, Vec<&'a Entry>>,
}

impl<'a> Parted<'a> {
    pub fn of(all: &'a Log, practices: &[Practice]) -> Parted<'a> {
        let mut parted = Parted { of_none: Vec::new(), by_practice: BTreeMap::new() };
        let mut last: Option<&Practice> = None;
        for entry in all.iter() {
            last = practice_of(entry, practices, last);
            match last {
                Some(practice) => parted.by_practice.entry(practice.id).or_default().push(entry),
                None => parted.of_none.push(entry),
            }
        }
        parted
    }

    /// What is kept of a practice.
    pub fn summary(&self, practice: &Practice, own: &Log, same: &Same) -> String {
        summary::encode(&summarised(practice, self.around(practice), &self.own(practice, own), same))
    }

    /// Those of a practice that are this phone's own.
    fn own(&self, practice: &Practice, own: &Log) -> Log {
        let all = self.by_practice.get(&practice.id).into_iter().flatten();
        all.filter(|entry| own.get(entry.id) == Some(**entry)).map(|entry| (*entry).clone()).collect()
    }

    /// A practice's own, and what belongs to none.
    fn around(&self, practice: &Practice) -> impl Iterator<Item = &'a Entry> {
        let own = self.by_practice.get(&practice.id).into_iter().flatten();
        self.of_none.iter().chain(own).copied()
    }
}
