//! An upright near the trunk that is much thicker than its tree's others.

use super::placed::{FEWEST, median_thickness, over_vigorous, this_winter};
use super::renewal::stub;
use super::seen::Seen;
use super::{Finding, Severity};
use crate::row::Limit;
use crate::said::{Arg, Quantity};

pub(super) const RULE: &str = "upright-over-vigorous";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::VigourRatio);
    let mut out = Vec::new();
    for seen in c.near_trees() {
        let Some(median) = median_thickness(seen, this_winter(c), FEWEST, None) else {
            continue;
        };
        for (shoot, course) in seen.uprights() {
            let Some((from_trunk, usual)) = over_vigorous(c, seen, shoot, course, median) else {
                continue;
            };
            let ratio = shoot.diameter / usual;
            // It counts in the winter's share: where that is spent on others, or none is due yet, it waits.
            let goes = c.is_due(seen, shoot.id);
            out.push(Finding {
                rule: RULE,
                severity: if goes { Severity::Soon } else { Severity::Note },
                x: course.base.x,
                z: course.base.y,
                width: 0.0,
                subjects: vec![seen.part(shoot.id)],
                measured: ratio,
                allowed: most,
                limit: Limit::VigourRatio,
                args: vec![
                    ("part", seen.name(shoot.id)),
                    ("diameter", Arg::Thickness(shoot.diameter)),
                    ("ratio", Arg::Number(ratio, 1)),
                    ("median", Arg::Field(Quantity::Thickness, usual)),
                    ("from_trunk", super::seen::distance(from_trunk)),
                    ("goes", Arg::yes(goes)),
                ],
                remedies: goes
                    .then(|| stub(c, seen, &[shoot.id]))
                    .flatten()
                    .into_iter()
                    .collect(),
            });
        }
    }
    out
}
