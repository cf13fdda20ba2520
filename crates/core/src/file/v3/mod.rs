//! Version 3 of the plan file. To version 2 it adds what a forecast goes by: values of the model that are not the usual ones, the
//! vigour of trees that grow unlike their row, whether found wood was tipped; and of a scheme from which leaf it lets bear, the
//! rules of its standing windows, and which windows are planned though nothing is done in them.

pub(super) mod dto;
pub(super) mod number;
mod read;
mod write;

pub(super) use read::{plan_of, read};
pub(super) use write::write;

/// A number that is written with at most six digits after the point, so that it is read back as it was.
fn held(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}
