//! Who met whom in a run, counted together where the same met: whose serve who passed, and which sides played each other. What ratings are
//! worked out from; says nothing of who is better.

use super::entry::{Contact, Side};
use super::ids::PlayerId;
use super::replay::part::Part;
use super::skill::{Feed, Outcome, PassGrade};
use crate::stats::arrange::arranged;
use crate::stats::proportion::Count;

/// Serves of one child that another passed, of one kind of ball; good by the trade's line, grade 2 or better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Served {
    pub server: PlayerId,
    pub passer: PlayerId,
    pub feed: Feed,
    pub count: Count,
}

/// Rallies of the same two sides, whichever stood near: each in the order of identity, the lower one first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sides {
    pub first: Vec<PlayerId>,
    pub second: Vec<PlayerId>,
    /// The first side served them.
    pub served: bool,
    /// Won by the first side, and lost.
    pub won: u32,
    pub lost: u32,
}

#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Met {
    pub served: Vec<Served>,
    pub sides: Vec<Sides>,
}

/// Of the main line of a run.
pub fn met(part: &Part) -> Met {
    let mut met = Met::default();
    for contact in part.contacts.iter().map(|counted| &counted.contact) {
        note_pass(&mut met.served, contact);
    }
    for rally in part.rallies.iter().map(|counted| &counted.rally) {
        let (near, far) = (in_order(rally.team(Side::Near)), in_order(rally.team(Side::Far)));
        let side = if near <= far { Side::Near } else { Side::Far };
        let (first, second) = if side == Side::Near { (near, far) } else { (far, near) };
        let served = rally.served == side;
        let is = |had: &Sides| had.served == served && had.first == first && had.second == second;
        let at = met.sides.iter().position(is).unwrap_or_else(|| {
            met.sides.push(Sides { first, second, served, won: 0, lost: 0 });
            met.sides.len() - 1
        });
        let sides = &mut met.sides[at];
        let to = if rally.won == side { &mut sides.won } else { &mut sides.lost };
        *to = to.saturating_add(1);
    }
    met
}

/// Only where both are known: a ball that somebody threw, or that nobody could reach, met nobody.
fn note_pass(all: &mut Vec<Served>, contact: &Contact) {
    let (Some(server), Some(passer), Outcome::Pass { grade, .. }) = (contact.server, contact.player, contact.outcome)
    else {
        return;
    };
    if server == passer {
        return;
    }
    let feed = contact.feed;
    let is = |had: &Served| (had.server, had.passer, had.feed) == (server, passer, feed);
    let at = all.iter().position(is).unwrap_or_else(|| {
        all.push(Served { server, passer, feed, count: Count::NONE });
        all.len() - 1
    });
    all[at].count.note(grade >= PassGrade::Moved);
}

fn in_order(team: &[PlayerId]) -> Vec<PlayerId> {
    arranged(team.to_vec(), |a, b| a.cmp(b))
}
