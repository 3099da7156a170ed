//! Carries out a job: what it has to be given, and what it gives. The shell reads the one and writes the other, in one strict
//! transaction.

use super::{Answer, Job, Note, SameText, copies, goals, levels, practices, removal, season, tables, verify};
use crate::app::update::MAX_FILE_BYTES;
use crate::app::words;
use crate::domain::entry::Entry;
use crate::domain::same::Same;
use crate::wire::file::{self, Limits};
use crate::wire::{around, ics, record, summary};

/// What a job has to be given from the database.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Need {
    pub blocks: Which,
    pub parcels: Which,
    /// The entries that lie loose.
    pub entries: bool,
    /// The file that the coach chose.
    pub file: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Which {
    None,
    /// What concerns this practice.
    Of(String),
    All,
}

/// What was found. An `Err` tells what stood there instead.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    pub blocks: Vec<(String, Result<Vec<u8>, String>)>,
    pub parcels: Vec<FoundParcel>,
    /// Parcels whose note can't be read, by key: nobody can tell whether they are accepted.
    pub without_note: Vec<String>,
    pub entries: Vec<(String, Result<String, String>)>,
    /// Hash and bytes.
    pub file: Option<Result<(String, Vec<u8>), String>>,
    /// The database can't be read, and why: all of the above but the file is missing.
    pub closed: Option<String>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct FoundParcel {
    pub key: String,
    pub note: Note,
    pub bytes: Result<Vec<u8>, String>,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    pub answer: Answer,
    /// To be written before the answer is given, all of it or nothing.
    pub change: Option<Change>,
    /// The text of the copy, or of the calendar's file.
    pub file: Option<String>,
}

/// One transaction.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Change {
    /// Blocks as they were read. If one has changed meanwhile (another window packs too), nothing is written.
    pub as_read: Vec<(String, Option<Vec<u8>>)>,
    pub blocks: Vec<(String, Vec<u8>)>,
    pub summaries: Vec<(String, String)>,
    pub entries: Vec<(String, String)>,
    pub parcels: Vec<(String, Vec<u8>)>,
    pub notes: Vec<(String, String)>,
    pub remove_entries: Vec<String>,
    pub remove_summaries: Vec<String>,
}

impl Need {
    pub fn of(job: &Job) -> Need {
        let nothing = Need { blocks: Which::None, parcels: Which::None, entries: false, file: false };
        let everything = Need { blocks: Which::All, parcels: Which::All, entries: true, file: false };
        match job {
            Job::Read { practice } | Job::Pack { practice, .. } | Job::Summarise { practice, .. } => Need {
                blocks: Which::Of(practice.clone()),
                parcels: Which::Of(practice.clone()),
                entries: true,
                ..nothing
            },
            Job::Copy { .. }
            | Job::Verify { .. }
            | Job::Remove { .. }
            | Job::Recount { .. }
            | Job::Parcel { what: super::ParcelChange::PutBack, .. } => everything,
            Job::Parcel { what: super::ParcelChange::TakeBack, .. } => everything,
            Job::Look { .. } | Job::Parcel { what: super::ParcelChange::Accept, .. } => {
                Need { file: true, ..everything }
            }
            Job::Season { .. } => Need { entries: true, ..nothing },
            Job::Levels { .. } | Job::Goals { .. } | Job::Steps { .. } | Job::Dates { .. } => nothing,
        }
    }

    /// Whether anything of the database is wanted.
    pub fn is_of_database(&self) -> bool {
        self.entries || self.blocks != Which::None || self.parcels != Which::None
    }

    /// Whether the bytes of a parcel with this note are wanted.
    pub fn wants_parcel(&self, note: &Note) -> bool {
        match &self.parcels {
            Which::None => false,
            Which::Of(practice) => note.accepted && note.practices.contains(practice),
            Which::All => true,
        }
    }
}

impl Done {
    pub(super) fn said(answer: Answer) -> Done {
        Done { answer, change: None, file: None }
    }

    pub(super) fn refused(sentence: String) -> Done {
        Done::said(Answer::Refused(sentence))
    }
}

