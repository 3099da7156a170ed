//! How hard tasks are when those who try them differ, and how good those are who tried hard ones: the one-parameter model of item response (Rasch
//! 1960), with the members drawn from one normal distribution and integrated out (Bock and Lieberman 1970, Psychometrika 35:179; Bock and
//! Aitkin 1981, same journal 46:443). Unlike `ratings`, which holds all back alike, it draws difficulties together by nothing where each
//! member has few tries; it asks that members and tasks be two kinds. The app doesn't use it:
//! it shows how far `ratings` draws difficulties together.

use super::stats::ratings::{factorised, solved};
use super::stats::special::{logistic, normal_density};

/// What one member did at one task.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tried {
    pub member: usize,
    pub task: usize,
    pub good: f64,
    pub missed: f64,
}

/// Tasks and members on one scale of log-odds: a member a succeeds at a task d with the log-odds a - d. Members are about 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Difficulties {
    /// Of the tasks, and last the logarithm of the members' spread.
    parameters: Vec<f64>,
    covariance: Vec<f64>,
    /// Each member's level and what is not known of it, given the tasks.
    members: Vec<(f64, f64)>,
    /// Of what was seen, the prior left out.
    pub ln_likelihood: f64,
}

/// The members' spread is looked for between these.
const SPREADS: (f64, f64) = (0.05, 5.0);

/// Difficulties by penalised marginal likelihood: before anything is seen each lies about 0 with the spread `held` (wide leaves it free). All
/// members are taken for draws from one distribution, so groups that share no task are comparable by that alone.
///
/// `None` where nobody tried anything, and for counts below 0 or not finite, places outside, a spread not finite and above 0.
pub fn difficulties(n_members: usize, n_tasks: usize, tried: &[Tried], held: f64) -> Option<Difficulties> {
    let sound = |t: &Tried| {
        t.member < n_members && t.task < n_tasks && t.good >= 0.0 && t.missed >= 0.0 && (t.good + t.missed).is_finite()
    };
    if !(tried.iter().all(sound) && tried.iter().any(|t| t.good + t.missed > 0.0) && held > 0.0 && held.is_finite()) {
        return None;
    }
    let mut of_members = vec![Vec::new(); n_members];
    tried.iter().for_each(|t| of_members[t.member].push(*t));
    let mut parameters = vec![0.0; n_tasks + 1];
    parameters[n_tasks] = 0.7_f64.ln();
    let mut pass = Pass::new(&of_members, &parameters, held);
    for _ in 0..200 {
        // Newton's step where the curve allows it, else that of the expected one, which always does.
        let n = parameters.len();
        let mut root = pass.known.clone();
        if factorised(&mut root, n).is_none() {
            root.clone_from(&pass.complete);
            factorised(&mut root, n)?;
        }
        let step = solved(&root, n, pass.slope.clone());
        let furthest = step.iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        let part = (1.0 / furthest).min(1.0);
        let before = parameters.clone();
        parameters.iter_mut().zip(&step).for_each(|(value, step)| *value += part * step);
        parameters[n_tasks] = parameters[n_tasks].clamp(SPREADS.0.ln(), SPREADS.1.ln());
        pass = Pass::new(&of_members, &parameters, held);
        if parameters.iter().zip(&before).all(|(now, before)| (now - before).abs() < 1e-9) {
            break;
        }
    }
    let n = parameters.len();
    let mut root = pass.known;
    if factorised(&mut root, n).is_none() {
        root = pass.complete;
        factorised(&mut root, n)?;
    }
    let unit = |i: usize| (0..n).map(|j| f64::from(u8::from(i == j))).collect();
    let covariance = (0..n).flat_map(|i| solved(&root, n, unit(i))).collect();
    Some(Difficulties { parameters, covariance, members: pass.members, ln_likelihood: pass.ln_likelihood })
}

impl Difficulties {
    /// A task's difficulty and its standard error, in log-odds. `None` outside the list.
    pub fn task(&self, at: usize) -> Option<(f64, f64)> {
        (at + 1 < self.parameters.len()).then(|| (self.parameters[at], self.variance(at, at).sqrt()))
    }

    /// How much harder the first task is than the second, and the error of that. `None` outside the list.
    pub fn apart(&self, first: usize, second: usize) -> Option<(f64, f64)> {
        let ((a, _), (b, _)) = (self.task(first)?, self.task(second)?);
        let variance = self.variance(first, first) + self.variance(second, second) - 2.0 * self.variance(first, second);
        Some((a - b, variance.max(0.0).sqrt()))
    }

    /// A task's difficulty and its error in units of the members' spread, as it is often printed.
    pub fn scaled(&self, at: usize) -> Option<(f64, f64)> {
        let (value, error) = self.task(at)?;
        let (spread, last) = (self.spread().0, self.parameters.len() - 1);
        let scaled = value / spread;
        let variance = (error / spread).powi(2) - 2.0 * scaled * self.variance(at, last) / spread
            + scaled * scaled * self.variance(last, last);
        Some((scaled, variance.max(0.0).sqrt()))
    }

    /// How far members differ, in log-odds (the discrimination of the model where that is told on the members' own scale), and its error.
    pub fn spread(&self) -> (f64, f64) {
        let last = self.parameters.len() - 1;
        let spread = self.parameters[last].exp();
        (spread, spread * self.variance(last, last).sqrt())
    }

