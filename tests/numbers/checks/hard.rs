//! Difficulties with the members integrated out.

use numbers::difficulty::{Tried, difficulties};
use numbers::stats::special::logistic;
use proptest::prelude::*;

use super::chance::Chance;
use super::near;

/// LSAT section 6 (Bock and Lieberman 1970), counts of the patterns 00000 to 11111.
pub const LSAT: [u32; 32] = [
    3, 6, 2, 11, 1, 1, 3, 4, 1, 8, 0, 16, 0, 3, 2, 15, 10, 29, 14, 81, 3, 28, 15, 80, 16, 56, 21, 173, 11, 61, 28, 298,
];

#[test]
fn difficulties_as_published() {
    let mut tried = Vec::new();
    let mut member = 0;
    for (pattern, n) in (0_u32..).zip(LSAT) {
        for _ in 0..n {
            for task in 0..5 {
                let good = f64::from(pattern >> (4 - task) & 1);
                tried.push(Tried { member, task: task as usize, good, missed: 1.0 - good });
            }
            member += 1;
        }
    }
    let found = difficulties(member, 5, &tried, 1e6).unwrap();
    // The one-parameter fit of R package ltm (Rizopoulos 2006, Journal of Statistical Software 17:5); the errors from memory.
    let printed = [(-3.6153, 0.3266), (-1.3224, 0.1422), (-0.3176, 0.0977), (-1.7301, 0.1691), (-2.7802, 0.2510)];
    for (task, (value, error)) in printed.into_iter().enumerate() {
        let (scaled, its_error) = found.scaled(task).unwrap();
        assert!((scaled - value).abs() < 5e-4, "difficulty {task}: {scaled}");
        assert!((its_error - error).abs() < 5e-4, "error {task}: {its_error}");
    }
    let (spread, error) = found.spread();
    near("discrimination", spread, 0.7551, 4);
    near("its error, from memory", error, 0.0694, 4);
    near("log-likelihood", found.ln_likelihood, -2466.938, 3);
    // About their mean they are the conditional fit's.
    let values: Vec<f64> = (0..5).map(|task| found.task(task).unwrap().0).collect();
    let mean = values.iter().sum::<f64>() / 5.0;
    for (value, printed) in values.iter().zip([-1.2561, 0.4749, 1.2360, 0.1684, -0.6232]) {
        assert!((value - mean - printed).abs() < 0.003, "{value}");
    }
    println!("difficulties {values:?}, spread {spread}, ln likelihood {}", found.ln_likelihood);
}

#[test]
fn difficulties_are_recovered() {
    // Eight who pass what six serve, not everyone everyone's.
    let mut chance = Chance(13);
    let (mut n, mut off, mut squares, mut expected, mut held) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let (mut m, mut members_held) = (0.0, 0.0);
    for _ in 0..2000 {
        let levels: Vec<f64> = (0..8).map(|_| chance.normal(0.0, 0.7)).collect();
        let tasks: Vec<f64> = (0..6).map(|_| chance.normal(-0.4, 0.6)).collect();
        let mut tried = Vec::new();
        for (member, level) in levels.iter().enumerate() {
            for (task, hard) in tasks.iter().enumerate() {
                if chance.even() < 0.7 {
                    let tries = chance.whole(3, 20);
                    let count = chance.tries(tries, logistic(level - hard).0);
                    let (good, missed) = (f64::from(count.good()), f64::from(count.missed()));
                    tried.push(Tried { member, task, good, missed });
                }
            }
        }
        let found = difficulties(8, 6, &tried, 1.5).unwrap();
        // What one task is above another: the members' own middle, drawn from few, goes into all alike.
        for task in 1..6 {
            let ((a, _), (b, error)) = (found.task(0).unwrap(), found.task(task).unwrap());
            assert!(error.is_finite());
            let apart = (a - b) - (tasks[0] - tasks[task]);
            let error = found.apart(0, task).unwrap().1;
            n += 1.0;
            off += apart;
            squares += apart * apart;
            expected += error * error;
            held += f64::from(u8::from(apart.abs() < 1.96 * error));
        }
        for (member, level) in levels.iter().enumerate() {
            let (value, sd) = found.member(member).unwrap();
            m += 1.0;
            members_held += f64::from(u8::from((value - level).abs() < 1.96 * (sd * sd + 0.7 * 0.7 / 8.0_f64).sqrt()));
        }
    }
    let spread = (squares / expected).sqrt();
    println!(
        "{n} differences of tasks: off by {:.4}, spread {spread:.3} of the error told, held {:.4}; members {:.4}",
        off / n,
        held / n,
        members_held / m
    );
    assert!(
        n >= 10_000.0 && (off / n).abs() < 0.02 && (spread - 1.0).abs() < 0.1 && (0.93..0.965).contains(&(held / n))
    );
}

