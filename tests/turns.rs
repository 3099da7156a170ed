//! Who has which role next, worked out by hand. What holds for every group is in `properties/turns.rs`.

use peppertally::domain::ids::{EntryId, PlayerId};
use peppertally::domain::turns::{Assignment, Doing, History, Slot, next};

fn child(letter: char) -> PlayerId {
    PlayerId(EntryId::new(7, letter as u32))
}

/// The roles of a text in the order of their first letter in the alphabet, and resting.
fn roles(slots: &str) -> Vec<Doing> {
    let mut roles: Vec<Doing> = slots.bytes().map(|b| Some(Slot(b))).collect();
    roles.sort_unstable();
    roles.dedup();
    roles.push(None);
    roles
}

/// `slots` has a letter for each slot; `played` says who was here for how many turns, `"abc 3, abcd 4"`; `counts` how often each child
/// has then had each role, in the alphabet's order, and rested: `"a 223, b 223"`.
fn check(slots: &str, played: &str, counts: &str) {
    let spots: Vec<Slot> = slots.bytes().map(Slot).collect();
    let mut history = History::default();
    for stretch in played.split(", ") {
        let (here, n_turns) = stretch.split_once(' ').expect("who, and how many turns");
        let here: Vec<PlayerId> = here.chars().map(child).collect();
        for _ in 0..n_turns.parse().expect("a number of turns") {
            history.note(&next(&spots, &here, &history));
        }
    }
    let counted = counts.split(", ").filter(|c| !c.is_empty()).map(|told| {
        let letter = told.chars().next().expect("a child");
        let had: String = roles(slots).iter().map(|role| history.had(child(letter), *role).to_string()).collect();
        format!("{letter} {had}")
    });
    assert_eq!(counted.collect::<Vec<_>>().join(", "), counts, "{slots}, played {played}");
}

#[test]
fn counts_after_some_turns() {
    // A full round: each role once, and two of six rest every turn.
    check("LRST", "abcdef 6", "a 11112, b 11112, c 11112, d 11112, e 11112, f 11112");
    // Two slots of one role: in six turns each has it twice.
    check("LRBB", "abcdef 6", "a 2112, b 2112, c 2112, d 2112, e 2112, f 2112");
    // As many children as slots: nobody rests.
    check("LRS", "abc 3", "a 1110, b 1110, c 1110");
    // Half the group rests: who had a role rests, and the other way round.
    check("LS", "abcd 2", "a 101, b 011, c 101, d 011");
    // The second slot stays empty.
    check("LS", "a 5", "a 500");
    check("LS", "a 0", "a 000");
    // Nothing to do but rest.
    check("", "ab 3", "a 3, b 3");
}

#[test]
fn a_latecomer_begins_at_the_groups_level() {
    // All square after three turns; then four turns of four children, each role once, two rests.
    check("LS", "abc 3, abcd 4", "a 223, b 223, c 223, d 112");
    // In the third turn each of the three gets what it still lacks, and the spot that's left, resting, goes to the newcomer.
    check("LS", "abc 2, abcd 1", "a 111, b 111, c 111, d 001");
    // The three are square now, and only the newcomer is behind in both roles: it gets one of them, not both at once.
    let (mut history, slots) = (History::default(), [Slot(b'L'), Slot(b'S')]);
    for here in ["abc", "abc", "abcd", "abcd"] {
        let here: Vec<PlayerId> = here.chars().map(child).collect();
        history.note(&next(&slots, &here, &history));
    }
    let late = |doing| history.had(child('d'), doing);
    assert_eq!((late(Some(slots[0])) + late(Some(slots[1])), late(None)), (1, 1));
}

#[test]
fn who_comes_back_goes_on_where_it_stopped() {
    // Three square turns, two turns of two in both slots, three turns of three.
    check("LS", "abc 3, ab 2, abc 3", "a 332, b 332, c 222");
    check("LSB", "abcd 3, abd 3, abcd 1", "a 2221, b 2221, c 1111, d 2221");
}

#[test]
fn the_first_turn_follows_the_list_and_the_last_slots_stay_empty() {
    let here: Vec<PlayerId> = "abc".chars().map(child).collect();
    let (a, b, c) = (here[0], here[1], here[2]);
    let slots = [Slot(3), Slot(1), Slot(3), Slot(2)];
    let turn = next(&slots, &here, &History::default());
    let filled = vec![(Slot(3), Some(a)), (Slot(1), Some(b)), (Slot(3), Some(c)), (Slot(2), None)];
    assert_eq!(turn, Assignment { slots: filled, resting: vec![] });
    let turn = next(&slots[..2], &here, &History::default());
    assert_eq!(turn, Assignment { slots: vec![(Slot(3), Some(a)), (Slot(1), Some(b))], resting: vec![c] });
    assert_eq!(next(&[], &[], &History::default()), Assignment::default());
}

#[test]
fn a_turn_set_by_hand_counts_as_it_was() {
    let (a, b) = (child('a'), child('b'));
    let mut history = History::default();
    let by_hand = Assignment { slots: vec![(Slot(0), Some(b)), (Slot(1), Some(b))], resting: vec![a] };
    history.note(&by_hand);
    assert_eq!([history.had(b, Some(Slot(0))), history.had(b, Some(Slot(1))), history.had(a, None)], [1, 0, 1]);
    assert_eq!(next(&[Slot(0)], &[a, b], &history).slots, [(Slot(0), Some(a))]);
}
