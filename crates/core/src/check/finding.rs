//! What a check saw, where, against which limit, and what would mend it.

use crate::cover::Place;
use crate::row::{Limit, ShootId, TreeId};
use crate::said::{Arg, Args, Said};
use crate::units::Mm;
use crate::work::Work;
use serde::{Deserialize, Serialize};

/// How urgent a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Worth knowing.
    Note,
    /// To be mended in the coming work.
    Soon,
    /// Costs crop already: the gravest.
    Now,
}

impl Severity {
    /// The text that names it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Note => "severity-note",
            Self::Soon => "severity-soon",
            Self::Now => "severity-now",
        }
    }
}

/// A tree, or a shoot of it, that a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Part {
    /// The tree.
    pub tree: TreeId,
    /// The shoot; `None` for the tree as a whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shoot: Option<ShootId>,
}

impl From<Place> for Part {
    fn from(place: Place) -> Self {
        Self {
            tree: place.tree,
            shoot: Some(place.shoot),
        }
    }
}

/// What a remedy does besides what it is for.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Also {
    /// The shoot that is laid is cut back to that length, mm.
    CutsBack(f64),
    /// Its leader is cut back to where it begins.
    EndsLeader,
    /// So much wire is laid bare elsewhere, mm.
    Bares(f64),
    /// So much wire comes to be covered twice, mm.
    Doubles(f64),
    /// So many uprights, buds and stubs go with what is taken off.
    Takes(u32),
}

impl From<Also> for Said {
    fn from(also: Also) -> Self {
        match also {
            Also::CutsBack(keep) => Self::new("also-cuts-back", vec![("keep", Arg::Length(keep))]),
            Also::EndsLeader => Self::new("also-ends-leader", vec![]),
            Also::Bares(length) => Self::new("also-bares", vec![("length", Arg::Length(length))]),
            Also::Doubles(length) => {
                Self::new("also-doubles", vec![("length", Arg::Length(length))])
            }
            Also::Takes(n) => Self::new("also-takes", vec![("count", Arg::Count(n.into()))]),
        }
    }
}

/// What would clear a finding, and how it is worded: work, and the wall height that goes with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What it would do: `remedy-…`.
    pub said: Said,
    /// The work, all of which belongs together.
    pub work: Vec<Work>,
    /// The height that the wall is to have from then on, where that is changed: a setting of the plan, no work.
    pub wall_height: Option<Mm>,
    /// What it does besides. Known once it has been tried.
    pub also: Vec<Also>,
}

impl Remedy {
    /// A remedy by work alone.
    pub fn new(key: &'static str, args: Args, work: Vec<Work>) -> Self {
        Self {
            said: Said::new(key, args),
            work,
            wall_height: None,
            also: Vec::new(),
        }
    }
}

/// What a check saw.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The rule's id, such as `cordon-gap`; its text in the language file is `finding-` and this.
    pub rule: &'static str,
    /// How urgent.
    pub severity: Severity,
    /// Where along the row, mm.
    pub x: f64,
    /// At what height, mm.
    pub z: f64,
    /// How far it reaches along the row, mm; 0 for a point.
    pub width: f64,
    /// What it is about.
    pub subjects: Vec<Part>,
    /// What was measured, in the limit's unit.
    pub measured: f64,
    /// What is allowed, in the limit's unit.
    pub allowed: f64,
    /// The limit, which knows unit, status and source.
    pub limit: Limit,
    /// What the text speaks of.
    pub args: Args,
    /// Work that would clear it, the best first.
    pub remedies: Vec<Remedy>,
}

impl Finding {
    /// Nearer to each other than this, mm, two places are the same.
    pub const AGAIN: f64 = 1.0;

    /// Whether another survey found the same: by the same rule, at the same place, of the same parts.
    pub fn is_again(&self, other: &Finding) -> bool {
        self.rule == other.rule
            && (self.x - other.x).abs() < Self::AGAIN
            && self.subjects == other.subjects
    }
}
