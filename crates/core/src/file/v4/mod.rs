//! Version 4 of the plan file. To version 3 it adds what is left for a year, with the reason, and which trees were filled in
//! from a sample.

pub(super) mod dto;
mod left;
pub(super) mod number;
mod read;
mod write;

pub(super) use read::{later_word, plan_of, read};
pub(super) use write::write;

/// A number that is written with at most six digits after the point, so that it is read back as it was.
fn held(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}
