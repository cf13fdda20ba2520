//! Trees that were delivered, laid out over the places that they are for.

use super::Stock;
use crate::solve::assign::assign;

/// What headed stock costs where unheaded stock is needed, mm of length that lacks (judged).
const HEADED: i64 = 150;

/// A tree as it was delivered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Delivered {
    /// Length above the ground, mm.
    pub length: i64,
    /// Its end was cut off in the nursery.
    pub headed: bool,
}

/// What one place gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed {
    /// Which of the delivered trees, from 0; `None` where there are too few.
    pub tree: Option<usize>,
    /// By how much it is too short, mm.
    pub short: i64,
    /// It is headed, and unheaded stock is needed.
    pub headed: bool,
}

/// What each place gets so that all together lack the least, and how much that is: mm that are too short, and 150 for each headed
/// tree where an unheaded one is needed. `needs` are lengths in mm, each with whether it has to be unheaded.
pub fn place(needs: &[(i64, bool)], trees: &[Delivered]) -> (Vec<Placed>, i64) {
    let short = |place: usize, tree: usize| (needs[place].0 - trees[tree].length).max(0);
    let headed = |place: usize, tree: usize| needs[place].1 && trees[tree].headed;
    let cost = |place: usize, tree: usize| {
        short(place, tree) + if headed(place, tree) { HEADED } else { 0 }
    };
    let (pairs, total) = assign(needs.len(), trees.len(), &cost);
    let placed = pairs.iter().enumerate().map(|(place, tree)| Placed {
        tree: *tree,
        short: tree.map_or(0, |t| short(place, t)),
        headed: tree.is_some_and(|t| headed(place, t)),
    });
    (placed.collect(), total)
}

impl Stock {
    /// What it needs, as [`place`] asks for it: rounded up to whole millimetres.
    pub fn need(&self) -> (i64, bool) {
        (libm::ceil(self.length) as i64, self.unheaded())
    }
}
