//! Remedies tried before they are offered: each is done on the row, what stands near is judged again, and what would make
//! anything graver, touch nothing or leave work void is left out.
//!
//! Those that are offered first hold together too: none works on what another has cut.

use super::graver::{Change, judged, stand_as_grave};
use super::known::{How, Known};
use super::stage::Stage;
use super::{Also, Context, Finding, Remedy, mended};
use crate::arrange::{Arrange, Gather};
use crate::cover::{Cover, Span, cover_of, laid_of, places_of};
use crate::plan::{Phase, Plan, Replayed, replay};
use crate::pose::{Posed, PosedRow};
use crate::refusal::Refusal;
use crate::row::{Limit, Moment, Row, Targets, Tree, TreeId};
use crate::sorted::{Map, Set};
use crate::terms::Terms;
use crate::units::Mm;
use crate::work::Work;
use std::sync::Arc;

/// Room beside the trees that a remedy changes, mm: what is farther off is not judged again.
const BESIDE: f64 = 1_500.0;
/// Wire that is laid bare beside what is mended is told from this length on, mm.
const TOLD: f64 = 10.0;

/// Which remedies of a finding are offered: the place of each among all that were found, and what it does besides.
pub type Offered = Vec<(u32, Vec<Also>)>;

/// The findings with such remedies alone as are [`tried`] and found good, each with what it does besides.
pub fn offered(plan: &Plan, scheme: usize, at: &Replayed, findings: Vec<Finding>) -> Vec<Finding> {
    let offers = tried(plan, scheme, at, &findings);
    take(findings, &offers)
}

/// The findings with the remedies that are offered.
pub fn take(mut findings: Vec<Finding>, offers: &[Offered]) -> Vec<Finding> {
    let none = Offered::new();
    for (i, finding) in findings.iter_mut().enumerate() {
        let all = std::mem::take(&mut finding.remedies);
        for (place, also) in offers.get(i).unwrap_or(&none) {
            finding
                .remedies
                .extend(all.get(*place as usize).map(|r| Remedy {
                    also: also.clone(),
                    ..r.clone()
                }));
        }
    }
    findings
}

/// Of each finding those remedies that can be done at that moment under the scheme and make nothing graver. `at` is the plan's
/// row there, before or after the moment's work, and `findings` are of it. No such scheme: none.
///
/// A remedy that can be done alone, but not once those before it in a winter's order are, is left out too: it is found
/// again after them, if it is needed still.
pub fn tried(plan: &Plan, scheme: usize, at: &Replayed, findings: &[Finding]) -> Vec<Offered> {
    tried_told(plan, scheme, at, findings).0
}

/// Why a finding has remedies and none is offered.
#[derive(Clone, Debug, PartialEq)]
pub enum Withheld {
    /// Each does harm by itself, or nothing better: what the first that does harm would make graver.
    Graver(Box<Finding>),
    /// One would do, but not beside what is offered first: it is found again once that is done.
    Waits,
}

