//! What each tree does in each leaf under a scheme, worked out tree by tree: an edit works out one tree anew.

use super::counted::{Bearing, Trees};
use super::frames::Frames;
use super::replay::Cast;
use super::schedule::OnTree;
use super::tipped::Begun;
use super::walk::Walk;
use super::{Moment, Phase, Plan, Window};
use crate::cover::{Laid, laid_of};
use crate::fruit::{Crop, fruit};
use crate::pose::Posed;
use crate::refusal::Refusal;
use crate::row::{Pose, Role, ShootId, Targets, Tree, TreeId};
use crate::sorted::Map;
use crate::terms::Stand;
use crate::work::Work;
use std::sync::Arc;

/// Work of a leaf by the name of its kind, with how many pieces there are of each.
pub type WorkCount = Map<&'static str, u32>;

/// Ages of uprights that are counted apart; older ones count as the last.
pub const AGES: usize = 8;

/// One leaf of one tree. Of a tree that is lost all is 0.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TreeYear {
    /// Its crop, read after the early-summer work, and the season's leaf.
    pub crop: Crop,
    /// Uprights of the wall before the after-harvest work.
    pub uprights: usize,
    /// Their lengths together, mm.
    pub length: f64,
    /// Its laid wood before the after-harvest work.
    pub laid: Vec<Laid>,
    /// Age of its oldest upright before the dormant work, completed seasons.
    pub oldest: u8,
    /// How many uprights there are then of each age from 1 on; the last holds the older too.
    pub ages: [u32; AGES],
    /// Age of the oldest wood that this winter's work cut to a stub.
    pub cut: u8,
    /// The work on it, planned or standing.
    pub work: WorkCount,
}

/// A row's trees, leaf by leaf from the found one on.
#[derive(Clone, Debug, Default)]
pub struct RowYears {
    /// What each leaf is for all of them.
    pub leaves: Vec<RowYear>,
    /// The places for trees, lost ones among them, in the order of the found row, those planted later last.
    pub trees: Vec<PlaceYears>,
}

/// A leaf of the row.
#[derive(Clone, Debug)]
pub struct RowYear {
    /// The leaf.
    pub leaf: u8,
    /// The room of each tree then.
    pub stand: Stand,
    /// Work on the trellis.
    pub wires: WorkCount,
}

/// What is on one place for a tree.
#[derive(Clone, Debug)]
pub struct PlaceYears {
    /// From this leaf on it is a place of the row.
    pub from: u8,
    /// Its tree, leaf by leaf from the found one on, at least as many as the row's.
    pub years: Arc<[TreeYear]>,
}

impl PlaceYears {
    /// Whether it is the very same as another one.
    pub fn is(&self, other: &Self) -> bool {
        self.from == other.from && Arc::ptr_eq(&self.years, &other.years)
    }
}

/// Works years out and keeps what it did, tree by tree. It gives what a new one gives, sooner.
#[derive(Clone, Debug, Default)]
pub struct Years {
    schemes: Vec<Kept>,
    begun: Begun,
}

/// What is kept of one scheme.
#[derive(Clone, Debug, Default)]
struct Kept {
    frames: Option<Arc<Frames>>,
    trees: Map<TreeId, Known>,
}

#[derive(Clone, Debug)]
struct Known {
    found: Arc<Tree>,
    work: OnTree,
    frames: Arc<Frames>,
    /// The limits by which laid wood counts.
    targets: Arc<Targets>,
    bearing: Bearing,
    start: Moment,
    years: Arc<[TreeYear]>,
}

