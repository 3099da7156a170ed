//! Every scoring rule under random taps, undos and corrections: folding is advancing, undo restores, and what a rule counts is what
//! the contacts say.

use std::collections::BTreeMap;

use peppertally::domain::drill::{Board, InTime, Rule, Whose};
use peppertally::domain::ids::{GroupNo, PlayerId};
use peppertally::domain::replay::part::Part;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::scoring::Who;
use proptest::prelude::*;

use crate::support::shuffled;
use crate::taps::{Act, Court, anyone, coach, rule_specs};

/// Contacts of the main line that score, one by one.
fn scoring(part: &Part) -> impl Iterator<Item = &peppertally::domain::entry::Contact> {
    part.contacts.iter().map(|c| &c.contact).filter(|c| c.outcome.scores(c.good_from))
}

fn now(part: &Part, who: Who) -> u32 {
    part.score.rule().standing(who).now
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// A union of logs is the same whatever its order, and the same as one entry after another.
    #[test]
    fn any_order_gives_the_same_score(spec in rule_specs(), acts in anyone(), seed: u64) {
        let mut court = Court::open(&spec);
        for act in acts {
            court.play(act);
            let whole = RunState::fold(shuffled(&court.log, seed)).expect("a run with a start");
            prop_assert_eq!(&court.run, &whole, "after {:?}", act);
        }
        let (left, right): (Vec<_>, Vec<_>) = court.log.iter().cloned().partition(|e| e.id.no.0 % 3 == 0);
        let both = |a: &[_], b: &[_]| RunState::fold([a, b].concat());
        prop_assert_eq!(both(&left, &right), both(&right, &left));
    }

    #[test]
    fn undo_restores_the_score_exactly(spec in rule_specs(), acts in coach()) {
        let mut court = Court::open(&spec);
        for act in acts.into_iter().chain(std::iter::repeat_n(Act::Undo, 60)) {
            let undone = court.run.next_undo().map(|e| e.id);
            court.play(act);
            if let (Act::Undo, Some(undone)) = (act, undone) {
                prop_assert_eq!(&court.run.main, &court.before[&undone]);
            }
        }
        prop_assert_eq!(now(&court.run.main, Who::Everyone), 0);
    }

    /// Nothing is scored twice and nothing is lost: worked out once more from the contacts alone.
    #[test]
    fn scores_are_what_the_contacts_say(spec in rule_specs(), acts in anyone()) {
        let court = Court::played(&spec, &acts);
        let part = &court.run.main;
        let mut by_group: BTreeMap<GroupNo, u32> = BTreeMap::new();
        let mut by_child: BTreeMap<PlayerId, u32> = BTreeMap::new();
        let limit = match spec.rule {
            Rule::InTime(InTime { seconds, .. }) => Some(u32::from(seconds) * 1000),
            _ => None,
        };
        let in_time = |clock: Option<u32>| limit.is_none_or(|limit| clock.is_some_and(|shown| shown < limit));
        for contact in scoring(part).filter(|c| in_time(c.clock_ms)) {
            *contact.group.map(|g| by_group.entry(g).or_default()).unwrap_or(&mut 0) += 1;
            *contact.player.map(|p| by_child.entry(p).or_default()).unwrap_or(&mut 0) += 1;
        }
        let whole = u32::try_from(scoring(part).filter(|c| in_time(c.clock_ms)).count()).unwrap();
        match spec.rule {
            Rule::FirstTo(_) => {
                for (group, n) in &by_group {
                    prop_assert_eq!(now(part, Who::Group(*group)), *n);
                }
                prop_assert_eq!(now(part, Who::Everyone), by_group.values().copied().max().unwrap_or(0));
            }
            Rule::InTime(rule) => {
                prop_assert_eq!(now(part, Who::Everyone), whole);
                let (groups, children) = (by_group.iter(), by_child.iter());
                match rule.whose {
                    Whose::Group => {
                        for (group, n) in groups {
                            prop_assert_eq!(now(part, Who::Group(*group)), *n);
                        }
                    }
                    Whose::Child => {
                        for (player, n) in children {
                            prop_assert_eq!(now(part, Who::Child(*player)), *n);
                        }
                    }
                }
            }
            Rule::Together(rule) if !rule.row && rule.balls.is_none() => {
                prop_assert_eq!(now(part, Who::Everyone), whole);
            }
            Rule::InRow(rule) => {
                // The best row is as long as the longest that stands, and no row is longer than there are good ones.
                let standing = part.score.rule().standing(Who::Everyone);
                prop_assert!(standing.now <= standing.best && standing.best <= whole);
                // Without falling back, a group's row is the good ones since its last miss.
                if rule.whose == Whose::Group && !rule.falls_to_five && spec.on_floor.groups.is_none() {
                    let judged = part.contacts.iter().rev().filter_map(|c| c.contact.good_from.judge(c.contact.outcome));
                    prop_assert_eq!(standing.now as usize, judged.take_while(|good| *good).count());
                }
            }
            Rule::Tens(rule) => {
                for player in by_child.keys() {
                    let standing = part.score.rule().standing(Who::Child(*player));
                    prop_assert!(standing.of.is_some_and(|of| standing.now <= of && of <= 10.max(u32::from(rule.n))));
                }
            }
            _ => {}
        }
        if spec.board == Board::Lanes {
            prop_assert_eq!(part.everyone.of(None).count.tries(), 0, "good ones alone make no rate");
            prop_assert_eq!(part.everyone.n_counted as usize, scoring(part).count());
        }
    }
}
