//! Rearranging a lineup loses nobody and doubles nobody.

use peppertally::domain::drill::DuelBetween;
use peppertally::domain::entry::Lineup;
use peppertally::domain::ids::PlayerId;
use proptest::prelude::*;

use crate::support::child;

/// Up to eleven different children in up to six places with gaps, a line, and servers.
fn lineups() -> impl Strategy<Value = Lineup> {
    let order = Just((0..11).map(child).collect::<Vec<_>>()).prop_shuffle();
    (order, prop::collection::vec(any::<bool>(), 0..7), 0..5usize, 0..5usize).prop_map(
        |(order, filled, n_waiting, n_servers)| {
            let mut children = order.into_iter();
            let places = filled.iter().map(|f| f.then(|| children.next()).flatten()).collect();
            let waiting = children.by_ref().take(n_waiting).collect();
            Lineup { places, waiting, servers: children.take(n_servers).collect(), ..Lineup::default() }
        },
    )
}

fn sorted(lineup: &Lineup) -> Vec<PlayerId> {
    let mut all: Vec<PlayerId> = lineup.everyone().collect();
    all.sort_unstable();
    all
}

fn gaps(lineup: &Lineup) -> Vec<bool> {
    lineup.places.iter().map(Option::is_none).collect()
}

proptest! {
    #[test]
    fn nobody_is_lost_or_doubled(lineup in lineups(), a in 0..11usize, b in 0..11usize) {
        let had = sorted(&lineup);
        prop_assert_eq!(sorted(&lineup.slid()), had.clone());
        prop_assert_eq!(sorted(&lineup.after_round(DuelBetween::Sides)), had.clone());
        prop_assert_eq!(sorted(&lineup.after_round(DuelBetween::Children)), had.clone());
        if had.contains(&child(a)) && had.contains(&child(b)) {
            let exchanged = lineup.exchanged(child(a), child(b));
            prop_assert_eq!(sorted(&exchanged), had);
            prop_assert_eq!(exchanged.exchanged(child(a), child(b)), lineup);
        }
    }

    #[test]
    fn a_place_that_is_empty_stays_empty(lineup in lineups()) {
        prop_assert_eq!(gaps(&lineup.slid()), gaps(&lineup));
        prop_assert_eq!(lineup.can_slide(), lineup.slid() != lineup);
        prop_assert_eq!(gaps(&lineup.after_round(DuelBetween::Children)), gaps(&lineup));
    }

    #[test]
    fn as_many_places_and_servers_as_before(lineup in lineups()) {
        for between in [DuelBetween::Sides, DuelBetween::Children] {
            let next = lineup.after_round(between);
            prop_assert_eq!(next.places.len(), lineup.places.len());
        }
        prop_assert_eq!(lineup.after_round(DuelBetween::Children).servers.len(), lineup.servers.len());
    }

    #[test]
    fn who_comes_is_there_once_and_who_goes_is_gone(lineup in lineups(), who in 0..11usize) {
        let player = child(who);
        let others = |l: &Lineup| sorted(l).into_iter().filter(|p| *p != player).collect::<Vec<_>>();
        let came = lineup.with_presence(player, true);
        let left = came.with_presence(player, false);
        prop_assert_eq!(came.everyone().filter(|p| *p == player).count(), 1);
        prop_assert_eq!(left.everyone().filter(|p| *p == player).count(), 0);
        prop_assert_eq!(others(&came), others(&lineup));
        prop_assert_eq!(others(&left), others(&lineup));
    }

    /// After as many swaps as there are children, everyone has stood everywhere and stands as before.
    #[test]
    fn swaps_come_round(lineup in lineups()) {
        let n = lineup.places.iter().flatten().count() + lineup.waiting.len();
        let mut now = lineup.clone();
        for _ in 0..n {
            now = now.slid();
        }
        prop_assert_eq!(now, lineup);
    }
}
