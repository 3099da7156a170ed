//! Ratings: pairs, teams, tries against difficulties.

use numbers::stats::ratings::{Meeting, Ratings, best_rated, connected, rated};
use numbers::stats::special::logistic;
use proptest::prelude::*;

use super::chance::Chance;
use super::hard::LSAT;
use super::near;

fn meeting<'a>(first: &'a [usize], second: &'a [usize], won: u32, lost: u32) -> Meeting<'a> {
    Meeting { first, second, won: f64::from(won), lost: f64::from(lost) }
}

#[test]
fn pairs_as_published() {
    // Agresti 2002, Categorical Data Analysis, table 10.10: the American League's East in 1987, in order Milwaukee, Detroit, Toronto, New
    // York, Boston, Cleveland, Baltimore; rows beat columns. Relative to the last, with standard errors.
    let wins = [
        [0, 7, 9, 7, 7, 9, 11],
        [6, 0, 7, 5, 11, 9, 9],
        [4, 6, 0, 7, 7, 8, 12],
        [6, 8, 6, 0, 6, 7, 10],
        [6, 2, 6, 7, 0, 7, 12],
        [4, 4, 5, 6, 6, 0, 6],
        [2, 4, 1, 3, 1, 7, 0],
    ];
    let places = [[0], [1], [2], [3], [4], [5], [6]];
    let mut meetings = Vec::new();
    for i in 0..7 {
        (0..i).for_each(|j| meetings.push(meeting(&places[i], &places[j], wins[i][j], wins[j][i])));
    }
    // Hardly held back at all.
    let ratings = rated(&[1000.0; 7], &meetings).unwrap();
    let printed =
        [(1.5814, 0.343), (1.4364, 0.340), (1.2945, 0.337), (1.2476, 0.336), (1.1077, 0.334), (0.6839, 0.332)];
    for (place, (value, error)) in places.iter().zip(printed) {
        let (apart, its_error) = ratings.apart(place, &places[6]);
        near("Agresti", apart, value, 4);
        near("Agresti, error", its_error, error, 3);
    }
    // Agresti's example in words: Boston would beat Cleveland with 0.60 or so.
    near("exp(0.4238) to one", logistic(ratings.apart(&places[4], &places[5]).0).0, 0.6044, 4);
}

/// The five difficulties about their mean, each person's ability drawn with this spread.
///
/// Who has the same score has the same likeliest ability, so people are put together by score; m of them are held back as one whose spread is
/// smaller by the root of m.
fn difficulties(spread: f64) -> [f64; 5] {
    let (mut people, mut solved) = ([0_u32; 6], [[0_u32; 5]; 6]);
    for (pattern, n) in (0_u32..).zip(LSAT) {
        let score = pattern.count_ones() as usize;
        people[score] += n;
        (0..5).for_each(|task| solved[score][task] += n * (pattern >> (4 - task) & 1));
    }
    assert_eq!(people.iter().sum::<u32>(), 1000);
    let (scores, tasks) = ([[5], [6], [7], [8], [9], [10]], [[0], [1], [2], [3], [4]]);
    let mut meetings = Vec::new();
    for (score, of_score) in scores.iter().zip(people.iter().zip(solved)) {
        let (n, solved) = of_score;
        tasks.iter().zip(solved).for_each(|(task, solved)| meetings.push(meeting(score, task, solved, n - solved)));
    }
    let mut spreads = vec![100.0; 5];
    spreads.extend(people.map(|n| spread / f64::from(n).sqrt()));
    let ratings = rated(&spreads, &meetings).unwrap();
    let values: [f64; 5] = std::array::from_fn(|i| ratings.of(i).unwrap().0);
    let mean = values.iter().sum::<f64>() / 5.0;
    values.map(|value| value - mean)
}

#[test]
fn difficulties_as_published() {
    // The conditional fit, sum 0 (Bock and Lieberman's data; R packages eRm and ltm give it).
    let conditional = [-1.2561, 0.4749, 1.2360, 0.1684, -0.6232];
    // Abilities left free: the joint fit, too wide by L / (L - 1) with L tasks, which Wright and Douglas (1977, Educational and Psychological
    // Measurement 37:573) take off again.
    let free = difficulties(1000.0);
    for (free, published) in free.iter().zip(conditional) {
        println!("free, times four fifths {:.4}, conditional {published}", 0.8 * free);
        assert!((0.8 * free - published).abs() < 0.08, "{free} {published}");
    }
    // Held back by the spread that the marginal fit finds (discrimination 0.7551): the same mode as recomputed by other means, and, with but
    // five tries each, drawn together by some 6 in 100 (Breslow and Lin 1995, Biometrika 82:81).
    let held = difficulties(0.7551);
    let recomputed = [-1.19262451, 0.45415182, 1.15752741, 0.16611443, -0.58516914];
    for ((held, recomputed), published) in held.iter().zip(recomputed).zip(conditional) {
        near("recomputed", *held, recomputed, 3);
        assert!((0.92..1.0).contains(&(held / published)), "{held} {published}");
    }
}

