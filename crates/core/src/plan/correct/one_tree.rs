//! Corrections of one tree.

use super::{Correction, Where, place_on_row, within};
use crate::plan::Plan;
use crate::pose::{Geometry, Name};
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Face, GrowthUnit, Laterals, Limit, Planted, Pose, Shoot, ShootId, Tree, TreeId};
use crate::said::Arg;
use crate::said::Quantity;
use crate::units::Mm;
use crate::usual;

/// Thinnest wood that is recorded, mm.
const THINNEST: f64 = 0.1;

/// The tree after a correction that is about it.
pub(super) fn corrected(
    plan: &Plan,
    tree: &Tree,
    correction: &Correction,
) -> Result<Tree, Refusal> {
    let mut out = tree.clone();
    let here = || Where::Tree(tree.id);
    let number = || vec![("tree", Arg::Count(tree.id.0.into()))];
    match correction {
        Correction::Foot { to_mm, .. } => {
            out.foot = place_on_row(here(), "measure-foot", *to_mm)?;
        }
        Correction::Planted { planted: to, .. } => out.planted = planted(tree.id, *to)?,
        Correction::Note {
            shoot: None | Some(ShootId::STEM),
            note,
            ..
        } => {
            noted(here(), note)?;
            out.note = note.clone();
        }
        Correction::Lost { .. } => {
            if tree.is_lost() {
                return Err(Refusal::new("refusal-tree-lost", number()));
            }
            out.shoots.clear();
            out.diseased = false;
        }
        Correction::Diseased { diseased, .. } => {
            if *diseased && tree.is_lost() {
                return Err(Refusal::new("refusal-tree-lost", number()));
            }
            out.diseased = *diseased;
        }
        Correction::Standing {
            length_mm,
            diameter_dmm,
            ..
        } => {
            if !tree.is_lost() {
                return Err(Refusal::new("refusal-tree-stands", number()));
            }
            let pose = Pose::Free;
            stand(&mut out, plan.found.leaf, pose, *length_mm, *diameter_dmm)?;
        }
        about_a_shoot => {
            On::new(plan, out.clone(), about_a_shoot)?.correct(about_a_shoot, &mut out)?
        }
    }
    // What is measured is no longer filled in; a note or a mark is no measurement.
    out.like = tree.like.filter(|_| {
        matches!(
            correction,
            Correction::Note { .. } | Correction::Diseased { .. }
        )
    });
    Ok(out)
}

/// How a tree was planted, if that can be.
pub(super) fn planted(tree: TreeId, planted: Planted) -> Result<Planted, Refusal> {
    let degrees = planted.angle.degrees();
    let what = "measure-planting-angle";
    within(
        Where::Tree(tree),
        what,
        Quantity::Angle,
        degrees,
        range::PLANTING_ANGLE,
    )?;
    Ok(planted)
}

/// Gives a lost tree a bare stem, grown before the row was found.
pub(super) fn stand(
    tree: &mut Tree,
    leaf: u8,
    pose: Pose,
    length: Mm,
    diameter_dmm: i32,
) -> Result<(), Refusal> {
    let here = || Where::Tree(tree.id);
    within(
        here(),
        "measure-length",
        Quantity::Length,
        length.f(),
        range::LENGTH,
    )?;
    let diameter = thickness(here(), diameter_dmm)?;
    if pose == Pose::Stub {
        return Err(Refusal::new(
            "refusal-stem",
            vec![("part", Arg::key("measure-stem"))],
        ));
    }
    check_pose(here, pose)?;
    tree.shoots = vec![Shoot {
        pose,
        units: vec![GrowthUnit::whole(leaf.saturating_sub(1), length.f())],
        diameter,
        ..Shoot::bud(ShootId::STEM, None, 0.0)
    }];
    Ok(())
}

/// A note that is not too long.
fn noted(place: Where, note: &str) -> Result<(), Refusal> {
    let range = (0.0, Plan::MAX_TEXT as f64);
    let long = note.chars().count() as f64;
    within(place, "measure-note", Quantity::Count, long, range).map(|_| ())
}

