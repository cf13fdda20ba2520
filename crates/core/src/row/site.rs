//! Where the row stands.

use serde::{Deserialize, Serialize};

use crate::units::Mm;

/// Place and layout of the row. All of it can be left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Degrees north, −90 to 90.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub latitude_deg: Option<f64>,
    /// Degrees east, −180 to 180.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub longitude_deg: Option<f64>,
    /// Compass bearing of the way in which x grows, 0 to 360; 0 is north.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row_bearing_deg: Option<f64>,
    /// Distance between row centres.
    #[serde(
        default,
        rename = "row_spacing_mm",
        skip_serializing_if = "Option::is_none"
    )]
    pub row_spacing: Option<Mm>,
}
