//! Leaf and flowers of a tree, by the age of its wood, and the light that its leaves leave below them.
//!
//! Wood in its first season carries single leaves at its nodes; from its second on, spurs that bear from its third. Laid wood
//! has leaves and no fruit. What a wall can't carry for want of light is shed, its flowers with it.

use crate::model::Parameter::{
    Blind, BudsSpur, FirstCrop, FlowersBud, LaiMost, LatFlowers, LeafDark, LeafLaid, LeafLateral,
    LeafShoot, LeafSpur, Leaves1, Leaves2, OldFrom, OldLeast, OldLoss, SideBear,
};
use crate::nodes::{blind_nodes, leaf_nodes_below, nodes_below, nodes_kept, sites_kept};
use crate::row::{Face, GrowthUnit, Kind, Shoot, Tree};
use crate::terms::{Assumptions, Stand, Terms};

const CM2_TO_M2: f64 = 1e-4;

/// What a tree's wood would carry in a leaf, were there light for all of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Canopy {
    /// Leaf on wood that was there before this leaf, and on laterals, m².
    pub older: f64,
    /// Leaf on what has grown in this leaf, m².
    pub new: f64,
    /// Flowers.
    pub flowers: f64,
}

impl Canopy {
    /// Of a tree in a leaf.
    pub fn of(tree: &Tree, leaf: u8, a: &Assumptions) -> Self {
        let mut out = Self::default();
        for shoot in &tree.shoots {
            out.add(shoot, leaf, a);
        }
        out
    }

    /// Of one shoot.
    pub fn of_shoot(shoot: &Shoot, leaf: u8, a: &Assumptions) -> Self {
        let mut out = Self::default();
        out.add(shoot, leaf, a);
        out
    }

    fn add(&mut self, shoot: &Shoot, leaf: u8, a: &Assumptions) {
        self.older += shoot.laterals.total / 1000.0 * a[LeafLateral];
        let kind = shoot.kind();
        if matches!(kind, Kind::Stem | Kind::Stub) {
            return;
        }
        let mut flowers = 0.0;
        for unit in &shoot.units {
            let age = leaf.saturating_sub(unit.leaf);
            let area = leaf_below(shoot, unit, unit.kept, leaf, a);
            match age {
                0 => self.new += area,
                _ => self.older += area,
            }
            flowers += match age {
                _ if kind == Kind::Leader => 0.0,
                0 => 0.0,
                1 => blind_nodes(unit.grown, a).min(nodes_kept(unit, a)) * a[FlowersBud],
                _ => spur_flowers(unit, age, a),
            };
        }
        if kind == Kind::Leader {
            return;
        }
        flowers += f64::from(shoot.laterals.count) * a[LatFlowers];
        self.flowers += match shoot.face {
            Face::Top => flowers,
            Face::Side | Face::Under => flowers * a[SideBear],
        };
    }

    /// Leaf of the whole season, m², as far as there is light for it.
    pub fn leaf_area(&self, terms: &Terms) -> f64 {
        (self.older + self.new) * self.carried(terms)
    }

    /// Share, 0 to 1, of the leaf of the whole season that there is light for.
    pub fn carried(&self, terms: &Terms) -> f64 {
        carried(self.older + self.new, terms)
    }

    /// Leaf without what grows in this leaf, m², as far as there is light for it.
    pub fn older_leaf_area(&self, terms: &Terms) -> f64 {
        self.older * carried(self.older, terms)
    }

    /// Flowers of the tree in `leaf`: none before the first that is let bear. Asked before the second half of a season's
    /// growth, for that season's laterals bear nothing.
    pub fn flowers(&self, leaf: u8, terms: &Terms) -> f64 {
        if leaf < terms.stand.crop_from {
            return 0.0;
        }
        self.flowers * carried(self.older, terms)
    }
}

