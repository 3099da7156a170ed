//! Rounds of easy tries and then of hard ones: the easy ones may have to be earned before the hard ones come, and the hard ones are points for
//! one of two sides. Knows nothing of who the sides are.

use super::Within;

/// A row of rounds as it is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rounds {
    /// Easy tries of a round; 0 for none.
    pub n_easy: u32,
    /// So many of them must be good, and with the last of these the hard ones begin; else they start over. 0: they count for nothing.
    pub earn: u32,
    /// Hard tries of a round, from 1.
    pub n_hard: u32,
    /// Good hard tries that reach the goal.
    pub to: u32,
    /// Hard tries not good with which the other side is there first; 0: it never is.
    pub other_to: u32,
}

/// What becomes of it within some tries, easy and hard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundsEnd {
    pub reached: f64,
    /// The other side was there first.
    pub other: f64,
    /// Neither.
    pub open: f64,
    /// Tries played, until either or until the last looked at, on average.
    pub tries: f64,
}

/// Steps of the working, at most.
const MOST_STEPS: u64 = 200_000_000;

impl Rounds {
    /// Try after try, by every state there is. `None` for no hard tries, nothing to reach, more to earn than there are, chances outside 0
    /// to 1, and too long a working (the tries times the states).
    ///
    /// ```
    /// use peppertally::stats::goal::rounds::Rounds;
    /// let rounds = Rounds { n_easy: 1, earn: 1, n_hard: 1, to: 1, other_to: 0 };
    /// // An easy one and then a hard one, in two tries: a half times a half.
    /// assert_eq!(rounds.within(2, 0.5, 0.5).unwrap().reached, 0.25);
    /// ```
    pub fn within(&self, tries: u32, easy: f64, hard: f64) -> Option<RoundsEnd> {
        let Rounds { n_easy, earn, n_hard, to, other_to } = *self;
        let sound = (0.0..=1.0).contains(&easy) && (0.0..=1.0).contains(&hard);
        if to == 0 || !sound {
            return None;
        }
        let course = Course::new(n_easy, earn, n_hard)?;
        let n_scores = u64::from(to).checked_mul(u64::from(other_to.max(1)))?;
        let n_states = (course.n_phases() as u64).checked_mul(n_scores)?;
        n_states.checked_mul(u64::from(tries)).filter(|steps| *steps <= MOST_STEPS)?;
        let (to, other) = (to as usize, other_to.max(1) as usize);
        // A state is a phase and the points of both sides.
        let place = |phase: usize, a: usize, b: usize| (phase * to + a) * other + b;
        let mut now = vec![0.0; n_states as usize];
        now[0] = 1.0;
        let mut end = RoundsEnd { reached: 0.0, other: 0.0, open: 1.0, tries: 0.0 };
        for _ in 0..tries {
            end.tries += end.open;
            let mut next = vec![0.0; now.len()];
            for (state, weight) in now.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
                let (phase, a, b) = (state / (to * other), state / other % to, state % other);
                if course.is_easy(phase) {
                    next[place(course.after_easy(phase, true), a, b)] += easy * weight;
                    next[place(course.after_easy(phase, false), a, b)] += (1.0 - easy) * weight;
                } else {
                    let phase = course.after_hard(phase);
                    if a + 1 == to {
                        end.reached += hard * weight;
                    } else {
                        next[place(phase, a + 1, b)] += hard * weight;
                    }
                    if other_to == 0 {
                        next[place(phase, a, b)] += (1.0 - hard) * weight;
                    } else if b + 1 == other {
                        end.other += (1.0 - hard) * weight;
                    } else {
                        next[place(phase, a, b + 1)] += (1.0 - hard) * weight;
                    }
                }
            }
            now = next;
            end.open = now.iter().sum();
        }
        Some(end)
    }
}

/// The balls of a round, without who has the points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Course {
    n_easy: usize,
    earn: usize,
    n_hard: usize,
}

/// What a course brings, one after another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Brings {
    GoodEasy,
    HardTries,
    /// Rounds that are played to their last hard try.
    Rounds,
}

impl Course {
    /// Its phases are the easy tries used and the good ones of them, then the hard ones used. `None` for no hard tries and for more to earn
    /// than there are.
    pub fn new(n_easy: u32, earn: u32, n_hard: u32) -> Option<Self> {
        let course = Course { n_easy: n_easy as usize, earn: earn as usize, n_hard: n_hard as usize };
        (n_hard > 0 && earn <= n_easy).then_some(course)
    }

