//! Rows that are made, not measured: a plausible one from a few figures, and an empty one.

mod empty;
pub(crate) mod field;
mod sketch;
pub(crate) mod wood;

pub use empty::EmptyRow;
pub use field::Field;
pub use sketch::{Leaders, RowSketch};

use crate::refusal::Refusal;
use crate::said::Arg;
use crate::units::LengthStyle;

/// A short form: fields that are written and read as people write them.
pub trait Form: Clone + PartialEq {
    /// Its fields, in the order in which they are asked for and set.
    const FIELDS: &'static [Field];

    /// What it holds before anybody has written in it, in round figures of the style.
    fn usual(style: LengthStyle) -> Self;

    /// A field's value; several where it holds a list.
    fn shown(&self, field: Field) -> Vec<Arg>;

    /// Takes a field as it was written.
    ///
    /// # Errors
    /// What can't be read or accepted: the field, the value and the accepted range. The form is as it was.
    fn set(&mut self, field: Field, text: &str, style: LengthStyle) -> Result<(), Refusal>;

    /// Whether a field is asked for, as the form is filled in so far.
    fn asks(&self, _field: Field) -> bool {
        true
    }
}
