//! Balls of one child in one run that were given alike, counted together: what its level over weeks is worked out from. Worked out from
//! the facts of a folded run for its summary, never at a tap.

use super::entry::Contact;
use super::ids::PlayerId;
use super::replay::part::Part;
use super::skill::{Feed, Outcome, ServeOutcome, ServeStyle, Skill};
use crate::stats::proportion::Count;

/// What kind of ball it was; a skill of the coach's own is that of its run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    Pass,
    Serve,
    Own,
}

impl What {
    pub fn of(skill: &Skill) -> What {
        match skill {
            Skill::Pass => What::Pass,
            Skill::Serve => What::Serve,
            Skill::Own(_) => What::Own,
        }
    }
}

/// Who saw these balls, and how: what a count is worth hangs on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// Tapped ball by ball among others.
    Tapped,
    /// Every ball of one child whom the coach watched alone.
    Watched,
    /// Tapped by the child itself.
    BySelf,
    /// A number told at the whistle.
    Told,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lot {
    pub player: PlayerId,
    pub what: What,
    pub feed: Feed,
    pub style: Option<ServeStyle>,
    pub seen: Seen,
    /// By what counted as good in the drill.
    pub count: Count,
    /// Of passes by grade, 0 to 3; of serves in (an ace too), long, wide, net. All 0 of told counts and of other skills.
    pub outcomes: [u32; 4],
    /// Serves with a fast swing, wherever they went.
    pub n_fast: u32,
}

impl Lot {
    /// Whether one line tells good from not for all of its skill: graded passes, serves by where they went.
    pub fn is_by_one_line(&self) -> bool {
        self.what != What::Own && self.seen != Seen::Told
    }

    /// Passes by the trade's line, grade 2 or better, whatever the drill called good; else as the drill had it.
    pub fn by_the_common_line(&self) -> Count {
        let [gone, chased, moved, stood] = self.outcomes;
        let passes = || Count::new(moved + stood, gone + chased + moved + stood);
        let serves = || Count::new(self.outcomes[0], self.outcomes.iter().sum());
        match self.what {
            What::Pass if self.is_by_one_line() => passes().unwrap_or(self.count),
            What::Serve if self.is_by_one_line() => serves().unwrap_or(self.count),
            _ => self.count,
        }
    }
}

/// Of the main line of a run, child by child in the order in which they first had a ball.
pub fn lots(part: &Part, skill: &Skill) -> Vec<Lot> {
    let mut lots: Vec<Lot> = Vec::new();
    for contact in part.contacts.iter().map(|counted| &counted.contact) {
        let (Some(player), Some(what)) = (contact.player, what(contact.outcome)) else { continue };
        let Some(good) = contact.good_from.judge(contact.outcome) else { continue };
        let seen = seen(contact);
        let style = contact.style.filter(|_| what == What::Serve);
        let lot = lot(&mut lots, (player, what, contact.feed, style, seen));
        lot.count.note(good);
        if let Some(at) = outcome_at(contact.outcome) {
            lot.outcomes[at] += 1;
        }
        lot.n_fast += u32::from(matches!(contact.outcome, Outcome::Serve { fast: true, .. }));
    }
    for (player, told) in part.all_told() {
        if told.count.tries() > 0 {
            // Told by the child itself or said by the coach at the whistle: nobody saw ball by ball.
            let lot = lot(&mut lots, (player, What::of(skill), told.feed, None, Seen::Told));
            lot.count = lot.count + told.count;
        }
    }
    child_by_child(lots)
}

fn child_by_child(lots: Vec<Lot>) -> Vec<Lot> {
    let mut children: Vec<PlayerId> = Vec::new();
    for lot in &lots {
        if !children.contains(&lot.player) {
            children.push(lot.player);
        }
    }
    children.iter().flat_map(|child| lots.iter().filter(move |lot| lot.player == *child).cloned()).collect()
}

type Alike = (PlayerId, What, Feed, Option<ServeStyle>, Seen);

/// The lot of balls such as this one.
fn lot(lots: &mut Vec<Lot>, (player, what, feed, style, seen): Alike) -> &mut Lot {
    let is = |lot: &Lot| (lot.player, lot.what, lot.feed, lot.style, lot.seen) == (player, what, feed, style, seen);
    let at = lots.iter().position(is).unwrap_or_else(|| {
        lots.push(Lot { player, what, feed, style, seen, count: Count::NONE, outcomes: [0; 4], n_fast: 0 });
        lots.len() - 1
    });
    &mut lots[at]
}

fn seen(contact: &Contact) -> Seen {
    match (contact.self_scored, contact.watched) {
        (true, _) => Seen::BySelf,
        (false, true) => Seen::Watched,
        (false, false) => Seen::Tapped,
    }
}

fn what(outcome: Outcome) -> Option<What> {
    match outcome {
        Outcome::Pass { .. } => Some(What::Pass),
        Outcome::Serve { .. } => Some(What::Serve),
        Outcome::TwoKey { .. } => Some(What::Own),
        _ => None,
    }
}

fn outcome_at(outcome: Outcome) -> Option<usize> {
    match outcome {
        Outcome::Pass { grade, .. } => Some(usize::from(grade.digit())),
        Outcome::Serve { outcome, .. } => Some(match outcome {
            ServeOutcome::Ace | ServeOutcome::In => 0,
            ServeOutcome::Long => 1,
            ServeOutcome::Wide => 2,
            ServeOutcome::Net => 3,
        }),
        _ => None,
    }
}
