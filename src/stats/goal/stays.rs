//! Winners stay: how long one side keeps the court, where all who come on are as good. Knows nobody.

use super::Within;

/// Steps of the working, at most.
const MOST_STEPS: u64 = 200_000_000;

/// So many games won in a row by one side, within so many rallies: of each of the goals. A game is the first to `to` rallies, each as likely
/// either's; who loses goes off and the next come on with nothing won. The chances by every state there is (Kemeny and Snell 1960); where a
/// rally is a game they are those of a row with a chance of a half (Feller 1968, volume 1, XIII.7), which the first game begins. `None`
/// for no rallies to a game, a goal of nothing, and too long a working.
///
/// ```
/// use peppertally::stats::goal::stays::stays;
/// // Two in a row: the winners of the first rally win the second one too, or those of the second the third.
/// let three = stays(1, 3, &[2]).unwrap();
/// assert_eq!((three[0].chance, three[0].tries), (0.75, 2.5));
/// ```
pub fn stays(to: u32, rallies: u32, goals: &[u32]) -> Option<Vec<Within>> {
    goals.iter().map(|goal| one(to, rallies, *goal)).collect()
}

fn one(to: u32, rallies: u32, goal: u32) -> Option<Within> {
    let n_states = u64::from(goal).checked_mul(u64::from(to))?.checked_mul(u64::from(to))?;
    n_states.checked_mul(u64::from(rallies)).filter(|steps| *steps <= MOST_STEPS && n_states > 0)?;
    let (to, goal) = (to as usize, goal as usize);
    // Games won by those who stay (none before the first), and the rallies of the game: theirs, the others'.
    let place = |won: usize, a: usize, b: usize| (won * to + a) * to + b;
    let mut now = vec![0.0; goal * to * to];
    now[0] = 1.0;
    let mut open = vec![1.0];
    for _ in 0..rallies {
        let mut next = vec![0.0; now.len()];
        let mut go_on = |won: usize, weight: f64| {
            if won < goal {
                next[place(won, 0, 0)] += weight;
            }
        };
        let mut within = Vec::new();
        for (state, weight) in now.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
            let (won, a, b) = (state / (to * to), state / to % to, state % to);
            let half = 0.5 * weight;
            if a + 1 == to {
                go_on(won + 1, half);
            } else {
                within.push((place(won, a + 1, b), half));
            }
            if b + 1 == to {
                go_on(1, half);
            } else {
                within.push((place(won, a, b + 1), half));
            }
        }
        within.into_iter().for_each(|(at, weight)| next[at] += weight);
        now = next;
        open.push(now.iter().sum());
    }
    Some(Within::of_open(&open))
}
