//! Goals of groups that are proposed: rows that a group keeps alive, races, duels after easy balls. Whether they are reached as often as
//! stated, and whether levels that aren't known are laid out well. Simulated, seeded; the figures stand in DEVELOPERS.md.

use numbers::stats::beta::mixed;
use numbers::stats::goal::draws::{FEW_SETS, SETS, laid_out};
use numbers::stats::goal::rounds::Rounds;
use numbers::stats::goal::row::Row;
use numbers::stats::goal::several::{first_of, totals};
use numbers::stats::goal::{Within, at_least, averaged, propose};
use numbers::stats::level::{Level, Seen, fit, together};
use numbers::stats::special::logistic;

use super::chance::Chance;
use super::near;

const WISH: f64 = 0.7;

pub(super) fn evenly(levels: &[Level], sets: usize, mut of: impl FnMut(&[f64]) -> Vec<Within>) -> Vec<Within> {
    let all = laid_out(levels, sets);
    let weight = 1.0 / all.len() as f64;
    averaged(all.iter().map(|shares| (of(shares), weight)))
}

type Chances<'a> = &'a dyn Fn(&[f64]) -> f64;

#[test]
fn levels_are_laid_out_evenly() {
    // Against the product of both distributions' own nodes, which is as good as exact.
    let levels = [Level::new(0.8, 0.5).unwrap(), Level::new(-0.2, 0.9).unwrap()];
    let (one, other) = (levels[0].nodes(20), levels[1].nodes(20));
    let cases: [(&str, Chances); 4] = [
        ("12 of 20 together", &|shares| totals(shares, 20, &[12])[0].chance),
        ("6 in a row together", &|shares| Row::new(6, 0).unwrap().in_turn(shares, 30).chance),
        ("10, falling to the last five", &|shares| Row::new(10, 5).unwrap().in_turn(shares, 40).chance),
        ("first to 8", &|shares| first_of(&[vec![shares[0]], vec![shares[1]]], 12, &[8])[0].chance),
    ];
    for (what, of) in cases {
        let exact = mixed(&one, &mut |p| mixed(&other, &mut |q| of(&[p, q])));
        for (sets, digits) in [(SETS, 2), (FEW_SETS, 1)] {
            let got = evenly(&levels, sets, |shares| vec![Within { chance: of(shares), tries: 0.0 }])[0].chance;
            near(&format!("{what}, {sets} sets: {got} for {exact}"), got, exact, digits);
        }
    }
    // Twenty at once: the mean of each, and of the products of two, come out.
    let levels = [Level::new(0.5, 0.7).unwrap(); 20];
    let sets = laid_out(&levels, SETS);
    let mean = |of: &dyn Fn(&[f64]) -> f64| sets.iter().map(|set| of(set)).sum::<f64>() / sets.len() as f64;
    let share = mixed(&levels[0].nodes(0), &mut |p| p);
    for a in 0..20 {
        near("mean", mean(&|set| set[a]), share, 3);
        for b in 0..a {
            near(&format!("product of {a} and {b}"), mean(&|set| set[a] * set[b]), share * share, 2);
        }
    }
}

