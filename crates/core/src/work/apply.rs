//! Doing a piece of work: a pure step from a row to a row.

use super::Work;
use crate::refusal::Refusal;
use crate::row::{Face, Laterals, Pose, Row, Shoot, Tree};
use crate::units::{Deg, Mm};
use crate::words::Arg;
use std::sync::Arc;

/// The row after the work; every other tree is shared with `row`.
///
/// # Errors
/// A [`Refusal`] that names the place, the value and what is accepted.
pub fn apply(row: &Row, work: &Work) -> Result<Row, Refusal> {
    let id = work.tree();
    let place =
        row.trees.iter().position(|t| t.id == id).ok_or_else(|| {
            Refusal::new("refusal-no-tree", vec![("tree", Arg::Count(id.0.into()))])
        })?;
    let changed = apply_to_tree(&row.trees[place], row.leaf, work)?;
    let mut out = row.clone();
    out.trees[place] = Arc::new(changed);
    Ok(out)
}

/// How near to another upright place, in mm, a bud may be kept.
const BUD_CLEARANCE: f64 = 20.0;
/// Shortest length that a cut may leave, mm.
const LEAST_KEPT: f64 = 10.0;
/// Shortest and longest stub, mm.
const STUB: (f64, f64) = (20.0, 500.0);
/// Largest lean of a shoot that is stood up, degrees.
const MAX_LEAN: f64 = 60.0;

/// The tree after a piece of work that is about it, in `leaf`.
///
/// # Errors
/// As [`apply`].
pub fn apply_to_tree(tree: &Tree, leaf: u8, work: &Work) -> Result<Tree, Refusal> {
    let subject = work.subject();
    let index = tree.index(subject.shoot).ok_or_else(|| {
        Refusal::new(
            "refusal-no-shoot",
            vec![("tree", Arg::Count(tree.id.0.into()))],
        )
    })?;
    let mut on = On {
        tree: tree.clone(),
        index,
    };
    match *work {
        Work::Lay {
            toward, rise_deg, ..
        } => {
            let rise = Arg::Angle as fn(f64) -> Arg;
            on.within(
                "refusal-rise",
                rise,
                rise_deg.degrees(),
                (Pose::MIN_RISE, Pose::MAX_RISE),
            )?;
            on.bend(Pose::Laid {
                toward,
                rise: rise_deg,
            })?;
        }
        Work::Stand { lean_deg, .. } => {
            let lean = Arg::Angle as fn(f64) -> Arg;
            on.within(
                "refusal-lean",
                lean,
                lean_deg.degrees(),
                (-MAX_LEAN, MAX_LEAN),
            )?;
            on.bend(Pose::Upright { lean: lean_deg })?;
        }
        Work::CutBack { keep_mm, .. } => on.cut(keep_mm, LEAST_KEPT)?,
        Work::Stub { keep_mm, .. } => {
            on.refuse_stem()?;
            on.within("refusal-stub-length", Arg::Length, keep_mm.f(), STUB)?;
            on.cut(keep_mm, STUB.0)?;
            on.shoot_mut().pose = Pose::Stub;
        }
        Work::Remove { shoot, .. } => {
            on.refuse_stem()?;
            on.tree.remove_with_descendants(|s| s.id == shoot);
        }
        Work::KeepBud { at_mm, .. } => on.keep_bud(leaf, at_mm, work)?,
    }
    Ok(on.tree)
}

/// A tree being worked on, and the shoot that the work is about.
struct On {
    tree: Tree,
    index: usize,
}

impl On {
    fn shoot(&self) -> &Shoot {
        &self.tree.shoots[self.index]
    }

    fn shoot_mut(&mut self) -> &mut Shoot {
        &mut self.tree.shoots[self.index]
    }

    fn refuse(&self, key: &'static str, args: Vec<(&'static str, Arg)>) -> Refusal {
        let mut all = args;
        if let Some(name) = self.tree.name(self.shoot().id) {
            all.push(("part", Arg::Name(name)));
        }
        Refusal::new(key, all)
    }

    fn within(
        &self,
        key: &'static str,
        unit: fn(f64) -> Arg,
        value: f64,
        (low, high): (f64, f64),
    ) -> Result<(), Refusal> {
        if value >= low && value <= high {
            return Ok(());
        }
        Err(self.refuse(
            key,
            vec![
                ("value", unit(value)),
                ("low", unit(low)),
                ("high", unit(high)),
            ],
        ))
    }

    fn refuse_stem(&self) -> Result<(), Refusal> {
        if self.shoot().parent.is_none() {
            return Err(self.refuse("refusal-stem", vec![]));
        }
        Ok(())
    }

    fn bend(&mut self, pose: Pose) -> Result<(), Refusal> {
        if self.shoot().units.is_empty() {
            return Err(self.refuse("refusal-bend-bud", vec![]));
        }
        self.shoot_mut().pose = pose;
        Ok(())
    }

    fn cut(&mut self, keep: Mm, least: f64) -> Result<(), Refusal> {
        let length = self.shoot().length();
        if keep.f() < least || keep.f() >= length {
            return Err(self.refuse(
                "refusal-cut-length",
                vec![
                    ("value", Arg::Length(keep.f())),
                    ("low", Arg::Length(least)),
                    ("high", Arg::Length(length)),
                ],
            ));
        }
        let id = self.shoot().id;
        self.shoot_mut().cut_to(keep.f());
        self.tree
            .remove_with_descendants(|s| s.parent == Some(id) && s.at > keep.f());
        Ok(())
    }

    fn keep_bud(&mut self, leaf: u8, at: Mm, work: &Work) -> Result<(), Refusal> {
        let parent = self.shoot().id;
        if !self.shoot().pose.is_laid() {
            return Err(self.refuse("refusal-bud-not-laid", vec![]));
        }
        let length = libm::floor(self.shoot().length());
        self.within("refusal-bud-place", Arg::Length, at.f(), (0.0, length))?;
        let near = self.tree.shoots.iter().find(|s| {
            s.parent == Some(parent)
                && s.holds_upright_place()
                && (s.at - at.f()).abs() < BUD_CLEARANCE
        });
        let bud = work
            .kept_bud(leaf)
            .filter(|bud| self.tree.shoot(*bud).is_none());
        let (None, Some(bud)) = (near, bud) else {
            return Err(self.refuse(
                "refusal-bud-near",
                vec![
                    ("value", Arg::Length(at.f())),
                    ("low", Arg::Length(BUD_CLEARANCE)),
                    ("near", Arg::Length(near.map_or(at.f(), |s| s.at))),
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
            id: bud,
            parent: Some(parent),
            at: at.f(),
            face: Face::Top,
            pose: Pose::Upright {
                lean: Deg::new(0.0),
            },
            units: Vec::new(),
            diameter: 0.0,
            laterals: Laterals::default(),
        });
        Ok(())
    }
}
