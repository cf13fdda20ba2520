//! What a scheme brings, leaf by leaf: fill, uprights, crop, leaf, age of wood and work, by the model of growth and fruit.
//!
//! It is a calibrated model, not a law: few of its values are measured ([`crate::model`]). A crop is therefore told with the
//! range in which it lies when all of them are drawn at once.

mod counted;
mod sums;

use crate::arrange::arrange_numbers;
use crate::cover::{Span, fill_share, filled};
use crate::fruit::kg_per_metre;
use crate::model::Parameter;
pub use crate::plan::AGES;
use crate::plan::{Plan, RowYear, RowYears, WorkCount, Years};
use crate::refusal::Refusal;
use crate::row::{Limit, Targets, Tree};
use crate::seed::Seeded;
use crate::standing::Rule;
pub use counted::{CountedCrop, counted_crop};
use std::sync::Arc;
use sums::{Sum, Sums, add_work};

/// One leaf of a row. Figures of nothing are 0.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeafFigures {
    /// The leaf.
    pub leaf: u8,
    /// Share of the cordon wire that is filled before the after-harvest work, 0 to 1.
    pub cordon_fill_share: f64,
    /// Uprights of the wall before the after-harvest work.
    pub uprights: usize,
    /// Their mean length, mm.
    pub upright_length: f64,
    /// Crop, t/ha, as of after the early-summer work: on the whole row's ground, its length times the distance between rows.
    pub crop_t_per_ha: f64,
    /// The same, kg on a metre of row.
    pub crop_kg_per_metre: f64,
    /// Share of the crop that is large enough, 0 to 1.
    pub share_large: f64,
    /// Leaf of the season on a square metre of ground.
    pub leaf_area_index: f64,
    /// Leaf of a fruit, cm².
    pub leaf_area_per_fruit: f64,
    /// Mean mass of a fruit, g.
    pub fruit_mass: f64,
    /// Age of the oldest upright before the dormant work, completed seasons.
    pub wood_age_max: u8,
    /// How many uprights there are before the dormant work of each age from 1 on, completed seasons; the last holds the older too.
    pub ages: [u32; AGES],
    /// Age of the oldest wood that is cut to a stub in that winter; 0 where none is.
    pub cut_age_max: u8,
    /// The work of the leaf, planned or standing, by the name of its kind.
    pub work: WorkCount,
}

impl LeafFigures {
    /// Of what a row's trees bring in one leaf.
    fn of(sum: Sum, of: &RowYear, whole: Span) -> Self {
        let over = |a: f64, b: f64| if b > 0.0 { a / b } else { 0.0 };
        // Where no tree stands the ground is the row's all the same.
        let ground = whole.length() / 1000.0 * of.stand.row_spacing / 1000.0;
        let crop_t_per_ha = over(sum.kg * 10.0, ground);
        let mut work = of.wires.clone();
        add_work(&mut work, &sum.work);
        Self {
            leaf: of.leaf,
            cordon_fill_share: fill_share(filled(sum.laid, whole), whole.length()),
            uprights: sum.uprights,
            upright_length: over(sum.length, sum.uprights as f64),
            crop_t_per_ha,
            crop_kg_per_metre: kg_per_metre(crop_t_per_ha, of.stand.row_spacing),
            share_large: over(sum.kg_large, sum.kg),
            leaf_area_index: over(sum.leaf_area, ground),
            leaf_area_per_fruit: over(sum.leaf_area * 1e4, sum.fruit),
            fruit_mass: over(sum.kg * 1000.0, sum.fruit),
            wood_age_max: sum.oldest,
            ages: sum.ages,
            cut_age_max: sum.cut,
            work,
        }
    }
}

/// Whether a crop, t/ha, is told as one: what rounds to nothing is none.
pub fn is_a_crop(t_per_ha: f64) -> bool {
    t_per_ha >= 0.05
}

/// Why a leaf's crop is told higher than it would be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doubt {
    /// Nobody trains the row in it, nor is it said that somebody may: shade acts on no fruit in the model.
    Untrained,
    /// The cordon is not as full as it was to be by then: what stands or hangs beside it bears as if it stood in the wall.
    Unfilled,
}

