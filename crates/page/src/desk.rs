//! The desk: a document, the look at it that is on the wall, and the part of it that is chosen.

use crate::document::{Document, Done, Edit, Mode};
use crate::look::{Look, NotOffered, Redraw, Scene, Sight};
use cordonry::arrange::Gather;
use cordonry::check::{Finding, LightFound, Matter, Offered, Part, Remedy, matters};
use cordonry::forecast::{LeafFigures, crop_by};
use cordonry::plan::{History, Line, Moment, Phase, Plan, Scheme};
use cordonry::pose::{Posed, PosedRow};
use cordonry::refusal::Refusal;
use cordonry::row::{ShootId, Tree, TreeId};
use cordonry::tipping::Tipping;
use cordonry::work::{Sweep, Work, spread};
use kurbo::Point;
use std::sync::Arc;

/// The leaf by which a young row is judged.
pub const EARLY: u8 = 5;

/// The plan being worked on, as the page shows it.
pub struct Desk {
    document: Document,
    sight: Sight,
    /// Another scheme at the same moment, while two stand side by side.
    beside: Option<Sight>,
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
            beside: None,
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

    /// The row of what is seen, before or after the work of its moment, whichever way it is shown.
    pub fn row_at(&self, scene: &Scene, phase: Phase) -> PosedRow {
        let look = Look {
            phase,
            ..scene.look
        };
        let there = (look != scene.look).then(|| self.document.replayed(look).ok());
        there.flatten().map_or_else(|| scene.row.clone(), |r| r.row)
    }

    /// The top of all that stands at the moment that is looked at, under any scheme, before its work or after it, mm.
    pub fn tallest(&self) -> f64 {
        let (own, g) = (self.look(), self.scene().terms.geometry);
        let looks = (0..self.plan().schemes.len())
            .flat_map(|scheme| [Phase::Before, Phase::After].map(|phase| (scheme, phase)));
        let rows = looks.filter_map(|(scheme, phase)| {
            let look = Look {
                scheme,
                phase,
                ..own
            };
            self.document.replayed(look).ok()
        });
        let shown = cordonry_draw::top_of(&self.scene().row, g);
        rows.map(|r| cordonry_draw::top_of(&r.row, g))
            .fold(shown, f64::max)
    }

    /// The scheme that is looked at.
    pub fn scheme(&self) -> Option<&Scheme> {
        self.plan().schemes.get(self.look().scheme).map(|s| &**s)
    }

    /// What the scheme that is looked at brings, leaf by leaf.
    pub fn years(&self) -> Arc<[LeafFigures]> {
        self.document.years(self.look().scheme)
    }

    /// What tipping a shoot takes; none where it has not grown.
    pub fn tipping(&self, part: Part) -> Option<Tipping> {
        let scene = self.scene();
        Tipping::of(scene.row.shoot(part.tree, part.shoot?)?.1, &scene.terms)
    }

    /// The share of a shoot's last growth that is tipped at this moment.
    pub fn tipped(&self, part: Part) -> Option<f64> {
        let works = self.scene().works_on(part);
        works.iter().find_map(|work| match work {
            Work::Tip { percent, .. } => Some(f64::from(*percent) / 100.0),
            _ => None,
        })
    }

    /// The trees that work would change at this moment, as they stand now and as they would; nothing where it can't be done.
    pub fn tried(&self, works: &[Work]) -> Vec<(Option<Arc<Posed>>, Posed)> {
        let (look, scene) = (self.look(), self.scene());
        let ids = works.iter().filter_map(Work::tree).gathered_set();
        let plan = self
            .plan()
            .with_works(look.scheme, look.moment, works.to_vec());
        let after = plan.and_then(|p| p.trees_after(look.scheme, look.moment, &ids));
        let then = |(id, (tree, _)): (TreeId, (Arc<Tree>, usize))| {
            let posed = Posed::new(tree, scene.terms.geometry);
            (scene.posed(id).cloned(), posed)
        };
        after.into_iter().flatten().map(then).collect()
    }

