//! What was measured of a part, each with the correction that would change it.

use super::Correction;
use crate::plan::Plan;
use crate::pose::{Course, Geometry, layout};
use crate::row::{Face, Laterals, Planted, Pose, Row, Shoot, ShootId, Toward, Tree, TreeId};
use crate::said::Quantity;
use crate::units::{Deg, Mm};

/// A number in the record.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// Its text's name: `measure-…`.
    pub key: &'static str,
    /// In what it is typed.
    pub unit: Quantity,
    /// As it is recorded.
    pub value: f64,
    /// What changes it; its value is to be put in by [`Measure::to`].
    correction: Correction,
}

impl Measure {
    /// The correction that puts a length by season in the place of one, in mm; `None` for what is no shoot's length.
    pub fn by_season(&self, lengths: &[f64]) -> Option<Correction> {
        let Correction::Length { tree, shoot, .. } = self.correction else {
            return None;
        };
        Some(Correction::Seasons {
            tree,
            shoot,
            kept_mm: lengths.iter().map(|l| Mm::round(*l)).collect(),
        })
    }

    /// The correction that puts another value in its place; it may be refused.
    pub fn to(&self, value: f64) -> Correction {
        let mut out = self.correction.clone();
        // What is no number must not become one in range.
        let value = if value.is_nan() {
            f64::NEG_INFINITY
        } else {
            value
        };
        let whole = libm::round(value) as i32;
        match &mut out {
            Correction::Length { to_mm, .. }
            | Correction::At { to_mm, .. }
            | Correction::Foot { to_mm, .. }
            | Correction::WallHeight { to_mm } => *to_mm = Mm::round(value),
            Correction::Place { x_mm, .. } => *x_mm = Mm::round(value),
            Correction::Diameter { to_dmm, .. } => *to_dmm = libm::round(value * 10.0) as i32,
            Correction::Season { leaf, .. } | Correction::Leaf { leaf } => *leaf = whole,
            Correction::Laterals { count, total, .. } => {
                if self.key == "measure-laterals" {
                    *count = whole;
                    // Without side branches there is no length of them.
                    *total *= f64::from(u8::from(whole > 0));
                } else {
                    *total = value;
                }
            }
            Correction::Planted { planted, .. } => planted.angle = Deg::new(value),
            Correction::Pose { pose, .. } => match pose {
                Pose::Laid { rise, .. } => *rise = Deg::new(value),
                Pose::Upright { lean } => *lean = Deg::new(value),
                Pose::Stub | Pose::Free => {}
            },
            Correction::Ends { from_mm, to_mm } => {
                if self.key == "measure-row-from" {
                    *from_mm = Mm::round(value);
                } else {
                    *to_mm = Mm::round(value);
                }
            }
            _ => {}
        }
        out
    }
}

/// Something of the record that is one of a few.
#[derive(Clone, Debug, PartialEq)]
pub struct Pick {
    /// Its text's name: `measure-…`.
    pub key: &'static str,
    /// What it can be.
    pub choices: Vec<Picked>,
}

/// One of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Picked {
    /// Its text's name: `record-…`.
    pub key: &'static str,
    /// What makes it so.
    pub correction: Correction,
    /// Whether it is so.
    pub now: bool,
}

impl Plan {
    /// The numbers in the record of a tree, or of one of its shoots: what grows along the wire has its place off the tape, as it
    /// was measured.
    pub fn measures(&self, tree: TreeId, shoot: Option<ShootId>) -> Vec<Measure> {
        let Some(tree) = self.found.tree(tree) else {
            return Vec::new();
        };
        let mut out = tree.measures(shoot);
        let at = out.iter_mut().find(|m| m.key == "measure-at");
        let on = shoot.and_then(|s| self.tape_of(tree, s)).zip(shoot);
        if let (Some(at), Some((on, shoot))) = (at, on) {
            *at = Measure {
                key: "measure-place",
                unit: Quantity::Length,
                value: on.x,
                correction: Correction::Place {
                    tree: tree.id,
                    shoot,
                    x_mm: Mm::round(on.x),
                },
            };
        }
        out
    }

    /// Where a shoot is on the tape, where it grows from laid wood.
    pub(super) fn tape_of(&self, tree: &Tree, shoot: ShootId) -> Option<OnTape> {
        let n = tree.index(shoot)?;
        let parent = tree.index(tree.shoots[n].parent?)?;
        if !tree.shoots[parent].pose.is_laid() {
            return None;
        }
        let mut courses = layout(tree, Geometry::of(&self.found, &self.targets));
        let x = courses.get(n)?.base.x;
        let parent = courses.swap_remove(parent);
        Some(OnTape { x, parent })
    }
}

