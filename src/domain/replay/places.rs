//! Who stands where as rounds and turns go: which of the rule's swaps stand, and which change of places is due.
//! Owns no totals; writes nothing.

use std::collections::BTreeMap;

use super::super::drill::{DrillSpec, SwapEvery, Transition};
use super::super::entry::{Entry, Fact, Lineup, LineupCause};
use super::super::ids::{ContactId, EntryId, Round, SeriesId};
use super::super::roles;
use super::super::scoring::transition::{NextBall, TransitionScore};
use super::super::scoring::{Ball, ScoringRule};
use super::super::skill::Outcome;
use super::super::time::Stamp;
use super::amend::Amended;
use super::part::Part;
use super::run::RunState;

/// What a run's entries say of its swaps. Invariant: a swap stands while the rule proposes a ball of a later round than the one
/// it followed, whatever became of the single contacts, and never after the swap of a later round. So places are always those
/// of the round that is proposed.
pub(super) struct Swaps<'a> {
    /// Every entry of the run: a contact that was taken back still tells its round.
    pub entries: &'a BTreeMap<EntryId, Entry>,
    pub amended: &'a Amended,
    pub spec: &'a DrillSpec,
}

impl Swaps<'_> {
    /// Folds one part from its entries in order. Second: the earliest round whose swap is void because the round isn't over.
    pub fn fold<'e>(&self, opening: Lineup, entries: impl Iterator<Item = &'e Entry> + Clone) -> (Part, Option<Round>) {
        let undone = self.undone_turns(entries.clone());
        let standing = entries.filter(|e| !self.amended.is_taken_back(e.id) && !is_in(&undone, e));
        let reached = self.reached(standing.clone());
        let mut part = Part::new(self.spec, opening);
        let mut void: Option<Round> = None;
        for entry in standing {
            let early = self.advance(&mut part, entry, reached);
            void = [void, early].into_iter().flatten().min();
        }
        (part, void)
    }

    /// Advances by one entry that wasn't taken back. `Some`: a swap of a round that isn't over, so nothing changed.
    pub fn advance(&self, part: &mut Part, entry: &Entry, reached: Round) -> Option<Round> {
        if let Some(round) = self.swapped_after(entry) {
            if round >= reached {
                return Some(round);
            }
            if part.swapped > Some(round) {
                return None;
            }
            part.swapped = Some(round);
        }
        part.advance(entry, self.amended);
        None
    }

    /// The round that the rule proposes after all these entries.
    fn reached<'e>(&self, standing: impl Iterator<Item = &'e Entry>) -> Round {
        let Some(rule) = self.spec.rule.transition() else { return EVERY_ROUND };
        let mut score = TransitionScore::new(*rule);
        for entry in standing {
            if let Fact::ContactNoted { contact, .. } = &entry.fact {
                let read = self.amended.read(ContactId(entry.id), contact);
                if read.outcome != Outcome::Removed {
                    score.note(Ball::Contact(&read));
                }
            }
        }
        score.next().turn.round
    }

    /// The swaps that ended a turn after a ball which was taken back before another was played: the turn isn't over. Once play has gone
    /// on the children stand where they stand, whatever becomes of that ball; so too where the taking-back is on another line, which
    /// tells nothing of before and after on this one. `entries` in order: clocks tell no order between two writers.
    fn undone_turns<'e>(&self, entries: impl Iterator<Item = &'e Entry>) -> Vec<EntryId> {
        let mut undone = Vec::new();
        if self.spec.rule.transition().is_some() {
            return undone;
        }
        // Swaps after which nothing was played yet, and the ball each followed.
        let mut last: Vec<(EntryId, EntryId)> = Vec::new();
        for entry in entries {
            let stands = !self.amended.is_taken_back(entry.id);
            match &entry.fact {
                Fact::ContactNoted { .. } if stands => last.clear(),
                Fact::LineupSet { cause: LineupCause::AfterContact(contact), .. } if stands => {
                    last.push((entry.id, contact.0));
                }
                // Who came or went was fitted into the places after the swap: these are in use.
                Fact::LineupSet { .. } if stands => last.clear(),
                Fact::EntryTakenBack { target, .. } if self.amended.taken_at(*target) == Some(entry.order()) => {
                    undone.extend(last.iter().filter(|(_, contact)| contact == target).map(|(swap, _)| *swap));
                }
                _ => {}
            }
        }
        undone
    }

    fn swapped_after(&self, entry: &Entry) -> Option<Round> {
        let Fact::LineupSet { cause: LineupCause::AfterContact(contact), .. } = &entry.fact else { return None };
        match &self.entries.get(&contact.0)?.fact {
            Fact::ContactNoted { contact, .. } => contact.turn.map(|turn| turn.round),
            _ => None,
        }
    }
}

/// Only swaps are, so nothing else is looked for.
fn is_in(undone: &[EntryId], entry: &Entry) -> bool {
    matches!(entry.fact, Fact::LineupSet { cause: LineupCause::AfterContact(_), .. }) && undone.contains(&entry.id)
}

/// Where no rule proposes a round, every swap stands.
const EVERY_ROUND: Round = Round(u16::MAX);

