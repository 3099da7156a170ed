//! Games: whatever is tapped, whoever comes and goes, nobody is lost or in two teams, every rally counts once, and the fold is the
//! same however it was come by.

use std::collections::{BTreeMap, BTreeSet};

use peppertally::domain::drill::*;
use peppertally::domain::entry::{Contact, Entry, Fact, Lineup, LineupCause, Rally, Said, Side};
use peppertally::domain::ids::{EntryId, PlayerId};
use peppertally::domain::replay::run::RunState;
use peppertally::domain::scoring::Score;
use peppertally::domain::scoring::court::CourtShares;
use peppertally::domain::scoring::match_game::{NoteNext, decided_by};
use peppertally::domain::scoring::noted::Noted;
use peppertally::domain::skill::{GoodFrom, Outcome, PassGrade, ServeOutcome, Skill};
use proptest::prelude::*;

use crate::support::{Page, child, contact, run_started, shuffled};

const MOST: usize = 14;

#[derive(Clone, Copy, Debug)]
enum Tap {
    Won {
        near: bool,
        other_served: bool,
    },
    /// What the key of a match's room notes that is due; nothing where none is.
    Noted {
        by: usize,
    },
    Said {
        second: bool,
        on: bool,
    },
    Undo,
    Present {
        who: usize,
        here: bool,
    },
    Exchange {
        a: usize,
        b: usize,
    },
    NewTeams {
        by: usize,
    },
    Corrected {
        which: usize,
        near: bool,
    },
    Taken {
        which: usize,
        back: bool,
    },
}

fn taps() -> impl Strategy<Value = Vec<Tap>> {
    let who = 0..MOST;
    let tap = prop_oneof![
        8 => (any::<bool>(), prop::bool::weighted(0.1)).prop_map(|(near, other_served)| Tap::Won { near, other_served }),
        6 => (0..20usize).prop_map(|by| Tap::Noted { by }),
        1 => (any::<bool>(), any::<bool>()).prop_map(|(second, on)| Tap::Said { second, on }),
        2 => Just(Tap::Undo),
        2 => (who.clone(), any::<bool>()).prop_map(|(who, here)| Tap::Present { who, here }),
        1 => (who.clone(), who).prop_map(|(a, b)| Tap::Exchange { a, b }),
        1 => (0..7usize).prop_map(|by| Tap::NewTeams { by }),
        1 => (0..40usize, any::<bool>()).prop_map(|(which, near)| Tap::Corrected { which, near }),
        1 => (0..40usize, any::<bool>()).prop_map(|(which, back)| Tap::Taken { which, back }),
    ];
    prop::collection::vec(tap, 0..40)
}

fn rules() -> impl Strategy<Value = Rule> {
    let serves = prop_oneof![Just(Serves::Challengers), Just(Serves::WinnersSide), Just(Serves::LastWinner)];
    let stay = (2..5u8, 1..4u8, any::<bool>(), prop::option::of(1..4u8), serves).prop_map(
        |(a_side, to, near_only, off_after, serves)| {
            Rule::WinnersStay(WinnersStay { a_side, to, near_only, off_after, serves, ..WinnersStay::default() })
        },
    );
    let game = ((3..7u8, 1..8u16, prop::option::of(1..4u8)), any::<(bool, bool)>()).prop_map(
        |((a_side, to, serve_cap), (serves, passes))| {
            Rule::MatchGame(MatchGame { a_side, to, serve_cap, serves, passes })
        },
    );
    prop_oneof![stay, game]
}

struct Game {
    run: RunState,
    log: Vec<Entry>,
    page: Page,
    before: BTreeMap<EntryId, peppertally::domain::replay::part::Part>,
}

impl Game {
    fn open(rule: Rule, n: usize) -> Game {
        let spec = DrillSpec {
            name: "A game".to_owned(),
            skill: Skill::Own(DrillSpec::PLAYING.to_owned()),
            board: Board::Court,
            rule,
            good_from: GoodFrom::GoodKey,
            feed: DrillSpec::EASY,
            on_floor: OnFloor::default(),
        };
        let here: Vec<PlayerId> = (0..n).map(child).collect();
        let lineup = Lineup { groups: dealt(&rule, &here), ..Lineup::opening(&spec, &here, &[]) };
        let mut page = Page::new(100, 0);
        let log = vec![page.write(run_started(&spec, lineup))];
        let run = RunState::fold(log.clone()).expect("a start");
        Game { run, log, page, before: BTreeMap::new() }
    }

