//! What kinds of work are called in files and tallies.

use super::Work;

impl Work {
    /// The name of its kind, as files and the command line have it.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Plant { .. } => "plant",
            Self::RemoveTree { .. } => "remove_tree",
            Self::ReplaceTree { .. } => "replace_tree",
            Self::Lay { .. } => "lay",
            Self::Stand { .. } => "stand",
            Self::CutBack { .. } => "cut_back",
            Self::CutToBuds { .. } => "cut_to_buds",
            Self::Stub { .. } => "stub",
            Self::Remove { .. } => "remove",
            Self::Thin { .. } => "thin",
            Self::RubOut { .. } => "rub_out",
            Self::KeepBud { .. } => "keep_bud",
            Self::Notch { .. } => "notch",
            Self::MoveBud { .. } => "move_bud",
            Self::TakeLaterals { .. } => "take_laterals",
            Self::Tip { .. } => "tip",
            Self::HoldHeight { .. } => "hold_height",
            Self::AddWire { .. } => "add_wire",
            Self::MoveWire { .. } => "move_wire",
            Self::RemoveWire { .. } => "remove_wire",
            Self::CoverWire { .. } => "cover_wire",
        }
    }
}
