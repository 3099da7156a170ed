//! Practices that were begun on several phones and are one: whatever was said, by whom, and in which order it arrives, the same ones are one
//! everywhere, and read together nothing is counted twice or lost.

use std::collections::BTreeSet;

use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::{Entry, Fact, Lineup};
use peppertally::domain::ids::{EntryId, PlanId, PlayerId, PracticeId, Revision, RunId};
use peppertally::domain::log::Log;
use peppertally::domain::plan::{Plan, PlanDone};
use peppertally::domain::replay::base::Base;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::skill::{Outcome, PassGrade};
use peppertally::domain::summary::PracticeSummary;
use proptest::prelude::*;

use crate::support::{Page, child, contact, shuffled};

const N: usize = 5;

#[derive(Clone, Copy, Debug)]
enum Saying {
    One(usize, usize),
    Two(usize, usize),
    /// Of what was said before: the how-manieth, and whether it is taken back or put back.
    TakenBack(usize, bool),
}

fn sayings() -> impl Strategy<Value = Vec<(usize, Saying)>> {
    let practice = || 0..N;
    let one = prop_oneof![
        4 => (practice(), practice()).prop_map(|(a, b)| Saying::One(a, b)),
        1 => (practice(), practice()).prop_map(|(a, b)| Saying::Two(a, b)),
        2 => (0..8usize, any::<bool>()).prop_map(|(n, back)| Saying::TakenBack(n, back)),
    ];
    prop::collection::vec((0..N, one), 0..14)
}

/// A phone each with a practice and a run, in which `n` balls were passed by child `n` and one by child 0; who didn't was noted away on
/// every second phone.
fn practised() -> (Vec<Page>, Vec<Entry>, Vec<PracticeId>) {
    let spec = &DrillSpec::starters(|n| format!("Drill {n}"))[0];
    let outcome = Outcome::Pass { grade: PassGrade::Stood, over_net: false };
    let mut log = Vec::new();
    let mut practices = Vec::new();
    let mut pages: Vec<Page> = [30, 10, 20, 50, 40].map(|series| Page::new(series, series * 7)).into();
    for (n, page) in pages.iter_mut().enumerate() {
        let start = page.write(Fact::PracticeStarted { title: format!("Practice {n}") });
        let practice = PracticeId(start.id);
        practices.push(practice);
        log.push(start);
        let lineup = Lineup { waiting: vec![child(0), child(n)], ..Lineup::default() };
        let (spec, recorder) = (spec.clone(), String::new());
        let run = page.write(Fact::RunStarted { practice, drill: None, spec: spec.clone(), lineup, recorder });
        let id = RunId(run.id);
        log.push(run);
        for player in std::iter::repeat_n(child(n), n).chain([child(0)]) {
            log.push(page.write(Fact::ContactNoted { run: id, contact: contact(&spec, Some(player), outcome) }));
        }
        for player in (1..=N).filter(|other| n % 2 == 1 && *other != n).map(child) {
            log.push(page.write(Fact::PresenceNoted { practice, player, revision: Revision(1), here: false }));
        }
        log.push(page.write(Fact::PracticeEnded { practice }));
    }
    (pages, log, practices)
}

