//! Taking some of a draft's pieces: what hangs on one that is not taken goes with it.

use super::{Draft, Piece, Why};
use crate::arrange::Gather;
use crate::check::{Context, stand};
use crate::plan::{Phase, Plan, Replayer};
use crate::refusal::Refusal;
use crate::work::Work;

/// What became of a plan with some of a draft's pieces.
#[derive(Clone, Debug)]
pub struct Taken {
    /// The plan with them.
    pub plan: Plan,
    /// The places of the pieces that are in it, in the draft's order.
    pub pieces: Vec<usize>,
    /// The places of those that were picked, and are left out: what they mend is not there without the others, or they can't be done.
    pub left: Vec<usize>,
}

impl Draft {
    /// The plan from which it was drafted with the pieces taken that `picks` says, by kind or by tree. Where the window stood by rule,
    /// its usual work stays on what is not picked.
    ///
    /// # Errors
    /// No such scheme in that plan.
    pub fn taken(&self, plan: &Plan, picks: impl Fn(&Piece) -> bool) -> Result<Taken, Refusal> {
        let all = 0..self.pieces.len();
        let picked: Vec<usize> = all.filter(|at| picks(&self.pieces[*at])).collect();
        if picked.len() == self.pieces.len() {
            return Ok(Taken {
                plan: self.plan.clone(),
                pieces: picked,
                left: Vec::new(),
            });
        }
        let mut of = picked.clone();
        loop {
            let (plan, pieces) = self.part(plan, &of)?;
            // Without what was left out more may have no reason, and the usual work has its place again.
            if pieces.len() == of.len() {
                let left = picked.into_iter().filter(|at| !pieces.contains(at));
                return Ok(Taken {
                    left: left.collect(),
                    plan,
                    pieces,
                });
            }
            of = pieces;
        }
    }

    /// The plan with those pieces, and the places of those that could be done and mend what is found on the row, round by round as the
    /// draft was made.
    fn part(&self, plan: &Plan, picked: &[usize]) -> Result<(Plan, Vec<usize>), Refusal> {
        let piece = |at: &usize| &self.pieces[*at];
        let mut out = plan.with_planned(self.scheme, self.moment)?;
        let new = || picked.iter().flat_map(|at| &piece(at).work);
        let gives_way = |w: &Work| {
            let same = |n: &Work| (n.tree(), n.kind()) == (w.tree(), w.kind());
            self.instead.contains(w) && new().any(same)
        };
        out = out.without_work(self.scheme, self.moment, gives_way)?;
        let mut replayer = Replayer::default();
        let mut done: Vec<usize> = Vec::new();
        for round in picked.iter().map(|at| piece(at).round).gathered_set() {
            let of = picked.iter().copied();
            let mut left: Vec<usize> = of.filter(|at| piece(at).round == round).collect();
            let found = left.iter().filter_map(|at| match &piece(at).why {
                Why::Found(finding) => Some(&**finding),
                Why::Usual(_) => None,
            });
            let found: Vec<_> = found.collect();
            if !found.is_empty() {
                let at = replayer.at(&out, self.scheme, self.moment, Phase::After)?;
                let mut stand = stand(&Context::of(&at), &found).into_iter();
                left.retain(|at| {
                    matches!(piece(at).why, Why::Usual(_)) || stand.next() == Some(true)
                });
            }
            // Some can be done only once others are, which a winter's order may put after them.
            loop {
                let were = left.len();
                left.retain(|at| {
                    let on = |w: &Work| {
                        let scheme = out.schemes.get(self.scheme);
                        scheme.is_some_and(|s| s.work_on(self.moment, w.tree()).contains(w))
                    };
                    let missing = piece(at).work.iter().filter(|w| !on(w)).cloned();
                    match out.with_works(self.scheme, self.moment, missing.collect()) {
                        Ok(next) => {
                            out = next;
                            done.push(*at);
                            false
                        }
                        Err(_) => true,
                    }
                });
                if left.is_empty() || left.len() == were {
                    break;
                }
            }
        }
        let places = picked.iter().copied();
        Ok((out, places.filter(|at| done.contains(at)).collect()))
    }
}
