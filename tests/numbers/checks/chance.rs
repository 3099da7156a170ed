//! Seeded chance for simulations: the same numbers on every machine.

use numbers::stats::proportion::Count;
use numbers::stats::special::normal_quantile;

/// SplitMix64 (Steele, Lea and Flood 2014).
pub struct Chance(pub u64);

impl Chance {
    /// Evenly between 0 and 1, both excluded.
    pub fn even(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / 9_007_199_254_740_992.0 + 1e-17
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.even()
    }

    /// From `low` to `high`, both included.
    pub fn whole(&mut self, low: u32, high: u32) -> u32 {
        low + (self.even() * f64::from(high - low + 1)) as u32
    }

    pub fn normal(&mut self, mean: f64, sd: f64) -> f64 {
        mean + sd * normal_quantile(self.even()).unwrap()
    }

    pub fn tries(&mut self, n: u32, share: f64) -> Count {
        Count::new((0..n).filter(|_| self.even() < share).count() as u32, n).unwrap()
    }
}