fn written(sayings: &[(usize, Saying)]) -> (Vec<Entry>, Vec<PracticeId>) {
    let (mut pages, mut log, practices) = practised();
    let mut said: Vec<EntryId> = Vec::new();
    for (page, saying) in sayings {
        let base = Base::fold(&log);
        let fact = match *saying {
            Saying::One(a, b) => Fact::PracticesJoined {
                stays: practices[a],
                also: practices[b],
                revision: base.next_practice_pair_revision(practices[a], practices[b]),
            },
            Saying::Two(a, b) => Fact::PracticesToldApart {
                one: practices[a],
                other: practices[b],
                revision: base.next_practice_pair_revision(practices[a], practices[b]),
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
    (log, practices)
}

/// Each set read together, and each practice that stands alone.
fn summaries(log: &[Entry]) -> Vec<PracticeSummary> {
    let base = Base::fold(log);
    let of = |id: PracticeId| {
        let practice = base.practice(id).expect("begun here");
        let of_run = |run: &RunId| log.iter().filter(|entry| entry.fact.run(entry.id) == Some(*run)).cloned().collect();
        let runs: Vec<RunState> = practice.runs.iter().filter_map(|run| RunState::fold(of_run(run))).collect();
        PracticeSummary::of(&practice, runs.iter())
    };
    let alone = base.practices().into_iter().map(|p| p.id).filter(|id| base.as_one().set(*id).is_empty());
    let sets = base.as_one().sets().iter().cloned().chain(alone.map(|id| vec![id]));
    let joined = |set: Vec<PracticeId>| {
        let all: Vec<PracticeSummary> = set.into_iter().map(of).collect();
        PracticeSummary::joined(&all.iter().collect::<Vec<_>>()).expect("one at least")
    };
    sets.map(joined).collect()
}

proptest! {
    #[test]
    fn any_order_gives_the_same_practice(sayings in sayings(), seed: u64) {
        let (log, practices) = written(&sayings);
        let mixed = shuffled(&log, seed);
        let (one, two) = (Base::fold(&log), Base::fold(&mixed));
        prop_assert_eq!(&one, &two);
        prop_assert_eq!(summaries(&log), summaries(&mixed));
        // Half of it known before the other half, in either order.
        let (first, second) = mixed.split_at(mixed.len() / 2);
        let [first, second]: [Log; 2] = [first, second].map(|part| part.iter().cloned().collect());
        let merged = [first.clone().union(second.clone()), second.union(first)].map(|log| Base::fold(log.iter()));
        prop_assert!(merged.iter().all(|base| base == &one));

        // Every practice is in one set at most; a set has two at least, and somebody said so of some pair in it.
        let sets = one.as_one().sets();
        let all: Vec<PracticeId> = sets.concat();
        prop_assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), all.len());
        prop_assert!(sets.iter().all(|set| set.len() > 1));
        let pairs = one.practice_pairs();
        for pair in pairs.iter().filter(|pair| pair.joined) {
            prop_assert!(one.as_one().are_one(pair.one, pair.other));
        }
        if pairs.iter().all(|pair| !pair.joined) {
            prop_assert!(sets.is_empty());
        }
        prop_assert!(practices.iter().all(|practice| one.as_one().are_one(*practice, *practice)));
    }

    #[test]
    fn nothing_is_counted_twice_or_lost(sayings in sayings()) {
        let (log, practices) = written(&sayings);
        let base = Base::fold(&log);
        let all = summaries(&log);
        // Five practices, one fewer for each that is read with another.
        let n_joined: usize = base.as_one().sets().iter().map(|set| set.len() - 1).sum();
        prop_assert_eq!(all.len(), N - n_joined);
        let runs: Vec<RunId> = all.iter().flat_map(|p| &p.runs).map(|run| run.run).collect();
        prop_assert_eq!(runs.iter().collect::<BTreeSet<_>>().len(), N);
        prop_assert_eq!(runs.len(), N);
        // 0 + 1 + 2 + 3 + 4 by the children and one each by child 0.
        prop_assert_eq!(all.iter().map(PracticeSummary::n_counted).sum::<usize>(), 15);
        for practice in &all {
            let when: Vec<(i64, RunId)> = practice.runs.iter().map(|run| (run.started.wall_ms, run.run)).collect();
            prop_assert!(when.is_sorted());
            // Whoever was counted is here, whatever another phone noted.
            for (n, own) in practices.iter().enumerate().skip(1) {
                let plays = |run: &RunId| run.0.series == own.0.series;
                if practice.runs.iter().any(|run| plays(&run.run)) {
                    prop_assert!(!practice.away.contains(&child(n)), "{n}");
                }
            }
            // Nobody is away of whom nobody said so.
            prop_assert!(!practice.away.contains(&child(0)));
        }
    }
}

fn sets(log: &[Entry]) -> Vec<Vec<PracticeId>> {
    Base::fold(log).as_one().sets().to_vec()
}

/// A for B on one phone, B for C on another, C for A on the third: the lowest identity, everywhere.
#[test]
fn a_ring_is_the_lowest_identity() {
    let (log, p) = written(&[(0, Saying::One(0, 1)), (1, Saying::One(1, 3)), (2, Saying::One(3, 0))]);
    // Series 10, 30, 50.
    assert_eq!(sets(&log), [[p[1], p[0], p[3]]]);
}

/// A for B, B for C: all are A's. Once A for B is taken back, C is B's still.
#[test]
fn a_chain_leads_to_its_head() {
    let (log, p) = written(&[(0, Saying::One(3, 0)), (1, Saying::One(0, 1))]);
    assert_eq!(sets(&log), [[p[3], p[1], p[0]]]);
    let (log, p) = written(&[(0, Saying::One(3, 0)), (1, Saying::One(0, 1)), (2, Saying::TakenBack(0, true))]);
    assert_eq!(sets(&log), [[p[0], p[1]]]);
}

/// Two after all, and one after that once more.
#[test]
fn the_last_word_on_a_pair_stands() {
    let told = [(0, Saying::One(0, 3)), (1, Saying::Two(3, 0)), (2, Saying::One(0, 3))];
    for (n, joined) in [(1, true), (2, false), (3, true)] {
        let (log, _) = written(&told[..n]);
        assert_eq!(!sets(&log).is_empty(), joined, "{n}");
        assert_eq!(Base::fold(&log).practice_pairs().iter().map(|pair| pair.joined).collect::<Vec<_>>(), [joined]);
    }
    // Taken back, the word before it stands again.
    let (log, p) = written(&[told[0], told[1], (0, Saying::TakenBack(1, true))]);
    assert_eq!(sets(&log), [[p[0], p[3]]]);
}

/// The plan of the one that stays; of one that has none, the next one's.
#[test]
fn one_plan() {
    let (log, p) = written(&[]);
    let base = Base::fold(&log);
    let with = |id: PracticeId, plan: Option<u32>| {
        let plan = plan.map(|no| {
            let plan = Plan::new();
            PlanDone { id: PlanId(EntryId::new(3, no)), plan, done: Vec::new(), out: Vec::new() }
        });
        PracticeSummary { plan, ..PracticeSummary::of(&base.practice(id).unwrap(), std::iter::empty()) }
    };
    let plan_of = |plans: [Option<u32>; 3]| {
        let all: Vec<PracticeSummary> = plans.iter().enumerate().map(|(n, plan)| with(p[n], *plan)).collect();
        PracticeSummary::joined(&all.iter().collect::<Vec<_>>()).unwrap().plan.map(|done| done.id.0.no.0)
    };
    assert_eq!(plan_of([Some(1), Some(2), None]), Some(1));
    assert_eq!(plan_of([None, None, Some(3)]), Some(3));
    assert_eq!(plan_of([None; 3]), None);
}

/// Who was here: noted away at one station and counted at another; away at all that noted it; counted, then gone early.
#[test]
fn here_in_either_is_here() {
    let (log, p) = written(&[]);
    let base = Base::fold(&log);
    let bare = |id: PracticeId| PracticeSummary::of(&base.practice(id).unwrap(), std::iter::empty());
    let set = |players: &[usize]| players.iter().map(|n| child(*n)).collect::<BTreeSet<PlayerId>>();
    let with = |id, away: &[usize], in_part: &[usize], order: &[usize]| {
        let counted = summaries(&log).into_iter().find(|p| p.practice == id).unwrap();
        let mut run = counted.runs[0].clone();
        (run.order, run.children, run.touches) = (order.iter().map(|n| child(*n)).collect(), Vec::new(), Vec::new());
        PracticeSummary { away: set(away), in_part: set(in_part), runs: vec![run], ..bare(id) }
    };
    // 1 is at station 0 alone, 2 at station 1 alone; 3 left station 0 early; 4 was at neither, which station 1 alone noted; of 5 station 0
    // noted that it wasn't there and station 1 that it went.
    let one = with(p[0], &[2, 3, 5], &[2, 3, 5], &[1, 3]);
    let other = with(p[1], &[1, 4, 5], &[1, 5], &[2, 5]);
    let joined = PracticeSummary::joined(&[&one, &other]).unwrap();
    assert_eq!((joined.away, joined.in_part), (set(&[5]), set(&[3, 5])));
    // A phone that noted nobody away says of those alone whom it counted that they were here.
    let silent = with(p[2], &[], &[], &[2]);
    let joined = PracticeSummary::joined(&[&one, &silent]).unwrap();
    assert_eq!((joined.away, joined.in_part), (set(&[3, 5]), set(&[3, 5])));
}
