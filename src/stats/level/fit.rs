//! The model of levels and how it is fitted.
//!
//! Member i's log-odds begin at m + N(0, τ²) and then walk: from one occasion to the next they move by N(0, δ² · weeks). On the day itself there
//! is its form besides, N(0, φ²), of that day alone. Good of tries are binomial, each try worth its weight (a power of the likelihood). The
//! group's middle m has the prior N(0, 1.5²), which leaves it anywhere between 5 and 95 in 100. The grids of τ, δ and φ below, each point as
//! likely as another, are a choice of ours: about what a season of children may show, tried out on simulated groups. An occasion's offset is
//! known and added to the log-odds of its tries (as in any generalised linear model).
//!
//! For each τ, δ and φ of a small grid everything else is integrated out by Laplace's approximation (Tierney and Kadane 1986, Journal of the
//! American Statistical Association 81:82): the mode is found by Newton's method, each step of which is one Kalman filter and smoother
//! (Fahrmeir 1992, same journal 87:501; Rauch, Tung and Striebel 1965, AIAA Journal 3:1445) a member, with m carried along as a diffuse
//! effect (de Jong 1991, Annals of Statistics 19:1073). So the work is in proportion to the occasions. The grid's points are then
//! averaged by their marginal likelihood, as in Rue, Martino and Chopin (2009, Journal of the Royal Statistical Society B 71:319), not the
//! best one taken: with few members the spread is hardly known, and a range that took it for known would be too narrow.

use super::super::special::{logistic, logit};
use super::{At, Level, Levels, Seen};

/// Between members, in log-odds: from hardly any to all there may be.
const SPREADS: [f64; 4] = [0.13, 0.3, 0.6, 1.2];
/// In a week, in log-odds.
const DRIFTS: [f64; 4] = [0.05, 0.1, 0.2, 0.35];
/// From one day to another, for that day only, in log-odds.
const FORMS: [f64; 3] = [0.0, 0.25, 0.5];
/// The middle's prior: variance.
const MIDDLE: f64 = 1.5 * 1.5;
/// A point less likely by e to this, as far as its first step tells, isn't looked at closer: it counts below 1e-4 anyway.
const HOPELESS: f64 = 30.0;
/// Log-odds are not looked at further out than this.
const FURTHEST: f64 = 12.0;
/// Nor is an occasion taken for easier or harder than by this.
const OFFSET: f64 = 4.0;

/// The levels of a group. Each member's occasions in order of their days. `None` where nobody has a try that counts for anything.
///
/// Twenty members with sixty occasions each take some milliseconds.
///
/// ```
/// use peppertally::stats::level::{Seen, fit};
/// use peppertally::stats::proportion::Count;
/// let seen = |good, tries| vec![Seen::plain(0, Count::new(good, tries).unwrap())];
/// // Three of three doesn't lead: the one with 17 of 20 is the safer bet.
/// let levels = fit(&[seen(3, 3), seen(17, 20), seen(10, 20), seen(9, 20)]).unwrap();
/// assert!(levels.at(0, 0).unwrap().likely() < levels.at(1, 0).unwrap().likely());
/// ```
pub fn fit(members: &[Vec<Seen>]) -> Option<Levels> {
    let mut work = Work::new(members);
    if work.steps.iter().all(|step| step.tries == 0.0) {
        return None;
    }
    let mut sums = Sums::new(work.steps.len());
    for form in FORMS {
        for drift in DRIFTS {
            for spread in SPREADS {
                let point = Point { spread: spread * spread, drift: drift * drift, form: form * form };
                let found = work.mode(point, sums.most);
                sums.add(&work, &found, point);
            }
        }
    }
    sums.levels(members)
}

