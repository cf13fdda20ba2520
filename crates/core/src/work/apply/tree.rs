//! Work on one tree.

use crate::nodes::length_of_buds;
use crate::pose::{Geometry, Name, course};
use crate::range;
use crate::refusal::Refusal;
use crate::row::{
    Face, GrowthUnit, Kind, Laterals, Moment, Origin, Planted, Pose, Shoot, ShootId, Tree, TreeId,
};
use crate::said::{Arg, Args};
use crate::terms::{Assumptions, Terms};
use crate::units::Mm;
use crate::work::{Stage, Work};

/// How near to another upright place, in mm, a bud may be kept.
const BUD_CLEARANCE: f64 = 20.0;
/// Shortest length that a cut may leave, mm.
pub(in crate::work) const LEAST_KEPT: f64 = range::KEPT.0;

/// The tree after a piece of work that is about it, at a moment.
///
/// # Errors
/// As [`crate::work::apply`].
pub fn apply_to_tree(
    tree: &Tree,
    moment: Moment,
    terms: &Terms,
    work: &Work,
) -> Result<Tree, Refusal> {
    if work.subject().kind == Stage::Tree {
        return whole_tree(tree, moment.leaf, work);
    }
    let mut out = tree.clone();
    work_on(&mut out, moment, terms, work)?;
    Ok(out)
}

/// As [`apply_to_tree`], on the tree itself. What refuses does so before anything is touched.
pub(crate) fn work_on(
    tree: &mut Tree,
    moment: Moment,
    terms: &Terms,
    work: &Work,
) -> Result<(), Refusal> {
    let leaf = moment.leaf;
    let subject = work.subject();
    if subject.kind == Stage::Tree {
        *tree = whole_tree(tree, leaf, work)?;
        return Ok(());
    }
    let Some(index) = tree.index(subject.shoot) else {
        return Err(Refusal::new(
            "refusal-no-shoot",
            vec![("tree", Arg::Count(tree.id.0.into()))],
        ));
    };
    let mut on = On {
        tree,
        index,
        moment,
        g: terms.geometry,
    };
    match *work {
        Work::Lay {
            toward, rise_deg, ..
        } => {
            on.within("refusal-rise", Arg::Angle, rise_deg.degrees(), range::RISE)?;
            let rise = rise_deg;
            on.bend(Pose::Laid { toward, rise }, terms)?;
        }
        Work::Stand { lean_deg, .. } => {
            on.within(
                "refusal-lean",
                Arg::Angle,
                lean_deg.degrees(),
                range::STAND_LEAN,
            )?;
            on.bend(Pose::Upright { lean: lean_deg }, terms)?;
        }
        Work::CutBack { keep_mm, .. } => on.cut(keep_mm.f(), LEAST_KEPT)?,
        Work::CutToBuds { buds, .. } => on.cut_to_buds(buds, &terms.assumptions)?,
        Work::Stub { keep_mm, .. } => {
            on.refuse_stem()?;
            on.within("refusal-stub-length", Arg::Length, keep_mm.f(), range::STUB)?;
            on.cut(keep_mm.f(), range::STUB.0)?;
            on.shoot_mut().pose = Pose::Stub;
            on.shoot_mut().bend_radius = None;
            // A stub bears none: what stood on it is cut off with the rest.
            on.shoot_mut().laterals = Laterals::default();
        }
        Work::Remove { shoot, .. } => {
            on.refuse_stem()?;
            on.tree.remove_with_descendants(|s| s.id == shoot);
        }
        Work::Thin { shoot, keep, .. } => on.thin(shoot, keep)?,
        Work::RubOut { shoot, .. } => on.rub_out(shoot)?,
        Work::KeepBud { at_mm, .. } => on.keep_bud(leaf, at_mm, work, Origin::KeptBud)?,
        Work::Notch { at_mm, .. } => {
            let old = |seasons| seasons > 1;
            if !on.shoot().bud_wood(at_mm.f(), leaf, 0.0).is_some_and(old) {
                return Err(on.refuse("refusal-notch", vec![]));
            }
            on.keep_bud(leaf, at_mm, work, Origin::Notch)?;
        }
        Work::MoveBud { at_mm, .. } => on.move_bud(at_mm)?,
        Work::TakeLaterals { .. } => {
            // In early summer they have length, and are not counted yet.
            if on.shoot().laterals == Laterals::default() {
                return Err(on.refuse("refusal-no-laterals", vec![]));
            }
            on.shoot_mut().laterals = Laterals::default();
        }
        Work::Tip { percent, .. } => on.tip(leaf, percent)?,
        Work::HoldHeight { height_mm, .. } => on.hold_height(height_mm, terms)?,
        Work::Plant { .. }
        | Work::RemoveTree { .. }
        | Work::ReplaceTree { .. }
        | Work::AddWire { .. }
        | Work::MoveWire { .. }
        | Work::RemoveWire { .. }
        | Work::CoverWire { .. } => {}
    }
    Ok(())
}

