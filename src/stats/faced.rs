//! How hard the tasks were that each member had on an occasion, where members and tasks change: rated together (`ratings`), so that nobody is
//! taken for weak who had the hard ones, and no task for hard that only the weak had. Owns the correction and its error; never an order.

use super::proportion::Count;
use super::ratings::{Meeting, Ratings, rated};

/// What one member did at one task on one day. Kinds of tries have each a middle of its own, and a member of two kinds is rated in each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Faced {
    pub kind: usize,
    pub member: usize,
    pub task: usize,
    pub day: i32,
    pub count: Count,
}

/// The tasks' difficulties, a stretch of time each by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Hardness {
    stretches: Vec<Stretch>,
}

/// Places of the ratings begin with the tasks.
#[derive(Clone, Debug, PartialEq)]
struct Stretch {
    start: i32,
    /// Those that somebody had in it.
    tasks: Vec<usize>,
    ratings: Ratings,
}

/// Members get better and tasks change: what was so long ago is rated by itself. A choice of ours.
const STRETCH: i32 = 42;
/// How far members, and tasks, may lie apart, in log-odds: those two are taken that foresaw best what was seen in the stretch with most tries. The
/// narrowest of tasks is next to no difference. A choice of ours.
const MEMBERS: [f64; 3] = [0.3, 0.6, 1.2];
const TASKS: [f64; 4] = [0.05, 0.3, 0.6, 1.0];
/// An offset's error is taken for so much larger: what is wrong of a task is wrong on every occasion of its stretch, while occasions are taken to err
/// each by itself. A choice of ours, tried out on simulated groups.
const SHARED: f64 = 1.5;
/// The middle of each kind, in log-odds: anywhere between 5 and 95 in 100, as in `level`.
const MIDDLE: f64 = 1.5;

/// Rates members and tasks of each stretch of six weeks together: a member a of a kind with the middle m succeeds at a task d with the log-odds
/// m + a - d, where members lie about 0 and tasks about 0, each with a spread that is found. So a task few had is hardly called hard or easy, and groups
/// that never met are each compared with what is known of all. A task is measured against the stretch's average one: should all tasks get
/// harder together, members seem to get worse.
///
/// ```
/// use peppertally::stats::{faced::{Faced, hardness}, proportion::Count};
/// let at = |member, task, good| Faced { kind: 0, member, task, day: 0, count: Count::new(good, 40).unwrap() };
/// let all: Vec<Faced> = (0..6).flat_map(|member| [at(member, 0, 30), at(member, 1, 20)]).collect();
/// let hard = hardness(&all);
/// let ten = Count::new(6, 10).unwrap();
/// assert!(hard.offset(0, &[(1, 10)], ten).0 < -0.3 && hard.offset(0, &[(0, 5), (1, 5)], ten).0.abs() < 0.1);
/// ```
pub fn hardness(faced: &[Faced]) -> Hardness {
    let mut starts: Vec<i32> = Vec::new();
    for one in faced {
        let start = stretch(one.day);
        if !starts.contains(&start) {
            starts.push(start);
        }
    }
    let sheets: Vec<Sheet> = starts.iter().map(|start| Sheet::of(*start, faced)).collect();
    let most = sheets.iter().max_by(|a, b| a.tries().total_cmp(&b.tries()));
    let Some((members, tasks)) = most.map(Sheet::spreads) else { return Hardness { stretches: Vec::new() } };
    let one = |sheet: &Sheet| {
        Some(Stretch { start: sheet.start, tasks: sheet.tasks.clone(), ratings: sheet.rated(members, tasks)? })
    };
    Hardness { stretches: sheets.iter().filter_map(one).collect() }
}

impl Hardness {
    /// By how much the log-odds of an occasion's tries lie above the level, since its tasks were easier than the average one, and the error of
    /// that: from how many tries at which task, and what came of all tries of the occasion. Of the others nothing is known, so they are average.
    ///
    /// The share of tries at unequal tasks isn't that at their mean: to the second order its log-odds lie (q - p) / 2 times the tasks' variance
    /// beyond it.
    pub fn offset(&self, day: i32, had: &[(usize, u32)], count: Count) -> (f64, f64) {
        let Some(found) = self.stretches.iter().find(|found| found.start == stretch(day)) else { return (0.0, 0.0) };
        let all = had.iter().map(|(_, n)| *n).sum::<u32>().max(count.tries());
        let part = |n: u32| if all > 0 { f64::from(n) / f64::from(all) } else { 0.0 };
        // A task that nobody had in this stretch is average too.
        let rated = had.iter().filter(|(task, _)| found.tasks.contains(task));
        let parts: Vec<(usize, f64)> = rated.map(|(task, n)| (*task, part(*n))).collect();
        // Against the average of those that somebody had: what is common to all of them is the members' level too, and nobody can tell which.
        let known: f64 = parts.iter().map(|(_, part)| *part).sum();
        let average = known / found.tasks.len().max(1) as f64;
        let mut against: Vec<(usize, f64)> = found.tasks.iter().map(|task| (*task, -average)).collect();
        against.extend(&parts);
        let (mean, error) = found.ratings.mixed(&against);
        let hard = |task: usize| found.ratings.of(task).map_or(0.0, |(hard, _)| hard);
        let middle = found.tasks.iter().map(|task| hard(*task)).sum::<f64>() / found.tasks.len().max(1) as f64;
        let squares: f64 = parts.iter().map(|(task, part)| part * (hard(*task) - middle).powi(2)).sum();
        let p = share(count);
        (-mean + 0.5 * (1.0 - 2.0 * p) * (squares - mean * mean).max(0.0), error)
    }
}

