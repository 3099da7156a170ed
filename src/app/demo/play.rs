//! The balls of an invented run, as each kind of board would note them.

use super::super::words;
use super::maker::{Evening, Maker, later};
use super::{SQUAD, STYLES};
use crate::domain::drill::{Board, DrillSpec, Rule, Transition};
use crate::domain::entry::{Contact, Fact, Lineup, LineupCause};
use crate::domain::ids::{ContactId, Place, PlayerId, RunId};
use crate::domain::scoring::transition::{NextBall, TransitionScore};
use crate::domain::scoring::{Ball, ScoringRule};
use crate::domain::skill::{Feed, FeedKind, Outcome, PassGrade, Role, ServeOutcome, ServeStyle, Skill};
use crate::domain::time::Stamp;

/// One effort in so many contacts, one ball without a chance in so many of a duel.
const EFFORT_IN: u32 = 25;
const NO_CHANCE_IN: u32 = 20;
/// Every so many contacts the three on the floor swap.
const SWAP_EVERY: u32 = 12;
/// A served ball is harder than a thrown one.
const CHALLENGE: f64 = 0.75;
const MISSED_IN: u32 = 5;
const TOLD_SERIES: u16 = 2;

impl Maker {
    pub fn play(
        &mut self,
        run: RunId,
        spec: &DrillSpec,
        lineup: Lineup,
        evening: &Evening,
        at: Stamp,
        n_contacts: u32,
    ) -> Stamp {
        match (spec.board, spec.rule) {
            (_, Rule::Transition(rule)) => self.duel(run, spec, &rule, lineup, evening, at, n_contacts),
            (Board::Told { of }, _) => self.told(run, spec, of, &lineup, evening, at),
            _ => self.tally(run, spec, lineup, evening, at, n_contacts),
        }
    }

    fn tally(
        &mut self,
        run: RunId,
        spec: &DrillSpec,
        mut lineup: Lineup,
        evening: &Evening,
        mut at: Stamp,
        n_contacts: u32,
    ) -> Stamp {
        for i in 0..n_contacts {
            at = self.next_ball(at);
            let in_turn = |n: usize| i as usize % n.max(1);
            let (player, place) = match spec.board {
                Board::Floor { n_places } => {
                    let place = Place(self.rng.u8(..n_places));
                    (lineup.at(place), Some(place))
                }
                Board::ServeFloor { .. } => {
                    let player = lineup.places.get(in_turn(lineup.places.len())).copied().flatten();
                    (player, player.and_then(|p| lineup.place_of(p)))
                }
                Board::Group => (None, None),
                _ => (lineup.waiting.get(in_turn(lineup.waiting.len())).copied(), None),
            };
            let good = self.is_good(player, evening, 1.0);
            let outcome = match (&spec.skill, spec.board) {
                (_, Board::Group) | (Skill::Own(_), _) => Outcome::TwoKey { good },
                (Skill::Pass, _) => self.pass(good),
                (Skill::Serve, _) => self.serve(good),
            };
            let contact = Contact { style: style(spec, player, evening), ..contact(spec, player, place, outcome) };
            self.note(Fact::ContactNoted { run, contact }, at);
            self.effort(run, player, at);
            if matches!(spec.board, Board::Floor { .. }) && i % SWAP_EVERY == SWAP_EVERY - 1 {
                lineup = lineup.slid();
                self.note(Fact::LineupSet { run, lineup: lineup.clone(), cause: LineupCause::Swap }, at);
            }
        }
        at
    }

    /// Easy balls, then the challenge, until the rule says that it is over.
    #[expect(clippy::too_many_arguments, reason = "a duel is made of that many things")]
    fn duel(
        &mut self,
        run: RunId,
        spec: &DrillSpec,
        rule: &Transition,
        mut lineup: Lineup,
        evening: &Evening,
        mut at: Stamp,
        n_contacts: u32,
    ) -> Stamp {
        let mut score = TransitionScore::new(*rule);
        let mut n_served = 0;
        for _ in 0..n_contacts {
            let next = score.next();
            if next.over {
                break;
            }
            at = self.next_ball(at);
            let contact = self.duel_ball(spec, &next, &lineup, n_served, evening);
            n_served += usize::from(contact.server.is_some());
            score.note(Ball::Contact(&contact));
            let player = contact.player;
            let id = ContactId(self.note(Fact::ContactNoted { run, contact }, at));
            self.effort(run, player, at);
            let after = score.next();
            if rule.swap && after.turn.round > next.turn.round && !after.over {
                lineup = lineup.after_round(rule.between);
                let cause = LineupCause::AfterContact(id);
                self.note(Fact::LineupSet { run, lineup: lineup.clone(), cause }, at);
            }
        }
        at
    }

