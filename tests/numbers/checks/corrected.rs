//! Levels corrected for how hard the tasks were that each member had, and for what a second recorder's notes are worth: whether ranges hold as
//! often as they say when the correction itself is worked out from what was seen. Seeded.

use std::time::Instant;

use numbers::stats::agreement::{drawn, reading};
use numbers::stats::faced::{Faced, hardness, worth};
use numbers::stats::level::{Seen, fit};
use numbers::stats::proportion::{Confidence, Count};
use numbers::stats::special::logistic;

use super::chance::Chance;
use super::{count, near};

/// Ranges of the level at each occasion: held, of so many, how far off in the mean, and how wide, in log-odds.
#[derive(Clone, Copy, Debug, Default)]
struct Ranges {
    held: f64,
    n: f64,
    off: f64,
    width: f64,
}

impl Ranges {
    fn note(&mut self, members: &[Vec<Seen>], truth: &[Vec<f64>]) {
        let levels = fit(members).unwrap();
        for (member, truth) in truth.iter().enumerate() {
            for (occasion, truth) in truth.iter().enumerate() {
                let level = levels.at(member, occasion).unwrap();
                let range = level.range(Confidence::P95);
                let share = logistic(*truth).0;
                self.held += f64::from(u8::from(range.low() <= share && share <= range.high()));
                self.off += level.parts().0 - truth;
                self.width += level.parts().1;
                self.n += 1.0;
            }
        }
    }

    fn told(&self) -> String {
        let Ranges { held, n, off, width } = *self;
        format!("held {:.4} of {n}, off by {:.3}, spread told {:.3}", held / n, off / n, width / n)
    }
}

/// 8 to 14 members, each of whom serves and passes, 8 to 14 occasions; servers lie apart by `spread`, and on an occasion each member passes what two
/// to four of them serve, 3 to 8 tries each. `only_one`: each occasion has one server for all.
fn of_servers(seed: u64, n_groups: u32, spread: f64, only_one: bool) -> [Ranges; 2] {
    let mut chance = Chance(seed);
    let [mut corrected, mut plain] = [Ranges::default(); 2];
    for _ in 0..n_groups {
        let (n, n_occasions) = (chance.whole(8, 14) as usize, chance.whole(8, 14));
        let (middle, apart) = (chance.normal(0.3, 0.5), chance.between(0.25_f64.ln(), 0.0).exp());
        let drift = chance.between(0.05_f64.ln(), 0.2_f64.ln()).exp();
        let mut hard: Vec<f64> = (0..n).map(|_| chance.normal(0.0, spread)).collect();
        // Against the average one.
        let mean = hard.iter().sum::<f64>() / n as f64;
        hard.iter_mut().for_each(|hard| *hard -= mean);
        let mut levels: Vec<f64> = (0..n).map(|_| chance.normal(middle, apart)).collect();
        let (mut faced, mut had, mut truth) = (Vec::new(), vec![Vec::new(); n], vec![Vec::new(); n]);
        let mut day = 0;
        for _ in 0..n_occasions {
            let days = chance.whole(3, 7) as i32;
            day += days;
            let server_of_all = chance.whole(0, n as u32 - 1) as usize;
            for member in 0..n {
                levels[member] += chance.normal(0.0, drift * (f64::from(days) / 7.0).sqrt());
                let n_servers = if only_one { 1 } else { chance.whole(2, 4) };
                let mut mix = Vec::new();
                for _ in 0..n_servers {
                    let task = if only_one { server_of_all } else { chance.whole(0, n as u32 - 1) as usize };
                    let tries = chance.whole(3, 8);
                    let count = chance.tries(tries, logistic(levels[member] - hard[task]).0);
                    faced.push(Faced { kind: 0, member, task, day, count });
                    mix.push((task, count));
                }
                had[member].push((day, mix));
                truth[member].push(levels[member]);
            }
        }
        let found = hardness(&faced);
        let seen = |correct: bool| -> Vec<Vec<Seen>> {
            let occasion = |(day, mix): &(i32, Vec<(usize, Count)>)| {
                let count: Count = mix.iter().map(|(_, count)| *count).sum();
                let tries: Vec<(usize, u32)> = mix.iter().map(|(task, count)| (*task, count.tries())).collect();
                let (offset, error) = found.offset(*day, &tries, count);
                let plain = Seen::plain(*day, count);
                if correct { Seen { offset, weight: worth(count, error), ..plain } } else { plain }
            };
            had.iter().map(|had| had.iter().map(occasion).collect()).collect()
        };
        corrected.note(&seen(true), &truth);
        plain.note(&seen(false), &truth);
    }
    [corrected, plain]
}

