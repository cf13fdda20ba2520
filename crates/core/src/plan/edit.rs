//! Changes to a plan. Each gives a new plan that shares all it did not change, or a refusal.

use super::frames::Frames;
use super::replay::tree_at;
use super::{Moment, Phase, Plan, Schedule, Scheme, replay};
use crate::pose::as_found;
use crate::refusal::Refusal;
use crate::row::{Tree, TreeId};
use crate::said::Arg;
use crate::sorted::Map;
use crate::work::{Effect, Subject, Work, apply, apply_to_tree, apply_to_trellis};
use std::sync::Arc;

impl Plan {
    /// The plan with `work` done at `moment` under a scheme. Taking off what the same window brought
    /// takes that work back instead.
    ///
    /// # Errors
    /// Why the work can't be done there and then; a moment before the row was found or after the last leaf.
    pub fn with_work(&self, scheme: usize, moment: Moment, work: Work) -> Result<Plan, Refusal> {
        self.with_works(scheme, moment, vec![work])
    }

    /// As [`Plan::with_work`], for several items that belong together: all are done or none. A window that stands is planned
    /// first.
    ///
    /// # Errors
    /// As [`Plan::with_work`], of the first that can't be done.
    pub fn with_works(
        &self,
        scheme: usize,
        moment: Moment,
        works: Vec<Work>,
    ) -> Result<Plan, Refusal> {
        if moment < self.start() || moment.leaf > Self::MAX_LEAF {
            return Err(Refusal::new(
                "refusal-leaf",
                vec![
                    ("value", Arg::Count(moment.leaf.into())),
                    ("low", Arg::Count(self.found.leaf.into())),
                    ("high", Arg::Count(Self::MAX_LEAF.into())),
                ],
            ));
        }
        if self.scheme(scheme)?.stands(moment) {
            let planned = self.with_planned(scheme, moment)?;
            return planned.with_works(scheme, moment, works);
        }
        let mut schedule = self.scheme(scheme)?.schedule.clone();
        let mut trees = Trees::new(self, scheme, moment)?;
        for work in works {
            if takes_back(&mut trees, &mut schedule, moment, &work) {
                continue;
            }
            let Some(work) = beyond_what_stays(&mut schedule, moment, work) else {
                trees.frames_of(self, &schedule);
                continue;
            };
            // Where the work takes the place of another, what counts is the row without that one.
            schedule.drop_subject(moment, work.subject());
            let before = work.tree().and_then(|id| trees.before(id));
            let mut idle = None;
            match (work.tree(), before.clone()) {
                (Some(_), Some(before)) => {
                    idle = Some(trees.try_on(&before, &schedule, &work)?);
                }
                (None, _) => {
                    let frames = Frames::new(self, trees.scheme, &schedule);
                    apply_to_trellis(&frames.at(moment, Phase::After).trellis, &work)?;
                }
                (Some(_), None) => {
                    // A place where the record has no tree: the whole row is looked at.
                    let now = self.with_schedule(scheme, schedule.clone());
                    let there = replay(&now, scheme, moment)?;
                    apply(&there.row, moment, &there.terms, &work)?;
                }
            }
            let on_wires = work.tree().is_none();
            // What a cut leaves nothing of gives way to it, and what can't be done any more because of it.
            let were = schedule.work_on(moment, work.tree()).len();
            schedule.drop_idle(moment, &work);
            if schedule.work_on(moment, work.tree()).len() != were {
                idle = before.map(|b| trees.void_on(&b, &schedule, work.tree()));
            }
            let on = work.tree();
            let own = work.subject();
            schedule.put(moment, work);
            if let (Some(idle), Some(before)) = (idle, on.and_then(|id| trees.before(id))) {
                for gone in trees.void_on(&before, &schedule, on) {
                    if gone != own && !idle.contains(&gone) {
                        schedule.drop_subject(moment, gone);
                    }
                }
            }
            if on_wires {
                trees.frames_of(self, &schedule);
            }
        }
        Ok(self.with_schedule(scheme, schedule))
    }

    /// The plan with the work that another one holds on some trees, under a scheme that both have.
    pub(crate) fn taking(&self, scheme: usize, trees: &[TreeId], from: &Plan) -> Plan {
        let trees: Vec<Option<TreeId>> = trees.iter().copied().map(Some).collect();
        let schedule = |plan: &Plan| plan.schemes.get(scheme).map(|s| s.schedule.clone());
        match (schedule(self), schedule(from)) {
            (Some(own), Some(other)) => self.with_schedule(scheme, own.taking(&trees, &other)),
            _ => self.clone(),
        }
    }

    /// The plan without the work at `moment` that `goes` picks; a window that stands is planned first.
    ///
    /// # Errors
    /// No such scheme.
    pub fn without_work(
        &self,
        scheme: usize,
        moment: Moment,
        goes: impl Fn(&Work) -> bool,
    ) -> Result<Plan, Refusal> {
        let planned = self.with_planned(scheme, moment)?;
        let mut schedule = planned.scheme(scheme)?.schedule.clone();
        schedule.drop_work(moment, goes);
        Ok(planned.with_schedule(scheme, schedule))
    }
}

