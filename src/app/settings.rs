//! What the coach chose on this phone. Kept as one JSON text in local storage; not part of the log.

use serde::{Deserialize, Serialize};

use super::effect::Call;
use super::home::HomeDraft;
use super::remote::Remote;
use crate::domain::ids::{EntryId, PartNo, PlayerId, PracticeId, RunId};
use crate::domain::notes::{NoteAbout, Spot};
use crate::wire::file::MAX_NUMBER;

/// Choices of this phone. Missing fields take their default, so an older text can be read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    pub sound: bool,
    pub voice: bool,
    pub vibration: bool,
    pub left_handed: bool,
    /// The floor is drawn from the other side.
    pub turned: bool,
    pub device_name: String,
    pub calls: Calls,
    pub remote: Remote,
    pub install_hint_closed: bool,
    /// Lasting storage was asked for once.
    pub lasting_asked: bool,
    /// The last copy known to have left: given to the share sheet, or saved by the browser and seen there by the coach. Its
    /// clock, when it left, and the accepted parcels that it holds.
    pub copied_clock: u64,
    pub copied_wall_ms: Option<i64>,
    pub copied_parcels: Vec<String>,
    /// How groups were made last, and how many (or how large).
    pub groups_how: How,
    pub groups_by_size: bool,
    pub groups_n: u8,
    /// Balls in the hall.
    pub balls: u8,
    /// How likely a goal is to be that fits, and the lines over and under which another ball is spoken of: in hundredths.
    pub wish: u8,
    pub upper: u8,
    pub lower: u8,
    /// Words of a note that is not kept yet and where they belong; words of notes that are being changed (the identity first). They
    /// outlive the page.
    pub note_words: String,
    pub note_words_of: Option<WordsOf>,
    pub note_changes: Vec<(String, String)>,
    /// What is changed of notes home, child by child.
    pub home: Vec<HomeDraft>,
    /// Practices of other phones in which this one no longer takes part: their identities, the last one last.
    pub left: Vec<String>,
    /// Identities of the removals after which all that lies stored was gone through.
    pub emptied: Vec<String>,
    /// What those were called who are removed, word by word, until all that lies stored was gone through: notes are found by it.
    pub called: Vec<String>,
}

/// Where half-typed words belong. Identities as text, as the log has them.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct WordsOf {
    practice: Option<String>,
    run: Option<String>,
    part: Option<u32>,
    /// "practice", "part", "run", or the children; empty while nobody is meant.
    about: String,
}

const PRACTICE: &str = "practice";
const PART: &str = "part";
const RUN: &str = "run";

impl WordsOf {
    pub fn of(spot: Spot, about: Option<&NoteAbout>) -> WordsOf {
        let about = match about {
            None => String::new(),
            Some(NoteAbout::Practice) => PRACTICE.to_owned(),
            Some(NoteAbout::Part) => PART.to_owned(),
            Some(NoteAbout::Run) => RUN.to_owned(),
            Some(NoteAbout::Children(players)) => {
                players.iter().map(|player| player.0.to_string()).collect::<Vec<_>>().join(" ")
            }
        };
        WordsOf {
            practice: spot.practice.map(|id| id.0.to_string()),
            run: spot.run.map(|id| id.0.to_string()),
            part: spot.part.map(|part| part.0),
            about,
        }
    }

    pub fn spot(&self) -> Spot {
        let id = |text: &Option<String>| EntryId::from_text(text.as_ref()?);
        Spot {
            practice: id(&self.practice).map(PracticeId),
            run: id(&self.run).map(RunId),
            part: self.part.map(PartNo),
        }
    }

    /// `None`: nobody and nothing was meant yet, or it can't be read.
    pub fn about(&self) -> Option<NoteAbout> {
        match self.about.as_str() {
            PRACTICE => Some(NoteAbout::Practice),
            PART => Some(NoteAbout::Part),
            RUN => Some(NoteAbout::Run),
            ids => {
                let players = ids.split(' ').map(|id| EntryId::from_text(id).map(PlayerId));
                players.collect::<Option<Vec<_>>>().map(NoteAbout::Children)
            }
        }
    }
}

/// How groups are made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum How {
    /// By recorded levels, which are never shown.
    Even,
    #[default]
    Mixed,
    ByHand,
}