    fn n_phases(self) -> usize {
        self.first_hard() + self.n_hard
    }

    fn first_hard(self) -> usize {
        self.n_easy * self.earn.max(1)
    }

    pub(super) fn is_easy(self, phase: usize) -> bool {
        phase < self.first_hard()
    }

    /// Earned, the hard ones begin; with none left and not earned the easy ones start over.
    pub(super) fn after_easy(self, phase: usize, good: bool) -> usize {
        let earned = self.earn.max(1);
        let (used, had) = (phase / earned + 1, phase % earned);
        let has = if self.earn > 0 { had + usize::from(good) } else { 0 };
        if self.earn > 0 && has >= earned || self.earn == 0 && used == self.n_easy {
            self.first_hard()
        } else if used == self.n_easy {
            0
        } else {
            used * earned + has
        }
    }

    pub(super) fn after_hard(self, phase: usize) -> usize {
        if phase + 1 == self.n_phases() { 0 } else { phase + 1 }
    }

    /// Before the first try and after each: how likely each number so far is, up to `most`, which stands for more too. The easy ones are had in
    /// turn, each with its own chance. By every state there is (Kemeny and Snell 1960). `None` for nobody, a chance outside 0 to 1 and too
    /// long a working.
    ///
    /// ```
    /// use peppertally::stats::goal::rounds::{Brings, Course};
    /// // One easy one that must be good, then a hard one: of two tries a hard one is the second in half of the cases.
    /// let course = Course::new(1, 1, 1).unwrap();
    /// assert_eq!(course.brings(Brings::HardTries, 2, &[0.5], 1).unwrap()[2], [0.5, 0.5]);
    /// ```
    pub fn brings(self, what: Brings, tries: u32, easy: &[f64], most: u32) -> Option<Vec<Vec<f64>>> {
        let (n_phases, n_counts) = (self.n_phases(), most as usize + 1);
        let n_steps = (n_phases as u64).checked_mul(n_counts as u64)?.checked_mul(u64::from(tries))?;
        if easy.is_empty() || !easy.iter().all(|easy| (0.0..=1.0).contains(easy)) || n_steps > MOST_STEPS {
            return None;
        }
        let place = |phase: usize, count: usize| phase * n_counts + count.min(n_counts - 1);
        let mut now = vec![0.0; n_phases * n_counts];
        now[0] = 1.0;
        let mut all = vec![self.by_count(&now, n_counts)];
        for easy in easy.iter().cycle().take(tries as usize) {
            let mut next = vec![0.0; now.len()];
            for (state, weight) in now.iter().enumerate().filter(|(_, weight)| **weight > 0.0) {
                let (phase, count) = (state / n_counts, state % n_counts);
                if self.is_easy(phase) {
                    let more = usize::from(what == Brings::GoodEasy);
                    next[place(self.after_easy(phase, true), count + more)] += easy * weight;
                    next[place(self.after_easy(phase, false), count)] += (1.0 - easy) * weight;
                } else {
                    let after = self.after_hard(phase);
                    let more = match what {
                        Brings::GoodEasy => 0,
                        Brings::HardTries => 1,
                        Brings::Rounds => usize::from(after == 0),
                    };
                    next[place(after, count + more)] += weight;
                }
            }
            now = next;
            all.push(self.by_count(&now, n_counts));
        }
        Some(all)
    }

    fn by_count(self, states: &[f64], n_counts: usize) -> Vec<f64> {
        let mut counts = vec![0.0; n_counts];
        states.iter().enumerate().for_each(|(state, weight)| counts[state % n_counts] += weight);
        counts
    }

    /// So many of them within so many tries: of each of the goals.
    pub fn goals(self, what: Brings, tries: u32, easy: &[f64], goals: &[u32]) -> Option<Vec<Within>> {
        let most = goals.iter().copied().max().unwrap_or(0);
        let counts = self.brings(what, tries, easy, most)?;
        let one = |goal: &u32| {
            let open: Vec<f64> = counts.iter().map(|counts| counts[..*goal as usize].iter().sum()).collect();
            Within::of_open(&open)
        };
        Some(goals.iter().map(one).collect())
    }
}
