//! Work: one training action on one part of the row.

mod apply;
mod choices;
mod effect;
mod hand;
mod kind;
mod numbers;
mod spread;
mod words;

pub use apply::{apply, apply_to_tree, apply_to_trellis};
pub(crate) use apply::{one_more, work_on};
pub use choices::{Asked, Choice, choices};
pub(crate) use effect::Effect;
pub use hand::{asks_to_bend, budded, can_bend, nudged, raised, stubbed};
pub use numbers::Number;
pub use spread::{Sweep, spread};

use crate::row::{Covering, Planted, ShootId, Toward, TreeId};
use crate::units::{Deg, Mm};

/// One training action. Lengths are whole millimetres.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)] // Fields of one name mean one thing throughout; they are told at `Work`'s variants.
pub enum Work {
    /// Plant a tree at a free place: stock of a length and thickness.
    Plant {
        tree: TreeId,
        foot_mm: Mm,
        planted: Planted,
        length_mm: Mm,
        diameter_dmm: u16,
    },
    /// Take a tree out.
    RemoveTree { tree: TreeId },
    /// Put new stock in a tree's place.
    ReplaceTree {
        tree: TreeId,
        planted: Planted,
        length_mm: Mm,
        diameter_dmm: u16,
    },
    /// Lay a leader or shoot along the cordon wire and tie it, its end rising by −10 to 30°.
    Lay {
        tree: TreeId,
        shoot: ShootId,
        toward: Toward,
        rise_deg: Deg,
    },
    /// Stand a shoot up, leaning from the vertical by −60 to 60°, right positive.
    Stand {
        tree: TreeId,
        shoot: ShootId,
        lean_deg: Deg,
    },
    /// Cut a shoot back to a length; 10 mm or more.
    CutBack {
        tree: TreeId,
        shoot: ShootId,
        keep_mm: Mm,
    },
    /// Cut a shoot back to so many buds of its oldest wood that is left; 1 to 20.
    CutToBuds {
        tree: TreeId,
        shoot: ShootId,
        buds: i32,
    },
    /// Cut an upright to a stub of 20 to 500 mm for renewal.
    Stub {
        tree: TreeId,
        shoot: ShootId,
        keep_mm: Mm,
    },
    /// Take a shoot off, with all that grows from it; not the stem.
    Remove { tree: TreeId, shoot: ShootId },
    /// Of the shoots that return from a stub, keep one and take the others off. `shoot` is the stub.
    Thin {
        tree: TreeId,
        shoot: ShootId,
        keep: ShootId,
    },
    /// Rub out the side and underside buds of laid wood, or of a stem that is still to be laid.
    RubOut { tree: TreeId, shoot: ShootId },
    /// Keep a bud on laid wood, or on a stem that is still to be laid, where an upright is to grow, so far along it from its
    /// base.
    KeepBud {
        tree: TreeId,
        shoot: ShootId,
        at_mm: Mm,
    },
    /// Notch laid wood of two seasons or older above a bud, so far along it from its base, to bring an upright on there. It
    /// leaves a bud as [`KeepBud`](Self::KeepBud) does, but one that [may not grow](crate::row::notch_take).
    Notch {
        tree: TreeId,
        shoot: ShootId,
        at_mm: Mm,
    },
    /// Keep another bud instead: `shoot` is the kept bud, and its place moves along its parent.
    MoveBud {
        tree: TreeId,
        shoot: ShootId,
        at_mm: Mm,
    },
    /// Take all laterals off a shoot.
    TakeLaterals { tree: TreeId, shoot: ShootId },
    /// Tip a shoot: cut off that share of last year's growth, 1 to 90 %.
    Tip {
        tree: TreeId,
        shoot: ShootId,
        percent: i32,
    },
    /// Hold an upright at a height above the ground: cut off what stands above it.
    HoldHeight {
        tree: TreeId,
        shoot: ShootId,
        height_mm: Mm,
    },
    /// Stretch another wire.
    AddWire { height_mm: Mm, covering: Covering },
    /// Move a wire.
    MoveWire { height_mm: Mm, to_mm: Mm },
    /// Take a wire down; not the cordon wire.
    RemoveWire { height_mm: Mm },
    /// Cover a wire, or lay it bare.
    CoverWire { height_mm: Mm, covering: Covering },
}

