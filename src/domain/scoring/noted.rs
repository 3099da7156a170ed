//! Where each child's serves went in a match and how good its passes were, apart from each other and from every drill's. Knows no
//! rate of both together.

use crate::domain::entry::Contact;
use crate::domain::ids::PlayerId;
use crate::domain::skill::{Outcome, PassGrade, ServeOutcome};
use crate::stats::proportion::Count;

/// What was noted of one child.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Noted {
    /// By outcome, in the order of `ServeOutcome::ALL`.
    pub serves: [u32; 5],
    /// By the grade's digit.
    pub passes: [u32; 4],
}

impl Noted {
    pub fn serves_that_went(&self, outcome: ServeOutcome) -> u32 {
        self.serves[place_of(outcome)]
    }

    pub fn passes_of(&self, grade: PassGrade) -> u32 {
        self.passes[usize::from(grade.digit())]
    }

    /// Those in, an ace among them.
    pub fn serves_in(&self) -> Count {
        let good = self.serves_that_went(ServeOutcome::Ace) + self.serves_that_went(ServeOutcome::In);
        Count::new(good, self.serves.iter().sum()).unwrap_or(Count::NONE)
    }

    /// Those that moved the target at most.
    pub fn passes_good(&self) -> Count {
        let good = self.passes_of(PassGrade::Stood) + self.passes_of(PassGrade::Moved);
        Count::new(good, self.passes.iter().sum()).unwrap_or(Count::NONE)
    }
}

/// Of everybody in one match. A squad is small: a list does.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NotedBook {
    by_child: Vec<(PlayerId, Noted)>,
}

impl NotedBook {
    /// A contact of another kind, or nobody's, is none of these.
    pub fn note(&mut self, contact: &Contact) {
        let Some(player) = contact.player else { return };
        match contact.outcome {
            Outcome::Serve { outcome, .. } => self.of_mut(player).serves[place_of(outcome)] += 1,
            Outcome::Pass { grade, .. } => self.of_mut(player).passes[usize::from(grade.digit())] += 1,
            _ => {}
        }
    }

    pub fn of(&self, player: PlayerId) -> Noted {
        self.by_child.iter().find(|(of, _)| *of == player).map_or_else(Noted::default, |(_, noted)| *noted)
    }

    /// In the order in which they were first noted.
    pub fn children(&self) -> &[(PlayerId, Noted)] {
        &self.by_child
    }

    fn of_mut(&mut self, player: PlayerId) -> &mut Noted {
        let at = self.by_child.iter().position(|(of, _)| *of == player).unwrap_or_else(|| {
            self.by_child.push((player, Noted::default()));
            self.by_child.len() - 1
        });
        &mut self.by_child[at].1
    }
}

const fn place_of(outcome: ServeOutcome) -> usize {
    match outcome {
        ServeOutcome::Ace => 0,
        ServeOutcome::In => 1,
        ServeOutcome::Long => 2,
        ServeOutcome::Wide => 3,
        ServeOutcome::Net => 4,
    }
}
