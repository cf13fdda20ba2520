//! A scheme's work, by tree and by moment.
//!
//! It is held in a persistent map from tree to that tree's windows of work, so that a plan that differs in one piece of
//! work shares all else with the plan that it came from, and replay borrows it tree by tree. Nobody else knows how it
//! is held: work is asked for by moment, by tree, or by both.

use crate::arrange::Arrange;
use crate::arrange::Gather;
use crate::row::{Moment, TreeId, Window};
use crate::sorted::{Map, Set};
use crate::work::{Subject, Work};
use rpds::RedBlackTreeMapSync;
use std::fmt;
use std::sync::Arc;

/// One window's work on one tree or on the trellis: in order of subject, one item a subject, never empty.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Batch {
    pub moment: Moment,
    pub work: Arc<Vec<Work>>,
}

/// All work on one tree, or on the trellis, in order of time.
pub(super) type OnTree = Arc<Vec<Batch>>;

/// The work of one scheme. Canonical: whatever the order in which work was put in, schedules of the same work are the same.
#[derive(Clone, Default, PartialEq)]
pub struct Schedule {
    trees: RedBlackTreeMapSync<Option<TreeId>, OnTree>,
}

impl Schedule {
    /// Whether there is no work at all.
    pub fn is_empty(&self) -> bool {
        self.trees.is_empty()
    }

    /// The work of a moment on all trees and the trellis, in order of subject.
    pub fn work(&self, moment: Moment) -> impl Iterator<Item = &Work> {
        self.trees
            .values()
            .flat_map(move |batches| at(batches, moment))
    }

    /// The work of a moment on one tree, or on the trellis for `None`, in order of subject.
    pub fn work_on(&self, moment: Moment, tree: Option<TreeId>) -> &[Work] {
        self.trees.get(&tree).map_or(&[], |b| at(b, moment))
    }

    /// All work: tree by tree, that on the trellis first; of each in order of time, then of subject.
    pub fn all(&self) -> impl Iterator<Item = (Moment, &Work)> {
        self.trees.values().flat_map(|batches| {
            let batches = batches.iter();
            batches.flat_map(|b| b.work.iter().map(|w| (b.moment, w)))
        })
    }

    /// The moments that have work, in order of time.
    pub fn moments(&self) -> Set<Moment> {
        let batches = self.trees.values().flat_map(|b| b.iter());
        batches.map(|b| b.moment).gathered_set()
    }

    /// The last moment that has work.
    pub fn last(&self) -> Option<Moment> {
        let ends = self.trees.values().filter_map(|b| b.last());
        ends.map(|b| b.moment).max()
    }

    /// Whether a cut of the same window leaves nothing for the work to do.
    pub fn is_idle(&self, moment: Moment, work: &Work) -> bool {
        let window = self.work_on(moment, work.tree());
        window.iter().any(|cut| cut.leaves_nothing_for(work))
    }

    /// Puts work in its canonical place; one with the same subject gives way to it.
    pub fn put(&mut self, moment: Moment, work: Work) {
        self.change(moment, work.tree(), |list| put(list, work));
    }

    /// Puts all of a window's work in its place; what it held on the trees that the work is about gives way.
    pub fn put_all(&mut self, moment: Moment, work: Vec<Work>) {
        let new: Self = work.into_iter().map(|w| (moment, w)).collect();
        for (tree, batches) in new.trees.iter() {
            let work = at(batches, moment).to_vec();
            self.change(moment, *tree, |list| *list = work);
        }
    }

    /// Takes out the work that a cut leaves nothing of.
    pub fn drop_idle(&mut self, moment: Moment, cut: &Work) {
        let idle = |other: &Work| cut.leaves_nothing_for(other);
        if self.work_on(moment, cut.tree()).iter().any(idle) {
            self.change(moment, cut.tree(), |list| list.retain(|w| !idle(w)));
        }
    }

    /// Takes out the work on a subject, if there is some.
    pub fn drop_subject(&mut self, moment: Moment, subject: Subject) {
        let list = self.work_on(moment, subject.tree);
        if let Ok(i) = list.binary_search_by_key(&subject, Work::subject) {
            self.change(moment, subject.tree, |list| {
                list.remove(i);
            });
        }
    }

    /// Takes out the work of a moment that `goes` picks, on whatever tree.
    pub fn drop_work(&mut self, moment: Moment, goes: impl Fn(&Work) -> bool) {
        let touched: Vec<Option<TreeId>> = self
            .trees
            .iter()
            .filter(|(_, batches)| at(batches, moment).iter().any(&goes))
            .map(|(tree, _)| *tree)
            .collect();
        for tree in touched {
            self.change(moment, tree, |list| list.retain(|w| !goes(w)));
        }
    }