/// The same, and of findings whose remedies are all left out why, by the finding's place, where it is known.
pub fn tried_told(
    plan: &Plan,
    scheme: usize,
    at: &Replayed,
    findings: &[Finding],
) -> (Vec<Offered>, Vec<(usize, Withheld)>) {
    let mut offers = vec![Offered::new(); findings.len()];
    let mut withheld = Vec::new();
    let Ok(base) = State::new(plan, scheme, at) else {
        return (offers, withheld);
    };
    let mut done = base.clone();
    let mut known = Known::of_one_round();
    let mut order: Vec<usize> = (0..findings.len()).collect();
    order.retain(|i| !findings[*i].remedies.is_empty());
    order.arrange_by_key(|i| (Stage::of_rule(findings[*i].rule), *i));
    for i in order {
        let rule = findings[i].rule;
        let (mut why, mut holds_alone) = (None, false);
        // Beside what others have done the row is another after each of them: known from one finding to the next it would be held
        // over and over.
        let mut among = Known::of_one_round();
        for (place, remedy) in findings[i].remedies.iter().enumerate() {
            // Of two that crowd each other the better goes only in place of one that could go too.
            if place > 0 && offers[i].is_empty() && rule == super::uprights_too_close::RULE {
                break;
            }
            let Some(alone) = base.tried(&mut known, rule, remedy, Some(&mut why)) else {
                continue;
            };
            holds_alone = true;
            if offers[i].is_empty() {
                let holds = match done.touched_near(&alone) {
                    false => done.take(&alone, remedy),
                    true => done
                        .tried(&mut among, rule, remedy, None)
                        .and_then(|together| done.take(&together, remedy)),
                };
                if holds.is_none() {
                    continue;
                }
            }
            offers[i].push((place as u32, alone.also));
        }
        let why = match holds_alone {
            false => why.map(|why| Withheld::Graver(Box::new(why))),
            true => offers[i].is_empty().then_some(Withheld::Waits),
        };
        withheld.extend(why.map(|why| (i, why)));
    }
    (offers, withheld)
}

/// Of what was found on a plan's row before a moment's work, whether that work mends it: after it nothing as grave stands there.
pub fn settled(
    plan: &Plan,
    scheme: usize,
    moment: Moment,
    findings: &[&Finding],
) -> Result<Vec<bool>, Refusal> {
    let after = replay(plan, scheme, moment)?;
    let stands = stand_as_grave(&Context::of(&after), findings);
    Ok(stands.into_iter().map(|stands| !stands).collect())
}

/// A plan and its row after the work of the moment.
#[derive(Clone)]
pub(super) struct State {
    pub plan: Plan,
    pub scheme: usize,
    pub moment: Moment,
    /// The trees that were found.
    found: Arc<Set<TreeId>>,
    row: PosedRow,
    terms: Terms,
    targets: Arc<Targets>,
    /// How far along the row the shoots of each tree reach.
    reach: Vec<Span>,
    /// How far from its foot any of them reaches, mm.
    far: f64,
    /// The trees that are not as they were.
    touched: Vec<Span>,
    /// Work that touches nothing.
    void: usize,
    /// Wire that is filled, mm.
    filled: f64,
}

/// A remedy that was tried and does no harm.
struct Tried {
    plan: Plan,
    /// The trees that it changes, as they are then.
    trees: Vec<Arc<Posed>>,
    /// The whole row, where it changes what stands around the trees.
    whole: Option<Replayed>,
    reach: Span,
    also: Vec<Also>,
}

/// What has become of trees.
pub(super) struct Trees {
    /// Those that are other than they were.
    pub changed: Vec<Arc<Posed>>,
    /// As far as they reach along the row, and did.
    pub reach: Span,
    /// Whether their laid wood is another.
    pub lays: bool,
}

impl Trees {
    /// The stretch that is judged for their sake: whole half metres, so that remedies of one tree are judged over one.
    pub fn around(&self) -> Span {
        let edge = |x: f64| libm::floor(x / 500.0) * 500.0;
        Span {
            from: edge(self.reach.from - BESIDE),
            to: edge(self.reach.to + BESIDE) + 500.0,
        }
    }
}

fn reach_of(posed: &Posed) -> Span {
    let foot = posed.tree().foot.f();
    let none = Span {
        from: foot,
        to: foot,
    };
    posed.courses().iter().fold(none, |span, c| {
        let (base, tip) = (c.base.x, c.tip().x);
        Span {
            from: span.from.min(base).min(tip),
            to: span.to.max(base).max(tip),
        }
    })
}

/// How far what reaches so far does so from the tree's foot, mm.
fn far_from_foot(posed: &Posed, reach: Span) -> f64 {
    let foot = posed.tree().foot.f();
    (foot - reach.from).max(reach.to - foot)
}

fn meet(a: Span, b: Span) -> bool {
    a.from <= b.to && b.from <= a.to
}

