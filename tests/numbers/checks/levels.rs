//! Levels over weeks: the pooling against a published example, the model against exact working, the edges. Simulated
//! groups stand in `calibration.rs`.

use std::time::Instant;

use numbers::stats::level::{Level, Seen, fit};
use numbers::stats::proportion::Confidence;
use numbers::stats::special::{logistic, normal_density};
use proptest::prelude::*;

use super::chance::Chance;
use super::{count, near};

fn seen(day: i32, good: u32, tries: u32) -> Seen {
    Seen::plain(day, count(good, tries))
}

#[test]
fn pooling_as_published() {
    // Efron and Morris 1977, Scientific American 236:119: hits of the first 45 of eighteen, what their shrinkage makes of them, and the rest of
    // the season.
    let hits = [18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7];
    let theirs = [
        0.294, 0.289, 0.285, 0.280, 0.275, 0.275, 0.270, 0.266, 0.261, 0.261, 0.256, 0.256, 0.256, 0.256, 0.256, 0.252,
        0.247, 0.242,
    ];
    let season = [
        0.346, 0.298, 0.276, 0.222, 0.273, 0.270, 0.263, 0.210, 0.269, 0.230, 0.264, 0.256, 0.303, 0.264, 0.226, 0.285,
        0.316, 0.200,
    ];
    let members: Vec<Vec<Seen>> = hits.iter().map(|hits| vec![seen(0, *hits, 45)]).collect();
    let levels = fit(&members).unwrap();
    let ours: Vec<f64> = (0..18).map(|i| levels.at(i, 0).unwrap().likely()).collect();
    let error = |of: &[f64]| of.iter().zip(season).map(|(a, b)| (a - b) * (a - b)).sum::<f64>();
    let raw: Vec<f64> = hits.iter().map(|hits| f64::from(*hits) / 45.0).collect();
    near("their raw error", error(&raw), 0.0753, 2);
    near("their error", error(&theirs), 0.0213, 4);
    println!("squared error: raw {:.4}, Efron and Morris {:.4}, ours {:.4}", error(&raw), error(&theirs), error(&ours));
    // Ours pools on another scale and doesn't take the spread for known: not the same digits, the same shrinkage and the same gain.
    for (ours, theirs) in ours.iter().zip(theirs) {
        assert!((ours - theirs).abs() < 0.02, "{ours} {theirs}");
    }
    assert!(error(&ours) < 0.025, "{}", error(&ours));
    assert!(ours.windows(2).all(|two| two[0] >= two[1] - 1e-12), "the order of the counts is kept");
}

/// With one member on one occasion all of the model is one normal prior a point of the grid: exact by sums over the log-odds.
#[test]
fn as_by_exact_working() {
    for (good, tries) in [(3, 3), (17, 20), (0, 20), (1, 1), (5, 10), (300, 1000)] {
        let mut sums = [0.0; 3];
        for spread in [0.13, 0.3, 0.6, 1.2_f64] {
            for form in [0.0, 0.25, 0.5_f64] {
                // Of log-odds u on the day the level has this part, and what is left of it beside.
                let (level, all) = (2.25 + spread * spread, 2.25 + spread * spread + form * form);
                let rest = level * form * form / all;
                for i in -2400..=2400 {
                    let u = f64::from(i) * 0.005;
                    let (p, q) = logistic(u);
                    let weight = p.powi(good) * q.powi(tries - good) * normal_density(u / all.sqrt()) / all.sqrt();
                    let mean = u * level / all;
                    sums = [sums[0] + weight, sums[1] + weight * mean, sums[2] + weight * (mean * mean + rest)];
                }
            }
        }
        let mean = sums[1] / sums[0];
        let sd = (sums[2] / sums[0] - mean * mean).sqrt();
        let got = fit(&[vec![seen(0, good as u32, tries as u32)]]).unwrap().at(0, 0).unwrap();
        let exact = Level::new(mean, sd).unwrap();
        let (ours, theirs) = (got.range(Confidence::P95), exact.range(Confidence::P95));
        println!("{good} of {tries}: {ours:?}, exactly {theirs:?}");
        assert!((got.likely() - exact.likely()).abs() < 0.03, "{good} of {tries}: {got:?} {exact:?}");
        assert!(
            (ours.low() - theirs.low()).abs() < 0.05 && (ours.high() - theirs.high()).abs() < 0.05,
            "{good} of {tries}"
        );
    }
}

