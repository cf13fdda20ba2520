//! A wall that catches less of the season's light than it could, or than is usual.

use super::see_through;
use super::seen::{Seen, under};
use super::{Finding, Remedy, Severity};
use crate::light::LightReport;
use crate::row::Limit;
use crate::said::Arg;

/// Less than its own wall could catch, were it filled.
pub(super) const OPEN: &str = "light-under-filled";
/// Less than grown walls are usually asked to catch: worth knowing at most, since a low wall between wide rows never can.
pub(super) const LITTLE: &str = "light-under-target";

/// A wall half of whose uprights reach this share of its height is taken as grown; one that does not catches little yet by its age.
const GROWN: f64 = 0.8;
/// Shares nearer to each other than this are one in words.
const SAME: f64 = 0.005;

/// What is told of a row's catch: one of the two at most. `remedies` fill the opening that loses most.
pub(super) fn find(c: &Seen<'_>, light: &LightReport, remedies: Vec<Remedy>) -> Option<Finding> {
    let caught = light.caught.total;
    let of_filled = caught / light.filled.max(1e-6);
    let reached = see_through::height(c).unwrap_or(c.g.wire);
    let grown = reached - c.g.wire >= GROWN * (c.row.trellis.wall_height.f() - c.g.wire);
    let least = c.limit(Limit::LightFill);
    let usual = c.limit(Limit::LightTarget);
    let open = light.filled > 0.0 && under(of_filled, least);
    // No wall is asked for more than it can catch, filled: what is usual is that of other walls, in other rows.
    let little = under(caught, usual) && under(caught, light.filled - SAME);
    if !(open || little) {
        return None;
    }
    let whole = c.whole();
    let mut args = vec![
        ("caught", Arg::Share(caught)),
        ("filled", Arg::Share(light.filled)),
        ("index", Arg::Number(light.leaf_area_index, 1)),
        ("given", Arg::yes(light.around.spacing_given)),
        (
            "spacing",
            Arg::Length(light.around.shape.row_spacing * 1000.0),
        ),
    ];
    if open {
        args.extend([
            ("share", Arg::Share(of_filled)),
            ("asked", Arg::Share(least)),
            ("grown", Arg::yes(grown)),
            ("top", Arg::Length(reached)),
        ]);
    } else {
        args.push(("asked", Arg::Share(usual)));
    }
    let (rule, measured, allowed, limit) = match open {
        true => (OPEN, of_filled, least, Limit::LightFill),
        false => (LITTLE, caught, usual, Limit::LightTarget),
    };
    Some(Finding {
        rule,
        severity: match open && grown {
            true => Severity::Soon,
            false => Severity::Note,
        },
        x: whole.from,
        z: c.g.wire,
        width: whole.length(),
        subjects: Vec::new(),
        measured,
        allowed,
        limit,
        args,
        remedies: if open { remedies } else { Vec::new() },
    })
}
