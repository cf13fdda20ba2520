//! Chance from a seed: the same numbers everywhere (SplitMix64: Steele, Lea and Flood 2014).

/// What SplitMix64 goes on by from number to number: 2⁶⁴ over the golden ratio.
pub(crate) const STEP: u64 = 0x9e37_79b9_7f4a_7c15;

/// The finaliser of SplitMix64: every bit of the input reaches every bit of the output.
pub(crate) fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A stream of numbers from a seed.
#[derive(Clone, Debug)]
pub struct Seeded(u64);

impl Seeded {
    /// The stream of a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A stream of its own for each pair of numbers.
    pub(crate) fn of_pair(seed: u32, stream: u32) -> Self {
        let mut s = Self(u64::from(seed) << 32 | u64::from(stream));
        s.bits();
        s
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(STEP);
        mix(self.0)
    }

    /// From 0 up to 1, 1 left out.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// From −1 to 1.
    pub(crate) fn swing(&mut self) -> f64 {
        2.0 * self.share() - 1.0
    }
}
