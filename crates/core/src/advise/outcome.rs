//! What advice costs and what it brings.

use crate::arrange::arrange_numbers;
use crate::check::{Context, survey};
use crate::forecast::{DRAWS, Forecast, LeafFigures, drawn, few_trees, percentile};
use crate::light::{Foliage, Period, caught};
use crate::plan::{Phase, Plan, Replayer};
use crate::refusal::Refusal;
use crate::row::{Moment, TreeId, Window};
use crate::work::Work;
use std::sync::Arc;

/// What work costs, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cost {
    /// Cuts; what is taken off one shoot in one go is one.
    pub cuts: usize,
    /// Shoots that are bent and tied.
    pub ties: usize,
    /// Buds that are kept, moved or notched, and shoots whose buds are rubbed out.
    pub buds: usize,
    /// Wires that are stretched, moved, covered or taken down.
    pub wires: usize,
    /// Minutes for one person, from memory.
    pub minutes: f64,
}

impl Cost {
    /// Of some work by the crew of a plan.
    pub fn of(works: &[&Work], plan: &Plan) -> Self {
        let posts = plan.found.trellis.posts.len();
        let mut out = Self {
            minutes: plan.hands.rates.minutes(works.iter().copied(), posts),
            ..Self::default()
        };
        for work in works {
            match work {
                Work::Lay { .. } | Work::Stand { .. } | Work::Plant { .. } => out.ties += 1,
                Work::KeepBud { .. }
                | Work::Notch { .. }
                | Work::MoveBud { .. }
                | Work::RubOut { .. } => out.buds += 1,
                Work::AddWire { .. }
                | Work::MoveWire { .. }
                | Work::RemoveWire { .. }
                | Work::CoverWire { .. } => out.wires += 1,
                Work::ReplaceTree { .. } => {
                    out.cuts += 1;
                    out.ties += 1;
                }
                Work::CutBack { .. }
                | Work::CutToBuds { .. }
                | Work::Stub { .. }
                | Work::Remove { .. }
                | Work::RemoveTree { .. }
                | Work::Thin { .. }
                | Work::TakeLaterals { .. }
                | Work::Tip { .. }
                | Work::HoldHeight { .. } => out.cuts += 1,
            }
        }
        out
    }
}

/// Leaves over which advice is weighed, the one that it is for first.
pub const LEAVES: u8 = 5;

/// What a row brings over the coming leaves, by the model of the seasons.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Brought {
    /// Crop of all of them together, t/ha.
    pub crop: f64,
    /// The same on the whole row, kg.
    pub kg: f64,
    /// Crop of the first of them alone, the coming harvest, t/ha.
    pub coming: f64,
    /// Share of the cordon that is filled at the end of the last, 0 to 1.
    pub fill: f64,
    /// Uprights then.
    pub uprights: usize,
    /// Standard deviation of the distances between them, over their mean.
    pub spacing: f64,
    /// Share of a clear season's light that the wall catches then, 0 to 1.
    pub light: f64,
    /// Age of the oldest upright before the dormant work of any of these leaves after the first, which finds what stands,
    /// completed seasons.
    pub oldest: u8,
}

impl Brought {
    /// By a scheme from a leaf on.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(plan: &Plan, scheme: usize, leaf: u8) -> Result<Self, Refusal> {
        GainDraws::new(plan, plan, scheme, leaf).brought(plan)
    }

    /// So many t/ha on the whole row, kg.
    fn kg_of(&self, crop: f64) -> f64 {
        match self.crop > 0.0 {
            true => crop * self.kg / self.crop,
            false => 0.0,
        }
    }
}

/// What advice changes over the coming leaves.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Gain {
    /// Without it.
    pub before: Brought,
    /// With it.
    pub after: Brought,
    /// Between what the difference of the crops lies, t/ha, in eight draws of ten of the model's values.
    pub crop: (f64, f64),
}

impl Gain {
    /// What a scheme brings from a leaf on, in one plan and in another that differs by work alone.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(before: &Plan, after: &Plan, scheme: usize, leaf: u8) -> Result<Self, Refusal> {
        let mut draws = GainDraws::new(before, after, scheme, leaf);
        loop {
            if let Some(gain) = draws.go_on(DRAWS)? {
                return Ok(gain);
            }
        }
    }

    /// The coming harvest of the whole row, kg: without and with it.
    pub fn coming_kg(&self) -> (f64, f64) {
        let of = |b: &Brought| b.kg_of(b.coming);
        (of(&self.before), of(&self.after))
    }

    /// The difference of the crops of the whole row, kg: as it is told, and between what it lies.
    pub fn kg(&self) -> (f64, f64, f64) {
        let with = self.after;
        let [low, high] = [self.crop.0, self.crop.1].map(|crop| with.kg_of(crop));
        (with.kg - self.before.kg, low, high)
    }
}

/// A gain on the way, some draws at a time: whoever has other things to answer between them can.
#[derive(Clone, Debug)]
pub struct GainDraws {
    plans: [Plan; 2],
    scheme: usize,
    leaf: u8,
    told: Vec<Brought>,
    /// Of a long row some trees stand for all: their crops without and with, t/ha.
    few: Option<([Plan; 2], f64)>,
    draws: Vec<f64>,
}

