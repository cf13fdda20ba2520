//! What counted buds tell of the crop of the leaf that they open in, against what the model has on the same trees' spurs.

use super::frames::Frames;
use super::schedule::OnTree;
use super::walk::Walk;
use super::{Moment, Phase, Plan, Scheme};
use crate::canopy::Spurs;
use crate::model::Parameter::FlowersBud;
use crate::range::Range;
use crate::refusal::Refusal;
use crate::row::{Tree, TreeId};
use crate::sorted::Map;
use std::sync::Arc;

/// What was counted before a leaf grew, and what it makes of the model's spurs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted {
    /// The leaf that the buds open in.
    pub leaf: u8,
    /// Trees that were counted on, as far as they stand.
    pub trees: usize,
    /// Their spurs that were counted.
    pub spurs: usize,
    /// Fruit buds of a spur in the mean, dead ones among them.
    pub buds: f64,
    /// Share of the fruit buds that is dead, 0 to 1.
    pub dead: f64,
    /// Flowers of a bud in the mean of those that were opened; `None` where none was.
    pub flowers: Option<f64>,
    /// Fruit buds of a spur by the model, and flowers of a bud.
    pub model: (f64, f64),
    /// Living flowers of a spur as counted against the model's, within [`Self::FACTOR`].
    pub factor: f64,
    /// Between what the factor lies in eight of ten counts of as many trees and spurs; `None` of a single spur.
    pub range: Option<Range>,
    /// Whether the factor was counted outside of what it is held to.
    pub held: bool,
}

impl Counted {
    /// What a count is held to, against the model's: common practice, no source. All buds of a row can be dead; that its spurs bear more than two
    /// and a half times what the model gives them is rather a slip in counting.
    pub const FACTOR: Range = (0.0, 2.5);
}

/// By how much of a normal deviate eight in ten lie around a mean of two numbers, three and so on; later ones as the last.
const EIGHT_IN_TEN: [f64; 9] = [3.08, 1.89, 1.64, 1.53, 1.48, 1.44, 1.41, 1.40, 1.38];

/// The mean of numbers, and half of the width in which eight in ten such means lie; `None` of fewer than two.
fn mean(numbers: &[f64]) -> (f64, Option<f64>) {
    let n = numbers.len() as f64;
    let mean = numbers.iter().sum::<f64>() / n.max(1.0);
    let square = |v: &f64| (v - mean) * (v - mean);
    let half = (numbers.len() > 1).then(|| {
        let squares: f64 = numbers.iter().map(square).sum();
        let wide = EIGHT_IN_TEN[(numbers.len() - 2).min(EIGHT_IN_TEN.len() - 1)];
        wide * libm::sqrt(squares / (n - 1.0) / n)
    });
    (mean, half)
}

/// By leaf what its spurs bear against the model's.
pub(super) type Bearing = Map<u8, f64>;

/// A row's trees under a scheme, from which a counted one is walked on to the winter of its count.
pub(super) struct Trees<'p> {
    pub plan: &'p Plan,
    pub scheme: &'p Scheme,
    pub frames: &'p Frames,
    /// As work begins on them.
    pub begun: &'p [Arc<Tree>],
}

