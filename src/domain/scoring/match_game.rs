//! A match game: a point for every rally (FIVB Official Volleyball Rules 2025-28, 6.1.3), who wins it serves next (6.1.3.1, 6.1.3.2), a
//! set has 25 points or in the deciding one 15, two ahead and no upper end (6.2, 6.3.2). Positions 4, 3, 2 stand at the net and 5, 6, 1
//! behind (7.4.1); a side that wins the serve back moves on clockwise, from 2 to 1 to serve, from 1 to 6 (7.6.2). A serve grounded on the
//! other court wins its rally (6.1.1.1), one that fails to cross the net (12.6.2.1) or goes out (12.6.2.2) loses it.

use super::court::{CourtShares, anchored};
use super::noted::NotedBook;
use super::{Ball, Over, ScoringRule, Standing, Who};
use crate::domain::entry::{Contact, Lineup, Rally, Side};
use crate::domain::ids::{GroupNo, PlayerId};
use crate::domain::rule::MatchGame;
use crate::domain::skill::{Outcome, PassGrade, ServeOutcome};

/// What was noted of the rally that is on, before anyone has won it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct RallyOn {
    pub serve: Option<ServeOutcome>,
    pub pass: Option<PassGrade>,
}

/// What may be noted next in the rally that is on. The rally itself may be at any moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoteNext {
    /// Where the serve went.
    Serve,
    /// Who passed it.
    Passer,
    /// How good this child's pass was.
    Grade(PlayerId),
    /// All there is is noted, or the serve has decided the rally.
    Rally,
}

/// Who wins the rally by its serve alone, if anyone does.
///
/// ```
/// use peppertally::domain::entry::Side;
/// use peppertally::domain::scoring::match_game::decided_by;
/// use peppertally::domain::skill::ServeOutcome;
/// assert_eq!(decided_by(ServeOutcome::Ace, Side::Near), Some(Side::Near));
/// assert_eq!(decided_by(ServeOutcome::Net, Side::Near), Some(Side::Far));
/// assert_eq!(decided_by(ServeOutcome::In, Side::Near), None);
/// ```
pub const fn decided_by(serve: ServeOutcome, served: Side) -> Option<Side> {
    match serve {
        ServeOutcome::Ace => Some(served),
        ServeOutcome::In => None,
        ServeOutcome::Long | ServeOutcome::Wide | ServeOutcome::Net => Some(served.other()),
    }
}

#[derive(Clone, Debug, PartialEq)]
pub struct MatchScore {
    rule: MatchGame,
    pub shares: CourtShares,
    /// Serves and passes, where the coach notes them.
    pub noted: NotedBook,
    on: RallyOn,
    points: (u32, u32),
    serves_next: Side,
    /// Serves in a row of whoever serves now.
    n_in_row: u8,
    won: Option<Side>,
}

impl MatchScore {
    pub fn new(rule: MatchGame) -> Self {
        MatchScore {
            rule,
            shares: CourtShares::default(),
            noted: NotedBook::default(),
            on: RallyOn::default(),
            points: (0, 0),
            serves_next: Side::Near,
            n_in_row: 0,
            won: None,
        }
    }

    pub fn points(&self, side: Side) -> u32 {
        match side {
            Side::Near => self.points.0,
            Side::Far => self.points.1,
        }
    }

    /// Who has it, if it is over.
    pub fn won(&self) -> Option<Side> {
        self.won
    }

    pub fn serves_next(&self) -> Side {
        self.serves_next
    }

    pub fn rule(&self) -> &MatchGame {
        &self.rule
    }

    /// What was noted of the rally that is on.
    pub fn on(&self) -> RallyOn {
        self.on
    }

