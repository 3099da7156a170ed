//! Several pages that see each other's entries late. The main line is what its writer saw, whole; the rest stands beside.

use std::collections::BTreeSet;

use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::{Entry, Fact, Lineup};
use peppertally::domain::ids::{ContactId, EntryId, PlayerId};
use peppertally::domain::replay::part::Part;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::skill::{Outcome, PassGrade};
use proptest::prelude::*;

use crate::support::{Page, child, contact, run_started, shuffled};
use crate::taps::{N_PAGES, specs};

#[derive(Clone, Copy, Debug)]
enum Move {
    Tap {
        page: usize,
    },
    GoOn {
        page: usize,
    },
    /// `to` sees everything that `from` has.
    See {
        from: usize,
        to: usize,
    },
}

fn moves() -> impl Strategy<Value = Vec<Move>> {
    let page = || 0..N_PAGES;
    let one = prop_oneof![
        5 => page().prop_map(|page| Move::Tap { page }),
        2 => page().prop_map(|page| Move::GoOn { page }),
        2 => (page(), page()).prop_map(|(from, to)| Move::See { from, to }),
    ];
    prop::collection::vec(one, 1..40)
}

/// A page with what it has seen, and the contacts of its own main line when it last wrote.
struct Phone {
    page: Page,
    series: u64,
    seen: Vec<Entry>,
    wrote: Vec<ContactId>,
}

impl Phone {
    fn run(&self) -> RunState {
        RunState::fold(self.seen.clone()).expect("every phone has seen the start")
    }

    fn write(&mut self, fact: Fact) {
        let entry = self.page.write(fact);
        self.seen.push(entry);
        self.wrote = ids(&self.run().main);
    }

    fn see(&mut self, entries: &[Entry]) {
        for entry in entries {
            if !self.seen.iter().any(|e| e.id == entry.id) {
                self.seen.push(entry.clone());
            }
        }
    }
}

fn ids(part: &Part) -> Vec<ContactId> {
    part.contacts.iter().map(|c| c.id).collect()
}

fn tap(run: &RunState) -> Fact {
    let outcome = Outcome::Pass { grade: PassGrade::Stood, over_net: false };
    Fact::ContactNoted { run: run.id, contact: contact(&run.spec, Some(child(0)), outcome) }
}

/// `clocks` says where each page's clock stands: no page's clock knows of another's.
fn played(spec: &DrillSpec, clocks: &[u64], moves: &[Move]) -> Vec<Phone> {
    let here: Vec<PlayerId> = (0..4).map(child).collect();
    let mut first = Page::new(20, clocks[0]);
    let start = first.write(run_started(spec, Lineup::opening(spec, &here, &[])));
    let mut phones: Vec<Phone> = (0..N_PAGES)
        .map(|n| {
            let series = [20, 30, 10][n];
            let page = if n == 0 { first.clone() } else { Page::new(series, clocks[n]) };
            Phone { page, series, seen: vec![start.clone()], wrote: Vec::new() }
        })
        .collect();
    for step in moves {
        match *step {
            // A page that knows that another goes on takes no taps.
            Move::Tap { page } => {
                let run = phones[page].run();
                if run.writer.0 == phones[page].series {
                    phones[page].write(tap(&run));
                }
            }
            Move::GoOn { page } => {
                let run = phones[page].run();
                let (run, after) = (run.id, run.last_seen());
                phones[page].write(Fact::RunTakenOver { run, after, recorder: String::new() });
            }
            Move::See { from, to } => {
                let seen = phones[from].seen.clone();
                phones[to].see(&seen);
            }
        }
    }
    phones
}

proptest! {
    #[test]
    fn the_main_line_is_what_its_writer_saw(
        spec in specs(), clocks in prop::collection::vec(0..500u64, N_PAGES), moves in moves(), seed: u64,
    ) {
        let mut phones = played(&spec, &clocks, &moves);
        let all: Vec<Entry> = phones.iter().flat_map(|p| p.seen.clone()).collect();
        phones.iter_mut().for_each(|p| p.see(&all));
        let run = RunState::fold(shuffled(&all, seed)).unwrap();
        let writer = phones.iter().find(|p| p.series == run.writer.0).unwrap();
        prop_assert_eq!(ids(&run.main), writer.wrote.clone());

        // Nothing is lost, and what stands beside is one page's own, in its own order.
        let noted: BTreeSet<ContactId> = all
            .iter()
            .filter(|e| matches!(e.fact, Fact::ContactNoted { .. }))
            .map(|e| ContactId(e.id))
            .collect();
        let counted: BTreeSet<ContactId> = run.parts().flat_map(ids).collect();
        prop_assert_eq!(counted, noted);
        for (series, part) in &run.beside {
            let ids: Vec<EntryId> = ids(part).into_iter().map(|c| c.0).collect();
            prop_assert!(ids.iter().all(|id| id.series == *series));
            prop_assert!(ids.is_sorted());
        }
        // Every phone now shows the same.
        for phone in &phones {
            prop_assert_eq!(&phone.run(), &run);
        }
    }

    #[test]
    fn nonsense_is_tolerated(claims in prop::collection::vec((0..4u64, 0..6u64, 0..12u32, any::<bool>()), 1..25), seed: u64) {
        tolerate(claims, seed);
    }
}