/// Which calls are made, where voice or sound is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Calls {
    pub names: bool,
    pub phase: bool,
    pub swap: bool,
    pub pace: bool,
    pub time: bool,
}

impl Default for Calls {
    fn default() -> Self {
        Calls { names: true, phase: true, swap: true, pace: true, time: true }
    }
}

impl Calls {
    /// The calls that reach anybody now: by voice or tone all of them, by vibration alone those that the thumb is to feel.
    pub const fn reaching(settings: &Settings, has_vibration: bool) -> Calls {
        let heard = settings.voice || settings.sound;
        let felt = heard || settings.vibration && has_vibration;
        Calls { names: heard, phase: felt, swap: felt, pace: heard, time: felt }
    }

    pub const fn has(self, call: Call) -> bool {
        match call {
            Call::Name => self.names,
            Call::Phase => self.phase,
            Call::Swap => self.swap,
            Call::Pace => self.pace,
            Call::Time => self.time,
        }
    }

    pub fn set(&mut self, call: Call, on: bool) {
        match call {
            Call::Name => self.names = on,
            Call::Phase => self.phase = on,
            Call::Swap => self.swap = on,
            Call::Pace => self.pace = on,
            Call::Time => self.time = on,
        }
    }
}

impl Default for Settings {
    fn default() -> Self {
        Settings {
            sound: false,
            voice: false,
            vibration: true,
            left_handed: false,
            turned: false,
            device_name: String::new(),
            calls: Calls::default(),
            remote: Remote::default(),
            install_hint_closed: false,
            lasting_asked: false,
            copied_clock: 0,
            copied_wall_ms: None,
            copied_parcels: Vec::new(),
            groups_how: How::default(),
            groups_by_size: false,
            groups_n: 3,
            balls: 12,
            wish: Settings::WISH.0,
            upper: Settings::UPPER.0,
            lower: Settings::LOWER.0,
            note_words: String::new(),
            note_words_of: None,
            note_changes: Vec::new(),
            home: Vec::new(),
            left: Vec::new(),
            emptied: Vec::new(),
            called: Vec::new(),
        }
    }
}

impl Settings {
    /// As they stand until the coach changes them, the least and the most. The lower line stays a step under the upper one.
    pub const WISH: (u8, u8, u8) = (70, 50, 90);
    pub const UPPER: (u8, u8, u8) = (80, 15, 95);
    pub const LOWER: (u8, u8, u8) = (50, 10, 90);
    /// One tap moves them so far.
    pub const STEP: u8 = 5;

    /// With a wish and lines that can be: others, from no screen of ours, are as they stand at first.
    fn with_sound_lines(self) -> Settings {
        let within = |n: u8, (_, least, most): (u8, u8, u8)| (least..=most).contains(&n);
        let wish = if within(self.wish, Self::WISH) { self.wish } else { Self::WISH.0 };
        let sound = within(self.upper, Self::UPPER) && within(self.lower, Self::LOWER) && self.lower < self.upper;
        let (upper, lower) = if sound { (self.upper, self.lower) } else { (Self::UPPER.0, Self::LOWER.0) };
        Settings { wish, upper, lower, ..self }
    }

    pub fn to_json(&self) -> String {
        // A struct of plain fields always serialises; the empty object stands for "all as usual".
        serde_json::to_string(self).unwrap_or_else(|_| "{}".to_owned())
    }

    /// `None` for a text that isn't settings: the caller sets it aside.
    pub fn from_json(text: &str) -> Option<Settings> {
        let settings = serde_json::from_str::<Settings>(text).ok()?.with_sound_lines();
        // A clock that no writer can have reached would call everything sent, for ever.
        Some(if settings.copied_clock > MAX_NUMBER { settings.never_copied() } else { settings })
    }

    /// The same choices for the demo: words half typed and what copies hold are the coach's own, and say nothing of an invented squad.
    pub fn for_demo(self) -> Settings {
        Settings {
            note_words: String::new(),
            note_words_of: None,
            note_changes: Vec::new(),
            home: Vec::new(),
            called: Vec::new(),
            ..self.never_copied()
        }
    }

    /// The same choices, and nothing known of a copy.
    pub fn never_copied(self) -> Settings {
        Settings { copied_clock: 0, copied_wall_ms: None, copied_parcels: Vec::new(), ..self }
    }
}