/// One occasion of one member, and what is worked out of it for one point of the grid. Of a mean that hangs on the group's middle m, `mean`
/// is what it is for m = 0 and `pull` how much it gains with m.
#[derive(Clone, Copy, Default)]
struct Step {
    good: f64,
    tries: f64,
    offset: f64,
    /// Since the member's occasion before.
    weeks: f64,
    first: bool,
    /// Log-odds at the mode, as far as it is found.
    eta: f64,
    /// Log-odds as they were seen, taken for normal; and how much of what they are beyond the level is the day's form.
    seen: f64,
    form: f64,
    /// After this occasion, from those up to it; then, by the way back, from all.
    mean: f64,
    pull: f64,
    variance: f64,
    /// Before it.
    ahead: f64,
    /// With the member's last occasion.
    with_last: f64,
    last_pull: f64,
}

struct Work {
    steps: Vec<Step>,
}

/// A point of the grid, as variances.
#[derive(Clone, Copy)]
struct Point {
    spread: f64,
    drift: f64,
    form: f64,
}

/// The mode's surroundings.
struct Found {
    ln_likelihood: f64,
    middle: f64,
    /// The middle's own variance.
    variance: f64,
}

impl Work {
    fn new(members: &[Vec<Seen>]) -> Self {
        let mut steps = Vec::new();
        for seen in members {
            let mut before = None;
            for one in seen {
                let weight = if one.weight > 0.0 { one.weight.min(1.0) } else { 0.0 };
                let good = weight * f64::from(one.count.good());
                let tries = weight * f64::from(one.count.tries());
                let days = before.map_or(0, |day| one.day.saturating_sub(day).max(0));
                let first = before.is_none();
                before = before.max(Some(one.day));
                let offset = if one.offset.is_finite() { one.offset.clamp(-OFFSET, OFFSET) } else { 0.0 };
                let eta = logit((good + 0.5) / (tries + 1.0)).unwrap_or(0.0) - offset;
                steps.push(Step { good, tries, offset, weeks: f64::from(days) / 7.0, first, eta, ..Step::default() });
            }
        }
        Self { steps }
    }

    /// Newton's steps to the mode; the last one's surroundings. None where the point is hopeless beside the likeliest so far: it would weigh nothing.
    fn mode(&mut self, point: Point, most: f64) -> Found {
        let mut found = self.pass(point);
        for _ in 0..40 {
            if found.ln_likelihood < most - HOPELESS {
                break;
            }
            let mut furthest = 0.0_f64;
            for step in &mut self.steps {
                let level = step.mean + step.pull * found.middle;
                // The day's own form takes its part of what was seen beyond the level.
                let to = (level + step.form * (step.seen - level)).clamp(-FURTHEST, FURTHEST);
                let change = (to - step.eta).clamp(-2.0, 2.0);
                step.eta += change;
                furthest = furthest.max(change.abs());
            }
            if furthest < 1e-3 {
                break;
            }
            found = self.pass(point);
        }
        found
    }

    /// The likelihood is taken for the normal one that touches it at `eta`; with that everything is linear.
    fn pass(&mut self, point: Point) -> Found {
        let (mut ln, mut totals, mut known, mut told) = (0.0, 1.0_f64, 1.0 / MIDDLE, 0.0);
        let (mut mean, mut pull, mut variance) = (0.0, 1.0, point.spread);
        for step in &mut self.steps {
            if step.first {
                (mean, pull, variance) = (0.0, 1.0, point.spread);
            }
            variance += point.drift * step.weeks;
            step.ahead = variance;
            if step.tries > 0.0 {
                let (p, q) = logistic(step.eta + step.offset);
                let weight = step.tries * p * q;
                let off = (step.good - step.tries * p) / weight;
                let seen = step.eta + off;
                let noise = point.form + 1.0 / weight;
                let total = variance + noise;
                (step.seen, step.form) = (seen, point.form / noise);
                let ahead = seen - mean;
                // Of a chance p with the log-odds x, ln p is x + ln q; and the logarithm of a product is taken once for many of its factors.
                ln += step.good * (step.eta + step.offset) + step.tries * q.ln() + 0.5 * weight * off * off
                    - 0.5 * ahead * ahead / total;
                totals *= weight * total;
                if !(1e-200..1e200).contains(&totals) {
                    ln -= 0.5 * totals.ln();
                    totals = 1.0;
                }
                known += pull * pull / total;
                told += pull * ahead / total;
                let gain = variance / total;
                mean += gain * ahead;
                pull -= gain * pull;
                variance *= noise / total;
            }
            (step.mean, step.pull, step.variance) = (mean, pull, variance);
        }
        self.back();
        ln += 0.5 * told * told / known - 0.5 * (totals * known * MIDDLE).ln();
        Found { ln_likelihood: ln, middle: told / known, variance: 1.0 / known }
    }