/// The crop of all leaves up to one, t/ha.
pub fn crop_by(years: &[LeafFigures], leaf: u8) -> f64 {
    let early = years.iter().filter(|y| y.leaf <= leaf);
    early.map(|y| y.crop_t_per_ha).sum()
}

impl LeafFigures {
    /// Why its crop, if there is any, is told too high under a scheme of a plan, which has those limits.
    pub fn doubt(&self, plan: &Plan, scheme: usize, limits: &Targets) -> Option<Doubt> {
        let of = plan
            .schemes
            .get(scheme)
            .filter(|_| self.crop_t_per_ha > 0.0)?;
        let limit = |l| limits.get(l);
        let due = f64::from(self.leaf) >= limit(Limit::FillDueLeaf);
        if of.standing.is_none() && self.leaf > plan.found.leaf && self.work.is_empty() {
            Some(Doubt::Untrained)
        } else if due && self.cordon_fill_share < limit(Limit::FillDueShare) - 1e-9 {
            Some(Doubt::Unfilled)
        } else {
            None
        }
    }
}

/// From which of the leaves on no upright is older than a limit, completed seasons, as far as the leaves reach; `None` where
/// that is in none.
pub fn kept_young_from(leaves: &[LeafFigures], limit: f64) -> Option<u8> {
    let young = |f: &&LeafFigures| f64::from(f.wood_age_max) <= limit;
    leaves.iter().rev().take_while(young).last().map(|f| f.leaf)
}

/// Works the leaves of schemes out, and keeps what it did: after an edit of one tree that tree alone is worked out anew.
#[derive(Clone, Debug, Default)]
pub struct Forecast {
    years: Years,
    sums: Vec<Sums>,
}

impl Forecast {
    /// The leaves of a scheme from the found one to `last`, both included; none where that is before it.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(
        &mut self,
        plan: &Plan,
        scheme: usize,
        last: u8,
    ) -> Result<Vec<LeafFigures>, Refusal> {
        let years = self.years.of(plan, scheme, last)?;
        Ok(self.told(plan, scheme, &years))
    }

    fn told(&mut self, plan: &Plan, scheme: usize, years: &RowYears) -> Vec<LeafFigures> {
        self.sums.resize_with(plan.schemes.len(), Sums::default);
        let whole = Span {
            from: plan.found.from.f(),
            to: plan.found.to.f(),
        };
        let sums = self.sums[scheme].of(years).into_iter();
        let leaves = sums.zip(&years.leaves);
        leaves
            .map(|(sum, leaf)| LeafFigures::of(sum, leaf, whole))
            .collect()
    }
}

/// Draws from which the range of a crop is taken.
pub const DRAWS: u32 = 64;
/// Most trees of a row that are worked out for each draw: of a longer row so many, evenly along it.
pub const DRAWN_TREES: usize = 24;

/// The plan under the model's values of a draw: each evenly between its ends, all at once. The vigour class is the plan's and stays.
/// What was counted on buds is drawn too, so that few trees tell less.
pub fn drawn(plan: &Plan, draw: u32) -> Plan {
    let mut chance = Seeded::of_pair(draw, 0x0c0d);
    let mut values = (*plan.assumptions).clone();
    for parameter in Parameter::ALL {
        let info = parameter.info();
        let value = info.low + (info.high - info.low) * chance.share();
        if *parameter != Parameter::ClassM {
            values.set(*parameter, value);
        }
    }
    Plan {
        assumptions: Arc::new(values),
        counts: counted::drawn(&plan.counts, &mut chance),
        ..plan.clone()
    }
}

