//! A refusal: why something was not done, with the place, the value and what would be accepted.

use crate::said::{Arg, Args, Said};
use crate::words::Words;
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
    /// In English and metric; [`Words::refusal`] words it in any language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&Words::default().refusal(self))
    }
}
