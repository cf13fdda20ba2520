//! Several shoots that return from one stub, of which one is to stay: they stand in one place, and crowd nobody yet.

use super::seen::{Seen, SeenTree, over};
use super::{Finding, Remedy, Severity};
use crate::row::{Limit, Returns};
use crate::said::Arg;
use crate::work::Work;

pub(super) const RULE: &str = "returns-to-thin";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let of_tree = |seen: &SeenTree<'_>| -> Vec<Finding> {
        let all = seen.tree.returns();
        all.iter().filter_map(|r| finding(c, seen, r)).collect()
    };
    c.near_trees().flat_map(of_tree).collect()
}

fn finding(c: &Seen<'_>, seen: &SeenTree<'_>, r: &Returns<'_>) -> Option<Finding> {
    let most = c.limit(Limit::ReturnsMax);
    let count = r.all.len();
    let kept = r.kept(c.targets)?;
    let base = seen.courses[seen.tree.index(r.stub.id)?].base;
    let args = vec![
        ("part", seen.name(r.stub.id)),
        ("count", Arg::Count(count as i64)),
        ("kept", seen.name(kept.id)),
    ];
    over(count as f64, most).then(|| Finding {
        x: base.x,
        z: base.y,
        width: 0.0,
        subjects: r.all.iter().map(|s| seen.part(s.id)).collect(),
        args: args.clone(),
        remedies: vec![Remedy::new(
            "remedy-thin",
            args,
            vec![Work::Thin {
                tree: seen.tree.id,
                shoot: r.stub.id,
                keep: kept.id,
            }],
        )],
        ..seen.finding(c, RULE, Severity::Soon, Limit::ReturnsMax, count as f64)
    })
}
