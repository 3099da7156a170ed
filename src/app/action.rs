//! What the user asked, and what the shell reports. The only way to change the model.

use super::calendar::CalendarTap;
use super::codes::CodesTap;
use super::effect::Call;
use super::goals::GoalsTap;
use super::groups::GroupsTap;
use super::health::HealthTap;
use super::home::HomeTap;
use super::joining::JoiningTap;
use super::library::LibraryTap;
use super::lock::LockTap;
use super::notes::NotesTap;
use super::plan::PlanTap;
use super::remote::Stands;
use super::screen::Screen;
use super::work::Goes;
use crate::domain::drill::DrillSpec;
use crate::domain::entry::Side;
use crate::domain::ids::{ContactId, DrillId, EffortId, GroupNo, Place, PlayerId, PracticeId, RallyId, RunId, Step};
use crate::domain::skill::{Outcome, ServeStyle};

/// What the user asked.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// A tap on a tab, a row, a way back.
    Go(Screen),

    RosterTyped(String),
    /// Adds the children understood; lines not understood stay in the text.
    RosterTaken,
    ChildNameTyped(String),
    ChildNumberTyped(String),
    ChildStyleChosen(ServeStyle),
    ChildKept,
    ChildArchived(PlayerId, bool),

    PresenceTapped(PlayerId),
    /// Starts a practice if none is on, and a run of the drill: one tap.
    DrillTapped(DrillId),
    /// The draft of `Screen::Drill` changes whole.
    DrillDrafted(DrillSpec),
    DrillKept,
    DrillArchived(DrillId),
    /// In the library of drills, and among the coach's own.
    Library(LibraryTap),
    /// On the screen of groups.
    Groups(GroupsTap),
    /// Of the plan.
    Plan(PlanTap),
    /// Of the season calendar.
    Calendar(CalendarTap),
    /// Of notes, and of questions asked.
    Notes(NotesTap),
    Health(HealthTap),
    /// A goal that fits, and the lines between steps.
    Goals(GoalsTap),
    /// Of the note home on screen.
    Home(HomeTap),
    /// Of a child that is to be removed for good.
    Removal(RemovalTap),
    /// Of children who may have been entered twice.
    Joining(JoiningTap),
    PracticeEnded(PracticeId),
    PracticeReopened(PracticeId),
    /// What is counted here from now on belongs to this practice of another phone; or no longer.
    Along(PracticeId, bool),
    /// The drill that was tapped is one of this phone's own practice.
    PartOwn,

    /// A key of the floor board: who stands there and how good, in one tap.
    PlaceTapped(Place, Outcome),
    /// A key of a line, serve or group board: the current child's outcome.
    OutcomeTapped(Outcome),
    NoChanceTapped,
    ServeMissedTapped,
    EffortTapped,
    EffortGiven(EffortId, Option<PlayerId>, Option<String>),
    EffortStripClosed,
    /// A name: this child is next (on a line) or serves next (in a duel).
    NameTapped(PlayerId),
    StyleTapped(PlayerId),
    ToldTapped(PlayerId, u8),
    /// The next series of told counts.
    ToldSeriesDone,
    SwapTapped,
    /// These two change places, wherever they stand or wait.
    Exchanged(PlayerId, PlayerId),
    TurnRoundTapped,
    EasierFeedTaken,
    UndoTapped,
    /// A good one of this group, on a board of groups; and its own undo.
    LaneTapped(GroupNo),
    LaneUndone(GroupNo),
    /// This side won the rally.
    SideWon(Side),
    /// The rally that comes is served a second time, or not after all; by the other side, or not after all.
    SecondServeTapped,
    OtherServesTapped,
    /// New teams out of those who are here.
    TeamsMixed,
    /// The run's clock goes, or stands.
    ClockTapped,
    /// Challenge balls from now on, or easy ones again.
    ChallengeTapped,
    /// The child's step on this drill's ladder, and a whole group's.
    StepChosen(PlayerId, Step),
    GroupStepChosen(GroupNo, Step),
    /// The phone goes to children who score themselves, and comes back.
    StationOpened(Option<GroupNo>),
    /// The same for all of them, and the coach judges ten balls beside.
    CheckOpened,
    StationLeft,
    Uncovered,
    PlayOn,
    /// The run is over: its drill once more, as a new run.
    Again(RunId),
    TakeOver(RunId),
    Finish,
    /// Opens a finished run again.
    RunReopened(RunId),

    ContactChosen(Option<ContactId>),
    /// An effort of the list, to say whose it was and of which kind.
    EffortChosen(Option<EffortId>),
    ContactFixed {
        contact: ContactId,
        player: Option<PlayerId>,
        outcome: Outcome,
        step: u8,
    },
    ShiftFromHere(ContactId),
    ContactTakenBack(ContactId),
    ContactPutBack(ContactId),
    /// This side won that rally after all.
    RallyFixed(RallyId, Side),
    RallyTakenBack(RallyId),
    RallyPutBack(RallyId),

    CopyWanted(CopyHow, Goes),
    /// The copy that stands ready goes to the share sheet.
    CopySent,
    /// The copy that the browser was given to save is among the downloads, or isn't.
    CopySeen(bool),
    /// Of locked copies.
    Lock(LockTap),
    /// Of a moving code, shown or read.
    Codes(CodesTap),
    ParcelAccepted,
    /// The file that is being looked at is left after all.
    LookStopped,
    ParcelDeclined,
    /// What would go with this file is told first; `None`: it is left.
    ParcelBackAsked(Option<String>),
    ParcelTakenBack(String),
    ParcelPutBack(String),
    AnswerSeen,
    /// The practice on screen couldn't be read, or a summary not made: once more.
    ReadAgain,

    SoundSet(bool),
    VoiceSet(bool),
    VibrationSet(bool),
    /// A call is made from now on, or not.
    CallSet(Call, bool),
    LeftHandSet(bool),
    /// A key of a remote was pressed for this, by the name the browser has for it.
    RemoteKeyGiven(Stands, String),
    RemoteKeyFreed(Stands),
    DeviceNameTyped(String),
    KindTyped(String),
    KindAdded,
    KindRemoved(String),
    LastingAsked,
    SaveAgain,
    UpdateTaken,
    InstallHintClosed,
    DemoEntered,
    DemoLeft,
    EraseAsked,
    EraseDeclined,
    EraseSure,
}

/// What is tapped where a child is removed for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RemovalTap {
    Asked(PlayerId),
    Declined,
    /// Held: it is meant.
    Sure,
}

/// How a copy leaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub enum CopyHow {
    Download,
    ShareSheet,
    /// Shown as a moving code.
    Code,
}
