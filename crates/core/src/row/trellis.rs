//! Wires and posts.

use crate::range;
use crate::units::Mm;

/// What lies between a wire and the wood.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Covering {
    /// Bare steel.
    #[default]
    Bare,
    /// Plastic wire, coated wire or a slip-on tube.
    Plastic,
}

/// One wire.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wire {
    /// Height above the ground.
    pub height: Mm,
    /// What covers it.
    pub covering: Covering,
}

/// The frame that the wall hangs on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trellis {
    /// From the lowest up; the first is the cordon wire. Never empty.
    pub wires: Vec<Wire>,
    /// Places of the posts along the row, in order.
    pub posts: Vec<Mm>,
    /// How high the wall is to be.
    pub wall_height: Mm,
}

impl Trellis {
    /// Highest wire or wall.
    pub const MAX_HEIGHT: Mm = Mm(range::WIRE_HEIGHT.1 as i32);
    /// Most wires.
    pub const MAX_WIRES: usize = range::WIRES.1 as usize;
    /// Most posts.
    pub const MAX_POSTS: usize = range::POSTS.1 as usize;

    /// Height of the cordon wire.
    pub fn cordon_height(&self) -> Mm {
        self.wires.first().map_or(Mm(500), |w| w.height)
    }
}

impl Default for Trellis {
    /// A cordon wire at 0.50 m and one every 0.50 m above it, to a wall of 2.50 m.
    fn default() -> Self {
        let wire = |h| Wire {
            height: Mm(h),
            covering: Covering::Bare,
        };
        Self {
            wires: [500, 1000, 1500, 2000, 2500].map(wire).to_vec(),
            posts: Vec::new(),
            wall_height: Mm(2500),
        }
    }
}
