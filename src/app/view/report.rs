//! After a run and after a practice: tries, rate in words and range, best row, efforts; and the list of contacts to correct.

use crate::app::action::Action;
use crate::domain::entry::Side;
use crate::domain::ids::{ContactId, EffortId, PartNo, PlayerId, PracticeId, RallyId, RunId};
use crate::domain::skill::{Outcome, Skill};

mod contacts;
mod noted;
mod practice;
mod run;
mod score;
mod steps;
mod touches;

pub use contacts::contacts;
pub use practice::{after, missing, practice_report};
pub use run::run_report;

#[derive(Clone, Debug, PartialEq)]
pub struct RunReportView {
    pub run: RunId,
    pub practice: PracticeId,
    pub title: String,
    /// "Wednesday 25 November, 17:05"
    pub when: String,
    /// "23 good of 41, about 4 to 7 in 10"; of a duel, easy and challenge balls each in a sentence.
    pub everyone: String,
    /// "12 of these balls were scored by the children themselves."
    pub self_scored: Option<String>,
    /// "5 in a row", the longest of all balls: of a board without names, where the row is what is played for.
    pub row: Option<String>,
    pub sections: Vec<ReportSection>,
    /// Where fast swings are counted.
    pub caution: Option<&'static str>,
    /// The result of transition scoring, in words.
    pub duel: Option<String>,
    /// What the rule says at the end: "Group 2 (Tove, Bram) has it, with 10 good ones.", "34 together. Your best before was 31."
    pub score: Option<String>,
    /// Each group and what it reached, in the order of the groups.
    pub groups: Vec<GroupLine>,
    /// Where good ones were counted and misses weren't.
    pub counts_only: Option<&'static str>,
    /// Own small goals for next time, for the coach alone.
    pub goals: Vec<OwnGoal>,
    /// Who is ready for another ball, for the coach alone.
    pub steps: StepsView,
    pub touches: Option<TouchesView>,
    pub efforts: Vec<EffortLine>,
    /// Counted by another window or phone at the same time: shown beside, never added.
    pub beside: Vec<BesideReport>,
    pub finished: bool,
    /// Its practice is on: the next drill comes before sending anything.
    pub goes_on: bool,
    /// The next part of its plan, one tap away: "Next: Serving".
    pub next_part: Option<(PartNo, String)>,
    /// Nothing was counted.
    pub empty: bool,
}

/// A child's own small goal, and how often it would be reached.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnGoal {
    pub name: String,
    /// "8 good ones"
    pub goal: String,
    /// "about 6 in 10 times, of 10 balls as today", once the levels are there.
    pub chance: Option<String>,
}

/// Another ball, of the group and child by child; empty where nothing is to be said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StepsView {
    pub working: bool,
    /// Why it could not be worked out.
    pub trouble: Option<String>,
    /// "Next time for all: 26 good of 40 balls, about 7 in 10 times."
    pub next: Option<String>,
    pub lines: Vec<StepLine>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct StepLine {
    pub player: Option<PlayerId>,
    pub name: String,
    /// "Ready for a harder ball. 8 in 10 or more are good: likely (9 in 10)."
    pub line: String,
    /// The key that gives the other ball, where a child has a step of its own.
    pub given: Option<StepGiven>,
    /// The ladder has no such step.
    pub ends: Option<&'static str>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct StepGiven {
    /// "From now on from 6 m.", once it was tapped.
    pub said: Option<String>,
    /// "Next time from 6 m", then "Back to 4.5 m"
    pub label: String,
    pub action: Action,
}

/// A group, who is in it, and what it reached.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupLine {
    pub name: String,
    pub who: String,
    /// "10", "best row 12"
    pub what: String,
}

/// What one other page counted.
#[derive(Clone, Debug, PartialEq)]
pub struct BesideReport {
    pub everyone: String,
    pub sections: Vec<ReportSection>,
    pub efforts: Vec<EffortLine>,
}