    /// From each member's last occasion back to the first, with what came later.
    fn back(&mut self) {
        let mut next: Option<Step> = None;
        for step in self.steps.iter_mut().rev() {
            match next {
                Some(after) if !after.first => {
                    let gain = step.variance / after.ahead;
                    step.mean += gain * (after.mean - step.mean);
                    step.pull += gain * (after.pull - step.pull);
                    step.variance += gain * gain * (after.variance - after.ahead);
                    step.with_last = gain * after.with_last;
                    step.last_pull = after.last_pull;
                }
                _ => (step.with_last, step.last_pull) = (step.variance, step.pull),
            }
            next = Some(*step);
        }
    }
}

/// Weighted sums over the grid, of means and of squares, all in units of the likeliest point so far.
struct Sums {
    most: f64,
    weight: f64,
    newcomer: [f64; 2],
    drift: f64,
    form: f64,
    /// Mean, square, product with the last.
    steps: Vec<[f64; 3]>,
}

impl Sums {
    fn new(n: usize) -> Self {
        Self {
            most: f64::NEG_INFINITY,
            weight: 0.0,
            newcomer: [0.0; 2],
            drift: 0.0,
            form: 0.0,
            steps: vec![[0.0; 3]; n],
        }
    }

    fn add(&mut self, work: &Work, found: &Found, point: Point) {
        if found.ln_likelihood > self.most {
            let shrink = (self.most - found.ln_likelihood).exp();
            self.most = found.ln_likelihood;
            self.weight *= shrink;
            self.drift *= shrink;
            self.form *= shrink;
            self.newcomer.iter_mut().chain(self.steps.iter_mut().flatten()).for_each(|sum| *sum *= shrink);
        }
        let weight = (found.ln_likelihood - self.most).exp();
        if weight < 1e-4 {
            return;
        }
        let middle = found.middle;
        self.weight += weight;
        self.drift += weight * point.drift;
        self.form += weight * point.form;
        self.newcomer[0] += weight * middle;
        self.newcomer[1] += weight * (middle * middle + found.variance + point.spread);
        let mut last = 0.0;
        for (at, step) in work.steps.iter().enumerate().rev() {
            let mean = step.mean + step.pull * middle;
            if work.steps.get(at + 1).is_none_or(|after| after.first) {
                last = mean;
            }
            let variance = step.variance + step.pull * step.pull * found.variance;
            let with_last = step.with_last + step.pull * step.last_pull * found.variance;
            let [means, squares, products] = &mut self.steps[at];
            *means += weight * mean;
            *squares += weight * (mean * mean + variance);
            *products += weight * (mean * last + with_last);
        }
    }

    fn levels(self, members: &[Vec<Seen>]) -> Option<Levels> {
        let of = |mean: f64, square: f64| {
            Level::new(mean / self.weight, (square / self.weight - (mean / self.weight).powi(2)).sqrt())
        };
        let mut at = 0;
        let mut all = Vec::with_capacity(members.len());
        for seen in members {
            let end = at + seen.len();
            let last = self.steps[at..end].last().map_or(0.0, |last| last[0] / self.weight);
            let mut levels = Vec::with_capacity(seen.len());
            let mut day = i32::MIN;
            for (one, [mean, square, product]) in seen.iter().zip(&self.steps[at..end]) {
                day = day.max(one.day);
                let with_last = product / self.weight - mean / self.weight * last;
                levels.push(At { day, level: of(*mean, *square)?, with_last });
            }
            all.push(levels);
            at = end;
        }
        let newcomer = of(self.newcomer[0], self.newcomer[1])?;
        Some(Levels { members: all, newcomer, drift: self.drift / self.weight, form: self.form / self.weight })
    }
}
