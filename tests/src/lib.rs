//! What the test programs share.

pub mod case;
pub mod examples;
pub mod fuzz;
pub mod order;
pub mod textbook;
pub mod timing;

use cordonry::light::LightState;

/// Mean share let through to the ground over all directions of a state, each counted alike: a figure to check runs
/// against each other by.
pub fn mean_through(state: &LightState) -> f64 {
    let directions = state.directions().len();
    let sum: f64 = (0..directions)
        .flat_map(|d| state.ground(d))
        .map(|t| f64::from(*t))
        .sum();
    sum / (directions * state.wall().columns()) as f64
}
