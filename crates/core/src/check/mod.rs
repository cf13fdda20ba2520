//! Checks: each looks at a row and says what it found. A finding never blocks.

mod cordon_fill_due;
mod cordon_gap;
mod cordon_overlap;
mod figures;
mod fill;
mod finding;
mod seen;
mod uprights_too_close;
mod uprights_too_far;
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
    (uprights_too_close::RULE, uprights_too_close::find),
    (uprights_too_far::RULE, uprights_too_far::find),
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