/// Several in turn are one, where they are alike; and so many good of one is the binomial.
#[test]
fn several_alike_are_one() {
    for (k, step, n, p) in [(4, 0, 12, 0.6), (6, 3, 15, 0.8), (10, 5, 30, 0.7)] {
        let row = Row::new(k, step).unwrap();
        near("in turn", row.in_turn(&[p, p, p], n).chance, row.within(n, p), 13);
        // The mean, counted up to the last, from the distribution itself.
        let open: f64 = (0..n).map(|n| 1.0 - row.within(n, p)).sum();
        near("tries", row.in_turn(&[p], n).tries, open, 11);
    }
    for (good, within) in (0..=12).zip(totals(&[0.7], 10, &(0..=12).collect::<Vec<u32>>())) {
        near("binomial", within.chance, at_least(good, 10, 0.7), 13);
    }
    // By hand: sides at 0.5 and 0.8 with two tries each. Nobody has two: 0.75 · 0.36.
    near("first to two", first_of(&[vec![0.5], vec![0.8]], 2, &[2])[0].chance, 1.0 - 0.75 * 0.36, 14);
    let none = [totals(&[], 5, &[1])[0], Row::new(3, 0).unwrap().in_turn(&[], 5), totals(&[f64::NAN], 5, &[1])[0]];
    assert!(none.iter().all(|within| *within == Within { chance: 0.0, tries: 5.0 }), "{none:?}");
    assert_eq!(totals(&[0.5], 0, &[0, 1]), [Within { chance: 1.0, tries: 0.0 }, Within::default()]);
    let many = totals(&[0.7], 100_000, &[200])[0];
    assert!(many.chance == 1.0 && (many.tries - 200.0 / 0.7).abs() < 1e-6, "{many:?}");
    near("long", Row::new(8, 0).unwrap().in_turn(&[0.7], 100_000).chance, 1.0, 9);
}

/// A squad of eleven with six occasions of ten balls behind it: what the fit makes of it, and the truth.
pub(super) struct Squad {
    pub(super) levels: Vec<Level>,
    pub(super) truth: Vec<f64>,
}

pub(super) fn squad(chance: &mut Chance, middle: f64, truth: Vec<f64>) -> Squad {
    let truth = if truth.is_empty() { (0..11).map(|_| chance.normal(middle, 0.6)).collect() } else { truth };
    let seen = |chance: &mut Chance, level: f64| -> Vec<Seen> {
        (0..6)
            .map(|i| Seen { day: i * 4, count: chance.tries(10, logistic(level).0), weight: 1.0, offset: 0.0 })
            .collect()
    };
    let members: Vec<Vec<Seen>> = truth.iter().map(|level| seen(chance, *level)).collect();
    let levels = fit(&members).unwrap();
    let levels = (0..11).map(|member| levels.on(member, 23).unwrap()).collect();
    Squad { levels, truth: truth.iter().map(|level| logistic(*level).0).collect() }
}

/// Members in groups, by chance.
pub(super) fn split(chance: &mut Chance, n_groups: usize) -> Vec<Vec<usize>> {
    let mut members: Vec<usize> = (0..11).collect();
    for i in (1..members.len()).rev() {
        members.swap(i, chance.whole(0, i as u32) as usize);
    }
    (0..n_groups).map(|at| members.iter().copied().skip(at).step_by(n_groups).collect()).collect()
}

/// Stated and reached, over many.
#[derive(Default)]
pub(super) struct Claims {
    n: f64,
    stated: f64,
    reached: f64,
}

impl Claims {
    pub(super) fn note(&mut self, goals: &[u32], within: &[Within], played: impl FnOnce(u32) -> bool) {
        let chances: Vec<f64> = within.iter().map(|within| within.chance).collect();
        let nearest = propose(&chances, WISH).unwrap().nearest;
        self.n += 1.0;
        self.stated += chances[nearest];
        self.reached += f64::from(u8::from(played(goals[nearest])));
    }

    pub(super) fn hold(&self, what: &str) {
        let (stated, reached) = (self.stated / self.n, self.reached / self.n);
        println!("{what}: {} goals, stated {stated:.4}, reached {reached:.4}", self.n);
        assert!(self.n >= 10_000.0 && (stated - reached).abs() < 0.02, "{what}: {stated} {reached}");
    }
}

/// The longest row of tries in turn.
fn longest(chance: &mut Chance, shares: &[f64], tries: u32, step: u32) -> u32 {
    let (mut now, mut best) = (0_u32, 0_u32);
    for share in shares.iter().cycle().take(tries as usize) {
        now = if chance.even() < *share { now + 1 } else { now.checked_rem(step).map_or(0, |over| now - over) };
        best = best.max(now);
    }
    best
}

