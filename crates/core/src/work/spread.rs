//! One kind of work on many shoots at once: a choice of trees, or the whole row.

use super::apply::LEAST_KEPT;
use super::{Asked, Work, apply_to_tree};
use crate::pose::layout;
use crate::refusal::Refusal;
use crate::row::{
    Kind, Laterals, Limit, Moment, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId,
};
use crate::said::Quantity;
use crate::terms::Terms;
use crate::units::Mm;
use std::sync::Arc;

/// Work that is done shoot by shoot over many trees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sweep {
    /// Lay every stem that still stands along the wire, the way it was planted for.
    Lay,
    /// Take the laterals off every upright.
    Laterals,
    /// Tip every upright by so many per cent of last year's growth.
    Tip(i32),
    /// Hold every upright at a height above the ground.
    Height(Mm),
    /// Rub out the side and underside buds of all laid wood.
    RubOut,
    /// Take off every shoot from the side or underside of laid wood.
    SideShoots,
    /// Stand every leaning upright up.
    Straighten,
    /// Stub so many of each tree's uprights, the thickest, to a length.
    Largest(u8, Mm),
}

impl Sweep {
    /// Every kind, with the numbers that are usual on a row under its limits.
    pub fn all(row: &Row, targets: &Targets) -> [Self; 8] {
        let percent = libm::round(targets.get(Limit::TippingShare) * 100.0) as i32;
        [
            Self::Laterals,
            Self::Tip(percent),
            Self::Height(row.trellis.wall_height),
            Self::RubOut,
            Self::SideShoots,
            Self::Straighten,
            Self::Lay,
            Self::Largest(1, Mm::round(targets.get(Limit::StubLength))),
        ]
    }

