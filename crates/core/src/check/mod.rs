//! Checks: each looks at a row and says what it found. A finding never blocks.

mod again;
mod bend_too_tight;
mod cordon_fill_due;
mod cordon_gap;
mod cordon_overlap;
mod figures;
mod fill;
mod finding;
mod graver;
mod heights;
mod known;
mod laterals_due;
mod leans_opposed;
mod light_caught;
mod light_cost;
mod light_gap;
mod light_renewal;
mod matter;
mod mend;
mod mendable;
mod near;
mod notched;
mod placed;
mod renewal;
mod renewal_why;
mod returns;
mod see_through;
mod seen;
mod seen_near;
mod side_shoots;
mod stage;
mod stock_too_short;
mod tipping_due;
mod trial;
mod upright_outside;
mod upright_over_vigorous;
mod uprights_count;
mod uprights_crossing;
mod uprights_too_close;
mod uprights_too_far;
mod uprights_uneven;
mod wall_height;
mod waves;
mod wires;
mod work_void;

pub use again::Kept;
pub use bend_too_tight::bent_too_tight;
pub use figures::{Figures, figures};
pub use fill::FillWay;
pub use finding::{Also, Finding, Part, Remedy, Severity};
pub use graver::{harmed, stand, stand_as_grave};
pub(crate) use known::Known;
pub use light_cost::{LightCost, tell_costs};
pub use light_renewal::is_dark as renewal_zone_is_dark;
pub use matter::{Cause, Matter, Size, is_left, matters, open as open_findings};
pub use mend::mended;
pub use mendable::Mendable;
pub use renewal::{cut_too_much, is_renewal};
pub use renewal_why::{Reason, renewal_reasons};
pub use stage::Stage;
pub use tipping_due::tips_due;
pub use trial::{Offered, Withheld, offered, settled, take as take_offers, tried, tried_told};
pub(crate) use waves::together;

use crate::arrange::Arrange;
use crate::cover::{Cover, Place};
use crate::light::LightReport;
use crate::plan::{Replayed, VoidWork};
use crate::pose::PosedRow;
use crate::row::{Moment, Targets};
use crate::terms::Terms;
use seen::Seen;
pub(crate) use seen::distance;

/// What a check looks at.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// The row at the moment that is judged.
    pub row: &'a PosedRow,
    /// That moment.
    pub moment: Moment,
    /// What pose and work read besides its trees.
    pub terms: &'a Terms,
    /// The limits in force.
    pub targets: &'a Targets,
    /// Work on the way to that moment that touched nothing.
    pub void: &'a [VoidWork],
}

impl<'a> Context<'a> {
    /// What is judged of a plan: the row that was replayed.
    pub fn of(at: &'a Replayed) -> Self {
        Self {
            row: &at.row,
            moment: at.moment,
            terms: &at.terms,
            targets: &at.targets,
            void: &at.void,
        }
    }

    /// A row that belongs to no plan, as it was found: dormant, without work on it.
    pub fn found(row: &'a PosedRow, terms: &'a Terms, targets: &'a Targets) -> Self {
        Self {
            row,
            moment: Moment::dormant(row.leaf),
            terms,
            targets,
            void: &[],
        }
    }
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
    (returns::RULE, returns::find),
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

/// The id of every rule that needs the row's light.
pub fn light_rules() -> impl Iterator<Item = &'static str> {
    [
        light_gap::RULE,
        light_caught::OPEN,
        light_caught::LITTLE,
        light_renewal::RULE,
    ]
    .into_iter()
}

/// What the rules about light find, and what findings of other rules cost in light.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LightFound {
    /// The gravest first; light gaps by their loss, all else from left to right.
    pub findings: Vec<Finding>,
    /// For [`tell_costs`].
    pub costs: Vec<LightCost>,
}

