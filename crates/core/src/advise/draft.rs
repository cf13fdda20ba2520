//! Drafting a window's work.

use super::{Choosing, Draft, Next, Piece, Weights, Why, fill, stand, uprights, windows};
use crate::arrange::{Arrange, Gather};
use crate::check::{
    Context, Finding, Known, Mendable, Reason, Severity, Stage, bent_too_tight, cut_too_much,
    harmed, is_left, is_renewal, renewal_reasons, together,
};
use crate::plan::{Phase, Plan, Replayed, Replayer, Schedule};
use crate::refusal::Refusal;
use crate::row::{Kind, Moment, TreeId, Window};
use crate::sorted::{Map, Set};
use crate::work::{Subject, Work};

/// More rounds than this add nothing that a person would follow.
const ROUNDS: usize = 60;
/// What is done before what comes after it in a winter is asked for.
/// Wires wait for what is cut.
const UNTIL: [Stage; 3] = [Stage::Crowding, Stage::Straight, Stage::Height];

/// The whole work of a window on a plan's row, under a scheme.
///
/// # Errors
/// No such scheme; a moment before the row was found or after the last leaf.
pub fn draft(plan: &Plan, scheme: usize, moment: Moment) -> Result<Draft, Refusal> {
    draft_by(plan, scheme, moment, &Weights::default())
}

/// As [`draft`], by other weights.
///
/// # Errors
/// As [`draft`].
pub fn draft_by(
    plan: &Plan,
    scheme: usize,
    moment: Moment,
    weights: &Weights,
) -> Result<Draft, Refusal> {
    let whole = plan.with_works(scheme, moment, Vec::new())?;
    let whole = whole.with_planned(scheme, moment)?;
    let stood = plan.scheme(scheme)?.stands(moment);
    let mut job = Job {
        scheme,
        moment,
        weights: *weights,
        replayer: Replayer::default(),
        held: Map::new(),
        pieces: Vec::new(),
        plan: whole.clone(),
        known: Known::default(),
    };
    if !stood {
        for work in plan.scheme(scheme)?.work(moment) {
            job.held.entry(work.tree()).or_default().push(work.clone());
        }
        job.young()?;
        job.rounds()?;
        job.spare()?;
        return Ok(job.end(Vec::new()));
    }
    let row = job.replayer.at(plan, scheme, moment, Phase::Before)?.row;
    let usual: Vec<Work> = whole.scheme(scheme)?.work(moment).cloned().collect();
    let instead: Vec<Work> = usual
        .iter()
        .filter(|w| stand::is_blind(w))
        .cloned()
        .collect();
    job.pieces = stand::pieces(&row, usual);
    let (pieces, start) = (job.pieces.clone(), job.at(&whole)?);
    if !instead.is_empty() {
        // What is judged tree by tree gives way to what the row asks for, unless the row is the worse for it.
        job.plan = whole.without_work(scheme, moment, stand::is_blind)?;
        job.rounds()?;
        job.spare()?;
        let now = job.at(&job.plan.clone())?;
        if harmed(&Context::of(&start), &Context::of(&now)).is_empty() {
            return Ok(job.end(instead));
        }
        (job.plan, job.pieces) = (whole, pieces);
    }
    job.rounds()?;
    job.spare()?;
    Ok(job.end(Vec::new()))
}

/// A draft on the way.
struct Job {
    scheme: usize,
    moment: Moment,
    weights: Weights,
    replayer: Replayer,
    /// Work of the window that its grower has planned: it stays.
    held: Map<Option<TreeId>, Vec<Work>>,
    pieces: Vec<Piece>,
    plan: Plan,
    /// What was judged on the way.
    known: Known,
}

impl Job {
    fn at(&mut self, plan: &Plan) -> Result<Replayed, Refusal> {
        self.replayer
            .at(plan, self.scheme, self.moment, Phase::After)
    }

