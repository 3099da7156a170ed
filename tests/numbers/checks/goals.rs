//! Goals: rows, so many of so many, races, rounds, and which of them to propose.

use numbers::stats::beta::{Beta, mixed};
use numbers::stats::goal::race::{Ended, Race};
use numbers::stats::goal::rounds::Rounds;
use numbers::stats::goal::row::Row;
use numbers::stats::goal::{Proposal, at_least, fewest_tries, propose};
use proptest::prelude::*;

use super::{close, near};

fn row(long: u32, step: u32) -> Row {
    Row::new(long, step).unwrap()
}

/// The chance of what `happens` in `n` tries, over every sequence there is.
fn over_all(n: u32, p: f64, happens: impl Fn(&[bool]) -> bool) -> f64 {
    let sequences = (0_u32..1 << n).map(|bits| (0..n).map(|i| bits >> i & 1 == 1).collect::<Vec<_>>());
    sequences
        .filter(|s| happens(s))
        .map(|s| s.iter().map(|good| if *good { p } else { 1.0 - p }).product::<f64>())
        .sum()
}

#[test]
fn so_many_of_so_many_as_published() {
    near("de Méré, a six in four throws", at_least(1, 4, 1.0 / 6.0), 671.0 / 1296.0, 14);
    near("de Méré, a double six in 24", at_least(1, 24, 1.0 / 36.0), 0.4914, 4);
    // Newton to Pepys 1693; Stigler 2006, Statistical Science 21:400.
    for (sixes, throws, chance) in [(1, 6, 0.665), (2, 12, 0.619), (3, 18, 0.597)] {
        near("Newton and Pepys", at_least(sixes, throws, 1.0 / 6.0), chance, 3);
    }
    assert_eq!(
        (at_least(0, 0, 0.3), at_least(1, 0, 0.3), at_least(3, 3, 1.0), at_least(3, 3, 0.0)),
        (1.0, 0.0, 1.0, 0.0)
    );
    assert_eq!(at_least(5, 10, f64::NAN), 0.0);
    assert_eq!(fewest_tries(0.5, 1000, &mut |n| at_least(1, n, 1.0 / 36.0)), Some(25), "Pascal to Fermat 1654");
    assert_eq!(fewest_tries(0.5, 0, &mut |n| at_least(1, n, 1.0)), None);
    assert_eq!(fewest_tries(1.1, u32::MAX, &mut |_| 1.0), None);
    near("70,000 of 100,000 at 0.7, about a half", at_least(70_000, 100_000, 0.7), 0.5, 2);
}

#[test]
fn rows_as_published() {
    near("Feller volume 1; OEIS A050227", row(3, 0).within(10, 0.5), 65.0 / 128.0, 15);
    near("recomputed with exact fractions", row(5, 0).within(10, 0.7), 16807.0 / 40000.0, 15);
    // Two in a row in n fair tries: 1 - F(n+2) / 2^n, the Fibonacci numbers (Feller, same chapter).
    near("two in ten", row(2, 0).within(10, 0.5), 1.0 - 144.0 / 1024.0, 15);
    near("two in twenty", row(2, 0).within(20, 0.5), 1.0 - 17711.0 / 1_048_576.0, 15);
    for (long, mean) in [(3, 14.0), (5, 62.0)] {
        near("Feller XIII.7, from memory", row(long, 0).tries(0.5).unwrap().mean, mean, 12);
    }
    let five = row(5, 0).tries(0.6).unwrap();
    close("Feller XIII.7", five.mean, 7205.0 / 243.0, 1e-14);
    close("Feller XIII.7, by exact fractions", five.sd, 26.004_489_364_733_3, 1e-13);
    // Feller XIII.7, table 2, from memory: one try a second, the mean wait for so many in a row.
    for (long, p, seconds, printed, digits) in [
        (10, 0.5, 60.0, 34.1, 1),
        (15, 0.5, 3600.0, 18.2, 1),
        (20, 0.5, 86_400.0, 24.3, 1),
        (15, 0.6, 3600.0, 1.5, 1),
        (20, 0.6, 3600.0, 19.0, 1),
    ] {
        near("Feller's table", row(long, 0).tries(p).unwrap().mean / seconds, printed, digits);
    }
    // The formula itself, (1 - p^k) / (q p^k) and 1 / (q p^k)² - (2k+1) / (q p^k) - p / q².
    let (p, q, k) = (0.8_f64, 0.2_f64, 7);
    let once = q * p.powi(k);
    let variance = 1.0 / (once * once) - f64::from(2 * k + 1) / once - p / (q * q);
    close("variance", row(7, 0).tries(p).unwrap().sd.powi(2), variance, 1e-12);
}

