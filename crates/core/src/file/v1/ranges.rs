//! The ranges that version 1 accepts, where the model's own are narrower today. Those may change; these don't. What a
//! sample at either end of every number holds (`tests/data/versions/ends-of-v1-….json`) is read for ever: a range of the
//! model that becomes narrower gets its old one here, and `v2/as_today` tells what becomes of what lies between.

use crate::range::Range;

/// Height of a wire, mm.
pub const WIRE_HEIGHT: Range = (1.0, 6_000.0);
/// Leaf of a growth, whatever the leaf in which the row was found.
pub const GROWTH_LEAF: Range = (0.0, 40.0);
/// How many side branches on a shoot.
pub const LATERALS: Range = (0.0, 65_535.0);
/// Length of a shoot's side branches together, mm.
pub const LATERALS_LENGTH: Range = (0.0, 2_147_483_647.0);
