//! What stands around the trees as a scheme goes on: the trellis after each moment's work on it, and the terms under it.

use super::void::VoidWork;
use super::{Moment, Phase, Plan, Schedule};
use crate::arrange::Arrange;
use crate::row::Trellis;
use crate::terms::{Stand, Terms};
use crate::work::apply_to_trellis;

/// A trellis and the terms under it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Frame {
    pub trellis: Trellis,
    pub terms: Terms,
}

/// The frames of a scheme from the plan's start on.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Frames {
    /// That of the found row first, then those after each moment with work on the trellis.
    frames: Vec<(Moment, Frame)>,
    void: Vec<VoidWork>,
}

impl Frames {
    /// Of a scheme that lets trees bear from a leaf on, under its schedule or another.
    pub fn new(plan: &Plan, crop_from: Option<u8>, schedule: &Schedule) -> Self {
        let frame = |trellis: Trellis| {
            let mut terms = plan.terms(&trellis);
            terms.stand.crop_from = crop_from.unwrap_or(Stand::CROP_FROM);
            Frame { trellis, terms }
        };
        let found = frame(plan.found.trellis.clone());
        let mut trellis = found.trellis.clone();
        let mut out = Self {
            frames: vec![(plan.start(), found)],
            void: Vec::new(),
        };
        let work = schedule.on(None).map_or(&[][..], |w| w);
        for batch in work.iter().filter(|b| b.moment >= plan.start()) {
            for work in batch.work.iter() {
                match apply_to_trellis(&trellis, work) {
                    Ok(changed) => trellis = changed,
                    Err(why) => out.void.push(VoidWork {
                        moment: batch.moment,
                        work: work.clone(),
                        why,
                    }),
                }
            }
            out.frames.push((batch.moment, frame(trellis.clone())));
        }
        out
    }

    /// The frame before or after the work of a moment.
    pub fn at(&self, moment: Moment, phase: Phase) -> &Frame {
        // The first stands from the start on, before that moment's work.
        let rest = &self.frames[1..];
        let past = match phase {
            Phase::Before => rest.partition_point(|(m, _)| *m < moment),
            Phase::After => rest.partition_point(|(m, _)| *m <= moment),
        };
        &self.frames[past].1
    }

    /// Work on the trellis that touched nothing by then.
    pub fn void(&self, moment: Moment, phase: Phase) -> impl Iterator<Item = VoidWork> {
        let past = move |v: &&VoidWork| match phase {
            Phase::Before => v.moment < moment,
            Phase::After => v.moment <= moment,
        };
        self.void.iter().filter(past).cloned()
    }

    /// The first state whose terms are not those of `other`, which begins at the same moment; `None` where they never differ.
    pub fn first_change(&self, other: &Self) -> Option<(Moment, Phase)> {
        let frames = self.frames.iter().chain(&other.frames);
        let mut states: Vec<(Moment, Phase)> = frames.map(|(m, _)| (*m, Phase::After)).collect();
        states.arrange();
        // What the found row stands under counts before any work.
        let start = states.first().map(|(m, _)| (*m, Phase::Before));
        let differ =
            |(m, phase): &(Moment, Phase)| self.at(*m, *phase).terms != other.at(*m, *phase).terms;
        start.into_iter().chain(states).find(differ)
    }
}
