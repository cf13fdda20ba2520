//! Version 2 of the plan file. To version 1 it adds what the record may tell of a row's past: of a season's growth when it
//! was cut, of a shoot where it came from, of what is bent the radius that it was bent with. Where a file leaves these out,
//! the record is silent.

mod as_today;
mod dto;
mod from_v1;
mod number;
mod read;
mod write;

pub(super) use read::{read, read_v1};
pub(super) use write::write;

/// A number that is written with at most six digits after the point, so that it is read back as it was.
fn held(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}
