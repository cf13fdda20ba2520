//! What advice weighs against what. All are judged, none is measured: who uses them may set others.

/// What choices cost each other. Of the fill all is told as millimetres of bare wire; of the uprights as parts of one distance that is off
/// by as much as the distance that is aimed at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// A stretch that is doubled for longer than is let pass: one cut, mm of bare wire.
    pub overlap_each: f64,
    /// A millimetre of doubled wire: it only tells alike choices apart.
    pub overlap: f64,
    /// A trained upright that is laid: its place is bare, mm of bare wire.
    pub upright: f64,
    /// A millimetre that is bare for a season more, until an end has grown over it.
    pub wait: f64,
    /// The square of a distance's deviation, in distances that are aimed at.
    pub spacing: f64,
    /// A bud to keep.
    pub bud: f64,
    /// A notch, which may bring nothing.
    pub notch: f64,
    /// A distance that is longer than is let pass, or an end of the cordon that is bare for so long.
    pub long_gap: f64,
    /// A metre of such a distance beyond that.
    pub long_gap_metre: f64,
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            overlap_each: 50.0,
            overlap: 0.02,
            upright: 200.0,
            wait: 0.35,
            spacing: 1.0,
            bud: 0.15,
            notch: 0.5,
            long_gap: 4.0,
            long_gap_metre: 20.0,
        }
    }
}