/// The kinds of work, in the order in which a window's work is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Planting and taking out.
    Tree,
    /// Wires.
    Wire,
    /// Laying and standing.
    Bend,
    /// Cutting back, stubbing, removing.
    Cut,
    /// Thinning a stub's returns.
    Thin,
    /// Rubbing buds out.
    Rub,
    /// Keeping buds, and notching above them.
    Bud,
    /// Moving kept buds.
    Move,
    /// Taking laterals off.
    Laterals,
    /// Tipping and holding the height.
    Tip,
}

/// What a piece of work is about: at most one item of a kind on a subject in one window.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Subject {
    /// The tree; `None` for work on the trellis.
    pub tree: Option<TreeId>,
    /// The kind.
    pub kind: Stage,
    /// The shoot; the stem where it is the whole tree, or the trellis.
    pub shoot: ShootId,
    /// The place on it, or the wire's height, where one subject has several.
    pub at: Option<Mm>,
}

impl Work {
    /// Its subject and kind: a later work with the same one takes its place.
    pub fn subject(&self) -> Subject {
        let stem = ShootId::STEM;
        let (tree, kind, shoot, at) = match *self {
            Self::Plant { tree, .. }
            | Self::RemoveTree { tree }
            | Self::ReplaceTree { tree, .. } => (Some(tree), Stage::Tree, stem, None),
            Self::Lay { tree, shoot, .. } | Self::Stand { tree, shoot, .. } => {
                (Some(tree), Stage::Bend, shoot, None)
            }
            Self::CutBack { tree, shoot, .. }
            | Self::CutToBuds { tree, shoot, .. }
            | Self::Stub { tree, shoot, .. }
            | Self::Remove { tree, shoot } => (Some(tree), Stage::Cut, shoot, None),
            Self::Thin { tree, shoot, .. } => (Some(tree), Stage::Thin, shoot, None),
            Self::RubOut { tree, shoot } => (Some(tree), Stage::Rub, shoot, None),
            Self::KeepBud { tree, shoot, at_mm } | Self::Notch { tree, shoot, at_mm } => {
                (Some(tree), Stage::Bud, shoot, Some(at_mm))
            }
            Self::MoveBud { tree, shoot, .. } => (Some(tree), Stage::Move, shoot, None),
            Self::TakeLaterals { tree, shoot } => (Some(tree), Stage::Laterals, shoot, None),
            Self::Tip { tree, shoot, .. } | Self::HoldHeight { tree, shoot, .. } => {
                (Some(tree), Stage::Tip, shoot, None)
            }
            Self::AddWire { height_mm, .. }
            | Self::MoveWire { height_mm, .. }
            | Self::RemoveWire { height_mm }
            | Self::CoverWire { height_mm, .. } => (None, Stage::Wire, stem, Some(height_mm)),
        };
        Subject {
            tree,
            kind,
            shoot,
            at,
        }
    }

    /// The tree that it changes; `None` for work on the trellis.
    pub fn tree(&self) -> Option<TreeId> {
        self.subject().tree
    }

    /// The shoots that it names.
    pub(crate) fn shoots_mut(&mut self) -> [Option<&mut ShootId>; 2] {
        match self {
            Self::Thin { shoot, keep, .. } => [Some(shoot), Some(keep)],
            Self::Lay { shoot, .. }
            | Self::Stand { shoot, .. }
            | Self::CutBack { shoot, .. }
            | Self::CutToBuds { shoot, .. }
            | Self::Stub { shoot, .. }
            | Self::Remove { shoot, .. }
            | Self::RubOut { shoot, .. }
            | Self::KeepBud { shoot, .. }
            | Self::Notch { shoot, .. }
            | Self::MoveBud { shoot, .. }
            | Self::TakeLaterals { shoot, .. }
            | Self::Tip { shoot, .. }
            | Self::HoldHeight { shoot, .. } => [Some(shoot), None],
            Self::Plant { .. }
            | Self::RemoveTree { .. }
            | Self::ReplaceTree { .. }
            | Self::AddWire { .. }
            | Self::MoveWire { .. }
            | Self::RemoveWire { .. }
            | Self::CoverWire { .. } => [None, None],
        }
    }

    /// Whether it is about that shoot and not the whole tree.
    pub fn is_about(&self, tree: TreeId, shoot: ShootId, leaf: u8) -> bool {
        let subject = self.subject();
        if subject.tree != Some(tree) || subject.kind == Stage::Tree {
            return false;
        }
        match self.kept_bud(leaf) {
            Some(bud) => bud == shoot,
            None => subject.shoot == shoot,
        }
    }
}
