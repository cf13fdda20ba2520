//! What has changed between two plans, as it is sent.

use cordonry::arrange::Gather;
use cordonry::file::{read_plan, write_plan};
use cordonry::plan::{Field, Plan, Schedule, Scheme};
use cordonry::refusal::Refusal;
use cordonry::row::{Row, Tree, TreeId};
use cordonry::sorted::Map;
use serde::{Deserialize, Serialize};
use std::sync::Arc;

/// What a plan has become. The parts that changed travel in the plan file's own form, as a plan with nothing else in it:
/// so whatever a file holds is sent, and what is large is sent only when it changed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Update {
    generation: u32,
    /// The generation that it was changed from; `None` where the whole plan is sent.
    base: Option<u32>,
    /// The plan file's text: all but trees and work, and of those what changed.
    changed: String,
    /// Every tree of the found row in its order, where others stand there now.
    order: Option<Vec<TreeId>>,
    /// For each scheme the trees whose work is sent anew; `None` is the trellis.
    works: Vec<Vec<Option<TreeId>>>,
    /// For each scheme the trees of which it is sent anew which pieces are done.
    #[serde(default)]
    done: Vec<Vec<Option<TreeId>>>,
}

impl Update {
    /// The whole of a plan.
    pub fn all(generation: u32, plan: &Plan) -> Self {
        Self::of_text(generation, write_plan(plan))
    }

    /// The whole of a plan, from its file's text.
    pub fn of_text(generation: u32, text: String) -> Self {
        Self {
            generation,
            base: None,
            changed: text,
            order: None,
            works: Vec::new(),
            done: Vec::new(),
        }
    }

    /// What makes `plan` of another.
    pub fn between(generation: u32, (base, before): (u32, &Plan), plan: &Plan) -> Self {
        let old = before.found.trees.iter().map(|t| (t.id, t)).gathered_map();
        let as_it_was = |tree: &&Arc<Tree>| {
            old.get(&tree.id)
                .is_some_and(|was| Arc::ptr_eq(was, tree) || was == tree)
        };
        let ids = |row: &Row| row.trees.iter().map(|t| t.id).collect::<Vec<_>>();
        let order = ids(&plan.found);
        let (mut works, mut done) = (Vec::new(), Vec::new());
        let (nothing, untold) = (Schedule::default(), Field::default());
        let mut schemes = Vec::new();
        for (i, scheme) in plan.schemes.iter().enumerate() {
            let was = before.schemes.get(i);
            let changed = scheme
                .schedule
                .differs_on(was.map_or(&nothing, |s| &s.schedule));
            let told = scheme.field.differs_on(was.map_or(&untold, |s| &s.field));
            schemes.push(Arc::new(Scheme {
                schedule: nothing.taking(&changed, &scheme.schedule),
                field: scheme.field.taking(&told, &untold),
                ..(**scheme).clone()
            }));
            works.push(changed);
            done.push(told);
        }
        let trees = plan.found.trees.iter();
        let changed = Plan {
            found: Arc::new(Row {
                trees: trees.filter(|t| !as_it_was(t)).cloned().collect(),
                ..(*plan.found).clone()
            }),
            schemes,
            ..plan.clone()
        };
        Self {
            generation,
            base: Some(base),
            changed: write_plan(&changed),
            order: (order != ids(&before.found)).then_some(order),
            works,
            done,
        }
    }

    /// The generation of the plan that it makes.
    pub fn generation(&self) -> u32 {
        self.generation
    }

    /// Its size as it is sent, in bytes of text.
    pub fn bytes(&self) -> usize {
        self.changed.len()
    }

    /// The plan that it makes of the one that is known; `None` where another one is asked for.
    ///
    /// # Errors
    /// What is sent can't be read.
    pub fn onto(&self, known: Option<(u32, &Plan)>) -> Option<Result<Plan, Refusal>> {
        let base = match (self.base, known) {
            (None, _) => return Some(read_plan(self.changed.as_bytes())),
            (Some(base), Some((generation, plan))) if base == generation => plan,
            _ => return None,
        };
        Some(read_plan(self.changed.as_bytes()).map(|sent| self.merged(base, sent)))
    }

    fn merged(&self, base: &Plan, sent: Plan) -> Plan {
        let mut trees: Map<TreeId, Arc<Tree>> = Map::new();
        for tree in base.found.trees.iter().chain(&sent.found.trees) {
            trees.insert(tree.id, Arc::clone(tree));
        }
        let before = || base.found.trees.iter().map(|t| t.id).collect();
        let order: Vec<TreeId> = self.order.clone().unwrap_or_else(before);
        let (nothing, untold) = (Schedule::default(), Field::default());
        let schemes = sent.schemes.iter().enumerate().map(|(i, scheme)| {
            let trees = |all: &'_ [Vec<Option<TreeId>>]| all.get(i).cloned().unwrap_or_default();
            let was = base.schemes.get(i);
            let work = was.map_or(&nothing, |s| &s.schedule);
            let told = was.map_or(&untold, |s| &s.field);
            Arc::new(Scheme {
                schedule: work.taking(&trees(&self.works), &scheme.schedule),
                field: scheme.field.taking(&trees(&self.done), told),
                ..(**scheme).clone()
            })
        });
        Plan {
            schemes: schemes.collect(),
            found: Arc::new(Row {
                trees: order.iter().filter_map(|id| trees.remove(id)).collect(),
                ..(*sent.found).clone()
            }),
            ..sent
        }
    }
}

/// What the helper has been told: the page's side of its memory.
#[derive(Default)]
pub struct Told {
    generation: u32,
    known: Option<Arc<Plan>>,
}

impl Told {
    /// The generation of a plan, and what the helper has to be told to have it; nothing where it has it.
    pub fn tell(&mut self, plan: &Arc<Plan>) -> (u32, Option<Update>) {
        let update = match &self.known {
            Some(known) if Arc::ptr_eq(known, plan) => return (self.generation, None),
            Some(known) => Update::between(
                self.generation.wrapping_add(1),
                (self.generation, known),
                plan,
            ),
            None => Update::all(self.generation.wrapping_add(1), plan),
        };
        self.generation = update.generation;
        self.known = Some(Arc::clone(plan));
        (self.generation, Some(update))
    }

    /// The helper has lost what it was told. Whether it had been told anything.
    pub fn forget(&mut self) -> bool {
        self.known.take().is_some()
    }
}
