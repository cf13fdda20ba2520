//! What counted buds make of the crop of the leaf that they open in. Later leaves are the model's, and so is growth: what hangs is
//! told by the count, what it costs a tree is not.

use super::{Forecast, few_trees};
use crate::plan::{BudCount, Counted, Plan};
use crate::range::Range;
use crate::refusal::Refusal;
use crate::row::TreeId;
use crate::said::{Arg, Said};
use crate::seed::Seeded;

/// The crop of a leaf by what was counted before it, beside the model's, t/ha.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CountedCrop {
    /// What was counted.
    pub counted: Counted,
    /// The crop by the model alone.
    pub model: f64,
    /// The crop by the count.
    pub crop: f64,
    /// Between what it lies by the count's own range; `None` of a single spur.
    pub range: Option<Range>,
}

impl CountedCrop {
    /// The count, how far it tells, and what the crop is by it.
    pub fn said(&self) -> Vec<Said> {
        let c = &self.counted;
        let (low, high) = c.range.unwrap_or_default();
        let args = vec![
            ("spurs", Arg::Count(c.spurs as i64)),
            ("trees", Arg::Count(c.trees as i64)),
            ("buds", Arg::Number(c.buds, 1)),
            ("dead", Arg::Share(c.dead)),
            ("opened", Arg::yes(c.flowers.is_some())),
            ("flowers", Arg::Number(c.flowers.unwrap_or_default(), 1)),
            ("usual", Arg::Number(c.model.0, 1)),
            ("each", Arg::Number(c.model.1, 1)),
            ("factor", Arg::Share(c.factor)),
            ("ranged", Arg::yes(c.range.is_some())),
            ("low", Arg::Share(low)),
            ("high", Arg::Share(high)),
            ("held", Arg::yes(c.held)),
        ];
        let (low, high) = self.range.unwrap_or_default();
        let crop = vec![
            ("leaf", Arg::Count(c.leaf.into())),
            ("crop", Arg::Number(self.crop, 1)),
            ("model", Arg::Number(self.model, 1)),
            ("ranged", Arg::yes(self.range.is_some())),
            ("low", Arg::Number(low, 1)),
            ("high", Arg::Number(high, 1)),
        ];
        vec![
            Said::new("counted-buds", args),
            Said::new("counted-crop", crop),
        ]
    }
}

/// The crop of a leaf by what was counted before it; `None` where nothing was. The range of a long row is that of some of its
/// trees in the same ratio.
///
/// # Errors
/// No such scheme.
pub fn counted_crop(plan: &Plan, scheme: usize, leaf: u8) -> Result<Option<CountedCrop>, Refusal> {
    let Some(counted) = plan.counted(scheme, leaf)? else {
        return Ok(None);
    };
    let crop = |plan: &Plan, factor: f64| -> Result<f64, Refusal> {
        let mut forecast = Forecast::default();
        let told = Some((leaf, factor));
        let years = forecast.years.bearing(plan, scheme, leaf, told)?;
        let leaves = forecast.told(plan, scheme, &years);
        Ok(leaves.last().map_or(0.0, |l| l.crop_t_per_ha))
    };
    let whole = crop(plan, counted.factor)?;
    let range = match counted.range {
        Some((low, high)) => {
            let few = few_trees(plan);
            let as_told = crop(&few, counted.factor)?;
            let ratio = if as_told > 0.0 { whole / as_told } else { 1.0 };
            Some((crop(&few, low)? * ratio, crop(&few, high)? * ratio))
        }
        None => None,
    };
    Ok(Some(CountedCrop {
        counted,
        model: crop(plan, 1.0)?,
        crop: whole,
        range,
    }))
}

/// Trees whose buds were counted, the first so many.
pub(super) fn trees(plan: &Plan, most: usize) -> Vec<TreeId> {
    let mut out: Vec<TreeId> = Vec::new();
    for count in &plan.counts {
        if out.len() < most && !out.contains(&count.tree) {
            out.push(count.tree);
        }
    }
    out
}

/// Counts as they might have come out: of each leaf trees at random of those that were counted, and spurs of theirs.
pub(super) fn drawn(counts: &[BudCount], chance: &mut Seeded) -> Vec<BudCount> {
    let mut one_of = |many: usize| ((chance.share() * many as f64) as usize).min(many - 1);
    let mut out = counts.to_vec();
    for count in &mut out {
        let from = counts.partition_point(|c| c.leaf < count.leaf);
        let many = counts.partition_point(|c| c.leaf <= count.leaf) - from;
        let spurs = &counts[from + one_of(many)].spurs;
        count.spurs = spurs.iter().map(|_| spurs[one_of(spurs.len())]).collect();
    }
    out
}
