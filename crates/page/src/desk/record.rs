//! Correcting the record, and what is work at the desk but not at a single part: wires, many at once.

use super::Desk;
use cordonry::check::Part;
use cordonry::plan::{Correction, replay};
use cordonry::refusal::Refusal;
use cordonry::row::{ShootId, TreeId};
use cordonry::work::{Stage, Sweep, Work, apply_to_trellis, spread};
use std::sync::Arc;

impl Desk {
    /// Whether the record is being corrected.
    pub fn correcting(&self) -> bool {
        self.correcting
    }

    /// Begins or ends correcting the record. No step: nothing of the plan changes by it.
    pub fn correct_record(&mut self, correcting: bool) {
        self.drop_drag();
        self.correcting = correcting;
        self.before = false;
        self.changes.all = true;
        self.derive();
    }

    /// Corrects the record, as one step.
    ///
    /// # Errors
    /// Why it can't be corrected so; nothing has changed then.
    pub fn correct(&mut self, correction: &Correction) -> Result<(), Refusal> {
        self.drop_drag();
        let plan = self.plan().corrected(correction)?;
        self.set("step-correct", plan);
        Ok(())
    }

    /// Records a tree at the place `x`, like its neighbours, and chooses it. The record stays open for the next.
    ///
    /// # Errors
    /// Why none can be recorded there.
    pub fn record_tree(&mut self, x: f64) -> Result<(), Refusal> {
        let plan = Arc::clone(self.plan());
        let tree = plan.next_tree();
        let with = plan.corrected(&plan.tree_like_others(x))?;
        self.drop_drag();
        if !self.correcting {
            self.correcting = true;
            self.changes.all = true;
        }
        self.set("step-found-tree", with);
        let shoot = Some(ShootId::STEM);
        self.chosen = Some(Part { tree, shoot });
        Ok(())
    }

    /// Records an upright on a laid shoot at the place `x` along the row, like the others, and chooses it.
    ///
    /// # Errors
    /// Why none can be recorded there.
    pub fn record_upright(&mut self, tree: TreeId, on: ShootId, x: f64) -> Result<(), Refusal> {
        let Some(at) = self.along(tree, on, x) else {
            return Err(Refusal::new("refusal-upright-off-wood", vec![]));
        };
        let plan = Arc::clone(self.plan());
        let shoot = Some(plan.next_shoot(tree));
        self.correct(&plan.upright_like_others(tree, on, at))?;
        self.chosen = Some(Part { tree, shoot });
        Ok(())
    }

    pub(super) fn end_correcting(&mut self) {
        if self.correcting {
            self.correcting = false;
            self.changes.all = true;
        }
    }

    pub(super) fn refuse_while_correcting(&self) -> Result<(), Refusal> {
        if self.correcting {
            return Err(Refusal::new("refusal-while-correcting", vec![]));
        }
        Ok(())
    }

    /// Changes the wires: as work at the moment that is looked at, or in the record while that is corrected.
    ///
    /// # Errors
    /// Why that can't be done.
    pub fn wires(&mut self, work: Work) -> Result<(), Refusal> {
        if self.correcting {
            let wires = apply_to_trellis(&self.row.trellis, &work)?.wires;
            return self.correct(&Correction::Wires { wires });
        }
        self.work("step-wires", vec![work])
    }

    /// The work on the wires at this moment.
    pub fn wire_work(&self) -> Vec<Work> {
        self.work_where(|w| w.subject().kind == Stage::Wire)
    }

    /// The work of `sweep` on the trees that `chosen` picks, at this moment.
    pub fn swept(&self, sweep: Sweep, chosen: impl Fn(TreeId) -> bool) -> Vec<Work> {
        if self.before {
            // What is to be done comes after what is planned.
            let after = replay(self.plan(), self.scheme, self.moment);
            return after.map_or_else(
                |_| Vec::new(),
                |seen| spread(&seen.row, self.moment, &seen.terms, sweep, chosen),
            );
        }
        spread(&self.row, self.shown_moment(), &self.terms, sweep, chosen)
    }
}
