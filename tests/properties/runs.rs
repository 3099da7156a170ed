//! One run: folding, undo, and that no contact is lost or counted twice.

use std::collections::{BTreeMap, BTreeSet};

use peppertally::domain::drill::{Board, DrillSpec, LineOrder, OnFloor, Rule, SwapEvery};
use peppertally::domain::entry::{Contact, Entry, Fact, Lineup};
use peppertally::domain::ids::{Clock, ContactId, EntryId, GroupNo, PlayerId};
use peppertally::domain::log::Log;
use peppertally::domain::lots::{Lot, Seen, lots};
use peppertally::domain::met::met;
use peppertally::domain::replay::part::Counted;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::same::Same;
use peppertally::domain::skill::Outcome;
use peppertally::domain::summary::{PracticeSummary, RunSummary};
use peppertally::stats::proportion::Count;
use peppertally::wire::summary;
use proptest::prelude::*;

use crate::support::{Page, child, contact, run_started, shuffled};
use crate::taps::{Act, Court, anyone, coach, specs};

fn whole(entries: &[Entry], seed: u64) -> RunState {
    RunState::fold(shuffled(entries, seed)).expect("a run with a start")
}

/// Whether a contact stands, worked out anew from the entries: the highest (revision, clock, identity) says so.
fn standing(entries: &[Entry]) -> BTreeSet<ContactId> {
    let mut taken = BTreeMap::new();
    for e in entries {
        if let Fact::EntryTakenBack { target, revision, back, .. } = e.fact {
            let rank = (revision, e.clock, e.id);
            let won: &mut (_, bool) = taken.entry(target).or_insert((rank, back));
            if rank > won.0 {
                *won = (rank, back);
            }
        }
    }
    let stands = |id: &EntryId| !taken.get(id).is_some_and(|(_, back)| *back);
    let noted = entries.iter().filter(|e| matches!(e.fact, Fact::ContactNoted { .. }));
    noted.map(|e| e.id).filter(stands).map(ContactId).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    #[test]
    fn folding_is_advancing_by_one(spec in specs(), acts in anyone(), seed: u64) {
        let mut court = Court::open(&spec);
        for act in acts {
            court.play(act);
            prop_assert_eq!(&court.run, &whole(&court.log, seed), "after {:?}", act);
        }
    }

    /// Turns that end after so many balls, with taps, takings-back and pages of every kind: clocks of several writers tell nothing.
    #[test]
    fn turns_fold_the_same_whoever_writes(acts in anyone(), n in 1..4u8, seed: u64) {
        let spec = DrillSpec::starters(|i| format!("drill {i}")).remove(0);
        let on_floor = OnFloor { n_feeders: 1, swap: SwapEvery::Balls(n), ..OnFloor::default() };
        let spec = DrillSpec { board: Board::Floor { n_places: 2 }, on_floor, ..spec };
        let mut court = Court::open(&spec);
        for act in acts {
            court.play(act);
            prop_assert_eq!(&court.run, &whole(&court.log, seed), "after {:?}", act);
        }
    }

    #[test]
    fn any_order_of_arrival_gives_the_same_run(spec in specs(), acts in anyone(), seed: u64) {
        let court = Court::played(&spec, &acts);
        let mut arrived = vec![court.log[0].clone()];
        let mut run = RunState::fold(arrived.clone()).unwrap();
        for entry in shuffled(&court.log, seed) {
            run.note(entry.clone());
            run.note(entry.clone());
            arrived.push(entry);
            prop_assert_eq!(&run, &whole(&arrived, seed));
        }
        prop_assert_eq!(&run, &court.run);
    }

    #[test]
    fn undo_restores_what_was_there_at_every_point(spec in specs(), acts in coach()) {
        let mut court = Court::open(&spec);
        for act in acts.into_iter().chain(std::iter::repeat_n(Act::Undo, 100)) {
            let undone = court.run.next_undo().map(|e| e.id);
            court.play(act);
            if let (Act::Undo, Some(undone)) = (act, undone) {
                prop_assert_eq!(&court.run.main, &court.before[&undone]);
            }
        }
        prop_assert!(court.run.next_undo().is_none());
        prop_assert!(!court.run.main.counts_something() && !court.run.main.finished);
        prop_assert_eq!(court.run.main, whole(&court.log[..1], 0).main);
    }

    /// Counted together by kind of ball, every try is there once, and none that isn't a try.
    #[test]
    fn lots_are_what_the_contacts_say(spec in specs(), acts in anyone()) {
        let court = Court::played(&spec, &acts);
        let part = &court.run.main;
        let all = lots(part, &spec.skill);
        for (player, tally) in &part.by_child {
            let of = |is: fn(Seen) -> bool| {
                all.iter().filter(|lot| lot.player == *player && is(lot.seen)).map(|lot| lot.count).sum::<Count>()
            };
            prop_assert_eq!(of(|seen| seen == Seen::Told), tally.told());
            let judged = tally.of(None).count;
            prop_assert_eq!(of(|seen| seen != Seen::Told), judged);
            prop_assert_eq!(of(|seen| seen == Seen::Watched), tally.watched());
        }
        for lot in &all {
            let n = lot.outcomes.iter().sum::<u32>();
            prop_assert!(n == 0 || n == lot.count.tries());
            prop_assert!(lot.by_the_common_line().tries() == lot.count.tries() && lot.n_fast <= lot.count.tries());
        }
        let kinds = |lot: &Lot| (lot.player, lot.what, lot.feed, lot.style, lot.seen);
        prop_assert!(all.iter().enumerate().all(|(i, a)| all[..i].iter().all(|b| kinds(a) != kinds(b))));
    }

    /// Whose serve who passed, and which sides met: every such ball and rally once, and back from its text as it was.
    #[test]
    fn who_met_whom_is_what_the_contacts_say(spec in specs(), acts in anyone()) {
        let court = Court::played(&spec, &acts);
        let part = &court.run.main;
        let all = met(part);
        let known = part.contacts.iter().map(|c| &c.contact).filter(|c| {
            matches!(c.outcome, Outcome::Pass { .. }) && c.server.is_some() && c.player.is_some() && c.server != c.player
        });
        prop_assert_eq!(all.served.iter().map(|one| one.count.tries() as usize).sum::<usize>(), known.count());
        let rallies: u32 = all.sides.iter().map(|one| one.won + one.lost).sum();
        prop_assert_eq!(rallies as usize, part.rallies.len());
        prop_assert!(all.sides.iter().all(|one| one.first <= one.second));
        let summary = PracticeSummary {
            practice: court.run.practice,
            title: String::new(),
            started: court.run.started,
            clock: Clock(1),
            counted: Clock(0),
            endings: Vec::new(),
            ended: false,
            away: BTreeSet::new(),
            in_part: BTreeSet::new(),
            rounds: Vec::new(),
            plan: None,
            remarks: Vec::new(),
            remark_ids: Vec::new(),
            same: Same::new([(child(1), child(0)), (child(3), child(0))]),
            runs: vec![RunSummary::of(&court.run)],
        };
        // Lots come back child by child.
        let bare = |mut summary: PracticeSummary| {
            summary.runs.iter_mut().for_each(|run| run.lots.clear());
            summary
        };
        prop_assert_eq!(summary::decode(&summary::encode(&summary)).map(bare), Some(bare(summary)));
    }

    /// Found in review: a contact of an earlier round, taken back or put back late, left the board with another round's places.
    #[test]
    fn places_are_those_of_the_round_that_is_proposed(spec in specs(), acts in anyone()) {
        let Rule::Transition(rule) = spec.rule else { return Ok(()) };
        let mut court = Court::open(&spec);
        let opening = court.run.main.lineup.clone();
        for act in acts {
            match act {
                Act::Take { which, .. } if !court.is_contact(which) => continue,
                Act::Tap { .. } | Act::Undo | Act::Take { .. } | Act::Correct { .. } | Act::Turn { .. } => court.play(act),
                _ => continue,
            }
            let round = court.run.next_ball().unwrap().turn.round.0;
            let places = (1..round).fold(opening.clone(), |lineup, _| lineup.after_round(rule.between));
            prop_assert_eq!(&court.run.main.lineup, &places, "round {} after {:?}", round, act);
        }
    }

    #[test]
    fn what_was_taken_back_can_be_put_back(spec in specs(), acts in coach()) {
        let mut court = Court::played(&spec, &acts);
        let had = court.run.clone();
        let Some(last) = court.run.next_undo().map(|e| e.id) else { return Ok(()) };
        court.play(Act::Undo);
        let which = court.log.iter().position(|e| e.id == last).unwrap();
        prop_assume!(which < 256);
        court.play(Act::Take { which: which as u8, back: false });
        prop_assert_eq!(court.run.main, had.main);
    }

    #[test]
    fn every_contact_that_stands_is_in_one_part(spec in specs(), acts in anyone()) {
        let court = Court::played(&spec, &acts);
        let counted: Vec<ContactId> = court.run.parts().flat_map(|p| &p.contacts).map(|c| c.id).collect();
        let set: BTreeSet<ContactId> = counted.iter().copied().collect();
        prop_assert_eq!(counted.len(), set.len(), "counted twice");
        prop_assert_eq!(set, standing(&court.log));
    }

    #[test]
    fn the_parts_of_everyone_are_the_children_and_the_group(spec in specs(), acts in anyone()) {
        let court = Court::played(&spec, &acts);
        for part in court.run.parts() {
            let group = part.contacts.iter().filter(|c| c.contact.player.is_none());
            let mut sum: Count = part.by_child.values().map(|t| t.of(None).count).sum();
            group.filter_map(|c| c.contact.good_from.judge(c.contact.outcome)).for_each(|good| sum.note(good));
            prop_assert_eq!(sum, part.everyone.of(None).count);
            prop_assert_eq!(part.by_child.values().map(|t| t.told()).sum::<Count>(), part.everyone.told());
            prop_assert_eq!(part.by_child.values().map(|t| t.n_efforts).sum::<u32>(), part.everyone.n_efforts);
        }
    }

    #[test]
    fn unknown_entries_change_nothing(spec in specs(), acts in anyone()) {
        let mut court = Court::played(&spec, &acts);
        let had = court.run.clone();
        court.play(Act::Unknown);
        prop_assert_eq!(&court.run.main, &had.main);
        prop_assert_eq!(&court.run.beside, &had.beside);
        prop_assert_eq!(court.run.entries().count(), had.entries().count() + 1, "but they are kept");
    }

    #[test]
    fn the_union_of_logs_is_a_union_of_sets(spec in specs(), acts in coach(), which in prop::collection::vec(0..8u8, 200)) {
        let court = Court::played(&spec, &acts);
        let part = |bit: u8| -> Log {
            court.log.iter().zip(&which).filter(|(_, w)| **w & bit != 0).map(|(e, _)| e.clone()).collect()
        };
        let (a, b, c) = (part(1), part(2), part(4));
        let ab = a.clone().union(b.clone());
        prop_assert_eq!(&ab, &b.clone().union(a.clone()));
        prop_assert_eq!(ab.clone().union(c.clone()), a.clone().union(b.union(c)));
        prop_assert_eq!(ab.clone().union(a.clone()), ab);
        prop_assert!(a.aside().is_empty());
    }

    #[test]
    fn a_forged_identity_is_set_aside(spec in specs(), acts in coach(), which: prop::sample::Index) {
        let court = Court::played(&spec, &acts);
        let log: Log = court.log.iter().cloned().collect();
        let true_one = court.log[which.index(court.log.len())].clone();
        let forged = Entry { fact: Fact::Unknown { kind: "Forged".to_owned(), body: "{}".into() }, ..true_one.clone() };
        prop_assume!(forged != true_one);
        let union = log.clone().union([forged.clone()].into_iter().collect());
        prop_assert!(union.iter().eq(log.iter()));
        prop_assert_eq!(union.aside(), &[forged][..]);
    }
}

