//! The light of a row: its leaves laid on a wall, what that catches, where it falls through, and how much reaches each part.
//! The light itself is the crate `cordonry-light`, whose parts are named here as this module's own.

pub mod anchors;
pub mod beside;
pub mod filled;
pub mod foliage;
pub mod gaps;
pub mod report;
pub mod row_light;
mod tally;

pub use beside::{Alike, Beside, DeepCanopy, beside_deep};
pub use cordonry_light::*;
pub use filled::caught;
pub use foliage::{Change, Foliage, Surroundings};
pub use gaps::{GapRule, LightGap, light_gaps};
pub use report::{LightMap, Shares, ZoneLight};
pub use row_light::LightReport;