    /// A member's level and what is not known of it; 0 and the spread for one who didn't try. `None` outside the list.
    pub fn member(&self, at: usize) -> Option<(f64, f64)> {
        self.members.get(at).copied()
    }

    fn variance(&self, i: usize, j: usize) -> f64 {
        self.covariance[i * self.parameters.len() + j]
    }
}

/// The likelihood's slope and curve at some parameters.
struct Pass {
    ln_likelihood: f64,
    slope: Vec<f64>,
    /// Less the second derivatives: what is known.
    known: Vec<f64>,
    /// What would be known if the members' levels were.
    complete: Vec<f64>,
    members: Vec<(f64, f64)>,
}

impl Pass {
    /// By Louis (1982, Journal of the Royal Statistical Society B 44:226): what is known is what would be known with the members' levels
    /// seen, less what they leave open.
    fn new(of_members: &[Vec<Tried>], parameters: &[f64], held: f64) -> Self {
        let (n, last) = (parameters.len(), parameters.len() - 1);
        let spread = parameters[last].exp();
        let prior = 1.0 / (held * held);
        let mut slope: Vec<f64> = parameters.iter().map(|value| -prior * value).collect();
        slope[last] = 0.0;
        let mut complete = vec![0.0; n * n];
        (0..last).for_each(|i| complete[i * n + i] = prior);
        let mut pass = Pass { ln_likelihood: 0.0, slope, known: complete.clone(), complete, members: Vec::new() };
        for tried in of_members {
            pass.member(tried, parameters, spread);
        }
        pass
    }

    /// One member, over equal steps of its level (see `beta::Beta::nodes`), from the likeliest outwards to where nothing is left.
    fn member(&mut self, tried: &[Tried], parameters: &[f64], spread: f64) {
        let (n, last) = (parameters.len(), parameters.len() - 1);
        let n_tries: f64 = tried.iter().map(|t| t.good + t.missed).sum();
        let step = 0.6 / (1.0 + 0.25 * n_tries * spread * spread).sqrt();
        let ln_at = |z: f64| {
            let mut ln = (step * normal_density(0.0)).ln() - 0.5 * z * z;
            for t in tried {
                let (p, q) = logistic(spread * z - parameters[t.task]);
                let of = |times: f64, chance: f64| {
                    if times > 0.0 { times * chance.max(f64::MIN_POSITIVE).ln() } else { 0.0 }
                };
                ln += of(t.good, p) + of(t.missed, q);
            }
            ln
        };
        let mut middle = 0.0;
        for _ in 0..50 {
            let (mut slope, mut curve) = (-middle, 1.0);
            for t in tried {
                let (p, q) = logistic(spread * middle - parameters[t.task]);
                slope += spread * (t.good * q - t.missed * p);
                curve += spread * spread * (t.good + t.missed) * p * q;
            }
            let move_by = (slope / curve).clamp(-1.0, 1.0);
            middle += move_by;
            if move_by.abs() < 0.1 * step {
                break;
            }
        }
        let mut nodes = vec![(middle, ln_at(middle))];
        for side in [-step, step] {
            for i in 1..4000 {
                let z = middle + side * f64::from(i);
                let ln = ln_at(z);
                nodes.push((z, ln));
                if ln < nodes[0].1 - 40.0 {
                    break;
                }
            }
        }
        let most = nodes.iter().fold(f64::NEG_INFINITY, |most, (_, ln)| most.max(*ln));
        let sum: f64 = nodes.iter().map(|(_, ln)| (ln - most).exp()).sum();
        self.ln_likelihood += most + sum.ln();
        let (mut mean, mut square) = (0.0, 0.0);
        let mut slope = vec![0.0; n];
        for (z, ln) in nodes {
            let weight = (ln - most).exp() / sum;
            if weight < 1e-14 {
                continue;
            }
            mean += weight * spread * z;
            square += weight * (spread * z).powi(2);
            let mut here = vec![0.0; n];
            let u = spread * z;
            for t in tried {
                let (p, q) = logistic(u - parameters[t.task]);
                let (more, known) = (t.good * q - t.missed * p, (t.good + t.missed) * p * q);
                here[t.task] -= more;
                here[last] += u * more;
                // By the logarithm of the spread u changes by u, and so does that change.
                for (at, by) in [
                    (t.task * n + t.task, known),
                    (t.task * n + last, -u * known),
                    (last * n + t.task, -u * known),
                    (last * n + last, u * u * known),
                ] {
                    self.complete[at] += weight * by;
                    self.known[at] += weight * by;
                }
                self.known[last * n + last] -= weight * u * more;
            }
            let moved = |at: usize| here[at] != 0.0;
            for i in (0..n).filter(|i| moved(*i)) {
                slope[i] += weight * here[i];
                (0..n).for_each(|j| self.known[i * n + j] -= weight * here[i] * here[j]);
            }
        }
        for i in 0..n {
            self.slope[i] += slope[i];
            (0..n).for_each(|j| self.known[i * n + j] += slope[i] * slope[j]);
        }
        self.members.push((mean, (square - mean * mean).max(0.0).sqrt()));
    }
}
