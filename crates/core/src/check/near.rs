//! The part of a row that is judged anew: all of it, or what a change can reach.
//!
//! Most rules look at one tree, at two neighbours or at a stretch of wire: what they find far from a change stands. Those
//! that look at the row as a whole are asked anew each time.

use crate::cover::Span;
use std::ops::Range;

/// Room beyond what a tree can reach, mm.
pub(super) const MARGIN: f64 = 1_000.0;

/// A part of a row.
#[derive(Clone, Debug)]
pub(super) struct Near {
    /// Along the row, mm.
    pub span: Span,
    /// The trees that may reach into it.
    pub trees: Range<usize>,
}

impl Near {
    /// All of a row of so many trees.
    pub fn all(trees: usize) -> Self {
        Self {
            span: Span {
                from: f64::NEG_INFINITY,
                to: f64::INFINITY,
            },
            trees: 0..trees,
        }
    }
}
