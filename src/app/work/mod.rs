//! Heavy work, done beside the main thread so that no tap waits for it: packing, reading what is packed, copies out and in, the
//! demo's season. A job and its answer are plain values that cross as JSON text; [`doing`] carries a job out and is linked by
//! the worker alone. Touches no storage: what is found there is given, what is to be written is handed back.

pub mod doing;

pub mod goals;
pub mod levels;
pub mod rated;

mod copies;
mod family;
mod practices;
mod preview;
mod removal;
mod season;
mod tables;
mod verify;

pub use preview::{Amount, Besides, Line, Preview};
pub use tables::{Goes, Span, TableOf};
pub use verify::Verified;

use serde::{Deserialize, Serialize};

use super::action::CopyHow;
use crate::domain::time::Stamp;
use crate::wire::ics::Event;

/// Which build this is. A page and a worker of two builds don't work together.
pub const BUILD: &str = match option_env!("PEPPERTALLY_BUILD") {
    Some(build) => build,
    None => env!("CARGO_PKG_VERSION"),
};

/// How far a file was looked at, in hundredths, once all that is here is read, and once the file is.
pub const LOOKED_HERE: u8 = 60;
pub const LOOKED_FILE: u8 = 70;

/// Something to be done. Keys are those of the database: identities as text, the hash of a parcel.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Job {
    /// The entries of a packed practice, and what accepted parcels say of it.
    Read { practice: String },
    /// These loose entries of a finished practice go into its block.
    Pack { practice: String, loose: Vec<String>, same: SameText },
    /// Makes the summary of a packed practice again.
    Summarise { practice: String, same: SameText },
    /// Children turned out to be one, or two after all: these practices are counted again.
    Recount { practices: Vec<String>, same: SameText },
    /// A copy or a table, asked for at this clock and this monotonic time. `records`: what the database has not confirmed, or everything in memory once it can't be read.
    Copy { goes: Goes, how: CopyHow, at: At, clock: u64, asked_ms: u64, records: Vec<String>, all: bool },
    /// Looks at the file that was chosen: is it ours, what is new in it.
    Look { records: Vec<String> },
    /// A parcel comes, goes, or comes back.
    Parcel { key: String, name: String, from: String, what: ParcelChange },
    /// Dates as a file for another calendar, asked for at this monotonic time.
    Dates { name: String, how: CopyHow, asked_ms: u64, events: Vec<Event> },
    /// Those that these records remove are taken out of all that lies packed and accepted, and the notes that have one of these words in them:
    /// what those were called.
    Remove { records: Vec<String>, called: Vec<String> },
    /// Makes the demo's season.
    Season { at: At },
    /// Everything read and counted again, held against these summaries; `repair`: those that differ are put right.
    Verify { counted: Vec<(String, String)>, repair: bool },
    /// Everyone's counts in kinds of balls, and who met whom, to levels and to what each gives a side.
    Levels { today: i32, series: Vec<Vec<levels::Counts>>, met: rated::Met },
    /// How likely goals are for those on the floor.
    Goals { asked: goals::Asked },
    /// Everyone's level in the kinds of balls of a run that is over, or pauses.
    Steps { today: i32, series: Vec<Vec<levels::Counts>> },
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ParcelChange {
    /// The chosen file is taken in.
    Accept,
    TakeBack,
    PutBack,
}

/// Wall time and minutes east of UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct At(pub i64, pub i16);

impl From<Stamp> for At {
    fn from(stamp: Stamp) -> At {
        At(stamp.wall_ms, stamp.offset_min)
    }
}

impl From<At> for Stamp {
    fn from(At(wall_ms, offset_min): At) -> Stamp {
        Stamp { wall_ms, offset_min, mono_ms: 0 }
    }
}

/// Of children who are one: who is meant, and by whom it stays, as `wire::summary` writes them.
pub type SameText = Vec<(String, String)>;

/// The key of a practice and its summary's text; `None`: nothing is left of it.
pub type KeyedSummary = (String, Option<String>);

/// What became of a job. Entries come as records. `damaged`: parcels that could not be counted in, a line each to be shown.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Answer {
    Read {
        own: Vec<String>,
        theirs: Vec<String>,
        damaged: Vec<String>,
    },
    Packed {
        removed: Vec<String>,
        summary: Option<String>,
        damaged: Vec<String>,
    },
    Summarised {
        summary: Option<String>,
        damaged: Vec<String>,
    },
    /// The file stands ready to be offered. `missing`: a sentence saying what isn't in it.
    Copied {
        name: String,
        missing: Option<String>,
    },
    /// The calendar's file stands ready to be offered.
    Dated,
    /// The database can't be read: the copy needs everything in memory.
    CopyNeedsAll,
    Looked {
        key: String,
        from: String,
        preview: Box<Preview>,
    },
    /// The file is locked: somebody has to say with which words.
    Locked,
    Parcel {
        note: String,
        summaries: Vec<KeyedSummary>,
        damaged: Vec<String>,
    },
    Season {
        base: Vec<String>,
        summaries: Vec<KeyedSummary>,
    },
    /// Notes of parcels that were changed, by key. `going`: the coach's notes that were found to go as well.
    Removed {
        notes: Vec<(String, String)>,
        summaries: Vec<KeyedSummary>,
        going: Vec<String>,
        damaged: Vec<String>,
    },
    Levels {
        series: Vec<Vec<levels::Found>>,
        /// In hundredths of log-odds, child by child of the job's list; empty where there were no rallies.
        sides: Vec<i16>,
    },
    Verified(Verified),
    Recounted {
        summaries: Vec<KeyedSummary>,
        damaged: Vec<String>,
    },
    Goals {
        goals: Vec<goals::Reach>,
    },
    /// Mean and spread of the log-odds; empty where nobody had a ball of the kind.
    Steps {
        levels: Vec<Vec<(f64, f64)>>,
    },
    /// What is stored of it can't be read: it lies there untouched, and is shown.
    Damaged(String),
    /// It was not done and nothing has changed; one sentence for the coach.
    Refused(String),
}

/// What is kept beside a parcel's bytes: enough to open the app without them.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Note {
    pub name: String,
    pub from: String,
    pub accepted: bool,
    pub n_contacts: usize,
    /// Its records that belong to no practice: squad, drills, kinds of effort.
    pub base: Vec<String>,
    /// Keys of the practices it speaks of.
    pub practices: Vec<String>,
}

impl Job {
    /// Works numbers out and writes nothing: what else is asked may come before it.
    pub fn is_of_numbers(&self) -> bool {
        matches!(self, Job::Levels { .. } | Job::Goals { .. } | Job::Steps { .. })
    }

    pub fn to_text(&self) -> String {
        text_of(self)
    }

    pub fn from_text(text: &str) -> Option<Job> {
        value_of(text)
    }
}

impl Answer {
    pub fn to_text(&self) -> String {
        text_of(self)
    }

    pub fn from_text(text: &str) -> Option<Answer> {
        value_of(text)
    }
}

impl Note {
    pub fn to_text(&self) -> String {
        text_of(self)
    }

    pub fn from_text(text: &str) -> Option<Note> {
        value_of(text)
    }
}

fn text_of(value: &impl Serialize) -> String {
    // Texts, numbers and lists always serialise; an empty text is nonsense to whoever reads it, and is told as that.
    serde_json::to_string(value).unwrap_or_default()
}

fn value_of<T: for<'a> Deserialize<'a>>(text: &str) -> Option<T> {
    serde_json::from_str(text).ok()
}
