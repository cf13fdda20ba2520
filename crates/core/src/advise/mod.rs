//! Advice: work that is proposed, each piece with its reason, as ordinary work that can be taken, changed and undone.
//!
//! A [`Draft`] is one window's whole work on a row. What a scheme's rules do there is where it begins; then it does, in the order of
//! a winter, what the checks would mend, each remedy tried on the row as the ones before it leave it, until nothing more is offered. So
//! it ends where a second draft has nothing to add, and nothing is graver than before. What the plan holds already stands, and what is
//! left for this year stays left. Which wood is laid into bare
//! stretches, and where buds are kept, is chosen for the row as a whole ([`crate::solve`]).

mod draft;
mod fill;
mod open;
mod outcome;
mod renew;
mod stand;
mod taken;
mod tip;
mod uprights;
mod weights;
mod windows;

pub use draft::{draft, draft_by};
pub use open::{Open, Stuck, Untipped};
pub use outcome::{Brought, Cost, Gain, GainDraws, LEAVES, around};
pub use renew::{Renewed, renew};
pub use taken::Taken;
pub use tip::{PERCENT, Tip, TipCounts, Tips, tips};
pub use weights::{Weight, Weights};

use crate::check::{Also, Context, Finding, Mendable, Reason, Stage};
use crate::plan::Plan;
use crate::row::{Moment, TreeId};
use crate::said::Said;
use crate::work::Work;

/// Why a piece of work is proposed.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// It mends what a check found.
    Found(Box<Finding>),
    /// It is the usual work of its time.
    Usual(Said),
}

/// Work that belongs together, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// What it does: its own words, or a remedy's.
    pub said: Said,
    /// What it does besides.
    pub also: Vec<Also>,
    /// Why.
    pub why: Why,
    /// Where along the row, mm.
    pub x: f64,
    /// Of each upright that it renews why, and why older ones of its tree stand.
    pub each: Vec<Reason>,
    /// The work, in order of subject.
    pub work: Vec<Work>,
    /// What would be done in its place, where the best was found among all.
    pub next: Option<NextBest>,
    /// When in a winter it is done.
    stage: Stage,
    /// In which round it was found: on the row with the pieces of those before it. The usual work comes first.
    round: usize,
}

/// The best of what could be done instead.
#[derive(Clone, Debug, PartialEq)]
pub struct NextBest {
    /// By how much it is worse.
    pub worse: Worse,
    /// What it does; nothing where it leaves things as they are.
    pub said: Option<Said>,
}

/// What one choice costs beside a better one, by [`Weights`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Worse {
    /// As so many millimetres of bare wire.
    Wire(f64),
    /// As so many distances between uprights that are off by as much as is aimed at.
    Spacing(f64),
}

impl Worse {
    /// The number alone.
    pub fn value(self) -> f64 {
        match self {
            Self::Wire(value) | Self::Spacing(value) => value,
        }
    }
}

/// Work that is chosen for the row as a whole, and the next best.
struct Next {
    work: Vec<Work>,
    next: Option<NextBest>,
}

/// What choices along the whole row are made by.
struct Choosing<'c> {
    context: &'c Context<'c>,
    row: &'c Mendable<'c>,
    weights: &'c Weights,
    /// Work that can't be done as the row stands.
    refused: &'c [Vec<Work>],
}

impl Piece {
    /// The trees that it works on; none where it is the trellis alone.
    pub fn trees(&self) -> impl Iterator<Item = TreeId> {
        self.work.iter().filter_map(Work::tree)
    }

    /// The work for whose sake the rest of it is: what is laid or planted, before the cuts that make room for it. By its kind pieces are
    /// taken together.
    pub fn main(&self) -> Option<&Work> {
        let aim = |w: &&Work| {
            matches!(
                w,
                Work::Lay { .. }
                    | Work::Plant { .. }
                    | Work::ReplaceTree { .. }
                    | Work::RemoveTree { .. }
            )
        };
        self.work.iter().find(aim).or(self.work.first())
    }

    /// The kind of that work.
    pub fn kind(&self) -> &'static str {
        self.main().map_or("", Work::kind)
    }
}

/// A window's work as it is proposed.
#[derive(Clone, Debug)]
pub struct Draft {
    /// The scheme that it is for, by its place.
    pub scheme: usize,
    /// The window.
    pub moment: Moment,
    /// The pieces in the order of a winter, of one stage in the order in which they were found.
    pub pieces: Vec<Piece>,
    /// The plan with all of it taken.
    pub plan: Plan,
    /// The window's work by rule that gives way to what the draft has in its place.
    instead: Vec<Work>,
}

impl Draft {
    /// Whether there is nothing to propose.
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }
}
