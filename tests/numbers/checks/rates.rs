//! Special functions, ranges, differences, false findings.

use numbers::stats::beta::{Beta, mixed, normal_nodes, second_higher};
use numbers::stats::many::{adjusted, standing};
use numbers::stats::proportion::{Confidence, Count, difference, jeffreys, known, wilson};
use numbers::stats::special::{ln_gamma, logistic, logit, normal_below, normal_density, normal_quantile};
use proptest::prelude::*;

use super::{close, count, near};

fn beta(a: f64, b: f64) -> Beta {
    Beta::new(a, b).unwrap()
}

#[test]
fn special_functions_as_published() {
    let source = "Abramowitz and Stegun 1964, table 26.1, from memory, recomputed";
    near(source, normal_below(1.0), 0.841344746068543, 15);
    near(source, normal_below(2.0), 0.977249868051821, 15);
    near(source, normal_below(3.0), 0.998650101968370, 15);
    close("upper tail at 5, table 26.2, from memory", normal_below(-5.0), 2.866515718791939e-7, 1e-13);
    close("upper tail at 10, same", normal_below(-10.0), 7.619853024160527e-24, 1e-12);
    near("Wilson and others 2019, Nature Communications: best error share", normal_below(-1.0), 0.158655, 6);
    for (p, z) in [(0.9, 1.2815515655446), (0.95, 1.644853626951473), (0.99, 2.326347874040841), (0.5, 0.0)] {
        near("A&S table 26.5 (to more digits, recomputed)", normal_quantile(p).unwrap(), z, 14);
    }
    near("A&S table 6.1: ln gamma 1.5, from memory", ln_gamma(1.5), -0.1207822376352452, 15);
    near("gamma of a half is the root of pi", ln_gamma(0.5), 0.5 * std::f64::consts::PI.ln(), 15);
    close("100!, ln", ln_gamma(101.0), 363.739_375_555_563_5, 1e-14);
    near("A&S example of 26.5: I at 0.5 of (2, 3) is 11/16", beta(2.0, 3.0).below(0.5), 11.0 / 16.0, 15);
    near("arcsine law: I at x of (½, ½) is 2/π asin √x", beta(0.5, 0.5).below(0.25), 1.0 / 3.0, 15);
}

#[test]
fn special_functions_at_the_edges() {
    for (p, z) in [(0.0, None), (1.0, None), (f64::NAN, None), (-1.0, None), (2.0, None)] {
        assert_eq!(normal_quantile(p), z);
    }
    assert_eq!((normal_below(f64::INFINITY), normal_below(f64::NEG_INFINITY), normal_below(f64::NAN)), (1.0, 0.0, 0.0));
    assert_eq!((normal_below(-50.0), normal_below(50.0), normal_density(1e200)), (0.0, 1.0, 0.0));
    let least = normal_quantile(f64::MIN_POSITIVE).unwrap();
    assert!((-38.0..-37.0).contains(&least), "{least}");
    assert_eq!((ln_gamma(0.0), ln_gamma(-3.0), ln_gamma(f64::NAN), ln_gamma(f64::INFINITY)), (0.0, 0.0, 0.0, 0.0));
    assert_eq!((logistic(f64::INFINITY), logistic(f64::NEG_INFINITY)), ((1.0, 0.0), (0.0, 1.0)));
    assert_eq!((logit(0.0), logit(1.0), logit(f64::NAN)), (None, None, None));
    for (a, b) in [(0.0, 1.0), (1.0, -1.0), (f64::NAN, 1.0), (f64::INFINITY, 1.0), (f64::MAX, f64::MAX)] {
        assert_eq!(Beta::new(a, b), None);
    }
    let even = beta(2.0, 2.0);
    assert_eq!((even.below(-1.0), even.below(2.0), even.below(f64::NAN)), (0.0, 1.0, 0.0));
    assert_eq!((even.quantile(0.0), even.quantile(1.0), even.quantile(f64::NAN)), (Some(0.0), Some(1.0), None));
    assert_eq!((normal_nodes(0.0, 0.0, 1), normal_nodes(f64::NAN, 1.0, 1)), (None, None));
}

