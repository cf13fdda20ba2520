//! The exact light of a row, as it is worked out at rest.

use super::Lighting;
use cordonry::light::foliage::Foliage;
use cordonry::light::row_light::{self, LightReport};
use cordonry::plan::Plan;
use cordonry::pose::AnyRow;
use cordonry::terms::Terms;
use serde::{Deserialize, Serialize};
use std::ops::Range;

/// An exact answer: the season in full leaf, by which the row is judged, and what is looked at.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Exact {
    /// The growing season in full leaf; its map is left out.
    pub season: LightReport,
    /// What was asked for; its map holds the columns that were asked for.
    pub chosen: LightReport,
}

/// Works out the exact answer.
pub fn exact(
    row: &impl AnyRow,
    terms: &Terms,
    plan: &Plan,
    choice: Lighting,
    columns: Range<usize>,
) -> Exact {
    let mut foliage = Foliage::new(row, terms, &plan.targets, 1.0);
    let latitude = foliage.around().site.latitude_deg;
    let season = Lighting::default().period(latitude);
    let report = |foliage: &Foliage, period| {
        row_light::report_under(foliage, &plan.targets, period, choice.weather)
    };
    let mut judged = report(&foliage, season);
    let period = choice.period(latitude);
    let mut chosen = if (period, choice.out) == (season, 1.0) {
        judged.clone()
    } else {
        foliage.unfold(choice.out);
        report(&foliage, period)
    };
    // What it is judged by stands beside its map.
    judged.map = judged.map.part(0..0);
    chosen.map = chosen.map.part(columns);
    Exact {
        season: judged,
        chosen,
    }
}
