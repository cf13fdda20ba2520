//! A plan with its steps as the device keeps it: one plan whole, in its file's own form, and beside it each step as what it
//! changes. So a step costs what it changed, and undo outlives the page.
//!
//! Plans are numbered from the beginning of their history; step `n` is between plan `n - 1` and plan `n`. A step up to the
//! whole plan makes the older of the two from the newer, a later one the newer from the older: so each is read from the
//! whole plan on, and a step that is lost loses no more than what lies behind it.

use crate::helper::Update;
use cordonry::arrange::Gather;
use cordonry::file::{read_plan, write_plan};
use cordonry::plan::{Line, Plan};
use cordonry::refusal::Refusal;
use cordonry::sorted::Map;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// A step as it is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// The newer of its two plans.
    pub number: u32,
    /// The text that names it.
    pub label: String,
    /// What makes the one plan of the other.
    pub update: Update,
}

/// What has to be written so that the device keeps a history as it is. All of it, or nothing.
#[derive(Clone, Debug)]
pub struct Writing {
    /// The plan that is kept whole from now on, its number and its file's text; none where it is the same as before.
    pub whole: Option<(u32, String)>,
    /// Steps to be put.
    pub steps: Vec<Step>,
    /// The first and the last step that are kept; others go. None is kept where the first is beyond the last.
    pub kept: (u32, u32),
    /// The plan that is on the desk.
    pub now: u32,
}

/// What the device keeps, once all that was given to be written is written.
#[derive(Clone, Debug, Default)]
pub struct Journal {
    whole: u32,
    /// Length of the whole plan's text.
    weight: usize,
    plans: Map<u32, Arc<Plan>>,
    /// Of each step the plan that it begins from, and its length.
    steps: Map<u32, (u32, usize)>,
}

impl Journal {
    /// Steps that are kept to either side of the plan on the desk.
    pub const MOST: u32 = 100;
    /// Steps that are kept to either side whatever they weigh.
    pub const LEAST: u32 = 50;
    /// What all steps may weigh before those beyond the least go, bytes. No source.
    pub const BYTES: usize = 4_000_000;
    /// What may stand beside a small plan before it is written whole again, bytes. No source.
    const BESIDE: usize = 16_000;

    /// What makes the device keep a history as it is.
    pub fn write(&mut self, line: &Line) -> Writing {
        let now = line.now();
        let mut first = now.saturating_sub(Self::MOST).max(line.first);
        let mut last = now.saturating_add(Self::MOST).min(line.last());
        let plan = |number: u32| line.plan(number).filter(|_| number >= first);
        let is_held = |number: u32| match (self.plans.get(&number), plan(number)) {
            (Some(held), Some(plan)) => Arc::ptr_eq(held, plan),
            _ => false,
        };
        let beside: usize = self.steps.range(self.whole + 1..).map(|s| s.1.1).sum();
        let stays = is_held(self.whole) && self.whole <= last;
        let stays = stays && beside <= self.weight.max(Self::BESIDE);
        let mut whole = None;
        let at = if stays { self.whole } else { now };
        if !stays && let Some(plan) = plan(now) {
            let text = write_plan(plan);
            self.weight = text.len();
            whole = Some((now, text));
        }
        let mut steps = Vec::new();
        let mut sizes = Map::new();
        for number in first + 1..=last {
            let (from, to) = match number <= at {
                true => (number, number - 1),
                false => (number - 1, number),
            };
            let kept = self.steps.get(&number).filter(|s| s.0 == from);
            if let Some(kept) = kept
                && is_held(from)
                && is_held(to)
            {
                sizes.insert(number, *kept);
            } else if let (Some(old), Some(new)) = (plan(from), plan(to)) {
                let update = Update::between(to, (from, old), new);
                sizes.insert(number, (from, update.bytes()));
                steps.push(Step {
                    number,
                    label: line.label(number).to_string(),
                    update,
                });
            }
        }
        let mut all: usize = sizes.values().map(|s| s.1).sum();
        let size = |number: u32| sizes.get(&number).map_or(0, |s| s.1);
        while all > Self::BYTES && now - first > Self::LEAST && first < at {
            first += 1;
            all -= size(first);
        }
        while all > Self::BYTES && last - now > Self::LEAST && last > at {
            all -= size(last);
            last -= 1;
        }
        steps.retain(|s| s.number > first && s.number <= last);
        sizes.retain(|number, _| *number > first && *number <= last);
        self.whole = at;
        self.steps = sizes;
        self.plans = (first..=last)
            .filter_map(|number| Some((number, Arc::clone(line.plan(number)?))))
            .gathered_map();
        Writing {
            whole,
            steps,
            kept: (first + 1, last),
            now,
        }
    }

    /// Something could not be written: nothing of what the device keeps is counted on, and all is written anew.
    pub fn forget(&mut self) {
        *self = Self::default();
    }

    /// Reads what the device keeps: the history, as far as it can be read, and the journal that goes on with it. The plan
    /// on the desk is the one of the number `now`, or the nearest to it that can be read.
    ///
    /// # Errors
    /// The whole plan can't be read.
    pub fn open(
        (whole, text): (u32, &str),
        steps: Vec<Step>,
        now: u32,
    ) -> Result<(Line, Self), Refusal> {
        let plan = Arc::new(read_plan(text.as_bytes())?);
        let mut plans = Map::from([(whole, plan)]);
        let mut held = Map::new();
        let mut labels = Map::new();
        let mut steps = steps.into_iter().map(|s| (s.number, s)).gathered_map();
        let mut read = |number: u32, from: u32, to: u32| {
            let step = steps.remove(&number)?;
            let base = plans.get(&from)?;
            let plan = step.update.onto(Some((from, base)))?.ok()?;
            held.insert(number, (from, step.update.bytes()));
            labels.insert(number, step.label);
            plans.insert(to, Arc::new(plan));
            Some(())
        };
        let mut first = whole;
        while first > 0 && read(first, first, first - 1).is_some() {
            first -= 1;
        }
        let mut last = whole;
        while last < u32::MAX && read(last + 1, last, last + 1).is_some() {
            last += 1;
        }
        let journal = Self {
            whole,
            weight: text.len(),
            plans: plans.clone(),
            steps: held,
        };
        let line = Line {
            first,
            plans: plans.into_values().collect(),
            labels: labels.into_values().collect(),
            at: (now.clamp(first, last) - first) as usize,
        };
        Ok((line, journal))
    }
}
