//! I/O asked of the shell, and what the shell reports back. Plain values; only `runtime` carries them out.

use super::action::CopyHow;
use super::codes::{CodesReport, CodesTask};
use super::health::Room;
use super::home::{Sheet, Way};
use super::lock::{LockFault, LockJob};
use super::work::{Answer, Job};
use crate::domain::ids::PlayerId;
use crate::domain::time::{Absence, Stamp};

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
    /// Each so many milliseconds from now, instead of what was still to be told.
    TellLater(Vec<(u32, Signal)>),
    KeepSettings(String),
    /// Asks the browser for lasting storage.
    AskLasting,
    /// Asks the browser how much room there is. Answered by `RoomTold`.
    AskRoom,
    /// The screen stays awake, and an app update waits.
    RunOn(bool),
    /// Heavy work, done beside the main thread, one job after another. Answered by `Worked`.
    Work(Job),
    /// Looking at a file is given up: it writes nothing, so it may end anywhere.
    StopLooking,
    /// Gives the copy that was written last to the user.
    Offer {
        name: String,
        how: CopyHow,
    },
    /// The same with the calendar's file. Answered by `DatesLeft`.
    OfferDates {
        name: String,
        how: CopyHow,
    },
    /// The note home leaves. Answered by `HomeLeft`.
    NoteHome {
        way: Way,
        player: PlayerId,
        name: String,
        sheet: Box<Sheet>,
    },
    /// A copy is locked, or a locked file opened. Answered by `Locked`.
    Lock(LockJob),
    /// From now on files are heard of that come by other ways than the input. Answered by `FileCame` for each.
    HearOfFiles,
    /// Of a moving code. Answered by `Codes`.
    Codes(CodesTask),
    SetAside(Vec<Record>),
    /// The library of drills, as it lies beside the app. Answered by `Library`.
    ReadLibrary,
    /// The settings' text says nothing to this version: it is moved aside. Answered by `SettingsAside`.
    SetSettingsAside,
    /// Takes the phone's writing over from another window.
    TakeLock,
    ActivateUpdate,
    /// Opens the demo's database, or leaves it and erases it.
    OpenDemo,
    LeaveDemo,
    /// Empties every store in every tab.
    Erase,
}

/// What is told by sound, vibration and voice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Signal {
    Taken,
    /// Called aloud for everyone in the gym, with the words to say. Never of what came of a ball.
    Call(Call, String),
    NotSaved(String),
}

/// The kinds of calls; the coach may turn each off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Call {
    /// Whose turn it is now.
    Name,
    /// Challenge balls from now on, or easy ones again.
    Phase,
    Swap,
    /// The count that gives the pace.
    Pace,
    Time,
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
    /// Not everything was erased. `Trouble::Erasing`: it will be, and this page writes nothing any more.
    NotErased(Trouble),
    /// Settings that lie aside because they couldn't be read: where.
    SettingsAside(Vec<String>),
    /// Written by another tab of this phone, and confirmed by the database.
    Heard(Vec<String>),
    Ticked,
    /// The page is seen again, and its phone slept meanwhile or had its clock put forward.
    Woke(Absence),
    Address(String),
    Lock(LockState),
    Lasting(Option<bool>),
    /// `None`: the browser doesn't say.
    RoomTold(Option<Room>),
    Worked {
        job: Job,
        answer: Answer,
    },
    /// The copy left by download or share sheet (`true`), or the user closed the sheet.
    CopyLeft {
        how: CopyHow,
        left: Result<bool, String>,
    },
    /// The calendar's file, as `CopyLeft`.
    DatesLeft {
        how: CopyHow,
        left: Result<bool, String>,
    },
    /// The note home left (`true`), or the user closed the sheet.
    HomeLeft {
        way: Way,
        /// Whose note it was, whichever is on screen by now, and the picture's file.
        player: PlayerId,
        name: String,
        left: Result<bool, String>,
    },
    /// A file was chosen. The shell keeps it for the jobs that want it.
    FileChosen {
        name: String,
        n_bytes: u64,
    },
    /// A file came by another way: dropped, shared with the app, opened with it. `others` came with it and are left.
    FileCame {
        name: String,
        n_bytes: u64,
        others: usize,
    },
    /// A file that was shared with the app could not be kept for it.
    FileLost,
    /// What came out of locking or opening, in bytes.
    Locked(Result<u64, LockFault>),
    Codes(CodesReport),
    /// So far the file was looked at, in hundredths.
    Looking(u8),
    Phone(super::model::PhoneFacts),
    /// The text of the library's file; `None`: it was not to be had.
    Library(Option<String>),
}

/// What was found at the start.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Opened {
    /// Key, and text or what stood there instead.
    pub entries: Vec<(String, Result<String, String>)>,
    pub second: Vec<Record>,
    pub summaries: Vec<(String, Result<String, String>)>,
    /// Key and note.
    pub parcels: Vec<(String, String)>,
    pub aside: Vec<Record>,
    pub settings: Option<String>,
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
    /// It opens, but says nothing.
    NoAnswer,
    /// Everything is about to be erased, as soon as the other windows let go of it.
    Erasing,
    Unavailable,
    Other(String),
}

/// The moment of a report or action, told by the shell.
pub type Now = Stamp;
