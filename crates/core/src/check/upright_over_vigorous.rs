//! An upright near the trunk that is much thicker than its tree's others.

use super::placed::median_thickness;
use super::renewal::stub;
use super::seen::{Seen, over};
use super::{Finding, Severity};
use crate::row::{Limit, Pose, ShootId, Toward};
use crate::said::Arg;

pub(super) const RULE: &str = "upright-over-vigorous";

/// A median of fewer than this says little.
const FEWEST: usize = 3;

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::VigourRatio);
    let near = c.limit(Limit::NearTrunk);
    let mut out = Vec::new();
    for seen in &c.trees {
        let Some(median) = median_thickness(c, seen, FEWEST) else {
            continue;
        };
        for (shoot, course) in seen.uprights() {
            let ratio = shoot.diameter / median;
            let Some(from_trunk) = shoot
                .parent
                .and_then(|p| trunk_end(c, seen.tree, p))
                .map(|start| (course.base.x - start).abs())
            else {
                continue;
            };
            let thickest = most * median + c.limit(Limit::ThicknessTolerance);
            if !over(shoot.diameter, thickest) || over(from_trunk, near) {
                continue;
            }
            out.push(Finding {
                rule: RULE,
                severity: Severity::Soon,
                x: course.base.x,
                z: course.base.y,
                width: 0.0,
                subjects: vec![seen.part(shoot.id)],
                measured: ratio,
                allowed: most,
                limit: Limit::VigourRatio,
                args: vec![
                    ("part", seen.name(shoot.id)),
                    ("diameter", Arg::Thickness(shoot.diameter)),
                    ("ratio", Arg::Number(ratio, 1)),
                    ("median", Arg::Thickness(median)),
                    ("from_trunk", super::seen::distance(from_trunk)),
                ],
                remedies: stub(c, seen, &[shoot.id]).into_iter().collect(),
            });
        }
    }
    out
}

/// Where the cordon begins at the trunk, for wood that is laid from the trunk itself.
fn trunk_end(c: &Seen<'_>, tree: &crate::row::Tree, laid: ShootId) -> Option<f64> {
    let shoot = tree.shoot(laid)?;
    let from_trunk = match shoot.parent {
        None => true,
        Some(p) => !tree.shoot(p)?.pose.is_laid(),
    };
    let span = c.laid_at(tree.id, laid)?.span;
    match shoot.pose {
        Pose::Laid { toward, .. } if from_trunk => Some(match toward {
            Toward::Right => span.from,
            Toward::Left => span.to,
        }),
        _ => None,
    }
}
