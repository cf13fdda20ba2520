//! Names of trees and shoots that stay the same however a plan is replayed.

use crate::seed::{STEP, mix};
use serde::{Deserialize, Serialize};
use std::fmt;

/// A tree's number in its row: what the grower paints on it or counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct TreeId(pub u32);

impl fmt::Display for TreeId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// A shoot's name in its tree. Found shoots are small numbers, the stem 0. A shoot that comes in
/// replay is named by tree, leaf, parent and node alone, so that the order of creation never matters.
/// Every value fits in 53 bits, and so in a JSON number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct ShootId(u64);

impl ShootId {
    /// The stem.
    pub const STEM: Self = Self(0);
    const GROWN: u64 = 1 << 52;

    /// A found shoot's id.
    pub const fn found(n: u32) -> Self {
        Self(n as u64)
    }

    /// From the number in a file; `None` when it is out of range.
    pub fn from_number(n: u64) -> Option<Self> {
        (n < 2 * Self::GROWN && (n >= Self::GROWN || n <= u64::from(u32::MAX))).then_some(Self(n))
    }

    /// The number for a file.
    pub fn number(self) -> u64 {
        self.0
    }

    /// The id of what comes in `leaf` at `node` of `parent` on `tree`. The node is the bud's
    /// distance along the parent in millimetres.
    pub fn grown(tree: TreeId, leaf: u8, parent: Self, node: u32) -> Self {
        let mut h = mix(u64::from(tree.0) ^ STEP);
        h = mix(h ^ parent.0);
        h = mix(h ^ (u64::from(leaf) << 32 | u64::from(node)));
        Self(Self::GROWN | (h & (Self::GROWN - 1)))
    }

    /// Whether the shoot came in replay and was not found.
    pub fn is_grown(self) -> bool {
        self.0 >= Self::GROWN
    }
}

impl fmt::Display for ShootId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}