#[test]
fn jeffreys_as_published() {
    for (good, tries, low, high) in [
        // Brown, Cai, DasGupta 2001, Statistical Science 16:101, table 5; recomputed.
        (1, 10, 0.0110, 0.3813),
        (5, 10, 0.2235, 0.7765),
        // The ends are kept: table 5 prints 0 for none good.
        (0, 10, 0.0, 0.2172),
        (10, 10, 0.7828, 1.0),
    ] {
        let range = jeffreys(count(good, tries), Confidence::P95).unwrap();
        near("low", range.low(), low, 4);
        near("high", range.high(), high, 4);
    }
    assert_eq!(jeffreys(Count::NONE, Confidence::P95), None);
}

/// The chance that a range holds the share `p`, over all counts of `n` tries.
fn covered(n: u32, p: f64, holds: impl Fn(Count) -> bool) -> f64 {
    let chance = |good: u32| {
        let ways = ln_gamma(f64::from(n) + 1.0) - ln_gamma(f64::from(good) + 1.0) - ln_gamma(f64::from(n - good) + 1.0);
        (ways + f64::from(good) * p.ln() + f64::from(n - good) * (1.0 - p).ln()).exp()
    };
    (0..=n).filter(|good| holds(count(*good, n))).map(chance).sum()
}

#[test]
fn coverage_as_published() {
    // Brown, Cai, DasGupta 2001: at n = 10, p = 0.1 "share plus or minus" covers 0.650, Wilson 0.930. The section on n = 100, p = 0.1 and
    // the "unlucky" n = 30, p = 0.2 (0.946) are from its table 1, from memory, recomputed.
    let plus_minus = |p: f64| {
        move |seen: Count| {
            let share = seen.share().unwrap();
            (share - p).abs() <= Confidence::P95.z() * (share * (1.0 - share) / f64::from(seen.tries())).sqrt()
        }
    };
    near("Wald, 10", covered(10, 0.1, plus_minus(0.1)), 0.650, 3);
    near("Wald, 30 at 0.2", covered(30, 0.2, plus_minus(0.2)), 0.946, 3);
    near("Wald, 98 at 0.2", covered(98, 0.2, plus_minus(0.2)), 0.928, 3);
    let within =
        |p: f64| move |seen: Count| wilson(seen, Confidence::P95).is_some_and(|r| r.low() <= p && p <= r.high());
    near("Wilson, 10", covered(10, 0.1, within(0.1)), 0.930, 3);
    // Jeffreys covers the middle shares well on average: over p = 0.1 … 0.9 and 10, 20, 50 tries its mean is within a point of 0.95.
    let mut sum = 0.0;
    for n in [10, 20, 50] {
        for tenth in 10..=90 {
            let p = f64::from(tenth) / 100.0;
            sum += covered(n, p, |seen| jeffreys(seen, Confidence::P95).is_some_and(|r| r.low() <= p && p <= r.high()));
        }
    }
    assert!((sum / 243.0 - 0.95).abs() < 0.01, "{}", sum / 243.0);
}

#[test]
fn differences_as_published() {
    // Newcombe 1998, Statistics in Medicine 17:873, table II, method 10; cases c and f on from memory, recomputed by statsmodels.
    for ((a, m), (b, n), low, high) in [
        ((56, 70), (48, 80), 0.0524, 0.3339),
        ((9, 10), (3, 10), 0.1705, 0.8090),
        ((6, 7), (2, 7), 0.0582, 0.8062),
        ((5, 56), (0, 29), -0.0381, 0.1926),
        ((0, 10), (0, 20), -0.1611, 0.2775),
        ((0, 10), (0, 10), -0.2775, 0.2775),
        ((10, 10), (0, 20), 0.6791, 1.0),
        ((10, 10), (0, 10), 0.6075, 1.0),
    ] {
        let gap = difference(count(a, m), count(b, n), Confidence::P95).unwrap();
        near("low", gap.low, low, 4);
        near("high", gap.high, high, 4);
        let turned = difference(count(b, n), count(a, m), Confidence::P95).unwrap();
        assert!((turned.low + gap.high).abs() < 1e-15 && (turned.high + gap.low).abs() < 1e-15);
    }
    assert_eq!(difference(Count::NONE, count(1, 2), Confidence::P95), None);
}

