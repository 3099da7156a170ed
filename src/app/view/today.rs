//! The first screen: who is here, which drill next, what needs attention.

use super::board::SavedView;
use crate::domain::drill::DrillSpec;
use crate::domain::ids::{DrillId, PlayerId, PracticeId, RunId};

#[derive(Clone, Debug, PartialEq)]
pub struct TodayView {
    pub saved: SavedView,
    pub demo: bool,
    pub notices: Vec<Notice>,
    /// No child in the squad yet: the way in is the list.
    pub no_squad: bool,
    /// "Wednesday practice" once it is on, else "Today".
    pub title: String,
    /// "All 12 here", "11 of 12 here".
    pub here: String,
    pub children: Vec<PresenceKey>,
    pub drills: Vec<DrillCard>,
    pub open: Option<OpenPractice>,
}

/// Something the coach should know now, with one way to act.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    pub kind: NoticeKind,
    pub text: String,
    /// Label of the button, if there is something to do.
    pub act: Option<String>,
    /// True for trouble; else a quiet hint.
    pub grave: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoticeKind {
    Install,
    NotSaved,
    Aside,
    UpdateWaiting,
    /// A practice of an earlier day was never ended.
    LeftOpen(PracticeId),
    /// The run is open in another window.
    RunElsewhere(RunId),
    SendCopy,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PresenceKey {
    pub player: PlayerId,
    pub label: String,
    pub here: bool,
}

/// One tap on it and the board is there, ready as last time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrillCard {
    pub drill: DrillId,
    pub name: String,
    /// "Three on the floor, goal 30"
    pub how: String,
    /// "Last time 23 good of 41"
    pub last: Option<String>,
    pub picture: Picture,
}

/// Which small drawing of our own stands beside a drill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Picture {
    Floor,
    Duel,
    Line,
    Serve,
    Told,
    Group,
}

/// The practice that is on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenPractice {
    pub practice: PracticeId,
    /// "since 17:05"
    pub since: String,
    pub runs: Vec<RunRow>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RunRow {
    pub run: RunId,
    pub name: String,
    /// "23 good of 41"
    pub count: String,
    pub on: bool,
}

/// The form of a drill: the draft, what is wrong with it, and what may be chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillView {
    pub spec: DrillSpec,
    pub is_new: bool,
    /// One sentence when the draft can't be used.
    pub fault: Option<String>,
    /// One sentence telling how it will run.
    pub how: String,
}