#[test]
fn three_of_three_does_not_lead() {
    let group = [vec![seen(0, 3, 3)], vec![seen(0, 17, 20)], vec![seen(0, 11, 20)], vec![seen(0, 9, 20)], vec![]];
    let levels = fit(&group).unwrap();
    let likely = |member| levels.at(member, 0).unwrap().likely();
    assert!(likely(1) > likely(0) && likely(0) > likely(2));
    // Who hasn't tried is somewhere in the group.
    assert_eq!((levels.at(4, 0), levels.on(4, 99)), (None, Some(levels.newcomer())));
    // Half the weight is half the count.
    let (half, whole) = (Seen { weight: 0.5, ..seen(0, 16, 20) }, seen(0, 8, 10));
    let of = |one: Seen| fit(&[vec![one], vec![seen(0, 5, 10)]]).unwrap().at(0, 0).unwrap();
    near("half", of(half).likely(), of(whole).likely(), 6);
    assert!(of(half).range(Confidence::P95).low() < of(seen(0, 16, 20)).range(Confidence::P95).low());
}

#[test]
fn recent_occasions_weigh_more() {
    let even = |goods: &[u32]| (0..).zip(goods).map(|(i, good)| seen(i * 7, *good, 20)).collect::<Vec<_>>();
    let levels =
        fit(&[even(&[8, 8, 9, 11, 13, 15, 16, 16]), even(&[16, 16, 15, 13, 11, 9, 8, 8]), even(&[12; 8])]).unwrap();
    let now = |member| levels.at(member, 7).unwrap().likely();
    assert!(now(0) > 0.68 && now(1) < 0.52 && now(0) > now(2) && now(2) > now(1));
    let rise = levels.change(0, 0, Confidence::P95).unwrap();
    assert!(rise.low > 0.0 && rise.low < rise.likely && rise.likely < rise.high && rise.up > 0.95, "{rise:?}");
    let even = levels.change(2, 0, Confidence::P95).unwrap();
    assert!(even.low < 0.0 && 0.0 < even.high && (0.2..0.8).contains(&even.up), "{even:?}");
    assert_eq!(
        (levels.change(0, 7, Confidence::P95), levels.change(3, 0, Confidence::P95), levels.higher(0, 99)),
        (None, None, None)
    );
    // Time makes less sure, in the past never more than in the future.
    let width = |day| {
        let range = levels.on(2, day).unwrap().range(Confidence::P95);
        range.high() - range.low()
    };
    assert!(width(49) < width(80) && width(80) < width(365) && width(-5) == width(49));
    assert!(levels.weekly() > 0.05 && levels.weekly() < 0.36);
}

#[test]
fn what_would_tell() {
    let level = Level::new(0.8, 0.4).unwrap();
    // 0.69 against 0.5 and 0.8: known are 6.25; to 90 in 100 are needed (1.2816 / 0.8)² = 2.57, told already; (1.2816 / 0.586)² = 4.78 as well.
    assert_eq!((level.more_tries(0.5, 0.9, 1000), level.more_tries(0.8, 0.9, 1000)), (Some(0), Some(0)));
    // To 99 in 100 at 0.8: (2.3263 / 0.5863)² - 6.25 = 9.49 more, at 0.2139 a try: 44.4.
    assert_eq!(level.more_tries(0.8, 0.99, 1000), Some(45));
    assert_eq!(level.more_tries(logistic(0.8).0, 0.9, u32::MAX), None);
    assert_eq!(
        (level.more_tries(1.0, 0.9, 9), level.more_tries(0.5, 1.0, 9), level.more_tries(0.5, 0.2, 9)),
        (None, None, Some(0))
    );
    near("above and below", level.above(0.7) + level.below(0.7), 1.0, 14);
    assert_eq!((level.below(0.0), level.below(1.0), level.above(-3.0)), (0.0, 1.0, 1.0));
    assert_eq!((Level::new(0.0, 0.0), Level::new(f64::NAN, 1.0), Level::new(0.0, f64::INFINITY)), (None, None, None));
}

