//! What grows in a season: in spring what comes of buds, cuts, stubs and wild buds; later on what has begun.

use super::chance::Matter;
use super::family::Family;
use super::{Season, Tips};
use crate::arrange::Gather;
use crate::canopy::base_light;
use crate::model::Parameter::{
    BudFail, RetFail, RetLight0, RetLight1, RetMean, RetThick, StubMin, WildPerM,
};
use crate::nodes::{blind_length, bud_step, leaf_buds};
use crate::row::{Face, GrowthUnit, Kind, Origin, Pose, Shoot, ShootId, Tree, notch_take};
use crate::units::Deg;
use std::cell::OnceCell;

/// Highest place, mm above the cordon wire, that the wall's upper edge is taken for at least.
const LEAST_WALL: f64 = 300.0;
/// Most shoots that return from one stub.
const MOST_RETURNS: f64 = 3.0;
/// Distance between the returns of a stub, mm.
const RETURNS_APART: f64 = 30.0;
/// Farthest lean of a return, tenths of a degree.
const RETURN_LEAN: f64 = 80.0;
/// How far the even shoots of one that was cut back lean, degrees.
const CUT_BACK_LEANS: [f64; 3] = [12.0, -12.0, 24.0];
/// How near its tip a leader has one that goes on for it, mm.
const GOES_ON: f64 = 20.0;
/// How much of a stem below the wire brings no wild shoots, as a share of its length up to the wire.
const BARE_STEM: f64 = 0.6;
/// How much of the end of laid wood brings none, mm.
const BARE_END: f64 = 50.0;
/// How near to another shoot none comes, mm.
const CLEAR_OF_OTHERS: f64 = 60.0;
/// The faces that wild shoots come from in turn.
const WILD_FACES: [Face; 6] = [
    Face::Side,
    Face::Top,
    Face::Under,
    Face::Side,
    Face::Top,
    Face::Side,
];

/// What a shoot that nobody placed is named by: its kind and its number on its parent, so that a little more growth
/// renames nothing. A kept bud is named by its place in millimetres, which is always less.
const WILD: u32 = 1 << 20;
const CUT_BACK: u32 = 2 << 20;
const RETURN: u32 = 3 << 20;

/// The shoots that have begun to grow in a leaf. A stub waits for the next spring.
pub(super) fn growing(tree: &Tree, leaf: u8) -> Vec<usize> {
    let grows = |s: &Shoot| s.pose != Pose::Stub && s.units.last().is_some_and(|u| u.leaf == leaf);
    let shoots = tree.shoots.iter().enumerate();
    shoots.filter(|(_, s)| grows(s)).map(|(at, _)| at).collect()
}

/// A tree in spring.
pub(super) struct Spring<'t> {
    season: &'t Season<'t>,
    /// Leaf on older wood, m².
    leaf_area: f64,
    tips: Tips<'t>,
    heights: OnceCell<Vec<f64>>,
    top: OnceCell<f64>,
}

/// A new shoot and the place of its parent among the tree's shoots.
type New = (usize, Shoot);

impl<'t> Spring<'t> {
    pub fn new(season: &'t Season<'t>, leaf_area: f64, tips: Tips<'t>) -> Self {
        Self {
            season,
            leaf_area,
            tips,
            heights: OnceCell::new(),
            top: OnceCell::new(),
        }
    }

    /// The growing points, in the order of the tree's shoots, with the new ones that are added to it.
    pub fn sprout(&self, tree: &mut Tree, family: &mut Family) -> Vec<usize> {
        let leaf = self.season.leaf;
        let mut new: Vec<New> = Vec::new();
        let all = 0..tree.shoots.len();
        let mut points: Vec<usize> = all
            .filter(|at| self.grows(tree, family, *at, &mut new))
            .collect();
        let begun = GrowthUnit::whole(leaf, 0.0);
        for at in &points {
            // A bud that breaks counts as born: it has no length yet.
            let units = &mut tree.shoots[*at].units;
            if units.is_empty() {
                units.push(begun);
            }
        }
        if new.is_empty() {
            return points;
        }
        let known = tree.shoots.iter().map(|s| s.id).gathered_set();
        new.retain(|(_, s)| !known.contains(&s.id));
        new.truncate(Tree::MAX_SHOOTS.saturating_sub(tree.shoots.len()));
        for (parent, mut shoot) in new {
            shoot.units.push(begun);
            points.push(tree.shoots.len());
            family.push(Some(parent));
            tree.shoots.push(shoot);
        }
        points
    }