#[test]
fn difficulties_at_the_edges() {
    let tried = |member, task, good, missed| Tried { member, task, good, missed };
    let all = [tried(0, 0, 9.0, 1.0), tried(0, 1, 5.0, 5.0), tried(1, 0, 8.0, 2.0), tried(1, 1, 4.0, 6.0)];
    let found = difficulties(2, 2, &all, 2.0).unwrap();
    assert!(found.task(0).unwrap().0 < found.task(1).unwrap().0);
    assert_eq!((difficulties(0, 0, &[], 1.0), difficulties(2, 2, &[tried(0, 0, 0.0, 0.0)], 1.0)), (None, None));
    for wrong in [tried(2, 0, 1.0, 0.0), tried(0, 2, 1.0, 0.0), tried(0, 0, -1.0, 0.0), tried(0, 0, f64::NAN, 0.0)] {
        assert_eq!(difficulties(2, 2, &[wrong, tried(0, 0, 1.0, 1.0)], 1.0), None);
    }
    assert_eq!(difficulties(1, 1, &[tried(0, 0, 1.0, 1.0)], 0.0), None);
    for all in [
        vec![tried(0, 0, 1.0, 0.0)],
        vec![tried(0, 0, 50.0, 0.0), tried(1, 0, 0.0, 50.0)],
        // All good at one, nothing at another; two groups that share no task; one who only has the other's task.
        vec![tried(0, 0, 20.0, 0.0), tried(1, 0, 20.0, 0.0), tried(0, 1, 0.0, 20.0), tried(1, 1, 0.0, 20.0)],
        vec![tried(0, 0, 5.0, 5.0), tried(1, 1, 9.0, 1.0), tried(2, 1, 3.0, 7.0)],
        vec![tried(0, 0, 60_000.0, 40_000.0), tried(1, 0, 99_999.0, 1.0), tried(2, 1, 0.0, 100_000.0)],
    ] {
        let found = difficulties(3, 2, &all, 2.0).unwrap();
        for task in 0..2 {
            let (value, error) = found.task(task).unwrap();
            assert!(value.is_finite() && error > 0.0 && error < 3.0, "{all:?} {value} {error}");
        }
        (0..3)
            .for_each(|member| assert!(found.member(member).is_some_and(|(value, sd)| value.is_finite() && sd > 0.0)));
        assert!(found.ln_likelihood.is_finite() && found.spread().0 > 0.0);
        assert_eq!((found.task(2), found.scaled(2), found.member(3)), (None, None, None));
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn always_sound(all in prop::collection::vec((0usize..6, 0usize..5, 0u32..40, 0u32..40), 1..25)) {
        let tried: Vec<Tried> = all
            .into_iter()
            .map(|(member, task, good, missed)| Tried { member, task, good: f64::from(good), missed: f64::from(missed) })
            .collect();
        if let Some(found) = difficulties(6, 5, &tried, 2.0) {
            for task in 0..5 {
                let (value, error) = found.task(task).unwrap();
                prop_assert!(value.is_finite() && error > 0.0 && error <= 2.0 + 1e-6, "{value} {error}");
            }
        }
    }
}
