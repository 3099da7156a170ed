//! Kappa and bias.

use numbers::stats::agreement::{Steps, bias, kappa};
use numbers::stats::proportion::Confidence;
use proptest::prelude::*;

use super::chance::Chance;
use super::near;

const SURE: Confidence = Confidence::P95;

#[test]
fn kappa_as_published() {
    near("from memory", kappa(&[20, 5, 10, 15], 2, Steps::Equal, SURE).unwrap().value, 0.4, 12);
    // SAS/STAT, FREQ procedure, documentation; and R package statpsych, reference page of ci.kappa.
    for (table, n_grades, value, error, low, high, digits) in [
        (vec![0, 4, 1, 0, 8, 0, 0, 1, 5], 3, 0.4842, 0.1380, 0.2137, 0.7547, 4),
        (vec![31, 12, 4, 58], 2, 0.6756757, 0.07344761, 0.5317210, 0.8196303, 7),
    ] {
        let kappa = kappa(&table, n_grades, Steps::Equal, SURE).unwrap();
        near("kappa", kappa.value, value, digits);
        near("its error", kappa.error, error, digits);
        near("their low", kappa.value - SURE.z() * kappa.error, low, digits);
        near("their high", kappa.value + SURE.z() * kappa.error, high, digits);
    }
    // SAS/STAT, FREQ procedure, two dermatologists on four grades, from memory: plain and with Cicchetti and Allison's weights.
    let skin = [10, 4, 1, 0, 5, 10, 12, 2, 2, 4, 12, 5, 0, 2, 6, 13];
    for (steps, value, error) in [(Steps::Equal, 0.3449, 0.0724), (Steps::Linear, 0.5082, 0.0655)] {
        let kappa = kappa(&skin, 4, steps, SURE).unwrap();
        println!("{kappa:?}");
        near("skin", kappa.value, value, 4);
        near("skin, error", kappa.error, error, 4);
    }
    // Fleiss, Cohen and Everitt 1969, table 1, from memory: 200 diagnoses in three kinds.
    let diagnoses = [106, 10, 4, 22, 28, 10, 2, 12, 6];
    near("Fleiss, Cohen, Everitt", kappa(&diagnoses, 3, Steps::Equal, SURE).unwrap().value, 0.429, 3);
}

#[test]
fn kappa_at_the_edges() {
    let plain = |table: &[u32], n| kappa(table, n, Steps::Equal, SURE);
    assert_eq!(
        (plain(&[], 0), plain(&[5], 1), plain(&[1, 2, 3], 2), plain(&[0; 4], 2), plain(&[9, 0, 0, 0], 2)),
        (None, None, None, None, None)
    );
    assert_eq!(plain(&[1; 4], usize::MAX), None);
    let all = plain(&[5, 0, 0, 5], 2).unwrap();
    assert_eq!((all.value, all.error, all.high), (1.0, 0.0, 1.0));
    assert!((0.3..0.9).contains(&all.low), "ten of ten are not sure: {all:?}");
    assert!(plain(&[500, 0, 0, 500], 2).unwrap().low > 0.97);
    assert_eq!(plain(&[0, 5, 5, 0], 2).unwrap().value, -1.0);
    let many = kappa(&[u32::MAX; 9], 3, Steps::Square, SURE).unwrap();
    assert!(many.value.abs() < 1e-9 && many.low <= many.high);
}

#[test]
fn bias_as_published() {
    // Fagerland, Lydersen and Laake 2017, Statistical Analysis of Contingency Tables, chapter 8, response before and after.
    let gap = bias([59, 16, 6, 80], SURE).unwrap();
    near("seen", gap.seen, -0.0621, 4);
    near("low", gap.low, -0.1186, 4);
    near("high", gap.high, -0.0046, 4);
    let turned = bias([59, 6, 16, 80], SURE).unwrap();
    assert!((turned.low + gap.high).abs() < 1e-14 && (turned.high + gap.low).abs() < 1e-14);
    assert_eq!((bias([0; 4], SURE), bias([u32::MAX, 1, 0, 0], SURE)), (None, None));
    let none = bias([10, 0, 0, 0], SURE).unwrap();
    assert!(none.low < 0.0 && none.seen == 0.0 && none.high > 0.0);
}

#[test]
fn ranges_hold_as_often_as_they_say() {
    // Two note the same tries with true shares of each cell; over 40 tables, each drawn 1000 times.
    let mut chance = Chance(3);
    let (mut kappas, mut biases, mut n) = (0.0, 0.0, 0.0);
    for _ in 0..40 {
        let (share, hit, slip) = (chance.between(0.3, 0.8), chance.between(0.75, 0.97), chance.between(0.03, 0.25));
        let n_tries = chance.whole(30, 120);
        // What was good is noted good by the first, and by the second in `hit` of the cases; what wasn't in `slip`.
        let cells = [share * hit, share * (1.0 - hit), (1.0 - share) * slip, (1.0 - share) * (1.0 - slip)];
        let second = cells[0] + cells[2];
        let by_chance = share * second + (1.0 - share) * (1.0 - second);
        let true_kappa = (cells[0] + cells[3] - by_chance) / (1.0 - by_chance);
        for _ in 0..1000 {
            let mut table = [0_u32; 4];
            for _ in 0..n_tries {
                let (good, u) = (chance.even() < share, chance.even());
                let noted = u < if good { hit } else { slip };
                table[usize::from(!good) * 2 + usize::from(!noted)] += 1;
            }
            n += 1.0;
            let kappa = kappa(&table, 2, Steps::Equal, SURE).unwrap();
            kappas += f64::from(u8::from(kappa.low <= true_kappa && true_kappa <= kappa.high));
            let gap = bias(table, SURE).unwrap();
            biases += f64::from(u8::from(gap.low <= second - share && second - share <= gap.high));
        }
    }
    println!("kappa's range held {:.4}, the bias's {:.4} of {n}", kappas / n, biases / n);
    assert!((0.935..0.965).contains(&(kappas / n)), "kappa {}", kappas / n);
    assert!((0.935..0.975).contains(&(biases / n)), "bias {}", biases / n);
}

proptest! {
    #[test]
    fn always_sound(table in prop::collection::vec(0u32..50, 9), square in any::<bool>()) {
        let steps = if square { Steps::Square } else { Steps::Linear };
        if let Some(kappa) = kappa(&table, 3, steps, SURE) {
            prop_assert!(-1.0 - 1e-12 <= kappa.value && kappa.value <= 1.0 + 1e-12 && kappa.error >= 0.0);
            prop_assert!(kappa.low <= kappa.high);
        }
        if let Some(gap) = bias([table[0], table[1], table[2], table[3]], SURE) {
            prop_assert!(-1.0 <= gap.low && gap.low <= gap.seen && gap.seen <= gap.high && gap.high <= 1.0);
        }
    }
}