/// Found by the property above: who leads back to an earlier opening of its own series shared entries with it.
#[test]
fn a_way_back_to_an_earlier_opening_counts_nothing_twice() {
    tolerate(vec![(0, 1, 0, true), (0, 2, 0, true), (1, 0, 3, true), (0, 0, 0, false)], 0);
}

/// Entries that only damage or forgery can make: page n says it goes on after (series, number), or taps. No panic, the same
/// for every order, nothing lost.
fn tolerate(claims: Vec<(u64, u64, u32, bool)>, seed: u64) {
    let spec = &DrillSpec::starters(|n| format!("Drill {n}"))[0];
    let mut pages: Vec<Page> = (0..4).map(|n| Page::new(n, 50 * n)).collect();
    let start = pages[0].write(run_started(spec, Lineup::default()));
    let mut run = RunState::fold(vec![start.clone()]).unwrap();
    let mut all = vec![start];
    for (page, series, no, goes_on) in claims {
        let after = EntryId::new(series, no);
        let on = Fact::RunTakenOver { run: run.id, after, recorder: String::new() };
        let entry = pages[page as usize].write(if goes_on { on } else { tap(&run) });
        all.push(entry.clone());
        run.note(entry);
        assert_eq!(run, RunState::fold(shuffled(&all, seed)).unwrap());
    }
    let n_noted = all.iter().filter(|e| matches!(e.fact, Fact::ContactNoted { .. })).count();
    assert_eq!(run.parts().map(|p| p.contacts.len()).sum::<usize>(), n_noted);
    assert!(run.entries().any(|e| e.id == run.last_seen()));
}

/// Two go on from the same point at the same time: one is the main line whole, the other stands beside whole.
#[test]
fn two_who_went_on_are_held_apart() {
    let see = |from, to| Move::See { from, to };
    let (tap, on) = (|page| Move::Tap { page }, |page| Move::GoOn { page });
    let moves = [
        tap(0),
        tap(0),
        see(0, 1),
        see(0, 2),
        on(1),
        on(2),
        tap(1),
        tap(2),
        tap(1),
        tap(2),
        tap(1),
        see(1, 2),
        see(2, 1),
    ];
    let spec = &DrillSpec::starters(|n| format!("Drill {n}"))[0];
    let phones = played(spec, &[500, 0, 100], &moves);
    let run = phones[1].run();
    assert_eq!(run, phones[2].run());
    // Both follow one; the higher clock goes on: page 2 of series 10 has 101, page 1 has 1.
    assert_eq!(run.writer.0, 10);
    let series = |part: &Part| part.contacts.iter().map(|c| c.id.0.series.0).collect::<Vec<_>>();
    assert_eq!(series(&run.main), [20, 20, 10, 10]);
    assert_eq!(run.beside.iter().map(|(_, part)| series(part)).collect::<Vec<_>>(), [[30, 30, 30]]);
}

/// A stale page goes on from what it saw long ago, after another had gone on from it: what the other wrote is beside, whole.
#[test]
fn going_on_from_an_old_sight_leaves_what_it_did_not_see_beside() {
    let see = |from, to| Move::See { from, to };
    let (tap, on) = (|page| Move::Tap { page }, |page| Move::GoOn { page });
    // 1 goes on after 0 and taps twice; 2 sees it after the first of these and goes on; then 1, not having seen 2, taps again.
    let moves = [tap(0), see(0, 1), on(1), tap(1), see(1, 2), on(2), tap(2), tap(1), see(1, 0), see(2, 0)];
    let spec = &DrillSpec::starters(|n| format!("Drill {n}"))[0];
    let run = played(spec, &[0, 0, 0], &moves)[0].run();
    let series = |part: &Part| part.contacts.iter().map(|c| c.id.0.series.0).collect::<Vec<_>>();
    assert_eq!(series(&run.main), [20, 30, 10]);
    assert_eq!(run.beside.iter().map(|(_, part)| series(part)).collect::<Vec<_>>(), [[30]]);
}