    /// Whether a shoot grows on; what else comes of it goes to `new`.
    fn grows(&self, tree: &Tree, family: &Family, at: usize, new: &mut Vec<New>) -> bool {
        let (season, shoot) = (self.season, &tree.shoots[at]);
        if shoot.pose == Pose::Stub {
            if family.children(at).next().is_none() {
                self.returns(tree, at, new);
            }
            return false;
        }
        let Some(last) = shoot.units.last() else {
            let wood = family.parent(at).map(|p| &tree.shoots[p]);
            return wood.is_some_and(|wood| self.breaks(tree, shoot, wood));
        };
        let is_last_years = season.is_last_years(last);
        if is_trained(shoot) {
            if is_last_years && !shoot.rubbed {
                self.wild(tree, family, at, new);
            }
            let end = shoot.length() - GOES_ON;
            let goes_on = |c: usize| tree.shoots[c].pose.is_laid() && tree.shoots[c].at > end;
            let forks = at == 0 && tree.standing_leaders().is_some();
            return is_last_years && !forks && !family.children(at).any(goes_on);
        }
        if !is_last_years {
            let chance = self.light_on(self.tip(tree, at), tree);
            return season.chance.share(shoot.id, Matter::OldWood) < chance;
        }
        match season.cut_back(shoot) {
            None => true,
            Some(unit) => {
                // Cut into its blind base it brings nothing this spring.
                let buds = leaf_buds(unit, season.a);
                self.even_shoots(tree, at, unit, buds, new);
                buds > 0
            }
        }
    }

    /// Whether a bud on `wood` breaks.
    fn breaks(&self, tree: &Tree, bud: &Shoot, wood: &Shoot) -> bool {
        let season = self.season;
        let age = bud
            .at_unit(wood)
            .map_or(u8::MAX, |u| season.leaf.saturating_sub(u.leaf));
        let mut freely = match age {
            0 | 1 => 1.0,
            _ => self.light_on(season.terms.geometry.wire, tree),
        };
        if bud.is_notched() {
            freely = freely.min(notch_take(age));
        }
        let chance = (1.0 - season.a[BudFail]) * freely;
        season.chance.share(bud.id, Matter::Bud) < chance
    }

    /// What returns from a stub.
    fn returns(&self, tree: &Tree, at: usize, new: &mut Vec<New>) {
        let (season, stub) = (self.season, &tree.shoots[at]);
        let a = season.a;
        if season.chance.share(stub.id, Matter::FailedStub) < a[RetFail] {
            return;
        }
        let length = stub.length();
        let thick = 1.0 + a[RetThick] * ((stub.diameter - 15.0) / 10.0).clamp(0.0, 1.0);
        let long = (2.0 * length / a[StubMin] - 1.0).clamp(0.0, 1.0);
        let lit = self.light_on(self.tip(tree, at), tree);
        let mean = a[RetMean] * thick * long * lit;
        let some = libm::floor(mean + season.chance.share(stub.id, Matter::Returns));
        for i in 0..some.min(MOST_RETURNS) as u32 {
            let place = (length - RETURNS_APART * f64::from(i)).max(0.0);
            let mut shoot = self.new_shoot(tree, stub, RETURN + i, place, Origin::Return);
            let lean = RETURN_LEAN * season.chance.of_shoot(shoot.id, Matter::Lean);
            shoot.pose = Pose::Upright {
                lean: Deg::new(libm::floor(lean + 0.5) / 10.0),
            };
            new.push((at, shoot));
        }
    }

