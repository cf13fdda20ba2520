//! How high the uprights of a row reach.

use crate::arrange::middle_of;
use crate::pose::Posed;
use std::sync::Arc;

/// The height that half the uprights reach, by counts, so that it is known again after a change of a few of them.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Heights {
    pub middle: f64,
    pub all: usize,
    below: usize,
    same: usize,
}

fn tips(posed: &Posed) -> impl Iterator<Item = f64> {
    let at = posed.uprights().iter();
    at.map(|i| posed.courses()[*i].tip().y)
}

impl Heights {
    pub fn of(trees: &[Arc<Posed>]) -> Self {
        let all: Vec<f64> = trees.iter().flat_map(|t| tips(t)).collect();
        let mut out = Self::default();
        if let Some(middle) = middle_of(all.clone()) {
            out.middle = middle;
            all.into_iter().for_each(|tip| out.count(tip, 1));
        }
        out
    }

    /// Adds an upright that reaches up to there, or takes one off.
    fn count(&mut self, tip: f64, step: isize) {
        let add = |n: &mut usize| *n = n.wrapping_add_signed(step);
        add(&mut self.all);
        if tip < self.middle {
            add(&mut self.below);
        } else if tip == self.middle {
            add(&mut self.same);
        }
    }

    /// With one tree in place of another, if the middle stays where it was.
    pub fn with(mut self, old: &Posed, new: &Posed) -> Option<Self> {
        tips(old).for_each(|tip| self.count(tip, -1));
        tips(new).for_each(|tip| self.count(tip, 1));
        let middle = self.all / 2;
        (self.below..self.below + self.same)
            .contains(&middle)
            .then_some(self)
    }
}
