//! Replay: from the found row and a scheme to the row at any moment.
//!
//! Work and growth on one tree read that tree and constants of the row alone, so each tree is replayed by
//! itself, and a tree whose work has not changed is not replayed again.

use super::{Moment, Phase, Plan, Scheme, Window};
use crate::grow::{Half, grow};
use crate::refusal::Refusal;
use crate::row::{Row, Tree, TreeId, Trellis};
use crate::said::Arg;
use crate::terms::Terms;
use crate::work::{Work, apply_to_tree, apply_to_trellis};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Work that could not be done, since its subject is not there at its time. It stays in the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct VoidWork {
    /// When it was to be done.
    pub moment: Moment,
    /// The work.
    pub work: Work,
    /// Why it was not.
    pub why: Refusal,
}

/// A row at a moment, and the work that found no subject on the way there.
#[derive(Clone, Debug, PartialEq)]
pub struct Replayed {
    /// The row.
    pub row: Row,
    /// When it is so.
    pub moment: Moment,
    /// Whether that moment's work has been done.
    pub phase: Phase,
    /// What pose, work and growth read then besides its trees.
    pub terms: Terms,
    /// Work that touched nothing, in order of time, then of tree.
    pub void: Vec<VoidWork>,
}

/// What one moment did to one tree.
#[derive(Clone, Debug)]
struct Step {
    moment: Moment,
    terms: Terms,
    work: Vec<Work>,
    after: Arc<Tree>,
    void: Vec<VoidWork>,
}

#[derive(Clone, Debug)]
struct Run {
    found: Arc<Tree>,
    steps: Vec<Step>,
}

/// Replays plans and keeps what it did, tree by tree. It gives the same as [`replay`], sooner.
#[derive(Clone, Debug, Default)]
pub struct Replayer {
    runs: BTreeMap<(usize, TreeId), Run>,
}

/// The row at `moment` under the scheme at `scheme`: a pure function of its arguments. A moment
/// before the plan's start gives the found row.
///
/// # Errors
/// No such scheme.
pub fn replay(plan: &Plan, scheme: usize, moment: Moment) -> Result<Replayed, Refusal> {
    Replayer::default().at(plan, scheme, moment)
}

/// One tree at a moment, and the terms then; `None` when the found row has no such tree.
///
/// # Errors
/// No such scheme.
pub(super) fn replay_tree(
    plan: &Plan,
    scheme: usize,
    moment: Moment,
    id: TreeId,
) -> Result<Option<(Arc<Tree>, Terms)>, Refusal> {
    let Some(found) = plan.found.tree(id) else {
        return Ok(None);
    };
    let mut work = some_by_tree(plan.scheme(scheme)?, moment, |w| {
        w.tree().is_none_or(|t| t == id)
    });
    let mut void = Vec::new();
    let wires = work.remove(&None).unwrap_or_default();
    let frames = Frames::new(plan, &wires, moment, &mut void);
    let mut run = Run {
        found: Arc::clone(found),
        steps: Vec::new(),
    };
    let mine = work.remove(&Some(id)).unwrap_or_default();
    let tree = run.to(plan.start(), &frames, &mine, &mut void);
    Ok(Some((tree, frames.terms(plan))))
}

impl Replayer {
    /// As [`replay`], with what earlier calls worked out.
    ///
    /// # Errors
    /// No such scheme.
    pub fn at(&mut self, plan: &Plan, scheme: usize, moment: Moment) -> Result<Replayed, Refusal> {
        let work = by_tree(plan.scheme(scheme)?, moment);
        let start = plan.start();
        let mut void: Vec<VoidWork> = Vec::new();
        let wires = work.get(&None).map_or(&[][..], Vec::as_slice);
        let frames = Frames::new(plan, wires, moment, &mut void);
        let known: BTreeSet<TreeId> = plan.found.trees.iter().map(|t| t.id).collect();
        let planted = planted(plan, &known, &work);
        let mut trees = Vec::with_capacity(plan.found.trees.len() + planted.len());
        for found in plan.found.trees.iter().chain(&planted) {
            let key = (scheme, found.id);
            let run = self.runs.entry(key).or_insert_with(|| Run {
                found: Arc::clone(found),
                steps: Vec::new(),
            });
            if !Arc::ptr_eq(&run.found, found) {
                if *run.found != **found {
                    run.steps.clear();
                }
                run.found = Arc::clone(found);
            }
            let mine = work.get(&Some(found.id)).map_or(&[][..], Vec::as_slice);
            trees.push(run.to(start, &frames, mine, &mut void));
        }
        void.extend(homeless(plan, &known, &planted, &work));
        void.sort_by_key(|v| (v.moment, v.work.subject()));
        let mut row = Row {
            leaf: moment.leaf.max(plan.found.leaf),
            trellis: frames.trellis(plan),
            trees,
            ..(*plan.found).clone()
        };
        if !planted.is_empty() {
            row.sort();
        }
        Ok(Replayed {
            row,
            moment: moment.max(start),
            phase: Phase::After,
            terms: frames.terms(plan),
            void,
        })
    }
}

