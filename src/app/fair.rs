//! Who had how much of a practice, and of many: contacts by role, time on the court, rest, being watched; and how that stands to an
//! even share. Plain sums of what happened, no rate and no guess. Who was away, came late or went early is short of nothing.

use super::model::Model;
use super::plan::{judged_in, was_there};
use crate::domain::ids::PlayerId;
use crate::domain::summary::{PracticeSummary, RunSummary};
use crate::domain::touches::Touches;

/// What one child had.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Had {
    /// Balls judged or told.
    pub contacts: u32,
    /// Of these, judged while the coach watched this child alone.
    pub watched: u32,
    /// Served or tossed for somebody else; caught or fetched: known by the places as they stood.
    pub fed: u32,
    pub caught: u32,
    pub rallies: u32,
    /// Rallies of the games of practices it was at: those it didn't play it rested.
    pub rallies_of: u32,
    pub court_ms: u32,
}

/// One child over some practices.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Child {
    pub player: PlayerId,
    /// Practices it was at from the start to the end; those it came late to, left early, or was away from for a while.
    pub n_whole: u32,
    pub n_part: u32,
    /// All of it.
    pub had: Had,
    /// Of the practices it was at to the end: what it had, and what everyone there would have had if it had been shared out evenly.
    pub share: Share,
}

/// Contacts, or rallies where no contact was judged at all.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Share {
    pub own: u32,
    pub even: f64,
}

/// Everyone, in the order of the squad.
#[derive(Clone, Debug, PartialEq)]
pub struct Fair {
    /// Told by rallies: nothing else was counted.
    pub by_rallies: bool,
    pub children: Vec<Child>,
}

/// How it fell to those who were there.
#[derive(Clone, Debug, PartialEq)]
pub enum Fell {
    /// Nobody was there from start to end.
    NobodyWhole,
    /// An even share is so little that nobody can be short of it.
    TooLittle,
    /// More than half had far less than an even share.
    ToAFew,
    /// Nobody is short.
    Near,
    /// These are, in the squad's order.
    Short(Vec<Child>),
}

/// From which even share on somebody can be short, and how far below it that is: of one practice two thirds, and four balls at least; of
/// many three quarters. Choices of ours: less is the luck of where the balls went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    least_even: f64,
    part: f64,
    least_gap: f64,
}

pub const OF_ONE: Limit = Limit { least_even: 6.0, part: 2.0 / 3.0, least_gap: 4.0 };
pub const OF_MANY: Limit = Limit { least_even: 20.0, part: 0.75, least_gap: 8.0 };

impl Share {
    /// How much of an even share it was; `None` where there was next to nothing to share out.
    pub fn part(&self) -> Option<f64> {
        (self.even >= 3.0).then(|| f64::from(self.own) / self.even)
    }

    pub fn is_short(&self, limit: Limit) -> bool {
        let own = f64::from(self.own);
        self.even >= limit.least_even && own <= self.even * limit.part && self.even - own >= limit.least_gap
    }
}

impl Fair {
    pub fn of(model: &Model, practices: &[&PracticeSummary]) -> Fair {
        let everyone: Vec<PlayerId> = model.base.players().iter().map(|p| p.id).collect();
        let all_had = |f: fn(&Had) -> u32| -> u32 {
            practices.iter().flat_map(|p| everyone.iter().map(|player| f(&had(p, *player)))).sum()
        };
        let by_rallies = all_had(|had| had.contacts) == 0 && all_had(|had| had.rallies) > 0;
        let measure = |had: &Had| if by_rallies { had.rallies } else { had.contacts };
        let mut children: Vec<Child> = everyone.iter().map(|player| Child::nothing(*player)).collect();
        for practice in practices {
            let whole = |player: PlayerId| is_whole(model, practice, player);
            let shared: Vec<u32> =
                everyone.iter().filter(|p| whole(**p)).map(|p| measure(&had(practice, *p))).collect();
            let even = shared.iter().sum::<u32>() as f64 / shared.len().max(1) as f64;
            for child in &mut children {
                let own = had(practice, child.player);
                if whole(child.player) {
                    child.n_whole += 1;
                    child.share.own += measure(&own);
                    child.share.even += even;
                } else if is_part(practice, child.player) {
                    child.n_part += 1;
                } else {
                    continue;
                }
                child.had = child.had + own;
            }
        }
        children.retain(|child| child.n_whole + child.n_part > 0 || !is_archived(model, child.player));
        Fair { by_rallies, children }
    }

