//! Goals of the other rules: most in the time, winners stay, rounds and what is earned together in them, a duel child by child. By hand, by
//! every case there is, and simulated and seeded: whether they are reached as often as stated. The figures stand in DEVELOPERS.md.

use numbers::stats::beta::mixed;
use numbers::stats::goal::Within;
use numbers::stats::goal::draws::laid_out;
use numbers::stats::goal::points::{Ring, played_out};
use numbers::stats::goal::rounds::{Brings, Course, Rounds};
use numbers::stats::goal::row::Row;
use numbers::stats::goal::several::totals;
use numbers::stats::goal::stays::stays;
use numbers::stats::level::{Level, together};

use super::chance::Chance;
use super::fits::{Claims, Squad, evenly, split, squad};
use super::near;

/// Sets of levels: few, for each costs much here.
const SETS: usize = 13;

#[test]
fn keeping_the_court_is_a_row_at_a_half() {
    // After the first game those who stay have one: then it is a row of one less, at a half (Feller 1968, XIII.7).
    for (goal, rallies) in [(2, 5), (3, 10), (4, 40), (6, 60)] {
        let row = Row::new(goal - 1, 0).unwrap().within(rallies - 1, 0.5);
        near("a rally a game", stays(1, rallies, &[goal]).unwrap()[0].chance, row, 13);
    }
    // By hand, two rallies a game: over after two in a half of the cases, else after three; one game is won by the third for sure.
    let one = stays(2, 3, &[1]).unwrap()[0];
    assert_eq!((one.chance, one.tries), (1.0, 2.5));
    // Two games of two rallies, the same winners twice: the second game is theirs in a half of the cases. Each takes two rallies or three, as
    // likely: both are over in four in a quarter of the cases, in five in three quarters, and no third game is.
    near("two short games in four", stays(2, 4, &[2]).unwrap()[0].chance, 0.5 * 0.25, 14);
    near("two short games in five", stays(2, 5, &[2]).unwrap()[0].chance, 0.5 * 0.75, 14);
    assert_eq!((stays(0, 5, &[1]), stays(1, 5, &[0]), stays(1, 0, &[])), (None, None, Some(Vec::new())));
    assert_eq!(stays(1, 3, &[9]).unwrap()[0], Within { chance: 0.0, tries: 3.0 });
}

#[test]
fn rounds_by_hand() {
    let course = |earn| Course::new(2, earn, 1).unwrap();
    let goals = |earn, what, tries, easy, goals: &[u32]| course(earn).goals(what, tries, &[easy], goals).unwrap();
    // Two easy ones and a hard one: a round every three tries, whatever becomes of them.
    let plain = goals(0, Brings::Rounds, 7, 0.3, &[1, 2, 3]);
    assert_eq!(plain.iter().map(|w| (w.chance, w.tries)).collect::<Vec<_>>(), [(1.0, 3.0), (1.0, 6.0), (0.0, 7.0)]);
    // One of the two must be good, at a half: earned by the first (1/2) or the second (1/4), else anew. A round in two tries 1/2, in three
    // 3/4; in four still 3/4 (anew, and the first two are gone), in five 7/8 more than that: 3/4 + 1/4 · 1/2 at the fourth.
    let earned = [2, 3, 4].map(|tries| goals(1, Brings::Rounds, tries, 0.5, &[1])[0].chance);
    near("in two", earned[0], 0.5, 14);
    near("in three", earned[1], 0.75, 14);
    near("in four", earned[2], 0.875, 14);
    // Good easy ones of two rounds without earning: four easy tries, so the binomial.
    for (at, within) in goals(0, Brings::GoodEasy, 6, 0.7, &[0, 1, 2, 3, 4]).iter().enumerate() {
        near("good easy", within.chance, totals(&[0.7], 4, &[at as u32])[0].chance, 14);
    }
    // The same hard tries as the duel's working has them: points of one side at a chance of 1.
    for tries in [5, 12, 30] {
        let to = 3;
        let duel = Rounds { n_easy: 4, earn: 3, n_hard: 3, to, other_to: 0 }.within(tries, 0.6, 1.0).unwrap();
        let hard = Course::new(4, 3, 3).unwrap().goals(Brings::HardTries, tries, &[0.6], &[to]).unwrap()[0];
        near("hard tries", hard.chance, duel.reached, 13);
        near("tries", hard.tries, duel.tries, 12);
    }
    assert_eq!((Course::new(2, 3, 1), Course::new(2, 0, 0)), (None, None));
    assert_eq!(course(1).brings(Brings::Rounds, 5, &[f64::NAN], 1), None);
}

