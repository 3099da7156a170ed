//! Newtypes for every identity, index and unit, so that none can be given in another's place. Owns no behaviour.

use std::fmt;

use super::skill::Skill;

/// 64 random bits made at each page load. What a page writes carries its series, so two tabs, a restored backup or a cloned
/// phone can't collide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SeriesId(pub u64);

/// The number of an entry within its series, from 0 without gaps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryNo(pub u32);

/// Identity of an entry: (series, number). The same identity never carries other content.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId {
    pub series: SeriesId,
    pub no: EntryNo,
}

impl EntryId {
    pub const fn new(series: u64, no: u32) -> Self {
        Self { series: SeriesId(series), no: EntryNo(no) }
    }

    /// Reads what `Display` writes; `None` for anything else.
    ///
    /// ```
    /// use peppertally::domain::ids::EntryId;
    /// let id = EntryId::new(0xaf, 12);
    /// assert_eq!(EntryId::from_text(&id.to_string()), Some(id));
    /// assert_eq!(EntryId::from_text("af.c"), None);
    /// ```
    pub fn from_text(text: &str) -> Option<Self> {
        let (series, no) = text.split_once('.')?;
        let hex =
            |t: &str, len: usize| t.len() == len && t.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
        if !hex(series, 16) || !hex(no, 8) {
            return None;
        }
        Some(Self::new(u64::from_str_radix(series, 16).ok()?, u32::from_str_radix(no, 16).ok()?))
    }
}

impl fmt::Display for EntryId {
    /// `00000000000000af.0000000c`: fixed width, so that text order is identity order.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:016x}.{:08x}", self.series.0, self.no.0)
    }
}

/// A logical clock (Lamport 1978): one more than the highest clock of this phone's own log when the entry was written.
/// Wall clocks may be turned; this one never runs backwards on one phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Clock(pub u64);

/// How often a fact was corrected, counted by the corrector. The highest wins.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Revision(pub u32);

macro_rules! named_by_entry {
    ($($(#[$meta:meta])* $name:ident),* $(,)?) => {$(
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub EntryId);
    )*};
}

named_by_entry! {
    /// A child, named by the entry that added it.
    PlayerId,
    /// A drill, named by the entry that added it.
    DrillId,
    /// A practice, named by the entry that started it.
    PracticeId,
    /// A run, named by the entry that started it.
    RunId,
    /// A noticed effort, named by its entry.
    EffortId,
    /// A contact, named by its entry.
    ContactId,
    /// A rally, named by its entry.
    RallyId,
    /// A plan, named by the entry that made it.
    PlanId,
    /// A date of a practice, named by the entry that set it.
    DateId,
    /// A note, named by the entry that wrote it.
    NoteId,
}

/// The number on a shirt, 0 to 999.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ShirtNumber(pub u16);

/// Where one stands on the floor, from 0 at the left as seen from behind the passers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place(pub u8);

/// A step on the drill's ladder, from 0, where it begins. Where something may be easier still (a skill of the coach's own), that is
/// one of the two highest numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub struct Step(pub u8);

impl Step {
    /// The easiest of those below the ladder.
    pub const EASIER: u8 = u8::MAX - 1;

    /// Which of those below the ladder, from the easiest; `None` on the ladder itself.
    pub fn easier(self) -> Option<usize> {
        self.0.checked_sub(Self::EASIER).map(usize::from)
    }

    /// How hard it is: as it is numbered, those below the ladder -1 and -2.
    ///
    /// ```
    /// use peppertally::domain::ids::Step;
    /// assert_eq!([2, 0, 255, 254].map(|step| Step(step).height()), [2, 0, -1, -2]);
    /// ```
    pub fn height(self) -> i16 {
        i16::from(self.0) - if self.easier().is_some() { 256 } else { 0 }
    }

    /// The next easier one; `None` where nothing is, as below the toss or the serve from three metres.
    ///
    /// ```
    /// use peppertally::domain::ids::Step;
    /// use peppertally::domain::skill::Skill;
    /// let own = Skill::Own("Setting".to_owned());
    /// let down = [1, 0, 255, 254].map(|step| Step(step).one_easier(&own));
    /// assert_eq!(down, [Some(Step(0)), Some(Step(255)), Some(Step(254)), None]);
    /// assert_eq!((Step(1).one_easier(&Skill::Pass), Step(0).one_easier(&Skill::Pass)), (Some(Step(0)), None));
    /// ```
    pub fn one_easier(self, skill: &Skill) -> Option<Step> {
        match (self.easier(), skill) {
            (None, _) if self.0 > 0 => Some(Step(self.0 - 1)),
            (None, Skill::Own(_)) => Some(Step(u8::MAX)),
            (Some(below), Skill::Own(_)) if below > 0 => Some(Step(self.0 - 1)),
            _ => None,
        }
    }

    /// The next harder one, as far as to the step `most`.
    ///
    /// ```
    /// use peppertally::domain::ids::Step;
    /// let up = [254, 255, 0, 8, 9].map(|step| Step(step).one_harder(9));
    /// assert_eq!(up, [Some(Step(255)), Some(Step(0)), Some(Step(1)), Some(Step(9)), None]);
    /// ```
    pub fn one_harder(self, most: u8) -> Option<Step> {
        let below = self.easier().is_some();
        (below || self.0 < most).then_some(Step(self.0.wrapping_add(1)))
    }
}

/// A group of a run, from 0 in the order of its lineup; a team where groups play each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct GroupNo(pub u8);

/// A round of transition scoring, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Round(pub u16);

/// A part of a plan, numbered once and for all within it, whatever its place. The upper half tells the page that put it in: two phones
/// that change one plan at the same time number their parts apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartNo(pub u32);

impl PartNo {
    pub fn new(n: u16, put_in_by: SeriesId) -> PartNo {
        let halves = [0, 16, 32, 48].map(|at| (put_in_by.0 >> at) & 0xffff);
        let page = halves.iter().fold(0, |page, half| page ^ half);
        PartNo(u32::try_from(page << 16).unwrap_or_default() | u32::from(n))
    }
}