    /// Where the moment keeps that bud of a tree, takes the keeping out, and all later work of the season on what the bud
    /// would have become; whether it did.
    pub fn drop_bud(&mut self, moment: Moment, tree: TreeId, bud: crate::row::ShootId) -> bool {
        let on = Some(tree);
        let keeps = |w: &Work| w.kept_bud(moment.leaf) == Some(bud);
        if !self.work_on(moment, on).iter().any(keeps) {
            return false;
        }
        self.change(moment, on, |list| list.retain(|w| !keeps(w)));
        for window in Window::ALL {
            let later = Moment { window, ..moment };
            let about = |w: &Work| w.subject().shoot == bud;
            if self.work_on(later, on).iter().any(about) {
                self.change(later, on, |list| list.retain(|w| !about(w)));
            }
        }
        true
    }

    /// The trees on which the work of two schedules differs, the trellis as `None`. What both share costs nothing.
    pub fn differs_on(&self, other: &Self) -> Vec<Option<TreeId>> {
        let same = |a: &OnTree, b: &OnTree| Arc::ptr_eq(a, b) || a == b;
        let changed = self
            .by_tree()
            .filter(|(tree, work)| !other.on(*tree).is_some_and(|was| same(was, work)));
        let gone = other.by_tree().filter(|(tree, _)| self.on(*tree).is_none());
        changed.chain(gone).map(|(tree, _)| tree).collect()
    }

    /// The same but for some trees, on which it has the work of another schedule.
    pub fn taking(&self, trees: &[Option<TreeId>], from: &Self) -> Self {
        let mut out = self.clone();
        for tree in trees {
            match from.on(*tree) {
                Some(work) => out.trees.insert_mut(*tree, Arc::clone(work)),
                None => {
                    out.trees.remove_mut(tree);
                }
            }
        }
        out
    }

    /// The work on one tree, or on the trellis for `None`, in order of time.
    pub(super) fn on(&self, tree: Option<TreeId>) -> Option<&OnTree> {
        self.trees.get(&tree)
    }

    /// The trees that have work, in order, the trellis first as `None`.
    pub(super) fn by_tree(&self) -> impl Iterator<Item = (Option<TreeId>, &OnTree)> {
        self.trees.iter().map(|(tree, work)| (*tree, work))
    }

    /// Changes one window's list; what is shared with other plans is copied first, and an empty list goes.
    fn change(&mut self, moment: Moment, tree: Option<TreeId>, by: impl FnOnce(&mut Vec<Work>)) {
        if !self.trees.contains_key(&tree) {
            self.trees.insert_mut(tree, OnTree::default());
        }
        let Some(batches) = self.trees.get_mut(&tree) else {
            return;
        };
        let batches = Arc::make_mut(batches);
        let at = batches.binary_search_by_key(&moment, |b| b.moment);
        let i = at.unwrap_or_else(|i| {
            let work = Arc::default();
            batches.insert(i, Batch { moment, work });
            i
        });
        by(Arc::make_mut(&mut batches[i].work));
        if batches[i].work.is_empty() {
            batches.remove(i);
        }
        if batches.is_empty() {
            self.trees.remove_mut(&tree);
        }
    }
}

/// What it holds, and not how: the map's shape tells the order in which work came.
impl fmt::Debug for Schedule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_map().entries(self.trees.iter()).finish()
    }
}

/// Of several pieces of work on one subject in one window the last stays, as when they are done one after another.
impl FromIterator<(Moment, Work)> for Schedule {
    fn from_iter<I: IntoIterator<Item = (Moment, Work)>>(all: I) -> Self {
        let mut lists: Map<Option<TreeId>, Map<Moment, Vec<Work>>> = Map::new();
        for (moment, work) in all {
            let windows = lists.entry(work.tree()).or_default();
            windows.entry(moment).or_default().push(work);
        }
        let batch = |(moment, mut work): (Moment, Vec<Work>)| {
            work.reverse();
            work.arrange_by_key(Work::subject);
            work.dedup_by_key(|w| w.subject());
            work.shrink_to_fit();
            let work = Arc::new(work);
            Batch { moment, work }
        };
        let tree = |(tree, windows): (Option<TreeId>, Map<Moment, Vec<Work>>)| {
            (tree, Arc::new(windows.into_iter().map(batch).collect()))
        };
        Self {
            trees: lists.into_iter().map(tree).collect(),
        }
    }
}

fn at(batches: &[Batch], moment: Moment) -> &[Work] {
    let found = batches.binary_search_by_key(&moment, |b| b.moment);
    found.map_or(&[], |i| &batches[i].work)
}

fn put(list: &mut Vec<Work>, work: Work) {
    match list.binary_search_by_key(&work.subject(), Work::subject) {
        Ok(i) => list[i] = work,
        Err(i) => list.insert(i, work),
    }
}
