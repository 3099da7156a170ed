//! Chance from a seed: the same seed, the same draws, on every machine.

/// SplitMix64 (Steele, Lea, Flood 2014, "Fast splittable pseudorandom number generators", OOPSLA).
pub(in crate::stats) struct Chance(u64);

impl Chance {
    pub(in crate::stats) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(in crate::stats) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ self.0 >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ z >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ z >> 31
    }

    /// One of 0..n, for n from 1 up; no value is more likely than another by more than n in 2⁶⁴.
    pub(in crate::stats) fn below(&mut self, n: usize) -> usize {
        self.below_wide(n as u64) as usize
    }

    /// As [`Self::below`], for more than a `usize` may hold.
    pub(in crate::stats) fn below_wide(&mut self, n: u64) -> u64 {
        ((u128::from(self.next()) * u128::from(n)) >> 64) as u64
    }

    /// Whether something of this chance happens.
    pub(in crate::stats) fn falls(&mut self, chance: f64) -> bool {
        ((self.next() >> 11) as f64) / ((1_u64 << 53) as f64) < chance
    }

    /// Fisher and Yates, as Durstenfeld 1964 gives it.
    pub(in crate::stats) fn shuffle(&mut self, items: &mut [usize]) {
        for i in (1..items.len()).rev() {
            items.swap(i, self.below(i + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Chance;

    #[test]
    fn draws_as_published() {
        // The first outputs for the seed 1234567, as published for the reference implementation; from memory.
        let mut chance = Chance::new(1_234_567);
        let first: Vec<u64> = (0..3).map(|_| chance.next()).collect();
        assert_eq!(first, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }
}
