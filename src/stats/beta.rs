//! The beta distribution: what good of tries leave open about the long-run share. Owns the incomplete beta function, its inverse, and the
//! averaging of a chance over what is not known.

use super::special::{HALF_LN_2PI, logistic, stirling_rest};

/// What is known of a share. Invariant: both finite and above 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beta {
    a: f64,
    b: f64,
}

/// One of the shares that stand for a whole distribution, and how much of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    pub chance: f64,
    /// All of them together make 1.
    pub weight: f64,
}

/// At most so many nodes either side of the middle; far more than any beta with both numbers above 0.1 asks for.
const MOST_NODES: u32 = 4000;

impl Beta {
    /// `None` unless both are finite and above 0.
    ///
    /// ```
    /// use peppertally::stats::beta::Beta;
    /// assert_eq!(Beta::new(2.0, 3.0).map(|b| b.mean()), Some(0.4));
    /// assert_eq!(Beta::new(0.0, 3.0), None);
    /// ```
    pub fn new(a: f64, b: f64) -> Option<Self> {
        (a > 0.0 && b > 0.0 && (a + b).is_finite()).then_some(Self { a, b })
    }

    /// What so many good and missed leave open, from Jeffreys' prior: half a try more of each.
    pub fn of_counts(good: u32, missed: u32) -> Self {
        Self { a: f64::from(good) + 0.5, b: f64::from(missed) + 0.5 }
    }

    pub fn mean(self) -> f64 {
        self.a / (self.a + self.b)
    }

    /// The chance of a share below `x`: the regularised incomplete beta function, by its continued fraction (DiDonato and Morris 1992,
    /// ACM Transactions on Mathematical Software 18:360, BFRAC's relative; Abramowitz and Stegun 1964, 26.5.8). 0 for what is no number.
    ///
    /// ```
    /// use peppertally::stats::beta::Beta;
    /// // Beta(2, 2) below x is 3x² - 2x³.
    /// assert!((Beta::new(2.0, 2.0).unwrap().below(0.25) - 0.15625).abs() < 1e-15);
    /// ```
    pub fn below(self, x: f64) -> f64 {
        if x >= 1.0 {
            1.0
        } else if x > 0.0 {
            self.below_both(x, 1.0 - x)
        } else {
            0.0
        }
    }

    /// The share below which it lies with chance `p`. `None` unless `p` is from 0 to 1.
    ///
    /// Newton's steps on the logarithm of [`Beta::below`] along the log-odds: there it is concave, so they can't run away.
    ///
    /// ```
    /// use peppertally::stats::beta::Beta;
    /// let share = Beta::new(2.0, 2.0).unwrap().quantile(0.15625).unwrap();
    /// assert!((share - 0.25).abs() < 1e-14);
    /// ```
    pub fn quantile(self, p: f64) -> Option<f64> {
        if p == 0.0 || p == 1.0 {
            return Some(p);
        }
        if !(p > 0.0 && p < 1.0) {
            return None;
        }
        // From the end that keeps the digits.
        Some(if p <= self.below(self.mean()) {
            self.low_quantile(p)
        } else {
            1.0 - self.turned().low_quantile(1.0 - p)
        })
    }

    /// x^a (1-x)^b / B(a, b): the density along the log-odds. With `y` = 1 - x, each with all its digits.
    fn density(self, x: f64, y: f64) -> f64 {
        let Beta { a, b } = self;
        let n = a + b;
        let rest = stirling_rest(n) - stirling_rest(a) - stirling_rest(b);
        let from_middle = a * ln_less_line(x * n / a, (x * n - a) / a) + b * ln_less_line(y * n / b, (y * n - b) / b);
        (from_middle + rest - HALF_LN_2PI + 0.5 * (a.ln() + b.ln() - n.ln())).exp()
    }

    fn below_both(self, x: f64, y: f64) -> f64 {
        let Beta { a, b } = self;
        if x * (a + b + 2.0) <= a + 1.0 {
            self.density(x, y) * fraction(a, b, x) / a
        } else {
            1.0 - self.density(x, y) * fraction(b, a, y) / b
        }
    }

    fn turned(self) -> Beta {
        Beta { a: self.b, b: self.a }
    }

    fn low_quantile(self, p: f64) -> f64 {
        let mut u = (self.a / self.b).ln();
        for _ in 0..200 {
            let (x, y) = logistic(u);
            let below = self.below_both(x, y);
            let slope = self.density(x, y) / below;
            let step = (p.ln() - below.ln()) / slope;
            if !step.is_finite() {
                break;
            }
            u += step;
            if step.abs() <= 1e-14 * u.abs().max(1.0) {
                break;
            }
        }
        logistic(u).0
    }

