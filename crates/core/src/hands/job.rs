//! What one walk along the row is for.

use super::rates::Rate;
use crate::work::Work;

/// One job of the crew: a walk along the row does it and nothing else.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Job {
    /// Grubbing trees out.
    GrubOut,
    /// Planting, be it where a tree stood.
    Plant,
    /// Cutting uprights to stubs.
    Stub,
    /// Taking laterals off uprights.
    Laterals,
    /// Tipping, and holding the wall's height.
    Tip,
    /// Cutting back to a length or to buds.
    CutBack,
    /// Taking whole shoots off, and thinning what returns from stubs.
    TakeOff,
    /// Stretching, moving, covering and taking down wires.
    Wires,
    /// Rubbing buds out and keeping buds.
    Buds,
    /// Notching above buds.
    Notch,
    /// Laying and standing shoots, and tying them.
    Tie,
}

impl Job {
    /// Every job in the order in which a window's walks follow each other: what takes a tree's shoots away comes after what is told
    /// by counting them, and buds are seen to once all wood lies that they stand on.
    pub const ALL: [Self; 11] = [
        Self::GrubOut,
        Self::Plant,
        Self::Stub,
        Self::Laterals,
        Self::Tip,
        Self::CutBack,
        Self::TakeOff,
        Self::Wires,
        Self::Tie,
        Self::Buds,
        Self::Notch,
    ];

    /// The job that a piece of work belongs to.
    pub fn of(work: &Work) -> Self {
        match work {
            Work::RemoveTree { .. } => Self::GrubOut,
            Work::Plant { .. } | Work::ReplaceTree { .. } => Self::Plant,
            Work::Stub { .. } => Self::Stub,
            Work::TakeLaterals { .. } => Self::Laterals,
            Work::Tip { .. } | Work::HoldHeight { .. } => Self::Tip,
            Work::CutBack { .. } | Work::CutToBuds { .. } => Self::CutBack,
            Work::Remove { .. } | Work::Thin { .. } => Self::TakeOff,
            Work::AddWire { .. }
            | Work::MoveWire { .. }
            | Work::RemoveWire { .. }
            | Work::CoverWire { .. } => Self::Wires,
            Work::RubOut { .. } | Work::KeepBud { .. } | Work::MoveBud { .. } => Self::Buds,
            Work::Notch { .. } => Self::Notch,
            Work::Lay { .. } | Work::Stand { .. } => Self::Tie,
        }
    }

    /// Its name in files and for programs.
    pub fn name(self) -> &'static str {
        match self {
            Self::GrubOut => "grub_out",
            Self::Plant => "plant",
            Self::Stub => "stub",
            Self::Laterals => "laterals",
            Self::Tip => "tip",
            Self::CutBack => "cut_back",
            Self::TakeOff => "take_off",
            Self::Wires => "wires",
            Self::Buds => "buds",
            Self::Notch => "notch",
            Self::Tie => "tie",
        }
    }

    /// How many do it together: one stubs, and two follow (common practice, no source); wires, stock and ties ask for two (from
    /// memory).
    pub fn people(self) -> usize {
        match self {
            Self::Stub | Self::CutBack | Self::TakeOff | Self::Notch => 1,
            Self::GrubOut
            | Self::Plant
            | Self::Laterals
            | Self::Tip
            | Self::Wires
            | Self::Buds
            | Self::Tie => 2,
        }
    }

    /// What one piece of it takes.
    pub fn rate(self) -> Rate {
        match self {
            Self::GrubOut => Rate::GrubOut,
            Self::Plant => Rate::Plant,
            Self::Stub => Rate::Stub,
            Self::Laterals => Rate::Laterals,
            Self::Tip => Rate::Tip,
            Self::CutBack => Rate::CutBack,
            Self::TakeOff => Rate::TakeOff,
            Self::Wires => Rate::Wire,
            Self::Buds => Rate::Bud,
            Self::Notch => Rate::Notch,
            Self::Tie => Rate::Tie,
        }
    }

    /// What to take care of at this job whatever the row: the names of the texts.
    pub(crate) fn cautions(self) -> &'static [&'static str] {
        match self {
            Self::GrubOut => &["caution-dry", "caution-saw"],
            Self::Plant => &[],
            Self::Stub => &[
                "caution-dry",
                "caution-canker",
                "caution-trunk",
                "caution-saw",
            ],
            Self::TakeOff => &[
                "caution-dry",
                "caution-canker",
                "caution-trunk",
                "caution-saw",
                "caution-shears",
            ],
            Self::CutBack => &["caution-dry", "caution-canker", "caution-shears"],
            Self::Laterals | Self::Tip => &["caution-dry", "caution-shears"],
            Self::Wires => &["caution-wire", "caution-trellis"],
            Self::Buds => &[],
            Self::Notch => &["caution-notch"],
            Self::Tie => &["caution-bend", "caution-loosen"],
        }
    }

    /// Whether who knows paints what is cut before the crew comes.
    pub fn by_paint(self) -> bool {
        matches!(self, Self::Stub | Self::CutBack | Self::TakeOff)
    }

    /// Whether a blade or saw goes from tree to tree, which carries disease.
    pub fn cuts(self) -> bool {
        !matches!(self, Self::Plant | Self::Wires | Self::Buds | Self::Tie)
    }
}