pub(super) fn whole_tree(tree: &Tree, leaf: u8, work: &Work) -> Result<Tree, Refusal> {
    let number = || vec![("tree", Arg::Count(tree.id.0.into()))];
    match *work {
        Work::RemoveTree { .. } => {
            if tree.is_lost() {
                return Err(Refusal::new("refusal-tree-lost", number()));
            }
            Ok(Tree {
                vigour: tree.vigour,
                note: tree.note.clone(),
                ..Tree::lost(tree.id, tree.foot, tree.planted)
            })
        }
        Work::Plant {
            planted,
            length_mm,
            diameter_dmm,
            ..
        } => {
            if !tree.is_lost() {
                return Err(Refusal::new("refusal-tree-stands", number()));
            }
            stock(tree, leaf, planted, length_mm, diameter_dmm)
        }
        Work::ReplaceTree {
            planted,
            length_mm,
            diameter_dmm,
            ..
        } => stock(tree, leaf, planted, length_mm, diameter_dmm),
        Work::Lay { .. }
        | Work::Stand { .. }
        | Work::CutBack { .. }
        | Work::CutToBuds { .. }
        | Work::Stub { .. }
        | Work::Remove { .. }
        | Work::Thin { .. }
        | Work::RubOut { .. }
        | Work::KeepBud { .. }
        | Work::Notch { .. }
        | Work::MoveBud { .. }
        | Work::TakeLaterals { .. }
        | Work::Tip { .. }
        | Work::HoldHeight { .. }
        | Work::AddWire { .. }
        | Work::MoveWire { .. }
        | Work::RemoveWire { .. }
        | Work::CoverWire { .. } => Ok(tree.clone()),
    }
}

/// New stock in a tree's place: a straight stem that grew before it came.
fn stock(
    tree: &Tree,
    leaf: u8,
    planted: Planted,
    length: Mm,
    diameter_dmm: u16,
) -> Result<Tree, Refusal> {
    let id = tree.id;
    let diameter = f64::from(diameter_dmm) / 10.0;
    within(
        id,
        "refusal-stock-length",
        Arg::Length,
        length.f(),
        range::STOCK_LENGTH,
    )?;
    within(
        id,
        "refusal-stock-diameter",
        Arg::Thickness,
        diameter,
        range::STOCK_DIAMETER,
    )?;
    within(
        id,
        "refusal-planting-angle",
        Arg::Angle,
        planted.angle.degrees(),
        range::PLANTING_ANGLE,
    )?;
    Ok(Tree {
        planted,
        // New stock is sound.
        diseased: false,
        note: tree.note.clone(),
        shoots: vec![Shoot {
            pose: Pose::Free,
            units: vec![GrowthUnit::whole(leaf.saturating_sub(1), length.f())],
            diameter,
            ..Shoot::bud(ShootId::STEM, None, 0.0)
        }],
        ..*tree
    })
}

fn within(
    tree: TreeId,
    key: &'static str,
    unit: fn(f64) -> Arg,
    value: f64,
    (low, high): (f64, f64),
) -> Result<(), Refusal> {
    if value >= low && value <= high {
        return Ok(());
    }
    Err(Refusal::new(
        key,
        vec![
            ("tree", Arg::Count(tree.0.into())),
            ("value", unit(value)),
            ("low", unit(low)),
            ("high", unit(high)),
        ],
    ))
}

/// A tree being worked on, and the shoot that the work is about.
struct On<'t> {
    tree: &'t mut Tree,
    index: usize,
    moment: Moment,
    g: Geometry,
}

