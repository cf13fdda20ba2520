//! What advice costs and what it brings.

use crate::arrange::arrange_numbers;
use crate::crew::Rates;
use crate::forecast::{DRAWS, Forecast, drawn, few_trees, percentile};
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::work::Work;

/// What work costs, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cost {
    /// Cuts; what is taken off one shoot in one go is one.
    pub cuts: usize,
    /// Shoots that are bent and tied.
    pub ties: usize,
    /// Buds that are kept, moved or notched, and shoots whose buds are rubbed out.
    pub buds: usize,
    /// Wires that are stretched, moved, covered or taken down.
    pub wires: usize,
    /// Minutes for one person, from memory.
    pub minutes: f64,
}

impl Cost {
    /// Of some work, in a row of so many posts.
    pub fn of(works: &[&Work], posts: usize) -> Self {
        let mut out = Self {
            minutes: Rates::default().minutes(works.iter().copied(), posts),
            ..Self::default()
        };
        for work in works {
            match work {
                Work::Lay { .. } | Work::Stand { .. } | Work::Plant { .. } => out.ties += 1,
                Work::KeepBud { .. }
                | Work::Notch { .. }
                | Work::MoveBud { .. }
                | Work::RubOut { .. } => out.buds += 1,
                Work::AddWire { .. }
                | Work::MoveWire { .. }
                | Work::RemoveWire { .. }
                | Work::CoverWire { .. } => out.wires += 1,
                Work::ReplaceTree { .. } => {
                    out.cuts += 1;
                    out.ties += 1;
                }
                Work::CutBack { .. }
                | Work::CutToBuds { .. }
                | Work::Stub { .. }
                | Work::Remove { .. }
                | Work::RemoveTree { .. }
                | Work::Thin { .. }
                | Work::TakeLaterals { .. }
                | Work::Tip { .. }
                | Work::HoldHeight { .. } => out.cuts += 1,
            }
        }
        out
    }
}

/// Leaves over which advice is weighed, the one that it is for first.
pub const LEAVES: u8 = 5;

/// What a row brings over the coming leaves, by the model of the seasons.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Brought {
    /// Crop of all of them together, t/ha.
    pub crop: f64,
    /// Share of the cordon that is filled at the end of the last, 0 to 1.
    pub fill: f64,
    /// Uprights then.
    pub uprights: usize,
    /// Age of the oldest upright before its dormant work, completed seasons.
    pub oldest: u8,
}

/// What advice changes over the coming leaves.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Gain {
    /// Without it.
    pub before: Brought,
    /// With it.
    pub after: Brought,
    /// Between what the difference of the crops lies, t/ha, in eight draws of ten of the model's values.
    pub crop: (f64, f64),
}

impl Gain {
    /// What a scheme brings from a leaf on, in one plan and in another that differs by work alone.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(before: &Plan, after: &Plan, scheme: usize, leaf: u8) -> Result<Self, Refusal> {
        let brought = |plan: &Plan| {
            let last = leaf.saturating_add(LEAVES - 1).min(Plan::MAX_LEAF);
            let all = Forecast::default().of(plan, scheme, last)?;
            let coming = all.iter().filter(|l| l.leaf >= leaf);
            let end = all.last();
            Ok(Brought {
                crop: coming.map(|l| l.crop_t_per_ha).sum(),
                fill: end.map_or(0.0, |l| l.cordon_fill_share),
                uprights: end.map_or(0, |l| l.uprights),
                oldest: end.map_or(0, |l| l.wood_age_max),
            })
        };
        let (was, is) = (brought(before)?, brought(after)?);
        let usual = is.crop - was.crop;
        let (few_before, few_after) = (few_trees(before), few_trees(after));
        // Of a long row some trees stand for all.
        let of_all = |few: f64, all: f64| if few > 0.0 { all / few } else { 1.0 };
        let scale = of_all(brought(&few_before)?.crop, was.crop);
        let mut draws = Vec::new();
        for draw in 0..DRAWS {
            let with = brought(&drawn(&few_after, draw))?.crop;
            draws.push(scale * (with - brought(&drawn(&few_before, draw))?.crop));
        }
        arrange_numbers(&mut draws);
        let (low, high) = (percentile(&draws, 0.1), percentile(&draws, 0.9));
        Ok(Self {
            before: was,
            after: is,
            crop: (low.min(usual), high.max(usual)),
        })
    }
}
