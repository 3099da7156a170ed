//! The pure numbers against published values, the source beside each. Where a value is a probability it is found by running
//! every sequence there is, weighted, so nothing here is drawn at random.

use peppertally::stats::pace::{PAUSE_MS, Pace};
use peppertally::stats::proportion::{Confidence, Count, Range, wilson};
use peppertally::stats::rows::{LastTen, Rows};
use peppertally::stats::share::{ENOUGH, InTen, Share, overlap};
use proptest::prelude::*;

/// Fails with what was checked when two values differ by more than half a unit of the last printed digit.
fn near(what: &str, got: f64, printed: f64, digits: i32) {
    let off = (got - printed).abs();
    assert!(off <= 0.5 * 10f64.powi(-digits) + 1e-15, "{what}: got {got}, printed {printed}");
}

fn count(good: u32, tries: u32) -> Count {
    Count::new(good, tries).unwrap()
}

fn range_of(good: u32, tries: u32) -> Range {
    wilson(count(good, tries), Confidence::P95).unwrap()
}

fn range(low: f64, high: f64) -> Range {
    Range::new(low, high).unwrap()
}

/// Every sequence of `n` tries with its probability when each is good with probability `p`.
fn sequences(n: u32, p: f64) -> impl Iterator<Item = (Vec<bool>, f64)> {
    (0u32..1 << n).map(move |bits| {
        let tries: Vec<bool> = (0..n).map(|i| bits >> i & 1 == 1).collect();
        let weight = tries.iter().map(|&good| if good { p } else { 1.0 - p }).product();
        (tries, weight)
    })
}

fn rows_of(tries: &[bool]) -> Rows {
    let mut rows = Rows::default();
    tries.iter().for_each(|&good| rows.note(good));
    rows
}

#[test]
fn wilson_as_published() {
    for (good, tries, low, high, digits, source) in [
        (81, 263, 0.2553, 0.3662, 4, "Newcombe 1998, Statistics in Medicine 17:857, method 3"),
        (0, 20, 0.0, 0.1611, 4, "Newcombe 1998, as above"),
        (20, 20, 0.8389, 1.0, 4, "Newcombe 1998, 0 of 20 mirrored"),
        (15, 148, 0.0624, 0.1605, 4, "Newcombe 1998, as above; page from memory, recomputed with 60 digits"),
        (1, 29, 0.0061, 0.1718, 4, "Newcombe 1998, as above; page from memory, recomputed with 60 digits"),
        (14, 20, 0.481, 0.855, 3, "the design's example; recomputed with 60 digits"),
    ] {
        let got = range_of(good, tries);
        let what = format!("{good} of {tries} ({source})");
        near(&what, got.low(), low, digits);
        near(&what, got.high(), high, digits);
    }
}

#[test]
fn wilson_at_the_edges() {
    assert_eq!(wilson(Count::NONE, Confidence::P95), None);
    let n = 100_000_000;
    let z2 = 1.959_963_984_540_054_f64.powi(2);
    // With none good the upper end is z² / (n + z²), with all good the lower is n / (n + z²): both from Wilson's formula.
    for n in [1, 2, 5, 1000, n, u32::MAX] {
        let nf = f64::from(n);
        assert_eq!((range_of(0, n).low(), range_of(n, n).high()), (0.0, 1.0), "n = {n}");
        near("none good", range_of(0, n).high(), z2 / (nf + z2), 14);
        near("all good", range_of(n, n).low(), nf / (nf + z2), 14);
    }
    // One of 100,000,000: the textbook form loses digits here, 60-digit arithmetic gives these.
    let one = range_of(1, n);
    assert!((one.low() / 1.765_245_551_532_550_8e-9 - 1.0).abs() < 1e-12, "{}", one.low());
    assert!((one.high() / 5.664_934_041_143_643_5e-8 - 1.0).abs() < 1e-8, "{}", one.high());
}

#[test]
fn wilson_covers_as_published() {
    // Brown, Cai, DasGupta 2001, Statistical Science 16:101: at n = 10, p = 0.1 the range holds p with probability 0.930.
    let (n, p) = (10, 0.1);
    let covered: f64 = sequences(n, p)
        .filter(|(tries, _)| {
            let mut seen = Count::NONE;
            tries.iter().for_each(|&good| seen.note(good));
            let range = wilson(seen, Confidence::P95).unwrap();
            range.low() <= p && p <= range.high()
        })
        .map(|(_, weight)| weight)
        .sum();
    near("coverage, n = 10, p = 0.1", covered, 0.930, 3);
}

