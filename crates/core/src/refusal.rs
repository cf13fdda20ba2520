//! A refusal: why something was not done, with the place, the value and what would be accepted.

use crate::said::{Arg, Args, Said};
use std::fmt;
use std::ops::{Deref, DerefMut};

/// Why a piece of work, a correction or a value was not accepted. Nothing has changed. It is something said whose key
/// is `refusal-…`; the text names place, value and accepted range.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub struct Refusal(pub Said);

impl Refusal {
    /// A refusal worded by `key`.
    pub fn new(key: &'static str, args: Args) -> Self {
        Self(Said::new(key, args))
    }
}

impl Deref for Refusal {
    type Target = Said;
    fn deref(&self) -> &Said {
        &self.0
    }
}

impl DerefMut for Refusal {
    fn deref_mut(&mut self) -> &mut Said {
        &mut self.0
    }
}

impl From<Refusal> for Arg {
    fn from(refusal: Refusal) -> Self {
        refusal.0.into()
    }
}

impl fmt::Display for Refusal {
    /// Key and values, plainly. Who shows it to people words it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}