    /// The shoots that come beside one that was cut back to `buds` leaf buds, itself the uppermost.
    fn even_shoots(&self, tree: &Tree, at: usize, unit: &GrowthUnit, buds: u8, new: &mut Vec<New>) {
        let a = self.season.a;
        let leans = (1..buds).zip(CUT_BACK_LEANS);
        for (i, lean) in leans {
            let place = blind_length(unit.grown, a) + f64::from(buds - i) * bud_step(a);
            let named = CUT_BACK + u32::from(i);
            let parent = &tree.shoots[at];
            let mut shoot = self.new_shoot(tree, parent, named, place, Origin::CutBackBud);
            shoot.pose = Pose::Upright {
                lean: Deg::new(lean),
            };
            new.push((at, shoot));
        }
    }

    /// The shoots from last year's part of laid wood whose buds were not rubbed out, and of a stem.
    fn wild(&self, tree: &Tree, family: &Family, at: usize, new: &mut Vec<New>) {
        let (season, wood) = (self.season, &tree.shoots[at]);
        let mut begin: f64 = wood
            .units
            .iter()
            .filter(|u| !season.is_last_years(u))
            .map(|u| u.kept)
            .sum();
        if at == 0 {
            begin = begin.max(BARE_STEM * season.to_wire(tree));
        }
        let step = 1000.0 / season.a[WildPerM];
        let end = wood.length() - BARE_END;
        let near = |place: f64| {
            let mut others = family.children(at).map(|c| tree.shoots[c].at);
            others.any(|other| (other - place).abs() < CLEAR_OF_OTHERS)
        };
        let mut place = begin + step / 2.0;
        for (i, face) in (0..).zip(WILD_FACES.into_iter().cycle()) {
            if place >= end || new.len() >= Tree::MAX_SHOOTS {
                return;
            }
            if !near(place) {
                let base = libm::trunc(place);
                let shoot = self.new_shoot(tree, wood, WILD + i, base, Origin::WildBud);
                let pose = match face {
                    Face::Top => shoot.pose,
                    Face::Side | Face::Under => Pose::Free,
                };
                new.push((
                    at,
                    Shoot {
                        face,
                        pose,
                        ..shoot
                    },
                ));
            }
            place += step;
        }
    }

    fn new_shoot(&self, tree: &Tree, parent: &Shoot, named: u32, at: f64, from: Origin) -> Shoot {
        let id = ShootId::grown(tree.id, self.season.leaf, parent.id, named);
        Shoot {
            origin: Some(from),
            ..Shoot::bud(id, Some(parent.id), at)
        }
    }

    /// Height of a shoot's tip, mm.
    fn tip(&self, tree: &Tree, at: usize) -> f64 {
        let heights = self.heights.get_or_init(|| (self.tips)(tree));
        heights.get(at).copied().unwrap_or(0.0)
    }

    /// How freely old wood breaks at a height, mm: 0 to 1, by the light there.
    fn light_on(&self, z: f64, tree: &Tree) -> f64 {
        let (terms, a) = (self.season.terms, self.season.a);
        let wire = terms.geometry.wire;
        let top = *self.top.get_or_init(|| {
            let (mut sum, mut n) = (0.0, 0.0);
            for (at, _) in tree
                .shoots
                .iter()
                .enumerate()
                .filter(|(_, s)| s.kind() == Kind::Upright)
            {
                sum += self.tip(tree, at);
                n += 1.0;
            }
            let mean = if n > 0.0 { sum / n } else { wire };
            mean.max(wire + LEAST_WALL)
        });
        let light = base_light(z, top, self.leaf_area, wire, &terms.stand, a);
        let over = (a[RetLight1] - a[RetLight0]).max(1e-9);
        ((light - a[RetLight0]) / over).clamp(0.0, 1.0)
    }
}

/// Whether a shoot is the stem or laid wood: what carries the wall.
pub(super) fn is_trained(shoot: &Shoot) -> bool {
    shoot.parent.is_none() || shoot.pose.is_laid()
}

impl Shoot {
    /// The season's growth of `wood` that the shoot stands on.
    fn at_unit<'w>(&self, wood: &'w Shoot) -> Option<&'w GrowthUnit> {
        let mut far = 0.0;
        let mut units = wood.units.iter();
        let on = units.find(|u| {
            far += u.kept;
            self.at <= far + 1e-6
        });
        on.or(wood.units.last())
    }
}