impl State {
    fn new(plan: &Plan, scheme: usize, at: &Replayed) -> Result<Self, Refusal> {
        let after = match at.phase {
            Phase::After => at.clone(),
            Phase::Before => replay(plan, scheme, at.moment)?,
        };
        let mut out = Self::of(plan.clone(), scheme, after);
        out.moment = at.moment;
        Ok(out)
    }

    /// A plan whose row after the work is known.
    pub fn of(plan: Plan, scheme: usize, after: Replayed) -> Self {
        let row = after.row;
        let whole = Span {
            from: row.from.f(),
            to: row.to.f(),
        };
        let laid = row
            .posed()
            .iter()
            .flat_map(|p| laid_of(p.tree(), p.courses(), row.geometry(), &plan.targets));
        let reach: Vec<Span> = row.posed().iter().map(|p| reach_of(p)).collect();
        let each = row.posed().iter().zip(&reach);
        Self {
            scheme,
            found: Arc::new(plan.found.trees.iter().map(|t| t.id).gathered_set()),
            moment: after.moment,
            far: each.map(|(p, r)| far_from_foot(p, *r)).fold(0.0, f64::max),
            reach,
            filled: cover_of(laid.collect(), whole).filled,
            terms: after.terms,
            targets: after.targets,
            touched: Vec::new(),
            void: after.void.len(),
            plan,
            row,
        }
    }

    /// Whether a remedy that was tried elsewhere works near trees that are changed here.
    fn touched_near(&self, tried: &Tried) -> bool {
        let around = Span {
            from: tried.reach.from - BESIDE,
            to: tried.reach.to + BESIDE,
        };
        tried.whole.is_some() || self.touched.iter().any(|t| meet(*t, around))
    }

    /// Does a remedy that was tried; `None`, and nothing done, where it can't be.
    fn take(&mut self, tried: &Tried, remedy: &Remedy) -> Option<()> {
        if let Some(after) = &tried.whole {
            *self = Self::of(tried.plan.clone(), self.scheme, after.clone());
            // All of the row may have changed.
            self.touched = self.reach.clone();
            return Some(());
        }
        self.plan = mended(&self.plan, self.scheme, self.moment, &[remedy]).ok()?;
        for tree in &tried.trees {
            self.put(tree)?;
        }
        self.touched.push(tried.reach);
        Some(())
    }

    /// Puts a tree in the place of what it was; `None` where there was none.
    pub fn put(&mut self, tree: &Arc<Posed>) -> Option<()> {
        let i = self.row.take(tree)?;
        self.reach[i] = reach_of(tree);
        self.far = self.far.max(far_from_foot(tree, self.reach[i]));
        Some(())
    }

    /// Does a remedy that is of use and makes nothing graver, and tells what it does besides: nothing where `stays` has not let
    /// it. `None` where it is none.
    pub fn does(
        &mut self,
        known: &mut Known,
        rule: &str,
        remedy: &Remedy,
        stays: &dyn Fn(&Plan, &[Work]) -> bool,
    ) -> Option<Option<Vec<Also>>> {
        let tried = self.tried(known, rule, remedy, None)?;
        if !stays(&tried.plan, &remedy.work) {
            return Some(None);
        }
        self.take(&tried, remedy).map(|()| Some(tried.also))
    }

    /// The row without its trees, over a stretch of it.
    fn part(&self, span: Span) -> Row {
        Row {
            leaf: self.row.leaf,
            from: Mm::round(span.from.max(self.row.from.f())),
            to: Mm::round(
                span.to
                    .min(self.row.to.f())
                    .max(span.from.max(self.row.from.f())),
            ),
            trellis: self.row.trellis.clone(),
            trees: Vec::new(),
        }
    }

    pub fn context<'c>(&'c self, row: &'c PosedRow) -> Context<'c> {
        Context {
            row,
            moment: self.moment,
            terms: &self.terms,
            targets: &self.targets,
            void: &[],
        }
    }

