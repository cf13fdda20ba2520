//! The work of a leaf, done once more in the next.

use super::{Moment, Plan, VoidWork, Window};
use crate::arrange::Gather;
use crate::refusal::Refusal;
use crate::row::{ShootId, Tree};
use crate::work::Work;

/// What came of copying a leaf's work on.
#[derive(Clone, Debug, PartialEq)]
pub struct CopiedOn {
    /// The plan with what could follow.
    pub plan: Plan,
    /// How many pieces did.
    pub count: usize,
    /// What can't be done a leaf later, at its own moment, and why it can't be done then.
    pub left: Vec<VoidWork>,
}

impl Plan {
    /// The plan with a leaf's planned work done once more in the next leaf, window by window, beside what is planned there or
    /// stands. Work on a shoot is done on the same one where it can be, else on the one that is a leaf later what that was.
    ///
    /// # Errors
    /// No such scheme; a leaf before the found one, or the last.
    pub fn with_leaf_copied_on(&self, scheme: usize, leaf: u8) -> Result<CopiedOn, Refusal> {
        let mut out = CopiedOn {
            plan: self.clone(),
            count: 0,
            left: Vec::new(),
        };
        // Whether there is such a leaf to go to.
        self.with_works(scheme, Moment::dormant(leaf), vec![])?;
        self.with_works(scheme, Moment::dormant(leaf.saturating_add(1)), vec![])?;
        for window in Window::ALL {
            out.window(self, scheme, Moment { leaf, window })?;
        }
        Ok(out)
    }
}

impl CopiedOn {
    fn window(&mut self, from: &Plan, scheme: usize, at: Moment) -> Result<(), Refusal> {
        let works: Vec<&Work> = from.scheme(scheme)?.work(at).collect();
        if works.is_empty() {
            return Ok(());
        }
        let to = Moment {
            leaf: at.leaf + 1,
            ..at
        };
        let ids = works.iter().filter_map(|w| w.tree()).gathered_set();
        let then = from.trees_before(scheme, at, &ids)?;
        let now = self.plan.trees_before(scheme, to, &ids)?;
        for work in works {
            let trees = work.tree().and_then(|t| then.get(&t).zip(now.get(&t)));
            let later = trees.and_then(|(then, now)| work_later(work, then, now));
            // On the same shoot, where it is still there.
            let done = self.plan.with_work(scheme, to, work.clone());
            let done = match (done, later) {
                (Err(why), Some(later)) => {
                    let done = self.plan.with_work(scheme, to, later);
                    done.map_err(|_| why)
                }
                (done, _) => done,
            };
            match done {
                Ok(plan) => {
                    self.plan = plan;
                    self.count += 1;
                }
                Err(why) => self.left.push(VoidWork {
                    moment: at,
                    work: work.clone(),
                    why,
                }),
            }
        }
        Ok(())
    }
}

/// The work on the shoots that are in a tree a leaf later what its own were.
fn work_later(work: &Work, then: &Tree, now: &Tree) -> Option<Work> {
    let mut work = work.clone();
    for shoot in work.shoots_mut().into_iter().flatten() {
        *shoot = shoot_later(*shoot, then, now)?;
    }
    Some(work)
}

/// The shoot that is in a tree a leaf later what one that came in replay was: it has the same origin and place in order on the
/// same wood, and grew a leaf later. A found one has no other.
fn shoot_later(id: ShootId, then: &Tree, now: &Tree) -> Option<ShootId> {
    let own = then.shoot(id).filter(|_| id.is_grown())?;
    let parent = own.parent?;
    let on = match now.shoot(parent) {
        Some(_) => parent,
        None => shoot_later(parent, then, now)?,
    };
    let alike = |tree: &Tree, on: ShootId, later: u8| -> Vec<ShootId> {
        let born = own.born().map(|leaf| leaf + later);
        let shoots = tree.shoots.iter();
        let alike =
            shoots.filter(|s| s.parent == Some(on) && s.origin == own.origin && s.born() == born);
        alike.map(|s| s.id).collect()
    };
    let place = alike(then, parent, 0).iter().position(|s| *s == id)?;
    alike(now, on, 1).get(place).copied()
}
