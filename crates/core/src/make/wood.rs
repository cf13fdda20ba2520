//! Shoots and leaders put together.

use crate::pose::{Course, Geometry, course_of};
use crate::row::{GrowthUnit, Planted, Pose, Shoot, ShootId, Toward, Tree, TreeId};
use crate::units::{Deg, Mm};

/// How far above its wire the end of a leader may come to lie, mm: it still counts as cordon.
const END_RISE: f64 = 90.0;
/// The rise that leaders are laid at, degrees. From memory: 2 to 5.
const RISE: f64 = 2.0;
/// Height of a fork under the cordon wire, as a share of the wire's height.
const FORK: f64 = 0.55;

/// A found shoot from the base of its parent, on its top.
pub(crate) fn shoot(
    id: u32,
    parent: Option<ShootId>,
    pose: Pose,
    units: Vec<GrowthUnit>,
    diameter: f64,
) -> Shoot {
    Shoot {
        pose,
        units,
        diameter,
        ..Shoot::bud(ShootId::found(id), parent, 0.0)
    }
}

/// The pose of a leader laid over `reach` mm of wire.
pub(crate) fn laid(toward: Toward, reach: f64) -> Pose {
    let steepest = libm::atan2(END_RISE, reach.max(1.0)).to_degrees();
    // Rounded down to a tenth of a degree.
    let rise = libm::floor(RISE.min(steepest) * 10.0) / 10.0;
    Pose::Laid {
        toward,
        rise: Deg::new(rise),
    }
}

/// A tree without wood yet.
pub(crate) fn bare_tree(id: TreeId, foot: Mm, planted: Planted) -> Tree {
    Tree::lost(id, foot, planted)
}

/// Length of a stem up to the fork of two leaders.
pub(crate) fn fork_length(planted: Planted, wire: f64) -> f64 {
    libm::round(FORK * wire / libm::sin(planted.angle.radians()).max(0.17)).max(10.0)
}

/// The course of a shoot of that length, were it on the tree.
pub(crate) fn course(tree: &Tree, shoot: &Shoot, length: f64, g: Geometry) -> Course {
    let mut long = shoot.clone();
    long.units = vec![GrowthUnit::whole(0, length)];
    let parent = shoot
        .parent
        .and_then(|p| tree.shoot(p))
        .map(|p| course_of(tree, p, None, g));
    course_of(tree, &long, parent.as_ref(), g)
}

/// Length, in whole mm, that brings the end of a laid shoot to the place `x`; at least 1.
pub(crate) fn length_to(tree: &Tree, shoot: &Shoot, x: f64, g: Geometry) -> f64 {
    let long = course(tree, shoot, Shoot::MAX_LENGTH, g);
    let length = long.at_x(x).unwrap_or(0.0);
    libm::ceil(length - 1e-6).clamp(1.0, Shoot::MAX_LENGTH)
}
