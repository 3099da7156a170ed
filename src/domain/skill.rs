//! What is judged at one contact: skills, grades, outcomes, feeds, and what counts as good. Knows nothing of runs.

use super::ids::Step;

/// What a run practises.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Skill {
    Pass,
    Serve,
    /// Any skill with a name of the coach's.
    Own(String),
}

/// The trade's scale of a pass, judged by the target's feet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum PassGrade {
    /// 0: nobody could have caught it.
    Gone,
    /// 1: the target ran for it.
    Chased,
    /// 2: the target moved and caught it.
    Moved,
    /// 3: the target stood.
    Stood,
}

impl PassGrade {
    /// Best first, as the keys stand.
    pub const ALL: [PassGrade; 4] = [PassGrade::Stood, PassGrade::Moved, PassGrade::Chased, PassGrade::Gone];

    pub const fn digit(self) -> u8 {
        match self {
            PassGrade::Gone => 0,
            PassGrade::Chased => 1,
            PassGrade::Moved => 2,
            PassGrade::Stood => 3,
        }
    }

    pub const fn from_digit(digit: u8) -> Option<Self> {
        match digit {
            0 => Some(PassGrade::Gone),
            1 => Some(PassGrade::Chased),
            2 => Some(PassGrade::Moved),
            3 => Some(PassGrade::Stood),
            _ => None,
        }
    }
}

/// Where a serve went. Long is the better miss, net the worst (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ServeOutcome {
    /// Straight into the court for a point; only where somebody receives.
    Ace,
    In,
    Long,
    Wide,
    Net,
}

impl ServeOutcome {
    /// Best first, as the keys stand.
    pub const ALL: [ServeOutcome; 5] =
        [ServeOutcome::Ace, ServeOutcome::In, ServeOutcome::Long, ServeOutcome::Wide, ServeOutcome::Net];

    pub const fn is_in(self) -> bool {
        matches!(self, ServeOutcome::Ace | ServeOutcome::In)
    }
}

/// How a child serves; kept per child until changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ServeStyle {
    Underhand,
    Roundhouse,
    StandingOverhead,
    Jump,
}

impl ServeStyle {
    pub const ALL: [ServeStyle; 4] =
        [ServeStyle::Underhand, ServeStyle::Roundhouse, ServeStyle::StandingOverhead, ServeStyle::Jump];
}

impl Skill {
    /// What a child does whose ball is judged.
    pub const fn role(&self) -> Role {
        match self {
            Skill::Pass => Role::Passer,
            Skill::Serve => Role::Server,
            Skill::Own(_) => Role::Doer,
        }
    }
}

/// What came of one contact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// A graded pass. `over_net` only with [`PassGrade::Gone`].
    Pass { grade: PassGrade, over_net: bool },
    /// A serve; a fast swing is marked by itself, whatever came of it.
    Serve { outcome: ServeOutcome, fast: bool },
    /// A challenge ball's serve that missed, with no more said: the passer's point and nobody's passing try.
    ServeMissed,
    /// Two keys: good or not.
    TwoKey { good: bool },
    /// A good one counted where the others aren't: it feeds scores, never rates.
    Counted,
    /// Unplayable: nobody's try.
    NoChance,
    /// It was of a child that was removed for good: it counts nowhere and is shown nowhere.
    Removed,
}

/// What counts as good in a run. Stored with each contact, so that a drill changed later changes no past count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum GoodFrom {
    /// This grade or better.
    Grade(PassGrade),
    /// A serve that is in (an ace is).
    ServeIn,
    /// A serve that is in with a fast swing.
    FastServeIn,
    /// The good key.
    GoodKey,
}

impl GoodFrom {
    /// `Some(good)` for a try, `None` where the contact is nobody's try.
    ///
    /// ```
    /// use peppertally::domain::skill::{GoodFrom, Outcome, PassGrade};
    /// let moved = Outcome::Pass { grade: PassGrade::Moved, over_net: false };
    /// assert_eq!(GoodFrom::Grade(PassGrade::Moved).judge(moved), Some(true));
    /// assert_eq!(GoodFrom::Grade(PassGrade::Stood).judge(moved), Some(false));
    /// assert_eq!(GoodFrom::ServeIn.judge(Outcome::NoChance), None);
    /// ```
    pub fn judge(self, outcome: Outcome) -> Option<bool> {
        match (self, outcome) {
            (_, Outcome::NoChance | Outcome::ServeMissed | Outcome::Counted | Outcome::Removed) => None,
            (GoodFrom::Grade(from), Outcome::Pass { grade, .. }) => Some(grade >= from),
            (GoodFrom::FastServeIn, Outcome::Serve { outcome, fast }) => Some(fast && outcome.is_in()),
            // A correction may change the kind of outcome; each kind then falls back on its usual meaning of good.
            (_, Outcome::Pass { grade, .. }) => Some(grade >= PassGrade::Moved),
            (_, Outcome::Serve { outcome, .. }) => Some(outcome.is_in()),
            (_, Outcome::TwoKey { good }) => Some(good),
        }
    }
}

impl Outcome {
    /// Whether it was a good one for the score: a good try, or one counted where the others aren't.
    pub fn scores(self, good_from: GoodFrom) -> bool {
        self == Outcome::Counted || good_from.judge(self) == Some(true)
    }
}

/// The kind of ball given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum FeedKind {
    Easy,
    Challenge,
}

/// The ball given, with its step on the drill's ladder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Feed {
    pub kind: FeedKind,
    pub step: Step,
}

/// What a child did at a contact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Role {
    Passer,
    Server,
    Target,
    BallGetter,
    /// The doer of a skill with the coach's own name.
    Doer,
}