impl Trees<'_> {
    fn before(&self, id: TreeId, leaf: u8) -> Option<Arc<Tree>> {
        let found = self.begun.iter().find(|t| t.id == id)?;
        let idle = OnTree::default();
        let work = self.scheme.schedule.on(Some(id)).unwrap_or(&idle);
        let mut walk = Walk::new(Arc::clone(found), work);
        let winter = Moment::dormant(leaf);
        walk.through(self.frames, self.plan.start(), winter, Phase::Before);
        Some(walk.tree).filter(|t| !t.shoots.is_empty())
    }

    /// What was counted before a leaf grew; `None` where nothing was on trees that stand.
    pub fn counted(&self, leaf: u8) -> Option<Counted> {
        if leaf < self.plan.found.leaf {
            return None;
        }
        let a = &*self.plan.assumptions;
        let mut stand = Spurs::default();
        let (mut of_trees, mut of_spurs, mut opened) = (Vec::new(), Vec::new(), Vec::new());
        let (mut buds, mut dead) = (0.0, 0.0);
        for count in self.plan.counts_of(leaf) {
            let Some(tree) = self.before(count.tree, leaf) else {
                continue;
            };
            stand.add(&tree, leaf, a);
            let living = |s: &super::SpurCount| f64::from(s.buds) - f64::from(s.dead);
            let all: Vec<f64> = count.spurs.iter().map(living).collect();
            of_trees.push(mean(&all).0);
            of_spurs.extend(all);
            opened.extend(count.spurs.iter().filter_map(|s| s.flowers.map(f64::from)));
            for spur in &count.spurs {
                buds += f64::from(spur.buds);
                dead += f64::from(spur.dead);
            }
        }
        if of_spurs.is_empty() {
            return None;
        }
        let spurs = of_spurs.len();
        let living = mean(&of_spurs).0;
        // Spurs of one tree may be alike, and trees may come out alike by chance: the wider tells.
        let wide = mean(&of_spurs).1;
        let wide = wide.map(|spurs| spurs.max(mean(&of_trees).1.unwrap_or(0.0)));
        let (flowers, flowers_wide) = mean(&opened);
        let flowers = (!opened.is_empty()).then_some(flowers);
        let model = (stand.buds(a), a[FlowersBud]);
        let of_bud = flowers.map_or(1.0, |f| if model.1 > 0.0 { f / model.1 } else { 1.0 });
        let of_model = |living: f64| match model.0 > 0.0 {
            true => living / model.0 * of_bud,
            false => 1.0,
        };
        let (low, high) = Self::HELD;
        let factor = of_model(living);
        let range = wide.map(|wide| {
            let of_flowers = match (flowers, flowers_wide) {
                (Some(f), Some(wide)) if f > 0.0 => factor * wide / f,
                _ => 0.0,
            };
            let half = libm::hypot(of_model(wide), of_flowers);
            let held = |v: f64| v.clamp(low, high);
            (held(factor - half), held(factor + half))
        });
        Some(Counted {
            leaf,
            trees: of_trees.len(),
            spurs,
            buds: buds / spurs as f64,
            dead: if buds > 0.0 { dead / buds } else { 0.0 },
            flowers,
            model,
            factor: factor.clamp(low, high),
            range,
            held: factor > high,
        })
    }

    const HELD: Range = Counted::FACTOR;

    /// What every counted leaf up to `last` bears against the model.
    pub fn bearing(&self, last: u8) -> Bearing {
        let counts = self.plan.counts.iter().map(|c| c.leaf);
        let mut leaves: Vec<u8> = counts.filter(|leaf| *leaf <= last).collect();
        leaves.dedup();
        let told = leaves.into_iter();
        told.filter_map(|leaf| Some((leaf, self.counted(leaf)?.factor)))
            .fold(Bearing::new(), |mut all, (leaf, factor)| {
                all.insert(leaf, factor);
                all
            })
    }
}

impl Plan {
    /// What was counted on buds before a leaf grew, under a scheme; `None` where nothing was on trees that stand.
    ///
    /// # Errors
    /// No such scheme.
    pub fn counted(&self, scheme: usize, leaf: u8) -> Result<Option<Counted>, Refusal> {
        let scheme = self.scheme(scheme)?;
        if self.counts_of(leaf).next().is_none() {
            return Ok(None);
        }
        let frames = Frames::new(self, scheme, &scheme.schedule);
        let begun: Vec<Arc<Tree>> = self.found.trees.iter().map(|t| self.begins(t)).collect();
        let trees = Trees {
            plan: self,
            scheme,
            frames: &frames,
            begun: &begun,
        };
        Ok(trees.counted(leaf))
    }

    /// The plan without what was counted before a leaf grew.
    #[must_use]
    pub fn without_counts(&self, leaf: u8) -> Plan {
        let mut out = self.clone();
        out.counts.retain(|c| c.leaf != leaf);
        out
    }

    /// Trees to count on: so many of those that stand, evenly along the row.
    pub fn trees_to_count(&self, many: usize) -> Vec<TreeId> {
        let stands = |t: &&Arc<Tree>| !t.shoots.is_empty();
        let trees: Vec<TreeId> = self
            .found
            .trees
            .iter()
            .filter(stands)
            .map(|t| t.id)
            .collect();
        let many = many.min(trees.len());
        // The middle of each of so many equal stretches of the row.
        (0..many)
            .map(|i| trees[(2 * i + 1) * trees.len() / (2 * many)])
            .collect()
    }
}
