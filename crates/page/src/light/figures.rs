//! The figures of the light beside the wall.

/// The figures beside the wall.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct LightFigures {
    /// Share caught of all light looked at.
    pub caught: f64,
    /// Share caught of the beam and of the sky's light; none for an hour's beam.
    pub parts: Option<(f64, f64)>,
    /// What this wall would catch, filled; none of an hour's beam.
    pub filled: Option<f64>,
    /// Mean and lowest light in the renewal zone, over the wall's whole thickness.
    pub zone: Option<(f64, f64)>,
    /// Share of the wall under 30 % of the light, and under 50 %.
    pub under: (f64, f64),
    /// Leaf area per ground area.
    pub leaf_area_index: f64,
    /// Whether zone and wall are those of the whole row, not of the stretch in view.
    pub whole: bool,
    /// Whether they are exact.
    pub exact: bool,
}

impl LightFigures {
    /// These figures of a whole row, moved by the change from `then` to `now`, whose zone and wall are those of the share
    /// `seen` of the row.
    pub(super) fn moved(&self, then: &Self, now: &Self, seen: f64) -> Self {
        let by = |base: f64, then: f64, now: f64, share: f64| {
            (base + (now - then) * share).clamp(0.0, 1.0)
        };
        let pair = |base: (f64, f64), then: (f64, f64), now: (f64, f64), share: f64| {
            (
                by(base.0, then.0, now.0, share),
                by(base.1, then.1, now.1, share),
            )
        };
        Self {
            caught: by(self.caught, then.caught, now.caught, 1.0),
            parts: match (self.parts, then.parts, now.parts) {
                (Some(a), Some(b), Some(c)) => Some(pair(a, b, c, 1.0)),
                _ => now.parts,
            },
            filled: self.filled,
            zone: match (self.zone, then.zone, now.zone) {
                (Some(a), Some(b), Some(c)) => Some((by(a.0, b.0, c.0, seen), a.1.min(c.1))),
                _ => now.zone,
            },
            under: pair(self.under, then.under, now.under, seen),
            leaf_area_index: now.leaf_area_index,
            whole: true,
            exact: false,
        }
    }
}