/// Where the work takes off a bud that the same window keeps, or takes out a tree that it plants, takes that back instead;
/// whether it did.
fn takes_back(trees: &mut Trees<'_>, schedule: &mut Schedule, moment: Moment, work: &Work) -> bool {
    match work.effect() {
        Effect::TakesOff { tree, shoot } => schedule.drop_bud(moment, tree, shoot),
        Effect::TakesOut { tree } => {
            let about_it = |w: &Work| w.subject() == work.subject();
            let mut planned = schedule.work_on(moment, Some(tree)).iter();
            // What stands already is taken out; where nothing stands, the stock that comes is not planted.
            let planted = planned.any(about_it) && trees.before(tree).is_none_or(|t| t.is_lost());
            if planted {
                schedule.drop_subject(moment, work.subject());
            }
            planted
        }
        Effect::Plants { .. } | Effect::Keeps { .. } | Effect::Stubs | Effect::Changes => false,
    }
}

/// What is left to be done of a wire at a height from which the same window takes one off or moves one away: that one stays.
fn beyond_what_stays(schedule: &mut Schedule, moment: Moment, work: Work) -> Option<Work> {
    let Work::AddWire { covering, .. } = work else {
        return Some(work);
    };
    let on_wires = schedule.work_on(moment, None);
    let Some(planned) = on_wires.iter().find(|w| w.subject() == work.subject()) else {
        return Some(work);
    };
    let left = match planned {
        Work::RemoveWire { .. } => None,
        Work::MoveWire { to_mm, .. } => Some(Work::AddWire {
            height_mm: *to_mm,
            covering,
        }),
        _ => return Some(work),
    };
    schedule.drop_subject(moment, work.subject());
    left
}

/// The found trees before the work of one moment, worked out one at a time: that work alone changes while it is edited.
struct Trees<'p> {
    plan: &'p Plan,
    scheme: &'p Scheme,
    moment: Moment,
    frames: Frames,
    before: Map<TreeId, Arc<Tree>>,
}

impl<'p> Trees<'p> {
    fn new(plan: &'p Plan, scheme: usize, moment: Moment) -> Result<Self, Refusal> {
        let scheme = plan.scheme(scheme)?;
        Ok(Self {
            plan,
            scheme,
            moment,
            frames: Frames::new(plan, scheme, &scheme.schedule),
            before: Map::new(),
        })
    }

    /// A tree as it stands before the moment's work.
    fn before(&mut self, id: TreeId) -> Option<Arc<Tree>> {
        if !self.before.contains_key(&id) {
            let found = self.plan.found.tree(id)?;
            let (moment, phase) = (self.moment, Phase::Before);
            let tree = tree_at(self.plan, self.scheme, &self.frames, found, moment, phase);
            self.before.insert(id, tree);
        }
        self.before.get(&id).cloned()
    }

    /// The subjects of a tree's work of the moment that touch nothing.
    fn void_on(&self, before: &Tree, schedule: &Schedule, on: Option<TreeId>) -> Vec<Subject> {
        let terms = &self.frames.at(self.moment, Phase::After).terms;
        let mut tree = None;
        let mut out = Vec::new();
        for work in schedule.work_on(self.moment, on) {
            match apply_to_tree(tree.as_ref().unwrap_or(before), self.moment, terms, work) {
                Ok(done) => tree = Some(done),
                Err(_) => out.push(work.subject()),
            }
        }
        out
    }

    /// Whether work can be done on a tree after the rest of its work of the moment; what of that touches nothing.
    fn try_on(
        &self,
        before: &Tree,
        schedule: &Schedule,
        work: &Work,
    ) -> Result<Vec<Subject>, Refusal> {
        let terms = &self.frames.at(self.moment, Phase::After).terms;
        let (mut tree, mut idle) = (None, Vec::new());
        for other in schedule.work_on(self.moment, work.tree()) {
            // What is void stays void; it is told elsewhere.
            match apply_to_tree(tree.as_ref().unwrap_or(before), self.moment, terms, other) {
                Ok(done) => tree = Some(done),
                Err(_) => idle.push(other.subject()),
            }
        }
        let now = tree.as_ref().unwrap_or(before);
        let done = apply_to_tree(now, self.moment, terms, work);
        done.map(|_| idle)
            .map_err(|why| as_found(why, before, terms.geometry, work.subject().shoot))
    }

    /// Takes the wires as changed work leaves them. They change after the moment's growth, and so no tree before its work.
    fn frames_of(&mut self, plan: &Plan, schedule: &Schedule) {
        self.frames = Frames::new(plan, self.scheme, schedule);
    }
}