#[test]
fn rows_as_published() {
    for (what, n, p, at_least, value) in [
        ("3 or more in 10 fair tries: Feller, volume 1; OEIS A050227", 10, 0.5, 3, 65.0 / 128.0),
        ("5 or more in 10 at 0.7: recomputed with exact fractions", 10, 0.7, 5, 16807.0 / 40000.0),
        ("10 of 10 fair tries: 2 to the minus 10", 10, 0.5, 10, 1.0 / 1024.0),
    ] {
        let got: f64 =
            sequences(n, p).filter(|(tries, _)| rows_of(tries).best() >= at_least).map(|(_, weight)| weight).sum();
        near(what, got, value, 12);
    }
}

#[test]
fn a_hit_right_after_a_hit() {
    // Miller, Sanjurjo 2018, Econometrica 86:2019: over all sequences of 4 fair tries that have a try right after a hit, the
    // mean share of hits among those tries is 17/42, not a half.
    let shares: Vec<f64> = sequences(4, 0.5)
        .filter_map(|(tries, _)| {
            let (mut rows, mut after_hit) = (Rows::default(), Count::NONE);
            for good in tries {
                if rows.now() > 0 {
                    after_hit.note(good);
                }
                rows.note(good);
            }
            (after_hit.tries() > 0).then(|| f64::from(after_hit.good()) / f64::from(after_hit.tries()))
        })
        .collect();
    near("mean share", shares.iter().sum::<f64>() / shares.len() as f64, 17.0 / 42.0, 12);
}

#[test]
fn shares_in_words() {
    let between = |low, high| Share::Between(InTen::of(range(f64::from(low) / 10.0, f64::from(high) / 10.0)));
    for (good, tries, told) in [
        (0, 0, Share::NotEnough),
        (4, ENOUGH - 1, Share::NotEnough),
        (5, ENOUGH, between(6, 10)),
        (0, ENOUGH, between(0, 4)),
        (14, 20, between(5, 9)),
        (0, 20, between(0, 2)),
        (0, 1000, Share::NearlyNone),
        (1000, 1000, Share::NearlyAll),
        (985, 1000, Share::NearlyAll),
        (15, 1000, Share::NearlyNone),
        (7000, 10_000, Share::About(7)),
        (5000, 100_000_000, Share::NearlyNone),
    ] {
        assert_eq!(Share::of(count(good, tries)), told, "{good} of {tries}");
    }
}

#[test]
fn orders_that_can_be_told() {
    let (low, mid, high) = (range(0.1, 0.4), range(0.3, 0.7), range(0.6, 0.9));
    for (what, ranges, expected) in [
        ("nobody", vec![], true),
        ("one child", vec![low], true),
        ("neighbours meet", vec![low, mid], true),
        ("the outer two don't", vec![low, mid, high], false),
        ("whatever the order", vec![high, low], false),
        ("touching ends", vec![range(0.1, 0.5), range(0.5, 0.9)], true),
        ("one inside the other", vec![range(0.0, 1.0), mid], true),
    ] {
        assert_eq!(overlap(&ranges), expected, "{what}");
    }
    // What Schenker and Gentleman 2001 warn of, on the counts of Newcombe 1998, Statistics in Medicine 17:873: the difference of
    // 56 of 70 and 48 of 80 is clear (0.0524 to 0.3339), the two ranges meet all the same.
    assert!(overlap(&[range_of(56, 70), range_of(48, 80)]));
}

