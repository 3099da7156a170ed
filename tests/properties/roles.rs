//! Roles by turns in a run: everyone stands somewhere once, roles are filled from the first, each has each role equally often within
//! one, and undo is exact.

use std::collections::HashMap;

use peppertally::domain::drill::{Board, DrillSpec, OnFloor, SwapEvery};
use peppertally::domain::entry::{Entry, Fact, Lineup, LineupCause};
use peppertally::domain::ids::{Clock, PlayerId, RunId};
use peppertally::domain::replay::part::Part;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::roles;
use peppertally::domain::skill::{Outcome, PassGrade};
use peppertally::domain::turns::{Doing, Slot};
use proptest::prelude::*;

use crate::support::{Page, child, contact, run_started, shuffled};

#[derive(Clone, Copy, Debug)]
enum Act {
    /// A ball; by the one who stands at this place.
    Ball(u8),
    NoChance,
    Swap,
    Presence(u8),
    Undo,
}

fn specs() -> impl Strategy<Value = DrillSpec> {
    let swap =
        prop_oneof![Just(SwapEvery::Never), (1..6u8).prop_map(SwapEvery::Balls), (1..3u8).prop_map(SwapEvery::Minutes)];
    (1..=3u8, any::<bool>(), 0..4u8, 0..3u8, swap).prop_map(|(n_places, target, n_getters, n_feeders, swap)| {
        let spec = DrillSpec::starters(|i| format!("drill {i}")).remove(0);
        let on_floor = OnFloor { target, n_getters, n_feeders, swap, ..OnFloor::default() };
        DrillSpec { board: Board::Floor { n_places }, on_floor, ..spec }
    })
}

fn acts(presence: bool) -> impl Strategy<Value = Vec<Act>> {
    let act = prop_oneof![
        6 => (0..3u8).prop_map(Act::Ball),
        1 => Just(Act::NoChance),
        3 => Just(Act::Swap),
        u32::from(presence) + 1 => (0..20u8).prop_map(move |who| if presence { Act::Presence(who) } else { Act::Swap }),
        1 => Just(Act::Undo),
    ];
    prop::collection::vec(act, 0..60)
}

struct Court {
    page: Page,
    run: RunState,
    log: Vec<Entry>,
    /// What the part was before each entry that undo can take back.
    before: HashMap<peppertally::domain::ids::EntryId, Part>,
}

impl Court {
    fn open(spec: &DrillSpec, n: usize) -> Court {
        let mut page = Page::new(5, 10);
        let here: Vec<PlayerId> = (0..n).map(child).collect();
        let start = page.write(run_started(spec, Lineup::opening(spec, &here, &[])));
        let run = RunState::fold(vec![start.clone()]).expect("a start");
        Court { page, run, log: vec![start], before: HashMap::new() }
    }

    fn write(&mut self, fact: Fact) {
        let entry = self.page.write(fact);
        self.before.insert(entry.id, self.run.main.clone());
        self.log.push(entry.clone());
        self.run.note(entry);
    }

    fn id(&self) -> RunId {
        self.run.id
    }

    /// As the app does it.
    fn play(&mut self, act: Act) {
        let spec = self.run.spec.clone();
        match act {
            Act::Ball(place) => {
                let Some(player) = self.run.main.lineup.places.get(usize::from(place)).copied().flatten() else {
                    return;
                };
                let outcome = Outcome::Pass { grade: PassGrade::Moved, over_net: false };
                self.write(Fact::ContactNoted { run: self.id(), contact: contact(&spec, Some(player), outcome) });
                if let Some(due) = self.run.turn_due(0) {
                    self.write(due);
                }
            }
            Act::NoChance => {
                self.write(Fact::ContactNoted { run: self.id(), contact: contact(&spec, None, Outcome::NoChance) });
            }
            Act::Swap => {
                if let Some(lineup) = self.run.next_turn().cloned() {
                    self.write(Fact::LineupSet { run: self.id(), lineup, cause: LineupCause::Swap });
                }
            }
            Act::Presence(who) => {
                let player = child(usize::from(who));
                let here = self.run.main.lineup.everyone().all(|p| p != player);
                let lineup = roles::filled(&spec, &self.run.main.lineup.with_presence(player, here));
                self.write(Fact::LineupSet { run: self.id(), lineup, cause: LineupCause::ByHand });
            }
            Act::Undo => {
                let Some(target) = self.run.next_undo().map(|e| e.id) else { return };
                let revision = self.run.amended.next_take_back(target);
                self.write(Fact::EntryTakenBack { run: Some(self.id()), target, revision, back: true });
            }
        }
    }
}

