//! What can be done on a part: each choice is work that is ready, or asks for one number first.

use super::{Work, apply_to_tree};
use crate::nodes::length_of_buds;
use crate::pose::{Course, Posed, PosedRow};
use crate::row::{Kind, Limit, Moment, Pose, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId};
use crate::said::Quantity;
use crate::said::Said;
use crate::terms::Terms;
use crate::units::{Deg, Mm};

/// How far above the cordon wire, in mm, the base of an upright may be that is laid along it.
const LAY_FROM: f64 = 300.0;
/// How many buds a shoot is cut back to, where nothing says it.
const BUDS: f64 = 3.0;

/// The number that a choice asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    /// In what it is typed.
    pub unit: Quantity,
    /// What is usual.
    pub usual: f64,
}

/// Something that can be done on a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Its name: `act-…`.
    pub said: Said,
    /// The name of the step that it is.
    pub step: &'static str,
    /// The numbers that it asks for, in the order of [`Choice::work`]; none for work that is ready.
    pub asked: Vec<Asked>,
    work: Work,
}

impl Choice {
    /// The work, with the numbers that were asked for.
    pub fn work(&self, numbers: &[f64]) -> Work {
        let mut out = self.work.clone();
        // What is missing or no number must not become one in range.
        let number = |i: usize| match numbers.get(i) {
            Some(n) if !n.is_nan() => *n,
            _ => f64::NEG_INFINITY,
        };
        let (first, second) = (number(0), number(1));
        // A number beyond its type saturates, and is then refused as out of range.
        let whole = |v: f64| libm::round(v);
        match &mut out {
            Work::CutBack { keep_mm: mm, .. }
            | Work::MoveBud { at_mm: mm, .. }
            | Work::HoldHeight { height_mm: mm, .. }
                if !self.asked.is_empty() =>
            {
                *mm = Mm::round(first);
            }
            Work::CutToBuds { buds, .. } => *buds = whole(first) as i32,
            Work::Tip { percent, .. } => *percent = whole(first * 100.0) as i32,
            Work::Plant {
                length_mm,
                diameter_dmm,
                ..
            }
            | Work::ReplaceTree {
                length_mm,
                diameter_dmm,
                ..
            } => {
                *length_mm = Mm::round(first);
                *diameter_dmm = whole(second * 10.0) as u16;
            }
            // No choice asks for a number of these.
            Work::CutBack { .. }
            | Work::MoveBud { .. }
            | Work::HoldHeight { .. }
            | Work::RemoveTree { .. }
            | Work::Lay { .. }
            | Work::Stand { .. }
            | Work::Stub { .. }
            | Work::Remove { .. }
            | Work::Thin { .. }
            | Work::RubOut { .. }
            | Work::KeepBud { .. }
            | Work::Notch { .. }
            | Work::TakeLaterals { .. }
            | Work::AddWire { .. }
            | Work::MoveWire { .. }
            | Work::RemoveWire { .. }
            | Work::CoverWire { .. } => {}
        }
        out
    }

    fn ready(key: &'static str, step: &'static str, work: Work) -> Self {
        Self {
            said: Said::plain(key),
            step,
            asked: Vec::new(),
            work,
        }
    }

    fn asking(
        key: &'static str,
        step: &'static str,
        work: Work,
        unit: Quantity,
        usual: f64,
    ) -> Self {
        Self {
            asked: vec![Asked { unit, usual }],
            ..Self::ready(key, step, work)
        }
    }
}

/// What can be done on a tree as a whole: `None` for `shoot`; or on one of its shoots.
pub fn choices(
    row: &PosedRow,
    moment: Moment,
    terms: &Terms,
    targets: &Targets,
    tree: TreeId,
    shoot: Option<ShootId>,
) -> Vec<Choice> {
    let Some(posed) = row.of_tree(tree) else {
        return Vec::new();
    };
    let on = posed.tree();
    let Some(id) = shoot else {
        return tree_choices(row, on);
    };
    let Some((shoot, course)) = on.index(id).map(|i| (&on.shoots[i], posed.courses()[i])) else {
        return Vec::new();
    };
    let part = Part {
        row,
        targets,
        terms,
        posed,
        tree: on,
        shoot,
        course,
    };
    let mut out = part.choices();
    // What needs no number is offered where it can be done.
    out.retain(|c| !c.asked.is_empty() || apply_to_tree(on, moment, terms, &c.work(&[])).is_ok());
    out
}

