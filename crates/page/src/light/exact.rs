//! The exact light of a row, as it is worked out at rest.

use super::Lighting;
use cordonry::light::foliage::Foliage;
use cordonry::light::row_light::{self, LightReport};
use cordonry::plan::Plan;
use cordonry::pose::AnyRow;
use serde::{Deserialize, Serialize};
use std::ops::Range;

/// An exact answer: the season in full leaf, by which the row is judged, and what is looked at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Exact {
    /// The growing season in full leaf; its map holds the renewal zone alone.
    pub season: LightReport,
    /// What was asked for; its map holds the columns that were asked for.
    pub chosen: LightReport,
}

/// Works out the exact answer.
pub fn exact(row: &impl AnyRow, plan: &Plan, choice: Lighting, columns: Range<usize>) -> Exact {
    let mut foliage = Foliage::new(row, &plan.site, &plan.targets, 1.0);
    let latitude = foliage.around().site.latitude_deg;
    let season = Lighting::default().period(latitude);
    let mut judged = row_light::report(&foliage, &plan.targets, season);
    let period = choice.period(latitude);
    let mut chosen = if (period, choice.out) == (season, 1.0) {
        judged.clone()
    } else {
        foliage.unfold(choice.out);
        row_light::report(&foliage, &plan.targets, period)
    };
    judged.map = judged.map.band(judged.zone_at.0, judged.zone_at.1);
    chosen.map = chosen.map.part(columns);
    Exact {
        season: judged,
        chosen,
    }
}
