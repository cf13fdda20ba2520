//! A shoot's tip in the hand.

use super::{Edit, Look, Mode};
use cordonry::plan::{Correction, Plan};
use cordonry::pose::{Posed, bend_toward};
use cordonry::row::{ShootId, TreeId};
use cordonry::work::{Work, can_bend};
use kurbo::Point;
use std::sync::Arc;

/// A tip in the hand, and the tree as it was when it was taken.
pub struct Hold {
    pub(super) tree: TreeId,
    pub(super) shoot: ShootId,
    pub(super) look: Look,
    mode: Mode,
    from: Arc<Posed>,
    index: usize,
    /// The plan that each edit is made on: a window that stands is planned once for all.
    pub(super) base: Arc<Plan>,
}

impl Hold {
    /// Takes a tip; `None` where it can't be bent.
    pub(super) fn of(
        look: Look,
        mode: Mode,
        plan: &Arc<Plan>,
        posed: &Arc<Posed>,
        shoot: ShootId,
    ) -> Option<Self> {
        let from = posed.tree();
        let index = from.index(shoot)?;
        let planned = |scheme: usize, moment| match mode {
            Mode::Work if plan.schemes.get(scheme)?.stands(moment) => {
                plan.with_planned(scheme, moment).ok().map(Arc::new)
            }
            _ => None,
        };
        can_bend(&from.shoots[index]).then(|| Self {
            base: planned(look.scheme, look.moment).unwrap_or_else(|| Arc::clone(plan)),
            tree: from.id,
            shoot,
            look,
            mode,
            from: Arc::clone(posed),
            index,
        })
    }

    pub(super) fn step(&self) -> &'static str {
        match self.mode {
            Mode::Found => "step-correct",
            Mode::Work => "step-bend",
        }
    }

    /// What holding the tip at `to` asks for.
    pub(super) fn edit(&self, to: Point, snap: bool) -> Option<Edit> {
        let (tree, shoot) = (self.tree, self.shoot);
        let pose = bend_toward(&self.from, self.index, to, snap);
        match self.mode {
            Mode::Found => Some(Edit::record(Correction::Pose { tree, shoot, pose })),
            Mode::Work => Some(Edit::work(
                self.step(),
                vec![Work::posing(tree, shoot, pose)?],
            )),
        }
    }
}