    /// Does the remedy and judges what stands near; `None` where it is of no use or does harm. `why` takes what it makes graver, where
    /// it has nothing yet.
    fn tried(
        &self,
        known: &mut Known,
        rule: &str,
        remedy: &Remedy,
        why: Option<&mut Option<Finding>>,
    ) -> Option<Tried> {
        let plan = mended(&self.plan, self.scheme, self.moment, &[remedy]).ok()?;
        let ids = remedy.work.iter().filter_map(Work::tree).gathered_set();
        if self.is_whole(remedy) {
            return self.tried_whole(rule, plan, why);
        }
        let trees = plan.trees_after(self.scheme, self.moment, &ids).ok()?;
        let trees = self.changes(trees.values())?;
        let around = trees.around();
        let (was, is) = self.stretch(around, trees.changed.iter());
        let before = known.judged(How::Near, &self.context(&was));
        let after = known.judged_after(How::Near, &self.context(&is));
        let change = Change::new(before.iter().collect(), after.iter().collect());
        if !change.mends(rule) || change.is_graver() || self.empties(&was, &is) {
            change.tell_gravest(&self.context(&is), why);
            return None;
        }
        Some(Tried {
            reach: trees.reach,
            trees: trees.changed,
            plan,
            whole: None,
            also: self.also(remedy, &was, &is),
        })
    }

    /// Whether a remedy changes what stands around the trees, or trees that were not found: it is judged on the whole row.
    pub fn is_whole(&self, remedy: &Remedy) -> bool {
        let of_tree = |w: &Work| w.tree().is_some_and(|id| self.found.contains(&id));
        remedy.wall_height.is_some() || !remedy.work.iter().all(of_tree)
    }