    /// Who is short by this measure; nobody where that would be more than half of those who were there.
    pub fn short(&self, limit: Limit) -> Vec<Child> {
        match self.fell(limit) {
            Fell::Short(short) => short,
            Fell::NobodyWhole | Fell::TooLittle | Fell::ToAFew | Fell::Near => Vec::new(),
        }
    }

    pub fn fell(&self, limit: Limit) -> Fell {
        let there = || self.children.iter().filter(|child| child.n_whole > 0);
        let short: Vec<Child> = there().filter(|child| child.share.is_short(limit)).copied().collect();
        match short.len() {
            0 if there().next().is_none() => Fell::NobodyWhole,
            0 if there().any(|child| child.share.even < limit.least_even) => Fell::TooLittle,
            0 => Fell::Near,
            n if n * 2 > there().count() => Fell::ToAFew,
            _ => Fell::Short(short),
        }
    }
}

impl Child {
    const fn nothing(player: PlayerId) -> Child {
        const HAD: Had = Had { contacts: 0, watched: 0, fed: 0, caught: 0, rallies: 0, rallies_of: 0, court_ms: 0 };
        Child { player, n_whole: 0, n_part: 0, had: HAD, share: Share { own: 0, even: 0.0 } }
    }
}

impl std::ops::Add for Had {
    type Output = Had;

    fn add(self, other: Had) -> Had {
        Had {
            contacts: self.contacts.saturating_add(other.contacts),
            watched: self.watched.saturating_add(other.watched),
            fed: self.fed.saturating_add(other.fed),
            caught: self.caught.saturating_add(other.caught),
            rallies: self.rallies.saturating_add(other.rallies),
            rallies_of: self.rallies_of.saturating_add(other.rallies_of),
            court_ms: self.court_ms.saturating_add(other.court_ms),
        }
    }
}

/// There from the start to the end: away while nothing was counted. One that has left the squad since was there if it did something.
pub fn is_whole(model: &Model, practice: &PracticeSummary, player: PlayerId) -> bool {
    let there = was_there(model, practice, player);
    let there = there && !practice.away.contains(&player) && !practice.in_part.contains(&player);
    let there = there && !told_none(practice, player);
    there && (practice.took_part(player) || !is_archived(model, player))
}

/// Others told a number in a drill that it was in, and of this child there is none: how many balls it had nobody knows.
fn told_none(practice: &PracticeSummary, player: PlayerId) -> bool {
    let of =
        |run: &RunSummary| run.children.iter().find(|(child, _)| *child == player).map_or(0, |(_, c)| c.told.tries());
    practice.runs.iter().any(|run| run.everyone.told.tries() > 0 && run.order.contains(&player) && of(run) == 0)
}

/// There for a part of it.
fn is_part(practice: &PracticeSummary, player: PlayerId) -> bool {
    let came = practice.in_part.contains(&player) && !practice.away.contains(&player);
    practice.took_part(player) || came
}

fn is_archived(model: &Model, player: PlayerId) -> bool {
    model.base.player(player).is_some_and(|p| p.archived)
}

fn had(practice: &PracticeSummary, player: PlayerId) -> Had {
    let touches = practice.runs.iter().flat_map(|run| &run.touches).filter(|(p, _)| *p == player);
    let touched = touches.fold(Touches::default(), |sum, (_, t)| sum + *t);
    let counts = practice.runs.iter().flat_map(|run| &run.children).filter(|(p, _)| *p == player);
    let mut had = Had {
        contacts: judged_in(practice, player),
        watched: counts.map(|(_, counts)| counts.watched.tries()).sum(),
        fed: touched.fed,
        caught: touched.caught + touched.fetched,
        ..Had::default()
    };
    for game in practice.runs.iter().filter_map(|run| run.game.as_ref()) {
        had.rallies_of = had.rallies_of.saturating_add(game.n_rallies);
        for child in game.children.iter().filter(|child| child.player == player) {
            had.rallies = had.rallies.saturating_add(child.n_rallies);
            had.court_ms = had.court_ms.saturating_add(child.court_ms);
        }
    }
    had
}
