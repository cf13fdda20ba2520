//! A row that is looked at for what is to be mended on it, one time of a winter after the other: what is worked out once for every
//! rule stands from one look to the next, and no rule is asked whose remedies have not come yet.

use super::seen::Seen;
use super::{
    ALL, Context, FillWay, Finding, Stage, cordon_gap, fill, in_order, leans_opposed, see_through,
};
use crate::cover::{Cover, Place};

/// The rules that speak of a bare wire: what is to come to lie there is asked before anything is cut.
const BARE: [&str; 2] = [cordon_gap::RULE, leans_opposed::RULE];

/// A row at a moment.
pub struct Mendable<'a> {
    seen: Seen<'a>,
}

impl<'a> Mendable<'a> {
    /// The row of a context.
    pub fn of(context: &Context<'a>) -> Self {
        Self {
            seen: Seen::new(context),
        }
    }

    /// How the wire is covered.
    pub fn cover(&self) -> &Cover {
        &self.seen.cover
    }

    /// The uprights from left to right.
    pub fn places(&self) -> &[Place] {
        &self.seen.places
    }

    /// What the rules find, in the order of [`check`](super::check), whose remedies are done up to that stage, and what is bare. What
    /// is seen through the wall has no remedy.
    pub fn findings(&self, until: Stage) -> Vec<Finding> {
        let asked = |rule: &str| {
            rule != see_through::RULE && (Stage::of_rule(rule) <= until || BARE.contains(&rule))
        };
        let rules = ALL.iter().filter(|(rule, _)| asked(rule));
        let mut found: Vec<Finding> = rules.flat_map(|(_, find)| find(&self.seen)).collect();
        in_order(&mut found);
        found
    }

    /// Every way in which wood of the trees beside may be laid into the row's bare stretches that are findings, from left to right.
    pub fn ways_to_fill(&self) -> Vec<FillWay> {
        fill::ways_to_fill(&self.seen)
    }
}
