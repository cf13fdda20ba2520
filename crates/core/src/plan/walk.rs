//! One tree on its way through the seasons: it grows, and it is worked on.

use super::frames::Frames;
use super::schedule::Batch;
use super::void::VoidWork;
use super::{Moment, Phase, Window};
use crate::grow::{Half, grow, grow_on};
use crate::row::Tree;
use crate::standing::done;
use crate::work::{Work, apply_to_tree, work_on};
use std::sync::Arc;

/// A tree, the work that is still to come, and the work that could not be done.
pub(super) struct Walk<'w> {
    pub tree: Arc<Tree>,
    pub void: Vec<VoidWork>,
    work: &'w [Batch],
}

impl<'w> Walk<'w> {
    pub fn new(tree: Arc<Tree>, work: &'w [Batch]) -> Self {
        Self {
            tree,
            void: Vec::new(),
            work,
        }
    }

    /// From before `from` to `last`, before or after its work. Work from before `from` has no part in it.
    pub fn through(&mut self, frames: &Frames, from: Moment, last: Moment, phase: Phase) {
        for moment in from.until(last) {
            self.grow(frames, moment);
            if moment < last || phase == Phase::After {
                self.work(frames, moment);
            }
        }
    }

    /// What grows between the last moment and this one: growth comes between the work of bud swell and early summer, and
    /// between that and after harvest.
    pub fn grow(&mut self, frames: &Frames, moment: Moment) {
        let half = match moment.window {
            Window::EarlySummer => Half::First,
            Window::AfterHarvest => Half::Second,
            Window::Dormant | Window::BudSwell => return,
        };
        let terms = &frames.at(moment, Phase::Before).terms;
        // What nobody else holds grows as it stands.
        match Arc::get_mut(&mut self.tree) {
            Some(tree) => {
                grow_on(tree, moment.leaf, half, terms);
            }
            None => {
                let grown = grow(&self.tree, moment.leaf, half, terms);
                self.tree = grown.map_or_else(|| Arc::clone(&self.tree), Arc::new);
            }
        }
    }

    /// The work of a moment: what is stored, or the standing work where the window stands.
    pub fn work(&mut self, frames: &Frames, moment: Moment) {
        self.work_telling(frames, moment, &mut |_| ());
    }

    /// As [`Self::work`]; what is done is told.
    pub fn work_telling(&mut self, frames: &Frames, moment: Moment, tell: &mut dyn FnMut(&Work)) {
        let terms = &frames.at(moment, Phase::After).terms;
        if let Some(rules) = frames.stands(moment) {
            if let Some((tree, works)) = done(&self.tree, moment, terms, rules) {
                works.iter().for_each(tell);
                self.tree = Arc::new(tree);
            }
            return;
        }
        let past = self.work.partition_point(|b| b.moment < moment);
        self.work = &self.work[past..];
        let Some(batch) = self.work.first().filter(|b| b.moment == moment) else {
            return;
        };
        for work in batch.work.iter() {
            let done = match Arc::get_mut(&mut self.tree) {
                Some(tree) => work_on(tree, moment, terms, work),
                None => apply_to_tree(&self.tree, moment, terms, work)
                    .map(|changed| self.tree = Arc::new(changed)),
            };
            match done {
                Ok(()) => tell(work),
                Err(why) => self.void.push(VoidWork {
                    moment,
                    work: work.clone(),
                    why,
                }),
            }
        }
    }
}