/// Tries of a child while it was watched, up to this contact, without another child's between them: counted anew.
fn stint(contacts: &[Counted], last: usize) -> u32 {
    let child = contacts[last].contact.player;
    let of_it = contacts[..=last].iter().rev().take_while(|c| c.contact.player == child);
    of_it.filter(|c| c.contact.watched && c.contact.outcome != Outcome::NoChance).count() as u32
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    /// Whom to watch and what a lane's undo takes back are kept beside the contacts: they are what these say, after every ball and
    /// every taking-back, and folded again.
    #[test]
    fn who_is_watched_and_the_last_of_a_lane_are_what_the_contacts_say(
        acts in prop::collection::vec((0..7usize, 0..4u8, any::<bool>(), 0..5u8), 0..60)
    ) {
        let spec = DrillSpec::starters(|i| format!("drill {i}")).remove(2);
        let spec = DrillSpec { board: Board::Line { order: LineOrder::TenForOne }, ..spec };
        let here: Vec<PlayerId> = (0..5).map(child).collect();
        let mut page = Page::new(5, 10);
        let mut log = vec![page.write(run_started(&spec, Lineup::opening(&spec, &here, &[])))];
        let mut run = RunState::fold(log.clone()).unwrap();
        // Who plays on for long makes tens.
        let balls = acts.into_iter().flat_map(|act| std::iter::repeat_n(act, if act.0 < 2 { 6 } else { 1 }));
        for (who, outcome, watched, group) in balls {
            let fact = match run.main.contacts.last() {
                Some(last) if group == 4 => {
                    let (target, revision) = (last.id.0, run.amended.next_take_back(last.id.0));
                    Fact::EntryTakenBack { run: Some(run.id), target, revision, back: true }
                }
                _ => {
                    let outcome = [Outcome::NoChance, Outcome::Counted, Outcome::TwoKey { good: true }, Outcome::TwoKey { good: false }]
                        [usize::from(outcome)];
                    // One who isn't in the line, and a ball of nobody's.
                    let player = (who < 6).then(|| child(who));
                    let noted = contact(&spec, player, outcome);
                    Fact::ContactNoted { run: run.id, contact: Contact { watched, group: Some(GroupNo(group)), ..noted } }
                }
            };
            let entry = page.write(fact);
            log.push(entry.clone());
            run.note(entry);
            let contacts = &run.main.contacts;
            for no in 0..6 {
                let of_lane = |c: &&Counted| c.contact.group == Some(GroupNo(no)) && c.contact.outcome == Outcome::Counted;
                prop_assert_eq!(run.main.last_of_lane(GroupNo(no)), contacts.iter().rev().find(of_lane).map(|c| c.id));
            }
            let latest = |p: PlayerId| contacts.iter().rposition(|c| c.contact.player == Some(p));
            let last = here.iter().enumerate().filter_map(|(at, p)| Some((latest(*p)?, at))).max();
            let current = last.map_or(here[0], |(last, at)| {
                let n = stint(contacts, last);
                here[(at + usize::from(n > 0 && n.is_multiple_of(10))) % here.len()]
            });
            prop_assert_eq!(run.main.current(&spec), Some(current));
            let is_last = |at: &usize| contacts[at + 1..].iter().all(|c| c.contact.player.is_none_or(|p| p == current));
            let n = latest(current).filter(is_last).map_or(0, |last| stint(contacts, last) % 10);
            prop_assert_eq!(run.main.watching(&spec), Some((current, n)));
        }
        prop_assert_eq!(&run, &whole(&log, 3));
    }
}
