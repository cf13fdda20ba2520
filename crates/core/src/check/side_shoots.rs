//! Buds and shoots left on the sides and the underside of the cordon.

use super::seen::{Seen, over};
use super::{Finding, Remedy, Severity};
use crate::row::Limit;
use crate::said::Arg;
use crate::work::Work;

pub(super) const RULE: &str = "side-shoots";
pub(super) const BUDS: &str = "rub-out-due";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::SideShootsMax);
    c.near_trees()
        .filter_map(|seen| {
            let left: Vec<_> = seen
                .tree
                .shoots
                .iter()
                .filter(|s| seen.tree.is_side_shoot(s))
                .collect();
            let count = left.len() as f64;
            over(count, most).then(|| Finding {
                subjects: left.iter().map(|s| seen.part(s.id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(left.len() as i64)),
                ],
                remedies: vec![Remedy::new(
                    "remedy-take-off-side",
                    vec![
                        ("tree", seen.number()),
                        ("count", Arg::Count(left.len() as i64)),
                    ],
                    // What grows from another of them goes with it.
                    seen.outermost(&left.iter().map(|s| s.id).collect::<Vec<_>>())
                        .into_iter()
                        .map(|shoot| Work::Remove {
                            tree: seen.tree.id,
                            shoot,
                        })
                        .collect(),
                )],
                ..seen.finding(c, RULE, Severity::Soon, Limit::SideShootsMax, count)
            })
        })
        .collect()
}

/// Side and underside buds of the cordon are rubbed out at bud swell, while it is young.
pub(super) fn find_buds(c: &Seen<'_>) -> Vec<Finding> {
    if over(f64::from(c.row.leaf), c.limit(Limit::RubOutLeaf)) {
        return Vec::new();
    }
    c.near_trees()
        .filter_map(|seen| {
            let left: Vec<_> = seen
                .tree
                .shoots
                .iter()
                .filter(|s| s.pose.is_laid() && !s.units.is_empty() && !s.rubbed)
                .collect();
            let first = left.first()?;
            Some(Finding {
                subjects: left.iter().map(|s| seen.part(s.id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("part", seen.name(first.id)),
                    ("count", Arg::Count(left.len() as i64)),
                ],
                remedies: vec![Remedy::new(
                    "remedy-rub-out",
                    vec![("tree", seen.number())],
                    c.doable(
                        seen.tree,
                        left.iter().map(|s| Work::RubOut {
                            tree: seen.tree.id,
                            shoot: s.id,
                        }),
                    ),
                )],
                ..seen.finding(
                    c,
                    BUDS,
                    Severity::Note,
                    Limit::RubOutLeaf,
                    f64::from(c.row.leaf),
                )
            })
        })
        .collect()
}
