//! What advice weighs against what. All are judged, none is measured: who uses them may set others.

use crate::range::Range;

/// What choices cost each other. Of the fill all is told as millimetres of bare wire; of the uprights as parts of one distance that is off
/// by as much as the distance that is aimed at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights([f64; Weight::ALL.len()]);

/// One of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// A stretch that is doubled for longer than is let pass: one cut, mm of bare wire.
    OverlapEach,
    /// A millimetre of doubled wire: it only tells alike choices apart.
    Overlap,
    /// A trained upright that is laid: its place is bare, mm of bare wire.
    Upright,
    /// A millimetre that is bare for a season more, until an end has grown over it; once the cordon was due filled, it counts whole.
    Wait,
    /// The square of a distance's deviation, in distances that are aimed at.
    Spacing,
    /// A bud to keep.
    Bud,
    /// A notch, which may bring nothing.
    Notch,
    /// A distance that is longer than is let pass, or an end of the cordon that is bare for so long.
    LongGap,
    /// A metre of such a distance beyond that.
    LongGapMetre,
}

impl Weight {
    /// All of them, those of the fill first.
    pub const ALL: [Self; 9] = [
        Self::OverlapEach,
        Self::Overlap,
        Self::Upright,
        Self::Wait,
        Self::Spacing,
        Self::Bud,
        Self::Notch,
        Self::LongGap,
        Self::LongGapMetre,
    ];

    /// Its name in JSON, its default, and what it may be.
    pub fn info(self) -> (&'static str, f64, Range) {
        match self {
            Self::OverlapEach => ("overlap_each_mm", 50.0, (0.0, 1_000.0)),
            Self::Overlap => ("overlap", 0.02, (0.0, 1.0)),
            Self::Upright => ("upright_mm", 200.0, (0.0, 2_000.0)),
            Self::Wait => ("wait", 0.35, (0.0, 1.0)),
            Self::Spacing => ("spacing", 1.0, (0.0, 100.0)),
            Self::Bud => ("bud", 0.15, (0.0, 100.0)),
            Self::Notch => ("notch", 0.5, (0.0, 100.0)),
            Self::LongGap => ("long_gap", 4.0, (0.0, 100.0)),
            Self::LongGapMetre => ("long_gap_per_m", 20.0, (0.0, 1_000.0)),
        }
    }
}

impl Default for Weights {
    fn default() -> Self {
        Self(Weight::ALL.map(|w| w.info().1))
    }
}

impl Weights {
    /// What one of them is.
    pub fn get(&self, weight: Weight) -> f64 {
        self.0[weight as usize]
    }

    /// All of them, in the order of [`Weight::ALL`].
    pub fn values(&self) -> [f64; Weight::ALL.len()] {
        self.0
    }

    /// Those of that order; what lacks or is none is as usual.
    pub fn of(values: &[f64]) -> Self {
        let each = Weight::ALL.into_iter().zip(values);
        each.fold(Self::default(), |all, (weight, value)| {
            all.with(weight, *value)
        })
    }

    /// With another value for one of them, which becomes the nearest that it may be.
    pub fn with(mut self, weight: Weight, value: f64) -> Self {
        let (_, usual, (low, high)) = weight.info();
        let value = if value.is_finite() { value } else { usual };
        self.0[weight as usize] = value.clamp(low, high);
        self
    }
}