/// Against every case there is, of three who pass in one place and serve each other in turn: five standard deviations of so many games.
#[test]
fn points_by_every_case() {
    let shares = [0.3, 0.8, 0.55];
    for n_give in [0, 2] {
        for moves in [false, true] {
            // Whose the ball is and who gives it, worked out by hand: the ring goes 012, 201, 120; the last two give in turn.
            let has = if moves { [0, 2, 1, 0, 2, 1] } else { [0; 6] };
            let gives = if moves { [1, 0, 2, 1, 0, 2] } else { [1, 2, 1, 2, 1, 2] };
            let goals = [1, 2, 3, 4];
            let sets = [(shares.to_vec(), 0.5)];
            let ring = Ring { n_have: 1, n_give, moves };
            let played = played_out(Course::new(0, 0, 1).unwrap(), ring, &sets, 40_000, 6, &goals).unwrap();
            for (goal, within) in goals.into_iter().zip(played) {
                let (mut there, mut tries) = (0.0, 0.0);
                for case in 0..1_u32 << 6 {
                    let (mut points, mut weight, mut at) = ([0_u32; 3], 1.0, None);
                    for ball in 0..6 {
                        let good = case >> ball & 1 == 1;
                        weight *= if good { shares[has[ball]] } else { 1.0 - shares[has[ball]] };
                        if good {
                            points[has[ball]] += 1;
                        } else if n_give > 0 {
                            points[gives[ball]] += 1;
                        }
                        if at.is_none() && points.iter().any(|points| *points >= goal) {
                            at = Some(ball + 1);
                        }
                    }
                    there += if at.is_some() { weight } else { 0.0 };
                    tries += weight * at.unwrap_or(6) as f64;
                }
                let what = format!("{n_give}, {moves}, to {goal}: {within:?} for {there} {tries}");
                assert!((within.chance - there).abs() < 0.0125 && (within.tries - tries).abs() < 0.05, "{what}");
            }
        }
    }
    let course = Course::new(1, 1, 1).unwrap();
    let ring = Ring { n_have: 2, n_give: 0, moves: true };
    assert_eq!(played_out(course, ring, &[], 5, 5, &[1]), None);
    assert_eq!(played_out(course, Ring { n_have: 0, ..ring }, &[(vec![0.5], 0.5)], 5, 5, &[1]), None);
    assert_eq!(
        played_out(course, ring, &[(vec![0.5], 0.0)], 5, 5, &[0, 1]).unwrap()[1],
        Within { chance: 0.0, tries: 5.0 }
    );
}

#[test]
fn each_ones_own_are_reached_as_often_as_stated() {
    let mut chance = Chance(81);
    let mut claims = Claims::default();
    for _ in 0..1_000 {
        let middle = chance.normal(0.5, 0.5);
        let squad = squad(&mut chance, middle, Vec::new());
        for (level, truth) in squad.levels.iter().zip(&squad.truth) {
            let tries = chance.whole(8, 30);
            let goals: Vec<u32> = (1..=tries).collect();
            let nodes = level.nodes(tries);
            let within: Vec<Within> = goals
                .iter()
                .map(|goal| Within {
                    chance: mixed(&nodes, &mut |p| totals(&[p], tries, &[*goal])[0].chance),
                    tries: 0.0,
                })
                .collect();
            let good = chance.tries(tries, *truth).good();
            claims.note(&goals, &within, |goal| good >= goal);
        }
    }
    claims.hold("each one's own good ones in the time");
}

fn of(squad: &Squad, group: &[usize]) -> Level {
    together(&group.iter().map(|member| squad.levels[*member]).collect::<Vec<_>>()).unwrap()
}

#[test]
fn keeping_the_court_is_reached_as_often_as_stated() {
    let mut chance = Chance(82);
    let mut claims = Claims::default();
    for _ in 0..10_000 {
        let (to, rallies) = (chance.whole(1, 3), chance.whole(10, 60));
        let goals: Vec<u32> = (1..=10).filter(|goal| goal * to <= rallies).collect();
        let within = stays(to, rallies, &goals).unwrap();
        let (mut won, mut game, mut best) = (0, [0, 0], 0);
        for _ in 0..rallies {
            let side = usize::from(chance.even() < 0.5);
            game[side] += 1;
            if game[side] == to {
                won = if side == 0 || won == 0 { won + 1 } else { 1 };
                game = [0, 0];
                best = best.max(won);
            }
        }
        claims.note(&goals, &within, |goal| best >= goal);
    }
    claims.hold("winners stay, even sides");
}

/// A round as it is played, the next child each; what it has brought.
struct Play {
    used: u32,
    good: u32,
    hard_used: u32,
    brought: [u32; 3],
}

impl Play {
    const N: (u32, u32) = (4, 3);

    fn is_easy(&self, earn: u32) -> bool {
        self.hard_used == 0 && if earn > 0 { self.good < earn } else { self.used < Play::N.0 }
    }

