//! A leader bent tighter than its thickness bears.

use super::seen::{Seen, under};
use super::{Finding, Severity};
use crate::row::Limit;
use crate::said::Arg;

pub(super) const RULE: &str = "bend-too-tight";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let least = c.limit(Limit::BendTightest);
    let usual = c.limit(Limit::BendDiameters);
    let mut out = Vec::new();
    for seen in &c.trees {
        for (shoot, course) in seen.pairs() {
            if course.turn.abs() < 1e-9 || shoot.diameter <= 0.0 || course.first >= course.length {
                continue;
            }
            // What has thickened since it was bent, or whose thickness was corrected, is judged as thick as it was then.
            let bent = shoot.bend_radius.filter(|radius| *radius > 0.0);
            let diameter = bent.map_or(shoot.diameter, |radius| radius / usual);
            let diameters = course.radius / diameter;
            if !under(diameters, least) {
                continue;
            }
            let corner = course.corner();
            out.push(Finding {
                rule: RULE,
                severity: Severity::Note,
                x: corner.x,
                z: corner.y,
                width: 0.0,
                subjects: vec![seen.part(shoot.id)],
                measured: diameters,
                allowed: least,
                limit: Limit::BendTightest,
                args: vec![
                    ("part", seen.name(shoot.id)),
                    ("radius", super::seen::distance(course.radius)),
                    ("least", super::seen::distance(least * diameter)),
                    ("diameter", Arg::Thickness(diameter)),
                ],
                remedies: Vec::new(),
            });
        }
    }
    out
}