/// The trellis after each moment's work on it.
struct Frames {
    at: Vec<(Moment, Terms, Trellis)>,
}

impl Frames {
    fn new(plan: &Plan, wires: &[(Moment, Work)], last: Moment, void: &mut Vec<VoidWork>) -> Self {
        let mut trellis = plan.found.trellis.clone();
        let mut out = Vec::new();
        for moment in plan.start().until(last) {
            for (_, work) in wires.iter().filter(|(m, _)| *m == moment) {
                match apply_to_trellis(&trellis, work) {
                    Ok(changed) => trellis = changed,
                    Err(why) => void.push(VoidWork {
                        moment,
                        work: work.clone(),
                        why,
                    }),
                }
            }
            out.push((moment, plan.terms(&trellis), trellis.clone()));
        }
        Self { at: out }
    }

    fn trellis(&self, plan: &Plan) -> Trellis {
        let last = self.at.last();
        last.map_or(&plan.found.trellis, |(_, _, t)| t).clone()
    }

    fn terms(&self, plan: &Plan) -> Terms {
        let last = self.at.last();
        last.map_or_else(|| plan.terms(&plan.found.trellis), |(_, t, _)| t.clone())
    }
}

/// The places of trees that a scheme plants where the found row has none. Until it is planted such a place is empty.
fn planted(plan: &Plan, known: &BTreeSet<TreeId>, work: &ByTree) -> Vec<Arc<Tree>> {
    work.iter()
        .filter_map(|(id, items)| {
            let id = (*id)?;
            if known.contains(&id) {
                return None;
            }
            items.iter().find_map(|(m, w)| match w {
                Work::Plant {
                    foot_mm, planted, ..
                } if *m >= plan.start() => Some(Arc::new(Tree::lost(id, *foot_mm, *planted))),
                _ => None,
            })
        })
        .collect()
}

impl Run {
    fn to(
        &mut self,
        start: Moment,
        frames: &Frames,
        work: &[(Moment, Work)],
        void: &mut Vec<VoidWork>,
    ) -> Arc<Tree> {
        let mut tree = Arc::clone(&self.found);
        // Work from before the row was found has no part in it; it is reported as void elsewhere.
        let mut rest = &work[work.partition_point(|(m, _)| *m < start)..];
        for (n, (moment, terms, _)) in frames.at.iter().enumerate() {
            let here = rest.partition_point(|(m, _)| m <= moment);
            let (now, later) = rest.split_at(here);
            rest = later;
            let same = self.steps.get(n).is_some_and(|s| {
                s.moment == *moment
                    && s.terms == *terms
                    && s.work.len() == now.len()
                    && s.work.iter().zip(now).all(|(a, (_, b))| a == b)
            });
            if !same {
                self.steps.truncate(n);
                self.steps.push(step(&tree, *moment, terms, now));
            }
            let step = &self.steps[n];
            tree = Arc::clone(&step.after);
            void.extend(step.void.iter().cloned());
        }
        tree
    }
}

fn step(before: &Arc<Tree>, moment: Moment, terms: &Terms, work: &[(Moment, Work)]) -> Step {
    let mut tree = Arc::clone(before);
    // Growth comes between the work of bud swell and early summer, and between that and after harvest.
    let half = match moment.window {
        Window::EarlySummer => Some(Half::First),
        Window::AfterHarvest => Some(Half::Second),
        Window::Dormant | Window::BudSwell => None,
    };
    if let Some(grown) = half.and_then(|h| grow(&tree, moment.leaf, h, terms)) {
        tree = Arc::new(grown);
    }
    let mut void = Vec::new();
    for (_, item) in work {
        match apply_to_tree(&tree, moment, terms, item) {
            Ok(changed) => tree = Arc::new(changed),
            Err(why) => void.push(VoidWork {
                moment,
                work: item.clone(),
                why,
            }),
        }
    }
    Step {
        moment,
        terms: terms.clone(),
        work: work.iter().map(|(_, w)| w.clone()).collect(),
        after: tree,
        void,
    }
}