    fn write(&mut self, fact: Fact) {
        let entry = self.page.write(fact);
        self.before.insert(entry.id, self.run.main.clone());
        self.log.push(entry.clone());
        self.run.note(entry);
    }

    /// What the next undo takes back: a rally with the serve that one tap noted with it.
    fn undone_at_once(&self) -> Vec<EntryId> {
        let Some(last) = self.run.next_undo() else { return Vec::new() };
        [Some(last), self.run.serve_with(last)].into_iter().flatten().map(|e| e.id).collect()
    }

    /// By the same tap as the entry before.
    fn write_with_it(&mut self, fact: Fact) {
        let entry = self.page.write_with_it(fact);
        self.before.insert(entry.id, self.run.main.clone());
        self.log.push(entry.clone());
        self.run.note(entry);
    }

    /// The serve, the passer or the pass that is due, with the rally that a serve decides.
    fn note(&mut self, by: usize) {
        let Some(next) = self.run.main.note_next() else { return };
        let (id, spec, served) = (self.run.id, self.run.spec.clone(), self.served(self.run.main.serve_said.other_side));
        let a_side = usize::from(spec.rule.a_side().unwrap_or(6));
        let team = |side: Side, run: &RunState| -> Vec<PlayerId> {
            run.main.lineup.groups[usize::from(side == Side::Far)].iter().copied().take(a_side).collect()
        };
        let (near, far) = (team(Side::Near, &self.run), team(Side::Far, &self.run));
        if near.is_empty() || far.is_empty() {
            return;
        }
        let (servers, receivers) = if served == Side::Near { (&near, &far) } else { (&far, &near) };
        match next {
            NoteNext::Serve => {
                let outcome = ServeOutcome::ALL[by % 5];
                let noted = contact(&spec, Some(servers[0]), Outcome::Serve { outcome, fast: false });
                self.write(Fact::ContactNoted { run: id, contact: noted });
                if let Some(won) = decided_by(outcome, served) {
                    let rally = Rally { near, far, served, won, second_serve: false };
                    self.write_with_it(Fact::RallyNoted { run: id, rally });
                }
            }
            NoteNext::Passer => self.write(Fact::TurnGiven { run: id, player: receivers[by % receivers.len()] }),
            NoteNext::Grade(player) => {
                let grade = PassGrade::ALL[by % 4];
                let server = servers.first().copied();
                let noted = contact(&spec, Some(player), Outcome::Pass { grade, over_net: false });
                self.write(Fact::ContactNoted { run: id, contact: Contact { server, ..noted } });
            }
            NoteNext::Rally => {}
        }
    }

    fn served(&self, other: bool) -> Side {
        let next = match &self.run.main.score {
            Score::WinnersStay(score) => score.serves_next(),
            Score::MatchGame(score) => score.serves_next(),
            _ => unreachable!("a game"),
        };
        if other { next.other() } else { next }
    }

    fn rally_ids(&self) -> Vec<EntryId> {
        self.log.iter().filter(|e| matches!(e.fact, Fact::RallyNoted { .. })).map(|e| e.id).collect()
    }

