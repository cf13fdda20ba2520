//! Which shoots grow from which, as lists that are made once.

use crate::row::Tree;

/// Parents and children of a tree's shoots, by their places among its shoots.
pub(super) struct Family {
    parents: Vec<Option<usize>>,
    /// The child of each that came last into the lists.
    last: Vec<Option<usize>>,
    /// The one that came before it from the same parent.
    before: Vec<Option<usize>>,
}

impl Family {
    pub fn of(tree: &Tree) -> Self {
        let mut out = Self {
            parents: Vec::with_capacity(tree.shoots.len()),
            last: Vec::with_capacity(tree.shoots.len()),
            before: Vec::with_capacity(tree.shoots.len()),
        };
        for parent in tree.parents() {
            out.push(parent);
        }
        out
    }

    /// One more shoot, the last of the tree's.
    pub fn push(&mut self, parent: Option<usize>) {
        let at = self.parents.len();
        let before = parent.and_then(|p| self.last[p].replace(at));
        self.parents.push(parent);
        self.last.push(None);
        self.before.push(before);
    }

    pub fn parent(&self, of: usize) -> Option<usize> {
        self.parents[of]
    }

    /// What grows from a shoot, in no order that matters.
    pub fn children(&self, of: usize) -> impl Iterator<Item = usize> + '_ {
        std::iter::successors(self.last[of], |at| self.before[*at])
    }
}
