//! What was found and is left as it is for a year, with the reason why.

use super::Plan;
use crate::range;
use crate::refusal::Refusal;
use crate::row::{ShootId, TreeId};
use crate::said::Arg;
use crate::units::Mm;

/// What is left in one leaf. In the next it is found again.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// The leaf in which it is left.
    pub leaf: u8,
    /// The name of what it comes from.
    pub cause: String,
    /// Why it is left, as the user wrote it.
    pub reason: String,
    /// All that was found of it.
    pub spots: Vec<LeftSpot>,
}

/// One thing that was found, as it was when it was left: what has changed since is found again.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftSpot {
    /// The rule by which.
    pub rule: String,
    /// Where along the row.
    pub x: Mm,
    /// The tree, and the shoot of it, that it is about first.
    pub part: Option<(TreeId, Option<ShootId>)>,
    /// How many parts it is about.
    pub parts: u32,
    /// What was measured, in the limit's unit, to a thousandth.
    pub measured: f64,
}

impl LeftSpot {
    /// Places nearer to each other than this, mm, are the same.
    const PLACE: i32 = 10;
    /// Measures that differ by less than this share are the same.
    const SHARE: f64 = 0.01;

    /// What was found by a rule at a place, with what was measured there.
    pub fn new(
        rule: &str,
        (x, measured): (f64, f64),
        part: Option<(TreeId, Option<ShootId>)>,
        parts: usize,
    ) -> Self {
        Self {
            rule: rule.into(),
            x: Mm::round(x.clamp(range::PLACE.0, range::PLACE.1)),
            part,
            parts: u32::try_from(parts)
                .unwrap_or(u32::MAX)
                .min(Self::MAX_PARTS),
            measured: libm::round(measured * 1e3) / 1e3,
        }
    }

    /// Most parts that one finding is about.
    pub const MAX_PARTS: u32 = 1_000_000;
    /// Longest name of a rule, in characters.
    pub const MAX_RULE: usize = 60;

    /// Whether the same is still found.
    pub fn is_still(&self, now: &Self) -> bool {
        let off = (self.measured - now.measured).abs();
        self.rule == now.rule
            && (self.part, self.parts) == (now.part, now.parts)
            && (self.x.0 - now.x.0).abs() < Self::PLACE
            && off <= Self::SHARE * self.measured.abs().max(now.measured.abs())
    }
}

impl Left {
    /// Longest reason, in characters.
    pub const MAX_REASON: usize = 400;
    /// Most that a plan leaves.
    pub const MAX: usize = 400;
    /// Most that is found of one matter.
    pub const MAX_SPOTS: usize = 40_000;
}

impl Plan {
    /// The plan with something left.
    ///
    /// # Errors
    /// No reason, or one that is too long; more than a plan leaves.
    pub fn with_left(&self, left: &Left) -> Result<Plan, Refusal> {
        let reason = left.reason.trim();
        let long = reason.chars().count();
        if long == 0 || long > Left::MAX_REASON {
            return Err(Refusal::new(
                "refusal-left-reason",
                vec![
                    ("value", Arg::Count(long as i64)),
                    ("high", Arg::Count(Left::MAX_REASON as i64)),
                ],
            ));
        }
        let mut plan = self.clone();
        if plan.left.len() >= Left::MAX || left.spots.len() > Left::MAX_SPOTS {
            return Err(Refusal::new(
                "refusal-left-many",
                vec![("high", Arg::Count(Left::MAX as i64))],
            ));
        }
        plan.left.push(Left {
            reason: reason.into(),
            ..left.clone()
        });
        Ok(plan)
    }

    /// Why what comes of a cause was left last in a leaf, nothing where it was not.
    pub fn why_left(&self, cause: &str, leaf: u8) -> &str {
        let mut last = self.left.iter().rev();
        let same = last.find(|l| l.leaf == leaf && l.cause == cause);
        same.map_or("", |l| &l.reason)
    }

    /// The plan with what stands at a place among all that is left taken up again.
    pub fn without_left(&self, place: usize) -> Plan {
        let mut plan = self.clone();
        if place < plan.left.len() {
            plan.left.remove(place);
        }
        plan
    }
}
