//! What replay keeps of one tree.
//!
//! A tree has some five states a leaf, and all of them together would be too much to keep: what stays is the tree as every
//! second leaf leaves it, and the last states that were looked at. All else is worked out again from there, which is at most
//! two leaves' growth and work on one tree.

use super::frames::Frames;
use super::schedule::{Batch, OnTree};
use super::void::VoidWork;
use super::walk::Walk;
use super::{Moment, Phase, Window};
use crate::pose::Posed;
use crate::row::Tree;
use std::sync::Arc;

/// How many states that were looked at last are kept: before and after the work, or two moments side by side.
const LOOKS: usize = 2;
/// After how many leaves a state is kept: at one, a long row's cache would be twice as heavy.
const STRETCH: u8 = 2;

/// A tree as it was replayed.
#[derive(Clone, Debug)]
pub(super) struct Run {
    found: Arc<Tree>,
    start: Moment,
    work: OnTree,
    frames: Arc<Frames>,
    /// The tree after each stretch of leaves, from the start's leaf on, as far as it is known.
    ends: Vec<End>,
    /// The states that were looked at, the last one last.
    looks: Vec<Look>,
}

/// A state on the way.
#[derive(Clone, Debug)]
struct End {
    tree: Arc<Tree>,
    /// The tree before the last moment's work, where that has made another of it.
    before: Option<Arc<Tree>>,
    /// Void work of the stretch.
    void: Box<[VoidWork]>,
}

#[derive(Clone, Debug)]
struct Look {
    moment: Moment,
    phase: Phase,
    posed: Arc<Posed>,
    /// Void work of the moment's stretch up to it.
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
            change = first_change(&self.work, work).map(|m| (m, Phase::After));
            self.work = Arc::clone(work);
        }
        if !Arc::ptr_eq(&self.frames, frames) {
            change = earlier(change, self.frames.first_change(frames));
            self.frames = Arc::clone(frames);
        }
        if let Some(change) = change {
            self.ends.truncate(self.stretch(change.0));
            self.looks.retain(|l| (l.moment, l.phase) < change);
        }
    }

    /// The tree at a moment, with where its shoots run; the work on it that was void on the way there is added to `void`.
    pub fn at(&mut self, moment: Moment, phase: Phase, void: &mut Vec<VoidWork>) -> Arc<Posed> {
        let (moment, phase) = match moment < self.start {
            true => (self.start, Phase::Before),
            false => (moment, phase),
        };
        let before = self.stretch(moment);
        while self.ends.len() < before {
            self.end_stretch();
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

    /// In which stretch a moment is.
    fn stretch(&self, moment: Moment) -> usize {
        usize::from(moment.leaf.saturating_sub(self.start.leaf) / STRETCH)
    }

    /// The last moment of a stretch.
    fn end_of(&self, stretch: usize) -> Moment {
        let leaves = STRETCH.saturating_mul(stretch as u8 + 1) - 1;
        Moment {
            leaf: self.start.leaf.saturating_add(leaves),
            window: Window::AfterHarvest,
        }
    }

    /// A state of which the end of the stretch before is known.
    fn look(&mut self, moment: Moment, phase: Phase) -> Look {
        let stretch = self.stretch(moment);
        let is_end = (moment, phase) == (self.end_of(stretch), Phase::After);
        if is_end && self.ends.len() == stretch {
            self.end_stretch();
        }
        let End { tree, before, void } = match self.ends.get(stretch).filter(|_| is_end) {
            Some(end) => end.clone(),
            None => self.walk(stretch, moment, phase),
        };
        let before = before.map(|tree| self.pose(tree, None, (moment, Phase::Before)));
        let posed = self.pose(tree, before, (moment, phase));
        Look {
            moment,
            phase,
            posed,
            void,
        }
    }

    /// A tree with where its shoots run; as it was looked at, if it was.
    fn pose(
        &self,
        tree: Arc<Tree>,
        before: Option<Arc<Posed>>,
        (moment, phase): (Moment, Phase),
    ) -> Arc<Posed> {
        let geometry = self.frames.at(moment, phase).terms.geometry;
        let found = before.as_deref().map(Posed::tree);
        let is = |p: &&Arc<Posed>| p.is(&tree, geometry) && p.is_counted_on(found);
        let known = self.looks.iter().map(|l| &l.posed).find(is);
        match (known, before) {
            (Some(posed), _) => Arc::clone(posed),
            (None, Some(before)) => Arc::new(Posed::worked_on(tree, geometry, before)),
            (None, None) => Arc::new(Posed::new(tree, geometry)),
        }
    }

    /// Works out the end of the first stretch whose end is not known.
    fn end_stretch(&mut self) {
        let stretch = self.ends.len();
        let end = self.walk(stretch, self.end_of(stretch), Phase::After);
        self.ends.push(end);
    }

    /// From the end of the stretch before to a state within a stretch.
    fn walk(&self, stretch: usize, to: Moment, phase: Phase) -> End {
        let (tree, from) = match stretch.checked_sub(1) {
            None => (&self.found, self.start),
            Some(before) => (
                &self.ends[before].tree,
                Moment::dormant(self.start.leaf + STRETCH * stretch as u8),
            ),
        };
        let mut walk = Walk::new(Arc::clone(tree), &self.work);
        walk.through(&self.frames, from, to, Phase::Before);
        let before = Arc::clone(&walk.tree);
        if phase == Phase::After {
            walk.work(&self.frames, to);
        }
        End {
            before: (!Arc::ptr_eq(&before, &walk.tree)).then_some(before),
            tree: walk.tree,
            void: walk.void.into(),
        }
    }
}

fn earlier<T: Ord>(a: Option<T>, b: Option<T>) -> Option<T> {
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
