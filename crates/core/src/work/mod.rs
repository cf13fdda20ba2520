//! Work: one training action on one part of the row.

mod apply;

pub use apply::{apply, apply_to_tree};

use crate::row::{ShootId, Toward, TreeId};
use crate::units::{Deg, Mm};
use crate::words::Arg;
use serde::{Deserialize, Serialize};

/// One training action.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "do", rename_all = "snake_case", deny_unknown_fields)]
pub enum Work {
    /// Lay a leader or shoot along the cordon wire and tie it.
    Lay {
        /// The tree.
        tree: TreeId,
        /// The shoot.
        shoot: ShootId,
        /// Which way.
        toward: Toward,
        /// Rise of its end, −10 to 30°.
        rise_deg: Deg,
    },
    /// Stand a shoot up.
    Stand {
        /// The tree.
        tree: TreeId,
        /// The shoot.
        shoot: ShootId,
        /// Lean from the vertical, right positive, −60 to 60°.
        lean_deg: Deg,
    },
    /// Cut a shoot back to a length.
    CutBack {
        /// The tree.
        tree: TreeId,
        /// The shoot.
        shoot: ShootId,
        /// Length kept from its base; 10 mm or more.
        keep_mm: Mm,
    },
    /// Cut an upright to a stub for renewal.
    Stub {
        /// The tree.
        tree: TreeId,
        /// The shoot.
        shoot: ShootId,
        /// Length of the stub, 20 to 500 mm.
        keep_mm: Mm,
    },
    /// Take a shoot off, with all that grows from it.
    Remove {
        /// The tree.
        tree: TreeId,
        /// The shoot; not the stem.
        shoot: ShootId,
    },
    /// Keep a bud on laid wood, where an upright is to grow.
    KeepBud {
        /// The tree.
        tree: TreeId,
        /// The laid shoot.
        shoot: ShootId,
        /// Distance along that shoot from its base.
        at_mm: Mm,
    },
}

/// What a piece of work is about: at most one item of a kind on a subject in one window.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Subject {
    /// The tree.
    pub tree: TreeId,
    /// In which order kinds are done: bending, cutting, keeping buds.
    pub kind: Stage,
    /// The shoot.
    pub shoot: ShootId,
    /// The place on it, for work that can be done at several places of one shoot.
    pub at: Option<Mm>,
}

/// The kinds of work, in the order in which a window's work is done on a tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Laying and standing.
    Bend,
    /// Cutting back, stubbing, removing.
    Cut,
    /// Keeping buds.
    Bud,
}

impl Work {
    /// Its subject and kind: a later work with the same one takes its place.
    pub fn subject(&self) -> Subject {
        let (tree, kind, shoot, at) = match *self {
            Self::Lay { tree, shoot, .. } | Self::Stand { tree, shoot, .. } => {
                (tree, Stage::Bend, shoot, None)
            }
            Self::CutBack { tree, shoot, .. }
            | Self::Stub { tree, shoot, .. }
            | Self::Remove { tree, shoot } => (tree, Stage::Cut, shoot, None),
            Self::KeepBud { tree, shoot, at_mm } => (tree, Stage::Bud, shoot, Some(at_mm)),
        };
        Subject {
            tree,
            kind,
            shoot,
            at,
        }
    }

    /// The tree that it changes.
    pub fn tree(&self) -> TreeId {
        self.subject().tree
    }

    /// The id of the bud that it brings in `leaf`, if it keeps one.
    pub fn kept_bud(&self, leaf: u8) -> Option<ShootId> {
        match *self {
            Self::KeepBud { tree, shoot, at_mm } => Some(ShootId::grown(
                tree,
                leaf,
                shoot,
                u32::try_from(at_mm.0).unwrap_or(0),
            )),
            _ => None,
        }
    }
}

impl Work {
    /// Its text's name in the language file, and what that speaks of. The subject is not named.
    pub fn words(&self) -> (&'static str, Vec<(&'static str, Arg)>) {
        match *self {
            Self::Lay {
                toward, rise_deg, ..
            } => {
                let way = match toward {
                    Toward::Left => "left",
                    Toward::Right => "right",
                };
                let toward = ("toward", Arg::Text(way.into()));
                (
                    "work-lay",
                    vec![toward, ("rise", Arg::Angle(rise_deg.degrees()))],
                )
            }
            Self::Stand { lean_deg, .. } => {
                ("work-stand", vec![("lean", Arg::Angle(lean_deg.degrees()))])
            }
            Self::CutBack { keep_mm, .. } => ("work-cut", vec![("keep", Arg::Length(keep_mm.f()))]),
            Self::Stub { keep_mm, .. } => ("work-stub", vec![("keep", Arg::Length(keep_mm.f()))]),
            Self::Remove { .. } => ("work-remove", vec![]),
            Self::KeepBud { at_mm, .. } => ("work-keep-bud", vec![("at", Arg::Length(at_mm.f()))]),
        }
    }
}
