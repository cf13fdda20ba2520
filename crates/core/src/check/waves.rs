//! Remedies done together: of what is found the first of each finding that holds with the others, in the order of a winter.
//!
//! To judge a row again after every single remedy would cost a stretch of it each time, and most remedies do nothing to each other. So
//! those of one time in a winter are done in waves, in which no tree is worked on or told of twice; the row is judged before and after a
//! wave, and each remedy by what stands near it. Where anything has become graver, and where wood is laid or a wire is moved, remedies
//! are tried one by one.

use super::graver::{Change, stand};
use super::known::{How, Known};
use super::stage::Stage;
use super::trial::{State, Trees};
use super::{Also, Finding, Remedy, mended};
use crate::arrange::{Arrange, Gather};
use crate::cover::Span;
use crate::plan::{Plan, Replayed};
use crate::row::TreeId;
use crate::sorted::Set;
use crate::work::Work;
use std::rc::Rc;

/// Room beside what is judged for a remedy, mm: what it leaves of a finding is told beside what there was of it.
const LONGER: f64 = 2_000.0;

/// Remedies that were done.
pub struct Together {
    /// The plan with them.
    pub plan: Plan,
    /// Of each its finding, its place among that one's remedies, and what it does besides where it was tried by itself, in the
    /// order of a winter.
    pub done: Vec<(usize, usize, Vec<Also>)>,
}

/// A remedy that is to be tried next of its finding.
#[derive(Clone, Copy)]
struct Turn {
    finding: usize,
    remedy: usize,
}

/// Does of each finding the first remedy that can be done with those before it and makes nothing graver. `at` is the plan's row after
/// the moment's work, and `findings` are of it. A remedy that takes from a plan what `stays` asks for is not done, nor any other of its
/// finding. What was judged is `known` to the next.
pub(crate) fn together(
    plan: &Plan,
    scheme: usize,
    at: &Replayed,
    findings: &[Finding],
    stays: &dyn Fn(&Plan, &[Work]) -> bool,
    known: &mut Known,
) -> Together {
    let mut job = Job {
        state: State::of(plan.clone(), scheme, at.clone()),
        findings,
        stays,
        known,
        done: Vec::new(),
        left: Vec::new(),
        worked: Set::new(),
    };
    let all = 0..findings.len();
    let turns = all.map(|finding| Turn { finding, remedy: 0 });
    job.left = turns.filter(|t| job.remedy(*t).is_some()).collect();
    while !job.left.is_empty() {
        job.left.arrange_by_key(|t| order(findings, *t));
        let mut wave = job.wave();
        wave.retain(|t| job.stands(*t));
        job.try_wave(wave);
    }
    let mut done = std::mem::take(&mut job.done);
    done.arrange_by_key(|(t, _)| order(findings, *t));
    Together {
        plan: job.state.plan,
        done: done
            .into_iter()
            .map(|(t, also)| (t.finding, t.remedy, also))
            .collect(),
    }
}

struct Job<'f> {
    state: State,
    findings: &'f [Finding],
    stays: &'f dyn Fn(&Plan, &[Work]) -> bool,
    known: &'f mut Known,
    done: Vec<(Turn, Vec<Also>)>,
    left: Vec<Turn>,
    /// The trees that something was done to.
    worked: Set<TreeId>,
}

/// A remedy of a wave: the trees that it changes.
struct Tried {
    turn: Turn,
    trees: Trees,
    around: Span,
}

fn order(findings: &[Finding], turn: Turn) -> (Stage, usize) {
    (Stage::of_rule(findings[turn.finding].rule), turn.finding)
}

fn span(f: &Finding) -> Span {
    Span {
        from: f.x,
        to: f.x + f.width,
    }
}

fn meet(a: Span, b: Span) -> bool {
    a.from <= b.to && b.from <= a.to
}

