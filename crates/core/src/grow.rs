//! One season's growth of one tree.
//!
//! A stated placeholder: nothing grows yet. A season changes what work has been done and which
//! leaf it is, so that replay, identity and undo can be relied on before growth is added.

use crate::row::Tree;
use crate::terms::Terms;

/// Which half of a season: growth runs before and after the early-summer work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// From bud swell to early summer.
    First,
    /// From early summer to harvest.
    Second,
}

/// The tree after that half of `leaf`. A placeholder: `None`, it is as it was.
pub fn grow(_tree: &Tree, _leaf: u8, _half: Half, _terms: &Terms) -> Option<Tree> {
    None
}