fn tree_choices(row: &Row, on: &Tree) -> Vec<Choice> {
    let (tree, planted, foot_mm) = (on.id, on.planted, on.foot);
    let (length, diameter) = row.usual_stem();
    let asked = vec![
        Asked {
            unit: Quantity::Length,
            usual: length,
        },
        Asked {
            unit: Quantity::Thickness,
            usual: diameter,
        },
    ];
    let stock = |key, step, work| Choice {
        asked: asked.clone(),
        ..Choice::ready(key, step, work)
    };
    if on.is_lost() {
        let work = Work::Plant {
            tree,
            foot_mm,
            planted,
            length_mm: Mm(0),
            diameter_dmm: 0,
        };
        return vec![stock("act-plant", "step-plant", work)];
    }
    let replace = Work::ReplaceTree {
        tree,
        planted,
        length_mm: Mm(0),
        diameter_dmm: 0,
    };
    vec![
        Choice::ready(
            "act-remove-tree",
            "step-remove-tree",
            Work::RemoveTree { tree },
        ),
        stock("act-replace-tree", "step-replace-tree", replace),
    ]
}

struct Part<'r> {
    row: &'r Row,
    targets: &'r Targets,
    terms: &'r Terms,
    posed: &'r Posed,
    tree: &'r Tree,
    shoot: &'r Shoot,
    course: Course,
}

