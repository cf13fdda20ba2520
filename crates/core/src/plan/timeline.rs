//! Every state of a scheme in one pass: nothing is replayed twice, and nothing is kept.

use super::frames::Frames;
use super::replay::{Cast, Replayed, replayed};
use super::tipped::Begun;
use super::walk::Walk;
use super::{Moment, Phase, Plan, Scheme};
use crate::arrange::Arrange;
use crate::pose::Posed;
use crate::refusal::Refusal;
use crate::row::TreeId;
use crate::sorted::Map;
use std::sync::Arc;

/// The row before and after the work of every moment from the plan's start on, in order of time. A tree that did not change
/// from one state to the next is the same in memory, and is laid out at most once.
pub struct Timeline<'p> {
    plan: &'p Plan,
    scheme: &'p Scheme,
    frames: Frames,
    begun: Begun,
    trees: Map<TreeId, (Walk<'p>, Arc<Posed>)>,
    moments: std::vec::IntoIter<Moment>,
    next: Option<(Moment, Phase)>,
}

impl Plan {
    /// Every state of a scheme up to that after the work of `last`; none where that is before the start.
    ///
    /// # Errors
    /// No such scheme.
    pub fn timeline(&self, scheme: usize, last: Moment) -> Result<Timeline<'_>, Refusal> {
        let scheme = self.scheme(scheme)?;
        let moments: Vec<Moment> = self.start().until(last).collect();
        let mut moments = moments.into_iter();
        Ok(Timeline {
            plan: self,
            scheme,
            frames: Frames::new(self, scheme, &scheme.schedule),
            begun: Begun::default(),
            trees: Map::new(),
            next: moments.next().map(|m| (m, Phase::Before)),
            moments,
        })
    }
}

impl Iterator for Timeline<'_> {
    type Item = Replayed;

    fn next(&mut self) -> Option<Replayed> {
        let (moment, phase) = self.next?;
        self.next = match phase {
            Phase::Before => Some((moment, Phase::After)),
            Phase::After => self.moments.next().map(|m| (m, Phase::Before)),
        };
        let (plan, scheme, frames) = (self.plan, self.scheme, &self.frames);
        let geometry = frames.at(moment, phase).terms.geometry;
        let begun = self.begun.trees(plan);
        let cast = Cast::new(plan, begun, scheme, moment, phase);
        let mut void = cast.void(plan, scheme);
        void.extend(frames.void(moment, phase));
        let mut row = Vec::with_capacity(plan.found.trees.len());
        for found in cast.trees() {
            let is_new = !self.trees.contains_key(&found.id);
            // It is there from the start, or was planted by now.
            let (walk, posed) = self.trees.entry(found.id).or_insert_with(|| {
                let work = scheme.schedule.on(Some(found.id));
                let mut walk = Walk::new(Arc::clone(found), work.map_or(&[], |w| w));
                walk.through(frames, plan.start(), moment, phase);
                let posed = Arc::new(Posed::new(Arc::clone(&walk.tree), geometry));
                (walk, posed)
            });
            match phase {
                _ if is_new => {}
                Phase::Before => walk.grow(frames, moment),
                Phase::After => walk.work(frames, moment),
            }
            let same = posed.is(&walk.tree, geometry);
            if !same || !posed.is_counted_on(None) {
                let tree = Arc::clone(&walk.tree);
                *posed = Arc::new(match phase {
                    Phase::After if !same && posed.is_counted_on(None) => {
                        Posed::worked_on(tree, geometry, Arc::clone(posed))
                    }
                    _ => Posed::new(tree, geometry),
                });
            }
            void.extend(walk.void.iter().cloned());
            row.push(Arc::clone(posed));
        }
        void.arrange_by_key(|v| (v.moment, v.work.subject()));
        Some(replayed(plan, frames, moment, phase, row, void))
    }
}
