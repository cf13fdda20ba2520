//! What replay keeps of one tree.
//!
//! A tree has some five states a leaf, and all of them together would be too much to keep: what stays is the tree as each
//! leaf leaves it, and the last states that were looked at. All else is worked out again from the leaf before, which is at
//! most one leaf's growth and work on one tree.

use super::frames::Frames;
use super::replay::VoidWork;
use super::schedule::{Batch, OnTree};
use super::walk::Walk;
use super::{Moment, Phase, Window};
use crate::pose::Posed;
use crate::row::Tree;
use std::sync::Arc;

/// How many states that were looked at last are kept: before and after the work, or two moments side by side.
const LOOKS: usize = 2;

/// A tree as it was replayed.
#[derive(Clone, Debug)]
pub(super) struct Run {
    found: Arc<Tree>,
    start: Moment,
    work: OnTree,
    frames: Arc<Frames>,
    /// The tree after each leaf, from the start's leaf on.
    ends: Vec<End>,
    /// The states that were looked at, the last one last.
    looks: Vec<Look>,
}

#[derive(Clone, Debug)]
struct End {
    tree: Arc<Tree>,
    void: Box<[VoidWork]>,
}

#[derive(Clone, Debug)]
struct Look {
    moment: Moment,
    phase: Phase,
    posed: Arc<Posed>,
    /// Void work of the moment's leaf.
    void: Box<[VoidWork]>,
}

impl Run {
    /// A tree of which nothing is known yet.
    pub fn new(start: Moment, found: &Arc<Tree>, work: &OnTree, frames: &Arc<Frames>) -> Self {
        Self {
            found: Arc::clone(found),
            start,
            work: Arc::clone(work),
            frames: Arc::clone(frames),
            ends: Vec::new(),
            looks: Vec::new(),
        }
    }

    /// Takes what it is to be replayed from now, and forgets what no longer holds.
    pub fn keep_up(
        &mut self,
        start: Moment,
        found: &Arc<Tree>,
        work: &OnTree,
        frames: &Arc<Frames>,
    ) {
        let same_tree = Arc::ptr_eq(&self.found, found) || *self.found == **found;
        if self.start != start || !same_tree {
            *self = Self::new(start, found, work, frames);
            return;
        }
        let mut change = None;
        if !Arc::ptr_eq(&self.work, work) {
            change = first_change(&self.work, work);
            self.work = Arc::clone(work);
        }
        if !Arc::ptr_eq(&self.frames, frames) {
            change = earlier(change, self.frames.first_change(frames));
            self.frames = Arc::clone(frames);
        }
        if let Some(change) = change {
            let whole = change.leaf.saturating_sub(start.leaf);
            self.ends.truncate(usize::from(whole));
            // Before the work of that moment all is as it was.
            self.looks
                .retain(|l| (l.moment, l.phase) <= (change, Phase::Before));
        }
    }

    /// The tree at a moment, with where its shoots run; the work on it that was void on the way there is added to `void`.
    pub fn at(&mut self, moment: Moment, phase: Phase, void: &mut Vec<VoidWork>) -> Arc<Posed> {
        let (moment, phase) = match moment < self.start {
            true => (self.start, Phase::Before),
            false => (moment, phase),
        };
        let before = usize::from(moment.leaf - self.start.leaf);
        while self.ends.len() < before {
            self.end_leaf();
        }
        let known = self
            .looks
            .iter()
            .position(|l| (l.moment, l.phase) == (moment, phase));
        let look = match known {
            Some(i) => self.looks.remove(i),
            None => self.look(moment, phase),
        };
        let earlier = self.ends[..before].iter().flat_map(|e| e.void.iter());
        void.extend(earlier.chain(look.void.iter()).cloned());
        let posed = Arc::clone(&look.posed);
        if self.looks.len() >= LOOKS {
            self.looks.remove(0);
        }
        self.looks.push(look);
        posed
    }

    /// A state within the leaf that follows the last known end, or one that is known.
    fn look(&mut self, moment: Moment, phase: Phase) -> Look {
        let leaf = usize::from(moment.leaf - self.start.leaf);
        let is_end = (moment.window, phase) == (Window::AfterHarvest, Phase::After);
        if is_end && self.ends.len() == leaf {
            self.end_leaf();
        }
        let (tree, void) = match self.ends.get(leaf).filter(|_| is_end) {
            Some(end) => (Arc::clone(&end.tree), end.void.clone()),
            None => self.walk(leaf, moment, phase),
        };
        let geometry = self.frames.at(moment, phase).terms.geometry;
        let mut known = self.looks.iter().map(|l| &l.posed);
        let posed = match known.find(|p| p.is(&tree, geometry)) {
            Some(posed) => Arc::clone(posed),
            None => Arc::new(Posed::new(tree, geometry)),
        };
        Look {
            moment,
            phase,
            posed,
            void,
        }
    }

    /// Works out the end of the first leaf whose end is not known.
    fn end_leaf(&mut self) {
        let leaf = self.ends.len();
        let last = Moment {
            leaf: self.start.leaf + leaf as u8,
            window: Window::AfterHarvest,
        };
        let (tree, void) = self.walk(leaf, last, Phase::After);
        self.ends.push(End { tree, void });
    }

    /// From the end of the leaf before to a state within a leaf, which is counted from the start's.
    fn walk(&self, leaf: usize, to: Moment, phase: Phase) -> (Arc<Tree>, Box<[VoidWork]>) {
        let (tree, from) = match leaf.checked_sub(1) {
            None => (&self.found, self.start),
            Some(before) => (&self.ends[before].tree, Moment::dormant(to.leaf)),
        };
        let mut walk = Walk::new(Arc::clone(tree), &self.work, &self.frames);
        walk.through(from, to, phase);
        (walk.tree, walk.void.into())
    }
}

fn earlier(a: Option<Moment>, b: Option<Moment>) -> Option<Moment> {
    match (a, b) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    }
}

/// The first moment whose work is not the same.
fn first_change(old: &[Batch], new: &[Batch]) -> Option<Moment> {
    let same = |(a, b): &(&Batch, &Batch)| {
        a.moment == b.moment && (Arc::ptr_eq(&a.work, &b.work) || a.work == b.work)
    };
    let i = old.iter().zip(new).take_while(same).count();
    earlier(old.get(i).map(|b| b.moment), new.get(i).map(|b| b.moment))
}
