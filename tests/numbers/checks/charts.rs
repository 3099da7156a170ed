//! Charts: limits, and false alarms over many.

use numbers::stats::beta::{Beta, Node};
use numbers::stats::chart::{by_chance, limits, share_sd};
use numbers::stats::goal::at_least;
use numbers::stats::many::standing;
use numbers::stats::proportion::{Count, known};

use super::chance::Chance;
use super::{count, near};

#[test]
fn limits_as_published() {
    // NIST/SEMATECH e-Handbook 6.3.3.2: 50 chips a wafer, mean share 0.2313; limits from memory (also Montgomery, example 7-1).
    let of = |centre, tries| limits(centre, share_sd(centre, tries)?, 3.0);
    let range = of(0.2313, 50).unwrap();
    near("upper", range.high(), 0.4102, 4);
    near("lower", range.low(), 0.0524, 4);
    // Montgomery and Runger, Applied Statistics and Probability for Engineers, example 16-4: 0.40, samples of 100: 0.25 and 0.55.
    let range = of(0.40, 100).unwrap();
    near("upper", range.high(), 0.55, 2);
    near("lower", range.low(), 0.25, 2);
    assert_eq!((of(0.5, 0), of(1.5, 9), of(f64::NAN, 9)), (None, None, None));
    assert_eq!((limits(1.5, 0.1, 3.0), limits(0.5, f64::NAN, 3.0), limits(0.5, -0.1, 3.0)), (None, None, None));
    assert_eq!(of(0.0, 9).map(|r| (r.low(), r.high())), Some((0.0, 0.0)));
    assert_eq!(of(0.5, 1).map(|r| (r.low(), r.high())), Some((0.0, 1.0)));
}

#[test]
fn false_alarms_over_a_group() {
    // Twenty with nothing changed, each looked at once against its own past: at 0.05 each alone would lead to a false alarm in most groups.
    let mut chance = Chance(9);
    let (mut alone, mut together, n_groups) = (0, 0, 2000);
    for _ in 0..n_groups {
        let p_values: Vec<f64> = (0..20)
            .map(|_| {
                let share = chance.between(0.3, 0.9);
                let (n_then, n_now) = (chance.whole(20, 200), chance.whole(5, 30));
                let then = chance.tries(n_then, share);
                by_chance(chance.tries(n_now, share), &known(then).nodes(n_now))
            })
            .collect();
        alone += u32::from(p_values.iter().any(|p| *p <= 0.05));
        together += u32::from(standing(&p_values, 0.05).contains(&true));
    }
    let (alone, together) = (f64::from(alone) / f64::from(n_groups), f64::from(together) / f64::from(n_groups));
    println!("groups of twenty with a false alarm: {alone:.3} each alone, {together:.3} together");
    assert!(alone > 0.3 && together < 0.05, "{alone} {together}");
}

#[test]
fn by_chance_at_the_edges() {
    let known = |chance| [Node { chance, weight: 1.0 }];
    assert_eq!(by_chance(Count::NONE, &known(0.3)), 1.0);
    assert_eq!((by_chance(count(5, 5), &known(1.0)), by_chance(count(0, 5), &known(1.0))), (1.0, 0.0));
    near("7 of 10 at 0.4, twice the tail", by_chance(count(7, 10), &known(0.4)), 2.0 * at_least(7, 10, 0.4), 14);
    // The beta-binomial by hand: from Beta(1, 1) every count of 4 is as likely, so 4 of 4 has 2/5.
    near("from nothing", by_chance(count(4, 4), &Beta::new(1.0, 1.0).unwrap().nodes(4)), 0.4, 9);
    assert_eq!((share_sd(0.5, 0), share_sd(0.5, 25)), (None, Some(0.1)));
    let many = by_chance(count(70_000, 100_000), &Beta::of_counts(69_900, 30_100).nodes(100_000));
    assert!((0.6..0.8).contains(&many), "{many}");
}