    /// The usual work of young trees, as far as it harms nothing.
    fn young(&mut self) -> Result<(), Refusal> {
        let before = self
            .replayer
            .at(&self.plan, self.scheme, self.moment, Phase::Before)?;
        let mut pieces = stand::young(&self.plan, self.scheme, &before);
        let open = |p: &Piece| {
            let about = |w: &Work| self.held_on(w).any(|h| h.subject() == w.subject());
            !p.work.iter().any(about) && windows::belongs(self.moment.window, &p.work)
        };
        pieces.retain(open);
        // Stock is laid whatever comes of it, unless it breaks: there is no row without.
        let (lays, mut pieces): (Vec<Piece>, Vec<Piece>) = pieces
            .into_iter()
            .partition(|p| p.work.iter().all(|w| matches!(w, Work::Lay { .. })));
        let mut was = bent_too_tight(&Context::of(&self.at(&self.plan.clone())?));
        for piece in lays {
            let Some(next) = self.doing(&self.plan, &piece.work) else {
                continue;
            };
            let is = bent_too_tight(&Context::of(&self.at(&next)?));
            if is.iter().all(|part| was.contains(part)) {
                (self.plan, was) = (next, is);
                self.pieces.push(piece);
            }
        }
        let start = self.at(&self.plan.clone())?;
        while !pieces.is_empty() {
            let mut plan = self.plan.clone();
            let mut done: Vec<Piece> = Vec::new();
            for piece in &pieces {
                if let Some(next) = self.doing(&plan, &piece.work) {
                    plan = next;
                    done.push(piece.clone());
                }
            }
            let now = self.at(&plan)?;
            let harmed = harmed(&Context::of(&start), &Context::of(&now));
            if harmed.is_empty() {
                self.plan = plan;
                self.pieces.extend(done);
                return Ok(());
            }
            let were = pieces.len();
            pieces.retain(|p| !p.trees().any(|t| harmed.contains(&t)));
            if pieces.len() == were {
                return Ok(());
            }
        }
        Ok(())
    }

    /// The plan with work done, where it can be and leaves what is planned as it is.
    fn doing(&self, plan: &Plan, work: &[Work]) -> Option<Plan> {
        let next = plan.with_works(self.scheme, self.moment, work.to_vec());
        let next = next.ok()?;
        self.holds(&next, work).then_some(next)
    }

    /// What is planned on the tree of a work.
    fn held_on(&self, work: &Work) -> impl Iterator<Item = &Work> {
        self.held.get(&work.tree()).into_iter().flatten()
    }

    /// Whether what was planned on the trees of a work is there still.
    fn holds(&self, plan: &Plan, work: &[Work]) -> bool {
        let Ok(on) = plan.scheme(self.scheme) else {
            return false;
        };
        let mut held = work.iter().flat_map(|w| self.held_on(w));
        held.all(|h| on.work_on(self.moment, h.tree()).contains(h))
    }

