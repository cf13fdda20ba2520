//! Version 5 of the plan file. To version 4 it adds what is told from the row: trees that are marked as diseased, of a scheme's work
//! what is done, left, noted and looked at again, what was counted on buds; and the crew's rates and people.

mod counts;
pub(super) mod dto;
mod field;
mod left;
mod marks;
mod named;
pub(super) mod number;
mod read;
mod work;
mod write;

pub(super) use number::later_word;
pub(super) use read::{plan_of, read};
pub(super) use write::{sent, write};

/// A number that is written with at most six digits after the point, so that it is read back as it was; nought has no sign.
fn held(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6 + 0.0
}
