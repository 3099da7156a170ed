//! What the coach noted and whom she asked: notes, questions, and who comes next to be asked. Owns what a note can be about; refuses
//! to rank children: whom to ask follows from how often each was here and was asked, and from nothing that a child did well or badly.

use super::ids::{EntryId, PartNo, PlayerId, PracticeId, RunId};
use super::library::NAME_SLOT;
use super::time::Stamp;

/// Where something was noted. All empty: between practices.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spot {
    pub practice: Option<PracticeId>,
    pub run: Option<RunId>,
    /// Of the plan that the practice followed.
    pub part: Option<PartNo>,
}

/// What a note is about. Of a practice, a part and a run: of the one where it was noted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoteAbout {
    Practice,
    Part,
    Run,
    /// One child; several are a group, whose members are named because its number says nothing weeks later.
    Children(Vec<PlayerId>),
}

impl NoteAbout {
    pub fn is_of(&self, player: PlayerId) -> bool {
        matches!(self, NoteAbout::Children(players) if players.contains(&player))
    }
}

/// Tags of the coach's own, or words, or both.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    pub about: NoteAbout,
    pub tags: Vec<String>,
    pub text: String,
}

impl Note {
    pub fn is_empty(&self) -> bool {
        self.tags.is_empty() && self.text.trim().is_empty()
    }
}

/// A question that was asked, as it was worded, and of whom.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    pub player: PlayerId,
    /// With the place of the name, where it has one.
    pub question: String,
}

/// A note or a question as it stands now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    pub id: EntryId,
    /// When it was first noted.
    pub at: Stamp,
    pub spot: Spot,
    pub what: What,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    Note(Note),
    Asked(Asked),
}

impl Remark {
    pub const fn note(&self) -> Option<&Note> {
        match &self.what {
            What::Note(note) => Some(note),
            What::Asked(_) => None,
        }
    }

    pub const fn asked(&self) -> Option<&Asked> {
        match &self.what {
            What::Asked(asked) => Some(asked),
            What::Note(_) => None,
        }
    }

    /// A note about this child, or a question to it.
    pub fn is_of(&self, player: PlayerId) -> bool {
        match &self.what {
            What::Note(note) => note.about.is_of(player),
            What::Asked(asked) => asked.player == player,
        }
    }
}

/// How it stands with asking one child.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turn {
    pub player: PlayerId,
    /// Practices that the child was at, this one included.
    pub n_here: u32,
    pub n_asked: u32,
    /// When it was asked last, by the wall.
    pub last_ms: Option<i64>,
}

/// Whom to ask, the first first: who was asked least for as often as it was here (so that one who was ill isn't behind, and one who is
/// new isn't asked again and again until it has caught up), then who was asked longest ago or never, then as they stand in the list.
/// Of two who were here as often, none is asked twice more than the other.
///
/// ```
/// use peppertally::domain::{ids::{EntryId, PlayerId}, notes::{Turn, in_turn}};
/// let child = |no, n_here, n_asked, last_ms| Turn { player: PlayerId(EntryId::new(1, no)), n_here, n_asked, last_ms };
/// // 2 of 8 and 1 of 4 are as often; of these the second was asked longer ago. 1 of 8 is less than both.
/// let all = [child(0, 8, 2, Some(50)), child(1, 4, 1, Some(20)), child(2, 8, 1, Some(60)), child(3, 1, 0, None)];
/// assert_eq!(in_turn(&all), [3, 2, 1, 0].map(|no| PlayerId(EntryId::new(1, no))));
/// ```
pub fn in_turn(all: &[Turn]) -> Vec<PlayerId> {
    let share = |a: &Turn, b: &Turn| {
        let times = |n: u32, here: u32| u64::from(n) * u64::from(here.max(1));
        times(a.n_asked, b.n_here).cmp(&times(b.n_asked, a.n_here))
    };
    let last = |turn: &Turn| turn.last_ms.unwrap_or(i64::MIN);
    crate::stats::arrange::arranged(all.iter().collect(), |a, b| share(a, b).then(last(a).cmp(&last(b))))
        .into_iter()
        .map(|turn| turn.player)
        .collect()
}

/// The questions, those first that this child was asked least, then those that anyone was asked least, then as they stand.
pub fn questions_in_turn<'a>(questions: &'a [String], asked: &[&Asked], player: PlayerId) -> Vec<&'a String> {
    let counted = |question: &'a String| {
        let same = asked.iter().filter(|asked| asked.question == *question);
        let (all, own) = same.fold((0, 0), |(all, own), a| (all + 1, own + u32::from(a.player == player)));
        (own, all, question)
    };
    let all: Vec<(u32, u32, &String)> = questions.iter().map(counted).collect();
    let first = |(own, all, _): &(u32, u32, &String)| (*own, *all);
    crate::stats::arrange::arranged(all, |a, b| first(a).cmp(&first(b))).into_iter().map(|(.., q)| q).collect()
}

/// The question as it is said: the question first and the name last, so that everyone listens until it falls (common practice, no
/// source). One that has a place for the name has it there.
///
/// ```
/// use peppertally::domain::notes::said;
/// assert_eq!(said("Where did your hand finish, {name}?", "Mira"), "Where did your hand finish, Mira?");
/// assert_eq!(said("What did you look at?", "Mira"), "What did you look at, Mira?");
/// assert_eq!(said("Show me your platform", "Mira"), "Show me your platform, Mira.");
/// ```
pub fn said(question: &str, name: &str) -> String {
    if question.contains(NAME_SLOT) {
        return question.replace(NAME_SLOT, name);
    }
    let body = question.trim_end_matches(['?', '.', '!', ' ']);
    let end = if question.trim_end().ends_with('?') { '?' } else { '.' };
    format!("{body}, {name}{end}")
}