/// A chosen file's bytes, unpacked where they are packed.
///
/// # Errors
/// Why not, as it stands in a sentence.
pub fn unpacked(bytes: Vec<u8>) -> Result<Vec<u8>, String> {
    around::unpacked(bytes, MAX_FILE_BYTES).map_err(|why| words::copies::not_unpacked(why).to_owned())
}

/// Does a job with what was found for it.
pub fn do_job(job: &Job, found: Found) -> Done {
    // Levels, goals and dates need nothing of the database.
    let alone = matches!(
        job,
        Job::Copy { .. } | Job::Levels { .. } | Job::Goals { .. } | Job::Steps { .. } | Job::Dates { .. }
    );
    if let (Some(why), false) = (&found.closed, alone) {
        return Done::refused(words::work::closed(why));
    }
    match job {
        Job::Read { practice } => practices::read(practice, &found),
        Job::Pack { practice, loose, same } => practices::pack(practice, loose, &meant(same), &found),
        Job::Summarise { practice, same } => practices::summarise(practice, &meant(same), &found),
        Job::Recount { practices, same } => verify::recount(practices, &meant(same), &found),
        Job::Copy { all: false, .. } if found.closed.is_some() => Done::said(Answer::CopyNeedsAll),
        Job::Copy { goes, how, at, records, .. } => match goes.table {
            None => copies::copy(*how, &goes.span, *at, records, &found),
            Some(of) => tables::write(of, goes, *at, records, &found),
        },
        Job::Look { records } => copies::look(records, &found),
        Job::Parcel { key, name, from, what } => copies::parcel(key, name, from, *what, found),
        Job::Dates { events, .. } => Done { answer: Answer::Dated, change: None, file: Some(ics::write(events)) },
        Job::Verify { counted, repair } => verify::verify(counted, *repair, &found),
        Job::Remove { records, called } => removal::remove(records, called, &found),
        Job::Season { at } => season::make(*at, &found),
        Job::Levels { today, series, met } => levels::work_out(*today, series, met),
        Job::Goals { asked } => goals::work_out(asked),
        Job::Steps { today, series } => goals::steps(*today, series),
    }
}

/// What is no identity names nobody: the summary then says whom it was made under, and is made again.
fn meant(same: &SameText) -> Same {
    summary::same_of_text(same).unwrap_or_default()
}

/// The entries of these records. One that can't be read lies where it is, and is shown from there.
pub(super) fn decoded<'a>(records: impl IntoIterator<Item = &'a String>) -> impl Iterator<Item = Entry> {
    records.into_iter().filter_map(|text| record::decode(text).ok())
}

/// What is stored of some kind: the entries, and a line for each thing that can't be read, with its key.
#[derive(Default)]
pub(super) struct Read {
    pub entries: Vec<Entry>,
    pub damaged: Vec<(String, String)>,
}

impl Read {
    /// The lines under which the app shows them.
    pub fn lines(&self, kind: &str) -> Vec<String> {
        self.damaged.iter().map(|(key, why)| format!("{kind} {key}: {why}")).collect()
    }
}

/// The entries that lie loose.
pub(super) fn loose(found: &Found) -> Read {
    let mut read = Read::default();
    for (key, text) in &found.entries {
        match text.as_ref().map(|text| record::decode(text)) {
            Ok(Ok(entry)) => read.entries.push(entry),
            Ok(Err(_)) => read.damaged.push((key.clone(), words::work::NO_RECORD.to_owned())),
            Err(instead) => read.damaged.push((key.clone(), instead.clone())),
        }
    }
    read
}

/// The entries of the accepted parcels that were found, but for one.
pub(super) fn taken_in(found: &Found, but: Option<&str>) -> Read {
    let mut read = Read::default();
    for parcel in found.parcels.iter().filter(|p| p.note.accepted && Some(p.key.as_str()) != but) {
        match entries_of(&parcel.bytes) {
            Ok(entries) => read.entries.extend(entries),
            Err(why) => read.damaged.push((parcel.key.clone(), why)),
        }
    }
    read
}

/// The entries of a file's bytes, or a sentence saying why not.
pub(super) fn entries_of(bytes: &Result<Vec<u8>, String>) -> Result<Vec<Entry>, String> {
    let bytes = bytes.as_ref().map_err(Clone::clone)?;
    file::read(bytes, &Limits::default()).map(|copy| copy.entries).map_err(|r| words::trouble::refusal(&r))
}