    fn easy(&mut self, good: bool) {
        if self.used == Play::N.0 {
            (self.used, self.good) = (0, 0);
        }
        self.used += 1;
        self.good += u32::from(good);
        self.brought[0] += u32::from(good);
    }

    /// Whether the round is over.
    fn hard(&mut self) -> bool {
        self.hard_used += 1;
        self.brought[1] += 1;
        let over = self.hard_used == Play::N.1;
        if over {
            (self.used, self.good, self.hard_used) = (0, 0, 0);
            self.brought[2] += 1;
        }
        over
    }
}

fn play() -> Play {
    Play { used: 0, good: 0, hard_used: 0, brought: [0; 3] }
}

#[test]
fn what_rounds_bring_is_reached_as_often_as_stated() {
    let mut chance = Chance(83);
    let [mut joint, mut rounds] = [Claims::default(), Claims::default()];
    for _ in 0..3_400 {
        let middle = chance.normal(0.5, 0.5);
        let squad = squad(&mut chance, middle, Vec::new());
        for group in split(&mut chance, 3) {
            let tries = chance.whole(20, 45);
            for (what, claims) in [(Brings::GoodEasy, &mut joint), (Brings::Rounds, &mut rounds)] {
                // Without earning every round has the same balls, and their number is no chance.
                let earn =
                    if what == Brings::Rounds { [2, 3][chance.whole(0, 1) as usize] } else { chance.whole(0, 3) };
                let course = Course::new(Play::N.0, earn, Play::N.1).unwrap();
                let goals: Vec<u32> = (1..=tries / if what == Brings::Rounds { earn + Play::N.1 } else { 1 }).collect();
                let levels: Vec<Level> = group.iter().map(|member| squad.levels[*member]).collect();
                let within = evenly(&levels, SETS, |shares| course.goals(what, tries, shares, &goals).unwrap());
                let mut play = play();
                for ball in 0..tries as usize {
                    if play.is_easy(earn) {
                        play.easy(chance.even() < squad.truth[group[ball % group.len()]]);
                    } else {
                        play.hard();
                    }
                }
                let had = play.brought[if what == Brings::Rounds { 2 } else { 0 }];
                claims.note(&goals, &within, |goal| had >= goal);
            }
        }
    }
    joint.hold("good easy balls together");
    rounds.hold("rounds that must be earned");
}

/// As the app lets them move on: three places, six who serve in turn, all one on after each round; whichever of the three it is who passes.
#[test]
fn a_duel_child_by_child_is_over_as_often_as_stated() {
    let mut chance = Chance(84);
    let mut claims = Claims::default();
    for _ in 0..2_000 {
        let middle = chance.normal(0.7, 0.5);
        let easy = squad(&mut chance, middle, Vec::new());
        let truth: Vec<f64> = easy.truth.iter().map(|p| (p / (1.0 - p)).ln() - chance.normal(0.7, 0.3)).collect();
        let hard = squad(&mut chance, middle, truth);
        for n_here in [11, 9, 6, 11, 8] {
            let mut ring = split(&mut chance, 1).remove(0);
            ring.truncate(n_here);
            let (tries, earn) = (chance.whole(25, 60), [0, 2, 3][chance.whole(0, 2) as usize]);
            let course = Course::new(Play::N.0, earn, Play::N.1).unwrap();
            let goals: Vec<u32> = (1..=12).collect();
            let n_servers = (n_here - 3).min(6);
            let mut levels: Vec<Level> = ring.iter().map(|member| hard.levels[*member]).collect();
            levels.push(of(&easy, &ring));
            let split = |mut shares: Vec<f64>| shares.pop().map(|easy| (shares, easy));
            let sets: Vec<_> = laid_out(&levels, 251).into_iter().filter_map(split).collect();
            let of_app = Ring { n_have: 3, n_give: n_servers, moves: true };
            let within = played_out(course, of_app, &sets, 4, tries, &goals).unwrap();
            let (mut points, mut play, mut served) = (vec![0_u32; 11], play(), Vec::new());
            for _ in 0..tries {
                let passer = ring[chance.whole(0, 2) as usize];
                if play.is_easy(earn) {
                    play.easy(chance.even() < easy.truth[passer]);
                    continue;
                }
                // Whoever comes after the one of them who served last.
                let line = &ring[n_here - n_servers..];
                let last = served.iter().rev().find_map(|last| line.iter().position(|server| server == last));
                let server = line[last.map_or(0, |at| (at + 1) % n_servers)];
                served.push(server);
                let good = chance.even() < hard.truth[passer];
                points[if good { passer } else { server }] += 1;
                if play.hard() {
                    ring.rotate_right(1);
                }
            }
            let most = points.iter().copied().max().unwrap();
            claims.note(&goals, &within, |goal| most >= goal);
        }
    }
    claims.hold("a duel child by child");
}
