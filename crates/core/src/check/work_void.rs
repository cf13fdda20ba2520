//! Work that touched nothing, since its subject is not there at its time.

use super::seen::Seen;
use super::{Finding, Part, Severity};
use crate::row::Limit;
use crate::said::Arg;

pub(super) const RULE: &str = "work-void";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let allowed = c.limit(Limit::VoidWorkMax);
    if !super::seen::over(c.void.len() as f64, allowed) {
        return Vec::new();
    }
    c.void
        .iter()
        .map(|void| {
            let subject = void.work.subject();
            let tree = subject.tree.and_then(|id| c.tree(id));
            Finding {
                rule: RULE,
                severity: Severity::Note,
                x: tree.map_or(c.row.from.f(), |t| t.tree.foot.f()),
                z: 0.0,
                width: 0.0,
                subjects: subject
                    .tree
                    .map(|id| Part {
                        tree: id,
                        shoot: tree.and_then(|t| t.tree.shoot(subject.shoot)).map(|s| s.id),
                    })
                    .into_iter()
                    .collect(),
                measured: c.void.len() as f64,
                allowed,
                limit: Limit::VoidWorkMax,
                args: vec![
                    ("leaf", Arg::Count(void.moment.leaf.into())),
                    ("why", void.why.clone().into()),
                ],
                remedies: Vec::new(),
            }
        })
        .collect()
}