fn thickness(place: Where, dmm: i32) -> Result<f64, Refusal> {
    let range = (THINNEST, range::DIAMETER.1);
    let mm = f64::from(dmm) / 10.0;
    within(place, "measure-diameter", Quantity::Thickness, mm, range)
}

fn check_pose(place: impl Fn() -> Where, pose: Pose) -> Result<(), Refusal> {
    let (what, value, range) = match pose {
        Pose::Laid { rise, .. } => ("measure-rise", rise.degrees(), range::RISE),
        Pose::Upright { lean } => ("measure-lean", lean.degrees(), range::LEAN),
        Pose::Stub | Pose::Free => return Ok(()),
    };
    within(place(), what, Quantity::Angle, value, range).map(|_| ())
}

/// A shoot whose record is being corrected.
struct On<'p> {
    plan: &'p Plan,
    tree: Tree,
    index: usize,
}

impl<'p> On<'p> {
    fn new(plan: &'p Plan, tree: Tree, correction: &Correction) -> Result<Self, Refusal> {
        let shoot = match *correction {
            Correction::Length { shoot, .. }
            | Correction::Seasons { shoot, .. }
            | Correction::Diameter { shoot, .. }
            | Correction::At { shoot, .. }
            | Correction::Place { shoot, .. }
            | Correction::Season { shoot, .. }
            | Correction::Laterals { shoot, .. }
            | Correction::Face { shoot, .. }
            | Correction::Pose { shoot, .. }
            | Correction::Rubbed { shoot, .. }
            | Correction::DropShoot { shoot, .. }
            | Correction::Note {
                shoot: Some(shoot), ..
            } => shoot,
            Correction::AddShoot { parent, .. } => parent,
            _ => ShootId::STEM,
        };
        let Some(index) = tree.index(shoot) else {
            return Err(Refusal::new(
                "refusal-not-recorded",
                vec![("tree", Arg::Count(tree.id.0.into()))],
            ));
        };
        Ok(Self { plan, tree, index })
    }

    fn shoot(&self) -> &Shoot {
        &self.tree.shoots[self.index]
    }

    /// What a shoot is called in the row as found.
    fn name(&self, shoot: ShootId) -> Option<Name> {
        let g = Geometry::of(&self.plan.found, &self.plan.targets);
        Name::of(&self.tree, g, shoot)
    }

    fn place(&self) -> Where {
        match self.name(self.shoot().id) {
            Some(name) => Where::Part(name),
            None => Where::Tree(self.tree.id),
        }
    }

    fn refuse(&self, key: &'static str) -> Refusal {
        let name = self.name(self.shoot().id);
        Refusal::new(
            key,
            name.map(|n| ("part", Arg::from(n))).into_iter().collect(),
        )
    }

    fn refuse_stem(&self) -> Result<(), Refusal> {
        match self.shoot().parent {
            None => Err(self.refuse("refusal-stem-record")),
            Some(_) => Ok(()),
        }
    }

    fn refuse_bud(&self) -> Result<(), Refusal> {
        if self.shoot().units.is_empty() {
            return Err(self.refuse("refusal-bud-record"));
        }
        Ok(())
    }