/// The round that the rule proposes.
pub(super) fn reached(part: &Part) -> Round {
    part.transition().map_or(EVERY_ROUND, |score| score.next().turn.round)
}

/// What was on the board before something was written.
#[derive(Clone, Debug)]
pub struct Stood {
    pub next: Option<NextBall>,
    pub lineup: Lineup,
    played: Option<(Round, Lineup)>,
}

impl RunState {
    /// The ball that the rule proposes; nothing where there is no such rule.
    pub fn next_ball(&self) -> Option<NextBall> {
        self.main.transition().map(TransitionScore::next)
    }

    pub fn stood(&self) -> Stood {
        Stood { next: self.next_ball(), lineup: self.main.lineup.clone(), played: self.main.played.clone() }
    }

    /// The change of places that is due once the proposed round is another than it was: on to the next one, where no swap
    /// noted before says so already, or back, where a lineup set by hand after the swap would stay.
    pub fn places_due(&self, was: &Stood) -> Option<Fact> {
        let rule = self.swapping()?;
        let (was_in, is_in) = (was.next?.turn.round, self.next_ball()?.turn.round);
        if is_in.0 == was_in.0.saturating_add(1) {
            return self.moved_on(&was.lineup, rule, was_in);
        }
        if is_in >= was_in || self.main.lineup != was.lineup {
            return None;
        }
        let played = [&self.main.played, &was.played].into_iter().flatten().find(|(round, _)| *round == is_in);
        let lineup = played.map(|(_, lineup)| with_those_of(lineup, &self.main.lineup))?;
        let cause = LineupCause::ByHand;
        (lineup != self.main.lineup).then_some(Fact::LineupSet { run: self.id, lineup, cause })
    }

    /// The change of roles that is due after the ball that was counted last: so many balls were played, or so many minutes. Never by
    /// time alone, so that no name moves under a thumb: the first ball after the time is the turn's last.
    /// `slept_ms`: what is no part of the minutes.
    pub fn turn_due(&self, slept_ms: u64) -> Option<Fact> {
        let part = &self.main;
        let last = part.contacts.last()?;
        let over = match self.spec.on_floor.swap {
            SwapEvery::Never => false,
            SwapEvery::Balls(n) => part.turn_balls >= u32::from(n),
            SwapEvery::Minutes(_) => self.turn_lasted(last.id.0.series, last.at, slept_ms),
        };
        if !over || part.turn_balls == 0 {
            return None;
        }
        let lineup = self.next_turn()?.clone();
        Some(Fact::LineupSet { run: self.id, lineup, cause: LineupCause::AfterContact(last.id) })
    }

    /// Whether the minutes of the turn that is on have gone by, as a page of this series reads them.
    pub fn turn_lasted(&self, series: SeriesId, at: Stamp, slept_ms: u64) -> bool {
        let (SwapEvery::Minutes(n), Some((began_by, from))) = (self.spec.on_floor.swap, self.main.turn_from) else {
            return false;
        };
        let ms = if began_by == series {
            at.mono_ms.saturating_sub(from.mono_ms)
        } else {
            u64::try_from(at.wall_ms.saturating_sub(from.wall_ms)).unwrap_or(0)
        };
        ms.saturating_sub(slept_ms) >= u64::from(n) * 60_000
    }

    /// Who does what in the next turn; nothing where roles don't change by turns, or nobody could.
    pub fn next_turn(&self) -> Option<&Lineup> {
        if !roles::rotates(&self.spec) {
            return None;
        }
        let main = &self.main;
        let lineup = main.next_turn.get(|| roles::next(&self.spec, &main.lineup, &main.turns));
        (*lineup != main.lineup).then_some(lineup)
    }

    /// The swap that was left out because the run was over, once it goes on all the same.
    pub fn swap_left_out(&self) -> Option<Fact> {
        let rule = self.swapping()?;
        let round = self.main.transition()?.round()?;
        let due = self.next_ball()?.turn.round > round && self.main.swapped < Some(round);
        if due { self.moved_on(&self.main.lineup, rule, round) } else { None }
    }

    fn swapping(&self) -> Option<&Transition> {
        self.spec.rule.transition().filter(|rule| rule.swap)
    }

    fn moved_on(&self, from: &Lineup, rule: &Transition, round: Round) -> Option<Fact> {
        let of_round = |turn: Option<super::super::entry::Turn>| turn.is_some_and(|turn| turn.round == round);
        let last = self.main.contacts.iter().rev().find(|c| of_round(c.contact.turn))?;
        let lineup = from.after_round(rule.between);
        let cause = LineupCause::AfterContact(last.id);
        (lineup != self.main.lineup).then_some(Fact::LineupSet { run: self.id, lineup, cause })
    }
}

/// As they stood then, with those who are here now.
fn with_those_of(then: &Lineup, now: &Lineup) -> Lineup {
    let missing = |one: &Lineup, other: &Lineup| -> Vec<_> {
        one.everyone().filter(|player| other.everyone().all(|p| p != *player)).collect()
    };
    let gone = missing(then, now).into_iter().map(|player| (player, false));
    let came = missing(now, then).into_iter().map(|player| (player, true));
    gone.chain(came).fold(then.clone(), |lineup, (player, here)| lineup.with_presence(player, here))
}
