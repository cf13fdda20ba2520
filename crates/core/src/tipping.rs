//! What tipping a shoot takes, by how much of its last growth comes off: future fruiting sites by the law of [nodes](crate::nodes),
//! and with them of what the shoot bears in the leaf in which that wood first bears on spurs.
//!
//! It is told of the shoot alone, by the wood that it has. What the tree bears hangs on light and later work too, and may not
//! change at all where the wall is as dense as light allows.

use crate::canopy::Canopy;
use crate::nodes::sites_removed;
use crate::row::Shoot;
use crate::terms::Terms;

/// Most of a growth's length, per cent, of which it is told.
pub const MOST: u8 = 50;

/// What tipping takes of one shoot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tipping {
    /// The leaf whose harvest it acts on.
    pub harvest: u8,
    /// Share of the shoot's flowers in that leaf that its last growth bears on spurs, were it whole; 0 to 1.
    of_last: f64,
}

impl Tipping {
    /// Of a shoot; none of one that has not grown.
    pub fn of(shoot: &Shoot, terms: &Terms) -> Option<Self> {
        let a = &terms.assumptions;
        let mut whole = shoot.clone();
        let last = whole.units.last_mut()?;
        last.kept = last.grown;
        // Wood bears on spurs from its third season on.
        let harvest = last.leaf.saturating_add(2);
        let all = Canopy::of_shoot(&whole, harvest, a).flowers;
        whole.units.pop();
        let rest = Canopy::of_shoot(&whole, harvest, a).flowers;
        let bears = all > 0.0 && harvest >= terms.stand.crop_from;
        Some(Self {
            harvest,
            of_last: if bears { 1.0 - rest / all } else { 0.0 },
        })
    }

    /// Share of what the shoot bears in that leaf, 0 to 1, that tipping by the share `x` of the last growth's length takes; none
    /// where it bears nothing then.
    pub fn crop_removed(&self, x: f64) -> Option<f64> {
        (self.of_last > 0.0).then(|| self.of_last * sites_removed(x))
    }
}