    /// Its text's name.
    pub fn key(self) -> &'static str {
        match self {
            Self::Lay => "sweep-lay",
            Self::Laterals => "sweep-laterals",
            Self::Tip(_) => "sweep-tip",
            Self::Height(_) => "sweep-height",
            Self::RubOut => "sweep-rub-out",
            Self::SideShoots => "sweep-side-shoots",
            Self::Straighten => "sweep-straighten",
            Self::Largest(..) => "sweep-largest",
        }
    }

    /// The number that goes with it, if one does.
    pub fn asked(self) -> Option<Asked> {
        match self {
            Self::Tip(percent) => Some(Asked {
                unit: Quantity::Share,
                usual: f64::from(percent) / 100.0,
            }),
            Self::Height(height) => Some(Asked {
                unit: Quantity::Length,
                usual: height.f(),
            }),
            Self::Largest(count, _) => Some(Asked {
                unit: Quantity::Count,
                usual: f64::from(count),
            }),
            _ => None,
        }
    }

    /// The same with another number; one that can't be leaves nothing to do.
    pub fn with(self, number: f64) -> Self {
        match self {
            Self::Tip(_) => Self::Tip(libm::round(number * 100.0) as i32),
            Self::Height(_) => Self::Height(Mm::round(number)),
            Self::Largest(_, keep) => Self::Largest(number as u8, keep),
            other => other,
        }
    }

    /// The name of the text that says what to take care of.
    pub fn caution(self) -> Option<&'static str> {
        let tree = TreeId(0);
        let shoot = ShootId::STEM;
        match self {
            Self::Lay => Work::Lay {
                tree,
                shoot,
                toward: Toward::Right,
                rise_deg: Default::default(),
            },
            Self::Laterals => Work::TakeLaterals { tree, shoot },
            Self::Tip(percent) => Work::Tip {
                tree,
                shoot,
                percent,
            },
            Self::Height(height_mm) => Work::HoldHeight {
                tree,
                shoot,
                height_mm,
            },
            Self::RubOut => Work::RubOut { tree, shoot },
            Self::SideShoots => Work::Remove { tree, shoot },
            Self::Straighten => Work::Stand {
                tree,
                shoot,
                lean_deg: Default::default(),
            },
            Self::Largest(_, keep_mm) => Work::Stub {
                tree,
                shoot,
                keep_mm,
            },
        }
        .caution()
    }

    /// Why a number that was typed can be on no shoot, where the first upright shows that: more tipped than grew, a height
    /// below the wood that it stands on. Above what stands there is merely nothing to do.
    pub fn out_of_range(
        self,
        row: &Row,
        moment: Moment,
        terms: &Terms,
        typed: f64,
    ) -> Option<Refusal> {
        let first = |tree: &'_ Arc<Tree>| {
            let index = tree.shoots.iter().position(|s| s.kind() == Kind::Upright)?;
            Some((Arc::clone(tree), index))
        };
        let (tree, index) = row.trees.iter().find_map(first)?;
        let (id, shoot) = (tree.id, tree.shoots[index].id);
        let work = match self {
            Self::Tip(percent) => Work::Tip {
                tree: id,
                shoot,
                percent,
            },
            Self::Height(height_mm) => {
                let base = layout(&tree, terms.geometry)[index].base.y;
                if typed >= base + LEAST_KEPT {
                    return None;
                }
                Work::HoldHeight {
                    tree: id,
                    shoot,
                    height_mm,
                }
            }
            _ => return None,
        };
        let mut why = apply_to_tree(&tree, moment, terms, &work).err()?;
        // One that says a value is about the number; as it was typed, not as the work could hold it.
        let value = why.args.iter_mut().find(|(name, _)| *name == "value")?;
        value.1 = self.asked()?.unit.arg(typed);
        Some(why)
    }

    fn on(self, on: &Tree, shoot: &Shoot) -> Option<Work> {
        let (tree, id, kind) = (on.id, shoot.id, shoot.kind());
        match self {
            Self::Lay => {
                let stands = on.standing_stem().is_some_and(|stem| stem.id == id);
                stands.then_some(Work::Lay {
                    tree,
                    shoot: id,
                    toward: on.planted.toward,
                    rise_deg: Default::default(),
                })
            }
            Self::Laterals => (kind == Kind::Upright && shoot.laterals != Laterals::default())
                .then_some(Work::TakeLaterals { tree, shoot: id }),
            Self::Tip(percent) => (kind == Kind::Upright).then_some(Work::Tip {
                tree,
                shoot: id,
                percent,
            }),
            Self::Height(height_mm) => (kind == Kind::Upright).then_some(Work::HoldHeight {
                tree,
                shoot: id,
                height_mm,
            }),
            Self::RubOut => (on.takes_bud_work(shoot) && !shoot.rubbed)
                .then_some(Work::RubOut { tree, shoot: id }),
            Self::SideShoots => on
                .is_side_shoot(shoot)
                .then_some(Work::Remove { tree, shoot: id }),
            Self::Straighten => match shoot.pose {
                crate::row::Pose::Upright { lean }
                    if kind == Kind::Upright && lean != Default::default() =>
                {
                    Some(Work::Stand {
                        tree,
                        shoot: id,
                        lean_deg: Default::default(),
                    })
                }
                _ => None,
            },
            Self::Largest(count, keep_mm) => {
                let uprights = || on.shoots.iter().filter(|s| s.kind() == Kind::Upright);
                // Of two alike the first in the tree's order is the larger.
                let before = |other: &&Shoot| {
                    other.diameter > shoot.diameter
                        || (other.diameter == shoot.diameter && other.id < id)
                };
                let larger = uprights().filter(before).count();
                (kind == Kind::Upright && larger < usize::from(count)).then_some(Work::Stub {
                    tree,
                    shoot: id,
                    keep_mm,
                })
            }
        }
    }
}

/// The work of `sweep` on the trees that `chosen` picks, leaving out what can't be done there (an upright that is
/// below the height already).
pub fn spread(
    row: &Row,
    moment: Moment,
    terms: &Terms,
    sweep: Sweep,
    chosen: impl Fn(TreeId) -> bool,
) -> Vec<Work> {
    let mut out = Vec::new();
    for tree in row.trees.iter().filter(|t| chosen(t.id)) {
        // On what the work so far leaves: with a shoot that is taken off goes what grows from it.
        let mut left = None;
        for work in tree.shoots.iter().filter_map(|s| sweep.on(tree, s)) {
            let on = left.as_ref().unwrap_or(tree.as_ref());
            if let Ok(done) = apply_to_tree(on, moment, terms, &work) {
                left = Some(done);
                out.push(work);
            }
        }
    }
    out
}