/// The same row with some of its trees, evenly along it; the places of the others are empty, so that all stand as far apart as
/// they do. Trees whose buds were counted stay too, as many of them.
pub fn few_trees(plan: &Plan) -> Plan {
    let count = plan.found.trees.len();
    if count <= DRAWN_TREES {
        return plan.clone();
    }
    let counted = counted::trees(plan, DRAWN_TREES);
    let mut found = (*plan.found).clone();
    for (i, tree) in found.trees.iter_mut().enumerate() {
        if i * DRAWN_TREES % count >= DRAWN_TREES && !counted.contains(&tree.id) {
            *tree = Arc::new(Tree::lost(tree.id, tree.foot, tree.planted));
        }
    }
    Plan {
        found: Arc::new(found),
        ..plan.clone()
    }
}

/// Draws of a crop's range, some at a time: whoever has other things to answer between them can.
#[derive(Clone, Debug)]
pub struct CropDraws {
    plan: Plan,
    scheme: usize,
    last: u8,
    usual: Vec<f64>,
    draws: Vec<Vec<f64>>,
    done: u32,
}

impl CropDraws {
    /// None drawn yet, of the crops from the found leaf to `last`.
    ///
    /// # Errors
    /// No such scheme.
    pub fn new(plan: &Plan, scheme: usize, last: u8) -> Result<Self, Refusal> {
        let plan = few_trees(plan);
        let usual = crops(&plan, scheme, last)?;
        Ok(Self {
            draws: vec![Vec::new(); usual.len()],
            plan,
            scheme,
            last,
            usual,
            done: 0,
        })
    }

    /// Makes so many draws more, until there are [`DRAWS`]; whether there are.
    ///
    /// # Errors
    /// No such scheme.
    pub fn go_on(&mut self, many: u32) -> Result<bool, Refusal> {
        let until = (self.done + many).min(DRAWS);
        for draw in self.done..until {
            let crops = crops(&drawn(&self.plan, draw), self.scheme, self.last)?;
            for (leaf, crop) in crops.into_iter().enumerate() {
                self.draws[leaf].push(crop);
            }
        }
        self.done = until;
        Ok(until == DRAWS)
    }

    /// Between what crop, t/ha, each leaf lies in eight draws of ten, by the figures of the whole row.
    pub fn range(&mut self, figures: &[LeafFigures]) -> Vec<(f64, f64)> {
        let leaves = self.draws.iter_mut().zip(&self.usual);
        leaves
            .enumerate()
            .map(|(leaf, (crops, usual))| {
                arrange_numbers(crops);
                let ratio = match figures.get(leaf) {
                    Some(all) if *usual > 0.0 => all.crop_t_per_ha / usual,
                    _ => 1.0,
                };
                let (low, high) = (percentile(crops, 0.1), percentile(crops, 0.9));
                // By the usual values it is as it is told: that is one of what it may be.
                (low.min(*usual) * ratio, high.max(*usual) * ratio)
            })
            .collect()
    }
}

/// The shares of which [`share_costs`] tells; `None` is never.
pub const SHARES: [Option<f64>; 6] = [
    None,
    Some(0.1),
    Some(0.125),
    Some(0.167),
    Some(0.2),
    Some(0.25),
];
/// The first leaf that counts in what a share costs: before it hardly a row bears.
pub const FIRST_BEARING: u8 = 3;
/// How many leaves at the end are told apart, when a wall has been renewed for a while.
const LATE_LEAVES: usize = 3;

/// What a renewal share brings, and what it asks for, by the model's usual values. Means of no leaf are 0.
#[derive(Clone, Debug, PartialEq)]
pub struct ShareCost {
    /// Share of the uprights that is stubbed each winter; `None` where none ever is.
    pub share: Option<f64>,
    /// Mean crop of the third leaf to the last, or of the found one where that is later, t/ha.
    pub crop_t_per_ha: f64,
    /// Mean crop of the last three of these leaves, t/ha.
    pub late_t_per_ha: f64,
    /// Age of the oldest upright in a dormant season of the last three, completed seasons.
    pub wood_age_max: u8,
    /// Uprights of the whole row before the after-harvest work, in the mean of the last three.
    pub uprights: u32,
    /// Stubs to be made in all leaves up to the last, on the whole row.
    pub stubs: u32,
}

