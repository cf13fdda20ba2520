//! Chance in growth: told by tree, shoot and leaf, and by what it is asked for. The same four give the same, whatever else
//! grows.

use crate::row::{ShootId, TreeId};
use crate::seed::{STEP, mix};

/// What chance is asked for.
#[derive(Clone, Copy, Debug)]
pub(super) enum Matter {
    /// The vigour of a tree.
    Vigour = 1,
    /// The weight of a shoot in its first season.
    Weight = 2,
    /// How many shoots return from a stub.
    Returns = 3,
    /// How they lean.
    Lean = 4,
    /// Whether a bud breaks.
    Bud = 5,
    /// Whether old wood does.
    OldWood = 6,
    /// Whether a stub brings nothing.
    FailedStub = 7,
}

/// The chance of one tree in one leaf.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chance {
    tree: u64,
    leaf: u64,
}

impl Chance {
    pub fn new(tree: TreeId, leaf: u8) -> Self {
        Self {
            tree: mix(u64::from(tree.0) ^ STEP),
            leaf: u64::from(leaf),
        }
    }

    /// From 0 up to 1, 1 left out.
    pub fn share(self, shoot: ShootId, matter: Matter) -> f64 {
        share(self.tree, shoot.number(), self.leaf, matter)
    }

    /// The same from −1 to 1 for all of the tree's seasons and shoots.
    pub fn of_tree(self) -> f64 {
        2.0 * share(self.tree, 0, 0, Matter::Vigour) - 1.0
    }

    /// For all of a shoot's seasons, from −1 to 1.
    pub fn of_shoot(self, shoot: ShootId, matter: Matter) -> f64 {
        2.0 * share(self.tree, shoot.number(), 0, matter) - 1.0
    }
}

fn share(tree: u64, shoot: u64, leaf: u64, matter: Matter) -> f64 {
    let h = mix(mix(tree ^ shoot) ^ (leaf << 32 | matter as u64));
    (h >> 11) as f64 / (1u64 << 53) as f64
}