    fn correct(&self, correction: &Correction, out: &mut Tree) -> Result<(), Refusal> {
        let to = &mut out.shoots[self.index];
        match *correction {
            Correction::Length { to_mm, .. } => self.length(to, to_mm)?,
            Correction::Seasons { ref kept_mm, .. } => self.seasons(to, kept_mm)?,
            Correction::Diameter { to_dmm, .. } => {
                self.refuse_bud()?;
                let diameters = self.plan.targets.get(Limit::BendDiameters);
                to.set_thickness(thickness(self.place(), to_dmm)?, diameters);
                // Recorded as thicknesses are, to a tenth of a millimetre.
                let tenth = |mm: f64| libm::round(mm * 10.0) / 10.0;
                to.bend_radius = to.bend_radius.map(tenth);
            }
            Correction::At { to_mm, .. } => {
                self.refuse_stem()?;
                let range = (0.0, self.length_of(self.shoot().parent));
                let at = to_mm.f();
                to.at = within(self.place(), "measure-at", Quantity::Length, at, range)?;
            }
            Correction::Place { x_mm, .. } => {
                self.refuse_stem()?;
                let on = self.plan.tape_of(&self.tree, self.shoot().id);
                let on = on.ok_or_else(|| self.refuse("refusal-no-tape"))?;
                let x = x_mm.f();
                within(
                    self.place(),
                    "measure-place",
                    Quantity::Length,
                    x,
                    on.range(),
                )?;
                to.at = on.along(x).unwrap_or(to.at);
            }
            Correction::Season { leaf, .. } => {
                self.refuse_bud()?;
                let next = self.shoot().units.get(1).map(|u| u.leaf);
                let last = next.unwrap_or_else(|| self.last_season());
                let range = (0.0, f64::from(last));
                let leaf = f64::from(leaf);
                let leaf = within(self.place(), "measure-season", Quantity::Count, leaf, range)?;
                let first = &mut to.units[0];
                first.leaf = leaf as u8;
                // It can't have been cut before it grew.
                first.cut = first.cut.filter(|cut| cut.leaf >= first.leaf);
            }
            Correction::Laterals { count, total, .. } => {
                to.laterals = self.laterals(count, total)?;
            }
            Correction::Face { face, .. } => {
                self.refuse_stem()?;
                to.face = face;
            }
            Correction::Pose { pose, .. } => {
                self.refuse_bud()?;
                if pose == Pose::Stub {
                    self.refuse_stem()?;
                }
                check_pose(|| self.place(), pose)?;
                to.pose = pose;
                to.bend_radius = to.bend_radius.filter(|_| to.bends());
            }
            Correction::Rubbed { rubbed, .. } => to.rubbed = rubbed,
            Correction::Note { ref note, .. } => {
                noted(self.place(), note)?;
                to.note = note.clone();
            }
            Correction::DropShoot { shoot, .. } => {
                self.refuse_stem()?;
                out.remove_with_descendants(|s| s.id == shoot);
            }
            Correction::AddShoot {
                at_mm,
                face,
                pose,
                leaf,
                length_mm,
                diameter_dmm,
                ..
            } => {
                let new = self.added(at_mm, face, pose, leaf, length_mm, diameter_dmm)?;
                out.shoots.push(new);
            }
            _ => {}
        }
        Ok(())
    }

    /// The last season that had grown when the row was found.
    fn last_season(&self) -> u8 {
        self.plan.found.leaf.saturating_sub(1)
    }

    fn length_of(&self, shoot: Option<ShootId>) -> f64 {
        let wood = shoot.and_then(|p| self.tree.shoot(p));
        libm::floor(wood.map_or(0.0, Shoot::length))
    }

    fn length(&self, to: &mut Shoot, to_mm: Mm) -> Result<(), Refusal> {
        let id = self.shoot().id;
        // What grows from it must keep wood to stand on, and every season of it a millimetre at least.
        let least = (to.units.len() as f64).max(1.0);
        let range = (least, Shoot::MAX_LENGTH);
        let length = to_mm.f();
        let farthest = self
            .tree
            .shoots
            .iter()
            .filter(|s| s.parent == Some(id))
            .max_by(|a, b| a.at.total_cmp(&b.at));
        if let Some(child) = farthest
            && length >= least
            && length < child.at
        {
            let mut why = self.refuse("refusal-correct-shorter");
            if let Some(name) = self.name(child.id) {
                why.args.push(("child", Arg::from(name)));
            }
            why.args.extend([
                ("value", Arg::Length(length)),
                ("low", Arg::Length(child.at)),
                ("high", Arg::Length(Shoot::MAX_LENGTH)),
            ]);
            return Err(why);
        }
        within(
            self.place(),
            "measure-length",
            Quantity::Length,
            length,
            range,
        )?;
        if to.units.is_empty() {
            to.units.push(GrowthUnit::whole(self.last_season(), length));
            if to.diameter < THINNEST {
                to.diameter = usual::diameter(length);
            }
        } else {
            stretch(&mut to.units, length);
        }
        Ok(())
    }

