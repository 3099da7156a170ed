//! Children who were entered on several phones and are one: whatever was said, by whom, and in which order it arrives, the same child
//! stays everywhere, and no ball is lost or counted twice.

use std::collections::BTreeSet;

use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::{Entry, Fact, Lineup};
use peppertally::domain::ids::{EntryId, PlayerId, Revision, RunId};
use peppertally::domain::replay::base::Base;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::skill::{Outcome, PassGrade};
use proptest::prelude::*;

use crate::support::{PRACTICE, Page, contact, run_started, shuffled};

const N_CHILDREN: usize = 6;

#[derive(Clone, Copy, Debug)]
enum Saying {
    Same(usize, usize),
    Two(usize, usize),
    /// Of what was said before: the how-manieth, and whether it is taken back or put back.
    TakenBack(usize, bool),
}

fn sayings() -> impl Strategy<Value = Vec<(usize, Saying)>> {
    let child = || 0..N_CHILDREN;
    let one = prop_oneof![
        4 => (child(), child()).prop_map(|(a, b)| Saying::Same(a, b)),
        1 => (child(), child()).prop_map(|(a, b)| Saying::Two(a, b)),
        2 => (0..8usize, any::<bool>()).prop_map(|(n, back)| Saying::TakenBack(n, back)),
    ];
    prop::collection::vec((0..3usize, one), 0..14)
}

/// Three pages that don't know of each other; the first three children are added on one, the others on another.
fn written(sayings: &[(usize, Saying)]) -> (Vec<Entry>, Vec<PlayerId>) {
    let mut pages = [Page::new(30, 0), Page::new(10, 400), Page::new(20, 50)];
    let mut log = Vec::new();
    for n in 0..N_CHILDREN {
        let name = format!("Child {n}");
        log.push(pages[n / 3].write(Fact::PlayerAdded { name, number: None }));
    }
    let children: Vec<PlayerId> = log.iter().map(|entry| PlayerId(entry.id)).collect();
    let mut said: Vec<EntryId> = Vec::new();
    for (page, saying) in sayings {
        let base = Base::fold(&log);
        let fact = match *saying {
            Saying::Same(a, b) => Fact::ChildrenJoined {
                stays: children[a],
                also: children[b],
                revision: base.next_pair_revision(children[a], children[b]),
            },
            Saying::Two(a, b) => Fact::ChildrenToldApart {
                one: children[a],
                other: children[b],
                revision: base.next_pair_revision(children[a], children[b]),
            },
            Saying::TakenBack(n, back) => match said.get(n) {
                Some(target) => {
                    Fact::EntryTakenBack { run: None, target: *target, revision: base.next_take_back(*target), back }
                }
                None => continue,
            },
        };
        let entry = pages[*page].write(fact);
        said.push(entry.id);
        log.push(entry);
    }
    (log, children)
}

/// A run in which every child has passed once more than the one before it.
fn played(children: &[PlayerId]) -> Vec<Entry> {
    let spec = &DrillSpec::starters(|n| format!("Drill {n}"))[0];
    let mut page = Page::new(9, 0);
    let start = page.write(Fact::PracticeStarted { title: String::new() });
    let lineup = Lineup { waiting: children.to_vec(), ..Lineup::default() };
    let run = page.write(run_started(spec, lineup));
    let outcome = Outcome::Pass { grade: PassGrade::Stood, over_net: false };
    let mut log = vec![start, run.clone()];
    for (n, child) in children.iter().enumerate() {
        for _ in 0..=n {
            let contact = contact(spec, Some(*child), outcome);
            log.push(page.write(Fact::ContactNoted { run: RunId(run.id), contact }));
        }
        let away = Fact::PresenceNoted { practice: PRACTICE, player: *child, revision: Revision(1), here: n % 2 == 0 };
        log.push(page.write(away));
    }
    log
}

fn run_of(base: &Base, log: &[Entry]) -> RunState {
    let of_run = log.iter().filter(|entry| entry.fact.run(entry.id).is_some());
    RunState::fold(of_run.map(|entry| base.same().read(entry.clone())).collect()).expect("the run")
}

