//! How much of last year's growth is tipped, tree by tree. Tipping acts on the harvest after the coming one: it is to leave each fruit of
//! that its leaf, within what is usual; what tipping can't do is left to thinning by hand.

use crate::arrange::{Arrange, Gather};
use crate::fruit::LEAF_OF_A_FRUIT;
use crate::plan::{Counted, Phase, Plan, Replayed, Replayer, RowYears, Years};
use crate::refusal::Refusal;
use crate::row::{Kind, Moment, Shoot, TreeId};
use crate::said::{Arg, Said};
use crate::sorted::Map;
use crate::work::Work;

/// From and to what share of last year's growth is tipped, per cent: common practice, published for precocious stock.
pub const PERCENT: (i32, i32) = (15, 30);
/// How finely shares are told apart at first, per cent; what is enough then is told apart by one.
const STEP: i32 = 3;
/// Of what is tipped already less than this is left.
const WHOLE: f64 = 0.95;

/// What is advised for one tree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tip {
    /// The tree.
    pub tree: TreeId,
    /// Share of last year's growth, per cent; 0 where its fruit has its leaf without tips.
    pub percent: i32,
    /// Leaf of a fruit in the harvest after the coming one, cm², without tips and with them; 0 of a tree without fruit.
    pub leaf_of_a_fruit: (f64, f64),
    /// Share of that harvest's fruit, 0 to 1, that is still too many: to be thinned by hand.
    pub by_hand: f64,
}

/// Tips of a winter for a row.
#[derive(Clone, Debug)]
pub struct Tips {
    /// The harvest that they act on, by its leaf.
    pub harvest: u8,
    /// What was counted on buds: what tells of the harvest has a part in the shares.
    pub counted: TipCounts,
    /// Tree by tree, from left to right; trees without growth of last year are left out.
    pub trees: Vec<Tip>,
    /// The work.
    pub work: Vec<Work>,
    /// The plan with it in the place of the window's other tips.
    pub plan: Plan,
}

/// What was counted on buds for the harvest before a winter's tips act, and for that on which they act.
#[derive(Clone, Debug)]
pub struct TipCounts([Option<Counted>; 2]);

impl TipCounts {
    /// Of the tips in the winter before a leaf.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(plan: &Plan, scheme: usize, leaf: u8) -> Result<Self, Refusal> {
        let of = |leaf| plan.counted(scheme, leaf);
        Ok(Self([of(leaf)?, of(harvest(leaf))?]))
    }

    /// What they have to do with the shares; `None` where nothing was counted.
    pub fn said(&self) -> Option<Said> {
        let [coming, after] = &self.0;
        let leaf = |c: &Counted| vec![("leaf", Arg::Count(c.leaf.into()))];
        match (coming, after) {
            (_, Some(after)) => Some(Said::new("counted-tips", leaf(after))),
            (Some(coming), None) => Some(Said::new("counted-no-tips", leaf(coming))),
            (None, None) => None,
        }
    }
}

/// The harvest on which tips in the winter before a leaf act.
fn harvest(leaf: u8) -> u8 {
    leaf.saturating_add(1).min(Plan::MAX_LEAF)
}

fn is_whole(shoot: &Shoot, leaf: u8) -> bool {
    let last = shoot.units.last();
    let whole = last.is_some_and(|u| u.leaf + 1 == leaf && u.kept > WHOLE * u.grown);
    whole && shoot.kind() == Kind::Upright
}

