//! Copies out and in: everything written as one file; a file looked at; a parcel that comes, goes or comes back.

use super::doing::{Change, Done, Found, Read, decoded, entries_of, loose, taken_in};
use super::practices::{PARCEL, as_read, practice_of};
use super::preview::preview;
use super::tables::Span;
use super::verify::Parted;
use super::{Answer, At, KeyedSummary, Note, ParcelChange, removal};
use crate::app::action::CopyHow;
use crate::app::phones::opening;
use crate::app::words;
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::PracticeId;
use crate::domain::log::Log;
use crate::domain::phones::Phones;
use crate::domain::removed::Removed;
use crate::domain::replay::base::{Base, Practice};
use crate::domain::skill::Outcome;
use crate::domain::time::Stamp;
use crate::wire::file::{self, FileHeader, Limits};
use crate::wire::{around, block, record};

/// Everything that is known, and a sentence on what of it can't be read.
pub(super) struct Gathered {
    pub entries: Log,
    n_unread: usize,
    closed: Option<String>,
    first_unread: Option<String>,
}

pub(super) fn gathered(records: &[String], found: &Found) -> Gathered {
    let (mut entries, own) = own(found);
    let unconfirmed = decoded(records).collect::<Vec<_>>();
    let n_unread = own.n_records + records.len() - unconfirmed.len();
    entries.extend(unconfirmed);
    let parcels = taken_in(found, None);
    entries.extend(parcels.entries);
    let no_note = found.without_note.first().map(|_| words::work::NO_NOTE.to_owned());
    let first_unread = own.blocks.into_iter().chain(parcels.damaged).next().map(|(_, why)| why).or(no_note);
    let closed = found.closed.as_ref().map(|why| words::copies::partial(why));
    Gathered { entries, n_unread, closed, first_unread }
}

impl Gathered {
    /// What is missing, where so many entries can't go along.
    pub fn missing(self, n_unsound: usize) -> Option<String> {
        let n_records = self.n_unread + n_unsound;
        let damaged = self.first_unread.or_else(|| (n_records > 0).then(|| words::copies::notes(n_records)));
        self.closed.or_else(|| damaged.map(|why| words::copies::incomplete(&why)))
    }
}

/// `peppertally-2026-11-24-1840.json`
pub(super) fn stamped(name: &str, at: At, end: &str) -> String {
    let now = Stamp::from(at);
    let (h, m) = now.hour_minute();
    format!("{name}-{}-{h:02}{m:02}.{end}", now.day())
}

pub fn copy(how: CopyHow, span: &Span, at: At, records: &[String], found: &Found) -> Done {
    let gathered = gathered(records, found);
    let base = Base::fold(gathered.entries.iter());
    let left_out: Vec<Practice> =
        base.practices().into_iter().filter(|practice| !span.holds(practice, &base)).collect();
    let goes = |entry: &&Entry| !left_out.iter().any(|practice| practice.holds(entry));
    // One entry that breaks a rule of the format, and the whole copy would be refused by whoever opens it.
    let (sound, unsound): (Vec<&Entry>, Vec<&Entry>) =
        gathered.entries.iter().filter(goes).partition(|e| file::keeps_rules(e));
    let header = FileHeader { app_version: env!("CARGO_PKG_VERSION").to_owned(), written_ms: at.0, offset_min: at.1 };
    let (file, n_unsound) = (file::write(sound, &header), unsound.len());
    let end = match how {
        CopyHow::Download | CopyHow::Code => "json",
        // Chromium refuses to share a file that ends in .json.
        CopyHow::ShareSheet => "txt",
    };
    let answer = Answer::Copied { name: stamped("peppertally", at, end), missing: gathered.missing(n_unsound) };
    Done { answer, change: None, file: Some(file) }
}