#[test]
fn which_is_higher() {
    near("∫ 2x (2x - x²)", second_higher(beta(1.0, 2.0), beta(2.0, 1.0)), 5.0 / 6.0, 10);
    near("recomputed by quadrature", second_higher(beta(5.0, 7.0), beta(8.0, 4.0)), 445.0 / 494.0, 10);
    near("two alike", second_higher(beta(0.5, 0.5), beta(0.5, 0.5)), 0.5, 12);
    near("arcsine against even: by symmetry", second_higher(beta(0.5, 0.5), beta(1.0, 1.0)), 0.5, 9);
    let (few, many) = (known(Count::NONE), known(count(70_000, 100_000)));
    // Nothing known against 0.7: the arcsine law, 2/π asin √0.7, leaves that much below.
    near("none against 100,000", second_higher(few, many), 2.0 / std::f64::consts::PI * 0.7_f64.sqrt().asin(), 4);
}

#[test]
fn false_findings_as_published() {
    // Benjamini and Hochberg 1995, section 3.2, data from memory: four stand at 0.05, by Bonferroni three.
    let p = [
        0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590,
        1.0,
    ];
    let n_standing = |p: &[f64]| standing(p, 0.05).iter().filter(|s| **s).count();
    assert_eq!((n_standing(&p), p.iter().filter(|p| **p * 15.0 <= 0.05).count()), (4, 3));
    let turned: Vec<f64> = p.iter().rev().copied().collect();
    assert_eq!(standing(&turned, 0.05).iter().rev().copied().collect::<Vec<_>>(), standing(&p, 0.05));
    near("the fourth, 0.0095 * 15 / 4", adjusted(&p)[3], 0.035625, 12);
    assert_eq!(adjusted(&[]), [] as [f64; 0]);
    assert_eq!(adjusted(&[f64::NAN, 0.01, -1.0, 7.0]), [1.0, 0.04, 1.0, 1.0]);
}

#[test]
fn mixtures_agree_with_closed_forms() {
    // The beta-binomial: after 7 of 10, from the even prior, all of the next n are good with chance B(8 + n, 4) / B(8, 4).
    for n in [1, 5, 20, 100, 1000] {
        let nodes = beta(8.0, 4.0).nodes(n);
        let ln_beta = |a: f64, b: f64| ln_gamma(a) + ln_gamma(b) - ln_gamma(a + b);
        let exact = (ln_beta(8.0 + f64::from(n), 4.0) - ln_beta(8.0, 4.0)).exp();
        close("all good", mixed(&nodes, &mut |p| p.powi(n as i32)), exact, 1e-8);
    }
    let even = normal_nodes(0.0, 2.0, 1).unwrap();
    near("even log-odds", mixed(&even, &mut |p| p), 0.5, 12);
}

proptest! {
    #[test]
    fn ranges_hold_for_any_count((good, tries) in (1u32..=100_000).prop_flat_map(|n| (0..=n, Just(n)))) {
        let seen = count(good, tries);
        let range = jeffreys(seen, Confidence::P95).unwrap();
        let share = seen.share().unwrap();
        prop_assert!(0.0 <= range.low() && range.low() <= share && share <= range.high() && range.high() <= 1.0);
        let mirrored = jeffreys(count(tries - good, tries), Confidence::P95).unwrap();
        prop_assert!((range.low() - (1.0 - mirrored.high())).abs() < 1e-12);
    }

    #[test]
    fn quantiles_turn_back(a in 0.5..500.0f64, b in 0.5..500.0f64, p in 0.0001..0.9999f64) {
        let known = beta(a, b);
        prop_assert!((known.below(known.quantile(p).unwrap()) / p - 1.0).abs() < 1e-10);
        prop_assert!((normal_below(normal_quantile(p).unwrap()) / p - 1.0).abs() < 1e-13);
    }

    #[test]
    fn differences_stay_in_bounds(
        (a, m) in (1u32..=100_000).prop_flat_map(|n| (0..=n, Just(n))),
        (b, n) in (1u32..=100_000).prop_flat_map(|n| (0..=n, Just(n))),
    ) {
        let gap = difference(count(a, m), count(b, n), Confidence::P95).unwrap();
        prop_assert!(-1.0 <= gap.low && gap.low <= gap.seen && gap.seen <= gap.high && gap.high <= 1.0);
        let higher = second_higher(known(count(b, n)), known(count(a, m)));
        prop_assert!((0.0..=1.0).contains(&higher));
        prop_assert!((higher + second_higher(known(count(a, m)), known(count(b, n))) - 1.0).abs() < 1e-9);
    }
}
