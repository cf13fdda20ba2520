//! Light: what a flat wall of leaves catches, what falls through, and how much reaches each part of the wall. It knows a grid
//! of leaves and the sun, no row and no tree: a crate by itself, with a level of optimisation of its own.
//!
//! The wall is a grid of leaf-area density of constant thickness, repeated at every row spacing ([`wall`]). Leaves are
//! black: nothing is scattered and nothing comes back from the ground. Light from one direction is weakened along its
//! ray by e^(−G · leaf area met) ([`trace`]); a fixed set of directions is worked out once and kept ([`state`]), and
//! place, row bearing, period and sky only weight it ([`sky`], [`sun`]).

mod bench;
pub mod direction;
mod kernel;
mod plan;
pub mod published;
mod reach;
pub mod sky;
pub mod state;
pub mod sun;
pub mod trace;
pub mod wall;

pub use bench::{bench_case, bench_edit};
pub use direction::{Direction, DirectionSet, Fineness};
pub use plan::Sampling;
pub use sky::{Period, PeriodLight, Site, Sky, Weather, period_light, sky_weights};
pub use state::{LightState, Settings, Weights};
pub use wall::{Ends, LeafBox, RowShape, Wall, WallError};