#[test]
fn levels_hold_where_servers_are_unequal() {
    for (what, spread, only_one) in [("servers apart by 0.6", 0.6, false), ("no difference", 0.0, false)] {
        let [corrected, plain] = of_servers(71, 300, spread, only_one);
        println!("{what}: corrected {}; not corrected {}", corrected.told(), plain.told());
        assert!(corrected.n >= 10_000.0, "{}", corrected.n);
        assert!((0.94..=0.96).contains(&(corrected.held / corrected.n)), "{what}: {}", corrected.told());
        assert!((corrected.off / corrected.n).abs() < 0.03, "{what}: {}", corrected.told());
    }
    let [corrected, plain] = of_servers(72, 120, 0.6, true);
    println!("one server for all each day: corrected {}; not corrected {}", corrected.told(), plain.told());
    // That day's server can't be told from a day on which everyone was worse.
    assert!(corrected.held / corrected.n > 0.92 && corrected.off.abs() < plain.off.abs(), "{}", corrected.told());
}

/// What a second recorder's notes tell of a share: a season of a group, of which the first notes some and the second all of the others.
#[test]
fn notes_of_another_are_read_as_checked() {
    let mut chance = Chance(63);
    let [mut read, mut half, mut whole] = [Ranges::default(); 3];
    for _ in 0..130 {
        let (sensitivity, specificity) = (chance.between(0.8, 0.98), chance.between(0.65, 0.95));
        let n_occasions = chance.whole(6, 12);
        let mut levels: Vec<f64> = (0..12).map(|_| chance.normal(0.4, 0.5)).collect();
        // Sixty to two hundred tries of anybody's are checked.
        let mut table = [0_u32; 4];
        for _ in 0..chance.whole(60, 200) {
            let good = chance.even() < logistic(levels[chance.whole(0, 11) as usize]).0;
            let noted = chance.even() < if good { sensitivity } else { 1.0 - specificity };
            table[usize::from(!good) * 2 + usize::from(!noted)] += 1;
        }
        let by_check = reading(table);
        let (mut seen, mut truth) = (vec![Vec::new(); 12], vec![Vec::new(); 12]);
        for occasion in 0..n_occasions {
            for member in 0..12 {
                levels[member] += chance.normal(0.0, 0.1);
                let share = logistic(levels[member]).0;
                let noted = share * sensitivity + (1.0 - share) * (1.0 - specificity);
                let tries = chance.whole(8, 20);
                seen[member].push(Seen::plain(occasion as i32 * 7, chance.tries(tries, noted)));
                truth[member].push(levels[member]);
            }
        }
        let as_if = |weight| -> Vec<Vec<Seen>> {
            let one = |seen: &Seen| Seen { weight, ..*seen };
            seen.iter().map(|seen| seen.iter().map(one).collect()).collect()
        };
        let all: Count = seen.iter().flatten().map(|seen: &Seen| seen.count).sum();
        let corrected = seen.iter().map(|seen| {
            let own: Count = seen.iter().map(|seen| seen.count).sum();
            let (offset, error) = by_check.offset(drawn(own, all));
            let one = |seen: &Seen| Seen { weight: by_check.worth * worth(seen.count, error), offset, ..*seen };
            seen.iter().map(one).collect()
        });
        read.note(&corrected.collect::<Vec<_>>(), &truth);
        half.note(&as_if(0.5), &truth);
        whole.note(&as_if(1.0), &truth);
    }
    println!("as checked: {}\nas a half: {}\nas if trusted: {}", read.told(), half.told(), whole.told());
    assert!(read.n >= 10_000.0 && (read.off / read.n).abs() < 0.1, "{}", read.told());
    assert!(read.held / read.n > half.held / half.n && half.held > whole.held);
}

