//! The small words of version 1 that trees and work share.

use crate::row;
use crate::units::Deg;
use serde::{Deserialize, Serialize};

same! { row;
    Toward: Left "left", Right "right";
    #[derive(Default)]
    Face: #[default] Top "top", Side "side", Under "under";
    #[derive(Default)]
    Covering: #[default] Bare "bare", Plastic "plastic";
}

/// How stock was set; in work as well as in a tree.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Planted {
    pub angle_deg: Deg,
    pub toward: Toward,
}

impl From<row::Planted> for Planted {
    fn from(model: row::Planted) -> Self {
        Self {
            angle_deg: model.angle,
            toward: model.toward.into(),
        }
    }
}

impl From<Planted> for row::Planted {
    fn from(file: Planted) -> Self {
        Self {
            angle: file.angle_deg,
            toward: file.toward.into(),
        }
    }
}
