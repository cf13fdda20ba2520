//! A season: the work before and the growth of one leaf.

use crate::row::{ShootId, TreeId, Window};
use crate::work::{Subject, Work};

/// The work of one leaf's season. Each window is canonical: in order of subject, one item a subject.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Season {
    /// The leaf.
    pub leaf: u8,
    /// Dormant work.
    pub dormant: Vec<Work>,
    /// Work at bud swell.
    pub bud_swell: Vec<Work>,
    /// Work in early summer.
    pub early_summer: Vec<Work>,
    /// Work after harvest.
    pub after_harvest: Vec<Work>,
}

impl Season {
    /// A season without work.
    pub fn empty(leaf: u8) -> Self {
        Self {
            leaf,
            ..Self::default()
        }
    }

    /// The work of a window.
    pub fn work(&self, window: Window) -> &[Work] {
        match window {
            Window::Dormant => &self.dormant,
            Window::BudSwell => &self.bud_swell,
            Window::EarlySummer => &self.early_summer,
            Window::AfterHarvest => &self.after_harvest,
        }
    }

    fn list(&mut self, window: Window) -> &mut Vec<Work> {
        match window {
            Window::Dormant => &mut self.dormant,
            Window::BudSwell => &mut self.bud_swell,
            Window::EarlySummer => &mut self.early_summer,
            Window::AfterHarvest => &mut self.after_harvest,
        }
    }

    /// Whether there is no work at all.
    pub fn is_empty(&self) -> bool {
        Window::ALL.iter().all(|w| self.work(*w).is_empty())
    }

    /// Puts work in its canonical place; one with the same subject gives way to it.
    pub fn put(&mut self, window: Window, work: Work) {
        let list = self.list(window);
        match list.binary_search_by_key(&work.subject(), Work::subject) {
            Ok(i) => list[i] = work,
            Err(i) => list.insert(i, work),
        }
    }

    /// The work of a window on one tree; on the trellis for `None`.
    pub fn work_on_tree(&self, window: Window, tree: Option<TreeId>) -> &[Work] {
        // In order of subject, and so of tree first.
        let list = self.work(window);
        let from = list.partition_point(|w| w.tree() < tree);
        let to = list.partition_point(|w| w.tree() <= tree);
        &list[from..to]
    }

    /// Takes out the work that a cut leaves nothing of.
    pub fn drop_idle(&mut self, window: Window, cut: &Work) {
        self.drop_work(window, |other| cut.leaves_nothing_for(other));
    }

    /// Whether a cut of the same window leaves nothing for the work to do.
    pub fn is_idle(&self, window: Window, work: &Work) -> bool {
        self.work_on_tree(window, work.tree())
            .iter()
            .any(|cut| cut.leaves_nothing_for(work))
    }

    /// Takes out the work on a subject, if there is some.
    pub fn drop_subject(&mut self, window: Window, subject: Subject) {
        let list = self.list(window);
        if let Ok(i) = list.binary_search_by_key(&subject, Work::subject) {
            list.remove(i);
        }
    }

    /// Takes out the work that `goes` picks; whether any went.
    pub fn drop_work(&mut self, window: Window, goes: impl Fn(&Work) -> bool) -> bool {
        let list = self.list(window);
        let before = list.len();
        list.retain(|w| !goes(w));
        list.len() < before
    }

    /// Takes out the keeping of a tree's bud and all later work of the season on what it would have become.
    pub fn drop_bud(&mut self, window: Window, tree: TreeId, bud: ShootId) -> bool {
        let leaf = self.leaf;
        let kept = self.drop_work(window, |w| {
            w.tree() == Some(tree) && w.kept_bud(leaf) == Some(bud)
        });
        if kept {
            for later in Window::ALL {
                self.drop_work(later, |w| {
                    w.tree() == Some(tree) && w.subject().shoot == bud
                });
            }
        }
        kept
    }
}