/// The tips that bring each tree's fruit to its leaf.
///
/// # Errors
/// No such scheme; a moment before the row was found or after the last leaf.
pub fn tips(plan: &Plan, scheme: usize, leaf: u8) -> Result<Tips, Refusal> {
    let moment = Moment::dormant(leaf);
    let harvest = harvest(leaf);
    let start = plan.with_works(scheme, moment, Vec::new())?;
    let is_tip = |w: &Work| matches!(w, Work::Tip { .. });
    let bare = start.without_work(scheme, moment, is_tip)?;
    let at = Replayer::default().at(&bare, scheme, moment, Phase::After)?;
    let mut years = Years::default();
    let without = years.of(&bare, scheme, harvest)?;
    let shares = (PERCENT.0..=PERCENT.1).step_by(STEP as usize);
    let mut tried: Vec<(i32, RowYears)> = Vec::new();
    for percent in shares {
        let all = with(&bare, scheme, moment, &works(&at, &|_| Some(percent)));
        tried.push((percent, years.of(&all, scheme, harvest)?));
    }
    let of = |years: &RowYears, i: usize| {
        let last = years.leaves.len().checked_sub(1);
        let year = last.and_then(|last| years.trees.get(i)?.years.get(last));
        year.map_or(0.0, |y| y.crop.leaf_of_a_fruit)
    };
    let enough = |leaf: f64| leaf <= 0.0 || leaf >= LEAF_OF_A_FRUIT;
    let mut told: Vec<(usize, TreeId, (i32, f64))> = Vec::new();
    for (i, tree) in plan.found.trees.iter().enumerate() {
        let has = at.row.tree(tree.id);
        if !has.is_some_and(|t| t.shoots.iter().any(|s| is_whole(s, leaf))) {
            continue;
        }
        // What has its leaf without tips is not tipped for it: that would cost crop for nothing.
        let by = |(percent, years): &(i32, RowYears)| (*percent, of(years, i));
        let whole = std::iter::once((0, of(&without, i)));
        let all = whole.chain(tried.iter().map(by));
        let best = all.clone().find(|(_, leaf)| enough(*leaf));
        told.extend(best.or(all.last()).map(|best| (i, tree.id, best)));
    }
    // Each of its own share, by so much less: the least that is enough stays.
    for less in (1..STEP).rev() {
        let finer = |(_, tree, (percent, leaf)): &(usize, TreeId, (i32, f64))| {
            let coarse = (percent - PERCENT.0) % STEP == 0;
            let less = percent - less;
            (coarse && less > PERCENT.0 && enough(*leaf)).then_some((*tree, less))
        };
        let shares: Map<TreeId, i32> = told.iter().filter_map(finer).gathered_map();
        let all = works(&at, &|tree| shares.get(&tree).copied());
        let years = years.of(&with(&bare, scheme, moment, &all), scheme, harvest)?;
        for (i, tree, best) in &mut told {
            if let Some(percent) = shares.get(tree)
                && enough(of(&years, *i))
            {
                *best = (*percent, of(&years, *i));
            }
        }
    }
    let mut chosen: Map<TreeId, i32> = Map::new();
    let mut trees = Vec::new();
    for (i, tree, (percent, leaf)) in told {
        if percent > 0 {
            chosen.insert(tree, percent);
        }
        trees.push(Tip {
            tree,
            percent,
            leaf_of_a_fruit: (of(&without, i), leaf),
            by_hand: match enough(leaf) {
                true => 0.0,
                false => 1.0 - leaf / LEAF_OF_A_FRUIT,
            },
        });
    }
    let work = works(&at, &|tree| chosen.get(&tree).copied());
    let plan = with(&bare, scheme, moment, &work);
    Ok(Tips {
        harvest,
        counted: TipCounts::of(&plan, scheme, leaf)?,
        trees,
        work,
        plan,
    })
}

/// Every whole upright of last year's growth tipped by what a tree is given.
fn works(at: &Replayed, percent: &dyn Fn(TreeId) -> Option<i32>) -> Vec<Work> {
    let mut out = Vec::new();
    for tree in &at.row.trees {
        let Some(percent) = percent(tree.id) else {
            continue;
        };
        let whole = tree.shoots.iter().filter(|s| is_whole(s, at.moment.leaf));
        out.extend(whole.map(|s| Work::Tip {
            tree: tree.id,
            shoot: s.id,
            percent,
        }));
    }
    out.arrange_by_key(Work::subject);
    out
}

/// The plan with work done; a piece that can't be is left out.
fn with(plan: &Plan, scheme: usize, moment: Moment, works: &[Work]) -> Plan {
    if let Ok(all) = plan.with_works(scheme, moment, works.to_vec()) {
        return all;
    }
    works.iter().fold(plan.clone(), |plan, work| {
        plan.with_work(scheme, moment, work.clone()).unwrap_or(plan)
    })
}
