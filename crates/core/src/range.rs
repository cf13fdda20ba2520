//! What numbers are accepted: the home of every range that more than one place holds to, be it a reader of plans or tables,
//! what writes them, a correction of the record, or work.
//!
//! Both ends are included. What depends on the row as it stands, such as that a cut leaves less than there is, is asked where
//! it is known, within the range that stands here. Where nothing else is said a range is wide enough for any tree, from
//! memory; it is there to tell a slip of the pen from a measurement, and to bound what a plan may cost.

/// Least and largest accepted value, both included.
pub type Range = (f64, f64);

/// Whether a value lies in a range; no number lies in none.
pub fn has((low, high): Range, value: f64) -> bool {
    value >= low && value <= high
}

/// Place along the row, mm.
pub const PLACE: Range = (-5_000_000.0, 5_000_000.0);
/// How far beyond the stretch that is to be filled a tree may be planted or added, mm.
pub const BEYOND: f64 = 6_000.0;
/// Height of a wire, mm.
pub const WIRE_HEIGHT: Range = (50.0, 6_000.0);
/// Height of the wall, mm.
pub const WALL_HEIGHT: Range = (100.0, 6_000.0);
/// How many wires.
pub const WIRES: Range = (1.0, 20.0);
/// How many posts.
pub const POSTS: Range = (0.0, 5_000.0);

/// Degrees north.
pub const LATITUDE: Range = (-90.0, 90.0);
/// Degrees east.
pub const LONGITUDE: Range = (-180.0, 180.0);
/// Compass bearing, degrees.
pub const BEARING: Range = (0.0, 360.0);
/// Distance between row centres, mm.
pub const ROW_SPACING: Range = (500.0, 100_000.0);

/// Angle of a planted stem from the ground, degrees.
pub const PLANTING_ANGLE: Range = (10.0, 90.0);
/// Rise of laid wood's end above the level, degrees.
pub const RISE: Range = (-10.0, 30.0);
/// Lean of an upright's end as it was found, degrees.
pub const LEAN: Range = (-90.0, 90.0);
/// Length of a shoot, mm.
pub const LENGTH: Range = (1.0, 20_000.0);
/// Thickness at a shoot's base, mm; 0 where none is taken.
pub const DIAMETER: Range = (0.0, 500.0);
/// Radius of a bend, mm: the thickest wood at the largest limit.
pub const BEND_RADIUS: Range = (0.0, 20_000.0);
/// How many side branches on a shoot.
pub const LATERALS: Range = (0.0, 10_000.0);
/// Length of a shoot's side branches together, mm.
pub const LATERALS_LENGTH: Range = (0.0, 1_000_000.0);

/// Length of stock that is planted, mm.
pub const STOCK_LENGTH: Range = (100.0, 5_000.0);
/// Thickness of stock that is planted, mm.
pub const STOCK_DIAMETER: Range = (3.0, 60.0);
/// Length of a stub, mm.
pub const STUB: Range = (20.0, 500.0);
/// Lean of a shoot that is stood up, degrees.
pub const STAND_LEAN: Range = (-60.0, 60.0);
/// Length that a cut may leave, mm.
pub const KEPT: Range = (10.0, LENGTH.1);
/// Buds that a cut may leave.
pub const BUDS: Range = (1.0, 20.0);
/// Place of a bud along its parent, mm.
pub const BUD_PLACE: Range = (0.0, LENGTH.1);
/// Share of last year's growth that tipping takes, per cent.
pub const TIPPED: Range = (1.0, 90.0);
/// Height above the ground at which a shoot is held, mm.
pub const HELD_HEIGHT: Range = (0.0, 20_000.0);
