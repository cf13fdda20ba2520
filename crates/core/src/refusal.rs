//! A refusal: why something was not done, with the place, the value and what would be accepted.

use crate::words::{Arg, Words};
use std::fmt;

/// Why a piece of work, a correction or a value was not accepted. Nothing has changed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub struct Refusal {
    /// Name of its text in the language file: `refusal-…`. The text names place, value and accepted range.
    pub key: &'static str,
    /// What the text speaks of.
    pub args: Vec<(&'static str, Arg)>,
}

impl Refusal {
    /// A refusal worded by `key`.
    pub fn new(key: &'static str, args: Vec<(&'static str, Arg)>) -> Self {
        Self { key, args }
    }
}

impl fmt::Display for Refusal {
    /// In English and metric; [`Words::text`] words it in any language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&Words::default().text(self.key, &self.args))
    }
}