    /// Does what is offered first, round by round, until nothing is: what crowds before stubs are counted, and what shortens
    /// last, once it is known what stands.
    fn rounds(&mut self) -> Result<(), Refusal> {
        let mut been: Vec<(Schedule, usize)> = Vec::new();
        // Of the wood that would fill best what can't be laid as the row stands.
        let mut refused: Vec<Vec<Work>> = Vec::new();
        let mut until = 0;
        let mut round = 0;
        'row: while round < ROUNDS {
            let at = self.at(&self.plan.clone())?;
            let context = Context::of(&at);
            let row = Mendable::of(&context);
            while round < ROUNDS {
                round += 1;
                let (found, better) = self.open(&context, &row, UNTIL[until], &refused);
                let here = (self.plan.scheme(self.scheme)?.schedule.clone(), until);
                let is_new = !been.contains(&here) || !refused.is_empty();
                let any = is_new && {
                    been.push(here);
                    self.take(round, &at, found, &better)
                };
                let lays = is_new && UNTIL[until] >= Stage::Gaps;
                let not = better
                    .iter()
                    .filter(|n| lays && !self.pieces.iter().any(|p| p.work == n.work));
                let not: Vec<Vec<Work>> = not.map(|n| n.work.clone()).collect();
                match (any, not.is_empty()) {
                    (true, _) => {
                        refused.clear();
                        until = 0;
                        continue 'row;
                    }
                    (false, false) => refused.extend(not),
                    (false, true) if until + 1 < UNTIL.len() => until += 1,
                    (false, true) => break 'row,
                }
            }
        }
        Ok(())
    }

    /// Takes back the last stubs of trees of which more than a third would go, since it was known only after them what else has to: where
    /// that harms nothing.
    fn spare(&mut self) -> Result<(), Refusal> {
        if self.moment.window != Window::Dormant {
            return Ok(());
        }
        let start = self.at(&self.plan.clone())?;
        let mut over = cut_too_much(&Context::of(&start));
        while !over.is_empty() {
            let mut back: Vec<Work> = Vec::new();
            for (tree, many) in &over {
                let own = self.pieces.iter().rev().flat_map(|p| p.work.iter().rev());
                let own = own.filter(|w| stand::is_blind(w) && w.tree() == Some(*tree));
                back.extend(own.take(*many).cloned());
            }
            let goes = |w: &Work| back.contains(w);
            let next = self.plan.without_work(self.scheme, self.moment, goes)?;
            let was = (std::mem::replace(&mut self.plan, next), self.pieces.clone());
            // What stands again has its other work to be done.
            self.rounds()?;
            let harmed = harmed(
                &Context::of(&start),
                &Context::of(&self.at(&self.plan.clone())?),
            );
            if harmed.is_empty() {
                break;
            }
            (self.plan, self.pieces) = was;
            let were = over.len();
            over.retain(|(tree, _)| !harmed.contains(tree));
            if over.len() == were {
                break;
            }
        }
        Ok(())
    }

    /// Does the first remedies that hold together and leave what is planned as it is; whether there were any.
    fn take(
        &mut self,
        round: usize,
        at: &Replayed,
        mut found: Vec<Finding>,
        better: &[Next],
    ) -> bool {
        let mut known = std::mem::take(&mut self.known);
        let stays = |plan: &Plan, work: &[Work]| self.holds(plan, work);
        let together = together(&self.plan, self.scheme, at, &found, &stays, &mut known);
        let any = !together.done.is_empty();
        self.known = known;
        let renews = |(place, remedy, _): &(usize, usize, _)| {
            let finding: &Finding = &found[*place];
            let tree = finding.remedies[*remedy].work.first().and_then(Work::tree);
            tree.filter(|_| is_renewal(finding.rule))
        };
        let renewed = together.done.iter().filter_map(renews).gathered_set();
        let renewed: Vec<TreeId> = renewed.into_iter().collect();
        let reasons = renewal_reasons(&Context::of(at), &renewed);
        for (place, remedy, also) in together.done {
            let finding = &mut found[place];
            let remedy = std::mem::take(&mut finding.remedies).swap_remove(remedy);
            let next = better.iter().find(|n| n.work == remedy.work);
            let of_tree = |r: &&Reason| remedy.work.iter().any(|w| w.tree() == Some(r.tree));
            let each = match is_renewal(finding.rule) {
                true => reasons.iter().filter(of_tree).cloned().collect(),
                false => Vec::new(),
            };
            self.pieces.push(Piece {
                said: remedy.said,
                also,
                each,
                x: finding.x,
                work: remedy.work,
                next: next.and_then(|n| n.next.clone()),
                stage: Stage::of_rule(finding.rule),
                round,
                why: Why::Found(Box::new(finding.clone())),
            });
        }
        self.plan = together.plan;
        any
    }

    /// What is open to be mended in this window up to a stage, in the order of a winter.
    fn open(
        &self,
        context: &Context<'_>,
        row: &Mendable<'_>,
        until: Stage,
        refused: &[Vec<Work>],
    ) -> (Vec<Finding>, Vec<Next>) {
        let mut found = row.findings(until);
        let left = is_left(&self.plan.left, context.row.leaf, &found);
        let mut left = left.into_iter();
        found.retain(|_| left.next() == Some(false));
        let by = Choosing {
            context,
            row,
            weights: &self.weights,
            refused,
        };
        let mut next = fill::choose(&mut found, &by);
        // What crowds another where wood is laid first, or is due to be renewed there, may be what is laid: who goes is asked once it
        // lies, and what is stubbed once it is known who goes.
        let laid = next
            .iter()
            .flat_map(|n| n.work.iter().filter_map(Work::tree));
        let laid: Set<TreeId> = laid.gathered_set();
        for finding in &mut found {
            let waits = |w: &Work| {
                let goes = matches!(w, Work::Remove { .. } | Work::Stub { .. });
                goes && w.tree().is_some_and(|t| laid.contains(&t))
            };
            let before = Stage::of_rule(finding.rule) <= Stage::Light;
            if before && finding.remedies.iter().any(|r| r.work.iter().any(waits)) {
                finding.remedies.clear();
            }
        }
        found.retain(|f| Stage::of_rule(f.rule) <= until);
        next.extend(uprights::choose(&mut found, &by));
        let window = self.moment.window;
        // Stock that still stands is laid by the rules, in its time: short stock waits a leaf.
        let stands = |id: TreeId| {
            context
                .row
                .tree(id)
                .is_some_and(|t| t.waits_as_stock(context.row.leaf))
        };
        let stock = |w: &Work| matches!(w, Work::Lay { tree, .. } if stands(*tree));
        for finding in &mut found {
            let note = finding.severity == Severity::Note;
            finding.remedies.retain(|r| {
                !note
                    && r.wall_height.is_none()
                    && windows::belongs(window, &r.work)
                    && !r.work.iter().any(stock)
            });
        }
        found.retain(|f| !f.remedies.is_empty());
        found.arrange_by_key(|f| Stage::of_rule(f.rule));
        (found, next)
    }

    /// The draft: of each piece what is in the plan in the end, each work once.
    fn end(mut self, instead: Vec<Work>) -> Draft {
        let at = self.at(&self.plan.clone()).ok();
        let name = |w: &Work| {
            let posed = at.as_ref()?.row.of_tree(w.tree()?)?;
            let shoot = w.subject().shoot;
            posed.before().name(shoot).or_else(|| posed.name(shoot))
        };
        let mut told: Set<Subject> = Set::new();
        let there = self.plan.schemes.get(self.scheme);
        let mut pieces = self.pieces;
        let held = |w: &Work| self.held.get(&w.tree()).is_some_and(|h| h.contains(w));
        for piece in pieces.iter_mut().rev() {
            let were = (piece.work.len(), piece.work.first().cloned());
            piece.work.retain(|w| {
                let on = there.map_or(&[][..], |s| s.work_on(self.moment, w.tree()));
                on.contains(w) && !held(w) && told.insert(w.subject())
            });
            if piece.work.len() < were.0 {
                piece.said.count(piece.work.len());
            }
            let first = piece.work.first().filter(|w| were.1.as_ref() != Some(*w));
            if let Some(name) = first.and_then(name) {
                piece.said.tell("part", name.into());
            }
        }
        pieces.retain(|p| !p.work.is_empty());
        keep_true(&mut pieces, at.as_ref());
        pieces.arrange_by_key(|p| p.stage);
        Draft {
            scheme: self.scheme,
            moment: self.moment,
            pieces,
            plan: self.plan,
            instead,
        }
    }
}