/// A shoot on the tape.
pub(super) struct OnTape {
    x: f64,
    parent: Course,
}

impl OnTape {
    /// The places along the row that its parent has, mm.
    pub(super) fn range(&self) -> (f64, f64) {
        let ends = [self.parent.base.x, self.parent.tip().x];
        let bend = self.parent.point(self.parent.first).x;
        let fold = |by: fn(f64, f64) -> f64| ends.into_iter().fold(bend, by);
        (libm::ceil(fold(f64::min)), libm::floor(fold(f64::max)))
    }

    /// Where on its parent a place is, from the parent's base, whole mm.
    pub(super) fn along(&self, x: f64) -> Option<f64> {
        let at = self.parent.at_x(x)?;
        Some(libm::round(at).min(libm::floor(self.parent.length)))
    }
}

impl Row {
    /// The numbers in the record of the row as a whole.
    pub fn measures(&self) -> Vec<Measure> {
        let correction = Correction::Ends {
            from_mm: self.from,
            to_mm: self.to,
        };
        let leaf = i32::from(self.leaf);
        let leaf = Measure {
            key: "measure-leaf",
            unit: Quantity::Count,
            value: leaf.into(),
            correction: Correction::Leaf { leaf },
        };
        let ends = [("measure-row-from", self.from), ("measure-row-to", self.to)];
        let ends = ends.map(|(key, at)| Measure {
            key,
            unit: Quantity::Length,
            value: at.f(),
            correction: correction.clone(),
        });
        [vec![leaf], ends.to_vec()].concat()
    }
}

impl Tree {
    /// The correction that raises the end of a shoot in the record by so many degrees, or leans it by them; `None` for one
    /// that no angle is recorded of.
    pub fn raised_in_record(&self, shoot: ShootId, by: f64) -> Option<Correction> {
        self.moved(shoot, &["measure-rise", "measure-lean"], by)
    }

    /// The correction that moves the base of a shoot in the record by so many mm along its parent; `None` for the stem.
    pub fn moved_in_record(&self, shoot: ShootId, by: f64) -> Option<Correction> {
        self.moved(shoot, &["measure-at"], by)
    }

    fn moved(&self, shoot: ShootId, keys: &[&str], by: f64) -> Option<Correction> {
        let mut measures = self.measures(Some(shoot)).into_iter();
        let measure = measures.find(|m| keys.contains(&m.key))?;
        Some(measure.to(measure.value + by))
    }

    /// The numbers in the record of the tree, or of one of its shoots.
    pub fn measures(&self, shoot: Option<ShootId>) -> Vec<Measure> {
        let tree = self.id;
        let measure = |key, unit, value, correction| Measure {
            key,
            unit,
            value,
            correction,
        };
        let foot = measure(
            "measure-foot",
            Quantity::Length,
            self.foot.f(),
            Correction::Foot {
                tree,
                to_mm: self.foot,
            },
        );
        let angle = measure(
            "measure-planting-angle",
            Quantity::Angle,
            self.planted.angle.degrees(),
            Correction::Planted {
                tree,
                planted: self.planted,
            },
        );
        match shoot.and_then(|id| self.shoot(id)) {
            None => vec![foot, angle],
            Some(shoot) => shoot_measures(tree, shoot),
        }
    }

    /// What of the record of the tree, or of one of its shoots, is one of a few.
    pub fn picks(&self, shoot: Option<ShootId>) -> Vec<Pick> {
        match shoot.and_then(|id| self.shoot(id)) {
            None => vec![self.planted_pick()],
            Some(shoot) => shoot_picks(self.id, shoot),
        }
    }

    fn planted_pick(&self) -> Pick {
        let ways = [
            ("record-left", Toward::Left),
            ("record-right", Toward::Right),
        ];
        Pick {
            key: "measure-planting-side",
            choices: ways
                .map(|(key, toward)| Picked {
                    key,
                    correction: Correction::Planted {
                        tree: self.id,
                        planted: Planted {
                            toward,
                            ..self.planted
                        },
                    },
                    now: self.planted.toward == toward,
                })
                .to_vec(),
        }
    }
}