#[test]
fn what_never_met_and_what_only_won() {
    let ratings = rated(&[1.0; 4], &[meeting(&[0], &[1], 9, 0), meeting(&[2], &[3], 0, 9)]).unwrap();
    let (apart, error) = ratings.apart(&[0], &[1]);
    assert!((1.0..4.0).contains(&apart) && error > 0.5, "only won, and not out of all bounds: {apart} {error}");
    // The two pairs have nothing to do with each other: as far apart as the prior, no surer than it.
    let (apart, error) = ratings.apart(&[0], &[2]);
    assert!(apart > 0.0 && error > 1.0, "{apart} {error}");
    // A difference as a weighted sum, and half of it; what isn't there counts for nothing.
    let (apart, error) = ratings.apart(&[0], &[1]);
    let (mixed, its_error) = ratings.mixed(&[(0, 0.5), (1, -0.5), (9, 3.0)]);
    assert!((2.0 * mixed - apart).abs() < 1e-12 && (2.0 * its_error - error).abs() < 1e-12);
    assert_eq!(ratings.mixed(&[]), (0.0, 0.0));
    let (apart, error) = ratings.apart(&[0, 1], &[2, 3]);
    assert!(apart.abs() < 1e-9 && (error - 2.0).abs() < 1e-6, "pairs as a whole: {apart} {error}");
    assert_eq!(connected(5, &[meeting(&[0], &[1], 9, 0), meeting(&[2], &[3], 0, 9)]), [0, 0, 2, 2, 4]);
    assert_eq!(connected(5, &[meeting(&[0, 2], &[1, 4], 1, 0), meeting(&[3], &[], 1, 0)]), [0, 0, 0, 3, 0]);
    assert_eq!(connected(3, &[meeting(&[0], &[1], 0, 0), meeting(&[2], &[1], 2, 1)]), [0, 1, 1]);
    assert_eq!(connected(2, &[meeting(&[0], &[7], 1, 0)]), [0, 1]);
    // Nothing seen: the prior.
    let nothing = rated(&[0.5, 2.0], &[]).unwrap();
    assert_eq!((nothing.of(0), nothing.of(1), nothing.of(2)), (Some((0.0, 0.5)), Some((0.0, 2.0)), None));
    assert_eq!(nothing.apart(&[9], &[]), (0.0, 0.0));
    assert_eq!((rated(&[], &[]), rated(&[0.0], &[]), rated(&[f64::NAN], &[])), (None, None, None));
    assert_eq!(rated(&[1.0], &[meeting(&[1], &[], 1, 0)]), None);
    assert_eq!(rated(&[1.0], &[Meeting { first: &[0], second: &[], won: f64::NAN, lost: 1.0 }]), None);
    let many = rated(&[1000.0, 1000.0], &[meeting(&[0], &[1], 100_000, 0), meeting(&[0], &[1], 0, 1)]).unwrap();
    near("100,000 to 1", many.apart(&[0], &[1]).0, 100_000.0_f64.ln(), 3);
}

#[test]
fn the_spread_is_found() {
    // Twelve whose spread is 0.6, each against each, five to twenty times: of five spreads those beside the true one are found.
    let mut chance = Chance(31);
    let candidates = [0.15, 0.3, 0.6, 1.2, 2.4].map(|spread| [spread; 12]);
    let candidates: Vec<&[f64]> = candidates.iter().map(|spreads| spreads.as_slice()).collect();
    let (mut found, mut held, mut n) = ([0; 5], 0.0, 0.0);
    for _ in 0..200 {
        let truth: Vec<f64> = (0..12).map(|_| chance.normal(0.0, 0.6)).collect();
        let mut counts = Vec::new();
        for i in 0..12 {
            for j in 0..i {
                let tries = chance.whole(5, 20);
                counts.push(([i], [j], chance.tries(tries, logistic(truth[i] - truth[j]).0)));
            }
        }
        let meetings: Vec<Meeting<'_>> =
            counts.iter().map(|(a, b, count)| meeting(a, b, count.good(), count.missed())).collect();
        let best = best_rated(&candidates, &meetings).unwrap();
        let which = candidates.iter().position(|spreads| rated(spreads, &meetings).as_ref() == Some(&best)).unwrap();
        found[which] += 1;
        for (i, j) in (1..12).map(|i| (i, i - 1)) {
            let (apart, error) = best.apart(&[i], &[j]);
            n += 1.0;
            held += f64::from(u8::from((apart - (truth[i] - truth[j])).abs() < 1.96 * error));
        }
    }
    println!("spreads found {found:?} of 200, differences held {:.4} of {n}", held / n);
    assert!(found[2] > 150 && found[0] + found[4] == 0, "{found:?}");
    assert!((0.93..0.97).contains(&(held / n)));
    assert_eq!((best_rated(&[], &[]), best_rated(&[&[0.0]], &[])), (None, None));
}

