//! Why a file is not taken, and the rules that it must keep. What was refused changes nothing.

use std::fmt;

use super::record::RecordError;
use crate::domain::calendar::{DAY_MIN, PracticeDate};
use crate::domain::drill::MAX_NAME;
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::EntryId;
use crate::domain::skill::Skill;

/// Why a file is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Not JSON, or JSON of something else.
    NotOurs,
    /// It begins as ours and ends early.
    CutOff,
    /// Written by a newer version of the app, in a format that this one doesn't know.
    Newer {
        version: u64,
    },
    TooLarge {
        bytes: u64,
        limit: u64,
    },
    /// Ours, whole, and still not to be trusted.
    BreaksRule {
        which: RuleBroken,
        at: Spot,
    },
}

/// What is wrong in a file that is ours.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RuleBroken {
    /// It begins as ours and goes on as something that is no JSON.
    NotJson,
    /// A part or column is missing, or there twice, or of another type.
    Shape,
    /// A part that this version of the format doesn't have: something would be lost.
    UnknownPart,
    /// Columns, or a column and its list, don't have the same number of values.
    UnequalColumns,
    /// An index outside its table, a number without a meaning, a value too large for what it counts.
    OutOfRange,
    /// A record that is none.
    Record(RecordError),
    /// One identity twice, with different content.
    TwoContents,
    /// More than [`MAX_NAME_CHARS`], or [`MAX_TEXT_CHARS`] for a note.
    TextTooLong,
    /// A control character in a text that people read (a note may have tabs and line ends).
    ControlCharacter,
    /// More entries than [`Limits::n_entries`].
    TooMany,
}

/// Where in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// About there.
    Byte(usize),
    Part(&'static str),
    Entry(EntryId),
}

/// How much is read at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    pub n_bytes: u64,
    pub n_entries: usize,
}

impl Default for Limits {
    /// 100 MB, and entries for some ten seasons of 200,000.
    fn default() -> Self {
        Self { n_bytes: 100_000_000, n_entries: 2_000_000 }
    }
}

/// Longest name, title or device in a file, in characters: four times what the app lets anyone type.
pub const MAX_NAME_CHARS: usize = 4 * MAX_NAME;

/// Longest note in a file, in characters.
pub const MAX_TEXT_CHARS: usize = 20_000;

/// Largest time, clock or reading in a file that was sent: what every JSON reader can hold exactly.
pub const MAX_NUMBER: u64 = 1 << 53;

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Refusal::NotOurs => f.write_str("not a file of this app"),
            Refusal::CutOff => f.write_str("the file ends early"),
            Refusal::Newer { version } => write!(f, "the file has the newer version {version}"),
            Refusal::TooLarge { bytes, limit } => write!(f, "the file has {bytes} bytes, over {limit}"),
            Refusal::BreaksRule { which, at } => write!(f, "the file breaks a rule: {which:?} at {at:?}"),
        }
    }
}

impl std::error::Error for Refusal {}

/// The first rule that an entry from elsewhere breaks by its numbers or texts.
pub(super) fn broken_by(entry: &Entry) -> Option<RuleBroken> {
    let numbers = [entry.clock.0, entry.at.mono_ms, entry.at.wall_ms.unsigned_abs()];
    if numbers.iter().any(|number| *number > MAX_NUMBER) {
        return Some(RuleBroken::OutOfRange);
    }
    match &entry.fact {
        // An hour that no clock shows, no minutes at all, or the next day's: no date that anyone set.
        Fact::DateSet { date } | Fact::DateChanged { changed: date, .. } if !is_of_a_day(date) => {
            Some(RuleBroken::OutOfRange)
        }
        Fact::NoteWritten { note, .. } | Fact::NoteChanged { changed: note, .. } => {
            let text = || text_broken(&note.text, MAX_TEXT_CHARS, |c| matches!(c, '\n' | '\t'));
            note.tags.iter().find_map(|tag| name_broken(tag)).or_else(text)
        }
        fact => names(fact).into_iter().find_map(name_broken),
    }
}

fn is_of_a_day(date: &PracticeDate) -> bool {
    date.minutes > 0 && u32::from(date.start_min) + u32::from(date.minutes) <= u32::from(DAY_MIN)
}

pub(super) fn name_broken(name: &str) -> Option<RuleBroken> {
    text_broken(name, MAX_NAME_CHARS, |_| false)
}

fn text_broken(text: &str, max_chars: usize, allowed: impl Fn(char) -> bool) -> Option<RuleBroken> {
    if text.chars().any(|c| c.is_control() && !allowed(c)) {
        return Some(RuleBroken::ControlCharacter);
    }
    (text.chars().count() > max_chars).then_some(RuleBroken::TextTooLong)
}

fn names(fact: &Fact) -> Vec<&str> {
    match fact {
        Fact::SeriesOpened { device, app_version } => vec![device, app_version],
        Fact::PhoneNamed { name, .. } | Fact::PlayerAdded { name, .. } | Fact::PlayerChanged { name, .. } => vec![name],
        Fact::DrillAdded { spec } | Fact::DrillChanged { spec, .. } => spec_names(&spec.name, &spec.skill),
        Fact::EffortKindsChanged { kinds, .. } => kinds.iter().map(String::as_str).collect(),
        Fact::NoteTagsChanged { tags: texts, .. } | Fact::QuestionsChanged { questions: texts, .. } => {
            texts.iter().map(String::as_str).collect()
        }
        Fact::QuestionAsked { asked, .. } => vec![&asked.question],
        Fact::PracticeStarted { title } => vec![title],
        Fact::WishesChanged { wishes, .. } => vec![&wishes.tag],
        Fact::RunStarted { spec, recorder, .. } => {
            let mut names = spec_names(&spec.name, &spec.skill);
            names.push(recorder);
            names
        }
        Fact::RunTakenOver { recorder, .. } => vec![recorder],
        Fact::PlanMade { plan } | Fact::PlanChanged { changed: plan, .. } => {
            plan.parts.iter().flat_map(|part| [part.title.as_str(), part.why.as_str()]).collect()
        }
        Fact::PartBegun { title, .. } => vec![title],
        Fact::DateSet { date } | Fact::DateChanged { changed: date, .. } => vec![&date.place],
        Fact::EffortNoted { kind: Some(kind), .. } | Fact::EffortCorrected { kind: Some(kind), .. } => vec![kind],
        Fact::Unknown { kind, .. } => vec![kind],
        _ => Vec::new(),
    }
}

fn spec_names<'a>(name: &'a str, skill: &'a Skill) -> Vec<&'a str> {
    match skill {
        Skill::Own(own) => vec![name, own],
        Skill::Pass | Skill::Serve => vec![name],
    }
}
