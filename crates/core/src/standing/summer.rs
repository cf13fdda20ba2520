//! Early summer: stock is laid, and of the returns of a stub one is kept.

use super::cordon::is_to_be_laid;
use super::{Job, Rule};
use crate::row::Pose;
use crate::units::Deg;
use crate::work::Work;

/// How far beyond the wire stock reaches that is laid, mm.
const BEYOND_WIRE: f64 = 100.0;

pub(super) fn work(job: &mut Job<'_>) {
    let mut works: Vec<Work> = lay(job).into_iter().collect();
    if job.rules.does(Rule::Thin) {
        thin(job, &mut works);
    }
    job.carry_out(works);
}

fn lay(job: &Job<'_>) -> Option<Work> {
    let tree = &job.tree;
    let stem = tree.shoots.first().filter(|s| is_to_be_laid(tree, s))?;
    let climb = libm::sin(tree.planted.angle.radians()).max(1e-3);
    let to_wire = job.terms.geometry.wire / climb;
    let planted = stem.units.first()?.kept;
    let short = planted < to_wire + job.terms.stand.tree_spacing / 2.0;
    let waits = short && !job.rules.begun(Rule::LayShort, job.leaf);
    let lays = job.rules.does(Rule::Lay) && !waits && stem.length() > to_wire + BEYOND_WIRE;
    lays.then(|| Work::Lay {
        tree: tree.id,
        shoot: stem.id,
        toward: tree.planted.toward,
        rise_deg: Deg::new(job.rules.get(Rule::Rise)),
    })
}

fn thin(job: &Job<'_>, works: &mut Vec<Work>) {
    for returns in job.tree.returns() {
        let kept = returns.kept(job.targets);
        // What was laid or cut to a stub on it is not one of several.
        let alike = |s: &&crate::row::Shoot| !s.pose.is_laid() && s.pose != Pose::Stub;
        let stand = job
            .tree
            .shoots
            .iter()
            .filter(|s| s.parent == Some(returns.stub.id));
        if stand.clone().count() < 2 || !stand.clone().all(|s| alike(&s)) {
            continue;
        }
        works.extend(kept.map(|kept| Work::Thin {
            tree: job.tree.id,
            shoot: returns.stub.id,
            keep: kept.id,
        }));
    }
}
