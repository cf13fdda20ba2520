//! Which uprights of a tree are cut to stubs in a winter.

use super::{Job, Rule};
use crate::arrange::Arrange;
use crate::renewal::{Renewal, Share, Upright};
use crate::row::{Kind, Limit, Pose, Shoot, ShootId};
use crate::units::Mm;
use crate::work::Work;

/// A bud, stub or upright, from left to right.
struct Place {
    x: f64,
    shoot: ShootId,
    /// Whether it bears: no stub and no bud.
    bears: bool,
    /// What of it decides; `None` of a bud.
    wood: Option<Upright>,
}

/// The stubs of this winter.
pub(super) fn stubs(job: &Job<'_>) -> Vec<Work> {
    if !job.rules.begun(Rule::RenewFrom, job.leaf) {
        return Vec::new();
    }
    let share = Share::near(job.limit(Limit::RenewalShare));
    let age_limit = job.limit(Limit::WoodAgeMax) as u8;
    let places = places(job);
    let wood: Vec<usize> = (0..places.len())
        .filter(|p| places[*p].wood.is_some())
        .collect();
    let uprights: Vec<Upright> = wood.iter().filter_map(|p| places[*p].wood).collect();
    let rule = Renewal { share, age_limit };
    let few = too_few(job, places.iter().filter(|p| p.bears).count());
    let most = job.targets.let_pass(Limit::UprightSpacingMax);
    // A stub is not to stand beside a hole of the wall, nor beside another of this winter.
    let harms = |i: usize, cut: &[usize]| {
        let here = wood[i];
        let beside = |other: Option<usize>| {
            let Some((at, next)) = other.and_then(|o| Some((o, places.get(o)?))) else {
                return false;
            };
            let cut = cut.iter().any(|c| wood[*c] == at);
            cut || !next.bears || (next.x - places[here].x).abs() > most
        };
        beside(here.checked_sub(1)) || beside(Some(here + 1))
    };
    // Trees have their turns one after the other, so that a row has much the same work each winter.
    let winter = u32::from(job.moment.leaf).saturating_add(job.tree.id.0);
    let chosen = rule.due(few, &uprights, winter, &harms).cut;
    let chosen: Vec<ShootId> = chosen.iter().map(|i| places[wood[*i]].shoot).collect();
    // What stands on another that is cut goes with it.
    let outermost = |id: &&ShootId| {
        let shoot = job.tree.shoot(**id);
        !shoot.is_some_and(|s| chosen.iter().any(|c| job.tree.grows_from(s, *c)))
    };
    let keep_mm = Mm::round(job.limit(Limit::StubLength));
    let stub = |id: &ShootId| Work::Stub {
        tree: job.tree.id,
        shoot: *id,
        keep_mm,
    };
    chosen.iter().filter(outermost).map(stub).collect()
}

fn places(job: &Job<'_>) -> Vec<Place> {
    let (leaf, begins) = (job.moment.leaf, job.rules.get(Rule::RenewFrom));
    let begins = begins + f64::from(leaf - job.leaf);
    let keep = job.limit(Limit::StubLength);
    let spare = job.tree.spare_returns(job.targets);
    let wood = job.wood();
    let x = |root: &Shoot| {
        let on = wood.iter().find(|w| Some(job.id(w.0)) == root.parent);
        on.map_or(0.0, |(_, course)| course.point(root.at).x)
    };
    let place = |(at, root): (usize, usize)| {
        let shoot = &job.tree.shoots[at];
        let bears = shoot.kind() == Kind::Upright;
        let wood = (shoot.kind() != Kind::Bud).then(|| Upright {
            age: shoot.born().map_or(0, |b| leaf.saturating_sub(b)),
            size: shoot.size(),
            cut: job.tree.winters_since_stub(shoot, leaf, begins),
            stubbed: false,
            // What is no longer than a stub can't be cut to one.
            spared: shoot.pose == Pose::Stub || shoot.length() <= keep,
            crowds: false,
        });
        Place {
            x: x(&job.tree.shoots[root]),
            shoot: shoot.id,
            bears,
            wood,
        }
    };
    let mut holders = job.holders();
    holders.retain(|(at, _)| !spare.contains(&job.id(*at)));
    let mut out: Vec<Place> = holders.into_iter().map(place).collect();
    out.arrange_by(|a, b| a.x.total_cmp(&b.x));
    out
}

/// Whether a tree has fewer uprights than its cordon needs.
fn too_few(job: &Job<'_>, uprights: usize) -> bool {
    let laid = job.sides().into_iter().map(|side| {
        let ends = side.wood.iter().map(|(_, course)| side.end(course));
        ends.fold(0.0, f64::max)
    });
    let off = 2.0 * job.limit(Limit::PlaceTolerance);
    let each = (laid.sum::<f64>() - off) / uprights.max(1) as f64;
    each > job.limit(Limit::UprightSpacingMax)
}