/// What a try through another's notes tells, against the information worked out from the model itself.
#[test]
fn worth_is_the_ratio_of_the_informations() {
    for (share, sensitivity, specificity) in [(0.5, 0.9, 0.9), (0.7, 0.95, 0.8), (0.2, 0.7, 0.99)] {
        let cells = [
            share * sensitivity,
            share * (1.0 - sensitivity),
            (1.0 - share) * (1.0 - specificity),
            (1.0 - share) * specificity,
        ];
        // So many that the tries thought of beside them hardly count.
        let got = reading(cells.map(|cell| (cell * 1e9) as u32));
        let noted: f64 = share * sensitivity + (1.0 - share) * (1.0 - specificity);
        let slope: f64 = sensitivity + specificity - 1.0;
        let exact = slope * slope * share * (1.0 - share) / (noted * (1.0 - noted));
        near("worth", got.worth, exact, 6);
        near("offset", got.offset(noted).0, (noted / (1.0 - noted)).ln() - (share / (1.0_f64 - share)).ln(), 6);
    }
    // Nothing checked, all alike, all the other way, all good.
    let of = |table| reading(table);
    assert_eq!(of([0; 4]).offset(0.8), (0.0, 0.0));
    near("a half", of([0; 4]).worth, 0.5, 12);
    assert!(of([500, 0, 0, 500]).worth > 0.97 && of([0, 500, 500, 0]).worth == 0.0);
    for table in [[u32::MAX; 4], [u32::MAX, 0, 0, 0], [0, u32::MAX, 0, 0], [0, 0, 1, 0]] {
        for noted in [0.0, 0.5, 1.0] {
            let (offset, error) = of(table).offset(noted);
            assert!((0.0..=1.0).contains(&of(table).worth) && offset.is_finite() && error.is_finite(), "{table:?}");
        }
    }
}

#[test]
fn hardness_at_the_edges() {
    let at = |kind, member, task, day, good, tries| Faced { kind, member, task, day, count: count(good, tries) };
    assert_eq!(hardness(&[]).offset(0, &[(0, 9)], count(3, 9)), (0.0, 0.0));
    for all in [
        // Only one server; nobody ever misses; nobody ever has one; two groups that never met; 100,000; empty counts.
        vec![at(0, 0, 0, 0, 5, 9), at(0, 1, 0, 3, 2, 9)],
        vec![at(0, 0, 0, 0, 90, 90), at(0, 1, 1, 0, 90, 90)],
        vec![at(0, 0, 0, 0, 0, 90), at(0, 1, 1, 0, 0, 90)],
        vec![at(0, 0, 0, 0, 5, 9), at(0, 1, 1, 0, 7, 9), at(1, 2, 2, 0, 1, 9)],
        vec![at(0, 0, 0, i32::MIN, 100_000, 100_000), at(0, 1, 1, i32::MIN, 0, 100_000), at(0, 1, 1, i32::MAX, 1, 2)],
        vec![at(0, 0, 3, 0, 0, 0)],
    ] {
        let found = hardness(&all);
        for one in &all {
            let (offset, error) = found.offset(one.day, &[(one.task, one.count.tries())], one.count);
            assert!(
                offset.is_finite() && offset.abs() < 5.0 && (0.0..=1.01).contains(&error),
                "{all:?} {offset} {error}"
            );
            assert!((0.0..=1.0).contains(&worth(one.count, error)));
        }
    }
    // With one server alone nobody's balls were harder than anybody's.
    let one = hardness(&[at(0, 0, 0, 0, 20, 40), at(0, 1, 0, 0, 10, 40)]);
    assert!(one.offset(0, &[(0, 40)], count(20, 40)).0.abs() < 0.05);
}

/// Told, not asserted: a machine's speed is no property of the code.
#[test]
fn how_long_a_season_takes() {
    let mut chance = Chance(8);
    let mut faced = Vec::new();
    for day in 0..60 {
        for member in 0..20 {
            for i in 0..4 {
                let task = (member + 3 * i + day as usize) % 20;
                faced.push(Faced { kind: 0, member, task, day: day * 3, count: chance.tries(4, 0.6) });
            }
        }
    }
    let took = (0..5).map(|_| {
        let start = Instant::now();
        let found = hardness(&faced);
        (start.elapsed(), found)
    });
    let (took, found) = took.min_by_key(|(took, _)| *took).unwrap();
    println!("20 members, 20 tasks, 60 occasions, {} rows: {took:?}", faced.len());
    assert!(found.offset(0, &[(0, 4)], count(2, 4)).1 > 0.0);
}
