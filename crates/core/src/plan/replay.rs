//! Replay: from the found row and a scheme to the row at any moment, before or after that moment's work.
//!
//! Work and growth on one tree read that tree and the terms alone, so each tree is replayed by itself
//! ([`super::walk`]), and of a tree whose work and terms have not changed nothing is replayed again ([`super::run`]).

use super::frames::Frames;
use super::run::Run;
use super::schedule::OnTree;
use super::tipped::Begun;
use super::void::VoidWork;
use super::walk::Walk;
use super::{Moment, Phase, Plan, Scheme};
use crate::arrange::Arrange;
use crate::arrange::Gather;
use crate::pose::{Posed, PosedRow};
use crate::refusal::Refusal;
use crate::row::{Row, Targets, Tree, TreeId};
use crate::said::Arg;
use crate::sorted::{Map, Set};
use crate::standing::{wires, work};
use crate::terms::Terms;
use crate::work::{Work, one_more};
use std::sync::Arc;

/// A row at a moment, and the work that found no subject on the way there.
#[derive(Clone, Debug, PartialEq)]
pub struct Replayed {
    /// The row, with where its shoots run.
    pub row: PosedRow,
    /// When it is so.
    pub moment: Moment,
    /// Whether that moment's work has been done.
    pub phase: Phase,
    /// What pose, work and growth read then besides its trees.
    pub terms: Terms,
    /// The limits by which it is judged.
    pub targets: Arc<Targets>,
    /// Work that touched nothing, in order of time, then of tree.
    pub void: Vec<VoidWork>,
}

/// The row after the work of `moment` under the scheme at `scheme`: a pure function of its arguments. A moment before the
/// plan's start gives the found row.
///
/// # Errors
/// No such scheme.
pub fn replay(plan: &Plan, scheme: usize, moment: Moment) -> Result<Replayed, Refusal> {
    Replayer::default().at(plan, scheme, moment, Phase::After)
}

/// Replays plans and keeps what it did, tree by tree. It gives what a new one gives, sooner.
#[derive(Clone, Debug, Default)]
pub struct Replayer {
    schemes: Vec<Kept>,
    begun: Begun,
    found: Option<PosedRow>,
}

/// What is kept of one scheme.
#[derive(Clone, Debug, Default)]
struct Kept {
    frames: Option<Arc<Frames>>,
    runs: Map<TreeId, Run>,
}

impl Replayer {
    /// The row before or after the work of a moment. What has grown by then has grown in both.
    ///
    /// # Errors
    /// No such scheme.
    pub fn at(
        &mut self,
        plan: &Plan,
        scheme: usize,
        moment: Moment,
        phase: Phase,
    ) -> Result<Replayed, Refusal> {
        let number = scheme;
        let scheme = plan.scheme(number)?;
        self.schemes.resize_with(plan.schemes.len(), Kept::default);
        let kept = &mut self.schemes[number];
        let frames = Frames::kept(plan, scheme, &mut kept.frames);
        let begun = self.begun.trees(plan);
        let cast = Cast::new(plan, begun, scheme, moment, phase);
        let (start, idle) = (plan.start(), OnTree::default());
        let mut void = cast.void(plan, scheme);
        void.extend(frames.void(moment, phase));
        let mut posed = Vec::with_capacity(plan.found.trees.len());
        for found in cast.trees() {
            let work = scheme.schedule.on(Some(found.id)).unwrap_or(&idle);
            let new = || Run::new(start, found, work, &frames);
            let run = kept.runs.entry(found.id).or_insert_with(new);
            run.keep_up(start, found, work, &frames);
            posed.push(run.at(moment, phase, &mut void));
        }
        // Of trees that are neither found nor worked on nothing is kept.
        if kept.runs.len() > posed.len() {
            kept.runs
                .retain(|id, _| cast.is_found(*id) || scheme.schedule.on(Some(*id)).is_some());
        }
        void.arrange_by_key(|v| (v.moment, v.work.subject()));
        Ok(replayed(plan, &frames, moment, phase, posed, void))
    }

