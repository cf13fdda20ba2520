//! Bays: the stretches between posts, by which a tree is found without counting from the row's end.

use super::Row;
use super::tree::Tree;

/// Where a tree stands between posts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bay {
    /// The how-manieth stretch between two posts, counted from 1 and the row's left end.
    pub number: usize,
    /// The how-manieth place for a tree in it, from its left post on. Empty places count.
    pub place: usize,
}

impl Row {
    /// The bay of a tree of the row; none before the first post and beyond the last. What stands at a post is of the bay that
    /// begins there.
    pub fn bay(&self, tree: &Tree) -> Option<Bay> {
        let posts = &self.trellis.posts;
        let number = posts.partition_point(|post| *post <= tree.foot);
        let from = *posts.get(number.checked_sub(1)?)?;
        posts.get(number)?;
        let at = |t: &std::sync::Arc<Tree>| (t.foot, t.id) < (tree.foot, tree.id);
        let before = self.trees.partition_point(at);
        let first = self.trees.partition_point(|t| t.foot < from);
        Some(Bay {
            number,
            place: before - first + 1,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::row::{Planted, Toward, TreeId, Trellis};
    use crate::units::{Deg, Mm};

    #[test]
    fn a_tree_is_of_the_bay_that_begins_at_its_post() {
        let planted = Planted {
            angle: Deg::new(45.0),
            toward: Toward::Right,
        };
        let tree = |(n, x)| std::sync::Arc::new(Tree::lost(TreeId(n), Mm(x), planted));
        let feet = [
            (1, -200),
            (2, 0),
            (3, 1500),
            (4, 5999),
            (5, 6000),
            (6, 7500),
            (7, 12_000),
        ];
        let row = Row {
            leaf: 1,
            from: Mm(0),
            to: Mm(12_000),
            trellis: Trellis {
                posts: [0, 6000, 12_000].map(Mm).to_vec(),
                ..Trellis::default()
            },
            trees: feet.map(tree).to_vec(),
        };
        let bay = |i: usize| row.bay(&row.trees[i]).map(|b| (b.number, b.place));
        let bays: Vec<_> = (0..row.trees.len()).map(bay).collect();
        let expected = [
            None,
            Some((1, 1)),
            Some((1, 2)),
            Some((1, 3)),
            Some((2, 1)),
            Some((2, 2)),
            None,
        ];
        assert_eq!(bays, expected);
        let bare = Row {
            trellis: Trellis::default(),
            ..row
        };
        assert_eq!(bare.bay(&bare.trees[1]), None);
    }
}