/// One table of bars: "Passing, moved or better", or its easy or challenge half.
#[derive(Clone, Debug, PartialEq)]
pub struct ReportSection {
    pub heading: String,
    pub rows: Vec<ReportRow>,
    /// "The bars overlap: no order can be told from these balls." Said of these bars alone.
    pub order: Option<String>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct ReportRow {
    pub player: Option<PlayerId>,
    pub name: String,
    /// "14 of 20"
    pub count: String,
    /// "about 5 to 9 in 10"
    pub share: String,
    /// Ends of the range and the tick, in hundredths of the bar; `None` without a try.
    pub bar: Option<Bar>,
    /// "5 in a row"
    pub row: Option<String>,
    /// "long 2, net 1; at least 4 fast swings"
    pub more: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bar {
    pub low: u8,
    pub tick: u8,
    pub high: u8,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EffortLine {
    pub name: String,
    /// "twice: dived, ran for it"
    pub what: String,
}

/// Touches of a ball in every role.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TouchesView {
    pub rows: Vec<TouchRow>,
    /// "Fewest touches in all roles: Tove, 9 that the phone knows of."
    pub fewest: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TouchRow {
    pub name: String,
    /// "18 judged; by the places, 4 served or tossed, 2 caught"
    pub what: String,
}

#[derive(Clone, Debug, PartialEq)]
pub struct PracticeReportView {
    pub practice: PracticeId,
    pub title: String,
    pub when: String,
    /// "Begun on this phone at 18:02, on Ana’s phone at 18:05", where they are one.
    pub phones: Option<String>,
    /// Ended or opened again here; nothing where it is another phone's, or not read yet.
    pub ways: Vec<PracticeWayRow>,
    /// The way to other practices that may be this one, where there are any.
    pub as_one: Option<String>,
    pub runs: Vec<PracticeRunRow>,
    pub touches: Option<TouchesView>,
    /// The first two minutes, once it is over.
    pub minutes: Option<super::after::Minutes>,
    pub asks: Vec<super::after::AskRow>,
    /// Planned and done, where practice followed a plan.
    pub plan: Option<super::plan::AfterPlan>,
    pub efforts: Vec<EffortLine>,
    /// Notes and questions, for the coach.
    pub remarks: Vec<super::notes::RemarkRow>,
    /// "Everyone was here.", "Away: Bram. Went early: Tove."
    pub presence: String,
    /// The practice is packed and being read.
    pub loading: bool,
    /// Why it couldn't be read.
    pub trouble: Option<String>,
}

/// What can be done with one of the practices that it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PracticeWayRow {
    pub practice: PracticeId,
    pub way: PracticeWay,
    /// "Open again what this phone began at 18:05", where it is read with others.
    pub again: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PracticeWay {
    End,
    /// Another phone leads it: this one no longer takes part.
    Leave,
    OpenAgain,
}

/// Why a screen has nothing to show.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Missing {
    /// There is no such practice or run here.
    Gone,
    /// It is packed and being read.
    BeingRead,
    /// It couldn't be read: one sentence. Going there again tries again.
    Unread(String),
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PracticeRunRow {
    pub run: RunId,
    pub name: String,
    pub count: String,
    pub share: String,
    /// "counted on Ana's phone", where the practice has runs of more than one phone.
    pub phone: Option<String>,
    /// What stands beside the main line, in its own sentence.
    pub beside: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AfterView {
    pub practices: Vec<PracticeRow>,
    /// "Two practices may be one", or that something was said of such.
    pub as_one: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PracticeRow {
    pub practice: PracticeId,
    pub title: String,
    pub when: String,
    /// "3 drills, 214 contacts"
    pub what: String,
    pub on: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ContactsView {
    pub run: RunId,
    /// It isn't finished: the way back is to its board.
    pub on: bool,
    pub title: String,
    /// The latest first.
    pub rows: Vec<ContactRow>,
    /// Some of them have no number, and the screen says why.
    pub unnumbered: bool,
    /// Numbers were told, which are no contacts.
    pub told: bool,
    pub fix: Option<FixView>,
    /// Efforts noticed, the latest first.
    pub efforts: Vec<EffortRow>,
    /// Rallies of a game, the latest first.
    pub rallies: Vec<RallyRow>,
    /// What another window or phone counted at the same time: to be corrected too.
    pub beside: Vec<BesideContacts>,
    /// Contacts taken back, the latest first: each can be put back.
    pub taken_back: Vec<TakenRow>,
    pub can_undo: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BesideContacts {
    pub rows: Vec<ContactRow>,
    pub efforts: Vec<EffortRow>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TakenRow {
    /// Of a rally the same identity under its other name.
    pub contact: ContactId,
    pub is_rally: bool,
    /// "Mira, stood 3"
    pub line: String,
    pub when: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ContactRow {
    pub contact: ContactId,
    /// "41" of the tries; `None`: nobody's try, so no number counts it.
    pub no: Option<String>,
    pub who: String,
    /// "moved 2"
    pub what: String,
    /// "17:21:04"
    pub when: String,
    pub corrected: bool,
    /// "challenge" and the step, when not easy and the first step; "self-scored", "watched".
    pub feed: Option<String>,
}

/// A rally: who won it may be changed any time later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RallyRow {
    pub rally: RallyId,
    pub no: String,
    /// "Mira, Tove against Bram, Iva"
    pub who: String,
    pub won: Side,
    /// What the two sides are called.
    pub sides: [(Side, &'static str); 2],
    pub when: String,
    pub corrected: bool,
}

/// A noticed effort: whose, and of which kind, may be said any time later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EffortRow {
    pub effort: EffortId,
    pub who: String,
    pub kind: Option<String>,
    pub when: String,
    /// Open: the names and kinds to choose from, `true` for the ones chosen.
    pub open: Option<EffortChoice>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EffortChoice {
    pub player: Option<PlayerId>,
    pub names: Vec<(PlayerId, String, bool)>,
    pub kinds: Vec<(String, bool)>,
}

/// One contact under correction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FixView {
    pub contact: ContactId,
    /// "Ball 41: Tove, moved 2"
    pub line: String,
    pub players: Vec<(PlayerId, String, bool)>,
    pub outcomes: Vec<(Outcome, String, bool)>,
    /// What it counts as now: what stays when only child or step is put right.
    pub outcome: Outcome,
    pub step: u8,
    /// Whose ladder the step is on; `None` where the ball had none, as a match's serve or pass.
    pub ladder: Option<Skill>,
    /// "From here on, everyone one further in line"; only on a line.
    pub can_shift: bool,
}
