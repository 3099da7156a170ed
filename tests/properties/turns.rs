//! Who has which role next: nobody is lost, a group that stays together is even to within one, and comers and goers stay near it.

use std::collections::BTreeMap;

use peppertally::domain::ids::PlayerId;
use peppertally::domain::turns::{Assignment, Doing, History, Slot, next};
use proptest::prelude::*;

use crate::support::child;

/// A practice hall: who is here, what was played.
#[derive(Default)]
struct Hall {
    slots: Vec<Slot>,
    here: Vec<PlayerId>,
    history: History,
    /// How much oftener the first of a pair did this than the second, in the turns both played since the later one came.
    pairs: BTreeMap<(PlayerId, PlayerId, Doing), i32>,
    /// By child and doing: turns it was here times spots over children, in parts of `WHOLE`.
    shares: BTreeMap<(PlayerId, Doing), i64>,
}

/// The least number that every group of up to 20 divides.
const WHOLE: i64 = 232_792_560;

impl Hall {
    fn new(slots: &[Slot], n: usize) -> Hall {
        Hall { slots: slots.to_vec(), here: (0..n).map(child).collect(), ..Hall::default() }
    }

    fn comes(&mut self, player: PlayerId) {
        self.pairs.retain(|(a, b, _), _| *a != player && *b != player);
        self.here.push(player);
    }

    fn play(&mut self) -> Assignment {
        let turn = next(&self.slots, &self.here, &self.history);
        self.history.note(&turn);
        let doings = doings(&turn);
        let n = doings.len() as i64;
        for (a, does) in &doings {
            for (b, other) in doings.iter().filter(|(b, _)| a < b) {
                *self.pairs.entry((*a, *b, *does)).or_default() += 1;
                *self.pairs.entry((*a, *b, *other)).or_default() -= 1;
            }
            for (_, role) in &doings {
                *self.shares.entry((*a, *role)).or_default() += WHOLE / n;
            }
        }
        turn
    }

    /// The largest difference between any two of those here, in any role or in resting, since the start.
    fn apart(&self) -> u32 {
        let roles = self.slots.iter().copied().map(Some).chain([None]);
        let apart = roles.map(|role| {
            let counts: Vec<u32> = self.here.iter().map(|p| self.history.had(*p, role)).collect();
            counts.iter().max().unwrap_or(&0) - counts.iter().min().unwrap_or(&0)
        });
        apart.max().unwrap_or(0)
    }

    /// The same over the turns that both played since the later one came.
    fn apart_together(&self) -> u32 {
        let here = |p: &PlayerId| self.here.contains(p);
        let pairs = self.pairs.iter().filter(|((a, b, _), _)| here(a) && here(b));
        pairs.map(|(_, differ)| differ.unsigned_abs()).max().unwrap_or(0)
    }

    /// How far anybody ever here is from its share of the turns it played, in whole turns rounded down.
    fn off_share(&self) -> i64 {
        let off = self
            .shares
            .iter()
            .map(|((player, role), share)| (share - WHOLE * i64::from(self.history.had(*player, *role))).abs() / WHOLE);
        off.max().unwrap_or(0)
    }
}

fn doings(turn: &Assignment) -> Vec<(PlayerId, Doing)> {
    let filled = turn.slots.iter().filter_map(|(slot, p)| p.map(|p| (p, Some(*slot))));
    filled.chain(turn.resting.iter().map(|p| (*p, None))).collect()
}

/// One to eight slots, any of them alike.
fn any_slots() -> impl Strategy<Value = Vec<Slot>> {
    prop::collection::vec((0..8u8).prop_map(Slot), 1..=8)
}

/// Every way to split so many slots into roles, the largest role first: `[2, 1]` is two slots of one role and one of another.
fn splits(n_slots: usize, largest: usize) -> Vec<Vec<usize>> {
    if n_slots == 0 {
        return vec![Vec::new()];
    }
    let firsts = 1..=n_slots.min(largest);
    let with = |first: usize| splits(n_slots - first, first).into_iter().map(move |rest| [vec![first], rest].concat());
    firsts.flat_map(with).collect()
}

