//! Exact choices along a row: which way the wood of each tree is laid, and which uprights of a cordon are kept.
//!
//! The solvers know no plan: they are given choices with what each costs, and what neighbours cost each other. Both tell how much
//! worse the next best is.

pub mod assign;
pub mod fill;
pub mod uprights;

use crate::refusal::Refusal;
use crate::said::Arg;

/// Closer than this two lengths are the same, in the unit that they are given in: a place that stands at a limit keeps it.
const SAME: f64 = 1e-6;

/// A number that a solver can't reckon with.
fn finite(value: f64) -> Result<(), Refusal> {
    if value.is_finite() {
        return Ok(());
    }
    let args = vec![("value", Arg::Number(value, 3))];
    Err(Refusal::new("refusal-solve-number", args))
}

/// The first of the least; `None` where all are without end.
fn least(of: impl Iterator<Item = f64>) -> Option<(usize, f64)> {
    let mut best: Option<(usize, f64)> = None;
    for (at, value) in of.enumerate() {
        if value.is_finite() && best.is_none_or(|(_, least)| value < least) {
            best = Some((at, value));
        }
    }
    best
}