#[test]
fn rows_that_fall_to_their_last_step() {
    // Worked by every sequence there is.
    let longest = |tries: &[bool], step: u32| {
        tries.iter().fold((0, 0), |(now, best): (u32, u32), good| {
            let now = if *good {
                now + 1
            } else if step > 0 {
                now - now % step
            } else {
                0
            };
            (now, best.max(now))
        })
    };
    for (long, step, n, p) in
        [(6, 3, 12, 0.6), (5, 2, 11, 0.4), (7, 5, 13, 0.8), (10, 5, 14, 0.7), (4, 0, 12, 0.5), (5, 1, 9, 0.3)]
    {
        let exact = over_all(n, p, |tries| longest(tries, step).1 >= long);
        near("rows", row(long, step).within(n, p), exact, 13);
    }
    // A step of one falls nowhere: so many good, in any order.
    near("step one", row(5, 1).within(9, 0.3), at_least(5, 9, 0.3), 14);
    // Ten by fives is twice five, one after another: twice the mean, √2 the spread.
    let (five, ten) = (row(5, 0).tries(0.7).unwrap(), row(10, 5).tries(0.7).unwrap());
    near("mean", ten.mean, 2.0 * five.mean, 12);
    near("spread", ten.sd, 2.0_f64.sqrt() * five.sd, 12);
    // The mean again, from the distribution itself: the sum over n of what is open after n.
    let open: f64 = (0..4000).map(|n| 1.0 - row(12, 5).within(n, 0.7)).sum();
    close("mean by summing", row(12, 5).tries(0.7).unwrap().mean, open, 1e-9);
}

#[test]
fn rows_at_the_edges() {
    assert_eq!((Row::new(0, 0), row(3, 3)), (None, row(3, 0)));
    assert_eq!((row(3, 0).tries(0.0), row(3, 0).tries(f64::NAN), row(3000, 0).tries(0.5)), (None, None, None));
    assert_eq!(row(3, 0).tries(1.0).map(|t| (t.mean, t.sd)), Some((3.0, 0.0)));
    assert_eq!((row(3, 0).within(3, 1.0), row(3, 0).within(2, 1.0), row(3, 0).within(100_000, 0.0)), (1.0, 0.0, 0.0));
    assert_eq!((row(3, 0).within(9, f64::NAN), row(3, 0).within(9, 7.0), row(12, 5).within(9, -1.0)), (0.0, 1.0, 0.0));
    assert_eq!(row(u32::MAX, 0).within(100_000, 0.5), 0.0);
    let long = row(8, 0).within(100_000, 0.7);
    assert!((0.999_999..=1.0).contains(&long), "{long}");
    assert_eq!(fewest_tries(0.7, 100_000, &mut |n| row(3, 0).within(n, 0.5)), Some(16));
    near("15 are not enough", row(3, 0).within(15, 0.5), 1.0 - 10609.0 / 32768.0, 12);
}

fn race(to: u32, lead: u32, chances: &[f64], scores: &[u32]) -> Ended {
    Race { to, lead, chances, scores, within: u32::MAX }.ended().unwrap()
}

