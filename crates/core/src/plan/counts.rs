//! What was counted on the buds of some trees in a winter: fruit buds, flowers in them, and buds that are dead.

use super::Plan;
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row::TreeId;
use crate::said::Arg;

/// What was counted on one tree before a leaf grew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BudCount {
    /// The leaf that the buds open in.
    pub leaf: u8,
    /// The tree.
    pub tree: TreeId,
    /// Spur by spur, in the order in which they were counted.
    pub spurs: Vec<SpurCount>,
}

/// What was counted on one spur.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SpurCount {
    /// Its fruit buds, dead ones among them.
    pub buds: u8,
    /// The flowers in one bud that was cut open, where one was.
    pub flowers: Option<u8>,
    /// How many of its fruit buds are dead.
    pub dead: u8,
}

impl SpurCount {
    /// Fewest and most fruit buds on a spur.
    pub const BUDS: Range = (0.0, 60.0);
    /// Fewest and most flowers in a bud.
    pub const FLOWERS: Range = (0.0, 20.0);

    /// Of numbers as they were typed.
    ///
    /// # Errors
    /// A number out of its range.
    pub fn of(buds: f64, dead: f64, flowers: Option<f64>) -> Result<Self, Refusal> {
        within("count-buds", buds, Self::BUDS)?;
        within("count-dead", dead, (0.0, buds))?;
        if let Some(flowers) = flowers {
            within("count-flowers", flowers, Self::FLOWERS)?;
        }
        Ok(Self {
            buds: buds as u8,
            flowers: flowers.map(|f| f as u8),
            dead: dead as u8,
        })
    }
}

impl BudCount {
    /// Most that a plan holds.
    pub const MAX: usize = 2_000;
    /// Most spurs that are counted on one tree.
    pub const MAX_SPURS: usize = 200;
}

impl Plan {
    /// What was counted on trees before a leaf grew, in order of their numbers.
    pub fn counts_of(&self, leaf: u8) -> impl Iterator<Item = &BudCount> {
        self.counts.iter().filter(move |c| c.leaf == leaf)
    }

    /// The plan with what was counted on a tree before a leaf grew, in the place of what was; no spurs take it away.
    ///
    /// # Errors
    /// No such tree; a leaf before the found one or after the last; more than a plan or a tree holds; a number out of its range.
    pub fn with_count(&self, count: &BudCount) -> Result<Plan, Refusal> {
        let key = |c: &BudCount| (c.leaf, c.tree);
        let mut out = self.clone();
        let at = out.counts.binary_search_by_key(&key(count), key);
        if count.spurs.is_empty() {
            if let Ok(at) = at {
                out.counts.remove(at);
            }
            return Ok(out);
        }
        if !self.knows(count.tree) {
            let args = vec![("tree", Arg::Count(count.tree.0.into()))];
            return Err(Refusal::new("refusal-no-tree", args));
        }
        let leaves = (self.found.leaf.into(), Self::MAX_LEAF.into());
        within("count-leaf", count.leaf.into(), leaves)?;
        let most = (0.0, BudCount::MAX_SPURS as f64);
        within("count-spurs", count.spurs.len() as f64, most)?;
        for spur in &count.spurs {
            let flowers = spur.flowers.map(f64::from);
            SpurCount::of(spur.buds.into(), spur.dead.into(), flowers)?;
        }
        match at {
            Ok(at) => out.counts[at] = count.clone(),
            Err(at) => out.counts.insert(at, count.clone()),
        }
        within(
            "count-trees",
            out.counts.len() as f64,
            (0.0, BudCount::MAX as f64),
        )?;
        Ok(out)
    }
}

fn within(what: &'static str, value: f64, range: Range) -> Result<(), Refusal> {
    match range::has(range, value) {
        true => Ok(()),
        false => Err(Refusal::new(
            "refusal-count",
            vec![
                ("what", Arg::key(what)),
                ("value", Arg::Number(value, 0)),
                ("low", Arg::Number(range.0, 0)),
                ("high", Arg::Number(range.1, 0)),
            ],
        )),
    }
}
