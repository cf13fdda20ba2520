//! Doing remedies: a pure step from a plan to a plan.

use super::Remedy;
use crate::plan::{Plan, Setting};
use crate::refusal::Refusal;
use crate::row::Moment;
use crate::work::Work;

/// The plan with all that the remedies ask for at a moment, under a scheme: all of it is done or none.
///
/// # Errors
/// Why the first that can't be done can't.
pub fn mended(
    plan: &Plan,
    scheme: usize,
    moment: Moment,
    remedies: &[&Remedy],
) -> Result<Plan, Refusal> {
    let mut plan = plan.clone();
    for height in remedies.iter().filter_map(|r| r.wall_height) {
        plan = plan.with_setting(Setting::WallHeight, Some(height.f()))?;
    }
    // Seen before the work, a shoot may lack what its planned cut takes off anyway.
    let on = plan.scheme(scheme)?;
    let idle = |work: &&Work| on.schedule.is_idle(moment, work);
    let work = remedies.iter().flat_map(|r| &r.work);
    let work = work.filter(|w| !idle(w)).cloned().collect();
    plan.with_works(scheme, moment, work)
}