impl GainDraws {
    /// Of two plans that differ by work alone; nothing is worked out yet.
    pub fn new(before: &Plan, after: &Plan, scheme: usize, leaf: u8) -> Self {
        Self {
            plans: [before.clone(), after.clone()],
            scheme,
            leaf,
            told: Vec::new(),
            few: None,
            draws: Vec::new(),
        }
    }

    /// The trees whose fruit is told.
    pub fn trees(&self) -> Vec<TreeId> {
        let all = self.plans[1].found.trees.iter();
        all.filter(|t| !t.is_lost()).map(|t| t.id).collect()
    }

    fn last(&self) -> u8 {
        self.leaf.saturating_add(LEAVES - 1).min(Plan::MAX_LEAF)
    }

    fn leaves(&self, plan: &Plan) -> Result<Vec<LeafFigures>, Refusal> {
        Forecast::default().of(plan, self.scheme, self.last())
    }

    /// Crop of the coming leaves together, t/ha, and on the whole row, kg.
    fn crop(&self, plan: &Plan, all: &[LeafFigures]) -> (f64, f64) {
        let coming = all.iter().filter(|l| l.leaf >= self.leaf);
        let metres = (plan.found.to - plan.found.from).f() / 1000.0;
        let sum = |(t, kg): (f64, f64), l: &LeafFigures| {
            (t + l.crop_t_per_ha, kg + l.crop_kg_per_metre * metres)
        };
        coming.fold((0.0, 0.0), sum)
    }

    fn tonnes(&self, plan: &Plan) -> Result<f64, Refusal> {
        Ok(self.crop(plan, &self.leaves(plan)?).0)
    }

    fn brought(&self, plan: &Plan) -> Result<Brought, Refusal> {
        let all = self.leaves(plan)?;
        let (crop, kg) = self.crop(plan, &all);
        let harvest = Moment {
            leaf: self.last(),
            window: Window::AfterHarvest,
        };
        let at = Replayer::default().at(plan, self.scheme, harvest, Phase::Before)?;
        let foliage = Foliage::new(&at.row, &at.terms, &at.targets, 1.0);
        let season = Period::growing_season(foliage.around().site.latitude_deg);
        let end = all.last();
        let first = all.iter().find(|l| l.leaf == self.leaf);
        let later = all.iter().filter(|l| l.leaf > self.leaf);
        let ages = later.map(|l| l.wood_age_max);
        Ok(Brought {
            crop,
            kg,
            coming: first.map_or(0.0, |l| l.crop_t_per_ha),
            fill: end.map_or(0.0, |l| l.cordon_fill_share),
            uprights: end.map_or(0, |l| l.uprights),
            oldest: ages.max().or(end.map(|l| l.wood_age_max)).unwrap_or(0),
            spacing: survey(&Context::of(&at), None).figures.upright_spacing_cv,
            light: caught(&foliage, season),
        })
    }

    /// Goes on by one of the two plans, or by so many draws; the gain once there is no more to do.
    ///
    /// # Errors
    /// No such scheme.
    pub fn go_on(&mut self, many: u32) -> Result<Option<Gain>, Refusal> {
        if let Some(plan) = self.plans.get(self.told.len()) {
            let told = self.brought(plan)?;
            self.told.push(told);
            return Ok(None);
        }
        let (was, is) = (self.told[0], self.told[1]);
        if self.few.is_none() {
            let few = [few_trees(&self.plans[0]), few_trees(&self.plans[1])];
            let part = self.tonnes(&few[0])?;
            self.few = Some((few, if part > 0.0 { was.crop / part } else { 1.0 }));
        }
        if let Some((few, scale)) = &self.few {
            let done = self.draws.len() as u32;
            for draw in done..(done + many).min(DRAWS) {
                let crop = |plan| self.tonnes(&drawn(plan, draw));
                let more = crop(&few[1])? - crop(&few[0])?;
                self.draws.push(scale * more);
            }
        }
        if self.draws.len() < DRAWS as usize {
            return Ok(None);
        }
        arrange_numbers(&mut self.draws);
        let usual = is.crop - was.crop;
        let (low, high) = (percentile(&self.draws, 0.1), percentile(&self.draws, 0.9));
        Ok(Some(Gain {
            before: was,
            after: is,
            crop: (low.min(usual), high.max(usual)),
        }))
    }
}

/// Trees beside those that are worked on, over which what is laid of them may lie.
const BESIDE: usize = 2;

/// The part of a plan's row that work on some trees can tell in: they and the next ones, from foot to foot. All of it where that is no tree.
pub fn around(plan: &Plan, trees: &[TreeId]) -> Plan {
    let mut row = (*plan.found).clone();
    let own = |at: &usize| trees.contains(&row.trees[*at].id);
    let all: Vec<usize> = (0..row.trees.len()).filter(own).collect();
    let (Some(first), Some(last)) = (all.first(), all.last()) else {
        return plan.clone();
    };
    let (first, last) = (first.checked_sub(BESIDE), last + BESIDE);
    if let Some(first) = first {
        row.from = row.from.max(row.trees[first].foot);
    }
    if let Some(last) = row.trees.get(last) {
        row.to = row.to.min(last.foot);
    }
    row.trees.truncate(last + 1);
    row.trees.drain(..first.unwrap_or(0));
    Plan {
        found: Arc::new(row),
        ..plan.clone()
    }
}