/// Of the reasons of pieces those that hold of the whole draft, whose row `at` is: what was to be cut and stands again is told as standing
/// where a younger one is cut, and what is not there any more is not told.
fn keep_true(pieces: &mut [Piece], at: Option<&Replayed>) {
    let all = pieces.iter().flat_map(|p| &p.work);
    let stubs = all.filter(|w| stand::is_blind(w)).map(Work::subject);
    let stubs: Set<Subject> = stubs.gathered_set();
    let is_cut = |r: &Reason| {
        let own = |s: &Subject| (s.tree, s.shoot) == (Some(r.tree), r.shoot);
        stubs.iter().any(own)
    };
    let stands = |r: &Reason| {
        let shoot = at.and_then(|at| at.row.shoot(r.tree, r.shoot));
        shoot.is_some_and(|(_, s)| s.kind() == Kind::Upright)
    };
    for piece in pieces {
        let cut = |r: &Reason| piece.work.iter().any(|w| w.subject().shoot == r.shoot);
        let ages = piece
            .each
            .iter()
            .filter(|r| r.goes && cut(r))
            .map(|r| r.age);
        let youngest = ages.min();
        piece.each.retain_mut(|r| match (r.goes, is_cut(r)) {
            (true, true) => true,
            (false, true) => false,
            (goes, false) => {
                if goes {
                    r.stays_over();
                }
                stands(r) && youngest.is_some_and(|age| age < r.age)
            }
        });
    }
}
