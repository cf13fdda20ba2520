//! Early summer: stock is laid, of the returns of a stub one is kept, and a held upright goes on alone.

use super::cordon::to_be_laid;
use super::winter::few;
use super::{Job, Rule};
use crate::nodes::length_of_buds;
use crate::pose::course;
use crate::row::{Kind, Origin, Pose, Shoot, Toward};
use crate::units::Deg;
use crate::work::Work;

/// How far beyond the wire stock reaches that is laid, mm.
const BEYOND_WIRE: f64 = 100.0;
/// To so many buds at most an upright is cut back that is to bring more of them.
const FEW_BUDS: i32 = 4;

pub(super) fn work(job: &mut Job<'_>) {
    let mut works = lay(job);
    if job.rules.does(Rule::Thin) {
        thin(job, &mut works);
        beside_held(job, &mut works);
    }
    job.carry_out(works);
}

/// Lays the stem, or the two leaders of stock that forks. Each is to reach beyond the wire, and what covers less than half of
/// its part of the row is short.
fn lay(job: &Job<'_>) -> Vec<Work> {
    let tree = &job.tree;
    if !job.rules.does(Rule::Lay) {
        return Vec::new();
    }
    let (g, spacing) = (job.terms.geometry, job.terms.stand.tree_spacing);
    let ready = |shoot: &Shoot, to_wire: f64, part: f64| {
        let planted = shoot.units.first().map_or(0.0, |u| u.kept);
        let short = planted < to_wire + part / 2.0;
        let waits = short && !job.rules.begun(Rule::LayShort, job.leaf);
        !waits && shoot.length() > to_wire + BEYOND_WIRE
    };
    let laid = |shoot: &Shoot, toward: Toward| Work::Lay {
        tree: tree.id,
        shoot: shoot.id,
        toward,
        rise_deg: Deg::new(job.rules.get(Rule::Rise)),
    };
    if let Some(leaders) = tree.standing_leaders() {
        let to_wire = (g.wire - course(tree, 0, g).tip().y).max(0.0);
        if !leaders.iter().all(|s| ready(s, to_wire, spacing / 2.0)) {
            return Vec::new();
        }
        return vec![
            laid(leaders[0], Toward::Left),
            laid(leaders[1], Toward::Right),
        ];
    }
    let stem = tree
        .shoots
        .first()
        .filter(|s| to_be_laid(tree, s).is_some());
    let climb = libm::sin(tree.planted.angle.radians()).max(1e-3);
    let stem = stem.filter(|s| ready(s, g.wire / climb, spacing));
    let lays = stem.map(|s| laid(s, tree.planted.toward));
    lays.into_iter().collect()
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

/// What came beside an upright that the wall's height cut to less than half of its growth, where the tree has its uprights.
/// One that was cut to a few buds was to bring more.
fn beside_held(job: &Job<'_>, works: &mut Vec<Work>) {
    let (tree, leaf, a) = (&*job.tree, job.moment.leaf, &*job.terms.assumptions);
    let was_held = |s: &Shoot| {
        let older = s.units.iter().rfind(|u| u.leaf < leaf);
        older.is_some_and(|u| u.kept > length_of_buds(a, u.grown, FEW_BUDS) + 1.0)
    };
    let is_beside = |s: &Shoot| {
        s.origin == Some(Origin::CutBackBud)
            && s.born() == Some(leaf)
            && s.parent.and_then(|p| tree.shoot(p)).is_some_and(was_held)
    };
    let beside: Vec<&Shoot> = tree.shoots.iter().filter(|s| is_beside(s)).collect();
    if beside.is_empty() {
        return;
    }
    let places: usize = job.sides().iter().map(|side| side.places).sum();
    let all = tree.shoots.iter().filter(|s| s.kind() == Kind::Upright);
    if few(all.count() - beside.len(), places as f64) {
        return;
    }
    works.extend(beside.into_iter().map(|s| Work::Remove {
        tree: tree.id,
        shoot: s.id,
    }));
}