fn of_sizes(sizes: &[usize]) -> Vec<Slot> {
    sizes.iter().zip(0..).flat_map(|(n, label)| vec![Slot(label); *n]).collect()
}

/// Two full rounds of every group of these sizes with every split of 1 to 8 slots: even after every turn, and all square after each
/// round. The turns after the first round begin where the first left off but for names, so what holds for two rounds goes on for ever.
/// Of all splits of the slots each `step`-th, another one for each number of children.
fn check_groups(sizes: std::ops::RangeInclusive<usize>, step: usize) {
    for n in sizes {
        for split in (1..=n.min(8)).flat_map(|n_slots| splits(n_slots, n_slots)).skip(n % step).step_by(step) {
            let mut hall = Hall::new(&of_sizes(&split), n);
            for turn in 1..=2 * n {
                let played = next(&hall.slots, &hall.here, &hall.history);
                hall.history.note(&played);
                assert!(hall.apart() <= 1, "{n} children, {split:?}, turn {turn}");
                assert!(turn % n != 0 || hall.apart() == 0, "{n} children, {split:?}, turn {turn}: not all square");
            }
        }
    }
}

#[test]
fn every_group_up_to_seven_is_even_to_within_one() {
    check_groups(3..=7, 1);
}

/// All 966 were run once, optimised; every run of the tests takes some of them.
#[test]
fn groups_up_to_twenty_are_even_to_within_one() {
    check_groups(8..=20, 24);
}

/// Left and right place are roles of their own, and yet passing is passing: where it costs no role its evenness, whoever has passed least
/// passes next. Over two rounds nobody passes three times oftener than another; by the roles alone some did.
#[test]
fn nobody_passes_far_oftener_in_whatever_place() {
    let mut differ = 0;
    for n in [6, 7, 9, 12] {
        for beside in [2, 3] {
            let slots: Vec<Slot> = (0..3).chain(Slot::BESIDE..Slot::BESIDE + beside).map(Slot).collect();
            let mut hall = Hall::new(&slots, n);
            for turn in 1..=2 * n {
                hall.play();
                let passed = |p: &PlayerId| (0..3).map(|place| hall.history.had(*p, Some(Slot(place)))).sum::<u32>();
                let passed: Vec<u32> = hall.here.iter().map(passed).collect();
                let apart = passed.iter().max().unwrap_or(&0) - passed.iter().min().unwrap_or(&0);
                assert!(apart <= 2, "{n} children, {beside} beside, turn {turn}: {passed:?}");
                differ = differ.max(apart);
                assert!(hall.apart() <= 1, "{n} children, {beside} beside, turn {turn}");
            }
        }
    }
    assert!(differ > 0, "nobody passed");
}

/// What the docs say of "for ever": a round is the one before with the names exchanged.
#[test]
fn each_round_is_the_one_before_under_other_names() {
    for n in 3..=6 {
        for split in (1..=n).flat_map(|n_slots| splits(n_slots, n_slots)) {
            let mut hall = Hall::new(&of_sizes(&split), n);
            let mut rounds = Vec::new();
            for _ in 0..4 {
                let before: Vec<PlayerId> = hall.history_order();
                let place = |p: PlayerId| before.iter().position(|b| *b == p);
                let round: Vec<_> = (0..n)
                    .map(|_| doings(&hall.play()).into_iter().map(|(p, d)| (place(p), d)).collect::<Vec<_>>())
                    .collect();
                rounds.push(round);
            }
            assert_eq!(rounds[1], rounds[2], "{n} children, {split:?}");
            assert_eq!(rounds[2], rounds[3], "{n} children, {split:?}");
        }
    }
}

impl Hall {
    /// The children in the order of the turn that comes: the last turn's, which `next` begins with.
    fn history_order(&self) -> Vec<PlayerId> {
        let nobody = next(&[], &self.here, &self.history);
        nobody.resting
    }
}

