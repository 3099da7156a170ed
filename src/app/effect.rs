//! I/O asked of the shell, and what the shell reports back. Plain values; only `runtime` carries them out.

use super::action::CopyHow;
use crate::domain::ids::PracticeId;
use crate::domain::time::Stamp;

/// One stored record: its key and its text.
pub type Record = (String, String);

/// I/O asked of the shell.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// The storage refused before: opens and reads it once more. Answered by `Opened` or `Refused`.
    OpenAgain,
    /// Second copy in the same task, then the database, strictly. Answered by `Saved` or `SaveFailed`.
    Save(Vec<Record>),
    /// Shows this address after `#`.
    Address(String),
    Tell(Signal),
    KeepSettings(String),
    /// Asks the browser for lasting storage.
    AskLasting,
    /// The screen stays awake, and an app update waits.
    RunOn(bool),
    /// Reads the packed entries of a practice.
    ReadPractice(PracticeId),
    /// Reads everything that is packed, for a copy.
    ReadAll(CopyHow),
    /// Gives a file to the user.
    Offer {
        name: String,
        text: String,
        how: CopyHow,
    },
    KeepParcel {
        key: String,
        bytes: Vec<u8>,
        note: String,
    },
    NoteParcel {
        key: String,
        note: String,
    },
    SetAside(Vec<Record>),
    /// Packs a finished practice, in one transaction.
    Pack {
        key: String,
        block: Vec<u8>,
        summary: String,
        remove: Vec<String>,
    },
    /// Takes the phone's writing over from another window.
    TakeLock,
    ActivateUpdate,
    /// Opens the demo's database, or leaves it and erases it.
    OpenDemo,
    LeaveDemo,
    /// Empties every store in every tab.
    Erase,
}

/// The four things told by sound, vibration and voice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Signal {
    Taken,
    /// With the word to say.
    Phase(String),
    Swap(String),
    NotSaved(String),
}

/// What the shell reports.
#[derive(Clone, Debug, PartialEq)]
pub enum Report {
    Opened(Box<Opened>),
    /// The database can't be opened; second copies are what there is.
    Refused {
        trouble: Trouble,
        second: Vec<Record>,
        settings: Option<String>,
    },
    Saved(Vec<String>),
    SaveFailed {
        keys: Vec<String>,
        trouble: Trouble,
    },
    SecondCopyFailed,
    /// Written by another tab of this phone.
    Heard(Vec<String>),
    Ticked,
    Address(String),
    Lock(LockState),
    Lasting(Option<bool>),
    PracticeRead {
        practice: PracticeId,
        block: Result<Vec<u8>, String>,
    },
    AllRead {
        how: CopyHow,
        blocks: Result<Vec<Vec<u8>>, String>,
    },
    /// The copy left by download or share sheet (`true`), or the user closed the sheet.
    CopyLeft(Result<bool, String>),
    FileRead {
        name: String,
        key: String,
        bytes: Vec<u8>,
        blocks: Vec<Vec<u8>>,
    },
    /// Too large to be read at all.
    FileTooLarge {
        bytes: u64,
    },
    FileUnreadable(String),
    Packed {
        key: String,
        removed: Vec<String>,
    },
    /// The database did not pack it; it is tried again after a later practice.
    NotPacked,
    ParcelKept(Result<(), Trouble>),
    Phone(super::model::PhoneFacts),
}

/// What was found at the start.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Opened {
    /// Key, and text or what stood there instead.
    pub entries: Vec<(String, Result<String, String>)>,
    pub second: Vec<Record>,
    pub summaries: Vec<(String, Result<String, String>)>,
    /// Key, note, and the bytes as they came.
    pub parcels: Vec<(String, String, Option<Vec<u8>>)>,
    pub aside: Vec<Record>,
    pub settings: Option<String>,
    pub lasting: Option<bool>,
}

/// Whether this page goes on with what was open by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LockState {
    Asked,
    Held,
    /// Another window of this phone has it.
    Elsewhere,
}

/// Why storing failed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    Full,
    Refused(String),
    Blocked,
    /// The database was written by a newer version of the app.
    Newer,
    Lost,
    Unavailable,
    Other(String),
}

/// The moment of a report or action, told by the shell.
pub type Now = Stamp;
