//! What the rules see of the part of a row that is judged.

use super::near::Near;
use super::seen::{Seen, SeenTree, under};
use crate::cover::Span;
use crate::row::Limit;
use std::ops::Range;

impl<'a> Seen<'a> {
    /// The trees that may reach into what is judged.
    pub fn near_trees(&self) -> impl Iterator<Item = &SeenTree<'a>> {
        self.trees[self.near.trees.clone()].iter()
    }

    /// Of each two neighbouring places that reach into what is judged, where the right one stands among all.
    pub fn near_pairs(&self) -> Range<usize> {
        let Span { from, to } = self.near.span;
        let first = self.places.partition_point(|p| p.x < from);
        let mut last = self.places.partition_point(|p| p.x <= to) + 1;
        // A space reaches over the notched buds in it.
        while last < self.places.len() && self.is_notched(last - 1) {
            last += 1;
        }
        first.max(1)..last.min(self.places.len())
    }

    /// Whether what reaches from one place to another is judged.
    pub fn is_near(&self, from: f64, to: f64) -> bool {
        from <= self.near.span.to && to >= self.near.span.from
    }

    /// Judges that much of the row, and all places that crowd each other in a chain from there.
    pub fn judge_near(&mut self, span: Span) {
        let least = self.limit(Limit::UprightSpacingMin);
        let x = |i: usize| self.places[i].x;
        let mut first = self.places.partition_point(|p| p.x < span.from);
        while first > 0 && first < self.places.len() && under(x(first) - x(first - 1), least) {
            first -= 1;
        }
        let mut last = self.places.partition_point(|p| p.x <= span.to);
        while last > 0 && last < self.places.len() && under(x(last) - x(last - 1), least) {
            last += 1;
        }
        let mut span = span;
        if first < last {
            span.from = span.from.min(x(first));
            span.to = span.to.max(x(last - 1));
        }
        let trees = self.feet_within(Span {
            from: span.from - self.far,
            to: span.to + self.far,
        });
        self.near = Near { span, trees };
    }

    /// The trees whose feet stand within a stretch.
    pub fn feet_within(&self, span: Span) -> Range<usize> {
        let foot = |t: &SeenTree<'_>| t.tree.foot.f();
        let start = self.trees.partition_point(|t| foot(t) < span.from);
        let end = self.trees.partition_point(|t| foot(t) <= span.to);
        start..end.max(start)
    }
}
