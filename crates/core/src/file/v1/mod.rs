//! Version 1 of the plan file. Its words are its own, so that the model may change while the file does not.
//!
//! Lengths are whole millimetres (`_mm`), diameters tenths of a millimetre (`_dmm`), angles degrees (`_deg`).
//! What is empty or as usual is left out. A name that version 1 does not have is refused: a slip of the pen
//! would else be a value that silently does nothing.

mod dto;
mod read;
mod work;
mod write;

pub(super) use read::read;
pub(super) use work::Work;
pub(super) use write::write;

/// A number that is written with at most six digits after the point, so that it is read back as it was.
fn held(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}
