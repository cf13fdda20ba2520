//! What a piece of work brings to a tree or takes from it, as far as other work has to know.

use super::{Stage, Work};
use crate::row::{Planted, ShootId, TreeId};
use crate::units::Mm;

/// What work does to what other work may be about. Every kind of work says which it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Effect {
    /// It brings a tree to a place, where the row has none of that number.
    Plants {
        tree: TreeId,
        foot: Mm,
        planted: Planted,
    },
    /// It brings a bud, so far along a shoot.
    Keeps {
        tree: TreeId,
        parent: ShootId,
        at: Mm,
    },
    /// It takes a shoot off.
    TakesOff { tree: TreeId, shoot: ShootId },
    /// It takes a tree out, with all that has grown.
    TakesOut { tree: TreeId },
    /// It leaves a stub of a shoot.
    Stubs,
    /// What was there is there, changed at most.
    Changes,
}

impl Work {
    /// What it brings or takes.
    pub(crate) fn effect(&self) -> Effect {
        match *self {
            Self::Plant {
                tree,
                foot_mm: foot,
                planted,
                ..
            } => Effect::Plants {
                tree,
                foot,
                planted,
            },
            Self::KeepBud { tree, shoot, at_mm } | Self::Notch { tree, shoot, at_mm } => {
                Effect::Keeps {
                    tree,
                    parent: shoot,
                    at: at_mm,
                }
            }
            Self::Remove { tree, shoot } => Effect::TakesOff { tree, shoot },
            Self::RemoveTree { tree } => Effect::TakesOut { tree },
            Self::Stub { .. } => Effect::Stubs,
            Self::ReplaceTree { .. }
            | Self::Lay { .. }
            | Self::Stand { .. }
            | Self::CutBack { .. }
            | Self::CutToBuds { .. }
            | Self::Thin { .. }
            | Self::RubOut { .. }
            | Self::MoveBud { .. }
            | Self::TakeLaterals { .. }
            | Self::Tip { .. }
            | Self::HoldHeight { .. }
            | Self::AddWire { .. }
            | Self::MoveWire { .. }
            | Self::RemoveWire { .. }
            | Self::CoverWire { .. } => Effect::Changes,
        }
    }

    /// Whether this cut leaves nothing for other work of its window to do: a stub has neither laterals nor a tip, and of
    /// what is taken off nothing is left.
    pub fn leaves_nothing_for(&self, other: &Work) -> bool {
        let (own, its) = (self.subject(), other.subject());
        let later = its.kind > Stage::Cut && (own.tree, own.shoot) == (its.tree, its.shoot);
        match self.effect() {
            Effect::TakesOff { .. } => later,
            Effect::Stubs => later && matches!(its.kind, Stage::Laterals | Stage::Tip),
            Effect::Plants { .. }
            | Effect::Keeps { .. }
            | Effect::TakesOut { .. }
            | Effect::Changes => false,
        }
    }

    /// Whether nothing, or no more than a stub, is left of its shoot.
    pub fn ends_shoot(&self) -> bool {
        matches!(self.effect(), Effect::TakesOff { .. } | Effect::Stubs)
    }

    /// The id of the bud that it brings in `leaf`, if it keeps one.
    pub fn kept_bud(&self, leaf: u8) -> Option<ShootId> {
        match self.effect() {
            Effect::Keeps { tree, parent, at } => {
                let at = u32::try_from(at.0).unwrap_or(0);
                Some(ShootId::grown(tree, leaf, parent, at))
            }
            Effect::Plants { .. }
            | Effect::TakesOff { .. }
            | Effect::TakesOut { .. }
            | Effect::Stubs
            | Effect::Changes => None,
        }
    }
}