impl On<'_> {
    fn shoot(&self) -> &Shoot {
        &self.tree.shoots[self.index]
    }

    fn shoot_mut(&mut self) -> &mut Shoot {
        &mut self.tree.shoots[self.index]
    }

    fn refuse(&self, key: &'static str, args: Args) -> Refusal {
        let mut all = args;
        if let Some(name) = Name::of(self.tree, self.g, self.shoot().id) {
            all.push(("part", Arg::from(name)));
        }
        Refusal::new(key, all)
    }

    fn within(
        &self,
        key: &'static str,
        unit: fn(f64) -> Arg,
        value: f64,
        range: (f64, f64),
    ) -> Result<(), Refusal> {
        within(self.tree.id, key, unit, value, range).map_err(|r| self.refuse(r.key, r.0.args))
    }

    fn refuse_stem(&self) -> Result<(), Refusal> {
        if self.shoot().parent.is_none() {
            return Err(self.refuse("refusal-stem", vec![]));
        }
        Ok(())
    }

    /// Bends it anew; it keeps the radius that its thickness has now.
    fn bend(&mut self, pose: Pose, terms: &Terms) -> Result<(), Refusal> {
        if self.shoot().units.is_empty() {
            return Err(self.refuse("refusal-bend-bud", vec![]));
        }
        let shoot = self.shoot_mut();
        shoot.pose = pose;
        let radius = terms.geometry.bend_diameters * shoot.diameter;
        shoot.bend_radius = Some(radius).filter(|r| shoot.bends() && *r > 0.0);
        Ok(())
    }

    /// Cuts to `keep` mm, at least `least` and less than the shoot's length.
    fn cut(&mut self, keep: f64, least: f64) -> Result<(), Refusal> {
        let length = self.shoot().length();
        if !(keep >= least && keep < length) {
            return Err(self.refuse(
                "refusal-cut-length",
                vec![
                    ("value", Arg::Length(keep)),
                    ("low", Arg::Length(least)),
                    ("high", Arg::Length(length)),
                ],
            ));
        }
        let id = self.shoot().id;
        // Laterals are counted for the whole shoot, as if they stood evenly along it.
        let left = keep / length;
        let laterals = &mut self.shoot_mut().laterals;
        laterals.total *= left;
        laterals.count = libm::round(f64::from(laterals.count) * left) as u16;
        let moment = self.moment;
        self.shoot_mut().cut_to(keep, moment);
        self.tree
            .remove_with_descendants(|s| s.parent == Some(id) && s.at > keep);
        Ok(())
    }

    fn cut_to_buds(&mut self, buds: i32, assumptions: &Assumptions) -> Result<(), Refusal> {
        self.within(
            "refusal-buds",
            |n| Arg::Number(n, 0),
            buds.into(),
            range::BUDS,
        )?;
        let first = self.shoot().units.first().map_or(0.0, |u| u.grown);
        self.cut(length_of_buds(assumptions, first, buds), LEAST_KEPT)
    }

    /// Last season's growth: what grew in the leaf before this one, or in this one once it has grown.
    fn tip(&mut self, leaf: u8, percent: i32) -> Result<(), Refusal> {
        self.within(
            "refusal-tip",
            |n| Arg::Share(n / 100.0),
            percent.into(),
            range::TIPPED,
        )?;
        if self.shoot().kind() == Kind::Stub {
            return Err(self.refuse("refusal-tip-stub", vec![]));
        }
        let last = self
            .shoot()
            .units
            .last()
            .filter(|u| u.leaf + 1 >= leaf)
            .copied();
        let Some(last) = last else {
            return Err(self.refuse("refusal-tip-none", vec![]));
        };
        let off = last.grown * f64::from(percent) / 100.0;
        // What is cut is measured from where last year's tip was.
        let keep = self.shoot().length() - last.kept + (last.grown - off);
        if keep >= self.shoot().length() {
            return Err(self.refuse("refusal-tip-done", vec![]));
        }
        self.cut(keep, LEAST_KEPT)
    }

    fn hold_height(&mut self, height: Mm, terms: &Terms) -> Result<(), Refusal> {
        let course = course(self.tree, self.index, terms.geometry);
        let (base, tip) = (course.base.y, course.tip().y);
        let upright = matches!(self.shoot().kind(), Kind::Upright | Kind::Shoot);
        let tip = tip.min(range::HELD_HEIGHT.1);
        if !upright || height.f() >= tip || height.f() < base + LEAST_KEPT {
            return Err(self.refuse(
                "refusal-height",
                vec![
                    ("value", Arg::Length(height.f())),
                    ("low", Arg::Length(base + LEAST_KEPT)),
                    ("high", Arg::Length(tip)),
                ],
            ));
        }
        let climb = libm::sin(course.end_heading()).max(1e-3);
        self.cut((height.f() - base) / climb, LEAST_KEPT)
    }

    fn thin(&mut self, stub: ShootId, keep: ShootId) -> Result<(), Refusal> {
        let returns: Vec<ShootId> = self
            .tree
            .shoots
            .iter()
            .filter(|s| s.parent == Some(stub))
            .map(|s| s.id)
            .collect();
        if self.shoot().kind() != Kind::Stub || !returns.contains(&keep) || returns.len() < 2 {
            return Err(self.refuse("refusal-thin", vec![]));
        }
        self.tree
            .remove_with_descendants(|s| s.parent == Some(stub) && s.id != keep);
        Ok(())
    }

    fn rub_out(&mut self, laid: ShootId) -> Result<(), Refusal> {
        if !self.tree.takes_bud_work(self.shoot()) || self.shoot().rubbed {
            return Err(self.refuse("refusal-rub-out", vec![]));
        }
        self.shoot_mut().rubbed = true;
        self.tree.remove_with_descendants(|s| {
            s.parent == Some(laid) && s.face != Face::Top && s.units.is_empty()
        });
        Ok(())
    }

    /// Refuses a place for a bud on `parent` that lies off it or too near another upright.
    fn refuse_bud_place(
        &self,
        parent: ShootId,
        at: Mm,
        but: Option<ShootId>,
    ) -> Result<(), Refusal> {
        let Some(wood) = self.tree.shoot(parent) else {
            return Ok(());
        };
        let length = libm::floor(wood.length());
        self.within("refusal-bud-place", Arg::Length, at.f(), (0.0, length))?;
        let near = self.tree.shoots.iter().find(|s| {
            s.parent == Some(parent)
                && Some(s.id) != but
                && s.holds_upright_place()
                && (s.at - at.f()).abs() < BUD_CLEARANCE
        });
        match near {
            None => Ok(()),
            Some(near) => Err(self.refuse(
                "refusal-bud-near",
                vec![
                    ("value", Arg::Length(at.f())),
                    ("low", Arg::Length(BUD_CLEARANCE)),
                    ("near", Arg::Length(near.at)),
                ],
            )),
        }
    }

    fn move_bud(&mut self, at: Mm) -> Result<(), Refusal> {
        let (Kind::Bud, Some(parent)) = (self.shoot().kind(), self.shoot().parent) else {
            return Err(self.refuse("refusal-move-bud", vec![]));
        };
        self.refuse_bud_place(parent, at, Some(self.shoot().id))?;
        let wood = self.tree.shoot(parent);
        let seasons = wood.and_then(|w| w.bud_wood(at.f(), self.moment.leaf, 0.0));
        let bud = self.shoot_mut();
        bud.at = at.f();
        // Last season's wood has buds that grow without a notch.
        if bud.is_notched() && seasons == Some(1) {
            bud.origin = Some(Origin::KeptBud);
        }
        Ok(())
    }

    fn keep_bud(&mut self, leaf: u8, at: Mm, work: &Work, origin: Origin) -> Result<(), Refusal> {
        let parent = self.shoot().id;
        let takes = match origin {
            // What still stands is young.
            Origin::Notch => self.shoot().pose.is_laid(),
            _ => self.tree.takes_bud_work(self.shoot()),
        };
        if !takes {
            return Err(self.refuse("refusal-bud-not-laid", vec![]));
        }
        self.refuse_bud_place(parent, at, None)?;
        let bud = work
            .kept_bud(leaf)
            .filter(|bud| self.tree.shoot(*bud).is_none());
        let Some(bud) = bud else {
            // The same place of the same season again: the bud stands elsewhere by now.
            return Err(self.refuse(
                "refusal-bud-near",
                vec![
                    ("value", Arg::Length(at.f())),
                    ("low", Arg::Length(BUD_CLEARANCE)),
                    ("near", Arg::Length(at.f())),
                ],
            ));
        };
        if self.tree.shoots.len() >= Tree::MAX_SHOOTS {
            return Err(self.refuse(
                "refusal-shoots",
                vec![
                    ("tree", Arg::Count(self.tree.id.0.into())),
                    ("high", Arg::Count(Tree::MAX_SHOOTS as i64)),
                ],
            ));
        }
        self.tree.shoots.push(Shoot {
            origin: Some(origin),
            ..Shoot::bud(bud, Some(parent), at.f())
        });
        Ok(())
    }
}