impl Part<'_> {
    fn choices(&self) -> Vec<Choice> {
        match self.shoot.kind() {
            Kind::Upright => self.upright(),
            Kind::Leader => self.leader(),
            Kind::Shoot => self.loose(),
            Kind::Stem => vec![
                self.lay("act-lay-left", Toward::Left),
                self.lay("act-lay-right", Toward::Right),
                self.rub_out(),
                self.cut_back(),
            ],
            Kind::Stub => self.stub(),
            Kind::Bud => vec![self.move_bud(), self.remove()],
        }
    }

    fn lay(&self, key: &'static str, toward: Toward) -> Choice {
        let work = Work::Lay {
            tree: self.tree.id,
            shoot: self.shoot.id,
            toward,
            rise_deg: Deg::default(),
        };
        Choice::ready(key, "step-lay", work)
    }

    fn stand(&self) -> Choice {
        let work = Work::Stand {
            tree: self.tree.id,
            shoot: self.shoot.id,
            lean_deg: Deg::default(),
        };
        Choice::ready("act-stand", "step-stand", work)
    }

    fn remove(&self) -> Choice {
        let work = Work::Remove {
            tree: self.tree.id,
            shoot: self.shoot.id,
        };
        Choice::ready("act-remove", "step-remove", work)
    }

    fn rub_out(&self) -> Choice {
        let work = Work::RubOut {
            tree: self.tree.id,
            shoot: self.shoot.id,
        };
        Choice::ready("act-rub-out", "step-rub-out", work)
    }

    fn take_laterals(&self) -> Choice {
        let work = Work::TakeLaterals {
            tree: self.tree.id,
            shoot: self.shoot.id,
        };
        Choice::ready("act-take-laterals", "step-laterals", work)
    }

    fn cut_back(&self) -> Choice {
        let work = Work::CutBack {
            tree: self.tree.id,
            shoot: self.shoot.id,
            keep_mm: Mm(0),
        };
        let usual = libm::round(self.shoot.length() * 0.8 / 10.0) * 10.0;
        Choice::asking("act-cut", "step-cut", work, Quantity::Length, usual)
    }

    fn cut_to_buds(&self) -> Option<Choice> {
        let first = self.shoot.units.first()?;
        let fits = length_of_buds(&self.terms.assumptions, first.grown, 1) < self.shoot.length();
        let work = Work::CutToBuds {
            tree: self.tree.id,
            shoot: self.shoot.id,
            buds: 0,
        };
        fits.then(|| Choice::asking("act-cut-to-buds", "step-cut", work, Quantity::Count, BUDS))
    }

    fn tip(&self) -> Option<Choice> {
        let last = self.shoot.units.last()?;
        let work = Work::Tip {
            tree: self.tree.id,
            shoot: self.shoot.id,
            percent: 0,
        };
        let usual = self.targets.get(Limit::TippingShare);
        (last.leaf + 1 >= self.row.leaf)
            .then(|| Choice::asking("act-tip", "step-tip", work, Quantity::Share, usual))
    }

    fn hold_height(&self) -> Choice {
        let work = Work::HoldHeight {
            tree: self.tree.id,
            shoot: self.shoot.id,
            height_mm: Mm(0),
        };
        let usual = self.row.trellis.wall_height.f();
        Choice::asking(
            "act-hold-height",
            "step-height",
            work,
            Quantity::Length,
            usual,
        )
    }

    fn move_bud(&self) -> Choice {
        let work = Work::MoveBud {
            tree: self.tree.id,
            shoot: self.shoot.id,
            at_mm: Mm(0),
        };
        let usual = self.shoot.at;
        Choice::asking(
            "act-move-bud",
            "step-move-bud",
            work,
            Quantity::Length,
            usual,
        )
    }

    fn upright(&self) -> Vec<Choice> {
        let keep = self.targets.get(Limit::StubLength);
        let stub = Work::Stub {
            tree: self.tree.id,
            shoot: self.shoot.id,
            keep_mm: Mm::round(keep),
        };
        let mut out = vec![Choice::ready("act-stub", "step-stub", stub)];
        if self.course.base.y <= self.terms.geometry.wire + LAY_FROM {
            out.push(self.lay("act-lay-left", Toward::Left));
            out.push(self.lay("act-lay-right", Toward::Right));
        }
        if let Pose::Upright { lean } = self.shoot.pose
            && lean != Deg::default()
        {
            out.push(self.stand());
        }
        out.push(self.take_laterals());
        out.extend(self.tip());
        out.push(self.hold_height());
        out.push(self.cut_back());
        out.extend(self.cut_to_buds());
        out.push(self.remove());
        out
    }

    fn leader(&self) -> Vec<Choice> {
        let mut out = Vec::new();
        if let Pose::Laid { toward, rise } = self.shoot.pose {
            if rise != Deg::default() {
                out.push(self.lay("act-lower", toward));
            }
            let key = match toward {
                Toward::Left => "act-lay-right",
                Toward::Right => "act-lay-left",
            };
            out.push(self.lay(key, toward.other()));
        }
        out.push(self.stand());
        out.push(self.rub_out());
        out.push(self.take_laterals());
        out.push(self.cut_back());
        out.push(self.remove());
        out
    }

    fn loose(&self) -> Vec<Choice> {
        let mut out = vec![
            self.lay("act-lay-left", Toward::Left),
            self.lay("act-lay-right", Toward::Right),
            self.stand(),
            self.take_laterals(),
        ];
        out.extend(self.tip());
        out.push(self.cut_back());
        out.extend(self.cut_to_buds());
        out.push(self.remove());
        out
    }

    /// Of the shoots that return from the stub, each can be the one that is kept.
    fn stub(&self) -> Vec<Choice> {
        let stub = self.shoot.id;
        let returns = self.tree.shoots.iter().filter(|s| s.parent == Some(stub));
        let mut out: Vec<Choice> = returns
            .filter_map(|s| {
                let work = Work::Thin {
                    tree: self.tree.id,
                    shoot: stub,
                    keep: s.id,
                };
                let name = self.posed.name(s.id)?;
                Some(Choice {
                    said: Said::new("act-thin", vec![("part", name.into())]),
                    ..Choice::ready("act-thin", "step-thin", work)
                })
            })
            .collect();
        out.push(self.remove());
        out
    }
}
