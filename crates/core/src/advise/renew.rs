//! Renewal over the coming winters, the row seen as a whole, beside the simple rule that judges tree by tree.

use super::draft;
use super::outcome::Gain;
use crate::forecast::Forecast;
use crate::plan::{Phase, Plan, Replayer};
use crate::refusal::Refusal;
use crate::row::Moment;
use crate::work::Work;

/// The stubs of some winters.
#[derive(Clone, Debug)]
pub struct Renewed {
    /// Of each winter, by its leaf, the stubs.
    pub winters: Vec<(u8, Vec<Work>)>,
    /// Age of the oldest upright before the winter after the last, by the simple rule and by these stubs, completed seasons.
    pub oldest: (u8, u8),
    /// Of each of those leaves the crop, t/ha: by the simple rule, and by these stubs.
    pub crop: Vec<(f64, f64)>,
    /// What they bring over five leaves, the simple rule as what is before.
    pub gain: Gain,
    /// The plan with those winters drafted.
    pub plan: Plan,
}

/// The stubs of so many winters from a leaf on. Between them the rules train the row, or the usual ones where the scheme has none.
///
/// # Errors
/// No such scheme; a moment before the row was found or after the last leaf.
pub fn renew(plan: &Plan, scheme: usize, leaf: u8, winters: u8) -> Result<Renewed, Refusal> {
    let simple = plan.with_all_standing();
    let mut now = simple.clone();
    let mut out = Vec::new();
    let last = leaf.saturating_add(winters).min(Plan::MAX_LEAF);
    for leaf in leaf..last {
        let made = draft(&now, scheme, Moment::dormant(leaf))?;
        now = made.plan;
        let stubs = now.scheme(scheme)?.work(Moment::dormant(leaf));
        let stubs = stubs.filter(|w| matches!(w, Work::Stub { .. }));
        out.push((leaf, stubs.cloned().collect()));
    }
    let oldest = |plan: &Plan| -> Result<u8, Refusal> {
        let at = Replayer::default().at(plan, scheme, Moment::dormant(last), Phase::Before)?;
        let uprights = at.row.trees.iter().flat_map(|t| t.uprights());
        let ages = uprights
            .filter_map(|s| s.born())
            .map(|b| last.saturating_sub(b));
        Ok(ages.max().unwrap_or(0))
    };
    let from = leaf - plan.found.leaf.min(leaf);
    let crop = |plan: &Plan| -> Result<Vec<f64>, Refusal> {
        let leaves = Forecast::default().of(plan, scheme, last.saturating_sub(1))?;
        let leaves = leaves.iter().skip(usize::from(from));
        Ok(leaves.map(|f| f.crop_t_per_ha).collect())
    };
    Ok(Renewed {
        crop: crop(&simple)?.into_iter().zip(crop(&now)?).collect(),
        oldest: (oldest(&simple)?, oldest(&now)?),
        gain: Gain::of(&simple, &now, scheme, leaf)?,
        winters: out,
        plan: now,
    })
}
