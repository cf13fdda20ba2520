//! What every command looks at of a plan: the row that is judged, and its light.

use crate::files;
use anyhow::Result;
use cordonry::light::row_light::{LightReport, report_under};
use cordonry::light::{Foliage, Period, Weather};
use cordonry::plan::{Plan, Replayed, replay};
use cordonry_words::Words;

/// The row that is judged: before the found leaf grows, the first scheme's dormant work of that leaf done.
pub fn judged(plan: &Plan, words: &Words) -> Result<Replayed> {
    replay(plan, 0, plan.start()).map_err(|why| files::refused(&why, words))
}

/// The light of a row in full leaf, over a period or else its growing season.
pub fn light_of(
    plan: &Plan,
    at: &Replayed,
    period: Option<Period>,
    weather: Weather,
) -> LightReport {
    let foliage = Foliage::new(&at.row, &at.terms, &plan.targets, 1.0);
    let latitude = foliage.around().site.latitude_deg;
    let period = period.unwrap_or(Period::growing_season(latitude));
    report_under(&foliage, &plan.targets, period, weather)
}
