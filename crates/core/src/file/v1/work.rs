//! Each work as version 1 has it: one object of its name and the fields that its kind has.

use super::parts::{Covering, Planted, Toward};
use crate::row::{ShootId, TreeId};
use crate::units::{Deg, Mm};
use crate::work;
use serde::{Deserialize, Serialize};

/// A piece of work in the file's words.
#[derive(Clone, Serialize, Deserialize)]
#[serde(into = "Fields", try_from = "Fields")]
pub struct Work(pub work::Work);

/// What an object may have of a field that not every work has.
macro_rules! fields {
    ($($field:ident: $of:ty,)+) => {
        /// All fields of all kinds, in the order of the file: one reader for them all, where a reader a kind costs the
        /// browser's module 40 kB.
        #[derive(Default, Serialize, Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Fields {
            #[serde(rename = "do")]
            kind: String,
            $(#[serde(default, skip_serializing_if = "Option::is_none")] $field: Option<$of>,)+
        }

        impl Fields {
            /// A field that nothing has taken.
            fn stray(&self) -> Option<&'static str> {
                [$((stringify!($field), self.$field.is_some())),+]
                    .iter()
                    .find(|(_, given)| *given)
                    .map(|(name, _)| *name)
            }
        }
    };
}

fields! {
    tree: TreeId,
    shoot: ShootId,
    keep: ShootId,
    at_mm: Mm,
    foot_mm: Mm,
    planted: Planted,
    length_mm: Mm,
    diameter_dmm: u16,
    toward: Toward,
    rise_deg: Deg,
    lean_deg: Deg,
    keep_mm: Mm,
    buds: i32,
    percent: i32,
    height_mm: Mm,
    to_mm: Mm,
    covering: Covering,
}

/// The names of each kind and of its fields, here and in the model.
macro_rules! same_work {
    ($($name:ident $word:literal { $($field:ident),+ })+) => {
        impl From<work::Work> for Work {
            fn from(model: work::Work) -> Self {
                Self(model)
            }
        }

        impl From<Work> for work::Work {
            fn from(file: Work) -> Self {
                file.0
            }
        }

        impl From<Work> for Fields {
            fn from(Work(model): Work) -> Self {
                match model {
                    $(work::Work::$name { $($field),+ } => Self {
                        kind: $word.into(),
                        $($field: Some($field.into()),)+
                        ..Self::default()
                    },)+
                }
            }
        }

        impl TryFrom<Fields> for Work {
            type Error = String;

            fn try_from(mut file: Fields) -> Result<Self, String> {
                let model = match &*file.kind {
                    $($word => work::Work::$name {
                        $($field: file.$field.take().ok_or_else(|| missing(stringify!($field)))?.into()),+
                    },)+
                    _ => return Err(format!("unknown work `{}`, expected one of {}", file.kind, [$($word),+].join(", "))),
                };
                match file.stray() {
                    Some(name) => Err(format!("`{}` has no field `{name}`", file.kind)),
                    None => Ok(Self(model)),
                }
            }
        }
    };
}

fn missing(name: &str) -> String {
    format!("missing field `{name}`")
}

same_work! {
    Plant "plant" { tree, foot_mm, planted, length_mm, diameter_dmm }
    RemoveTree "remove_tree" { tree }
    ReplaceTree "replace_tree" { tree, planted, length_mm, diameter_dmm }
    Lay "lay" { tree, shoot, toward, rise_deg }
    Stand "stand" { tree, shoot, lean_deg }
    CutBack "cut_back" { tree, shoot, keep_mm }
    CutToBuds "cut_to_buds" { tree, shoot, buds }
    Stub "stub" { tree, shoot, keep_mm }
    Remove "remove" { tree, shoot }
    Thin "thin" { tree, shoot, keep }
    RubOut "rub_out" { tree, shoot }
    KeepBud "keep_bud" { tree, shoot, at_mm }
    Notch "notch" { tree, shoot, at_mm }
    MoveBud "move_bud" { tree, shoot, at_mm }
    TakeLaterals "take_laterals" { tree, shoot }
    Tip "tip" { tree, shoot, percent }
    HoldHeight "hold_height" { tree, shoot, height_mm }
    AddWire "add_wire" { height_mm, covering }
    MoveWire "move_wire" { height_mm, to_mm }
    RemoveWire "remove_wire" { height_mm }
    CoverWire "cover_wire" { height_mm, covering }
}