impl ShareCost {
    /// Of one share under a scheme up to the leaf `last`, 0.1 to 0.25, or of none. Its other rules hold, and its planned windows
    /// stay as they are; one that never renews begins when that is usual, one without rules has the usual ones. Of a long row
    /// some trees are worked out, and stand for all.
    ///
    /// # Errors
    /// No such scheme; a share outside the range of [`Rule::RenewShare`].
    pub fn of(plan: &Plan, scheme: usize, last: u8, share: Option<f64>) -> Result<Self, Refusal> {
        let mut sampled = few_trees(plan).with_standing(scheme, true)?;
        sampled = match share {
            None => sampled.with_rule(scheme, Rule::RenewFrom, Some(0.0))?,
            Some(_) => sampled.with_rule(scheme, Rule::RenewShare, share)?,
        };
        let rules = sampled.scheme(scheme)?.standing.as_ref();
        let never = rules.is_some_and(|s| s.rules.get(Rule::RenewFrom) == 0.0);
        if never && share.is_some() {
            sampled = sampled.with_rule(scheme, Rule::RenewFrom, None)?;
        }
        let leaves = Forecast::default().of(&sampled, scheme, last)?;
        let all = plan.found.trees.len();
        let each = all.max(1) as f64 / all.clamp(1, DRAWN_TREES) as f64;
        let stubs = leaves
            .iter()
            .filter_map(|l| l.work.get("stub"))
            .sum::<u32>();
        let bearing = leaves.iter().position(|l| l.leaf >= FIRST_BEARING);
        let bearing = &leaves[bearing.unwrap_or(leaves.len())..];
        let late = &bearing[bearing.len().saturating_sub(LATE_LEAVES)..];
        let mean = |of: &[LeafFigures], what: fn(&LeafFigures) -> f64| {
            let sum: f64 = of.iter().map(what).sum();
            sum * each / of.len().max(1) as f64
        };
        let crop = |l: &LeafFigures| l.crop_t_per_ha;
        Ok(Self {
            share,
            crop_t_per_ha: mean(bearing, crop),
            late_t_per_ha: mean(late, crop),
            uprights: libm::round(mean(late, |l| l.uprights as f64)) as u32,
            wood_age_max: late.iter().map(|l| l.wood_age_max).max().unwrap_or(0),
            stubs: libm::round(f64::from(stubs) * each) as u32,
        })
    }
}

/// What each of [`SHARES`] costs under a scheme up to the leaf `last`: six forecasts of a part of the row.
///
/// # Errors
/// No such scheme.
pub fn share_costs(plan: &Plan, scheme: usize, last: u8) -> Result<Vec<ShareCost>, Refusal> {
    let of = |share: &Option<f64>| ShareCost::of(plan, scheme, last, *share);
    SHARES.iter().map(of).collect()
}

fn crops(plan: &Plan, scheme: usize, last: u8) -> Result<Vec<f64>, Refusal> {
    let leaves = Forecast::default().of(plan, scheme, last)?;
    Ok(leaves.iter().map(|l| l.crop_t_per_ha).collect())
}

/// Between what crop, t/ha, each leaf lies in eight draws of ten of the model's values, from the found leaf to `last`: the 10th
/// and the 90th percentile. Of a long row some trees are worked out, and the range is that of all in the same ratio.
///
/// # Errors
/// No such scheme.
pub fn crop_range(
    plan: &Plan,
    scheme: usize,
    last: u8,
    figures: &[LeafFigures],
) -> Result<Vec<(f64, f64)>, Refusal> {
    let mut draws = CropDraws::new(plan, scheme, last)?;
    draws.go_on(DRAWS)?;
    Ok(draws.range(figures))
}

/// Of numbers in order the one below which that share of them lies, between neighbours in proportion; 0 of none.
pub(crate) fn percentile(sorted: &[f64], share: f64) -> f64 {
    let Some(last) = sorted.len().checked_sub(1) else {
        return 0.0;
    };
    let at = share * last as f64;
    let (low, part) = (libm::floor(at), at - libm::floor(at));
    let next = sorted[(low as usize + 1).min(last)];
    sorted[low as usize] + part * (next - sorted[low as usize])
}