impl Plan {
    /// Found trees as they stand before the work of a moment's window, as the crew finds them.
    ///
    /// # Errors
    /// No such scheme.
    pub fn trees_before(
        &self,
        scheme: usize,
        moment: Moment,
        ids: &BTreeSet<TreeId>,
    ) -> Result<BTreeMap<TreeId, Arc<Tree>>, Refusal> {
        let mut trees = TreesAt::some(self, scheme, moment, |id| ids.contains(&id))?;
        Ok(ids
            .iter()
            .filter_map(|id| Some((*id, trees.tree(*id, &[])?)))
            .collect())
    }
}

/// The found trees of a plan at one moment, one at a time, under changing work in that moment's window alone: for
/// many pieces of work at once.
pub(super) struct TreesAt<'p> {
    start: Moment,
    moment: Moment,
    frames: Frames,
    /// Work but that of the window.
    other: ByTree,
    found: BTreeMap<TreeId, &'p Arc<Tree>>,
    runs: BTreeMap<TreeId, Run>,
}

impl<'p> TreesAt<'p> {
    /// # Errors
    /// No such scheme.
    pub fn new(plan: &'p Plan, scheme: usize, moment: Moment) -> Result<Self, Refusal> {
        Self::some(plan, scheme, moment, |_| true)
    }

    /// As [`TreesAt::new`], for some of the trees alone.
    fn some(
        plan: &'p Plan,
        scheme: usize,
        moment: Moment,
        wanted: impl Fn(TreeId) -> bool,
    ) -> Result<Self, Refusal> {
        let on_wanted = |w: &Work| w.tree().is_none_or(&wanted);
        let mut other = some_by_tree(plan.scheme(scheme)?, moment, on_wanted);
        let wires = other.get(&None).map_or(&[][..], Vec::as_slice);
        let frames = Frames::new(plan, wires, moment, &mut Vec::new());
        for items in other.values_mut() {
            items.retain(|(m, _)| *m != moment);
        }
        Ok(Self {
            start: plan.start(),
            moment,
            frames,
            other,
            found: plan
                .found
                .trees
                .iter()
                .filter(|t| wanted(t.id))
                .map(|t| (t.id, t))
                .collect(),
            runs: BTreeMap::new(),
        })
    }

    /// Whether the tree is one of the found.
    pub fn has(&self, tree: TreeId) -> bool {
        self.found.contains_key(&tree)
    }

    /// The terms at the moment.
    pub fn terms(&self) -> Option<&Terms> {
        self.frames.at.last().map(|(_, terms, _)| terms)
    }

    /// The tree after `window`, which is its work in the moment's window in order of subject.
    pub fn tree(&mut self, id: TreeId, window: &[Work]) -> Option<Arc<Tree>> {
        let found = *self.found.get(&id)?;
        let run = self.runs.entry(id).or_insert_with(|| Run {
            found: Arc::clone(found),
            steps: Vec::new(),
        });
        let mut mine = self.other.get(&Some(id)).cloned().unwrap_or_default();
        mine.extend(window.iter().map(|w| (self.moment, w.clone())));
        Some(run.to(self.start, &self.frames, &mine, &mut Vec::new()))
    }
}

/// Work by tree; that on the trellis under `None`.
type ByTree = BTreeMap<Option<TreeId>, Vec<(Moment, Work)>>;

/// A scheme's work up to `last`, tree by tree, in order of time and within a window of subject.
fn by_tree(scheme: &Scheme, last: Moment) -> ByTree {
    some_by_tree(scheme, last, |_| true)
}

fn some_by_tree(scheme: &Scheme, last: Moment, wanted: impl Fn(&Work) -> bool) -> ByTree {
    let mut out = ByTree::new();
    for season in &scheme.seasons {
        for window in Window::ALL {
            let moment = Moment {
                leaf: season.leaf,
                window,
            };
            if moment > last {
                continue;
            }
            for work in season.work(window).iter().filter(|w| wanted(w)) {
                out.entry(work.tree())
                    .or_default()
                    .push((moment, work.clone()));
            }
        }
    }
    out
}

/// Work on trees that the row does not have, or from before the row was found.
fn homeless(
    plan: &Plan,
    found: &BTreeSet<TreeId>,
    planted: &[Arc<Tree>],
    work: &ByTree,
) -> Vec<VoidWork> {
    let start = plan.start();
    work.iter()
        .flat_map(|(id, items)| {
            let known =
                id.is_none_or(|id| found.contains(&id) || planted.iter().any(|t| t.id == id));
            items
                .iter()
                .filter(move |(m, _)| !known || *m < start)
                .map(move |(m, w)| VoidWork {
                    moment: *m,
                    work: w.clone(),
                    why: Refusal::new(
                        if known {
                            "refusal-before-found"
                        } else {
                            "refusal-no-tree"
                        },
                        id.iter()
                            .map(|id| ("tree", Arg::Count(id.0.into())))
                            .collect(),
                    ),
                })
        })
        .collect()
}
