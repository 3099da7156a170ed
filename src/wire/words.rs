//! The word of every choice (in a record) and its number (in a column). Both are for ever. A reader that doesn't know a number
//! refuses the file; one that doesn't know a word keeps the record.

use crate::domain::skill::{FeedKind, GoodFrom, Outcome, PassGrade, Role, ServeOutcome, ServeStyle};

/// Choices with their words; the number is the position.
pub(super) struct Words<T: 'static>(pub &'static [(T, &'static str)]);

impl<T: Copy + PartialEq> Words<T> {
    pub fn word(&self, value: T) -> &'static str {
        // Every choice is in its table: a test goes through them all.
        self.0.iter().find(|(known, _)| *known == value).map_or("", |(_, word)| word)
    }

    pub fn known(&self, word: &str) -> Option<T> {
        self.0.iter().find(|(_, known)| *known == word).map(|(value, _)| *value)
    }

    pub fn code(&self, value: T) -> i64 {
        self.0.iter().zip(0..).find(|((known, _), _)| *known == value).map_or(-1, |(_, code)| code)
    }

    pub fn of_code(&self, code: i64) -> Option<T> {
        self.0.get(usize::try_from(code).ok()?).map(|(value, _)| *value)
    }
}

pub(super) const ROLES: Words<Role> = Words(&[
    (Role::Passer, "passer"),
    (Role::Server, "server"),
    (Role::Target, "target"),
    (Role::BallGetter, "ball-getter"),
    (Role::Doer, "doer"),
]);

pub(super) const STYLES: Words<ServeStyle> = Words(&[
    (ServeStyle::Underhand, "underhand"),
    (ServeStyle::Roundhouse, "roundhouse"),
    (ServeStyle::StandingOverhead, "standing-overhead"),
    (ServeStyle::Jump, "jump"),
]);

pub(super) const FEEDS: Words<FeedKind> = Words(&[(FeedKind::Easy, "easy"), (FeedKind::Challenge, "challenge")]);

pub(super) const GOOD_FROM: Words<GoodFrom> = Words(&[
    (GoodFrom::Grade(PassGrade::Gone), "gone"),
    (GoodFrom::Grade(PassGrade::Chased), "chased"),
    (GoodFrom::Grade(PassGrade::Moved), "moved"),
    (GoodFrom::Grade(PassGrade::Stood), "stood"),
    (GoodFrom::ServeIn, "in"),
    (GoodFrom::FastServeIn, "fast-in"),
    (GoodFrom::GoodKey, "good"),
]);

/// Outcomes without their mark ("over the net" for a pass, "fast" for a serve).
pub(super) const OUTCOMES: Words<Outcome> = Words(&[
    (Outcome::Pass { grade: PassGrade::Gone, over_net: false }, "gone"),
    (Outcome::Pass { grade: PassGrade::Chased, over_net: false }, "chased"),
    (Outcome::Pass { grade: PassGrade::Moved, over_net: false }, "moved"),
    (Outcome::Pass { grade: PassGrade::Stood, over_net: false }, "stood"),
    (Outcome::Serve { outcome: ServeOutcome::Ace, fast: false }, "ace"),
    (Outcome::Serve { outcome: ServeOutcome::In, fast: false }, "in"),
    (Outcome::Serve { outcome: ServeOutcome::Long, fast: false }, "long"),
    (Outcome::Serve { outcome: ServeOutcome::Wide, fast: false }, "wide"),
    (Outcome::Serve { outcome: ServeOutcome::Net, fast: false }, "net"),
    (Outcome::ServeMissed, "missed"),
    (Outcome::TwoKey { good: true }, "good"),
    (Outcome::TwoKey { good: false }, "not"),
    (Outcome::NoChance, "no-chance"),
    (Outcome::Counted, "counted"),
    (Outcome::Removed, "removed"),
]);

/// A mark adds this to an outcome's number in a column.
const MARKED: i64 = 20;

/// The outcome without its mark, and whether it had one.
pub(super) fn unmarked(outcome: Outcome) -> (Outcome, bool) {
    match outcome {
        Outcome::Pass { grade, over_net } => (Outcome::Pass { grade, over_net: false }, over_net),
        Outcome::Serve { outcome, fast } => (Outcome::Serve { outcome, fast: false }, fast),
        Outcome::ServeMissed | Outcome::TwoKey { .. } | Outcome::NoChance | Outcome::Counted | Outcome::Removed => {
            (outcome, false)
        }
    }
}

/// `None` for an outcome that can't carry a mark.
pub(super) fn marked(outcome: Outcome) -> Option<Outcome> {
    match outcome {
        Outcome::Pass { grade, .. } => Some(Outcome::Pass { grade, over_net: true }),
        Outcome::Serve { outcome, .. } => Some(Outcome::Serve { outcome, fast: true }),
        Outcome::ServeMissed | Outcome::TwoKey { .. } | Outcome::NoChance | Outcome::Counted | Outcome::Removed => None,
    }
}

pub(super) fn outcome_code(outcome: Outcome) -> i64 {
    let (plain, mark) = unmarked(outcome);
    OUTCOMES.code(plain) + if mark { MARKED } else { 0 }
}

pub(super) fn outcome_of_code(code: i64) -> Option<Outcome> {
    if code < MARKED { OUTCOMES.of_code(code) } else { OUTCOMES.of_code(code - MARKED).and_then(marked) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn holds<T: Copy + PartialEq + std::fmt::Debug>(words: &Words<T>, all: impl IntoIterator<Item = T>) {
        for value in all {
            assert_eq!(words.known(words.word(value)), Some(value));
            assert_eq!(words.of_code(words.code(value)), Some(value));
        }
    }

    #[test]
    fn every_choice_has_a_word_and_a_number() {
        holds(&STYLES, ServeStyle::ALL);
        holds(&FEEDS, [FeedKind::Easy, FeedKind::Challenge]);
        holds(&ROLES, [Role::Passer, Role::Server, Role::Target, Role::BallGetter, Role::Doer]);
        holds(&GOOD_FROM, PassGrade::ALL.map(GoodFrom::Grade));
        holds(&GOOD_FROM, [GoodFrom::ServeIn, GoodFrom::FastServeIn, GoodFrom::GoodKey]);
        let passes = PassGrade::ALL.map(|grade| Outcome::Pass { grade, over_net: false });
        let serves = ServeOutcome::ALL.map(|outcome| Outcome::Serve { outcome, fast: false });
        let others = [Outcome::ServeMissed, Outcome::TwoKey { good: true }, Outcome::TwoKey { good: false }];
        holds(
            &OUTCOMES,
            passes.into_iter().chain(serves).chain(others).chain([
                Outcome::NoChance,
                Outcome::Counted,
                Outcome::Removed,
            ]),
        );
        for code in 0..64 {
            assert!(outcome_of_code(code).is_none_or(|outcome| outcome_code(outcome) == code));
        }
        assert_eq!(outcome_of_code(-1), None);
    }
}
