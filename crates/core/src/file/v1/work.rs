//! Each work as version 1 has it.

use super::parts::{Covering, Planted, Toward};
use crate::row::{ShootId, TreeId};
use crate::units::{Deg, Mm};
use crate::work;
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(tag = "do", rename_all = "snake_case", deny_unknown_fields)]
pub enum Work {
    Plant {
        tree: TreeId,
        foot_mm: Mm,
        planted: Planted,
        length_mm: Mm,
        diameter_dmm: u16,
    },
    RemoveTree {
        tree: TreeId,
    },
    ReplaceTree {
        tree: TreeId,
        planted: Planted,
        length_mm: Mm,
        diameter_dmm: u16,
    },
    Lay {
        tree: TreeId,
        shoot: ShootId,
        toward: Toward,
        rise_deg: Deg,
    },
    Stand {
        tree: TreeId,
        shoot: ShootId,
        lean_deg: Deg,
    },
    CutBack {
        tree: TreeId,
        shoot: ShootId,
        keep_mm: Mm,
    },
    CutToBuds {
        tree: TreeId,
        shoot: ShootId,
        buds: u16,
    },
    Stub {
        tree: TreeId,
        shoot: ShootId,
        keep_mm: Mm,
    },
    Remove {
        tree: TreeId,
        shoot: ShootId,
    },
    Thin {
        tree: TreeId,
        shoot: ShootId,
        keep: ShootId,
    },
    RubOut {
        tree: TreeId,
        shoot: ShootId,
    },
    KeepBud {
        tree: TreeId,
        shoot: ShootId,
        at_mm: Mm,
    },
    MoveBud {
        tree: TreeId,
        shoot: ShootId,
        at_mm: Mm,
    },
    TakeLaterals {
        tree: TreeId,
        shoot: ShootId,
    },
    Tip {
        tree: TreeId,
        shoot: ShootId,
        percent: u8,
    },
    HoldHeight {
        tree: TreeId,
        shoot: ShootId,
        height_mm: Mm,
    },
    AddWire {
        height_mm: Mm,
        covering: Covering,
    },
    MoveWire {
        height_mm: Mm,
        to_mm: Mm,
    },
    RemoveWire {
        height_mm: Mm,
    },
    CoverWire {
        height_mm: Mm,
        covering: Covering,
    },
}

/// The same names and fields, here and in the model.
macro_rules! same_work {
    ($($name:ident { $($field:ident),+ })+) => {
        impl From<work::Work> for Work {
            fn from(model: work::Work) -> Self {
                match model {
                    $(work::Work::$name { $($field),+ } => Self::$name { $($field: $field.into()),+ },)+
                }
            }
        }
        impl From<Work> for work::Work {
            fn from(file: Work) -> Self {
                match file {
                    $(Work::$name { $($field),+ } => Self::$name { $($field: $field.into()),+ },)+
                }
            }
        }
    };
}

same_work! {
    Plant { tree, foot_mm, planted, length_mm, diameter_dmm }
    RemoveTree { tree }
    ReplaceTree { tree, planted, length_mm, diameter_dmm }
    Lay { tree, shoot, toward, rise_deg }
    Stand { tree, shoot, lean_deg }
    CutBack { tree, shoot, keep_mm }
    CutToBuds { tree, shoot, buds }
    Stub { tree, shoot, keep_mm }
    Remove { tree, shoot }
    Thin { tree, shoot, keep }
    RubOut { tree, shoot }
    KeepBud { tree, shoot, at_mm }
    MoveBud { tree, shoot, at_mm }
    TakeLaterals { tree, shoot }
    Tip { tree, shoot, percent }
    HoldHeight { tree, shoot, height_mm }
    AddWire { height_mm, covering }
    MoveWire { height_mm, to_mm }
    RemoveWire { height_mm }
    CoverWire { height_mm, covering }
}
