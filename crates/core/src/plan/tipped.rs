//! Growth of last year that was measured after it had been tipped.
//!
//! What a tape measures of it is what is left: its end nodes, and most of the places that would bear, are gone. Where the record
//! shows no cut, the plan says whether there was one ([`Plan::tipped`]); what grew is then told from what is left by the usual
//! share. Replay begins with that. The found row stays as it was measured.

use super::Plan;
use crate::row::{Kind, Limit, Row, Shoot, Tree};
use std::sync::Arc;

/// Whether a found shoot has last year's growth of which the record shows no cut.
fn shows_no_cut(shoot: &Shoot, leaf: u8) -> bool {
    let last = shoot.units.last().filter(|u| u.leaf + 1 == leaf);
    let whole = last.is_some_and(|u| u.cut.is_none() && u.kept >= u.grown);
    whole && shoot.kind() == Kind::Upright
}

impl Row {
    /// Whether there is last year's growth of which the record shows no cut.
    pub fn has_untold_tips(&self) -> bool {
        let mut shoots = self.trees.iter().flat_map(|t| &t.shoots);
        shoots.any(|s| shows_no_cut(s, self.leaf))
    }
}

impl Plan {
    /// A found tree as work and growth begin on it.
    pub(super) fn begins(&self, found: &Arc<Tree>) -> Arc<Tree> {
        let mut tree = Arc::clone(found);
        if self.tipped != Some(true) {
            return tree;
        }
        let left = 1.0 - self.targets.get(Limit::TippingShare);
        for (i, shoot) in found.shoots.iter().enumerate() {
            if shows_no_cut(shoot, self.found.leaf)
                && let Some(last) = Arc::make_mut(&mut tree).shoots[i].units.last_mut()
            {
                last.grown = (last.kept / left).min(Shoot::MAX_LENGTH);
            }
        }
        tree
    }
}

/// Found trees as work and growth begin on them, and what is kept of that: a tree that did not change begins as the very one
/// that it began as before.
#[derive(Clone, Debug, Default)]
pub(super) struct Begun {
    tipped: Option<bool>,
    share: f64,
    leaf: u8,
    /// Found trees, each with the one that it begins as.
    known: Vec<(Arc<Tree>, Arc<Tree>)>,
}

impl Begun {
    /// Those of a plan, in the order of its found row.
    pub fn trees(&mut self, plan: &Plan) -> Vec<Arc<Tree>> {
        let (share, leaf) = (plan.targets.get(Limit::TippingShare), plan.found.leaf);
        if (self.tipped, self.share, self.leaf) != (plan.tipped, share, leaf) {
            self.known.clear();
        }
        (self.tipped, self.share, self.leaf) = (plan.tipped, share, leaf);
        let found = plan.found.trees.iter().enumerate();
        let known = found.map(|(i, found)| match self.known.get(i) {
            Some((was, begun)) if Arc::ptr_eq(was, found) => (Arc::clone(found), Arc::clone(begun)),
            _ => (Arc::clone(found), plan.begins(found)),
        });
        self.known = known.collect();
        self.known
            .iter()
            .map(|(_, begun)| Arc::clone(begun))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::make::{Form, RowSketch};
    use crate::units::LengthStyle;

    #[test]
    fn a_tipped_row_begins_as_the_same_trees_until_one_changes() {
        let row = RowSketch::usual(LengthStyle::Metric).row().unwrap();
        let mut plan = Plan::new("a row", row);
        plan.tipped = Some(true);
        let mut begun = Begun::default();
        let first = begun.trees(&plan);
        let again = begun.trees(&plan);
        assert!(first.iter().zip(&again).all(|(a, b)| Arc::ptr_eq(a, b)));
        let found = Arc::make_mut(&mut plan.found);
        Arc::make_mut(&mut found.trees[2]).note = "another".into();
        let changed = begun.trees(&plan);
        let same = changed.iter().zip(&first).map(|(a, b)| Arc::ptr_eq(a, b));
        assert!(same.enumerate().all(|(i, same)| same == (i != 2)));
        // What it hangs on is asked too.
        Arc::make_mut(&mut plan.targets)
            .set(Limit::TippingShare, Some(0.3))
            .unwrap();
        let more = begun.trees(&plan);
        assert!(
            more.iter()
                .zip(&plan.found.trees)
                .all(|(a, found)| *a == plan.begins(found))
        );
        assert!(more.iter().zip(&changed).any(|(a, b)| a != b));
        plan.tipped = None;
        assert_eq!(begun.trees(&plan), plan.found.trees);
    }
}
