//! Owns how figures are put in order and printed. Refuses to know what they are of.

/// Times of one kind, in ms.
#[derive(Clone, Debug, Default)]
pub struct Times(Vec<f64>);

impl Times {
    pub fn push(&mut self, ms: f64) {
        self.0.push(ms);
    }

    pub fn len(&self) -> usize {
        self.0.len()
    }

    pub fn median(&self) -> f64 {
        self.quantile(0.5)
    }

    pub fn p99(&self) -> f64 {
        self.quantile(0.99)
    }

    /// The same times less a cost that is part of each.
    pub fn less(&self, cost: f64) -> Self {
        Self(self.0.iter().map(|ms| (ms - cost).max(0.0)).collect())
    }

    /// The smallest time that is not below this share of them (nearest rank).
    fn quantile(&self, share: f64) -> f64 {
        let mut sorted = self.0.clone();
        sorted.sort_by(f64::total_cmp);
        let rank = (share * sorted.len() as f64).ceil().max(1.0) as usize;
        sorted.get(rank - 1).copied().unwrap_or(f64::NAN)
    }
}

/// A line of what was aimed at.
pub struct Line;

impl Line {
    /// Met when the figure is at most the aim.
    pub fn aim(what: &str, is: f64, aim: f64) {
        let met = if is <= aim { "met" } else { "MISSED" };
        println!("  aim: {what} {is:.2}, at most {aim}: {met}");
    }
}