    /// What may be noted next, with the passer who was named; `None` where neither serves nor passes are wanted.
    pub fn note_next(&self, passer: Option<PlayerId>) -> Option<NoteNext> {
        let MatchGame { serves, passes, .. } = self.rule;
        let received = matches!(self.on.serve, None | Some(ServeOutcome::In));
        Some(match passer {
            _ if !serves && !passes => return None,
            _ if self.on == RallyOn::default() && serves => NoteNext::Serve,
            Some(player) if passes && received && self.on.pass.is_none() => NoteNext::Grade(player),
            None if passes && received && self.on.pass.is_none() => NoteNext::Passer,
            _ => NoteNext::Rally,
        })
    }

    /// Others stand on the court: what was noted of a rally that nobody won stays noted, and the next begins.
    pub fn broken_off(&mut self) {
        self.on = RallyOn::default();
    }

    fn note_contact(&mut self, contact: &Contact) {
        self.noted.note(contact);
        match contact.outcome {
            // Another serve is another rally's, whatever became of the one before.
            Outcome::Serve { outcome, .. } => self.on = RallyOn { serve: Some(outcome), pass: None },
            Outcome::Pass { grade, .. } => self.on.pass = Some(grade),
            _ => {}
        }
    }
}

impl ScoringRule for MatchScore {
    fn note(&mut self, ball: Ball<'_>) {
        if let Ball::Contact(contact) = ball {
            self.note_contact(contact);
        }
        let Ball::Rally { rally, lineup, lasted_ms } = ball else { return };
        self.on = RallyOn::default();
        self.shares.note(rally, lineup, lasted_ms);
        match rally.won {
            Side::Near => self.points.0 += 1,
            Side::Far => self.points.1 += 1,
        }
        // Served by another side than was proposed: somebody new serves.
        let n_in_row = if rally.served == self.serves_next { self.n_in_row + 1 } else { 1 };
        let capped = rally.won == rally.served && self.rule.serve_cap.is_some_and(|cap| n_in_row >= cap);
        let stays = rally.won == rally.served && !capped;
        self.n_in_row = if stays { n_in_row } else { 0 };
        self.serves_next = if stays { rally.served } else { rally.served.other() };
        let (own, other) = (self.points(rally.won), self.points(rally.won.other()));
        if self.won.is_none() && own >= u32::from(self.rule.to) && own >= other + 2 {
            self.won = Some(rally.won);
            self.shares.note_won(rally.team(rally.won));
        }
    }

    fn standing(&self, who: Who) -> Standing {
        let now = match who {
            Who::Group(GroupNo(0)) => self.points.0,
            Who::Group(GroupNo(1)) => self.points.1,
            Who::Everyone => self.points.0 + self.points.1,
            Who::Group(_) | Who::Child(_) => 0,
        };
        let goal = matches!(who, Who::Group(_)).then_some(u32::from(self.rule.to));
        Standing { now, best: now, goal, ..Standing::default() }
    }

    fn over(&self, _: u32) -> Option<Over> {
        let side = self.won?;
        Some(Over::Have(vec![Who::Group(GroupNo(if side == Side::Near { 0 } else { 1 }))]))
    }

    /// The side that gets the serve moves on by one clockwise: who stood at 2 goes to 1 and serves. Everyone begins from where they
    /// stood in this rally, whatever became of one before it; who waits beside the court stays behind them.
    fn after_rally(&self, lineup: &Lineup, rally: &Rally) -> Lineup {
        let mut groups = anchored(&lineup.groups, rally);
        for (group, side) in groups.iter_mut().zip([Side::Near, Side::Far]) {
            let team = rally.team(side);
            if team.is_empty() || !team.iter().all(|player| group.contains(player)) {
                continue;
            }
            let gets_serve = side == self.serves_next && side != rally.served;
            let beside: Vec<_> = group.iter().copied().filter(|player| !team.contains(player)).collect();
            let mut stand = team.to_vec();
            stand.rotate_left(usize::from(gets_serve));
            stand.extend(beside);
            *group = stand;
        }
        Lineup { groups, ..lineup.clone() }
    }
}