    /// The work that another plan does at this time under this scheme, and this one does not.
    pub fn work_beside(&self, plan: &Plan) -> Vec<Work> {
        let Look { scheme, moment, .. } = self.look();
        let own: Vec<&Work> = self.scene().work().collect();
        let there = plan.schemes.get(scheme);
        let there = there.into_iter().flat_map(|s| s.work(moment));
        there.filter(|w| !own.contains(w)).cloned().collect()
    }

    /// A leaf, and the crop up to it in all, t/ha, as planned and if work were done at this moment. None where it can't be.
    pub fn crop_if(&self, works: &[Work]) -> Option<(u8, [f64; 2])> {
        let Look { scheme, moment, .. } = self.look();
        let tried = self.plan().with_works(scheme, moment, works.to_vec());
        let then = self.document.years_tried(&tried.ok()?, scheme);
        let leaf = EARLY.max(moment.leaf.saturating_add(1));
        let by = |years: &[LeafFigures]| crop_by(years, leaf);
        Some((leaf, [by(&self.years()), by(&then)]))
    }

    /// The part that is chosen.
    pub fn chosen(&self) -> Option<Part> {
        self.chosen
    }

    /// Labels of the steps that undo and redo would take.
    pub fn steps(&self) -> (Option<String>, Option<String>) {
        self.document.steps()
    }

    /// The name of a scheme; empty where there is none.
    pub fn scheme_name(&self, scheme: usize) -> &str {
        self.plan().schemes.get(scheme).map_or("", |s| &s.name)
    }

    /// What another scheme brings, leaf by leaf.
    pub fn years_of(&self, scheme: usize) -> Arc<[LeafFigures]> {
        self.document.years(scheme)
    }

    /// What is seen beside it: another scheme at the same moment. None while the record is open, which all schemes share.
    pub fn beside(&self) -> Option<&Scene> {
        let beside = self.beside.as_ref().map(Sight::scene);
        beside.filter(|_| !self.is_found())
    }

    /// What has to be drawn anew since the last call.
    pub fn take_redraw(&mut self) -> Redraw {
        self.sight.take_redraw()
    }

    /// The same of what is seen beside it.
    pub fn take_redraw_beside(&mut self) -> Redraw {
        let beside = self.beside.as_mut().map(Sight::take_redraw);
        beside.unwrap_or_default()
    }

    /// Has the whole wall drawn anew.
    pub fn draw_all(&mut self) {
        for sight in [&mut self.sight].into_iter().chain(&mut self.beside) {
            sight.draw_all();
        }
    }

    /// All that was found, of the light too: the gravest first.
    pub fn all_findings(&self) -> Vec<&Finding> {
        self.sight.all_findings()
    }

    /// All that was found, and the matters that it comes to: what the plan leaves for this leaf last.
    pub fn matters(&self) -> (Vec<&Finding>, Vec<Matter>) {
        let (all, scene) = (self.all_findings(), self.scene());
        let (row, left) = (&scene.row, &self.plan().left);
        let matters = matters(row, &scene.cover, &scene.targets, &all, left);
        (all, matters)
    }

