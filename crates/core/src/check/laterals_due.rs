//! Laterals that are still on the uprights once only uprights are to remain.

use super::seen::{Seen, over};
use super::{Finding, Remedy, Severity};
use crate::row::Limit;
use crate::said::Arg;
use crate::work::Work;

pub(super) const RULE: &str = "laterals-due";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    if f64::from(c.row.leaf) < c.limit(Limit::LateralsLeaf) {
        return Vec::new();
    }
    let most = c.limit(Limit::LateralsMax);
    c.near_trees()
        .filter_map(|seen| {
            let with: Vec<_> = seen
                .uprights()
                .map(|(s, _)| s)
                // What has grown in this leaf bears its laterals too: they are next winter's work.
                .filter(|s| s.units.last().is_none_or(|u| u.leaf < c.moment.leaf))
                .filter(|s| s.laterals.count > 0 && !c.is_due(seen, s.id))
                .collect();
            let count: u32 = with.iter().map(|s| u32::from(s.laterals.count)).sum();
            let count = f64::from(count);
            over(count, most).then(|| Finding {
                subjects: with.iter().map(|s| seen.part(s.id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(count as i64)),
                    ("uprights", Arg::Count(with.len() as i64)),
                    ("due", Arg::Count(c.limit(Limit::LateralsLeaf) as i64)),
                ],
                remedies: vec![Remedy::new(
                    "remedy-take-laterals",
                    vec![("tree", seen.number()), ("count", Arg::Count(count as i64))],
                    with.iter()
                        .map(|s| Work::TakeLaterals {
                            tree: seen.tree.id,
                            shoot: s.id,
                        })
                        .collect(),
                )],
                ..seen.finding(c, RULE, Severity::Soon, Limit::LateralsMax, count)
            })
        })
        .collect()
}