    /// What has changed of trees after work, each with how much of its work is void; `None` where that is nothing, or more is void
    /// than was.
    pub fn changes<'t>(
        &self,
        trees: impl Iterator<Item = &'t (Arc<Tree>, usize)>,
    ) -> Option<Trees> {
        let g = self.row.geometry();
        let mut out: Option<Trees> = None;
        let (mut void, mut ids) = (0, Set::new());
        for (tree, idle) in trees {
            void += idle;
            ids.insert(tree.id);
            let i = self.row.index(tree.foot, tree.id)?;
            let old = &self.row.posed()[i];
            if tree == old.tree() {
                continue;
            }
            let new = Arc::new(old.worked_on_more(Arc::clone(tree)));
            let out = out.get_or_insert_with(|| Trees {
                changed: Vec::new(),
                reach: self.reach[i],
                lays: false,
            });
            for span in [self.reach[i], reach_of(&new)] {
                out.reach = Span {
                    from: out.reach.from.min(span.from),
                    to: out.reach.to.max(span.to),
                };
            }
            let laid = |p: &Posed| laid_of(p.tree(), p.courses(), g, &self.plan.targets);
            out.lays |= laid(old) != laid(&new);
            out.changed.push(new);
        }
        if void > 0 {
            let before = self.plan.trees_after(self.scheme, self.moment, &ids).ok()?;
            if void > before.values().map(|(_, void)| void).sum() {
                return None;
            }
        }
        out
    }

    /// A stretch of the row as it is, and with changed trees.
    pub fn stretch<'t>(
        &self,
        around: Span,
        changed: impl Iterator<Item = &'t Arc<Posed>>,
    ) -> (PosedRow, PosedRow) {
        let g = self.row.geometry();
        let by_id = |p: &'t Arc<Posed>| (p.tree().id, p);
        let changed: Map<TreeId, &Arc<Posed>> = changed.map(by_id).gathered_map();
        let foot = |p: &Arc<Posed>| p.tree().foot.f();
        let all = self.row.posed();
        let first = all.partition_point(|p| foot(p) < around.from - self.far);
        let last = all.partition_point(|p| foot(p) <= around.to + self.far);
        let near: Vec<Arc<Posed>> = all[first..last]
            .iter()
            .zip(&self.reach[first..last])
            .filter(|(p, r)| meet(**r, around) || changed.contains_key(&p.tree().id))
            .map(|(p, _)| Arc::clone(p))
            .collect();
        let now = |p: &Arc<Posed>| Arc::clone(changed.get(&p.tree().id).copied().unwrap_or(p));
        let mended: Vec<Arc<Posed>> = near.iter().map(now).collect();
        let row = |posed| PosedRow::from_posed(self.part(around), g, posed);
        (row(near), row(mended))
    }

    /// As [`Self::tried`], for what changes the wires or the wall: the whole row is judged again.
    fn tried_whole(
        &self,
        rule: &str,
        plan: Plan,
        why: Option<&mut Option<Finding>>,
    ) -> Option<Tried> {
        let after = replay(&plan, self.scheme, self.moment).ok()?;
        if after.void.len() > self.void {
            return None;
        }
        let before = judged(&self.context(&self.row));
        let context = Context {
            terms: &after.terms,
            ..self.context(&after.row)
        };
        let now = judged(&context);
        let change = Change::new(before.iter().collect(), now.iter().collect());
        if !change.mends(rule) || change.is_graver() {
            change.tell_gravest(&context, why);
            return None;
        }
        Some(Tried {
            trees: Vec::new(),
            reach: Span {
                from: self.row.from.f(),
                to: self.row.to.f(),
            },
            whole: Some(after),
            plan,
            also: Vec::new(),
        })
    }

    fn cover(&self, row: &PosedRow) -> Cover {
        let laid = row
            .posed()
            .iter()
            .flat_map(|p| laid_of(p.tree(), p.courses(), row.geometry(), &self.plan.targets));
        let whole = Span {
            from: row.from.f(),
            to: row.to.f(),
        };
        cover_of(laid.collect(), whole)
    }

    /// Whether the cordon as a whole counts as filled, and no longer with the remedy.
    fn empties(&self, was: &PosedRow, is: &PosedRow) -> bool {
        let owed = (self.row.to - self.row.from).f();
        let asked = owed * self.plan.targets.get(Limit::FillDueShare);
        let gone = self.cover(was).filled - self.cover(is).filled;
        f64::from(self.row.leaf) > self.plan.targets.get(Limit::FillDueLeaf)
            && self.filled >= asked
            && self.filled - gone < asked
    }

    /// What a remedy does besides, as far as its own words do not say it.
    fn also(&self, remedy: &Remedy, was: &PosedRow, is: &PosedRow) -> Vec<Also> {
        let mut out = Vec::new();
        // What is cut with a shoot that is laid follows it: the shoot, or its leader.
        let mut laid = None;
        for work in &remedy.work {
            match (work, laid) {
                (Work::Lay { shoot, .. }, _) => laid = Some(*shoot),
                (Work::CutBack { shoot, keep_mm, .. }, Some(laid)) => {
                    out.push(match *shoot == laid {
                        true => Also::CutsBack(keep_mm.f()),
                        false => Also::EndsLeader,
                    })
                }
                _ => {}
            }
        }
        let (before, after) = (self.cover(was), self.cover(is));
        let bared = before.filled - after.filled;
        if bared >= TOLD {
            out.push(Also::Bares(bared));
        }
        let doubled = after.doubled() - before.doubled();
        if doubled > self.plan.targets.let_pass(Limit::OverlapMax) {
            out.push(Also::Doubles(doubled));
        }
        let places = |row: &PosedRow| {
            let all = row.posed().iter().flat_map(|p| places_of(p));
            let all = all.map(|place| (place.tree, place.shoot));
            all.gathered_set()
        };
        let (before, after) = (places(was), places(is));
        let told = remedy
            .work
            .iter()
            .filter_map(|w| Some((w.tree()?, w.subject().shoot)))
            .gathered_set();
        // What a shorter leader costs is in its own words.
        let lost = before
            .difference(&after)
            .filter(|part| !told.contains(part))
            .count();
        if lost > 0 && remedy.said.key != "remedy-end-leader" {
            out.push(Also::Takes(lost as u32));
        }
        out
    }
}
