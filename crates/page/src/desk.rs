//! The desk: a document, the look at it that is on the wall, and the part of it that is chosen.

use crate::document::{Document, Done, Edit, Mode};
use crate::look::{Look, Redraw, Scene, Sight};
use cordonry::check::{Finding, LightFound, Offered, Part, Remedy};
use cordonry::plan::{History, Line, Moment, Phase, Plan};
use cordonry::refusal::Refusal;
use cordonry::row::{ShootId, TreeId};
use cordonry::work::{Sweep, Work, spread};
use kurbo::Point;
use std::sync::Arc;

/// The plan being worked on, as the page shows it.
pub struct Desk {
    document: Document,
    sight: Sight,
    /// A part that is there; no step of the history.
    chosen: Option<Part>,
}

impl Desk {
    /// A desk with `plan` on it.
    ///
    /// # Errors
    /// A plan without any scheme.
    pub fn new(plan: Plan) -> Result<Self, Refusal> {
        Self::restored(History::new(plan), None)
    }

    /// A desk with a plan on it whose steps are known, and what is looked at.
    ///
    /// # Errors
    /// A plan without any scheme.
    pub fn restored(history: History, look: Option<Look>) -> Result<Self, Refusal> {
        let look = look.unwrap_or_else(|| Look::start(history.plan()));
        let look = look.within(history.plan());
        let document = Document::restored(history);
        let sight = Sight::new(&document, look)?;
        Ok(Self {
            document,
            sight,
            chosen: None,
        })
    }

    /// The plan's history laid out.
    pub fn line(&self) -> Line {
        self.document.line()
    }

    /// The plan as it is.
    pub fn plan(&self) -> &Arc<Plan> {
        self.document.plan()
    }

    /// What of it is open.
    pub fn mode(&self) -> Mode {
        self.document.mode()
    }

    /// Whether the record is open.
    pub fn is_found(&self) -> bool {
        self.mode() == Mode::Found
    }

    /// What is looked at.
    pub fn look(&self) -> Look {
        self.sight.look()
    }

    /// What is on the wall.
    pub fn scene(&self) -> &Scene {
        self.sight.scene()
    }

    /// The part that is chosen.
    pub fn chosen(&self) -> Option<Part> {
        self.chosen
    }

    /// Labels of the steps that undo and redo would take.
    pub fn steps(&self) -> (Option<String>, Option<String>) {
        self.document.steps()
    }

    /// What has to be drawn anew since the last call.
    pub fn take_redraw(&mut self) -> Redraw {
        self.sight.take_redraw()
    }

    /// Has the whole wall drawn anew.
    pub fn draw_all(&mut self) {
        self.sight.draw_all();
    }

    /// All that was found, of the light too: the gravest first.
    pub fn all_findings(&self) -> Vec<&Finding> {
        self.sight.all_findings()
    }

    /// Takes what the checks say of the light on the row as it is.
    pub fn judge_light(&mut self, found: LightFound) {
        self.sight.judge_light(found);
    }

    /// Whether a finding was made of a row that has changed since, and waits for a new answer.
    pub fn is_out_of_date(&self, finding: &Finding) -> bool {
        self.sight.waits(finding)
    }

    /// The remedies that are listed with a finding.
    pub fn remedies<'f>(&'f self, finding: &'f Finding) -> &'f [Remedy] {
        self.sight.remedies(finding)
    }

    /// Takes which remedies are offered of what is on the wall.
    pub fn take_offers(&mut self, offers: &[Offered]) {
        self.sight.take_offers(offers);
    }

    /// Makes an edit, as one step.
    ///
    /// # Errors
    /// Why it can't be made; nothing has changed then but that the hand is empty.
    pub fn edit(&mut self, edit: &Edit) -> Result<Done, Refusal> {
        self.drop_hold();
        let outcome = self.document.edit(self.look(), edit);
        if outcome.is_ok() {
            // Who works wants to see what it does.
            match edit.is_work() {
                true => self.turn(Phase::After),
                false => self.follow(),
            }
        }
        if outcome.is_ok() && edit.choose.is_some() {
            self.choose(edit.choose);
        }
        outcome
    }

    /// Works out what is on the wall.
    fn follow(&mut self) {
        self.sight.follow(&self.document);
        self.keep_choice();
    }

    fn turn(&mut self, phase: Phase) {
        let look = Look {
            phase,
            ..self.look()
        };
        self.sight.turn(&self.document, look);
        self.keep_choice();
    }

    /// Lets go of a choice that is gone from the wall.
    fn keep_choice(&mut self) {
        self.chosen = self.chosen.filter(|part| self.scene().has(*part));
    }

    /// Looks at the row after the work of a moment; the record is closed.
    pub fn look_at(&mut self, moment: Moment) {
        self.document.open(Mode::Work);
        let look = Look {
            moment,
            phase: Phase::After,
            ..self.look()
        };
        self.sight.turn(&self.document, look);
        self.keep_choice();
    }

    /// Shows the row before the work of the moment, or after it; the record is closed.
    pub fn show(&mut self, phase: Phase) {
        self.document.open(Mode::Work);
        self.turn(phase);
    }

    /// Opens the record or the work. No step: nothing of the plan changes by it.
    pub fn open(&mut self, mode: Mode) {
        self.document.open(mode);
        self.turn(Phase::After);
    }

    /// Takes a shoot's tip in the hand; whether it can be taken.
    pub fn take(&mut self, tree: TreeId, shoot: ShootId) -> bool {
        self.drop_hold();
        if self.scene().is_before() {
            self.turn(Phase::After);
        }
        let look = self.look();
        match self.sight.scene().posed(tree) {
            Some(posed) => self.document.take(look, posed, shoot),
            None => false,
        }
    }

    /// Moves the tip in the hand toward `to`. What can't be done leaves the shoot where it was.
    pub fn drag(&mut self, to: Point, snap: bool) {
        self.document.drag(to, snap);
        self.follow();
    }

    /// The shoot whose tip is in the hand.
    pub fn held(&self) -> Option<(TreeId, ShootId)> {
        self.document.held()
    }

    /// Whether a tip is in the hand.
    pub fn is_holding(&self) -> bool {
        self.held().is_some()
    }

    /// Lets go of the tip: one step.
    pub fn let_go(&mut self) {
        self.document.let_go();
        self.follow();
    }

    /// Lets go of the tip and puts it back.
    pub fn drop_hold(&mut self) {
        if self.is_holding() {
            self.document.drop_hold();
            self.follow();
        }
    }

    /// Takes the last step back; its label.
    pub fn undo(&mut self) -> Option<String> {
        let label = self.document.undo();
        self.follow();
        label
    }

    /// Does the step again that was taken back; its label.
    pub fn redo(&mut self) -> Option<String> {
        let label = self.document.redo();
        self.follow();
        label
    }

    /// Chooses a part, or nothing. A choice is no step.
    pub fn choose(&mut self, part: Option<Part>) {
        self.chosen = part.filter(|part| self.scene().has(*part));
    }

    /// The work of `sweep` on the trees that `picked` picks, at this moment: it comes after what is planned.
    pub fn swept(&self, sweep: Sweep, picked: impl Fn(TreeId) -> bool) -> Vec<Work> {
        let scene = self.scene();
        if !scene.is_before() {
            return spread(&scene.row, scene.moment, &scene.terms, sweep, picked);
        }
        self.document.after_work(self.look()).map_or_else(
            |_| Vec::new(),
            |seen| spread(&seen.row, seen.moment, &seen.terms, sweep, picked),
        )
    }
}
