//! The cordon is to be filled by the end of a stated leaf.

use super::seen::{Seen, under};
use super::{Finding, Severity};
use crate::row::Limit;
use crate::said::Arg;

pub(super) const RULE: &str = "cordon-fill-due";

/// Whether the leaf by whose end the cordon was to be filled is over.
pub(super) fn is_due(c: &Seen<'_>) -> bool {
    f64::from(c.row.leaf) > c.limit(Limit::FillDueLeaf)
}

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let asked = c.limit(Limit::FillDueShare);
    let share = c.cover.fill_share();
    if !is_due(c) || !under(share, asked) {
        return Vec::new();
    }
    let whole = c.whole();
    vec![Finding {
        rule: RULE,
        severity: Severity::Now,
        x: whole.from,
        z: c.g.wire,
        width: whole.length(),
        subjects: Vec::new(),
        measured: share,
        allowed: asked,
        limit: Limit::FillDueShare,
        args: vec![
            ("share", Arg::Share(share)),
            ("asked", Arg::Share(asked)),
            ("bare", Arg::Length(c.cover.owed - c.cover.filled)),
            ("due", Arg::Count(c.limit(Limit::FillDueLeaf) as i64)),
            ("leaf", Arg::Count(c.row.leaf.into())),
        ],
        // Every bare stretch is a finding of its own and has the work that fills it.
        remedies: Vec::new(),
    }]
}