    fn play(&mut self, tap: Tap) {
        let (id, lineup) = (self.run.id, self.run.main.lineup.clone());
        let by_hand = |lineup| Fact::LineupSet { run: id, lineup, cause: LineupCause::ByHand };
        let rule = self.run.spec.rule;
        match tap {
            Tap::Won { near, other_served } => {
                let most = match rule {
                    Rule::MatchGame(rule) => usize::from(rule.a_side),
                    _ => usize::MAX,
                };
                let team = |at: usize| lineup.groups[at].iter().copied().take(most).collect::<Vec<_>>();
                let rally = Rally {
                    near: team(0),
                    far: team(1),
                    served: self.served(other_served),
                    won: if near { Side::Near } else { Side::Far },
                    second_serve: false,
                };
                if !rally.near.is_empty() && !rally.far.is_empty() {
                    self.write(Fact::RallyNoted { run: id, rally });
                }
            }
            Tap::Noted { by } => self.note(by),
            Tap::Said { second, on } => {
                let what = if second { Said::Second } else { Said::OtherSide };
                self.write(Fact::ServeSaid { run: id, what, on });
            }
            Tap::Undo => {
                for target in self.undone_at_once() {
                    let revision = self.run.amended.next_take_back(target);
                    self.write(Fact::EntryTakenBack { run: Some(id), target, revision, back: true });
                }
            }
            Tap::Present { who, here } => {
                let next = lineup.with_presence_in(&rule, child(who), here);
                if next != lineup {
                    self.write(by_hand(next));
                }
            }
            Tap::Exchange { a, b } => {
                let here: BTreeSet<PlayerId> = lineup.everyone().collect();
                if a != b && here.contains(&child(a)) && here.contains(&child(b)) {
                    self.write(by_hand(lineup.exchanged(child(a), child(b))));
                }
            }
            Tap::NewTeams { by } => {
                let mut here: Vec<PlayerId> = lineup.everyone().collect();
                if !here.is_empty() {
                    let n = here.len();
                    here.rotate_left(by % n);
                    self.write(by_hand(Lineup { groups: dealt(&rule, &here), ..lineup }));
                }
            }
            Tap::Corrected { which, near } => {
                let Some(rally) = self.run.main.rallies.get(which).map(|r| r.id) else { return };
                let revision = self.run.amended.next_rally_revision(rally);
                let won = if near { Side::Near } else { Side::Far };
                self.write(Fact::RallyCorrected { run: id, rally, revision, won });
            }
            Tap::Taken { which, back } => {
                let Some(target) = self.rally_ids().get(which).copied() else { return };
                let revision = self.run.amended.next_take_back(target);
                self.write(Fact::EntryTakenBack { run: Some(id), target, revision, back });
            }
        }
    }
}

/// As cards are dealt: two sides of a match, else teams of about so many.
fn dealt(rule: &Rule, here: &[PlayerId]) -> Vec<Vec<PlayerId>> {
    let a_side = usize::from(rule.a_side().unwrap_or(2));
    let n = if matches!(rule, Rule::MatchGame(_)) { 2 } else { (here.len() / a_side).max(2) };
    (0..n).map(|at| here.iter().copied().skip(at).step_by(n).collect()).collect()
}

fn sorted(players: impl Iterator<Item = PlayerId>) -> Vec<PlayerId> {
    let mut all: Vec<PlayerId> = players.collect();
    all.sort_unstable();
    all
}

