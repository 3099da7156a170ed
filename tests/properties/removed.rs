//! A run from which a child was removed, whatever was played and by however many pages: nothing of the child, all of the others, and folded the
//! same in any order.

use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{Clock, ContactId, EntryId, PlayerId, RunId};
use peppertally::domain::log::Log;
use peppertally::domain::removed::Removed;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::skill::{Outcome, PassGrade};
use peppertally::domain::summary::{Counts, RunSummary};
use peppertally::domain::time::Stamp;
use proptest::prelude::*;

use crate::support::{Page, child, contact, shuffled};
use crate::taps::{Court, anyone, rule_specs, specs};

fn removal(players: &[PlayerId]) -> Entry {
    Entry {
        id: EntryId::new(0xdead_0000_dead, 0),
        clock: Clock(1),
        at: Stamp { wall_ms: 0, offset_min: 0, mono_ms: 0 },
        fact: Fact::ChildRemoved { players: players.to_vec(), notes: Vec::new() },
        extra: None,
    }
}

/// Balls, each a child's and with so many checks; these are written by another page, whose identities come first or last.
fn checked(balls: &[(usize, usize)], page: u64) -> (Vec<Entry>, Vec<(usize, EntryId)>) {
    let spec = &DrillSpec::starters(|n| format!("Drill {n}"))[0];
    let run = RunId(EntryId::new(8, 0));
    let outcome = Outcome::Pass { grade: PassGrade::Moved, over_net: false };
    let (mut court, mut bench) = (Page::new(500, 0), Page::new(page, 900));
    let (mut entries, mut checks) = (Vec::new(), Vec::new());
    for (of, n) in balls {
        let ball = court.write(Fact::ContactNoted { run, contact: contact(spec, Some(child(*of)), outcome) });
        let check = Fact::BallChecked { run, contact: ContactId(ball.id), outcome };
        entries.push(ball);
        for _ in 0..*n {
            let check = bench.write(check.clone());
            checks.push((*of, check.id));
            entries.push(check);
        }
    }
    (entries, checks)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    #[test]
    fn nothing_of_the_child_and_all_of_the_others(spec in prop_oneof![specs(), rule_specs()], acts in anyone(), which in 0..6usize, seed: u64) {
        let court = Court::played(&spec, &acts);
        let gone = child(which);
        let removed = Removed::of([&removal(&[gone])]);
        let emptied: Vec<Entry> = court.log.iter().map(|entry| removed.emptied(entry.clone())).collect();
        let run = RunState::fold(shuffled(&emptied, seed)).expect("a run with a start");
        // One after another, in another order, it is the same run.
        let mut advanced = RunState::fold(vec![emptied[0].clone()]).expect("its start");
        shuffled(&emptied, !seed).into_iter().for_each(|entry| advanced.note(entry));
        prop_assert_eq!(&run, &advanced);

        prop_assert!(!run.everyone().contains(&gone));
        for part in run.parts() {
            prop_assert!(!part.by_child.contains_key(&gone));
            prop_assert!(part.contacts.iter().all(|c| c.contact.player != Some(gone) && c.contact.server != Some(gone)));
            prop_assert!(part.rallies.iter().all(|r| !r.rally.near.contains(&gone) && !r.rally.far.contains(&gone)));
            prop_assert!(part.efforts.iter().all(|effort| effort.player != Some(gone)));
        }
        let summary = RunSummary::of(&run);
        prop_assert!(summary.children.iter().all(|(player, _)| *player != gone) && !summary.order.contains(&gone));
        let before = court.run.main.by_child.iter().filter(|(player, _)| **player != gone);
        for (player, tally) in before {
            let now = run.main.by_child.get(player).map(Counts::of).unwrap_or_default();
            prop_assert_eq!(now, Counts::of(tally), "of {:?}", player);
        }
    }

    /// What the coach saw of a ball goes with the ball, whichever of ball, check and removal comes first, and no other's does.
    #[test]
    fn checks_go_with_their_balls(
        balls in proptest::collection::vec((0..4usize, 0..4usize), 0..24),
        gone in proptest::collection::btree_set(0..4usize, 1..3),
        page in prop_oneof![Just(3u64), Just(900)],
        seed: u64,
    ) {
        let (mut entries, checks) = checked(&balls, page);
        let players: Vec<PlayerId> = gone.iter().map(|n| child(*n)).collect();
        entries.push(removal(&players));
        let log = Log::from_iter(shuffled(&entries, seed));
        let mut knowing = Log::default();
        knowing.know(&Removed::of([&removal(&players)]));
        knowing.extend(shuffled(&entries, !seed));
        prop_assert_eq!(&log, &knowing);
        prop_assert_eq!(&log, &Log::from_iter(entries.iter().cloned()));
        for (of, check) in checks {
            let is_said = log.get(check).is_some_and(|entry| matches!(entry.fact, Fact::BallChecked { .. }));
            prop_assert_eq!(is_said, !gone.contains(&of), "of {}", of);
        }
        // As a list has it that holds both, and nothing is left to be done a second time.
        let listed = Removed::of([&removal(&players)]).emptied_all(entries);
        prop_assert!(listed.iter().all(|entry| log.get(entry.id) == Some(entry)));
        let mut twice = log.clone();
        prop_assert_eq!(twice.know(&Removed::of([&removal(&players)])), Vec::new());
        twice.extend(shuffled(&listed, seed));
        prop_assert_eq!(twice, log);
    }
}
