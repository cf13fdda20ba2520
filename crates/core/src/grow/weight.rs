//! How much of the tree's growth each point draws: by what it grew before, by how steep it stands, and by how near to the trunk
//! it is on a flat cordon.

use super::Season;
use super::chance::Matter;
use super::family::Family;
use super::points::is_trained;
use crate::model::Parameter::{
    BudSpread, Flat, HeldW, LeadR, NearReach, NearRise, NearTrunk, StubW, WildSpread,
};
use crate::model::power;
use crate::row::{Face, GrowthUnit, Origin, Pose, Shoot, Tree};

/// Length of last year's growth, mm, that weighs 1.
const EVEN: f64 = 600.0;

/// A growing point.
pub(super) struct Point {
    /// The place of its shoot among the tree's.
    pub shoot: usize,
    /// Its part of the tree's growth is this over the sum of all.
    pub weight: f64,
    /// What of the weight its steepness makes: 1 upright.
    pub steep: f64,
}

impl Season<'_> {
    /// Length of the stem up to the wire, mm.
    pub fn to_wire(&self, tree: &Tree) -> f64 {
        let climb = libm::sin(tree.planted.angle.radians());
        self.terms.geometry.wire / climb.max(1e-3)
    }

    /// The points with their weights.
    pub fn weighed(&self, tree: &Tree, family: &Family, points: &[usize]) -> Vec<Point> {
        let near = self.near_trunk(tree, family);
        let weighed = |at: &usize| {
            let steep = self.steep(tree, &tree.shoots[*at]);
            Point {
                shoot: *at,
                weight: self.lead(tree, family, *at) * steep * near[*at],
                steep,
            }
        };
        points.iter().map(weighed).collect()
    }

    fn of_growth(&self, unit: &GrowthUnit) -> f64 {
        power(unit.grown / EVEN, self.a[LeadR])
    }

    /// What a shoot weighs by its past.
    fn lead(&self, tree: &Tree, family: &Family, at: usize) -> f64 {
        let shoot = &tree.shoots[at];
        let last = self.older(shoot).last();
        if is_trained(shoot) {
            return last.map_or(1.0, |u| self.of_growth(u).min(1.0));
        }
        if last.is_some() {
            return self.cut_lead(tree, family, at);
        }
        // Its first season. The stem is trained, so it has a parent.
        let Some(from) = family.parent(at) else {
            return 1.0;
        };
        let parent = &tree.shoots[from];
        if parent.pose == Pose::Stub {
            let beside = family.children(from).filter(|c| {
                let c = &tree.shoots[*c];
                !c.pose.is_laid() && c.born() == Some(self.leaf)
            });
            return self.a[StubW] / (beside.count().max(1) as f64);
        }
        // A leader that is still to be laid carries kept buds as laid wood does.
        if is_trained(parent) || shoot.origin == Some(Origin::KeptBud) {
            let spread = match parent.rubbed {
                true => self.a[BudSpread],
                false => self.a[WildSpread],
            };
            return 1.0 + spread * self.chance.of_shoot(shoot.id, Matter::Weight);
        }
        self.cut_lead(tree, family, from)
    }

    /// What a shoot with older wood weighs; of one that was cut back, each of the even shoots that come of it.
    fn cut_lead(&self, tree: &Tree, family: &Family, at: usize) -> f64 {
        let shoot = &tree.shoots[at];
        let Some(last) = self.older(shoot).last() else {
            return 1.0;
        };
        if !self.is_last_years(last) {
            return self.a[HeldW];
        }
        let lead = self.of_growth(last);
        if self.cut_back(shoot).is_none() {
            return lead;
        }
        let born = |c: &usize| tree.shoots[*c].born() == Some(self.leaf);
        lead / (1 + family.children(at).filter(born).count()) as f64
    }

    /// What its steepness makes of a shoot's growth: 1 upright, less as it lies.
    fn steep(&self, tree: &Tree, shoot: &Shoot) -> f64 {
        let rise = match shoot.pose {
            Pose::Laid { rise, .. } => rise.degrees(),
            Pose::Upright { lean } => 90.0 - lean.degrees().abs(),
            Pose::Free | Pose::Stub if shoot.parent.is_none() => tree.planted.angle.degrees(),
            Pose::Stub => 90.0,
            Pose::Free => match shoot.face {
                Face::Top => 65.0,
                Face::Side => 40.0,
                Face::Under => -50.0,
            },
        };
        let flat = self.a[Flat];
        flat + (1.0 - flat) * libm::sin(rise.to_radians()).max(0.0)
    }

    /// What the trunk end of a flat cordon gives to each shoot on it, through however many shoots.
    fn near_trunk(&self, tree: &Tree, family: &Family) -> Vec<f64> {
        let a = self.a;
        let mut out: Vec<f64> = Vec::with_capacity(tree.shoots.len());
        for (at, shoot) in tree.shoots.iter().enumerate() {
            let Some(from) = family.parent(at) else {
                out.push(1.0);
                continue;
            };
            let Pose::Laid { rise, .. } = tree.shoots[from].pose else {
                out.push(out[from]);
                continue;
            };
            let flat = (1.0 - rise.degrees().max(0.0) / a[NearRise]).max(0.0);
            if flat == 0.0 {
                out.push(1.0);
                continue;
            }
            let begins = if from == 0 { self.to_wire(tree) } else { 0.0 };
            let along = (shoot.at - begins).max(0.0);
            out.push(1.0 + a[NearTrunk] * flat * libm::exp(-along / a[NearReach]));
        }
        out
    }
}
