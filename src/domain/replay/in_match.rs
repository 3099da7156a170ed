//! What a part makes of a match's serves and passes, and of a game whose sides change while a rally is on.

use super::super::entry::Lineup;
use super::super::scoring::court::same_sides;
use super::super::scoring::match_game::NoteNext;
use super::super::scoring::{Ball, Score};
use super::part::{Counted, Part, ServeSaid};

impl Part {
    /// Of a match: a serve and a pass are no tries of one skill, and neither is a ball of its own beside its rally.
    pub(super) fn note_in_match(&mut self, counted: Counted) {
        let contact = &counted.contact;
        let serve_noted = self.score.match_game().is_some_and(|score| score.on().serve.is_some());
        self.touches.note_in_match(contact, serve_noted);
        self.score.note(Ball::Contact(contact));
        self.given = None;
        self.contacts.push(counted);
    }

    /// Others stand on the court: what was said of a serve, and who was to pass it, was said of another rally.
    pub(super) fn sides_change(&mut self, lineup: &Lineup) {
        let a_side = match &self.score {
            Score::WinnersStay(_) => usize::MAX,
            Score::MatchGame(score) => usize::from(score.rule().a_side),
            _ => return,
        };
        if !same_sides(&self.lineup, lineup, a_side) {
            (self.serve_said, self.given) = (ServeSaid::default(), None);
            self.score.broken_off();
        }
    }

    /// What may be noted next of the rally that is on, where serves or passes are noted.
    pub fn note_next(&self) -> Option<NoteNext> {
        self.score.match_game()?.note_next(self.given)
    }
}