    /// What is told of the matter of that number, of those that are not left, with all findings.
    pub fn open_matter<T>(
        &self,
        number: usize,
        tell: impl FnOnce(&Matter, &[&Finding]) -> T,
    ) -> Option<T> {
        let (all, matters) = self.matters();
        let mut open = matters.iter().filter(|m| m.left.is_none());
        open.nth(number).map(|m| tell(m, &all))
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

    /// Whether there are remedies for a finding, none of which is offered: each did harm when it was tried, or no good.
    pub fn holds_back(&self, finding: &Finding) -> bool {
        self.sight.holds_back(finding)
    }

    /// Whether the work of the moment does already what would mend a finding on the row as it stands before it.
    pub fn is_planned(&self, finding: &Finding) -> bool {
        self.sight.is_planned(finding)
    }

    /// Why a finding has no remedy that is offered.
    pub fn not_offered(&self, finding: &Finding) -> &NotOffered {
        self.sight.not_offered(finding)
    }

    /// Takes which remedies are offered of what is on the wall, and why the rest has none.
    pub fn take_offers(&mut self, offers: &[Offered], others: Vec<NotOffered>) {
        self.sight.take_offers(offers, others);
    }

    /// Makes an edit, as one step.
    ///
    /// # Errors
    /// Why it can't be made; nothing has changed then but that the hand is empty.
    pub fn edit(&mut self, edit: &Edit) -> Result<Done, Refusal> {
        self.drop_hold();
        let before = Arc::clone(self.plan());
        let outcome = self.document.edit(self.look(), edit);
        if let Ok(done) = &outcome {
            // Who works wants to see what it does.
            let phase = match edit.is_work() {
                true => Phase::After,
                false => self.look().phase,
            };
            self.look_on_from(&before, done.scheme, phase);
        }
        if outcome.is_ok() && edit.choose.is_some() {
            self.choose(edit.choose);
        }
        outcome
    }

    /// Works out what is on the wall.
    fn follow(&mut self) {
        self.look_on(self.look(), self.scheme_beside());
    }

    fn turn(&mut self, phase: Phase) {
        let look = Look {
            phase,
            ..self.look()
        };
        self.look_on(look, self.scheme_beside());
    }

    fn look_on(&mut self, look: Look, beside: Option<usize>) {
        self.sight.turn(&self.document, look);
        self.set_beside(beside);
        self.keep_choice();
    }

    /// Looks on at a plan that may have more schemes or fewer than before, and finds those again that were looked at;
    /// `wanted` is looked at instead.
    fn look_on_from(&mut self, before: &Plan, wanted: Option<usize>, phase: Phase) {
        let now = &self.plan().schemes;
        let number = |old: usize| match before.schemes.len() == now.len() {
            true => Some(old),
            false => before.schemes.get(old).and_then(|own| {
                let is = |s: &Arc<Scheme>| Arc::ptr_eq(s, own) || s == own;
                now.iter().position(is)
            }),
        };
        let old = self.look();
        let scheme = wanted.or_else(|| number(old.scheme)).unwrap_or(old.scheme);
        let beside = self.scheme_beside().and_then(number);
        self.look_on(
            Look {
                scheme,
                phase,
                ..old
            },
            beside,
        );
    }

    /// Looks at another scheme. The one that stands beside it changes places with what was looked at.
    pub fn look_under(&mut self, scheme: usize) {
        self.document.open(Mode::Work);
        let old = self.look();
        let beside = self.scheme_beside().map(|beside| match beside == scheme {
            true => old.scheme,
            false => beside,
        });
        self.look_on(Look { scheme, ..old }, beside);
    }

    /// The number of the scheme that stands beside the one that is looked at.
    pub fn scheme_beside(&self) -> Option<usize> {
        self.beside.as_ref().map(|b| b.look().scheme)
    }

    /// Has another scheme stand beside the one that is looked at, or none.
    pub fn set_beside(&mut self, scheme: Option<usize>) {
        let own = self.look();
        let there = |n: &usize| *n != own.scheme && *n < self.plan().schemes.len();
        let look = scheme.filter(there).map(|scheme| Look { scheme, ..own });
        self.beside = match (self.beside.take(), look) {
            (Some(mut beside), Some(look)) => {
                // What is found is the same under all schemes: it waits for the work to be open again.
                if !self.is_found() {
                    beside.turn_where_changed(&self.document, look);
                }
                Some(beside)
            }
            (None, Some(look)) => Sight::new(&self.document, look).ok(),
            (_, None) => None,
        };
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
        self.look_on(look, self.scheme_beside());
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
        self.step(Document::undo)
    }

    /// Does the step again that was taken back; its label.
    pub fn redo(&mut self) -> Option<String> {
        self.step(Document::redo)
    }

    fn step(&mut self, step: fn(&mut Document) -> Option<String>) -> Option<String> {
        let before = Arc::clone(self.plan());
        let label = step(&mut self.document);
        self.look_on_from(&before, None, self.look().phase);
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
