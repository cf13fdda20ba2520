//! A survey after another one: what can't be found otherwise than before is not asked again.

use super::heights::Heights;
use super::seen::{Seen, far};
use super::{Before, Finding, graver, renewal, see_through};
use crate::cover::Span;
use std::sync::Arc;

/// What a survey keeps for the next one.
#[derive(Clone, Debug, Default)]
pub struct Kept {
    pub(super) heights: Heights,
    asked: usize,
}

impl Kept {
    /// Of a row that has been seen.
    pub(super) fn of(c: &Seen<'_>) -> Self {
        let heights = c.heights.get_or_init(|| Heights::of(c.row.posed()));
        Self {
            heights: *heights,
            asked: c.near.trees.len() + see_through::cells(c).len(),
        }
    }

    /// How many trees were judged and parts of the wire looked through, so that what a change costs can be counted.
    pub fn asked(&self) -> usize {
        self.asked
    }
}

impl Seen<'_> {
    /// Whether a finding is one of what is judged. What some rules measure or name is the row's, however little has changed.
    pub fn is_judged(&self, finding: &Finding, through: Span) -> bool {
        let span = Span {
            from: finding.x,
            to: finding.x + finding.width,
        };
        match finding.rule {
            see_through::RULE => span.within(through).length() > 0.0,
            rule => graver::WHOLE.contains(&rule) || self.is_near(span.from, span.to),
        }
    }
}

impl Before<'_> {
    /// Whether all but single trees stands as it did, at the same moment.
    fn holds_for(&self, c: &Seen<'_>) -> bool {
        let (a, b) = (c.row, self.row);
        self.moment == c.moment
            && a.leaf == b.leaf
            && (a.from, a.to) == (b.from, b.to)
            && a.trellis == b.trellis
            && self.row.geometry() == c.g
            && a.trees.len() == b.trees.len()
            && a.trees
                .iter()
                .zip(&b.trees)
                .all(|(x, y)| Arc::ptr_eq(x, y) || (x.id == y.id && x.foot == y.foot))
    }
}

/// Has a row judged only where it can be found otherwise than `before`; whether it is.
pub(super) fn recall(c: &mut Seen<'_>, before: &Before<'_>) -> bool {
    if !before.holds_for(c) {
        return false;
    }
    let pairs = c.row.trees.iter().zip(&before.row.trees).enumerate();
    let changed: Vec<usize> = pairs
        .filter(|(_, (a, b))| !Arc::ptr_eq(a, b))
        .map(|(i, _)| i)
        .collect();
    c.far = c.far.max(far(before.row.posed()));
    let mut span = Span {
        from: f64::INFINITY,
        to: f64::NEG_INFINITY,
    };
    if let (Some(first), Some(last)) = (changed.first(), changed.last()) {
        // The next living trees may be measured against them, and be filled from.
        let living = |i: &usize| !c.row.trees[*i].is_lost();
        let left = (0..*first).rev().filter(living).nth(1).unwrap_or(0);
        let right = (last + 1..c.row.trees.len()).filter(living).nth(1);
        let right = right.unwrap_or(c.row.trees.len() - 1);
        let foot = |i: usize| c.row.trees[i].foot.f();
        span = Span {
            from: foot(left).min(foot(*first) - c.far),
            to: foot(right).max(foot(*last) + c.far),
        };
    }
    look_through(c, before, &changed);
    c.judge_near(span);
    renewal::recall(c, &before.findings);
    true
}

/// Has the wall looked through only where its changed trees stand and stood, as long as the uprights reach as high as they did.
fn look_through(c: &mut Seen<'_>, before: &Before<'_>, changed: &[usize]) {
    let mut heights = before.kept.heights;
    let mut wood = Span {
        from: f64::INFINITY,
        to: f64::NEG_INFINITY,
    };
    for i in changed {
        let (old, new) = (&before.row.posed()[*i], &c.row.posed()[*i]);
        let Some(still) = heights.with(old, new) else {
            return;
        };
        heights = still;
        for course in old.courses().iter().chain(new.courses()) {
            let (a, b) = (course.base.x, course.tip().x);
            wood.from = wood.from.min(a).min(b);
            wood.to = wood.to.max(a).max(b);
        }
    }
    c.heights = heights.into();
    c.through = match wood.from <= wood.to {
        true => see_through::reached(c, wood),
        false => 0..0,
    };
}
