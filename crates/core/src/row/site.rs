//! Where the row stands.

use crate::units::Mm;

/// Place and layout of the row. All of it can be left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Site {
    /// Degrees north, −90 to 90.
    pub latitude_deg: Option<f64>,
    /// Degrees east, −180 to 180.
    pub longitude_deg: Option<f64>,
    /// Compass bearing of the way in which x grows, 0 to 360; 0 is north.
    pub row_bearing_deg: Option<f64>,
    /// Distance between row centres.
    pub row_spacing: Option<Mm>,
}