    fn seasons(&self, to: &mut Shoot, kept: &[Mm]) -> Result<(), Refusal> {
        let what = "measure-length";
        for one in kept {
            let range = (0.0, Shoot::MAX_LENGTH);
            within(self.place(), what, Quantity::Length, one.f(), range)?;
        }
        let born = to.born().unwrap_or(self.last_season());
        let most = self.last_season().saturating_sub(born).saturating_add(1);
        let count = kept.len() as f64;
        let range = (1.0, most.into());
        let what = "measure-seasons";
        within(self.place(), what, Quantity::Count, count, range)?;
        let cut: Vec<GrowthUnit> = to.units.clone();
        self.length(to, kept.iter().fold(Mm(0), |sum, one| sum + *one))?;
        to.units.clear();
        for (leaf, kept) in (born..).zip(kept).filter(|(_, kept)| kept.0 > 0) {
            let kept = kept.f();
            let was = cut.iter().find(|u| u.leaf == leaf);
            let off = was.map_or(0.0, |u| u.grown - u.kept);
            to.units.push(GrowthUnit {
                grown: (kept + off).min(Shoot::MAX_LENGTH),
                kept,
                ..was.copied().unwrap_or(GrowthUnit::whole(leaf, kept))
            });
        }
        Ok(())
    }

    fn laterals(&self, count: i32, total: f64) -> Result<Laterals, Refusal> {
        self.refuse_bud()?;
        let typed = f64::from(count);
        let count = within(
            self.place(),
            "measure-laterals",
            Quantity::Count,
            typed,
            range::LATERALS,
        )? as u16;
        let most = match count {
            0 => 0.0,
            _ => range::LATERALS_LENGTH.1,
        };
        let what = "measure-laterals-length";
        let total = libm::round(total);
        let total = within(self.place(), what, Quantity::Length, total, (0.0, most))?;
        Ok(Laterals { count, total })
    }

    fn added(
        &self,
        at: Mm,
        face: Face,
        pose: Pose,
        leaf: i32,
        length: Mm,
        diameter_dmm: i32,
    ) -> Result<Shoot, Refusal> {
        if self.tree.shoots.len() >= Tree::MAX_SHOOTS {
            return Err(Refusal::new(
                "refusal-shoots",
                vec![
                    ("tree", Arg::Count(self.tree.id.0.into())),
                    ("high", Arg::Count(Tree::MAX_SHOOTS as i64)),
                ],
            ));
        }
        let parent = self.shoot().id;
        let on = (0.0, self.length_of(Some(parent)));
        let at = within(self.place(), "measure-at", Quantity::Length, at.f(), on)?;
        let (what, range) = ("measure-length", range::LENGTH);
        let length = within(self.place(), what, Quantity::Length, length.f(), range)?;
        check_pose(|| self.place(), pose)?;
        let seasons = (0.0, f64::from(self.last_season()));
        let leaf = f64::from(leaf);
        let leaf = within(
            self.place(),
            "measure-season",
            Quantity::Count,
            leaf,
            seasons,
        )?;
        Ok(Shoot {
            face,
            pose,
            units: vec![GrowthUnit::whole(leaf as u8, length)],
            diameter: thickness(self.place(), diameter_dmm)?,
            ..Shoot::bud(self.plan.next_shoot(self.tree.id), Some(parent), at)
        })
    }
}

/// Makes the growth together `length` mm long, each season's in proportion, in whole millimetres and at least one.
/// `length` is not less than the number of seasons.
fn stretch(units: &mut [GrowthUnit], length: f64) {
    let before: f64 = units.iter().map(|u| u.kept).sum();
    let times = length / before;
    for unit in units.iter_mut() {
        let uncut = unit.kept == unit.grown;
        let most = Shoot::MAX_LENGTH;
        unit.kept = libm::round(unit.kept * times).clamp(1.0, most);
        unit.grown = if uncut {
            unit.kept
        } else {
            libm::round(unit.grown * times).clamp(unit.kept, most)
        };
    }
    // What rounding left over goes to the newest that can take it.
    let mut rest = length - units.iter().map(|u| u.kept).sum::<f64>();
    for unit in units.iter_mut().rev() {
        let uncut = unit.kept == unit.grown;
        let change = rest.max(1.0 - unit.kept);
        unit.kept += change;
        unit.grown = if uncut {
            unit.kept
        } else {
            unit.grown.max(unit.kept)
        };
        rest -= change;
    }
}