impl Years {
    /// The years from the found leaf to the leaf `last`, both included; none where that is before it.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(&mut self, plan: &Plan, scheme: usize, last: u8) -> Result<RowYears, Refusal> {
        self.bearing(plan, scheme, last, None)
    }

    /// As [`Self::of`], where the spurs of one leaf bear so much against the model's, whatever was counted.
    pub(crate) fn bearing(
        &mut self,
        plan: &Plan,
        scheme: usize,
        last: u8,
        told: Option<(u8, f64)>,
    ) -> Result<RowYears, Refusal> {
        let number = scheme;
        let scheme = plan.scheme(number)?;
        let last = last.min(Plan::MAX_LEAF);
        self.schemes.resize_with(plan.schemes.len(), Kept::default);
        let kept = &mut self.schemes[number];
        let frames = Frames::kept(plan, scheme, &mut kept.frames);
        let (start, idle) = (plan.start(), OnTree::default());
        let harvest = |leaf| Moment {
            leaf,
            window: Window::AfterHarvest,
        };
        let begun = self.begun.trees(plan);
        let cast = Cast::new(plan, begun, scheme, harvest(last), Phase::After);
        let mut bearing = Trees {
            plan,
            scheme,
            frames: &frames,
            begun: cast.trees(),
        }
        .bearing(last);
        if let Some((leaf, factor)) = told {
            bearing.insert(leaf, factor);
        }
        let count = (usize::from(last) + 1).saturating_sub(usize::from(start.leaf));
        let mut trees = Vec::new();
        for (i, found) in cast.trees().iter().enumerate() {
            let work = scheme.schedule.on(Some(found.id)).unwrap_or(&idle);
            let known = kept.trees.get(&found.id).filter(|known| {
                known.start == start
                    && known.years.len() >= count
                    && (Arc::ptr_eq(&known.found, found) || known.found == *found)
                    && (Arc::ptr_eq(&known.work, work) || known.work == *work)
                    && Arc::ptr_eq(&known.frames, &frames)
                    && known.bearing == bearing
                    && (Arc::ptr_eq(&known.targets, &plan.targets) || known.targets == plan.targets)
            });
            let years = match known {
                Some(known) => Arc::clone(&known.years),
                None => {
                    let years = tree_years(plan, &frames, found, work, &bearing, last);
                    let known = Known {
                        found: Arc::clone(found),
                        work: Arc::clone(work),
                        frames: Arc::clone(&frames),
                        targets: Arc::clone(&plan.targets),
                        bearing: bearing.clone(),
                        start,
                        years: Arc::clone(&years),
                    };
                    kept.trees.insert(found.id, known);
                    years
                }
            };
            // A place that is planted later is none before.
            let from = match i < plan.found.trees.len() {
                true => start.leaf,
                false => work.iter().map(|b| b.moment.leaf).min().unwrap_or(last),
            };
            trees.push(PlaceYears { from, years });
        }
        if kept.trees.len() > trees.len() {
            kept.trees
                .retain(|id, _| cast.has(*id) || scheme.schedule.on(Some(*id)).is_some());
        }
        let leaves = (start.leaf..=last).map(|leaf| RowYear {
            leaf,
            stand: frames.at(harvest(leaf), Phase::Before).terms.stand,
            wires: counted(frames.done_in(leaf)),
        });
        Ok(RowYears {
            leaves: leaves.collect(),
            trees,
        })
    }
}

/// How many there are of each.
fn counted(kinds: impl Iterator<Item = &'static str>) -> WorkCount {
    let mut out = WorkCount::new();
    for kind in kinds {
        *out.entry(kind).or_default() += 1;
    }
    out
}

/// The years of one tree.
fn tree_years(
    plan: &Plan,
    frames: &Frames,
    found: &Arc<Tree>,
    work: &OnTree,
    bearing: &Bearing,
    last: u8,
) -> Arc<[TreeYear]> {
    let mut walk = Walk::new(Arc::clone(found), work);
    (plan.start().leaf..=last)
        .map(|leaf| tree_year(&mut walk, plan, frames, bearing, leaf))
        .collect()
}

/// Ages of a tree's uprights before a leaf, completed seasons.
fn ages(tree: &Tree, leaf: u8) -> Vec<(ShootId, u8)> {
    let age = |born: u8| leaf.saturating_sub(born);
    let roled = tree.shoots.iter().zip(tree.roles());
    let uprights = roled.filter(|(_, role)| *role == Role::Upright);
    uprights
        .map(|(shoot, _)| shoot)
        .filter_map(|s| Some((s.id, age(s.born()?))))
        .collect()
}

/// One leaf of a tree that has come as far.
fn tree_year(
    walk: &mut Walk<'_>,
    plan: &Plan,
    frames: &Frames,
    bearing: &Bearing,
    leaf: u8,
) -> TreeYear {
    let mut out = TreeYear::default();
    let mut kinds: Vec<&'static str> = Vec::new();
    let mut fruit_set = 0.0;
    for window in Window::ALL {
        let moment = Moment { leaf, window };
        walk.grow(frames, moment);
        let before = match window {
            Window::Dormant => ages(&walk.tree, leaf),
            _ => Vec::new(),
        };
        if window == Window::AfterHarvest {
            let terms = &frames.at(moment, Phase::Before).terms;
            out.crop = Crop::of(fruit_set, &walk.tree, leaf, terms);
            let posed = Posed::new(Arc::clone(&walk.tree), terms.geometry);
            let uprights = posed.uprights();
            out.uprights = uprights.len();
            let lengths = uprights.iter().map(|i| walk.tree.shoots[*i].length());
            out.length = lengths.sum();
            out.laid = laid_of(&walk.tree, posed.courses(), terms.geometry, &plan.targets);
        }
        walk.work_telling(frames, moment, &mut |work: &Work| kinds.push(work.kind()));
        if window == Window::Dormant {
            out.oldest = before.iter().map(|(_, age)| *age).max().unwrap_or(0);
            for (_, age) in &before {
                out.ages[usize::from(*age).clamp(1, AGES) - 1] += 1;
            }
            let is_stub = |id: ShootId| walk.tree.shoot(id).is_some_and(|s| s.pose == Pose::Stub);
            let cut = before.iter().filter(|(id, _)| is_stub(*id));
            out.cut = cut.map(|(_, age)| *age).max().unwrap_or(0);
        }
        if window == Window::EarlySummer {
            let terms = &frames.at(moment, Phase::After).terms;
            fruit_set = match bearing.get(&leaf) {
                Some(factor) => fruit(&walk.tree, leaf, &terms.with_spurs(*factor)),
                None => fruit(&walk.tree, leaf, terms),
            };
        }
    }
    out.work = counted(kinds.into_iter());
    out
}
