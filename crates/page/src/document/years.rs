//! What the schemes of the document bring, leaf by leaf.

use cordonry::forecast::{Forecast, LeafFigures};
use cordonry::plan::Plan;
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
    last: Option<(Arc<Plan>, usize, Arc<[LeafFigures]>)>,
}

impl Ahead {
    /// The leaves of a scheme; none of one that the plan does not have.
    pub fn of(&mut self, plan: &Arc<Plan>, scheme: usize) -> Arc<[LeafFigures]> {
        match &self.last {
            Some((of, number, told)) if Arc::ptr_eq(of, plan) && *number == scheme => {
                Arc::clone(told)
            }
            _ => {
                let years = self.forecast.of(plan, scheme, last_leaf(plan));
                let told: Arc<[LeafFigures]> = years.unwrap_or_default().into();
                self.last = Some((Arc::clone(plan), scheme, Arc::clone(&told)));
                told
            }
        }
    }
}
