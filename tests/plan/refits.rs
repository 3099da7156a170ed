//! The refit: cases worked by hand, and what holds for every one.

use super::plain;
use peppertally::domain::ids::PartNo;
use peppertally::domain::plan::refit::{LEAST_MIN, Left, LockedTooLong, Way, refit};
use proptest::prelude::*;

fn left(parts: &[(u16, bool)]) -> Vec<Left> {
    parts.iter().map(|(minutes, locked)| Left { minutes: *minutes, locked: *locked }).collect()
}

#[test]
fn cases_worked_by_hand() {
    const O: bool = false;
    const L: bool = true;
    // Parts to come (minutes, locked), minutes left; shortened, dropped.
    type Case<'a> = (&'a [(u16, bool)], u16, &'a [u16], &'a [u16]);
    let table: &[Case<'_>] = &[
        (&[(20, O), (15, O)], 35, &[20, 15], &[20, 15]), // fits: nothing changes
        (&[(20, O), (15, O)], 60, &[20, 15], &[20, 15]), // time over is no reason to change
        // 29 for 20 and 15: 3 + 3, and 23 more as 17 to 12: 13.48 and 9.52, so 13 and 10.
        (&[(20, O), (15, O)], 29, &[16, 13], &[20, 0]),
        (&[(20, O), (10, L), (15, O)], 38, &[16, 10, 12], &[20, 10, 0]),
        (&[(20, L), (15, O)], 25, &[20, 5], &[20, 0]),
        (&[(10, O), (10, O), (10, O)], 8, &[4, 4, 0], &[0, 0, 0]), // three by 3 are 9: the last goes
        (&[(10, O), (2, O)], 8, &[6, 2], &[0, 0]), // two minutes stay two; dropped, 10 doesn't fit either
        (&[(10, O), (5, L)], 5, &[0, 5], &[0, 5]),
        (&[(10, O)], 0, &[0], &[0]),
        (&[], 0, &[], &[]),
        (&[(0, O), (6, O)], 4, &[0, 4], &[0, 0]),
    ];
    for (parts, minutes, shortened, dropped) in table {
        let parts = left(parts);
        assert_eq!(refit(&parts, *minutes, Way::Shorten).unwrap(), *shortened, "{parts:?} in {minutes}");
        assert_eq!(refit(&parts, *minutes, Way::Drop).unwrap(), *dropped, "{parts:?} in {minutes}");
    }
    let locked = left(&[(20, L), (5, O), (15, L)]);
    assert_eq!(refit(&locked, 30, Way::Shorten), Err(LockedTooLong { by: 5 }));
    assert_eq!(refit(&locked, 30, Way::Drop), Err(LockedTooLong { by: 5 }));
}

fn parts() -> impl Strategy<Value = Vec<Left>> {
    let part = (0..60u16, prop::bool::weighted(0.3)).prop_map(|(minutes, locked)| Left { minutes, locked });
    prop::collection::vec(part, 0..12)
}

proptest! {
    #[test]
    fn never_over_never_what_is_locked_always_in_order(
        parts in parts(), minutes in 0..150u16, way in prop::sample::select(vec![Way::Shorten, Way::Drop])
    ) {
        let need = |locked: bool| -> u16 { parts.iter().filter(|p| p.locked == locked).map(|p| p.minutes).sum() };
        match refit(&parts, minutes, way) {
            Err(LockedTooLong { by }) => prop_assert_eq!(need(true), minutes + by),
            Ok(fitted) => {
                // The same parts at the same places, so the order is kept.
                prop_assert_eq!(fitted.len(), parts.len());
                prop_assert!(fitted.iter().sum::<u16>() <= minutes);
                for (now, part) in fitted.iter().zip(&parts) {
                    prop_assert!(*now <= part.minutes, "none grows");
                    if part.locked {
                        prop_assert_eq!(*now, part.minutes);
                    } else if way == Way::Drop {
                        prop_assert!(*now == 0 || *now == part.minutes);
                    } else {
                        prop_assert!(*now == 0 || *now >= part.minutes.min(LEAST_MIN));
                    }
                }
                if need(true) + need(false) <= minutes {
                    let as_planned: Vec<u16> = parts.iter().map(|p| p.minutes).collect();
                    prop_assert_eq!(&fitted, &as_planned);
                } else if way == Way::Shorten && fitted.iter().zip(&parts).any(|(n, p)| *n > 0 && !p.locked && p.minutes > LEAST_MIN) {
                    prop_assert_eq!(fitted.iter().sum::<u16>(), minutes, "no minute is given away");
                }
            }
        }
    }

    /// Moved parts keep their numbers, and all others their order.
    #[test]
    fn moving_keeps_every_part(n in 1..9usize, from in 0..9usize, to in 0..12usize) {
        let mut plan = plain(90, &vec![5; n]);
        let no = PartNo(u32::try_from(from % n).unwrap());
        let others: Vec<PartNo> = plan.parts.iter().map(|p| p.no).filter(|other| *other != no).collect();
        plan.moved(no, to);
        prop_assert_eq!(plan.place_of(no), Some(to.min(n - 1)));
        let now: Vec<PartNo> = plan.parts.iter().map(|p| p.no).filter(|other| *other != no).collect();
        prop_assert_eq!(now, others);
    }
}
