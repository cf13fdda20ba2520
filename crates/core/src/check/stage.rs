//! The order of a winter: what goes before what is shortened. From memory.

use super::{
    cordon_gap, cordon_overlap, laterals_due, leans_opposed, light_renewal, renewal, side_shoots,
    tipping_due, upright_outside, upright_over_vigorous, uprights_count, uprights_crossing,
    uprights_too_close, wall_height, wires,
};
use crate::work::Work;

/// When in a winter work is done, the first first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// What crowds comes off.
    Crowding,
    /// Stubs.
    Renewal,
    /// Stubs for the sake of the light.
    Light,
    /// What is too long, and what stands out of the wall.
    Overlap,
    /// Bare wire is filled.
    Gaps,
    /// All that has no other time.
    Rest,
    /// What leans is stood up.
    Straight,
    /// Wires.
    Wires,
    /// Laterals.
    Laterals,
    /// Tips.
    Tips,
    /// The wall's height.
    Height,
}

impl Stage {
    /// When the remedies of a rule are done.
    pub fn of_rule(rule: &str) -> Self {
        match rule {
            uprights_too_close::RULE | uprights_count::MANY => Self::Crowding,
            renewal::DUE | renewal::OLD | upright_over_vigorous::RULE => Self::Renewal,
            light_renewal::RULE => Self::Light,
            cordon_overlap::RULE | side_shoots::RULE => Self::Overlap,
            cordon_gap::RULE | leans_opposed::RULE => Self::Gaps,
            uprights_crossing::RULE | upright_outside::RULE => Self::Straight,
            wires::NEXT | wires::FAR | wires::BARE => Self::Wires,
            laterals_due::RULE => Self::Laterals,
            tipping_due::RULE => Self::Tips,
            wall_height::ABOVE | wall_height::TALL => Self::Height,
            _ => Self::Rest,
        }
    }

    /// When usual work is done that no finding asks for.
    pub fn of_usual(work: &Work) -> Self {
        match work {
            Work::Stub { .. } => Self::Renewal,
            Work::Remove { .. } | Work::RubOut { .. } | Work::CutBack { .. } => Self::Overlap,
            Work::Lay { .. } => Self::Gaps,
            Work::AddWire { .. } => Self::Wires,
            Work::TakeLaterals { .. } => Self::Laterals,
            Work::Tip { .. } => Self::Tips,
            Work::HoldHeight { .. } => Self::Height,
            _ => Self::Rest,
        }
    }
}