#[test]
fn rows_of_groups_are_reached_as_often_as_stated() {
    let mut chance = Chance(71);
    let mut claims = Claims::default();
    let goals: Vec<u32> = (2..=16).collect();
    for _ in 0..3_400 {
        let middle = chance.normal(0.7, 0.5);
        let squad = squad(&mut chance, middle, Vec::new());
        for group in split(&mut chance, 3) {
            let levels: Vec<Level> = group.iter().map(|member| squad.levels[*member]).collect();
            let (tries, step) = (chance.whole(12, 40), if chance.even() < 0.5 { 5 } else { 0 });
            let within = evenly(&levels, FEW_SETS, |shares| {
                goals.iter().map(|long| Row::new(*long, step).unwrap().in_turn(shares, tries)).collect()
            });
            let truth: Vec<f64> = group.iter().map(|member| squad.truth[*member]).collect();
            let best = longest(&mut chance, &truth, tries, step);
            claims.note(&goals, &within, |goal| best >= goal);
        }
    }
    claims.hold("rows of a group");
}

#[test]
fn totals_are_reached_as_often_as_stated() {
    let mut chance = Chance(72);
    let mut claims = Claims::default();
    for _ in 0..3_400 {
        let middle = chance.normal(0.5, 0.5);
        let squad = squad(&mut chance, middle, Vec::new());
        for group in split(&mut chance, 3) {
            let levels: Vec<Level> = group.iter().map(|member| squad.levels[*member]).collect();
            let tries = chance.whole(15, 60);
            let goals: Vec<u32> = (1..=tries).collect();
            let within = evenly(&levels, FEW_SETS, |shares| totals(shares, tries, &goals));
            let good =
                (0..tries as usize).filter(|ball| chance.even() < squad.truth[group[ball % group.len()]]).count();
            claims.note(&goals, &within, |goal| good >= goal as usize);
        }
    }
    claims.hold("so many good together");
}

#[test]
fn races_are_over_as_often_as_stated() {
    let mut chance = Chance(73);
    let mut claims = Claims::default();
    for _ in 0..3_400 {
        let middle = chance.normal(0.5, 0.5);
        let squad = squad(&mut chance, middle, Vec::new());
        for n_groups in 2..=4 {
            let groups = split(&mut chance, n_groups);
            let levels: Vec<Level> = groups.iter().flatten().map(|member| squad.levels[*member]).collect();
            let tries = chance.whole(8, 30);
            let goals: Vec<u32> = (1..=tries).collect();
            let within = evenly(&levels, FEW_SETS, |shares| {
                let mut rest = shares;
                let sides = groups.iter().map(|group| {
                    let (side, after) = rest.split_at(group.len());
                    rest = after;
                    side.to_vec()
                });
                first_of(&sides.collect::<Vec<_>>(), tries, &goals)
            });
            let most = groups.iter().map(|group| {
                (0..tries as usize).filter(|ball| chance.even() < squad.truth[group[ball % group.len()]]).count()
            });
            let most = most.max().unwrap();
            claims.note(&goals, &within, |goal| most >= goal as usize);
        }
    }
    claims.hold("races between groups");
}

