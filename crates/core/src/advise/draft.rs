//! Drafting a window's work.

use super::{Draft, Piece, Why, stand, windows};
use crate::arrange::{Arrange, Gather};
use crate::check::{
    Context, Finding, Severity, harmed, is_left, mended, offered, survey, winter_order,
};
use crate::plan::{Phase, Plan, Replayed, Replayer};
use crate::refusal::Refusal;
use crate::row::{Moment, TreeId};
use crate::work::Work;
use std::collections::BTreeSet;

/// More rounds than this add nothing that a person would follow.
const ROUNDS: usize = 16;

/// The whole work of a window on a plan's row, under a scheme.
///
/// # Errors
/// No such scheme; a moment before the row was found or after the last leaf.
pub fn draft(plan: &Plan, scheme: usize, moment: Moment) -> Result<Draft, Refusal> {
    let whole = plan.with_works(scheme, moment, Vec::new())?;
    let whole = whole.with_planned(scheme, moment)?;
    let stood = plan.scheme(scheme)?.stands(moment);
    let mut job = Job {
        scheme,
        moment,
        replayer: Replayer::default(),
        held: match stood {
            true => Vec::new(),
            false => plan.scheme(scheme)?.work(moment).cloned().collect(),
        },
        pieces: Vec::new(),
        plan: whole.clone(),
    };
    if !stood {
        job.young()?;
        job.rounds()?;
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
        let now = job.at(&job.plan.clone())?;
        if harmed(&Context::of(&start), &Context::of(&now)).is_empty() {
            return Ok(job.end(instead));
        }
        (job.plan, job.pieces) = (whole, pieces);
    }
    job.rounds()?;
    Ok(job.end(Vec::new()))
}

/// A draft on the way.
struct Job {
    scheme: usize,
    moment: Moment,
    replayer: Replayer,
    /// Work of the window that its grower has planned: it stays.
    held: Vec<Work>,
    pieces: Vec<Piece>,
    plan: Plan,
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
        let start = self.at(&self.plan.clone())?;
        let open = |p: &Piece| {
            let about = |w: &Work| self.held.iter().any(|h| h.subject() == w.subject());
            !p.work.iter().any(about) && windows::belongs(self.moment.window, &p.work)
        };
        pieces.retain(open);
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
                (self.plan, self.pieces) = (plan, done);
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

    /// Whether what was planned on the trees of a work is there still.
    fn holds(&self, plan: &Plan, work: &[Work]) -> bool {
        let trees: BTreeSet<Option<TreeId>> = work.iter().map(Work::tree).gathered_set();
        let Ok(on) = plan.scheme(self.scheme) else {
            return false;
        };
        let mut held = self.held.iter().filter(|h| trees.contains(&h.tree()));
        held.all(|h| on.work_on(self.moment, h.tree()).contains(h))
    }

    /// Does what is offered first, round by round, until nothing is.
    fn rounds(&mut self) -> Result<(), Refusal> {
        let mut been: Vec<Plan> = Vec::new();
        for _ in 0..ROUNDS {
            let at = self.at(&self.plan.clone())?;
            let found = self.offered(&at);
            been.push(self.plan.clone());
            let mut any = false;
            for finding in found {
                let Some(remedy) = finding.remedies.first() else {
                    continue;
                };
                let Ok(next) = mended(&self.plan, self.scheme, self.moment, &[remedy]) else {
                    continue;
                };
                if !self.holds(&next, &remedy.work) || been.contains(&next) {
                    continue;
                }
                any = true;
                self.plan = next;
                self.pieces.push(Piece {
                    said: remedy.said.clone(),
                    x: finding.x,
                    work: remedy.work.clone(),
                    why: Why::Found(Box::new(Finding {
                        remedies: Vec::new(),
                        ..finding
                    })),
                });
            }
            if !any {
                break;
            }
        }
        Ok(())
    }

    /// What is open to be mended in this window, in the order of a winter, with the remedies that hold.
    fn offered(&self, at: &Replayed) -> Vec<Finding> {
        let mut found = survey(&Context::of(at), None).findings;
        let left = is_left(&self.plan.left, at.row.leaf, &found);
        let mut left = left.into_iter();
        found.retain(|_| left.next() == Some(false));
        let window = self.moment.window;
        for finding in &mut found {
            let note = finding.severity == Severity::Note;
            finding
                .remedies
                .retain(|r| !note && r.wall_height.is_none() && windows::belongs(window, &r.work));
        }
        found.retain(|f| !f.remedies.is_empty());
        found.arrange_by_key(|f| winter_order(f.rule));
        offered(&self.plan, self.scheme, at, found)
    }

    /// The draft: of each piece what is in the plan in the end, each work once.
    fn end(mut self, instead: Vec<Work>) -> Draft {
        let mut told: Vec<Work> = Vec::new();
        let there = self.plan.schemes.get(self.scheme);
        self.pieces.reverse();
        for piece in &mut self.pieces {
            piece.work.retain(|w| {
                let on = there.map_or(&[][..], |s| s.work_on(self.moment, w.tree()));
                let stays = on.contains(w) && !told.contains(w) && !self.held.contains(w);
                if stays {
                    told.push(w.clone());
                }
                stays
            });
        }
        self.pieces.retain(|p| !p.work.is_empty());
        self.pieces.reverse();
        Draft {
            scheme: self.scheme,
            moment: self.moment,
            pieces: self.pieces,
            plan: self.plan,
            instead,
        }
    }
}