/// Says what is new in a file. Nothing is stored yet.
pub fn look(records: &[String], found: &Found) -> Done {
    let (key, bytes) = match &found.file {
        Some(Ok(file)) => file,
        Some(Err(why)) => return Done::refused(words::copies::unreadable(why)),
        None => return Done::refused(words::work::NO_FILE.to_owned()),
    };
    if around::is_locked(bytes) {
        return Done::said(Answer::Locked);
    }
    let copy = match file::read(bytes, &Limits::default()) {
        Ok(copy) => copy,
        Err(refusal) => return Done::refused(words::trouble::refusal(&refusal)),
    };
    let (mut all, lacks) = own(found);
    all.extend(decoded(records));
    let parcels = taken_in(found, None);
    let unread = lacks.n_records > 0
        || !lacks.blocks.is_empty()
        || !parcels.damaged.is_empty()
        || !found.without_note.is_empty();
    let own = all.clone();
    all.extend(parcels.entries);
    let leaving = removal::leaving(&copy.entries, &all);
    all.know(&Removed::of(&copy.entries));
    let entries = all.removed().emptied_all(copy.entries.clone());
    let mut preview = preview(&entries, &all, &own);
    preview.removes = words::removal::comes_with(&leaving);
    preview.lines.extend(unread.then(|| words::copies::MAYBE_HERE.to_owned()));
    let written = Stamp { wall_ms: copy.header.written_ms, offset_min: copy.header.offset_min, mono_ms: 0 };
    Done::said(Answer::Looked {
        key: key.clone(),
        from: words::copies::parcel_from(&devices(&copy.entries, &own), &words::counts::when_ever(written)),
        preview: Box::new(preview),
    })
}

/// A parcel comes, goes or comes back: its note and the summaries of the practices that it speaks of, in one transaction.
pub fn parcel(key: &str, name: &str, from: &str, what: ParcelChange, found: Found) -> Done {
    let bytes = match (what, &found.file) {
        (ParcelChange::Accept, Some(Ok((hash, bytes)))) if hash == key => Ok(bytes.clone()),
        (ParcelChange::Accept, Some(Err(why))) => Err(why.clone()),
        (ParcelChange::Accept, _) => Err(words::work::FILE_CHANGED.to_owned()),
        _ => match found.parcels.iter().find(|p| p.key == key) {
            Some(parcel) => parcel.bytes.clone(),
            None => Err(words::work::NO_PARCEL.to_owned()),
        },
    };
    let read = bytes.clone().and_then(|bytes| entries_of(&Ok(bytes)));
    let (bytes, entries) = match (bytes, read) {
        (Ok(bytes), Ok(entries)) => (bytes, entries),
        (Err(why), _) | (_, Err(why)) => return Done::refused(words::copies::unreadable(&why)),
    };
    let (mut own, unread) = own(&found);
    own.know(&Removed::of(&entries));
    let removed = own.removed().clone();
    // What is said of those removed here, or by the file itself, is never stored.
    let bytes = match removal::emptied_file(&bytes, &removed) {
        Ok(emptied) => emptied.unwrap_or(bytes),
        Err(why) => return Done::refused(words::copies::unreadable(&why)),
    };
    let entries = removed.emptied_all(entries);
    let others = taken_in(&found, Some(key));
    let damaged_parcels = others.lines(PARCEL);
    let mut here = own.clone();
    here.extend(others.entries);
    let mut everything = here.clone();
    everything.extend(entries.iter().cloned());

    let n_contacts = entries.iter().filter(|e| is_counted_ball(&e.fact)).count();
    let fresh = entries.into_iter().filter(|e| own.get(e.id).is_none());
    let (of_none, touched) = apart(fresh, &Base::fold(everything.iter()).practices());
    let accepted = what != ParcelChange::TakeBack;
    let after = if accepted { &everything } else { &here };
    let packed = |id: &PracticeId| found.blocks.iter().any(|(key, _)| *key == id.0.to_string());
    let damaged = |id: &PracticeId| unread.blocks.iter().any(|(key, _)| *key == id.0.to_string());
    // An own practice that isn't packed is counted from memory; one whose block can't be read keeps the summary it has.
    let counted = |id: &&PracticeId| !damaged(id) && (packed(id) || own.get(id.0).is_none());
    let base = Base::fold(after.iter());
    let practices = base.practices();
    let parted = Parted::of(after, &practices);
    let summaries: Vec<KeyedSummary> = touched
        .iter()
        .filter(counted)
        .map(|id| {
            let practice = practices.iter().find(|practice| practice.id == *id);
            let made = practice.map(|practice| parted.summary(practice, &own, base.same()));
            (id.0.to_string(), made)
        })
        .collect();
    let note = Note {
        name: name.to_owned(),
        from: from.to_owned(),
        accepted,
        n_contacts,
        base: of_none.iter().map(record::encode).collect(),
        practices: touched.iter().map(|id| id.0.to_string()).collect(),
    };
    let change = Change {
        as_read: as_read(summaries.iter().map(|(key, _)| key.as_str()), &found),
        parcels: if what == ParcelChange::Accept { vec![(key.to_owned(), bytes)] } else { Vec::new() },
        notes: vec![(key.to_owned(), note.to_text())],
        summaries: summaries.iter().filter_map(|(key, made)| Some((key.clone(), made.clone()?))).collect(),
        remove_summaries: summaries.iter().filter(|(_, made)| made.is_none()).map(|(key, _)| key.clone()).collect(),
        ..Change::default()
    };
    let answer = Answer::Parcel { note: note.to_text(), summaries, damaged: damaged_parcels };
    Done { answer, change: Some(change), file: None }
}

