//! Replay: from the found row and a scheme to the row at any moment.
//!
//! Work and growth on one tree read that tree and constants of the row alone, so each tree is replayed by
//! itself, and a tree whose work has not changed is not replayed again.

use super::{Moment, Plan, Scheme, Window};
use crate::grow::{Half, grow};
use crate::refusal::Refusal;
use crate::row::{Row, Tree, TreeId};
use crate::words::Arg;
use crate::work::{Work, apply_to_tree};
use std::collections::BTreeMap;
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
    /// Work that touched nothing, in order of time, then of tree.
    pub void: Vec<VoidWork>,
}

/// What one moment did to one tree.
#[derive(Clone, Debug)]
struct Step {
    moment: Moment,
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

impl Replayer {
    /// As [`replay`], with what earlier calls worked out.
    ///
    /// # Errors
    /// No such scheme.
    pub fn at(&mut self, plan: &Plan, scheme: usize, moment: Moment) -> Result<Replayed, Refusal> {
        let work = by_tree(plan.scheme(scheme)?, moment);
        let start = plan.start();
        let mut void: Vec<VoidWork> = Vec::new();
        let mut trees = Vec::with_capacity(plan.found.trees.len());
        for found in &plan.found.trees {
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
            trees.push(run.to(start, moment, work.get(&found.id), &mut void));
        }
        void.extend(homeless(plan, &work));
        void.sort_by_key(|v| (v.moment, v.work.subject()));
        Ok(Replayed {
            row: Row {
                leaf: moment.leaf.max(plan.found.leaf),
                trees,
                ..(*plan.found).clone()
            },
            void,
        })
    }
}

impl Run {
    fn to(
        &mut self,
        start: Moment,
        last: Moment,
        work: Option<&Vec<(Moment, Work)>>,
        void: &mut Vec<VoidWork>,
    ) -> Arc<Tree> {
        let work = work.map_or(&[][..], Vec::as_slice);
        let mut tree = Arc::clone(&self.found);
        let mut done = 0;
        // Work from before the row was found has no part in it; it is reported as void elsewhere.
        let mut rest = &work[work.partition_point(|(m, _)| *m < start)..];
        for (n, moment) in start.until(last).enumerate() {
            let here = rest.partition_point(|(m, _)| *m <= moment);
            let (now, later) = rest.split_at(here);
            rest = later;
            let same = self.steps.get(n).is_some_and(|s| {
                s.moment == moment && s.work.len() == now.len() && {
                    s.work.iter().zip(now).all(|(a, (_, b))| a == b)
                }
            });
            if !same {
                self.steps.truncate(n);
                self.steps.push(step(&tree, moment, now));
            }
            let step = &self.steps[n];
            tree = Arc::clone(&step.after);
            void.extend(step.void.iter().cloned());
            done = n + 1;
        }
        debug_assert!(done <= self.steps.len());
        tree
    }
}

fn step(before: &Arc<Tree>, moment: Moment, work: &[(Moment, Work)]) -> Step {
    let mut tree = Arc::clone(before);
    // Growth comes between the work of bud swell and early summer, and between that and after harvest.
    let half = match moment.window {
        Window::EarlySummer => Some(Half::First),
        Window::AfterHarvest => Some(Half::Second),
        Window::Dormant | Window::BudSwell => None,
    };
    if let Some(grown) = half.and_then(|h| grow(&tree, moment.leaf, h)) {
        tree = Arc::new(grown);
    }
    let mut void = Vec::new();
    for (_, item) in work {
        match apply_to_tree(&tree, moment.leaf, item) {
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
        work: work.iter().map(|(_, w)| w.clone()).collect(),
        after: tree,
        void,
    }
}

/// A scheme's work up to `last`, tree by tree, in order of time and within a window of subject.
fn by_tree(scheme: &Scheme, last: Moment) -> BTreeMap<TreeId, Vec<(Moment, Work)>> {
    let mut out: BTreeMap<TreeId, Vec<(Moment, Work)>> = BTreeMap::new();
    for season in &scheme.seasons {
        for window in Window::ALL {
            let moment = Moment {
                leaf: season.leaf,
                window,
            };
            if moment > last {
                continue;
            }
            for work in season.work(window) {
                out.entry(work.tree())
                    .or_default()
                    .push((moment, work.clone()));
            }
        }
    }
    out
}

/// Work on trees that the row does not have, or from before the row was found.
fn homeless(plan: &Plan, work: &BTreeMap<TreeId, Vec<(Moment, Work)>>) -> Vec<VoidWork> {
    let start = plan.start();
    work.iter()
        .flat_map(|(id, items)| {
            let known = plan.found.tree(*id).is_some();
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
                        vec![("tree", Arg::Count(id.0.into()))],
                    ),
                })
        })
        .collect()
}
