//! Days held against all the others: how often chance is called more than chance, over squads in which nothing happened, and how often a day that
//! really was another is found. Seeded.

use numbers::stats::level::{Level, Seen, fit};
use numbers::stats::many::standing;
use numbers::stats::proportion::{Confidence, Count};
use numbers::stats::special::logistic;

use super::chance::Chance;
use super::near;

const DAYS: usize = 24;

/// Twelve children, 24 days half a week apart, 10 to 30 balls; levels 0.6 apart that drift by 0.1 a week and have their ups and downs of
/// `form` from day to day, all in log-odds. The first child has one day that is `off`: which one is told.
fn squad(chance: &mut Chance, form: f64, off: f64) -> (Vec<Vec<Seen>>, usize) {
    let odd = chance.whole(3, DAYS as u32 - 4) as usize;
    let mut child = |off: f64| {
        let mut level = chance.normal(0.4, 0.6);
        let day = |i: usize| {
            level += chance.normal(0.0, 0.1 * 0.5_f64.sqrt());
            let today = level + form * chance.normal(0.0, 1.0) + if i == odd { off } else { 0.0 };
            let n = chance.whole(10, 30);
            Seen { day: 7 * i as i32 / 2, count: chance.tries(n, logistic(today).0), weight: 1.0, offset: 0.0 }
        };
        (0..DAYS).map(day).collect()
    };
    ((0..12).map(|i| child(if i == 0 { off } else { 0.0 })).collect(), odd)
}

/// Of the days with nothing behind them, how many are rarer than 1 in 20; squads where one of them stands; squads where the day that was off does.
fn looked_at(form: f64, off: f64, n_squads: u32) -> (f64, f64, f64) {
    let mut chance = Chance(77);
    let (mut rare, mut alarms, mut found, mut n_days) = (0_u32, 0_u32, 0_u32, 0_u32);
    for _ in 0..n_squads {
        let (seen, odd) = squad(&mut chance, form, off);
        let levels = fit(&seen).unwrap();
        let days: Vec<(usize, usize)> = (0..seen.len()).flat_map(|i| (0..DAYS).map(move |n| (i, n))).collect();
        let p_values: Vec<f64> = days.iter().map(|(i, n)| levels.as_far_out(*i, *n, seen[*i][*n])).collect();
        let stand = standing(&p_values, 0.1);
        let was_off = |at: usize| off != 0.0 && days[at] == (0, odd);
        let ordinary: Vec<usize> = (0..days.len()).filter(|at| !was_off(*at)).collect();
        n_days += ordinary.len() as u32;
        rare += ordinary.iter().filter(|at| p_values[**at] <= 0.05).count() as u32;
        alarms += u32::from(ordinary.iter().any(|at| stand[*at]));
        found += u32::from((0..days.len()).any(|at| was_off(at) && stand[at]));
    }
    let of = |n: u32, all: u32| f64::from(n) / f64::from(all);
    (of(rare, n_days), of(alarms, n_squads), of(found, n_squads))
}

/// In squads in which nothing happened: fewer than 1 in 20 days is rarer than 1 in 20, and at most one squad in ten has a ringed day.
#[test]
fn chance_is_seldom_called_more() {
    for form in [0.0, 0.25, 0.5] {
        let (rare, alarms, _) = looked_at(form, 0.0, 300);
        println!(
            "nothing behind it, form {form}: {rare:.3} of 86,400 days rarer than 1 in 20; {alarms:.3} of squads with a ringed day"
        );
        assert!(rare <= 0.055 && alarms <= 0.12, "{form} {rare} {alarms}");
    }
    for (form, off) in [(0.0, -1.5), (0.25, -1.5), (0.25, -2.5)] {
        let (_, alarms, found) = looked_at(form, off, 300);
        println!("one day off by {off}, form {form}: found {found:.3}; ringed besides in {alarms:.3} of squads");
        assert!(alarms <= 0.2, "{alarms}");
    }
}

/// By hand: one child alone with one day has nothing to be held against; two days of 5 of 10 are as ordinary as can be; what is no occasion, or has
/// no try, is ordinary. 100,000 balls are no trouble.
#[test]
fn days_at_the_edges() {
    let seen = |day, good, tries| Seen { day, count: Count::new(good, tries).unwrap(), weight: 1.0, offset: 0.0 };
    let alone = [vec![seen(0, 0, 10)]];
    let levels = fit(&alone).unwrap();
    assert!(levels.as_far_out(0, 0, alone[0][0]) > 0.01);
    let even = [vec![seen(0, 5, 10), seen(7, 5, 10)]];
    let levels = fit(&even).unwrap();
    assert_eq!(levels.as_far_out(0, 0, even[0][0]), 1.0);
    assert_eq!((levels.as_far_out(0, 2, even[0][0]), levels.as_far_out(3, 0, even[0][0])), (1.0, 1.0));
    assert_eq!(levels.as_far_out(0, 0, seen(0, 0, 0)), 1.0);
    let mut none = even[0][0];
    none.weight = f64::NAN;
    assert_eq!(levels.as_far_out(0, 0, none), 1.0);
    let many = [vec![seen(0, 60_000, 100_000), seen(7, 0, 100_000), seen(14, 60_000, 100_000)], vec![seen(0, 50, 100)]];
    let levels = fit(&many).unwrap();
    for (n, day) in many[0].iter().enumerate() {
        let p = levels.as_far_out(0, n, *day);
        assert!((0.0..=1.0).contains(&p), "{p}");
    }
}

/// A change told from its parts is the one that the levels tell.
#[test]
fn a_change_from_its_parts() {
    let mut chance = Chance(5);
    let (seen, _) = squad(&mut chance, 0.25, 0.0);
    let levels = fit(&seen).unwrap();
    for member in 0..12 {
        for since in [0, 7, DAYS - 2] {
            let told = levels.change(member, since, Confidence::P95).unwrap();
            let again = |level: Level| Level::new(level.parts().0, level.parts().1).unwrap();
            let (then, now) = (again(levels.at(member, since).unwrap()), again(levels.at(member, DAYS - 1).unwrap()));
            let parts = then.change_to(now, levels.with_last(member, since).unwrap(), Confidence::P95);
            near("low", parts.low, told.low, 12);
            near("high", parts.high, told.high, 12);
            near("up", parts.up, told.up, 12);
        }
    }
    assert_eq!((levels.with_last(0, DAYS), levels.with_last(12, 0)), (None, None));
}
