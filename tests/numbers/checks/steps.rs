//! Looking again and again: how often a rule that asks for one step up, or one down, errs; and whether goals that are proposed are reached as
//! often as stated. Simulated, seeded; the figures stand in DEVELOPERS.md.

use numbers::stats::beta::mixed;
use numbers::stats::goal::row::Row;
use numbers::stats::goal::{at_least, propose};
use numbers::stats::level::{Level, Seen, fit};
use numbers::stats::proportion::Count;
use numbers::stats::special::logistic;

use super::chance::Chance;

/// The others of a group, each with some occasions behind them, and how good they are.
fn group(chance: &mut Chance, middle: f64) -> (Vec<Vec<Seen>>, Vec<f64>) {
    let truth: Vec<f64> = (0..11).map(|_| chance.normal(middle, 0.6)).collect();
    let one = |chance: &mut Chance, level: f64| {
        let share = logistic(level).0;
        (0..6).map(|i| Seen::plain(i * 4, chance.tries(10, share))).collect()
    };
    (truth.iter().map(|level| one(chance, *level)).collect(), truth)
}

/// How sure the call must be.
const SURE: [f64; 3] = [0.8, 0.9, 0.95];

/// Of members of this true share, looked at after each of twenty tens over five weeks: how many were at least once said to be beyond the line,
/// above or below, so surely.
fn called(share: f64, line: f64, above: bool, n_members: u32) -> [f64; 3] {
    let mut chance = Chance(2026);
    let mut called = [0.0; 3];
    for _ in 0..n_members {
        let (mut members, _) = group(&mut chance, 0.8);
        members.push(Vec::new());
        let mut surest = 0.0_f64;
        for i in 0..20 {
            // Two tens an occasion.
            members[11].push(Seen::plain(i / 2 * 4, chance.tries(10, share)));
            let level = fit(&members).unwrap().at(11, i as usize).unwrap();
            surest = surest.max(if above { level.above(line) } else { level.below(line) });
        }
        for (called, sure) in called.iter_mut().zip(SURE) {
            *called += f64::from(u8::from(surest >= sure)) / f64::from(n_members);
        }
    }
    called
}

#[test]
fn how_often_a_step_errs() {
    println!("at least once in 20 looks, said so surely as {SURE:?}");
    // Told; asserted is only that who is ten points on the other side of the line is seldom called, five points not often.
    for (share, most) in [(0.70, 0.08), (0.75, 0.15), (0.80, 1.0), (0.85, 1.0)] {
        let called = called(share, 0.8, true, 150);
        println!("true {share:.2}, above 0.80: {called:.3?}");
        assert!(called[0] <= most, "{share}: {called:?}");
    }
    for (share, most) in [(0.60, 0.08), (0.55, 0.25), (0.50, 1.0)] {
        let called = called(share, 0.5, false, 150);
        println!("true {share:.2}, below 0.50: {called:.3?}");
        assert!(called[0] <= most, "{share}: {called:?}");
    }
}

#[test]
fn goals_are_reached_as_often_as_stated() {
    let mut chance = Chance(70);
    let (mut n, mut stated, mut reached) = (0.0, 0.0, 0.0);
    for _ in 0..920 {
        let middle = chance.normal(0.5, 0.5);
        let (members, truth) = group(&mut chance, middle);
        let levels = fit(&members).unwrap();
        for (member, truth) in truth.iter().enumerate() {
            let level: Level = levels.on(member, 23).unwrap();
            let tries = chance.whole(8, 30);
            let nodes = level.nodes(tries);
            // Rows, and so many of the tries; nearest to 70 in 100.
            let rows = chance.even() < 0.5;
            let of = |goal: u32, p: f64| match rows {
                true => Row::new(goal, 0).map_or(0.0, |row| row.within(tries, p)),
                false => at_least(goal, tries, p),
            };
            let chances: Vec<f64> = (1..=tries.min(15)).map(|goal| mixed(&nodes, &mut |p| of(goal, p))).collect();
            let nearest = propose(&chances, 0.7).unwrap().nearest;
            let goal = nearest as u32 + 1;
            let share = logistic(*truth).0;
            let mut now = 0;
            let mut best = 0;
            let count: Count = (0..tries).fold(Count::NONE, |mut count, _| {
                let good = chance.even() < share;
                count.note(good);
                now = if good { now + 1 } else { 0 };
                best = best.max(now);
                count
            });
            n += 1.0;
            stated += chances[nearest];
            reached += f64::from(u8::from(if rows { best >= goal } else { count.good() >= goal }));
        }
    }
    println!("{n} goals: stated {:.4}, reached {:.4}", stated / n, reached / n);
    assert!(n >= 10_000.0 && ((stated - reached) / n).abs() < 0.02, "{} {}", stated / n, reached / n);
}
