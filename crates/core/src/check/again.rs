//! A survey after another one: what can't be found otherwise than before is not asked again.

use super::seen::{Seen, far};
use super::{Before, Finding, graver, renewal, see_through};
use crate::cover::Span;
use std::sync::Arc;

/// Whether a rule is asked of the whole row, however little has changed: what it measures or names is the row's.
fn is_of_the_row(rule: &str) -> bool {
    graver::WHOLE.contains(&rule) || rule == see_through::RULE
}

impl Seen<'_> {
    /// Whether a finding is one of what is judged.
    pub fn is_judged(&self, finding: &Finding) -> bool {
        is_of_the_row(finding.rule) || self.is_near(finding.x, finding.x + finding.width)
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
    c.judge_near(span);
    renewal::recall(c, &before.findings);
    true
}