fn doings(lineup: &Lineup) -> Vec<(PlayerId, Doing)> {
    let turn = roles::turn_of(lineup);
    let in_slots = turn.slots.iter().filter_map(|(slot, p)| p.map(|p| (p, Some(*slot))));
    in_slots.chain(turn.resting.iter().map(|p| (*p, None))).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    #[test]
    fn everyone_stands_somewhere_once_and_roles_are_filled_from_the_first(
        spec in specs(), n in 3..=20usize, acts in acts(true)
    ) {
        prop_assume!(roles::rotates(&spec));
        let mut court = Court::open(&spec, n);
        let slots: Vec<Slot> = roles::slots(&spec);
        for act in acts {
            let mut here: Vec<PlayerId> = court.run.main.lineup.everyone().collect();
            court.play(act);
            let mut all: Vec<PlayerId> = court.run.main.lineup.everyone().collect();
            let n_all = all.len();
            if let Act::Presence(who) = act {
                let player = child(usize::from(who));
                if here.contains(&player) { here.retain(|p| *p != player) } else { here.push(player) }
            }
            all.sort_unstable();
            all.dedup();
            here.sort_unstable();
            prop_assert_eq!(all.len(), n_all, "doubled after {:?}", act);
            if !matches!(act, Act::Undo) {
                prop_assert_eq!(all, here, "after {:?}", act);
            }
            let mut filled: Vec<Slot> = doings(&court.run.main.lineup).iter().filter_map(|(_, doing)| *doing).collect();
            filled.sort_unstable();
            let mut wanted = slots[..slots.len().min(n_all)].to_vec();
            wanted.sort_unstable();
            prop_assert_eq!(filled, wanted, "after {:?}", act);
        }
    }

    #[test]
    fn each_has_each_role_equally_often_within_one(spec in specs(), n in 3..=20usize, balls in prop::collection::vec(0..4u8, 0..50)) {
        prop_assume!(roles::rotates(&spec));
        let mut court = Court::open(&spec, n);
        let mut had: HashMap<(PlayerId, Doing), u32> = HashMap::new();
        let mut all: Vec<Doing> = roles::slots(&spec).into_iter().map(Some).collect();
        all.push(None);
        for n_balls in balls {
            let lineup = court.run.main.lineup.clone();
            for _ in 0..n_balls {
                court.play(Act::Ball(0));
                if court.run.main.lineup != lineup {
                    break;
                }
            }
            if court.run.main.lineup == lineup {
                court.play(Act::Swap);
            }
            doings(&lineup).into_iter().for_each(|key| *had.entry(key).or_default() += 1);
            for doing in &all {
                let counts: Vec<u32> = (0..n).map(|i| had.get(&(child(i), *doing)).copied().unwrap_or(0)).collect();
                let (least, most) = (counts.iter().min().unwrap(), counts.iter().max().unwrap());
                prop_assert!(most - least <= 1, "{:?}: {:?}", doing, counts);
            }
        }
    }

    #[test]
    fn undo_is_exact_and_any_order_of_arrival_folds_the_same(
        spec in specs(), n in 3..=12usize, acts in acts(true), seed: u64
    ) {
        prop_assume!(roles::rotates(&spec));
        let mut court = Court::open(&spec, n);
        for act in acts.into_iter().chain(std::iter::repeat_n(Act::Undo, 80)) {
            let undone = court.run.next_undo().map(|e| e.id);
            court.play(act);
            if let (Act::Undo, Some(undone)) = (act, undone) {
                prop_assert_eq!(&court.run.main, &court.before[&undone]);
            }
        }
        prop_assert!(court.run.next_undo().is_none());
        prop_assert_eq!(&RunState::fold(shuffled(&court.log, seed)).expect("a run"), &court.run);
    }
}

/// Found in review: A's clock stands at 9 when it takes its ball back, B's at 5 when it goes on from there. What B plays came after the
/// taking-back, whatever the clocks say, so the turn that was undone stays undone; folded again as well.
#[test]
fn what_was_played_after_a_taking_back_is_told_by_the_line_not_by_clocks() {
    let spec = DrillSpec::starters(|i| format!("drill {i}")).remove(0);
    let on_floor = OnFloor { swap: SwapEvery::Balls(1), ..OnFloor::default() };
    let spec = DrillSpec { on_floor, ..spec };
    let here: Vec<PlayerId> = (0..6).map(child).collect();
    let (mut a, mut b) = (Page::new(5, 0), Page::new(3, 4));
    let start = a.write(run_started(&spec, Lineup::opening(&spec, &here, &[])));
    let mut run = RunState::fold(vec![start.clone()]).expect("a start");
    let mut log = vec![start];
    let mut note = |run: &mut RunState, entry: Entry| {
        run.note(entry.clone());
        log.push(entry);
        assert_eq!(run, &RunState::fold(log.clone()).expect("a run"), "after {:?}", log.last());
    };
    let id = run.id;
    let first = run.main.lineup.clone();
    let outcome = Outcome::Pass { grade: PassGrade::Moved, over_net: false };
    let ball = |run: &RunState| {
        let player = run.main.lineup.places[0];
        Fact::ContactNoted { run: id, contact: contact(&spec, player, outcome) }
    };
    let played = a.write(ball(&run));
    note(&mut run, played.clone());
    let swap = a.write(run.turn_due(0).expect("a turn of one ball"));
    note(&mut run, swap);
    assert_ne!(run.main.lineup, first);
    let mut taken = a.write(Fact::EntryTakenBack {
        run: Some(id),
        target: played.id,
        revision: run.amended.next_take_back(played.id),
        back: true,
    });
    // It has seen others meanwhile, whose clocks stood further on.
    taken.clock = Clock(9);
    note(&mut run, taken.clone());
    assert_eq!(run.main.lineup, first, "the turn isn't over");
    note(&mut run, b.write(Fact::RunTakenOver { run: id, after: taken.id, recorder: String::new() }));
    let other = b.write(ball(&run));
    assert_eq!((other.clock, taken.clock), (Clock(6), Clock(9)));
    note(&mut run, other);
    assert_eq!(run.main.lineup, first);
    assert_eq!(run.main.turn_balls, 1);
}
