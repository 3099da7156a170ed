//! Goals of several at once: so many good of all their tries, and whoever of several sides is there first. Exact for chances that are known;
//! `draws` lays out what isn't known of them.

use super::Within;

/// So many good among tries that are taken turn by turn, each with its own chance: of each of the goals. The sum of unlike tries (Poisson
/// 1837), one try after another.
///
/// ```
/// use peppertally::stats::goal::several::totals;
/// // Two tries at 0.5 and 0.8. One good: all but 0.5 · 0.2; two: 0.5 · 0.8.
/// let both = totals(&[0.5, 0.8], 2, &[1, 2]);
/// assert!((both[0].chance - 0.9).abs() < 1e-15 && (both[1].chance - 0.4).abs() < 1e-15);
/// assert!((both[0].tries - 1.5).abs() < 1e-15 && both[1].tries == 2.0);
/// ```
pub fn totals(shares: &[f64], tries: u32, goals: &[u32]) -> Vec<Within> {
    open(shares, tries, goals).iter().map(|open| Within::of_open(open)).collect()
}

/// Sides that try at the same time, so many tries each, within a side turn by turn: somebody is there. Of each of the goals; the tries are
/// those of one side.
///
/// ```
/// use peppertally::stats::goal::several::first_of;
/// // Two sides with a try each at a half: nobody has a good one in a quarter of the cases.
/// assert_eq!(first_of(&[vec![0.5], vec![0.5]], 1, &[1])[0].chance, 0.75);
/// ```
pub fn first_of(sides: &[Vec<f64>], tries: u32, goals: &[u32]) -> Vec<Within> {
    let mut all: Vec<Vec<f64>> = goals.iter().map(|_| vec![1.0; tries as usize + 1]).collect();
    for side in sides {
        // Nobody is there as long as no side is.
        for (nobody, open) in all.iter_mut().zip(open(side, tries, goals)) {
            nobody.iter_mut().zip(open).for_each(|(nobody, open)| *nobody *= open);
        }
    }
    all.iter().map(|open| Within::of_open(open)).collect()
}

/// Of each goal the chance that it isn't reached yet, before the first try and after each.
fn open(shares: &[f64], tries: u32, goals: &[u32]) -> Vec<Vec<f64>> {
    let most = goals.iter().copied().max().unwrap_or(0).min(tries.saturating_add(1)) as usize;
    // So many good so far, as far as a goal lies beyond.
    let mut good = vec![0.0; most];
    if let Some(none) = good.first_mut() {
        *none = 1.0;
    }
    // Of so many good: the chance to have had them.
    let mut had = vec![0.0; most + 1];
    had[0] = 1.0;
    let still = |had: &[f64], goal: u32| had.get(goal as usize).map_or(1.0, |had| (1.0 - had).max(0.0));
    let mut all: Vec<Vec<f64>> = goals.iter().map(|goal| vec![still(&had, *goal)]).collect();
    for n in 0..tries as usize {
        let share = if shares.is_empty() { 0.0 } else { shares[n % shares.len()] };
        let p = if share > 0.0 { share.min(1.0) } else { 0.0 };
        for now in (0..most.min(n + 1)).rev() {
            let up = good[now] * p;
            good[now] -= up;
            had[now + 1] += up;
            if let Some(more) = good.get_mut(now + 1) {
                *more += up;
            }
        }
        all.iter_mut().zip(goals).for_each(|(open, goal)| open.push(still(&had, *goal)));
    }
    all
}