#[test]
fn levels_at_the_edges() {
    assert_eq!((fit(&[]), fit(&[vec![]]), fit(&[vec![seen(0, 0, 0)]])), (None, None, None));
    let worthless = |weight| Seen { weight, ..seen(0, 5, 9) };
    assert_eq!(
        (fit(&[vec![worthless(0.0)]]), fit(&[vec![worthless(f64::NAN)]]), fit(&[vec![worthless(-1.0)]])),
        (None, None, None)
    );
    for group in [
        vec![vec![seen(0, 1, 1)]],
        vec![vec![seen(0, 100_000, 100_000), seen(1, 0, 100_000)], vec![seen(0, 0, 100_000)]],
        vec![vec![seen(i32::MIN, 3, 4), seen(i32::MAX, 4, 4)], vec![seen(9, 1, 2), seen(3, 0, 2), seen(3, 0, 0)]],
        vec![vec![seen(0, 5, 5); 200]; 3],
        vec![vec![seen(0, u32::MAX, u32::MAX)], vec![seen(0, 0, u32::MAX)]],
        vec![vec![Seen { weight: f64::INFINITY, ..seen(0, 5, 9) }, Seen { weight: 1e-300, ..seen(0, 5, 9) }]],
    ] {
        let levels = fit(&group).unwrap();
        for (member, seen) in group.iter().enumerate() {
            for occasion in 0..seen.len() {
                let range = levels.at(member, occasion).unwrap().range(Confidence::P95);
                assert!(range.low() < range.high(), "{group:?}");
                let change = levels.change(member, occasion, Confidence::P95);
                assert!(change.is_none_or(|c| c.low <= c.high && (0.0..=1.0).contains(&c.up)), "{change:?}");
            }
            assert!(levels.on(member, i32::MAX).is_some());
        }
    }
}

/// Told, not asserted: a machine's speed is no property of the code.
#[test]
fn how_long_a_season_takes() {
    let mut chance = Chance(7);
    let members: Vec<Vec<Seen>> =
        (0..20).map(|_| (0..60).map(|i| Seen::plain(i * 3, chance.tries(10, 0.6))).collect()).collect();
    // The best of some, since the machine has other things to do as well.
    let times = (0..9).map(|_| {
        let start = Instant::now();
        let levels = fit(&members).unwrap();
        (start.elapsed(), levels)
    });
    let (took, levels) = times.min_by_key(|(took, _)| *took).unwrap();
    println!("20 members, 60 occasions: {took:?}");
    let start = Instant::now();
    let change = levels.change(3, 20, Confidence::P95).unwrap();
    println!("one change: {:?}", start.elapsed());
    assert!(change.low < change.high);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn levels_are_always_sound(group in prop::collection::vec(prop::collection::vec((0i32..400, 0u32..50, 0u32..50, 0.0..1.0f64), 0..12), 1..8)) {
        let group: Vec<Vec<Seen>> = group
            .into_iter()
            .map(|one| one.into_iter().map(|(day, good, missed, weight)| Seen { weight, ..seen(day, good, good + missed) }).collect())
            .collect();
        if let Some(levels) = fit(&group) {
            for (member, seen) in group.iter().enumerate() {
                for occasion in 0..seen.len() {
                    let range = levels.at(member, occasion).unwrap().range(Confidence::P95);
                    prop_assert!(0.0 < range.low() && range.low() < range.high() && range.high() < 1.0);
                    prop_assert!(levels.higher(member, occasion).is_none_or(|up| (0.0..=1.0).contains(&up)));
                }
            }
        }
    }
}