#[test]
fn duels_are_over_as_often_as_stated() {
    let mut chance = Chance(74);
    let mut claims = Claims::default();
    let goals: Vec<u32> = (1..=8).collect();
    for _ in 0..3_400 {
        let middle = chance.normal(0.7, 0.5);
        let easy = squad(&mut chance, middle, Vec::new());
        let truth: Vec<f64> = easy.truth.iter().map(|p| (p / (1.0 - p)).ln() - chance.normal(0.7, 0.3)).collect();
        let hard = squad(&mut chance, middle, truth);
        for group in split(&mut chance, 3) {
            let of = |squad: &Squad| together(&group.iter().map(|m| squad.levels[*m]).collect::<Vec<_>>()).unwrap();
            let (tries, earn) = (chance.whole(14, 32), [0, 2, 3][chance.whole(0, 2) as usize]);
            let (n_easy, n_hard) = (4, 3);
            let within = evenly(&[of(&easy), of(&hard)], 7, |shares| {
                let one = |to: &u32| {
                    let rounds = Rounds { n_easy, earn, n_hard, to: *to, other_to: *to };
                    let end = rounds.within(tries, shares[0], shares[1]).unwrap();
                    Within { chance: 1.0 - end.open, tries: end.tries }
                };
                goals.iter().map(one).collect()
            });
            // Played ball by ball, the next child each.
            let most = {
                let (mut used, mut good, mut hard_used, mut sides) = (0, 0, 0, [0, 0]);
                for ball in 0..tries as usize {
                    let member = group[ball % group.len()];
                    let in_easy = hard_used == 0 && if earn > 0 { good < earn } else { used < n_easy };
                    if in_easy {
                        if used == n_easy {
                            (used, good) = (0, 0);
                        }
                        used += 1;
                        good += u32::from(chance.even() < easy.truth[member]);
                    } else {
                        sides[usize::from(chance.even() >= hard.truth[member])] += 1;
                        hard_used += 1;
                        if hard_used == n_hard {
                            (used, good, hard_used) = (0, 0, 0);
                        }
                    }
                }
                sides[0].max(sides[1])
            };
            claims.note(&goals, &within, |goal| most >= goal);
        }
    }
    claims.hold("duels after easy balls");
}

/// Of groups of eight with this average share, looked at after each of twenty tens over five weeks: how many were at least once said to be over
/// the line, by their balls together.
fn called(share: f64, line: f64, n_groups: u32) -> [f64; 3] {
    let mut chance = Chance(2027);
    let mut called = [0.0; 3];
    for _ in 0..n_groups {
        let spread: Vec<f64> = (0..8).map(|_| chance.normal(0.0, 0.6)).collect();
        let average = |middle: f64| spread.iter().map(|off| logistic(middle + off).0).sum::<f64>() / 8.0;
        let (mut low, mut high) = (-5.0, 5.0);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if average(middle) < share { low = middle } else { high = middle }
        }
        let mut members: Vec<Vec<Seen>> = vec![Vec::new(); 8];
        let mut surest = 0.0_f64;
        let mut ball = 0;
        for ten in 0..20 {
            for _ in 0..10 {
                let member = ball % 8;
                ball += 1;
                let count = chance.tries(1, logistic(low + spread[member]).0);
                // Two tens an occasion.
                let day = ten / 2 * 4;
                match members[member].last_mut().filter(|seen| seen.day == day) {
                    Some(seen) => seen.count = seen.count + count,
                    None => members[member].push(Seen { day, count, weight: 1.0, offset: 0.0 }),
                }
            }
            // Their balls together, as if they were one's: levels of several that nothing is known of hang together.
            let mut one: Vec<Seen> = Vec::new();
            for seen in members.iter().flatten() {
                match one.iter_mut().find(|had| had.day == seen.day) {
                    Some(had) => had.count = had.count + seen.count,
                    None => one.push(*seen),
                }
            }
            one.sort_by_key(|seen| seen.day);
            surest = surest.max(fit(&[one]).unwrap().on(0, ten / 2 * 4).unwrap().above(line));
        }
        for (called, sure) in called.iter_mut().zip([0.8, 0.9, 0.95]) {
            *called += f64::from(u8::from(surest >= sure)) / f64::from(n_groups);
        }
    }
    called
}

#[test]
fn how_often_a_group_is_called_ready() {
    println!("at least once in 20 looks, said so surely as [0.8, 0.9, 0.95]");
    for (share, most) in [(0.70, 0.1), (0.75, 0.2), (0.80, 1.0), (0.85, 1.0)] {
        let called = called(share, 0.8, 150);
        println!("a group, true {share:.2}, above 0.80: {called:.3?}");
        assert!(called[1] <= most, "{share}: {called:?}");
    }
}