    /// The work of a moment on all trees and the trellis, in order of subject, be it planned or standing.
    ///
    /// # Errors
    /// No such scheme.
    pub fn work_at(
        &mut self,
        plan: &Plan,
        scheme: usize,
        moment: Moment,
    ) -> Result<Vec<Work>, Refusal> {
        let stored = plan.scheme(scheme)?;
        if !stored.stands(moment) || moment < plan.start() {
            return Ok(stored.work(moment).cloned().collect());
        }
        let row = self.at(plan, scheme, moment, Phase::Before)?.row;
        let frames = self.schemes[scheme].frames.as_deref();
        let Some((frames, rules)) = frames.and_then(|f| Some((f, f.stands(moment)?))) else {
            return Ok(Vec::new());
        };
        let mut out: Vec<Work> = wires(&row.trellis, moment, rules).into_iter().collect();
        let terms = &frames.at(moment, Phase::After).terms;
        for tree in &row.trees {
            out.extend(work(tree, moment, terms, rules));
        }
        out.arrange_by_key(Work::subject);
        Ok(out)
    }

    /// The row as found: without any work, and nothing void. A scheme's limits hold.
    pub fn found(&mut self, plan: &Plan, scheme: usize) -> Replayed {
        let terms = plan.terms(&plan.found.trellis);
        let row = (*plan.found).clone();
        let row = match &self.found {
            Some(known) => PosedRow::after(row, terms.geometry, known),
            None => PosedRow::new(row, terms.geometry),
        };
        self.found = Some(row.clone());
        Replayed {
            row,
            moment: plan.start(),
            phase: Phase::Before,
            terms,
            targets: plan.limits(scheme),
            void: Vec::new(),
        }
    }
}

pub(super) fn replayed(
    plan: &Plan,
    frames: &Frames,
    moment: Moment,
    phase: Phase,
    posed: Vec<Arc<Posed>>,
    void: Vec<VoidWork>,
) -> Replayed {
    let frame = frames.at(moment, phase);
    let row = Row {
        leaf: moment.leaf.max(plan.found.leaf),
        trellis: frame.trellis.clone(),
        trees: Vec::new(),
        ..*plan.found
    };
    let before_all = moment < plan.start();
    Replayed {
        row: PosedRow::from_posed(row, frame.terms.geometry, posed),
        moment: moment.max(plan.start()),
        phase: if before_all { Phase::Before } else { phase },
        terms: frame.terms.clone(),
        targets: Arc::clone(&frames.targets),
        void,
    }
}

/// Which trees there are at a moment: the found ones, and those that the scheme has planted by then where the found row has
/// none. A planted one is empty until its planting is done.
pub(super) struct Cast {
    /// In order.
    found: Vec<TreeId>,
    /// The found trees as work begins on them, then the planted ones.
    trees: Vec<Arc<Tree>>,
    moment: Moment,
    phase: Phase,
}

impl Cast {
    /// `begun` are the found trees as work begins on them.
    pub fn new(
        plan: &Plan,
        begun: Vec<Arc<Tree>>,
        scheme: &Scheme,
        moment: Moment,
        phase: Phase,
    ) -> Self {
        let mut found: Vec<TreeId> = plan.found.trees.iter().map(|t| t.id).collect();
        found.arrange();
        let mut out = Self {
            found,
            trees: begun,
            moment,
            phase,
        };
        for (id, batches) in scheme.schedule.by_tree() {
            let Some(id) = id.filter(|id| !out.is_found(*id)) else {
                continue;
            };
            let by_now = batches
                .iter()
                .filter(|b| b.moment >= plan.start() && out.is_past(b.moment));
            let room = out.trees.len() < Row::MAX_TREES;
            // What can't be planted leaves no empty place.
            let plants = |(leaf, work): (u8, &Work)| {
                let planted = one_more(&plan.found, leaf, work).filter(|_| room)?.ok()?;
                let empty = Tree::lost(id, planted.foot, planted.planted);
                Some(Arc::new(empty))
            };
            let place = by_now
                .flat_map(|b| b.work.iter().map(|work| (b.moment.leaf, work)))
                .find_map(plants);
            out.trees.extend(place);
        }
        out
    }

