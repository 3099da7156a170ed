//! A floor, ball by ball: whoever feeds takes a ball from the basket, waits as long as it takes, gives it to the child whose turn it is; once the
//! basket is empty all collect. Every wait differs by up to 30 %. What comes of it lies within the range that the plan tells.

use super::{drill_id, starters};
use peppertally::domain::plan::PlanPart;
use peppertally::domain::plan::expect::{Each, Floor, expect, sources};
use peppertally::domain::refit::refit;
use peppertally::stats::feeding::SPREAD;

/// A generator that gives the same for the same seed (Knuth's MMIX).
struct Chance(u64);

impl Chance {
    /// A wait of about so long.
    fn wait(&mut self, ms: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let part = (self.0 >> 11) as f64 / (1_u64 << 53) as f64;
        let spread = f64::from(SPREAD) / 100.0;
        ms * (1.0 - spread + 2.0 * spread * part)
    }
}

/// One source of balls until the time is over: how many it gave.
fn one_source(chance: &mut Chance, basket: usize, feeds: u8, collect_s: u16, minutes: u16) -> u32 {
    let end = f64::from(minutes) * 60_000.0;
    let (mut now, mut given, mut in_basket) = (0.0, 0, basket);
    loop {
        if in_basket == 0 {
            now += chance.wait(f64::from(collect_s) * 1_000.0);
            in_basket = basket;
        }
        now += chance.wait(60_000.0 / f64::from(feeds));
        if now > end {
            return given;
        }
        in_basket -= 1;
        given += 1;
    }
}

/// Contacts of each child: groups pass in turn within themselves.
fn simulate(chance: &mut Chance, sizes: &[usize], basket: usize, feeds: u8, collect_s: u16, minutes: u16) -> Vec<u32> {
    let mut each = Vec::new();
    for size in sizes {
        let balls = one_source(chance, basket, feeds, collect_s, minutes);
        let size = u32::try_from(*size).unwrap();
        // The first of the line have one more where it doesn't come out even.
        each.extend((0..size).map(|child| balls / size + u32::from(child < balls % size)));
    }
    each
}

#[test]
fn contacts_lie_within_the_range() {
    let specs = starters();
    let (mut n, mut uneven) = (0, 0);
    let mut off_by_most: u32 = 0;
    for seed in 0..40 {
        let mut chance = Chance(seed * 7_919 + 1);
        for (drill, children) in [(0, 12), (0, 8), (2, 20), (3, 11), (10, 12), (10, 9), (10, 11), (10, 7)] {
            for (minutes, feeds, balls, collect_s) in
                [(10, 10, 12, 40), (25, 6, 24, 60), (5, 15, 6, 20), (15, 3, 30, 90)]
            {
                let spec = &specs[drill];
                let fit = refit(spec, children, balls);
                let n_sources = sources(spec, &fit, children, balls);
                let sizes = if fit.sizes.is_empty() { vec![children] } else { fit.sizes.clone() };
                // Fewer balls than groups: nobody can say who takes turns with whom.
                if n_sources != sizes.len() {
                    continue;
                }
                uneven += u32::from(sizes.iter().any(|size| *size != sizes[0]));
                let each = simulate(&mut chance, &sizes, balls / n_sources, feeds, collect_s, minutes);
                let part = PlanPart { feeds: Some(feeds), ..PlanPart::of_drill(drill_id(1), spec, minutes) };
                let floor = Floor { n_children: children, n_balls: balls, collect_s };
                let expected = expect(&part, spec, floor, &[]).unwrap();
                let Each::Contacts(range) = expected.each else { panic!("{expected:?}") };
                let sum: u32 = each.iter().sum();
                let what = format!(
                    "seed {seed}, drill {drill}, {children} children, {balls} balls: {sum} {each:?} in {expected:?}"
                );
                assert!((expected.balls.low..=expected.balls.high).contains(&sum), "{what}");
                assert!(each.iter().all(|n| (range.low..=range.high).contains(n)), "{what}");
                off_by_most = off_by_most.max(sum.abs_diff(expected.balls.likely) * 100 / expected.balls.likely);
                n += 1;
            }
        }
    }
    println!(
        "{n} floors simulated, {uneven} with uneven groups; balls differ from the likeliest by at most {off_by_most} %"
    );
    assert!(n > 1_100 && uneven > 300, "only {n} floors, {uneven} with uneven groups: the test tests nothing");
    // Waits even out: of all the floors none is further from the likeliest than this, though each single wait is up to 30 % off.
    assert!(off_by_most <= 20, "{off_by_most} %");
}

/// The formula by itself, where nothing differs: ball by ball gives the very same.
#[test]
fn without_chance_the_formula_is_exact() {
    use peppertally::stats::feeding::Feeding;
    for interval_ms in [1_000, 3_700, 6_000] {
        for n_balls in [1, 5, 24] {
            for collect_ms in [0, 12_000, 90_000] {
                for ms in [0, 999, 1_000, 59_999, 600_000, 5_400_000] {
                    let feeding = Feeding { interval_ms, n_balls, collect_ms };
                    let (mut now, mut given, mut left) = (0_u64, 0, n_balls);
                    while now + u64::from(interval_ms) <= ms {
                        now += u64::from(interval_ms);
                        given += 1;
                        left -= 1;
                        if left == 0 {
                            now += u64::from(collect_ms);
                            left = n_balls;
                        }
                    }
                    assert_eq!(feeding.balls_in(ms), given, "{feeding:?} in {ms}");
                }
            }
        }
    }
}