fn shoot_measures(tree: TreeId, shoot: &Shoot) -> Vec<Measure> {
    let id = shoot.id;
    let measure = |key, unit, value, correction| Measure {
        key,
        unit,
        value,
        correction,
    };
    let length = shoot.length();
    let mut out = vec![measure(
        "measure-length",
        Quantity::Length,
        length,
        Correction::Length {
            tree,
            shoot: id,
            to_mm: Mm::round(length),
        },
    )];
    let grown = shoot.born();
    if grown.is_some() {
        out.push(measure(
            "measure-diameter",
            Quantity::Thickness,
            shoot.diameter,
            Correction::Diameter {
                tree,
                shoot: id,
                to_dmm: libm::round(shoot.diameter * 10.0) as i32,
            },
        ));
    }
    if shoot.parent.is_some() {
        out.push(measure(
            "measure-at",
            Quantity::Length,
            shoot.at,
            Correction::At {
                tree,
                shoot: id,
                to_mm: Mm::round(shoot.at),
            },
        ));
    }
    let Some(born) = grown else {
        return out;
    };
    let held = Correction::Pose {
        tree,
        shoot: id,
        pose: shoot.pose,
    };
    match shoot.pose {
        Pose::Laid { rise, .. } => {
            out.push(measure(
                "measure-rise",
                Quantity::Angle,
                rise.degrees(),
                held,
            ));
        }
        Pose::Upright { lean } => {
            out.push(measure(
                "measure-lean",
                Quantity::Angle,
                lean.degrees(),
                held,
            ));
        }
        Pose::Stub | Pose::Free => {}
    }
    out.push(measure(
        "measure-season",
        Quantity::Count,
        born.into(),
        Correction::Season {
            tree,
            shoot: id,
            leaf: born.into(),
        },
    ));
    let Laterals { count, total } = shoot.laterals;
    let laterals = Correction::Laterals {
        tree,
        shoot: id,
        count: count.into(),
        total,
    };
    out.push(measure(
        "measure-laterals",
        Quantity::Count,
        count.into(),
        laterals.clone(),
    ));
    if count > 0 {
        let key = "measure-laterals-length";
        out.push(measure(key, Quantity::Length, total, laterals));
    }
    out
}

fn shoot_picks(tree: TreeId, shoot: &Shoot) -> Vec<Pick> {
    let id = shoot.id;
    if shoot.units.is_empty() {
        return vec![face_pick(tree, shoot)];
    }
    let level = Deg::default();
    let (rise, lean) = match shoot.pose {
        Pose::Laid { rise, .. } => (rise, level),
        Pose::Upright { lean } => (level, lean),
        Pose::Stub | Pose::Free => (level, level),
    };
    let laid = |toward| Pose::Laid { toward, rise };
    let mut poses = vec![
        ("record-laid-left", laid(Toward::Left)),
        ("record-laid-right", laid(Toward::Right)),
        ("record-upright", Pose::Upright { lean }),
        ("record-free", Pose::Free),
    ];
    if shoot.parent.is_some() {
        poses.push(("record-stub", Pose::Stub));
    }
    let poses = poses.into_iter().map(|(key, pose)| Picked {
        key,
        correction: Correction::Pose {
            tree,
            shoot: id,
            pose,
        },
        now: pose == shoot.pose,
    });
    let mut out = vec![Pick {
        key: "measure-pose",
        choices: poses.collect(),
    }];
    if shoot.parent.is_some() {
        out.push(face_pick(tree, shoot));
    }
    if shoot.pose.is_laid() {
        let rubbed = [("record-buds-left", false), ("record-buds-rubbed", true)];
        let choices = rubbed.map(|(key, rubbed)| Picked {
            key,
            correction: Correction::Rubbed {
                tree,
                shoot: id,
                rubbed,
            },
            now: shoot.rubbed == rubbed,
        });
        out.push(Pick {
            key: "measure-side-buds",
            choices: choices.to_vec(),
        });
    }
    out
}

fn face_pick(tree: TreeId, shoot: &Shoot) -> Pick {
    let faces = [
        ("record-top", Face::Top),
        ("record-side", Face::Side),
        ("record-under", Face::Under),
    ];
    Pick {
        key: "measure-face",
        choices: faces
            .map(|(key, face)| Picked {
                key,
                correction: Correction::Face {
                    tree,
                    shoot: shoot.id,
                    face,
                },
                now: face == shoot.face,
            })
            .to_vec(),
    }
}