proptest! {
    #[test]
    fn any_order_gives_the_same_child(sayings in sayings(), seed: u64) {
        let (mut log, children) = written(&sayings);
        log.extend(played(&children));
        let (one, mixed) = (Base::fold(&log), shuffled(&log, seed));
        let two = Base::fold(&mixed);
        prop_assert_eq!(&one, &two);
        prop_assert_eq!(run_of(&one, &log), run_of(&two, &mixed));

        // Who stays for one stays for itself: never a chain, never a ring.
        let same = one.same();
        for child in &children {
            prop_assert_eq!(same.of(same.of(*child)), same.of(*child));
        }
        // Each child is in the squad once, under the one that stays.
        let squad: BTreeSet<PlayerId> = one.players().iter().map(|p| p.id).collect();
        prop_assert_eq!(squad.len(), one.players().len());
        prop_assert_eq!(&squad, &children.iter().map(|child| same.of(*child)).collect::<BTreeSet<_>>());
        // What stands together is one child; and nobody is one with another unless somebody said so.
        for pair in one.pairs().into_iter().filter(|pair| pair.joined) {
            prop_assert_eq!(same.of(pair.one), same.of(pair.other));
        }
        if one.pairs().iter().all(|pair| !pair.joined) {
            prop_assert!(same.is_empty());
        }
    }

    #[test]
    fn totals_keep(sayings in sayings()) {
        let (mut log, children) = written(&sayings);
        log.extend(played(&children));
        let base = Base::fold(&log);
        let run = run_of(&base, &log);
        let of = |child: &PlayerId| run.main.by_child.get(child).map_or(0, |tally| tally.of(None).count.tries());
        let n = u32::try_from(children.len()).unwrap();
        prop_assert_eq!(run.main.contacts.len(), (n * (n + 1) / 2) as usize);
        prop_assert_eq!(run.main.by_child.keys().map(of).sum::<u32>(), n * (n + 1) / 2);
        // Each has its own balls and those of all whom it stays for.
        for stays in base.players() {
            let all = children.iter().zip(1u32..).filter(|(child, _)| base.same().of(**child) == stays.id);
            prop_assert_eq!(of(&stays.id), all.map(|(_, n)| n).sum::<u32>());
        }
        // Nobody stands twice.
        let stands: Vec<PlayerId> = run.main.lineup.everyone().collect();
        prop_assert_eq!(stands.iter().collect::<BTreeSet<_>>().len(), stands.len());
    }
}

fn same_as(log: &[Entry], child: PlayerId) -> PlayerId {
    Base::fold(log).same().of(child)
}

/// A for B on one phone, B for A on another: identity decides, everywhere.
#[test]
fn a_ring_is_the_lowest_identity() {
    let (log, children) = written(&[(0, Saying::Same(0, 3)), (1, Saying::Same(3, 0))]);
    // Of a pair the higher revision stands: what was said last.
    assert_eq!([same_as(&log, children[0]), same_as(&log, children[3])], [children[3]; 2]);
    // A ring of three: nobody is left whom none stays for.
    let (log, children) = written(&[(0, Saying::Same(0, 1)), (1, Saying::Same(1, 3)), (2, Saying::Same(3, 0))]);
    // Series 10 is lower than 30: child 3 was added there.
    assert!(children[3] < children[0]);
    assert_eq!([0, 1, 3].map(|n| same_as(&log, children[n])), [children[3]; 3]);
}

/// A for B, B for C: all is A's. Once A for B is taken back, C is B's still.
#[test]
fn a_chain_leads_to_its_head() {
    let (log, children) = written(&[(0, Saying::Same(1, 3)), (1, Saying::Same(3, 4))]);
    assert_eq!([1, 3, 4].map(|n| same_as(&log, children[n])), [children[1]; 3]);
    let back = [(0, Saying::Same(1, 3)), (1, Saying::Same(3, 4)), (2, Saying::TakenBack(0, true))];
    let (log, children) = written(&back);
    assert_eq!([1, 3, 4].map(|n| same_as(&log, children[n])), [children[1], children[3], children[3]]);
}

/// Two children after all; and the same after that once more.
#[test]
fn the_last_word_on_a_pair_stands() {
    let told = [(0, Saying::Same(0, 3)), (1, Saying::Two(3, 0)), (2, Saying::Same(0, 3))];
    for (n, joined) in [(1, true), (2, false), (3, true)] {
        let (log, children) = written(&told[..n]);
        assert_eq!(same_as(&log, children[3]) == children[0], joined, "{n}");
        assert_eq!(Base::fold(&log).pairs().iter().map(|pair| pair.joined).collect::<Vec<_>>(), [joined]);
    }
    // Taken back, the word before it stands again.
    let (log, children) = written(&[told[0], told[1], (0, Saying::TakenBack(1, true))]);
    assert_eq!(same_as(&log, children[3]), children[0]);
}

/// The one that was said to stay is not known here (its copy was taken back): the other keeps its name and its place.
#[test]
fn who_is_not_here_stays_for_nobody() {
    let (log, children) = written(&[(0, Saying::Same(0, 3))]);
    let without: Vec<Entry> = log.into_iter().filter(|entry| entry.id != children[0].0).collect();
    let base = Base::fold(&without);
    assert_eq!(base.same().of(children[0]), children[3]);
    assert!(base.players().iter().any(|p| p.id == children[3]));
}
