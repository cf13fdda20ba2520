//! Chance from a seed: the same numbers everywhere.

/// SplitMix64 (Steele, Lea and Flood 2014).
#[derive(Clone, Debug)]
pub(super) struct Seeded(u64);

impl Seeded {
    /// A stream of its own for each pair of numbers.
    pub(super) fn new(seed: u32, stream: u32) -> Self {
        let mut s = Self(u64::from(seed) << 32 | u64::from(stream));
        s.next();
        s
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 up to 1, 1 left out.
    pub(super) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// From −1 to 1.
    pub(super) fn swing(&mut self) -> f64 {
        2.0 * self.share() - 1.0
    }
}