#[test]
fn pace_of_contacts() {
    let every = |step_ms: u64, n: u64| (0..n).map(|i| i * step_ms).collect::<Vec<_>>();
    let mut paused = every(3_000, 12);
    paused.extend(every(3_000, 12).iter().map(|t| t + 33_000 + 10 * PAUSE_MS));
    let mut slow_moments = every(3_000, 10);
    slow_moments.extend(every(3_000, 10).iter().map(|t| t + 27_000 + 50_000));
    let mut quicker = every(10_000, 30);
    quicker.extend(every(2_000, 13).iter().map(|t| t + 290_000 + 2_000));
    for (what, times_ms, per_minute) in [
        ("nothing", vec![], None),
        ("two contacts", every(3_000, 2), None),
        ("three contacts", every(3_000, 3), Some(20.0)),
        ("a long pause in the middle", paused, Some(20.0)),
        ("a wait under a minute", slow_moments, Some(20.0)),
        ("the latest twenty pairs, twelve of them quick", quicker, Some(30.0)),
        ("two thumbs, each pair at once", vec![0, 0, 8_000, 8_000, 16_000, 16_000, 24_000], Some(15.0)),
        ("only pauses", every(PAUSE_MS, 10), None),
        ("just under a pause", every(PAUSE_MS - 1, 10), Some(60_000.0 / 59_999.0)),
        ("all at once", vec![5; 30], None),
        ("another clock", vec![900_000, 903_000, 10, 3_010, 6_010], Some(20.0)),
        ("a clock that only runs back", (0..30).rev().map(|i| i * 1_000).collect(), None),
        ("the ends of the clock", vec![0, u64::MAX, 0, u64::MAX, u64::MAX], None),
    ] {
        let mut pace = Pace::default();
        times_ms.into_iter().for_each(|at_ms| pace.note(at_ms));
        match (pace.per_minute().map(|p| p.value()), per_minute) {
            (Some(got), Some(expected)) => near(what, got, expected, 9),
            (got, expected) => assert_eq!(got, expected, "{what}"),
        }
    }
}

#[test]
fn counts_stay_at_their_highest() {
    let full = count(u32::MAX, u32::MAX);
    let mut noted = full;
    noted.note(true);
    noted.note(false);
    assert_eq!((noted, full + full, full + count(0, 1)), (full, full, full));
    assert_eq!([count(1, 2), count(3, 4), Count::NONE].into_iter().sum::<Count>(), count(4, 6));
}

proptest! {
    #[test]
    fn wilson_is_a_range_around_the_share((good, tries) in (1u32..=u32::MAX).prop_flat_map(|n| (0..=n, Just(n)))) {
        let (got, mirrored) = (range_of(good, tries), range_of(tries - good, tries));
        let share = f64::from(good) / f64::from(tries);
        prop_assert!(0.0 <= got.low() && got.low() <= share + 1e-15 && share - 1e-15 <= got.high() && got.high() <= 1.0);
        prop_assert!((got.low() - (1.0 - mirrored.high())).abs() < 1e-15);
        let told = InTen::of(got);
        prop_assert!(told.low() <= told.high() && told.high() <= 10);
    }

    #[test]
    fn wilson_narrows_and_follows((good, tries) in (1u32..=1_000_000).prop_flat_map(|n| (0..n, Just(n)))) {
        let (less, more, tenfold) = (range_of(good, tries), range_of(good + 1, tries), range_of(good * 10, tries * 10));
        prop_assert!(less.low() < more.low() && less.high() < more.high());
        prop_assert!(tenfold.high() - tenfold.low() < less.high() - less.low());
    }

    #[test]
    fn rows_and_the_last_ten_as_counted_plainly(tries in prop::collection::vec(any::<bool>(), 0..60)) {
        let rows = rows_of(&tries);
        let longest = tries.split(|&good| !good).map(<[bool]>::len).max().unwrap_or(0);
        let now = tries.iter().rev().take_while(|&&good| good).count();
        prop_assert_eq!((rows.now() as usize, rows.best() as usize), (now, longest));

        let mut last = LastTen::default();
        tries.iter().for_each(|&good| last.note(good));
        let plainly = &tries[tries.len().saturating_sub(10)..];
        prop_assert_eq!(last.tries().collect::<Vec<_>>(), plainly);
        prop_assert_eq!(last.count(), count(plainly.iter().filter(|&&good| good).count() as u32, plainly.len() as u32));
    }

    #[test]
    fn pace_is_never_absurd(times_ms in prop::collection::vec(any::<u64>(), 0..80)) {
        let mut pace = Pace::default();
        times_ms.into_iter().for_each(|at_ms| pace.note(at_ms));
        prop_assert!(pace.per_minute().is_none_or(|p| p.value().is_finite() && p.value() > 0.0));
    }

    #[test]
    fn overlap_is_every_two(ends in prop::collection::vec((0.0..=1.0f64, 0.0..=1.0f64), 0..6)) {
        let ranges: Vec<Range> = ends.into_iter().map(|(a, b)| range(a.min(b), a.max(b))).collect();
        let every_two = ranges.iter().all(|a| ranges.iter().all(|b| a.low() <= b.high() && b.low() <= a.high()));
        prop_assert_eq!(overlap(&ranges), every_two);
    }
}