    /// Whether the work of that moment has been done.
    fn is_past(&self, moment: Moment) -> bool {
        match self.phase {
            Phase::Before => moment < self.moment,
            Phase::After => moment <= self.moment,
        }
    }

    fn is_found(&self, id: TreeId) -> bool {
        self.found.binary_search(&id).is_ok()
    }

    /// Whether a tree is one of them.
    pub fn has(&self, id: TreeId) -> bool {
        self.is_found(id) || self.trees.iter().any(|t| t.id == id)
    }

    pub fn trees(&self) -> &[Arc<Tree>] {
        &self.trees
    }

    /// Work on trees that are not there, or from before the row was found.
    pub fn void(&self, plan: &Plan, scheme: &Scheme) -> Vec<VoidWork> {
        let mut out = Vec::new();
        for (id, batches) in scheme.schedule.by_tree() {
            let known = id.is_none_or(|id| self.has(id));
            let key = match (known, id) {
                (true, None) => "refusal-before-found-row",
                (true, Some(_)) => "refusal-before-found",
                (false, _) => "refusal-no-tree",
            };
            let args = || id.map(|id| ("tree", Arg::Count(id.0.into())));
            let void = batches
                .iter()
                .filter(|b| self.is_past(b.moment) && (!known || b.moment < plan.start()));
            for batch in void {
                out.extend(batch.work.iter().map(|work| {
                    VoidWork {
                        moment: batch.moment,
                        work: work.clone(),
                        why: one_more(&plan.found, batch.moment.leaf, work)
                            .and_then(Result::err)
                            .unwrap_or_else(|| Refusal::new(key, args().into_iter().collect())),
                    }
                }));
            }
        }
        out
    }
}

impl Plan {
    /// Found trees as they stand before the work of a moment, as the crew finds them.
    ///
    /// # Errors
    /// No such scheme.
    pub fn trees_before(
        &self,
        scheme: usize,
        moment: Moment,
        ids: &Set<TreeId>,
    ) -> Result<Map<TreeId, Arc<Tree>>, Refusal> {
        let scheme = self.scheme(scheme)?;
        let frames = Frames::new(self, scheme, &scheme.schedule);
        let found = self.found.trees.iter().filter(|t| ids.contains(&t.id));
        Ok(found
            .map(|t| {
                (
                    t.id,
                    tree_at(self, scheme, &frames, t, moment, Phase::Before),
                )
            })
            .gathered_map())
    }
}

impl Plan {
    /// Found trees after the work of a moment, each with how many pieces of all its work touch nothing, later ones too.
    ///
    /// # Errors
    /// No such scheme.
    pub fn trees_after(
        &self,
        scheme: usize,
        moment: Moment,
        ids: &Set<TreeId>,
    ) -> Result<Map<TreeId, (Arc<Tree>, usize)>, Refusal> {
        let scheme = self.scheme(scheme)?;
        let frames = Frames::new(self, scheme, &scheme.schedule);
        let found = self.found.trees.iter().filter(|t| ids.contains(&t.id));
        Ok(found
            .map(|found| {
                let work = scheme.schedule.on(Some(found.id));
                let work = work.map_or(&[][..], |w| w);
                let mut walk = Walk::new(self.begins(found), work);
                walk.through(&frames, self.start(), moment, Phase::After);
                let there = Arc::clone(&walk.tree);
                let last = work.last().map_or(moment, |b| b.moment);
                for later in moment.until(last).skip(1) {
                    walk.grow(&frames, later);
                    walk.work(&frames, later);
                }
                (found.id, (there, walk.void.len()))
            })
            .gathered_map())
    }
}

/// One found tree at a moment, worked out from the start.
pub(super) fn tree_at(
    plan: &Plan,
    scheme: &Scheme,
    frames: &Frames,
    found: &Arc<Tree>,
    moment: Moment,
    phase: Phase,
) -> Arc<Tree> {
    let work = scheme.schedule.on(Some(found.id));
    let mut walk = Walk::new(plan.begins(found), work.map_or(&[], |w| w));
    walk.through(frames, plan.start(), moment, phase);
    walk.tree
}