/// What the rules about light find of a row of which the other rules found `wood`. The report is of the same row in full
/// leaf over its season.
pub fn check_light(context: &Context<'_>, light: &LightReport, wood: &[Finding]) -> LightFound {
    let seen = Seen::new(context);
    let (mut findings, costs) = light_gap::find(&seen, light, wood);
    let fill = findings.iter().find(|f| !f.remedies.is_empty());
    let fill = fill.map(|f| f.remedies.clone()).unwrap_or_default();
    findings.extend(light_caught::find(&seen, light, fill));
    findings.extend(light_renewal::find(&seen, light));
    // Each rule's own order holds among findings of one severity.
    findings.arrange_by_key(|f| std::cmp::Reverse(f.severity));
    LightFound { findings, costs }
}

/// What all rules find, those about light too, of a row of which the others found `wood`: each telling what it costs in light, the
/// gravest first.
pub fn with_light(
    context: &Context<'_>,
    light: &LightReport,
    mut wood: Vec<Finding>,
) -> Vec<Finding> {
    let found = check_light(context, light, &wood);
    tell_costs(&found.costs, &mut wood);
    wood.extend(found.findings);
    wood.arrange_by_key(|f| std::cmp::Reverse(f.severity));
    wood
}

/// What every rule finds: the gravest first, then from left to right, then by rule.
pub fn check(context: &Context<'_>) -> Vec<Finding> {
    survey(context, None).findings
}

/// Whether, by these findings, the cordon should be filled by now and is not.
pub fn fill_is_due(findings: &[Finding]) -> bool {
    findings.iter().any(|f| f.rule == cordon_fill_due::RULE)
}

/// All that is seen on one walk along the row.
#[derive(Clone, Debug, Default)]
pub struct Survey {
    /// How the wire is covered.
    pub cover: Cover,
    /// The uprights from left to right.
    pub places: Vec<Place>,
    /// What the rules find, as [`check`] gives it.
    pub findings: Vec<Finding>,
    /// The figures, as [`figures`] gives them.
    pub figures: Figures,
    /// What the next survey takes from it.
    pub kept: Kept,
}

/// An earlier survey under the same limits and site, from which a new one may take what can't have changed.
#[derive(Clone, Debug)]
pub struct Before<'a> {
    /// The row that was seen.
    pub row: &'a PosedRow,
    /// That was at this moment.
    pub moment: Moment,
    /// What was found on it.
    pub findings: Vec<Finding>,
    /// What was kept of it.
    pub kept: Kept,
}

/// As [`check`], with the cover and places that it rests on. It gives the same with `before` as without, sooner: a tree that
/// did not change is known by being the same in memory.
pub fn survey(context: &Context<'_>, before: Option<Before<'_>>) -> Survey {
    let mut seen = Seen::new(context);
    let known = before.as_ref().filter(|b| again::recall(&mut seen, b));
    let through = see_through::through(&seen);
    let stands = |f: &Finding| known.is_some() && !seen.is_judged(f, through);
    let stand = known.map(|b| b.findings.iter().map(stands).collect::<Vec<bool>>());
    let mut findings: Vec<Finding> = ALL.iter().flat_map(|(_, find)| find(&seen)).collect();
    findings.retain(|f| !stands(f));
    let figures = figures::of(&seen);
    let kept = Kept::of(&seen);
    let (cover, places) = (seen.cover, seen.places);
    if let (Some(stand), Some(before)) = (stand, before) {
        let old = before.findings.into_iter().zip(stand);
        findings.extend(old.filter(|(_, stands)| *stands).map(|(f, _)| f));
    }
    in_order(&mut findings);
    Survey {
        kept,
        figures,
        cover,
        places,
        findings,
    }
}

/// The gravest first, then from left to right, then by rule.
fn in_order(findings: &mut [Finding]) {
    findings.arrange_by(|a, b| {
        b.severity
            .cmp(&a.severity)
            .then(a.x.total_cmp(&b.x))
            .then(a.rule.cmp(b.rule))
            .then(a.subjects.cmp(&b.subjects))
    });
}
