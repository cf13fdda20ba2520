//! The uprights that a wall should keep through a winter, judged by their place and size alone.

use cordonry::check::Finding;
use cordonry::plan::{Plan, Replayed};
use cordonry::pose::Course;
use cordonry::row::{Face, Limit, Pose, Shoot, ShootId, Targets, Tree, TreeId};
use std::collections::BTreeMap;

/// An upright in its place.
#[derive(Clone, Copy, Debug)]
struct Upright {
    tree: TreeId,
    shoot: ShootId,
    x: f64,
    length: f64,
    thickness: f64,
}

/// The well-placed wood before a winter.
pub struct Wood {
    placed: Vec<Upright>,
    /// The most of them that can stand far enough apart.
    pub most: usize,
    /// This winter's renewal quota.
    pub quota: usize,
}

fn median(mut of: Vec<f64>) -> f64 {
    of.sort_by(f64::total_cmp);
    match of.len() {
        0 => 0.0,
        n if n % 2 == 1 => of[n / 2],
        n => (of[n / 2 - 1] + of[n / 2]) / 2.0,
    }
}

/// Whether it stands on the row's own cordon: on wood that is laid along the wire, from its top.
fn on_cordon(tree: &Tree, shoot: &Shoot, course: &Course, wire: f64, targets: &Targets) -> bool {
    let parent = shoot.parent.and_then(|p| tree.shoot(p));
    parent.is_some_and(|p| p.pose.is_laid())
        && shoot.face == Face::Top
        && (course.base.y - wire).abs() <= targets.get(Limit::CordonBand)
}

impl Wood {
    /// What is well placed in the found leaf's winter.
    pub fn of(plan: &Plan, at: &Replayed, found: &[Finding]) -> Self {
        let targets = &plan.targets;
        let leaf = at.row.leaf;
        let wire = at.terms.geometry.wire;
        let mut placed = Vec::new();
        let due = found.iter().filter(|f| f.rule == "renewal-due");
        let quota = due.map(|f| f.subjects.len()).sum();
        for posed in at.row.posed() {
            let tree = posed.tree();
            let all: Vec<(&Shoot, &Course)> = posed
                .pairs()
                .filter(|(s, _)| {
                    matches!(s.pose, Pose::Upright { .. })
                        && s.parent.is_some()
                        && !s.units.is_empty()
                })
                .collect();
            let thick = median(all.iter().map(|(s, _)| s.diameter).collect());
            let mut by_age: BTreeMap<Option<u8>, Vec<f64>> = BTreeMap::new();
            for (s, _) in &all {
                by_age.entry(s.born()).or_default().push(s.length());
            }
            let by_age: BTreeMap<_, f64> = by_age
                .into_iter()
                .map(|(age, l)| (age, median(l)))
                .collect();
            let inside = |x: f64| x >= at.row.from.f() && x <= at.row.to.f();
            for (s, course) in &all {
                let age = s.born().map_or(0, |b| leaf.saturating_sub(b));
                let lean = match s.pose {
                    Pose::Upright { lean } => lean.degrees().abs(),
                    _ => 90.0,
                };
                let good = on_cordon(tree, s, course, wire, targets)
                    && inside(course.base.x)
                    && f64::from(age) < targets.get(Limit::WoodAgeMax)
                    && lean <= 30.0
                    && s.length() >= by_age[&s.born()] / 2.0
                    && s.diameter <= targets.get(Limit::VigourRatio) * thick;
                if good {
                    placed.push(Upright {
                        tree: tree.id,
                        shoot: s.id,
                        x: course.base.x,
                        length: s.length(),
                        thickness: s.diameter,
                    });
                }
            }
        }
        placed.sort_by(|a, b| a.x.total_cmp(&b.x));
        let least = targets.get(Limit::UprightSpacingMin) - 1e-6;
        let mut last = f64::NEG_INFINITY;
        let mut most = 0;
        for u in &placed {
            if u.x - last >= least {
                most += 1;
                last = u.x;
            }
        }
        Self {
            placed,
            most,
            quota,
        }
    }

    pub fn costs(&self, r: &cordonry::check::Remedy) -> usize {
        r.work
            .iter()
            .filter(|w| {
                matches!(
                    w,
                    cordonry::work::Work::Remove { .. }
                        | cordonry::work::Work::Stub { .. }
                        | cordonry::work::Work::CutBack { .. }
                        | cordonry::work::Work::CutToBuds { .. }
                        | cordonry::work::Work::HoldHeight { .. }
                ) && self
                    .placed
                    .iter()
                    .any(|u| w.tree() == Some(u.tree) && w.subject().shoot == u.shoot)
            })
            .count()
    }

    /// How many of them still stand, and the median thickness of those and of all without their quota of thickest.
    pub fn left(&self, after: &Replayed) -> (usize, (f64, f64)) {
        let stands = |u: &&Upright| {
            let there = after.row.shoot(u.tree, u.shoot);
            there.is_some_and(|(_, s)| {
                matches!(s.pose, Pose::Upright { .. } | Pose::Laid { .. })
                    && s.length() >= u.length / 2.0
            })
        };
        let standing: Vec<f64> = self
            .placed
            .iter()
            .filter(stands)
            .map(|u| u.thickness)
            .collect();
        let mut all: Vec<f64> = self.placed.iter().map(|u| u.thickness).collect();
        all.sort_by(f64::total_cmp);
        all.truncate(all.len().saturating_sub(self.quota));
        (standing.len(), (median(standing), median(all)))
    }
}