#[test]
fn races_as_published() {
    let even = [1.0, 1.0];
    // Pascal to Fermat, 29 July 1654: one point short against two, three; and two against three.
    for (short, other, chance) in [(1, 2, 3.0 / 4.0), (1, 3, 7.0 / 8.0), (2, 3, 11.0 / 16.0)] {
        near("Pascal and Fermat", race(3, 0, &even, &[3 - short, 3 - other]).wins[0], chance, 15);
    }
    // Huygens 1657, De ratiociniis in ludo aleae, propositions 8 and 9 and the table, from memory, recomputed: three players.
    for (short, parts) in [
        ([1, 1, 2], [4.0, 4.0, 1.0]),
        ([1, 2, 2], [17.0, 5.0, 5.0]),
        ([1, 1, 3], [13.0, 13.0, 1.0]),
        ([1, 2, 3], [19.0, 6.0, 2.0]),
    ] {
        let ended = race(4, 0, &[1.0; 3], &short.map(|s| 4 - s));
        let sum: f64 = parts.iter().sum();
        (0..3).for_each(|i| near("Huygens", ended.wins[i], parts[i] / sum, 14));
    }
    near("first to 25, lead of 2; recomputed", race(25, 2, &[0.55, 0.45], &[0, 0]).wins[0], 0.764116, 6);
    near("first to 10; recomputed three ways", race(10, 0, &[0.55, 0.45], &[0, 0]).wins[0], 0.6710359, 7);
    // Kemeny and Snell 1960, Finite Markov Chains, the game of tennis: 4 points with a lead of two at 0.6; from memory.
    near("Kemeny and Snell", race(4, 2, &[0.6, 0.4], &[0, 0]).wins[0], 0.736, 3);
    near("deuce: p² / (p² + q²)", race(4, 2, &[0.6, 0.4], &[3, 3]).wins[0], 9.0 / 13.0, 9);
    // From deuce at even chances two pairs of points are played on average.
    near("points from deuce", race(25, 2, &even, &[24, 24]).points, 4.0, 6);
    // Banach's matchboxes turned round: first to 2, even: ends after 2 or 3 points, 2.5 on average.
    near("points to two", race(2, 0, &even, &[0, 0]).points, 2.5, 14);
}

#[test]
fn races_among_several() {
    for lead in [0, 2] {
        let ended = race(10, lead, &[1.0; 4], &[0; 4]);
        ended.wins.iter().for_each(|wins| near("four alike", *wins, 0.25, 6));
        let uneven = race(10, lead, &[0.3, 0.5, 0.2], &[0; 3]);
        close("all together", uneven.wins.iter().sum(), 1.0, 1e-9);
        // Whoever stands where in the list, the chance is its own.
        let turned = race(10, lead, &[0.2, 0.3, 0.5], &[0; 3]);
        (0..3).for_each(|i| near("turned", uneven.wins[i], turned.wins[(i + 1) % 3], 9));
        // With nothing for the third it's a race of two.
        let (two, three) = (race(10, lead, &[0.55, 0.45], &[0, 0]), race(10, lead, &[0.55, 0.45, 0.0], &[0, 0, 0]));
        near("a third that never scores", three.wins[0], two.wins[0], 9);
    }
    let four_to_25 = race(25, 2, &[1.0; 4], &[0; 4]);
    close("four to 25", four_to_25.wins.iter().sum(), 1.0, 1e-9);
    let within = |n| Race { to: 3, lead: 0, chances: &[1.0, 1.0], scores: &[0, 0], within: n }.ended().unwrap();
    assert_eq!((within(2).open, within(3).open, within(4).open, within(5).open), (1.0, 0.75, 0.375, 0.0));
    assert_eq!(within(3).wins, [0.125, 0.125]);
    let none = |to, chances: &[f64], scores: &[u32]| Race { to, lead: 2, chances, scores, within: 9 }.ended();
    assert_eq!(none(0, &[1.0, 1.0], &[0, 0]), None);
    assert_eq!(none(5, &[1.0], &[0]), None);
    assert_eq!(none(5, &[1.0; 5], &[0; 5]), None);
    assert_eq!(none(5, &[1.0, f64::NAN], &[0, 0]), None);
    assert_eq!(none(5, &[0.0, 0.0], &[0, 0]), None);
    assert_eq!(none(5, &[1.0, 1.0], &[0]), None);
    assert_eq!(none(5, &[1.0, 1.0], &[5, 3]), None, "over");
    assert_eq!(none(1000, &[1.0; 4], &[0; 4]), None, "too many positions");
    assert_eq!(none(u32::MAX, &[1.0, 1.0], &[u32::MAX - 1, 0]), None);
}

