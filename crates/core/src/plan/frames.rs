//! What stands around the trees as a scheme goes on: the trellis after each moment's work on it, and the terms under it.

use super::stands::Stands;
use super::void::VoidWork;
use super::{Moment, Phase, Plan, Schedule, Scheme};
use crate::arrange::Arrange;
use crate::row::{Targets, Trellis};
use crate::standing::{Standard, wires};
use crate::terms::{Stand, Terms};
use crate::work::{Work, apply_to_trellis};
use std::sync::Arc;

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
    /// Work on the trellis that was done, by the name of its kind.
    done: Vec<(Moment, &'static str)>,
    stands: Option<Stands>,
    /// The limits by which the scheme's row is judged.
    pub targets: Arc<Targets>,
}

impl Frames {
    /// Of a scheme, under its schedule or another.
    pub fn new(plan: &Plan, scheme: &Scheme, schedule: &Schedule) -> Self {
        let frame = |trellis: Trellis| {
            let mut terms = plan.terms(&trellis);
            terms.stand.crop_from = scheme.crop_from.unwrap_or(Stand::CROP_FROM);
            Frame { trellis, terms }
        };
        let found = frame(plan.found.trellis.clone());
        let mut trellis = found.trellis.clone();
        let targets = scheme.limits(&plan.targets);
        let mut out = Self {
            frames: vec![(plan.start(), found)],
            void: Vec::new(),
            done: Vec::new(),
            stands: Stands::new(scheme, &targets),
            targets,
        };
        let stored = schedule.on(None).map_or(&[][..], |w| w);
        let batches = stored.iter().map(|b| (b.moment, &b.work[..]));
        // Wires come of themselves in winters alone.
        let winters = (plan.found.leaf..=Plan::MAX_LEAF).map(Moment::dormant);
        let standing = winters.filter(|m| out.stands(*m).is_some());
        let mut all: Vec<(Moment, &[Work])> = standing.map(|m| (m, &[][..])).collect();
        let planned = |m: &Moment| *m >= plan.start() && out.stands(*m).is_none();
        all.extend(batches.filter(|(m, _)| planned(m)));
        all.arrange_by_key(|(moment, _)| *moment);
        for (moment, stored) in all {
            let standing = out.stands(moment);
            let standing = standing.and_then(|rules| wires(&trellis, moment, rules));
            if stored.is_empty() && standing.is_none() {
                continue;
            }
            for work in stored.iter().chain(&standing) {
                match apply_to_trellis(&trellis, work) {
                    Ok(changed) => {
                        trellis = changed;
                        out.done.push((moment, work.kind()));
                    }
                    // Standing work is none where it can't be done.
                    Err(_) if standing.is_some() => {}
                    Err(why) => out.void.push(VoidWork {
                        moment,
                        work: work.clone(),
                        why,
                    }),
                }
            }
            out.frames.push((moment, frame(trellis.clone())));
        }
        out
    }

    /// Of a scheme; the ones that are known while they are the same, so that trees see at once that nothing changed.
    pub fn kept(plan: &Plan, scheme: &Scheme, known: &mut Option<Arc<Self>>) -> Arc<Self> {
        let frames = Self::new(plan, scheme, &scheme.schedule);
        let frames = match known.take() {
            Some(known) if *known == frames => known,
            _ => Arc::new(frames),
        };
        *known = Some(Arc::clone(&frames));
        frames
    }

    /// What is done in a window, if it stands.
    pub fn stands(&self, moment: Moment) -> Option<&Standard> {
        self.stands.as_ref()?.at(moment)
    }

    /// Work on the trellis that is done in a leaf, by the names of its kinds.
    pub fn done_in(&self, leaf: u8) -> impl Iterator<Item = &'static str> {
        let of_leaf = move |(m, _): &&(Moment, &'static str)| m.leaf == leaf;
        self.done.iter().filter(of_leaf).map(|(_, kind)| *kind)
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

    /// The first state whose terms are not those of `other`, which begins at the same moment, or before which other windows
    /// stand or other work is done in them; `None` where they never differ.
    pub fn first_change(&self, other: &Self) -> Option<(Moment, Phase)> {
        let frames = self.frames.iter().chain(&other.frames);
        let mut states: Vec<(Moment, Phase)> = frames.map(|(m, _)| (*m, Phase::After)).collect();
        states.arrange();
        // What the found row stands under counts before any work.
        let start = self.frames[0].0;
        let differ =
            |(m, phase): &(Moment, Phase)| self.at(*m, *phase).terms != other.at(*m, *phase).terms;
        let mut all = [(start, Phase::Before)].into_iter().chain(states);
        let terms = all.find(differ);
        let work = Stands::first_change(start, self.stands.as_ref(), other.stands.as_ref());
        let work = work.map(|m| (m, Phase::After));
        match (terms, work) {
            (Some(terms), Some(work)) => Some(terms.min(work)),
            (terms, work) => terms.or(work),
        }
    }
}
