//! Correcting the leaf before which a row was found. Wood that is recorded bounds it; work that was planned for a leaf that the
//! row no longer reaches stays in the plan, and touches nothing.

use super::{Where, within};
use crate::plan::{Moment, Plan};
use crate::pose::{Geometry, Name};
use crate::refusal::Refusal;
use crate::row::{GrowthUnit, Row, Shoot, Tree};
use crate::said::{Arg, Quantity};
use std::sync::Arc;

/// The earliest leaf before which a shoot can have been found, and whether growth says so: after its last growth, and not before
/// its last cut.
fn earliest(shoot: &Shoot) -> (u8, bool) {
    let units = shoot.units.iter();
    let cut = |u: &GrowthUnit| u.cut.map_or(1, |cut| cut.leaf);
    let after = units.flat_map(|u| [(u.leaf.saturating_add(1), true), (cut(u), false)]);
    after.max().unwrap_or((1, true))
}

impl Plan {
    /// The plan with the row found before another leaf.
    pub(super) fn found_before(&self, leaf: i32) -> Result<Plan, Refusal> {
        let shoots = |t: &'_ Arc<Tree>| {
            let of = |s: &Shoot| (earliest(s), s.id);
            // The first of those that bound it alike is named.
            let latest = t
                .shoots
                .iter()
                .map(of)
                .reduce(|a, b| if b.0 > a.0 { b } else { a });
            latest.map(|(leaf, shoot)| (leaf, (Arc::clone(t), shoot)))
        };
        let latest = self.found.trees.iter().filter_map(shoots);
        let latest = latest.reduce(|a, b| if b.0 > a.0 { b } else { a });
        let (value, high) = (f64::from(leaf), f64::from(Self::MAX_LEAF));
        let g = Geometry::of(&self.found, &self.targets);
        if let Some(((low, grown), (tree, shoot))) = latest
            && value < low.into()
            && let Some(name) = Name::of(&tree, g, shoot)
        {
            return Err(Refusal::new(
                "refusal-correct-leaf",
                vec![
                    ("value", Arg::Number(value, 0)),
                    ("low", Arg::Count(low.into())),
                    ("high", Arg::Number(high, 0)),
                    ("part", Arg::from(name)),
                    ("why", Arg::Text(if grown { "grown" } else { "cut" }.into())),
                    ("leaf", Arg::Count(i64::from(low) - i64::from(grown))),
                ],
            ));
        }
        let what = "measure-leaf";
        let leaf = within(Where::Row, what, Quantity::Count, value, (1.0, high))?;
        let found = Row {
            leaf: leaf as u8,
            ..(*self.found).clone()
        };
        let out = Plan {
            found: Arc::new(found),
            ..self.clone()
        };
        let (was, now) = (self.found_windows(), out.found_windows());
        let (was, now): (Vec<Moment>, Vec<Moment>) = (was.collect(), now.collect());
        Ok(out.with_found_windows_moved(&was, &now))
    }
}
