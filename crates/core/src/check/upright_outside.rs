//! An upright whose tip stands beyond its own tree's cordon.

use super::seen::{Seen, over};
use super::{Finding, Remedy, Severity};
use crate::row::{Limit, Pose, ShootId, TreeId};
use crate::said::Arg;
use crate::units::Deg;
use crate::work::Work;

pub(super) const RULE: &str = "upright-outside";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::OutsideMax);
    let mut out = Vec::new();
    for seen in c.near_trees() {
        let reach = c.reach(seen);
        let beyond = |x: f64| (reach.from - x).max(x - reach.to);
        for (shoot, course) in seen.uprights() {
            let tip = course.tip();
            let far = beyond(tip.x);
            if !over(far, c.let_pass(Limit::OutsideMax)) {
                continue;
            }
            let leans = !matches!(shoot.pose, Pose::Upright { lean } if lean == Deg::new(0.0));
            let mends = leans && !over(beyond(course.base.x), most);
            out.push(Finding {
                rule: RULE,
                severity: Severity::Note,
                x: tip.x,
                z: tip.y,
                width: 0.0,
                subjects: vec![seen.part(shoot.id)],
                measured: far,
                allowed: most,
                limit: Limit::OutsideMax,
                args: vec![
                    ("part", seen.name(shoot.id)),
                    ("beyond", super::seen::distance(far)),
                    ("most", super::seen::distance(most)),
                ],
                remedies: if mends {
                    vec![straighten(seen.tree.id, shoot.id, seen.name(shoot.id))]
                } else {
                    Vec::new()
                },
            });
        }
    }
    out
}

/// The upright tied straight up.
pub(super) fn straighten(tree: TreeId, shoot: ShootId, name: Arg) -> Remedy {
    Remedy::new(
        "remedy-straighten",
        vec![("part", name)],
        vec![tied_straight(tree, shoot)],
    )
}

/// The work that ties an upright straight up.
pub(super) fn tied_straight(tree: TreeId, shoot: ShootId) -> Work {
    Work::Stand {
        tree,
        shoot,
        lean_deg: Deg::new(0.0),
    }
}