fn shares(score: &Score) -> &CourtShares {
    match score {
        Score::WinnersStay(score) => &score.shares,
        Score::MatchGame(score) => &score.shares,
        _ => unreachable!("a game"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn nobody_is_lost_or_in_two_teams(rule in rules(), n in 0..MOST, taps in taps()) {
        let mut game = Game::open(rule, n);
        for tap in taps {
            game.play(tap);
            let lineup = &game.run.main.lineup;
            let (all, teams) = (sorted(lineup.everyone()), sorted(lineup.groups.iter().flatten().copied()));
            prop_assert_eq!(&all, &teams, "after {:?}", tap);
            let once: BTreeSet<PlayerId> = all.iter().copied().collect();
            prop_assert_eq!(once.len(), all.len(), "after {:?}", tap);
            prop_assert!(lineup.groups.len() >= 2);
        }
    }

    /// Two who are there can always play, however the others left.
    #[test]
    fn both_sides_have_somebody(rule in rules(), n in 2..MOST, leaving in prop::collection::vec(0..MOST, 0..20)) {
        let mut game = Game::open(rule, n);
        for who in leaving {
            game.play(Tap::Present { who, here: false });
            let lineup = &game.run.main.lineup;
            if lineup.everyone().count() >= 2 {
                prop_assert!(!lineup.groups[0].is_empty() && !lineup.groups[1].is_empty(), "{:?}", lineup.groups);
            }
        }
    }

    #[test]
    fn folding_is_advancing_by_one(rule in rules(), n in 2..MOST, taps in taps(), seed: u64) {
        let mut game = Game::open(rule, n);
        for tap in taps {
            game.play(tap);
            let whole = RunState::fold(shuffled(&game.log, seed)).expect("a start");
            prop_assert_eq!(&game.run, &whole, "after {:?}", tap);
        }
    }

    #[test]
    fn undo_restores_what_was_there(rule in rules(), n in 2..MOST, taps in taps()) {
        let mut game = Game::open(rule, n);
        let opening = game.run.main.clone();
        // What the list takes back or puts back is no step of undo.
        for tap in taps.into_iter().filter(|tap| !matches!(tap, Tap::Taken { .. })) {
            game.play(tap);
        }
        while let Some(target) = game.undone_at_once().pop() {
            game.play(Tap::Undo);
            prop_assert_eq!(&game.run.main, &game.before[&target]);
        }
        prop_assert_eq!(&game.run.main, &opening);
    }

    /// Every rally that stands counts once: as a rally, on the court of everyone who played it, and as a point or part of a game.
    #[test]
    fn rallies_are_conserved(rule in rules(), n in 2..MOST, taps in taps()) {
        let mut game = Game::open(rule, n);
        taps.into_iter().for_each(|tap| game.play(tap));
        let run = &game.run;
        let standing = game.rally_ids().into_iter().filter(|id| !run.amended.is_taken_back(*id)).count();
        prop_assert_eq!(run.main.rallies.len(), standing);
        let played: usize = run.main.rallies.iter().map(|r| r.rally.near.len() + r.rally.far.len()).sum();
        let shared: u32 = shares(&run.main.score).iter().map(|(_, played)| played.n_rallies).sum();
        prop_assert_eq!(played, shared as usize);
        match &run.main.score {
            Score::MatchGame(score) => {
                prop_assert_eq!((score.points(Side::Near) + score.points(Side::Far)) as usize, standing);
            }
            Score::WinnersStay(score) => prop_assert!(score.n_games as usize <= standing),
            _ => unreachable!("a game"),
        }
    }

    /// Every serve and every pass that stands counts once, for its child and its own skill, and in no drill's rate; each is one touch,
    /// and a server is given one more only for a pass whose serve wasn't noted.
    #[test]
    fn contacts_of_a_match_are_conserved(rule in rules(), n in 2..MOST, taps in taps()) {
        let mut game = Game::open(rule, n);
        taps.into_iter().for_each(|tap| game.play(tap));
        let main = &game.run.main;
        let of = |f: fn(&Outcome) -> bool| main.contacts.iter().filter(|c| f(&c.contact.outcome)).count();
        let (serves, passes) = (of(|o| matches!(o, Outcome::Serve { .. })), of(|o| matches!(o, Outcome::Pass { .. })));
        prop_assert_eq!(main.contacts.len(), serves + passes);
        prop_assert_eq!(main.everyone.all().tries(), 0);
        prop_assert!(main.by_child.values().all(|tally| tally.all().tries() == 0));
        let noted = main.score.match_game().map(|score| score.noted.clone()).unwrap_or_default();
        let all = |f: fn(&Noted) -> u32| noted.children().iter().map(|(_, noted)| f(noted)).sum::<u32>() as usize;
        prop_assert_eq!(all(|n| n.serves_in().tries()), serves);
        prop_assert_eq!(all(|n| n.passes_good().tries()), passes);
        let judged: u32 = main.touches.iter().map(|(_, t)| t.judged).sum();
        let fed: u32 = main.touches.iter().map(|(_, t)| t.fed).sum();
        prop_assert_eq!(judged as usize, serves + passes);
        let Rule::MatchGame(rule) = rule else { return Ok(()) };
        if rule.serves {
            prop_assert_eq!(fed, 0);
        } else {
            prop_assert_eq!(fed as usize, passes);
        }
    }

    /// FIVB Official Volleyball Rules 2025-28, 7.6.2: after as many side-outs as there are positions each stands as at first.
    #[test]
    fn a_whole_turn_of_side_outs_is_none(a_side in 3..7u8) {
        let n = usize::from(a_side);
        let mut game = Game::open(Rule::MatchGame(MatchGame { a_side, ..MatchGame::default() }), 2 * n);
        let opening = game.run.main.lineup.clone();
        for turn in 1..=n {
            for near in [false, true] {
                game.play(Tap::Won { near, other_served: false });
            }
            let back = game.run.main.lineup == opening;
            prop_assert_eq!(back, turn == n, "after {} side-outs", turn);
        }
    }
}
