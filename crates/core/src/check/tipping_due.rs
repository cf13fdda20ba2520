//! Last year's growth that has not been tipped.

use super::seen::{Seen, under};
use super::{Context, Finding, Remedy, Severity};
use crate::arrange::Gather;
use crate::row::{GrowthUnit, Limit, Moment, Pose, TreeId, Window};
use crate::said::Arg;
use crate::sorted::Set;
use crate::standing::have_height;
use crate::work::Work;

pub(super) const RULE: &str = "tipping-due";

/// An upright shorter than this, mm, is not worth a cut.
const LEAST_LENGTH: f64 = 100.0;

/// Whether a season's growth was cut since it ended. What was cut in its early summer grew on after that; where the record
/// does not tell when, a cut is taken for a tipping.
fn is_tipped(unit: &GrowthUnit) -> bool {
    let ended = Moment {
        leaf: unit.leaf,
        window: Window::AfterHarvest,
    };
    match unit.cut {
        Some(cut) => cut >= ended,
        None => under(unit.kept, unit.grown),
    }
}

/// Whether tipping would take something off: a season's growth that was cut while it grew may be shorter than that already.
fn left(unit: &GrowthUnit, percent: i32) -> bool {
    unit.kept > unit.grown - unit.grown * f64::from(percent) / 100.0
}

/// The trees of a row that are to be tipped.
pub fn tips_due(context: &Context<'_>) -> Set<TreeId> {
    let found = find(&Seen::to_judge(context)).into_iter();
    let tree = |f: Finding| f.subjects.first().map(|p| p.tree);
    found.filter_map(tree).gathered_set()
}

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    // Before the leaf in which tipping begins, and after the last one, it is due of no tree; nor once renewal has begun, for both take
    // another quarter to half of the crop.
    if !c.targets.is_tipped_before(c.row.leaf, false) {
        return Vec::new();
    }
    let begun = c.renewal_has_begun();
    let wall = c.row.trellis.wall_height.f();
    let share = c.limit(Limit::TippingShare);
    let percent = libm::round(share * 100.0) as i32;
    c.near_trees()
        .filter(|seen| {
            let tips = seen.uprights().map(|(_, course)| course.tip().y);
            let renewed = begun || seen.tree.shoots.iter().any(|s| s.pose == Pose::Stub);
            let is_done = renewed || have_height(tips, wall);
            c.targets.is_tipped_before(c.row.leaf, is_done)
        })
        .filter_map(|seen| {
            let whole: Vec<_> = seen
                .uprights()
                .map(|(s, _)| s)
                .filter(|s| s.length() >= LEAST_LENGTH)
                .filter(|s| {
                    s.units.last().is_some_and(|u| {
                        u.leaf + 1 == c.row.leaf && !is_tipped(u) && left(u, percent)
                    })
                })
                // What is due to be renewed asks the most, of the whole row.
                .filter(|s| !c.is_due(seen, s.id))
                .collect();
            (!whole.is_empty()).then(|| Finding {
                subjects: whole.iter().map(|s| seen.part(s.id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(whole.len() as i64)),
                    ("share", Arg::Share(share)),
                ],
                remedies: vec![Remedy::new(
                    "remedy-tip",
                    vec![
                        ("tree", seen.number()),
                        ("count", Arg::Count(whole.len() as i64)),
                        ("share", Arg::Share(f64::from(percent) / 100.0)),
                    ],
                    seen.outermost(&whole.iter().map(|s| s.id).collect::<Vec<_>>())
                        .into_iter()
                        .map(|shoot| Work::Tip {
                            tree: seen.tree.id,
                            shoot,
                            percent,
                        })
                        .collect(),
                )],
                ..seen.finding(c, RULE, Severity::Soon, Limit::TippingShare, 0.0)
            })
        })
        .collect()
}