    fn duel_ball(
        &mut self,
        spec: &DrillSpec,
        next: &NextBall,
        lineup: &Lineup,
        n_served: usize,
        evening: &Evening,
    ) -> Contact {
        let feed = Feed { kind: next.kind, ..spec.feed };
        let challenge = next.kind == FeedKind::Challenge;
        let server = lineup.servers.get(n_served % lineup.servers.len().max(1)).copied().filter(|_| challenge);
        let turn = Some(next.turn);
        if challenge && self.rng.u32(..MISSED_IN) == 0 {
            let style = server.and_then(|s| style_of(s, evening));
            let missed = contact(spec, None, None, Outcome::ServeMissed);
            return Contact { role: Role::Server, feed, turn, server, style, ..missed };
        }
        if self.rng.u32(..NO_CHANCE_IN) == 0 {
            return Contact { feed, turn, server, ..contact(spec, None, None, Outcome::NoChance) };
        }
        let place = Place(self.rng.u8(..u8::try_from(lineup.places.len()).unwrap_or(u8::MAX).max(1)));
        let player = lineup.at(place);
        let good = self.is_good(player, evening, if challenge { CHALLENGE } else { 1.0 });
        let outcome = self.pass(good);
        Contact { feed, turn, server, ..contact(spec, player, Some(place), outcome) }
    }

    /// At the whistle everyone tells.
    fn told(
        &mut self,
        run: RunId,
        spec: &DrillSpec,
        of: u8,
        lineup: &Lineup,
        evening: &Evening,
        mut at: Stamp,
    ) -> Stamp {
        for told_no in 0..TOLD_SERIES {
            at = later(at, 240_000);
            for player in lineup.everyone() {
                at = later(at, 1_200 + self.rng.u64(..2_000));
                let good = (0..of).filter(|_| self.is_good(Some(player), evening, 1.0)).count();
                let told = Fact::CountTold {
                    run,
                    player,
                    told_no,
                    good: u16::try_from(good).unwrap_or(u16::MAX),
                    of: u16::from(of),
                    good_from: spec.good_from,
                    feed: spec.feed,
                    self_scored: false,
                };
                self.note(told, at);
            }
        }
        at
    }

    fn next_ball(&mut self, at: Stamp) -> Stamp {
        later(at, 1_500 + self.rng.u64(..4_000))
    }

    fn effort(&mut self, run: RunId, player: Option<PlayerId>, at: Stamp) {
        if player.is_some() && self.rng.u32(..EFFORT_IN) == 0 {
            let kind = words::drills::EFFORT_KINDS[self.rng.usize(..4)].to_owned();
            self.note(Fact::EffortNoted { run, player, kind: Some(kind) }, at);
        }
    }

    /// By how often this child's ball is good on such an evening; the group's is better than each child's alone.
    fn is_good(&mut self, player: Option<PlayerId>, evening: &Evening, share: f64) -> bool {
        let level = match player {
            Some(player) => {
                let (_, _, from, to) = SQUAD[index(player, evening)];
                (f64::from(from) + (f64::from(to) - f64::from(from)) * evening.progress) / 100.0
            }
            None => 0.85,
        };
        self.rng.f64() < level * share
    }

    fn pass(&mut self, good: bool) -> Outcome {
        let grade = match (good, self.rng.bool()) {
            (true, true) => PassGrade::Stood,
            (true, false) => PassGrade::Moved,
            (false, true) => PassGrade::Chased,
            (false, false) => PassGrade::Gone,
        };
        Outcome::Pass { grade, over_net: false }
    }

    fn serve(&mut self, good: bool) -> Outcome {
        let missed = [ServeOutcome::Long, ServeOutcome::Wide, ServeOutcome::Net][self.rng.usize(..3)];
        Outcome::Serve { outcome: if good { ServeOutcome::In } else { missed }, fast: self.rng.u8(..3) == 0 }
    }
}

fn contact(spec: &DrillSpec, player: Option<PlayerId>, place: Option<Place>, outcome: Outcome) -> Contact {
    let role = match spec.skill {
        Skill::Pass => Role::Passer,
        Skill::Serve => Role::Server,
        Skill::Own(_) => Role::Doer,
    };
    Contact {
        player,
        role,
        place,
        outcome,
        good_from: spec.good_from,
        feed: spec.feed,
        style: None,
        turn: None,
        server: None,
        self_scored: false,
        group: None,
        clock_ms: None,
        watched: false,
    }
}

fn style(spec: &DrillSpec, player: Option<PlayerId>, evening: &Evening) -> Option<ServeStyle> {
    player.filter(|_| spec.skill == Skill::Serve).and_then(|p| style_of(p, evening))
}

fn style_of(player: PlayerId, evening: &Evening) -> Option<ServeStyle> {
    STYLES.get(index(player, evening) % STYLES.len()).copied()
}

fn index(player: PlayerId, evening: &Evening) -> usize {
    evening.squad.iter().position(|p| *p == player).unwrap_or(0)
}