/// Drawn a little to a half, as nothing is known yet of few.
fn share(count: Count) -> f64 {
    (f64::from(count.good()) + 1.0) / (f64::from(count.tries()) + 2.0)
}

/// What an occasion is worth whose offset is known with this error, beside one whose offset is known: the error's variance, [`SHARED`] times as far, is
/// added to that of the log-odds seen, 1 / (n p (1 - p)).
///
/// ```
/// use peppertally::stats::{faced::worth, proportion::Count};
/// let count = Count::new(10, 20).unwrap();
/// assert_eq!(worth(count, 0.0), 1.0);
/// // 20 at a half know 5; a variance of 0.2 makes it half as much.
/// assert!((worth(count, 0.2_f64.sqrt() / 1.5) - 0.5).abs() < 0.01);
/// ```
pub fn worth(count: Count, error: f64) -> f64 {
    let p = share(count);
    let error = SHARED * error;
    1.0 / (1.0 + error * error * f64::from(count.tries()) * p * (1.0 - p))
}

fn stretch(day: i32) -> i32 {
    day.div_euclid(STRETCH)
}

/// One stretch, ready to be rated: tasks come first, then each member of each kind, then the kinds' middles.
struct Sheet {
    start: i32,
    tasks: Vec<usize>,
    n_tasks: usize,
    n_members: usize,
    n_kinds: usize,
    /// Member and middle, task, good, missed.
    met: Vec<([usize; 2], [usize; 1], f64, f64)>,
}

impl Sheet {
    fn of(start: i32, faced: &[Faced]) -> Sheet {
        let here = || faced.iter().filter(|one| stretch(one.day) == start);
        let n_tasks = here().map(|one| one.task + 1).max().unwrap_or(0);
        let mut tasks: Vec<usize> = Vec::new();
        let mut members: Vec<(usize, usize)> = Vec::new();
        let mut kinds: Vec<usize> = Vec::new();
        for one in here() {
            if !members.contains(&(one.kind, one.member)) {
                members.push((one.kind, one.member));
            }
            if !tasks.contains(&one.task) {
                tasks.push(one.task);
            }
            if !kinds.contains(&one.kind) {
                kinds.push(one.kind);
            }
        }
        let mut met: Vec<([usize; 2], [usize; 1], f64, f64)> = Vec::new();
        for one in here() {
            let member = members.iter().position(|m| *m == (one.kind, one.member)).unwrap_or(0);
            let kind = kinds.iter().position(|kind| *kind == one.kind).unwrap_or(0);
            let (first, second) = ([n_tasks + member, n_tasks + members.len() + kind], [one.task]);
            let (good, missed) = (f64::from(one.count.good()), f64::from(one.count.missed()));
            match met.iter_mut().find(|had| had.0 == first && had.1 == second) {
                Some(had) => (had.2, had.3) = (had.2 + good, had.3 + missed),
                None => met.push((first, second, good, missed)),
            }
        }
        Sheet { start, tasks, n_tasks, n_members: members.len(), n_kinds: kinds.len(), met }
    }

    fn tries(&self) -> f64 {
        self.met.iter().map(|(_, _, good, missed)| good + missed).sum()
    }

    /// How far members and tasks lie apart: first the one, then the other, which costs half of looking at every pair.
    fn spreads(&self) -> (f64, f64) {
        let mut best = (f64::NEG_INFINITY, MEMBERS[1], TASKS[1]);
        let first = MEMBERS.map(|members| (members, TASKS[1]));
        for (members, tasks) in first {
            self.look(members, tasks, &mut best);
        }
        let members = best.1;
        for tasks in TASKS {
            self.look(members, tasks, &mut best);
        }
        (best.1, best.2)
    }

    fn look(&self, members: f64, tasks: f64, best: &mut (f64, f64, f64)) {
        let likely = self.rated(members, tasks).map_or(f64::NEG_INFINITY, |ratings| ratings.ln_likelihood);
        if likely > best.0 {
            *best = (likely, members, tasks);
        }
    }

    fn rated(&self, members: f64, tasks: f64) -> Option<Ratings> {
        let mut spreads = vec![tasks; self.n_tasks];
        spreads.extend(std::iter::repeat_n(members, self.n_members));
        spreads.extend(std::iter::repeat_n(MIDDLE, self.n_kinds));
        let met = self.met.iter();
        let meetings: Vec<Meeting<'_>> =
            met.map(|(first, second, good, missed)| Meeting { first, second, won: *good, lost: *missed }).collect();
        rated(&spreads, &meetings)
    }
}