/// Ratings of seeded groups against the truth: mean of (found - true) / error, its spread, and how often 95 in 100 held.
fn recovered(n_groups: u32, mut one: impl FnMut(&mut Chance) -> (Ratings, Vec<f64>)) -> (f64, f64, f64, f64) {
    let mut chance = Chance(12);
    let (mut n, mut off, mut squares, mut held, mut expected) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for _ in 0..n_groups {
        let (ratings, truth) = one(&mut chance);
        for (at, truth) in truth.iter().enumerate() {
            let (value, error) = ratings.of(at).unwrap();
            n += 1.0;
            off += value - truth;
            squares += (value - truth).powi(2);
            expected += error * error;
            held += f64::from(u8::from((value - truth).abs() < 1.96 * error));
        }
    }
    println!(
        "{n} ratings: off by {:.4}, spread {:.3} of the error told, held {:.4}",
        off / n,
        (squares / expected).sqrt(),
        held / n
    );
    (n, off / n, (squares / expected).sqrt(), held / n)
}

#[test]
fn teams_and_difficulties_are_recovered() {
    // Three against three of twelve, changing sides, forty games to a few points each.
    let teams = recovered(900, |chance| {
        let truth: Vec<f64> = (0..12).map(|_| chance.normal(0.0, 0.5)).collect();
        let mut games = Vec::new();
        for _ in 0..40 {
            let mut who: Vec<usize> = (0..12).collect();
            for i in 0..6 {
                let other = chance.whole(i, 11) as usize;
                who.swap(i as usize, other);
            }
            let side = |of: &[usize]| of.iter().map(|at| truth[*at]).sum::<f64>();
            let share = logistic(side(&who[..3]) - side(&who[3..6])).0;
            games.push((who[..3].to_vec(), who[3..6].to_vec(), chance.tries(5, share)));
        }
        let meetings: Vec<Meeting<'_>> =
            games.iter().map(|(a, b, count)| meeting(a, b, count.good(), count.missed())).collect();
        (rated(&[0.5; 12], &meetings).unwrap(), truth)
    });
    // Eight who pass what six serve, not everyone everyone's, with a middle of their own (the fifteenth place).
    let tries = recovered(900, |chance| {
        let mut truth: Vec<f64> = (0..8).map(|_| chance.normal(0.0, 0.7)).collect();
        truth.extend((0..6).map(|_| chance.normal(0.0, 0.5)));
        truth.push(chance.normal(0.4, 0.3));
        let mut counts = Vec::new();
        for i in 0..8 {
            for j in 8..14 {
                if chance.even() < 0.7 {
                    let n = chance.whole(1, 15);
                    counts.push(([i, 14], [j], chance.tries(n, logistic(truth[i] + truth[14] - truth[j]).0)));
                }
            }
        }
        let meetings: Vec<Meeting<'_>> =
            counts.iter().map(|(a, b, count)| meeting(a, b, count.good(), count.missed())).collect();
        let mut spreads = [0.7; 15];
        spreads[8..14].fill(0.5);
        spreads[14] = 1.5;
        (rated(&spreads, &meetings).unwrap(), truth)
    });
    for (n, off, spread, held) in [teams, tries] {
        assert!(n >= 10_000.0 && off.abs() < 0.02, "off by {off}");
        assert!((spread - 1.0).abs() < 0.1 && (0.94..0.96).contains(&held), "{spread} {held}");
    }
}

proptest! {
    #[test]
    fn ratings_are_always_sound(games in prop::collection::vec((0usize..6, 0usize..6, 0u32..1000, 0u32..1000), 0..20), spread in 0.05..50.0f64) {
        let sides: Vec<([usize; 1], [usize; 2])> = games.iter().map(|(a, b, ..)| ([*a], [*b, (*a + 1) % 6])).collect();
        let meetings: Vec<Meeting<'_>> =
            sides.iter().zip(&games).map(|((a, b), (_, _, won, lost))| meeting(a, b, *won, *lost)).collect();
        let ratings = rated(&[spread; 6], &meetings).unwrap();
        for at in 0..6 {
            let (value, error) = ratings.of(at).unwrap();
            prop_assert!(value.is_finite() && error > 0.0 && error <= spread * (1.0 + 1e-9));
        }
        prop_assert!(ratings.ln_likelihood.is_finite());
    }
}
