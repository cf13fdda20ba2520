//! The document: the plan being worked on, with its history, whether its found row or its work is open, and a tip that
//! may be in the hand. Nothing here knows the browser.
//!
//! All that changes the plan comes as an [`Edit`]: from the hand, a key, a card, a remedy, a list, many at once.

mod edit;
mod hold;
mod look;
mod years;

pub use edit::{Done, Edit, Request, Schemes};
pub use look::Look;
pub use years::last_leaf;

use hold::Hold;
use years::Ahead;

use cordonry::forecast::LeafFigures;
use cordonry::plan::{History, Line, Phase, Plan, Replayed, Replayer};
use cordonry::pose::Posed;
use cordonry::refusal::Refusal;
use cordonry::row::{ShootId, TreeId};
use cordonry::work::Work;
use kurbo::Point;
use serde::{Deserialize, Serialize};
use std::cell::RefCell;
use std::sync::Arc;

/// What of the plan is open.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mode {
    /// The row as found: its record can be corrected, and nothing is work.
    Found,
    /// The work on it.
    #[default]
    Work,
}

/// The plan being worked on.
pub struct Document {
    history: History,
    mode: Mode,
    hold: Option<Hold>,
    /// What replay keeps, for every look at the plan.
    replayer: RefCell<Replayer>,
    /// What its schemes bring.
    ahead: RefCell<Ahead>,
}

impl Document {
    /// A document that begins with `plan`.
    pub fn new(plan: Plan) -> Self {
        Self::restored(History::new(plan))
    }

    /// A document of a plan whose steps are known.
    pub fn restored(history: History) -> Self {
        Self {
            history,
            mode: Mode::default(),
            hold: None,
            replayer: RefCell::default(),
            ahead: RefCell::default(),
        }
    }

    /// The plan as it is, with what is in the hand.
    pub fn plan(&self) -> &Arc<Plan> {
        self.history.plan()
    }

    /// The plan's history laid out, without what is in the hand.
    pub fn line(&self) -> Line {
        self.history.line()
    }

    /// What of it is open.
    pub fn mode(&self) -> Mode {
        self.mode
    }

    /// Opens the found row or the work. No step: nothing of the plan changes by it.
    pub fn open(&mut self, mode: Mode) {
        self.drop_hold();
        self.mode = mode;
    }

    /// The row that a look shows.
    ///
    /// # Errors
    /// No such scheme.
    pub fn replayed(&self, look: Look) -> Result<Replayed, Refusal> {
        let mut replayer = self.replayer.borrow_mut();
        look.replayed(self.plan(), self.mode, &mut replayer)
    }

    /// The work of a look's moment, where its window stands and the record is not open.
    ///
    /// # Errors
    /// No such scheme.
    pub fn standing(&self, look: Look) -> Result<Option<Vec<Work>>, Refusal> {
        let plan = self.plan();
        let Look { scheme, moment, .. } = look.within(plan);
        if self.mode == Mode::Found || !plan.scheme(scheme)?.stands(moment) {
            return Ok(None);
        }
        let mut replayer = self.replayer.borrow_mut();
        replayer.work_at(plan, scheme, moment).map(Some)
    }

    /// What a scheme brings, leaf by leaf, of the plan as it is: after an edit of one tree that tree alone is worked out anew.
    pub fn years(&self, scheme: usize) -> Arc<[LeafFigures]> {
        self.ahead.borrow_mut().of(self.plan(), scheme)
    }

    /// The same of a plan that is only tried.
    pub fn years_tried(&self, plan: &Plan, scheme: usize) -> Vec<LeafFigures> {
        self.ahead.borrow_mut().tried(plan, scheme)
    }

    /// The row after the work of a look's moment, whichever way the look shows it.
    ///
    /// # Errors
    /// No such scheme.
    pub fn after_work(&self, look: Look) -> Result<Replayed, Refusal> {
        self.replayed(Look {
            phase: Phase::After,
            ..look
        })
    }

    /// Makes an edit at a look, as one step.
    ///
    /// # Errors
    /// Why it can't be made; nothing has changed then but that the hand is empty.
    pub fn edit(&mut self, look: Look, edit: &Edit) -> Result<Done, Refusal> {
        self.drop_hold();
        let (plan, done) = edit.made(self.plan(), self.mode, look)?;
        self.history.set(edit.label(self.mode), plan);
        self.mode = edit.mode.unwrap_or(self.mode);
        Ok(done)
    }

    /// Takes the tip of a tree's shoot in the hand, as it is seen at a look; whether it can be taken.
    pub fn take(&mut self, look: Look, posed: &Arc<Posed>, shoot: ShootId) -> bool {
        self.drop_hold();
        self.hold = Hold::of(look, self.mode, self.plan(), posed, shoot);
        if let Some(hold) = &self.hold {
            self.history.begin(hold.step());
        }
        self.hold.is_some()
    }

    /// Moves the tip in the hand toward `to`. What can't be done leaves the shoot where it was.
    pub fn drag(&mut self, to: Point, snap: bool) {
        let Some(hold) = &self.hold else { return };
        let made = hold
            .edit(to, snap)
            .map(|edit| edit.made(&hold.base, self.mode, hold.look));
        if let Some(Ok((plan, _))) = made {
            self.history.update(plan);
        }
    }

    /// The shoot whose tip is in the hand.
    pub fn held(&self) -> Option<(TreeId, ShootId)> {
        self.hold.as_ref().map(|h| (h.tree, h.shoot))
    }

    /// Lets go of the tip: one step.
    pub fn let_go(&mut self) {
        if self.hold.take().is_some() {
            self.history.commit();
        }
    }

    /// Lets go of the tip and puts it back.
    pub fn drop_hold(&mut self) {
        if self.hold.take().is_some() {
            self.history.cancel();
        }
    }

    /// Takes the last step back; its label.
    pub fn undo(&mut self) -> Option<String> {
        self.hold = None;
        self.history.undo()
    }

    /// Does the step again that was taken back; its label.
    pub fn redo(&mut self) -> Option<String> {
        self.drop_hold();
        self.history.redo()
    }

    /// Labels of the steps that undo and redo would take.
    pub fn steps(&self) -> (Option<String>, Option<String>) {
        (
            self.history.undo_label().map(str::to_string),
            self.history.redo_label().map(str::to_string),
        )
    }
}
