//! A wall that catches less of the season's light than it should.

use super::light_gap;
use super::seen::{Seen, under};
use super::{Finding, Severity};
use crate::light::LightReport;
use crate::row::Limit;
use crate::said::Arg;

pub(super) const RULE: &str = "light-under-target";

/// A wall that reaches this share of its height is taken as grown; one that does not catches little yet by its age.
const GROWN: f64 = 0.8;

pub(super) fn find(c: &Seen<'_>, light: &LightReport) -> Vec<Finding> {
    let asked = c.limit(Limit::LightTarget);
    let caught = light.caught.total;
    if !under(caught, asked) {
        return Vec::new();
    }
    let (wire, top) = (c.g.wire / 1000.0, c.row.trellis.wall_height.f() / 1000.0);
    let grown = light.top - wire >= GROWN * (top - wire);
    let whole = c.whole();
    vec![Finding {
        rule: RULE,
        severity: if grown {
            Severity::Soon
        } else {
            Severity::Note
        },
        x: whole.from,
        z: c.g.wire,
        width: whole.length(),
        subjects: Vec::new(),
        measured: caught,
        allowed: asked,
        limit: Limit::LightTarget,
        args: vec![
            ("caught", Arg::Share(caught)),
            ("asked", Arg::Share(asked)),
            ("index", Arg::Number(light.leaf_area_index, 1)),
            (
                "given",
                Arg::Text(
                    if light.around.spacing_given {
                        "yes"
                    } else {
                        "no"
                    }
                    .into(),
                ),
            ),
            (
                "spacing",
                Arg::Length(light.around.shape.row_spacing * 1000.0),
            ),
            ("grown", Arg::Text(if grown { "yes" } else { "no" }.into())),
            ("top", Arg::Length(light.top * 1000.0)),
        ],
        // What fills the opening that loses most.
        remedies: light_gap::find(c, light)
            .into_iter()
            .map(|f| f.remedies)
            .find(|r| !r.is_empty())
            .unwrap_or_default(),
    }]
}
