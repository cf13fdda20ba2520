//! The light beside the wall: what is looked at, the figures, and the deep canopy for comparison.

mod beside;
mod fields;
mod figures;

pub use fields::{LightLine, LightToggle, SkyBand};
pub use figures::{light_figures, on_paper as figures_on_paper};
