//! What a piece of work does, in words.

use super::Work;
use crate::row::{Covering, Toward};
use crate::said::{Arg, Said};

fn way(toward: Toward) -> Arg {
    Arg::Text(
        match toward {
            Toward::Left => "left",
            Toward::Right => "right",
        }
        .into(),
    )
}

fn covering(covering: Covering) -> Arg {
    Arg::Text(
        match covering {
            Covering::Bare => "bare",
            Covering::Plastic => "plastic",
        }
        .into(),
    )
}

impl Work {
    /// The name of the text that says what to take care of when it is done.
    pub fn caution(&self) -> Option<&'static str> {
        match self {
            Self::Lay { .. } | Self::Stand { .. } => Some("caution-bend"),
            Self::CutBack { .. }
            | Self::CutToBuds { .. }
            | Self::Stub { .. }
            | Self::Remove { .. }
            | Self::Thin { .. }
            | Self::TakeLaterals { .. }
            | Self::Tip { .. }
            | Self::HoldHeight { .. }
            | Self::RemoveTree { .. }
            | Self::ReplaceTree { .. } => Some("caution-cut"),
            Self::Notch { .. } => Some("caution-notch"),
            Self::AddWire { .. }
            | Self::MoveWire { .. }
            | Self::RemoveWire { .. }
            | Self::CoverWire { .. } => Some("caution-wire"),
            Self::Plant { .. }
            | Self::RubOut { .. }
            | Self::KeepBud { .. }
            | Self::MoveBud { .. } => None,
        }
    }

    /// What it does: `work-…`. The subject is not named.
    pub fn said(&self) -> Said {
        let (key, args) = match *self {
            Self::Plant { length_mm, .. } => {
                ("work-plant", vec![("length", Arg::Length(length_mm.f()))])
            }
            Self::RemoveTree { .. } => ("work-remove-tree", vec![]),
            Self::ReplaceTree { length_mm, .. } => (
                "work-replace-tree",
                vec![("length", Arg::Length(length_mm.f()))],
            ),
            Self::Lay {
                toward, rise_deg, ..
            } => (
                match rise_deg.degrees() == 0.0 {
                    true => "work-lay-level",
                    false => "work-lay",
                },
                vec![
                    ("toward", way(toward)),
                    ("rise", Arg::Angle(rise_deg.degrees())),
                ],
            ),
            Self::Stand { lean_deg, .. } => {
                ("work-stand", vec![("lean", Arg::Angle(lean_deg.degrees()))])
            }
            Self::CutBack { keep_mm, .. } => ("work-cut", vec![("keep", Arg::Length(keep_mm.f()))]),
            Self::CutToBuds { buds, .. } => {
                ("work-cut-to-buds", vec![("buds", Arg::Count(buds.into()))])
            }
            Self::Stub { keep_mm, .. } => ("work-stub", vec![("keep", Arg::Length(keep_mm.f()))]),
            Self::Remove { .. } => ("work-remove", vec![]),
            Self::Thin { .. } => ("work-thin", vec![]),
            Self::RubOut { .. } => ("work-rub-out", vec![]),
            Self::KeepBud { at_mm, .. } => ("work-keep-bud", vec![("at", Arg::Length(at_mm.f()))]),
            Self::Notch { at_mm, .. } => ("work-notch", vec![("at", Arg::Length(at_mm.f()))]),
            Self::MoveBud { at_mm, .. } => ("work-move-bud", vec![("at", Arg::Length(at_mm.f()))]),
            Self::TakeLaterals { .. } => ("work-take-laterals", vec![]),
            Self::Tip { percent, .. } => (
                "work-tip",
                vec![("share", Arg::Share(f64::from(percent) / 100.0))],
            ),
            Self::HoldHeight { height_mm, .. } => (
                "work-hold-height",
                vec![("height", Arg::Length(height_mm.f()))],
            ),
            Self::AddWire { height_mm, .. } => (
                "work-add-wire",
                vec![("height", Arg::Length(height_mm.f()))],
            ),
            Self::MoveWire { height_mm, to_mm } => (
                "work-move-wire",
                vec![
                    ("height", Arg::Length(height_mm.f())),
                    ("to", Arg::Length(to_mm.f())),
                ],
            ),
            Self::RemoveWire { height_mm } => (
                "work-remove-wire",
                vec![("height", Arg::Length(height_mm.f()))],
            ),
            Self::CoverWire {
                height_mm,
                covering: with,
            } => (
                "work-cover-wire",
                vec![
                    ("height", Arg::Length(height_mm.f())),
                    ("covering", covering(with)),
                ],
            ),
        };
        Said::new(key, args)
    }
}