#[test]
fn rounds_by_hand() {
    let rounds = Rounds { n_easy: 3, earn: 2, n_hard: 2, to: 2, other_to: 2 };
    // Sides of two hard points each; the easy ones have no say in who is first: 3 hard at the most, even, so half each.
    let end = rounds.within(2000, 0.9, 0.5).unwrap();
    near("even", end.reached, 0.5, 12);
    near("all", end.reached + end.other + end.open, 1.0, 12);
    // Tries: a round's easy part with 2 of 3 to be earned at 0.5 ends after 2 good with ¼, with the third for another ¼ (good, miss, good or
    // miss, good, good), else three are used and it starts over: m = ¼·2 + ¼·3 + ½ (3 + m), m = 5.5. Hard: 2, or in another round 3.
    let end = rounds.within(3000, 0.5, 0.5).unwrap();
    near("tries", end.tries, 5.5 + 2.0 + 0.5 * (5.5 + 1.0), 9);
    // Nothing to be earned: two easy and one hard a round; three hard good of four rounds at the most, in 12 tries.
    let plain = Rounds { n_easy: 2, earn: 0, n_hard: 1, to: 3, other_to: 0 };
    near("three of four", plain.within(12, 0.1, 0.6).unwrap().reached, at_least(3, 4, 0.6), 14);
    near("three of three, within 11", plain.within(11, 0.1, 0.6).unwrap().reached, 0.6_f64.powi(3), 14);
    // Without easy ones it's a race.
    let bare = Rounds { n_easy: 0, earn: 0, n_hard: 4, to: 10, other_to: 10 };
    near("as the race", bare.within(19, 0.0, 0.55).unwrap().reached, 0.6710359, 7);
    for wrong in [
        Rounds { n_hard: 0, ..plain },
        Rounds { to: 0, ..plain },
        Rounds { earn: 3, ..plain },
        Rounds { to: u32::MAX, other_to: u32::MAX, n_easy: u32::MAX, ..plain },
    ] {
        assert_eq!(wrong.within(100, 0.5, 0.5), None);
    }
    assert_eq!((plain.within(9, f64::NAN, 0.5), plain.within(9, 0.5, 1.5)), (None, None));
    assert_eq!(plain.within(0, 0.5, 0.5).unwrap().open, 1.0);
}

#[test]
fn proposals() {
    let found = |nearest, easier, harder| Some(Proposal { nearest, easier, harder });
    assert_eq!(propose(&[0.2, 0.9, 0.75, 0.5], 0.7), found(2, Some(1), Some(3)));
    assert_eq!(propose(&[0.75, 0.5], 1.0), found(0, None, Some(1)));
    assert_eq!(propose(&[0.5, 0.75], 0.625), found(1, None, Some(0)), "of two as near the likelier");
    assert_eq!(propose(&[0.5, 0.5, 0.25], 0.5), found(0, None, Some(2)), "equal ones are no neighbours");
    assert_eq!(propose(&[f64::NAN, 2.0, 0.3], 0.7), found(2, None, None));
    assert_eq!((propose(&[], 0.7), propose(&[f64::NAN], 0.7), propose(&[0.5], f64::NAN)), (None, None, None));
    // From what is known of a child, 14 of 20, and ten tries: five in a row against fewer and more.
    let nodes = Beta::of_counts(14, 6).nodes(10);
    let chances: Vec<f64> = (1..=10).map(|k| mixed(&nodes, &mut |p| row(k, 0).within(10, p))).collect();
    assert!(chances.windows(2).all(|two| two[0] > two[1]));
    let proposal = propose(&chances, 0.7).unwrap();
    assert_eq!((proposal.easier, proposal.harder), (Some(proposal.nearest - 1), Some(proposal.nearest + 1)));
}

proptest! {
    #[test]
    fn chances_stay_chances(long in 1u32..40, step in 0u32..8, n in 0u32..400, p in 0.0..=1.0f64) {
        let (now, more) = (row(long, step).within(n, p), row(long, step).within(n + 1, p));
        prop_assert!((0.0..=1.0 + 1e-12).contains(&now) && more >= now - 1e-12);
        prop_assert!(row(long, step).tries(p).is_none_or(|t| t.mean >= f64::from(long) - 1e-9 && t.sd >= 0.0));
        let likely = row(long, step).within(n, (p + 0.05).min(1.0));
        prop_assert!(likely >= now - 1e-12);
    }
}
