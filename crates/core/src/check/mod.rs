//! Checks: each looks at a row and says what it found. A finding never blocks.

mod bend_too_tight;
mod cordon_fill_due;
mod cordon_gap;
mod cordon_overlap;
mod figures;
mod fill;
mod finding;
mod laterals_due;
mod leans_opposed;
mod renewal;
mod see_through;
mod seen;
mod side_shoots;
mod stock_too_short;
mod tipping_due;
mod upright_outside;
mod upright_over_vigorous;
mod uprights_count;
mod uprights_crossing;
mod uprights_too_close;
mod uprights_too_far;
mod uprights_uneven;
mod wall_height;
mod wires;
mod work_void;

pub use figures::{Figures, figures};
pub use finding::{Finding, Part, Remedy, Severity};

use crate::plan::VoidWork;
use crate::row::{Row, Site, Targets};
use seen::Seen;

/// What a check looks at.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// The row at the moment that is judged.
    pub row: &'a Row,
    /// Where it stands.
    pub site: &'a Site,
    /// The limits in force.
    pub targets: &'a Targets,
    /// Work on the way to that moment that touched nothing.
    pub void: &'a [VoidWork],
}

type Rule = (&'static str, fn(&Seen<'_>) -> Vec<Finding>);

const ALL: &[Rule] = &[
    (cordon_gap::RULE, cordon_gap::find),
    (cordon_overlap::RULE, cordon_overlap::find),
    (cordon_fill_due::RULE, cordon_fill_due::find),
    (stock_too_short::RULE, stock_too_short::find),
    (leans_opposed::RULE, leans_opposed::find),
    (bend_too_tight::RULE, bend_too_tight::find),
    (uprights_too_close::RULE, uprights_too_close::find),
    (uprights_too_far::RULE, uprights_too_far::find),
    (uprights_count::FEW, uprights_count::find_few),
    (uprights_count::MANY, uprights_count::find_many),
    (uprights_uneven::RULE, uprights_uneven::find),
    (upright_over_vigorous::RULE, upright_over_vigorous::find),
    (upright_outside::RULE, upright_outside::find),
    (uprights_crossing::RULE, uprights_crossing::find),
    (side_shoots::RULE, side_shoots::find),
    (side_shoots::BUDS, side_shoots::find_buds),
    (laterals_due::RULE, laterals_due::find),
    (tipping_due::RULE, tipping_due::find),
    (renewal::DUE, renewal::find_due),
    (renewal::OLD, renewal::find_old),
    (see_through::RULE, see_through::find),
    (wall_height::ABOVE, wall_height::find_above),
    (wall_height::TALL, wall_height::find_tall),
    (wires::NEXT, wires::find_next),
    (wires::FAR, wires::find_far),
    (wires::BARE, wires::find_bare),
    (work_void::RULE, work_void::find),
];

/// The id of every rule.
pub fn rules() -> impl Iterator<Item = &'static str> {
    ALL.iter().map(|(id, _)| *id)
}

/// What every rule finds: the gravest first, then from left to right, then by rule.
pub fn check(context: &Context<'_>) -> Vec<Finding> {
    let seen = Seen::new(context);
    let mut out: Vec<Finding> = ALL.iter().flat_map(|(_, find)| find(&seen)).collect();
    out.sort_by(|a, b| {
        b.severity
            .cmp(&a.severity)
            .then(a.x.total_cmp(&b.x))
            .then(a.rule.cmp(b.rule))
    });
    out
}
