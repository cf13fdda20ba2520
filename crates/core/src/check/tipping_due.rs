//! Last year's growth that has not been tipped.

use super::seen::{Seen, under};
use super::{Finding, Severity};
use crate::row::Limit;
use crate::words::Arg;

pub(super) const RULE: &str = "tipping-due";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    if f64::from(c.row.leaf) < c.limit(Limit::TippingLeaf) {
        return Vec::new();
    }
    let share = c.limit(Limit::TippingShare);
    c.trees
        .iter()
        .filter_map(|seen| {
            let whole: Vec<_> = seen
                .uprights()
                .map(|(s, _)| s)
                .filter(|s| {
                    s.units
                        .last()
                        .is_some_and(|u| u.leaf + 1 == c.row.leaf && !under(u.kept, u.grown))
                })
                .collect();
            (!whole.is_empty()).then(|| Finding {
                subjects: whole.iter().map(|s| seen.part(s.id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(whole.len() as i64)),
                    ("share", Arg::Share(share)),
                ],
                // Filled once tipping by a share is a kind of work.
                remedies: Vec::new(),
                ..seen.finding(c, RULE, Severity::Soon, Limit::TippingShare, 0.0)
            })
        })
        .collect()
}
