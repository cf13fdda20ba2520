//! Version 1 of the plan file, frozen. Its words are its own, so that the model may change while the file does not; they
//! are read by way of those of the next version.
//!
//! Lengths are whole millimetres (`_mm`), diameters tenths of a millimetre (`_dmm`), angles degrees (`_deg`).
//! What is empty or as usual is left out. A name that version 1 does not have is refused: a slip of the pen
//! would else be a value that silently does nothing.

pub(super) mod dto;
pub(super) mod limits;
pub(super) mod parts;
pub(super) mod ranges;
mod work;

pub(super) use work::Work;
