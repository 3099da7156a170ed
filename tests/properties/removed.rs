//! A run from which a child was removed, whatever was played and by however many pages: nothing of the child, all of the others, and folded the
//! same in any order.

use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{Clock, EntryId};
use peppertally::domain::removed::Removed;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::summary::{Counts, RunSummary};
use peppertally::domain::time::Stamp;
use proptest::prelude::*;

use crate::support::{child, shuffled};
use crate::taps::{Court, anyone, rule_specs, specs};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    #[test]
    fn nothing_of_the_child_and_all_of_the_others(spec in prop_oneof![specs(), rule_specs()], acts in anyone(), which in 0..6usize, seed: u64) {
        let court = Court::played(&spec, &acts);
        let gone = child(which);
        let removal = Entry {
            id: EntryId::new(0xdead_0000_dead, 0),
            clock: Clock(1),
            at: Stamp { wall_ms: 0, offset_min: 0, mono_ms: 0 },
            fact: Fact::ChildRemoved { players: vec![gone], notes: Vec::new() },
            extra: None,
        };
        let removed = Removed::of([&removal]);
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
}
