//! What the schemes of the document bring, leaf by leaf.

use cordonry::forecast::{Forecast, LeafFigures};
use cordonry::plan::Plan;
use cordonry::sorted::Map;
use std::sync::Arc;

/// How many leaves from the found one on are told at least, and up to which leaf.
const LEAVES: (u8, u8) = (5, 10);

/// The last leaf that is told of a plan.
pub fn last_leaf(plan: &Plan) -> u8 {
    let last = plan.found.leaf.saturating_add(LEAVES.0).max(LEAVES.1);
    last.min(Plan::MAX_LEAF)
}

/// What is kept of it.
#[derive(Default)]
pub struct Ahead {
    forecast: Forecast,
    /// The plan that was told of last.
    plan: Option<Arc<Plan>>,
    /// What was told of each of its schemes: two may stand side by side, asked by turns.
    told: Map<usize, Arc<[LeafFigures]>>,
}

impl Ahead {
    /// The leaves of a scheme; none of one that the plan does not have.
    pub fn of(&mut self, plan: &Arc<Plan>, scheme: usize) -> Arc<[LeafFigures]> {
        if !self.plan.as_ref().is_some_and(|of| Arc::ptr_eq(of, plan)) {
            self.plan = Some(Arc::clone(plan));
            self.told.clear();
        }
        let told = self.told.entry(scheme).or_insert_with(|| {
            let years = self.forecast.of(plan, scheme, last_leaf(plan));
            years.unwrap_or_default().into()
        });
        Arc::clone(told)
    }

    /// The same of a plan that is only tried: what is told of the plan as it is stays.
    pub fn tried(&mut self, plan: &Plan, scheme: usize) -> Vec<LeafFigures> {
        let years = self.forecast.of(plan, scheme, last_leaf(plan));
        years.unwrap_or_default()
    }
}