/// What of this phone's own can't be read.
pub(super) struct Unread {
    /// Keys of blocks, and why.
    pub blocks: Vec<(String, String)>,
    /// Loose records.
    n_records: usize,
}

/// This phone's own entries that the database holds, packed and loose, without those whom anything there removes; and what of it can't be read.
pub(super) fn own(found: &Found) -> (Log, Unread) {
    let Read { entries, damaged } = loose(found);
    let mut log = Log::default();
    // Known first, so that nothing has to be emptied twice.
    log.know(&removal::known(&entries, found));
    log.extend(entries);
    let mut unread = Unread { blocks: Vec::new(), n_records: damaged.len() };
    for (key, bytes) in &found.blocks {
        let read = bytes.clone().and_then(|b| block::unpack(&b).map_err(|refusal| words::trouble::refusal(&refusal)));
        match read {
            Ok(entries) => log.extend(entries),
            Err(why) => unread.blocks.push((key.clone(), why)),
        }
    }
    (log, unread)
}

/// Entries that belong to no practice, and the practices that the others belong to.
fn apart(entries: impl Iterator<Item = Entry>, practices: &[Practice]) -> (Vec<Entry>, Vec<PracticeId>) {
    let (mut base, mut touched) = (Vec::new(), std::collections::BTreeSet::new());
    let mut last: Option<&Practice> = None;
    for entry in entries {
        last = practice_of(&entry, practices, last);
        match last {
            Some(practice) => {
                touched.insert(practice.id);
            }
            None => base.push(entry),
        }
    }
    (base, touched.into_iter().collect())
}

/// What the phones that wrote these call themselves, each once; this one only where no other wrote anything.
fn devices(entries: &[Entry], own: &Log) -> Vec<String> {
    let phones = Phones::of(entries);
    let opened = || entries.iter().filter(|entry| matches!(entry.fact, Fact::SeriesOpened { .. }));
    let called = |entry: &Entry| phones.name(entry.id.series).unwrap_or(words::THIS_PHONE).to_owned();
    let is_other = |entry: &&Entry| own.get(opening(entry.id.series)).is_none();
    let mut names: Vec<String> = opened().filter(is_other).map(called).collect();
    if names.is_empty() {
        names = opened().map(called).collect();
    }
    let mut each: Vec<String> = Vec::new();
    for name in names {
        if !each.contains(&name) {
            each.push(name);
        }
    }
    each
}

/// A contact; one of a child that was removed counts nothing.
fn is_counted_ball(fact: &Fact) -> bool {
    matches!(fact, Fact::ContactNoted { contact, .. } if contact.outcome != Outcome::Removed)
}
