//! One season's growth of one tree, in two halves.
//!
//! A tree has so much growth to give, by its vigour, its trunk and its crop. Its growing points share it: twice as many get
//! some six tenths each. A shoot that is ahead stays ahead; what stands grows more than what lies. What a bud, a stub or old
//! wood does in spring is chance, told by tree, shoot and leaf alone: nothing is kept between seasons but the tree.

mod chance;
mod extend;
mod family;
mod points;
mod rings;
mod weight;

pub use rings::thickness_of_growth;

use crate::canopy::Canopy;
use crate::fruit;
use crate::model::Parameter::{
    ClassM, CropCost, FirstLeaf, LatPoint, Part1, ShareP, TreeSpread, TrunkHalf,
};
use crate::pose::layout;
use crate::range;
use crate::row::{GrowthUnit, Shoot, Tree, Vigour};
use crate::terms::{Assumptions, Terms};
use chance::Chance;
use family::Family;
use points::Spring;
use std::f64::consts::FRAC_PI_4;
use weight::Point;

/// Which half of a season: growth runs before and after the early-summer work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// From bud swell to early summer.
    First,
    /// From early summer to harvest.
    Second,
}

/// Growing points that share the growth by which vigour is told.
const POINTS: f64 = 8.0;

/// Heights of the tips of a tree's shoots, mm, in the order of its shoots.
pub type Tips<'f> = &'f dyn Fn(&Tree) -> Vec<f64>;

/// The tree after that half of `leaf`; `None` where nothing of it grows.
pub fn grow(tree: &Tree, leaf: u8, half: Half, terms: &Terms) -> Option<Tree> {
    let mut grown = tree.clone();
    grow_on(&mut grown, leaf, half, terms).then_some(grown)
}

/// As [`grow`], on the tree itself: whether anything of it grows. What does not grow is not touched.
pub fn grow_on(tree: &mut Tree, leaf: u8, half: Half, terms: &Terms) -> bool {
    let tips = |tree: &Tree| {
        let courses = layout(tree, terms.geometry);
        courses.iter().map(|c| c.tip().y).collect()
    };
    grow_between(tree, leaf, half, terms, &tips)
}

/// As [`grow_on`], from heights that are given.
pub fn grow_between(tree: &mut Tree, leaf: u8, half: Half, terms: &Terms, tips: Tips<'_>) -> bool {
    // Of wood of which no season is known nothing can be told.
    if tree.shoots.first().is_none_or(|stem| stem.units.is_empty()) {
        return false;
    }
    let a = &*terms.assumptions;
    let canopy = Canopy::of(tree, leaf, a);
    let mut season = Season {
        leaf,
        half,
        terms,
        a,
        chance: Chance::new(tree.id, leaf),
        class: 1000.0 * tree.vigour.map_or(a[ClassM], Vigour::class_m),
        first: 1.0,
    };
    season.first = season.first_leaf(tree);
    let whole = season.capacity(tree, &canopy);
    let mut family = Family::of(tree);
    let points = match half {
        Half::First => {
            let leaf_area = canopy.older_leaf_area(terms);
            Spring::new(&season, leaf_area, tips).sprout(tree, &mut family)
        }
        Half::Second => points::growing(tree, leaf),
    };
    if points.is_empty() {
        return false;
    }
    let points = season.weighed(tree, &family, &points);
    season.share(tree, &points, whole);
    if half == Half::Second {
        rings::thicken(tree, &family, leaf, terms);
    }
    true
}

/// What half of a season's growth reads besides the tree.
struct Season<'t> {
    leaf: u8,
    half: Half,
    terms: &'t Terms,
    a: &'t Assumptions,
    chance: Chance,
    /// Growth of the tree's vigour class, mm a season.
    class: f64,
    /// What the first leaf makes of it.
    first: f64,
}

impl Season<'_> {
    /// The share of a season's growth that the first leaf gives.
    fn first_leaf(&self, tree: &Tree) -> f64 {
        let planted = tree.shoots[0].born().unwrap_or(self.leaf);
        match self.leaf.saturating_sub(planted) <= 1 {
            true => self.a[FirstLeaf],
            false => 1.0,
        }
    }

    /// Growth of the whole tree in a season, mm, were it shared by eight points.
    fn capacity(&self, tree: &Tree, canopy: &Canopy) -> f64 {
        let a = self.a;
        let across = rings::thickness(&tree.shoots[0], self.leaf, a) / 10.0;
        let area = FRAC_PI_4 * across * across;
        let leaf_area = canopy.older_leaf_area(self.terms);
        let mut load = 0.0;
        if leaf_area > 0.0 {
            let fruit = fruit::of_flowers(canopy.flowers(self.leaf, self.terms), a);
            load = fruit * fruit::LEAF_OF_A_FRUIT / 1e4 / leaf_area;
        }
        let vigour = 1.0 + a[TreeSpread] * self.chance.of_tree();
        self.class * self.first * area / (area + a[TrunkHalf]) / (1.0 + a[CropCost] * load) * vigour
    }

    /// The part of the season's growth that comes in this half.
    fn part(&self) -> f64 {
        match self.half {
            Half::First => self.a[Part1],
            Half::Second => 1.0 - self.a[Part1],
        }
    }

    /// The growth of a shoot from before this season.
    fn older<'s>(&self, shoot: &'s Shoot) -> &'s [GrowthUnit] {
        let until = shoot.units.partition_point(|u| u.leaf < self.leaf);
        &shoot.units[..until]
    }

    /// Whether it grew in the leaf before this one.
    fn is_last_years(&self, unit: &GrowthUnit) -> bool {
        self.leaf.checked_sub(1) == Some(unit.leaf)
    }

    /// Last year's growth of a shoot that has none older and was cut back by more than half: each leaf bud left grows alike.
    fn cut_back<'s>(&self, shoot: &'s Shoot) -> Option<&'s GrowthUnit> {
        match self.older(shoot) {
            [only] if self.is_last_years(only) && only.kept < 0.5 * only.grown => Some(only),
            _ => None,
        }
    }

    /// Shares the growth of the half out over points and laterals.
    fn share(&self, tree: &mut Tree, points: &[Point], whole: f64) {
        let side = |count: u16| f64::from(count) * self.a[LatPoint];
        let laterals: f64 = tree.shoots.iter().map(|s| side(s.laterals.count)).sum();
        let n = points.len() as f64 + laterals;
        let total = whole * libm::pow(n / POINTS, 1.0 - self.a[ShareP]) * self.part();
        let all = points.iter().map(|p| p.weight).sum::<f64>() + laterals;
        for shoot in tree.shoots.iter_mut().filter(|s| s.laterals.count > 0) {
            let grown = total * side(shoot.laterals.count) / all;
            shoot.laterals.total = (shoot.laterals.total + grown).min(range::LATERALS_LENGTH.1);
        }
        for point in points {
            self.extend(
                &mut tree.shoots[point.shoot],
                point,
                total * point.weight / all,
            );
        }
    }
}