/// Leaf, m², on the lowest `to` mm of a year's growth of a shoot, were there light for all of it. Laterals are not counted.
pub fn leaf_below(shoot: &Shoot, unit: &GrowthUnit, to: f64, leaf: u8, a: &Assumptions) -> f64 {
    match shoot.kind() {
        Kind::Stem | Kind::Stub => 0.0,
        Kind::Leader => a[LeafLaid] * to / 1000.0,
        _ => {
            let leaves = match leaf.saturating_sub(unit.leaf) {
                0 => return nodes_below(unit, to, a) * a[LeafShoot] * CM2_TO_M2,
                1 => a[Leaves1],
                age => a[Leaves2] * in_age(age, a),
            };
            leaf_nodes_below(unit, to, a) * leaves * a[LeafSpur] * CM2_TO_M2
        }
    }
}

/// Share of `potential` leaf, m², and of the flowers with it, that the wall can carry.
fn carried(potential: f64, terms: &Terms) -> f64 {
    let index = potential / terms.stand.ground();
    if index <= 0.0 {
        return 1.0;
    }
    (terms.assumptions[LaiMost] / index).min(1.0)
}

/// What wood of an age, in completed seasons, still bears of what it did at its best.
fn in_age(age: u8, a: &Assumptions) -> f64 {
    let past = (f64::from(age) - a[OldFrom]).max(0.0);
    (1.0 - a[OldLoss] * past).max(a[OldLeast])
}

/// Flowers of the spurs of a year's growth that is two years old or older.
fn spur_flowers(unit: &GrowthUnit, age: u8, a: &Assumptions) -> f64 {
    spurs_of(unit, a) * a[BudsSpur] * a[FlowersBud] * bears(age, a)
}

/// Spurs of a year's growth that is two years old or older.
fn spurs_of(unit: &GrowthUnit, a: &Assumptions) -> f64 {
    sites_kept(unit, a) * (1.0 - a[Blind])
}

/// Share of what a spur bears at its best that it bears at an age, in completed seasons.
fn bears(age: u8, a: &Assumptions) -> f64 {
    let young = if age == 2 { a[FirstCrop] } else { 1.0 };
    young * in_age(age, a)
}

/// The bearing spurs of trees.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spurs {
    /// How many there are.
    count: f64,
    /// How many at their best would bear as much.
    best: f64,
}

impl Spurs {
    /// Adds those of a tree in a leaf.
    pub fn add(&mut self, tree: &Tree, leaf: u8, a: &Assumptions) {
        let bearing = |s: &&Shoot| !matches!(s.kind(), Kind::Stem | Kind::Stub | Kind::Leader);
        for unit in tree.shoots.iter().filter(bearing).flat_map(|s| &s.units) {
            let age = leaf.saturating_sub(unit.leaf);
            if age >= 2 {
                let spurs = spurs_of(unit, a);
                self.count += spurs;
                self.best += spurs * bears(age, a);
            }
        }
    }

    /// Fruit buds of one in the mean; of none what one has at its best.
    pub fn buds(&self, a: &Assumptions) -> f64 {
        let share = if self.count > 0.0 {
            self.best / self.count
        } else {
            1.0
        };
        a[BudsSpur] * share
    }
}

/// Light at a height, as a share of that above the row, in the middle of an endless even wall of this tree's density. `z` and
/// `top`, the wall's upper edge, are mm, `leaf_area` m². A closed form, fitted to the integral for black leaves under a uniform
/// sky in a wall 0.5 m thick: at an index of 0.5 to 3 and rows of 2 to 4 m off by 0.013 in the mean, 0.04 at most.
pub fn base_light(
    z: f64,
    top: f64,
    leaf_area: f64,
    wire: f64,
    stand: &Stand,
    a: &Assumptions,
) -> f64 {
    let deep = (top - wire) / 1000.0;
    let dense = a[LeafDark] * leaf_area / (2.0 * stand.tree_spacing / 1000.0 * deep);
    let below = (top - z).max(0.0) / 1000.0;
    let rows = stand.row_spacing / 1000.0;
    let through = libm::exp(-1.7 * libm::pow(dense, 0.93) * below / (below + 0.36));
    through * libm::pow(rows / libm::hypot(rows, below), 0.75)
}
