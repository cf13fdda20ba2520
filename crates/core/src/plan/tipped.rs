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
