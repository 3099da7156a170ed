//! Charts: limits, the smoothed line, the running sums; false alarms, one at a time and over many.

use numbers::stats::beta::{Beta, Node};
use numbers::stats::chart::{Smoothed, Sums, by_chance, in_sds, limits, share_sd};
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
fn the_smoothed_line_as_published() {
    // NIST/SEMATECH e-Handbook 6.3.2.4.
    let seen = [
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
        53.6, 52.1,
    ];
    let printed = [
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92,
        50.73, 51.23, 51.94, 51.99,
    ];
    let mut line = Smoothed::new(0.3, 50.0).unwrap();
    let reach = 3.0 * line.sd_at_last(2.0539);
    near("upper", 50.0 + reach, 52.5884, 3);
    near("lower", 50.0 - reach, 47.4115, 3);
    for (seen, printed) in seen.into_iter().zip(printed) {
        line.note(seen, 2.0539);
        near("line", line.value(), printed, 2);
        assert!((line.value() - 50.0).abs() < reach && line.sd() < line.sd_at_last(2.0539), "no signal");
    }
    near("after twenty it strays as far as ever", line.sd(), line.sd_at_last(2.0539), 3);
    let before = line;
    line.note(f64::NAN, 1.0);
    line.note(1.0, f64::INFINITY);
    assert_eq!(line, before);
    assert_eq!((Smoothed::new(0.0, 1.0), Smoothed::new(1.1, 1.0), Smoothed::new(0.3, f64::NAN)), (None, None, None));
}

#[test]
fn the_running_sums_as_published() {
    // Montgomery and Runger, table 16-7: target 99, spread 2; sums with a slack of half a spread, recomputed by hand.
    let seen = [
        102.0, 94.8, 98.3, 98.4, 102.0, 98.5, 99.0, 97.7, 100.0, 98.1, 101.3, 98.7, 101.1, 98.4, 97.0, 96.7, 100.3,
        101.4, 97.2, 101.0,
    ];
    let up = [2.0, 0.0, 0.0, 0.0, 2.0, 0.5, 0.0, 0.0, 0.0, 0.0, 1.3, 0.0, 1.1, 0.0, 0.0, 0.0, 0.3, 1.7, 0.0, 1.0];
    let down = [0.0, 3.2, 2.9, 2.5, 0.0, 0.0, 0.0, 0.3, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 2.3, 0.0, 0.0, 0.8, 0.0];
    let mut sums = Sums::new(0.5).unwrap();
    for ((seen, up), down) in seen.into_iter().zip(up).zip(down) {
        sums.note((seen - 99.0) / 2.0);
        near("up", 2.0 * sums.up, up, 9);
        near("down", 2.0 * sums.down, down, 9);
    }
    let before = sums;
    sums.note(f64::NAN);
    assert_eq!(sums, before);
    assert_eq!((Sums::new(-1.0), Sums::new(f64::NAN)), (None, None));
}

/// How many values, on average, until what is in order is called out of it.
fn until_false_alarm(n_runs: u32, mut alarm: impl FnMut(&mut Chance, bool) -> bool) -> f64 {
    let mut chance = Chance(44);
    let mut values = 0.0;
    for _ in 0..n_runs {
        let mut first = true;
        loop {
            values += 1.0;
            if alarm(&mut chance, first) {
                break;
            }
            first = false;
        }
    }
    values / f64::from(n_runs)
}

#[test]
fn false_alarms_as_published() {
    // Both sums with slack ½: 168 for a limit of 4, 465 for 5 (Montgomery, table of run lengths); the line with part 0.1 and 2.814 deviations:
    // 500 (Lucas and Saccucci 1990, Technometrics 32:1). By simulation: the mean of 4000 is right within about 5 in 100.
    for (limit, published) in [(4.0, 168.0), (5.0, 465.0)] {
        let mut sums = Sums::new(0.5).unwrap();
        let found = until_false_alarm(4000, |chance, first| {
            if first {
                sums = Sums::new(0.5).unwrap();
            }
            sums.note(chance.normal(0.0, 1.0));
            sums.up.max(sums.down) > limit
        });
        println!("sums, limit {limit}: {found:.0}, published {published}");
        assert!((found / published - 1.0).abs() < 0.05, "{found} {published}");
    }
    let mut line = Smoothed::new(0.1, 0.0).unwrap();
    let found = until_false_alarm(4000, |chance, first| {
        if first {
            line = Smoothed::new(0.1, 0.0).unwrap();
        }
        line.note(chance.normal(0.0, 1.0), 1.0);
        line.value().abs() > 2.814 * line.sd_at_last(1.0)
    });
    println!("line: {found:.0}, published 500");
    assert!((found / 500.0 - 1.0).abs() < 0.05, "{found}");
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
    assert_eq!((in_sds(Count::NONE, 0.5), in_sds(count(1, 2), 0.0), in_sds(count(1, 2), f64::NAN)), (None, None, None));
    near("20 of 25", in_sds(count(20, 25), 0.5).unwrap(), 3.0, 12);
    assert_eq!((share_sd(0.5, 0), share_sd(0.5, 25)), (None, Some(0.1)));
    let many = by_chance(count(70_000, 100_000), &Beta::of_counts(69_900, 30_100).nodes(100_000));
    assert!((0.6..0.8).contains(&many), "{many}");
}