#[derive(Clone, Copy, Debug)]
enum Act {
    Play,
    New,
    Leaves(usize),
    Returns(usize),
}

/// Children come; some may leave, too, and of these some may return.
fn acts(leaving: bool, returning: bool) -> impl Strategy<Value = Vec<Act>> {
    let or_play =
        |may: bool, act: fn(usize) -> Act| (0..20usize).prop_map(move |who| if may { act(who) } else { Act::Play });
    let one = prop_oneof![
        6 => Just(Act::Play),
        1 => Just(Act::New),
        1 => or_play(leaving, Act::Leaves),
        1 => or_play(returning, Act::Returns),
    ];
    prop::collection::vec(one, 1..60)
}

/// Plays these acts, keeping 2 to 20 children here, and looks after every turn.
fn play(
    slots: &[Slot],
    n: usize,
    acts: &[Act],
    look: impl Fn(&Hall, &Assignment) -> Result<(), TestCaseError>,
) -> Result<(), TestCaseError> {
    let mut hall = Hall::new(slots, n);
    let (mut n_ever, mut away) = (n, Vec::new());
    for act in acts {
        match act {
            Act::New if hall.here.len() < 20 => {
                hall.comes(child(n_ever));
                n_ever += 1;
            }
            Act::Leaves(who) if hall.here.len() > 2 => away.push(hall.here.remove(who % hall.here.len())),
            Act::Returns(who) if !away.is_empty() && hall.here.len() < 20 => {
                let back = away.remove(who % away.len());
                hall.comes(back);
            }
            _ => {
                let turn = hall.play();
                look(&hall, &turn)?;
            }
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn everybody_here_has_one_slot_or_rests(slots in any_slots(), n in 0..=20usize, acts in acts(true, true)) {
        play(&slots, n, &acts, |hall, turn| {
            let mut all: Vec<PlayerId> = doings(turn).into_iter().map(|(player, _)| player).collect();
            let mut here = hall.here.clone();
            all.sort_unstable();
            here.sort_unstable();
            prop_assert_eq!(all, here, "each once");
            let labels: Vec<Slot> = turn.slots.iter().map(|(slot, _)| *slot).collect();
            prop_assert_eq!(&labels, &hall.slots);
            let filled = turn.slots.iter().filter(|(_, p)| p.is_some()).count();
            prop_assert_eq!(filled, hall.slots.len().min(hall.here.len()));
            prop_assert!(turn.slots[..filled].iter().all(|(_, p)| p.is_some()), "the last are empty");
            Ok(())
        })?;
    }

    #[test]
    fn a_group_that_stays_is_even_whatever_the_order_of_slots(slots in any_slots(), n in 3..=20usize, n_turns in 1..50usize) {
        let mut hall = Hall::new(&slots, n);
        for turn in 0..n_turns {
            let again = next(&hall.slots, &hall.here, &hall.history);
            prop_assert_eq!(hall.play(), again, "the same answer twice");
            prop_assert!(hall.apart() <= 1, "turn {}", turn);
        }
    }

    #[test]
    fn a_latecomer_is_within_two_of_everybody_and_of_its_share(slots in any_slots(), n in 3..=14usize, acts in acts(false, false)) {
        play(&slots, n, &acts, |hall, _| {
            prop_assert!(hall.apart_together() <= 2);
            prop_assert!(hall.off_share() < 2);
            Ok(())
        })?;
    }

    #[test]
    fn when_some_leave_all_are_within_two(slots in any_slots(), n in 3..=14usize, acts in acts(true, false)) {
        play(&slots, n, &acts, |hall, _| {
            prop_assert!(hall.apart_together() <= 2);
            Ok(())
        })?;
    }

    #[test]
    fn when_some_return_all_are_within_three(slots in any_slots(), n in 3..=14usize, acts in acts(true, true)) {
        play(&slots, n, &acts, |hall, _| {
            prop_assert!(hall.apart_together() <= 3);
            Ok(())
        })?;
    }
}