impl<'f> Job<'f> {
    fn remedy(&self, turn: Turn) -> Option<&'f Remedy> {
        self.findings[turn.finding].remedies.get(turn.remedy)
    }

    fn crosses(&self, turn: Turn) -> bool {
        self.findings[turn.finding].rule == super::uprights_crossing::RULE
    }

    /// The trees that a remedy works on or its finding tells of.
    fn touches(&self, turn: Turn) -> Set<TreeId> {
        let told = self.findings[turn.finding].subjects.iter().map(|p| p.tree);
        let work = self.remedy(turn).into_iter().flat_map(|r| &r.work);
        told.chain(work.filter_map(Work::tree)).gathered_set()
    }

    /// Whether what crowds does so still: of a pair from which one is gone the other stays.
    fn stands(&self, turn: Turn) -> bool {
        let finding = &self.findings[turn.finding];
        let mut touched = self.touches(turn).into_iter();
        if Stage::of_rule(finding.rule) != Stage::Crowding
            || !touched.any(|t| self.worked.contains(&t))
        {
            return true;
        }
        let (row, _) = self.state.stretch(span(finding), [].into_iter());
        stand(&self.state.context(&row), &[finding]) == [true]
    }

    /// Takes the next wave out of what is left: remedies of one time in a winter, or one that is about the whole row.
    fn wave(&mut self) -> Vec<Turn> {
        let left = std::mem::take(&mut self.left);
        let stage = left.first().map(|t| order(self.findings, *t).0);
        let mut busy: Set<TreeId> = Set::new();
        let (mut wave, mut closed) = (Vec::new(), false);
        for turn in left {
            let touches = self.touches(turn);
            let whole = self.remedy(turn).is_none_or(|r| self.state.is_whole(r));
            let free = touches.iter().all(|t| !busy.contains(t));
            busy.extend(touches);
            if closed
                || !free
                || Some(order(self.findings, turn).0) != stage
                || whole && !wave.is_empty()
            {
                closed |= whole;
                self.left.push(turn);
                continue;
            }
            closed |= whole;
            wave.push(turn);
        }
        wave
    }

    fn did(&mut self, turn: Turn, also: Vec<Also>) {
        let work = self.remedy(turn).into_iter().flat_map(|r| &r.work);
        self.worked.extend(work.filter_map(Work::tree));
        self.done.push((turn, also));
    }

    /// The next remedy of a finding has its turn. Of two that crowd each other the better goes only in place of one that could go too.
    fn fails(&mut self, turn: Turn) {
        let next = Turn {
            remedy: turn.remedy + 1,
            ..turn
        };
        let crowds = self.findings[turn.finding].rule == super::uprights_too_close::RULE;
        if !crowds && self.remedy(next).is_some() {
            self.left.push(next);
        }
    }

    fn try_wave(&mut self, wave: Vec<Turn>) {
        let (mut all, mut alone) = (Vec::new(), Vec::new());
        let plan = self.tried(&wave, &mut all, &mut alone);
        let (clean, graver) = self.judge(all);
        alone.extend(graver);
        if !clean.is_empty() {
            // No two of a wave are about the same tree: each brings the work on its own.
            let own = clean.iter().flat_map(|t| &t.trees.changed);
            let own: Vec<TreeId> = own.map(|p| p.tree().id).collect();
            let from = plan.unwrap_or_else(|| self.state.plan.clone());
            self.state.plan = self.state.plan.taking(self.state.scheme, &own, &from);
            for tried in clean {
                for tree in &tried.trees.changed {
                    self.state.put(tree);
                }
                self.did(tried.turn, Vec::new());
            }
        }
        alone.arrange_by_key(|t| order(self.findings, *t));
        for turn in alone {
            self.alone(turn);
        }
    }

    /// Does one remedy, and judges what stands near it.
    fn alone(&mut self, turn: Turn) {
        let Some(remedy) = self.remedy(turn) else {
            return;
        };
        let rule = self.findings[turn.finding].rule;
        match self.state.does(self.known, rule, remedy, self.stays) {
            Some(Some(also)) => self.did(turn, also),
            Some(None) => {}
            None => self.fails(turn),
        }
    }

    /// What becomes of the trees of a wave: of `all` that can be judged together, and of which have to be tried `alone`. The plan with
    /// all of them, where they can all be done.
    fn tried(
        &mut self,
        wave: &[Turn],
        all: &mut Vec<Tried>,
        alone: &mut Vec<Turn>,
    ) -> Option<Plan> {
        if let [turn] = wave {
            alone.push(*turn);
            return None;
        }
        let remedies: Vec<&Remedy> = wave.iter().filter_map(|t| self.remedy(*t)).collect();
        let (scheme, moment) = (self.state.scheme, self.state.moment);
        let together = mended(&self.state.plan, scheme, moment, &remedies).ok();
        let plan = together.unwrap_or_else(|| {
            let mut plan = self.state.plan.clone();
            for remedy in &remedies {
                plan = mended(&plan, scheme, moment, &[remedy]).unwrap_or(plan);
            }
            plan
        });
        let ids = remedies.iter().flat_map(|r| &r.work);
        let ids = ids.filter_map(Work::tree).gathered_set();
        let Ok(trees) = plan.trees_after(scheme, moment, &ids) else {
            alone.extend(wave);
            return None;
        };
        for turn in wave {
            let Some(remedy) = self.remedy(*turn) else {
                continue;
            };
            if !(self.stays)(&plan, &remedy.work) {
                continue;
            }
            let own = remedy.work.iter().filter_map(Work::tree).gathered_set();
            let own = own.iter().filter_map(|id| trees.get(id));
            match self.state.changes(own) {
                // What stands straight opens and closes the wall, which is not told of a wave.
                Some(trees) if trees.lays || self.crosses(*turn) => alone.push(*turn),
                Some(trees) => all.push(Tried {
                    turn: *turn,
                    around: trees.around(),
                    trees,
                }),
                None => self.fails(*turn),
            }
        }
        Some(plan)
    }

    /// Of remedies that were done together those that are of use and leave nothing graver near them, and those of which that can't be
    /// said of each by itself.
    fn judge(&mut self, mut all: Vec<Tried>) -> (Vec<Tried>, Vec<Turn>) {
        all.arrange_by(|a, b| a.around.from.total_cmp(&b.around.from));
        let (mut clean, mut graver) = (Vec::new(), Vec::new());
        while !all.is_empty() {
            // Those that reach into each other are judged on one stretch.
            let mut to = all[0].around.to;
            let mut count = 1;
            while all.get(count).is_some_and(|next| next.around.from <= to) {
                to = to.max(all[count].around.to);
                count += 1;
            }
            let rest = all.split_off(count);
            let stretch = Span {
                from: all[0].around.from,
                to,
            };
            self.judge_stretch(stretch, all, &mut clean, &mut graver);
            all = rest;
        }
        (clean, graver)
    }

    fn judge_stretch(
        &mut self,
        stretch: Span,
        all: Vec<Tried>,
        clean: &mut Vec<Tried>,
        graver: &mut Vec<Turn>,
    ) {
        let changed = all.iter().flat_map(|t| &t.trees.changed);
        let (was, is) = self.state.stretch(stretch, changed);
        let mut found = |row| {
            let context = self.state.context(row);
            Along::new(self.known.judged(How::Work, &context))
        };
        let (before, after) = (found(&was), found(&is));
        let told: Vec<(bool, bool)> = all
            .iter()
            .map(|tried| {
                let wide = Span {
                    from: tried.around.from - LONGER,
                    to: tried.around.to + LONGER,
                };
                let change = Change::new(before.within(wide), after.within(wide));
                let mends = change.mends_of(&self.touches(tried.turn), tried.trees.reach);
                (mends, change.is_graver_in(tried.around))
            })
            .collect();
        let bad: Vec<Span> = all
            .iter()
            .zip(&told)
            .filter(|(_, (_, graver))| *graver)
            .map(|(t, _)| t.around)
            .collect();
        for (tried, (mends, _)) in all.into_iter().zip(told) {
            match (bad.iter().any(|b| meet(*b, tried.around)), mends) {
                (true, _) => graver.push(tried.turn),
                (false, true) => clean.push(tried),
                (false, false) => self.fails(tried.turn),
            }
        }
    }
}

/// Findings by their places, looked up by stretch.
struct Along {
    found: Rc<Vec<Finding>>,
    widest: f64,
}

impl Along {
    fn new(found: Rc<Vec<Finding>>) -> Self {
        Self {
            widest: found.iter().map(|f| f.width).fold(0.0, f64::max),
            found,
        }
    }

    fn within(&self, here: Span) -> Vec<&Finding> {
        let first = self
            .found
            .partition_point(|f| f.x < here.from - self.widest);
        let last = self.found.partition_point(|f| f.x <= here.to);
        let all = self.found[first..last.max(first)].iter();
        all.filter(|f| meet(span(f), here)).collect()
    }
}