    /// Shares that stand for the whole of it, to average what depends smoothly on a share over up to `n_tries` tries.
    ///
    /// The trapezoidal rule along the log-odds, whose error falls faster than any power of the step (Trefethen and Weideman 2014, SIAM
    /// Review 56:385).
    ///
    /// ```
    /// use peppertally::stats::beta::{Beta, mixed};
    /// // Laplace's rule of succession: after 7 of 10 the next is good with chance 8 / 12.
    /// let nodes = Beta::new(8.0, 4.0).unwrap().nodes(1);
    /// assert!((mixed(&nodes, &mut |p| p) - 8.0 / 12.0).abs() < 1e-12);
    /// ```
    pub fn nodes(self, n_tries: u32) -> Vec<Node> {
        self.fine_nodes(f64::from(n_tries))
    }

    /// As fine as the sharpest beta that so many more tries could make of this one.
    fn fine_nodes(self, n_tries: f64) -> Vec<Node> {
        let (less, more) = (self.a.min(self.b) + n_tries, self.a.max(self.b));
        let n = less + more;
        let known = if less < more { less * more / n } else { 0.25 * n };
        nodes((self.a / self.b).ln(), 0.6 / known.max(1.0).sqrt(), &|u| {
            let (x, y) = logistic(u);
            self.density(x, y)
        })
    }
}

/// Shares that stand for a normal distribution of the log-odds, as [`Beta::nodes`] for a beta. `None` unless `sd` is finite and above 0.
pub fn normal_nodes(mean: f64, sd: f64, n_tries: u32) -> Option<Vec<Node>> {
    if !(mean.is_finite() && sd > 0.0 && sd.is_finite()) {
        return None;
    }
    let step = 0.6 / (1.0 / (sd * sd) + 0.25 * f64::from(n_tries)).max(1.0).sqrt();
    Some(nodes(mean, step, &|u| (-0.5 * ((u - mean) / sd).powi(2)).exp()))
}

/// A chance averaged over the shares that it may rest on.
pub fn mixed(nodes: &[Node], chance: &mut dyn FnMut(f64) -> f64) -> f64 {
    nodes.iter().map(|node| node.weight * chance(node.chance)).sum()
}

/// The chance that a share drawn from `second` is higher than one drawn from `first`: 0.5 where both are known alike.
///
/// ```
/// use peppertally::stats::beta::{Beta, second_higher};
/// let (a, b) = (Beta::new(1.0, 2.0).unwrap(), Beta::new(2.0, 1.0).unwrap());
/// assert!((second_higher(a, b) - 5.0 / 6.0).abs() < 1e-12); // ∫ 2x (2x - x²) dx
/// ```
pub fn second_higher(first: Beta, second: Beta) -> f64 {
    let known = |beta: Beta| beta.a * beta.b / (beta.a + beta.b);
    // Along the narrower of the two the other is smooth.
    let (wide, narrow) = if known(second) >= known(first) { (first, second) } else { (second, first) };
    let other = if wide == first { wide } else { wide.turned() };
    mixed(&narrow.fine_nodes(wide.a + wide.b), &mut |x| other.below(if wide == first { x } else { 1.0 - x }))
        .clamp(0.0, 1.0)
}

/// Outwards from the middle to where nothing is left.
fn nodes(middle: f64, step: f64, density: &dyn Fn(f64) -> f64) -> Vec<Node> {
    let peak = density(middle);
    let mut nodes = vec![Node { chance: logistic(middle).0, weight: peak }];
    for side in [-step, step] {
        for i in 1..MOST_NODES {
            let u = middle + side * f64::from(i);
            let weight = density(u);
            nodes.push(Node { chance: logistic(u).0, weight });
            if weight < 1e-16 * peak {
                break;
            }
        }
    }
    let sum: f64 = nodes.iter().map(|node| node.weight).sum();
    nodes.iter_mut().for_each(|node| node.weight /= sum);
    nodes
}

/// ln(ratio) - d, where ratio = 1 + d: without loss where both are nearly the same.
fn ln_less_line(ratio: f64, d: f64) -> f64 {
    if d.abs() > 0.3 {
        return ratio.ln() - d;
    }
    let r = d / (2.0 + d);
    // ln(1 + d) = 2 (r + r³/3 + r⁵/5 + …), and 2r - d = -rd.
    let series = (1..=12).rev().fold(0.0, |sum, i| sum * r * r + 1.0 / f64::from(2 * i + 1));
    2.0 * r * r * r * series - r * d
}

/// Lentz's way down the continued fraction of the incomplete beta function.
fn fraction(a: f64, b: f64, x: f64) -> f64 {
    let tiny = 1e-300;
    let kept = |v: f64| if v.abs() < tiny { tiny } else { v };
    let mut c = 1.0;
    let mut d = 1.0 / kept(1.0 - (a + b) * x / (a + 1.0));
    let mut value = d;
    for m in 1..200_000_u32 {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        let mut change = 1.0;
        for part in [even, odd] {
            d = 1.0 / kept(1.0 + part * d);
            c = kept(1.0 + part / c);
            change = c * d;
            value *= change;
        }
        if (change - 1.0).abs() < 1e-15 {
            break;
        }
    }
    value
}
