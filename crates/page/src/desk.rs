//! The plan on the desk: its history, the moment that is looked at, what is derived for it, and what is chosen.
//!
//! Nothing here knows the browser. A change is made by one of the methods below; what it changed is told by
//! [`Desk::take_changes`].

use cordonry::check::{Before, Context, Figures, Finding, Part, Remedy, survey};
use cordonry::cover::{Cover, Place};
use cordonry::plan::{Correction, History, Moment, Plan, Replayer, Setting};
use cordonry::pose::{Course, Geometry, PosedRow, bend_toward, layout};
use cordonry::refusal::Refusal;
use cordonry::row::{Phase, Pose, ShootId, Site, Targets, Tree, TreeId};
use cordonry::terms::Terms;
use cordonry::units::Mm;
use cordonry::work::{Stage, Work};
use kurbo::Point;
use std::sync::Arc;

mod record;

/// A shoot's tip in the hand.
struct Drag {
    tree: TreeId,
    shoot: ShootId,
    from: Arc<Tree>,
    index: usize,
}

/// What has changed since the page last looked.
#[derive(Default)]
pub struct Changes {
    /// Trees whose drawing is out of date.
    pub trees: Vec<TreeId>,
    /// Whether the whole row is another one.
    pub all: bool,
}

/// The plan being worked on.
pub struct Desk {
    history: History,
    replayer: Replayer,
    scheme: usize,
    moment: Moment,
    before: bool,
    drag: Option<Drag>,
    changes: Changes,
    /// Limits and site under which the findings were made.
    limits: (Arc<Targets>, Arc<Site>),
    /// Whether the record is being corrected: then the row is the one found, and nothing is work.
    correcting: bool,
    /// What is chosen.
    pub chosen: Option<Part>,
    /// The row at the moment that is looked at.
    pub row: PosedRow,
    /// What pose and work read besides its trees.
    pub terms: Terms,
    /// Where its shoots run.
    pub geometry: Geometry,
    /// How its wire is covered.
    pub cover: Cover,
    /// Its uprights from left to right.
    pub places: Vec<Place>,
    /// What the checks say.
    pub findings: Vec<Finding>,
    /// What the checks said last of the light, while it is looked at.
    light_findings: Vec<Finding>,
    /// Whether that was said of the row as it is now.
    light_holds: bool,
    /// The figures.
    pub figures: Figures,
}

impl Desk {
    /// A desk with `plan` on it.
    pub fn new(plan: Plan) -> Self {
        let moment = plan.start();
        let terms = plan.terms(&plan.found.trellis);
        let geometry = terms.geometry;
        let row = PosedRow::new((*plan.found).clone(), geometry);
        let mut desk = Self {
            history: History::new(plan),
            replayer: Replayer::default(),
            scheme: 0,
            moment,
            before: false,
            drag: None,
            changes: Changes::default(),
            limits: Default::default(),
            correcting: false,
            chosen: None,
            row,
            terms,
            geometry,
            cover: Cover::default(),
            places: Vec::new(),
            findings: Vec::new(),
            light_findings: Vec::new(),
            light_holds: false,
            figures: Figures::default(),
        };
        desk.derive();
        desk.changes = Changes {
            all: true,
            ..Changes::default()
        };
        desk
    }

    /// The plan as it is.
    pub fn plan(&self) -> &Arc<Plan> {
        self.history.plan()
    }

    /// The moment that is looked at.
    pub fn moment(&self) -> Moment {
        self.moment
    }

    /// The number of the scheme that is looked at.
    pub fn scheme(&self) -> usize {
        self.scheme
    }

    /// Labels of the steps that undo and redo would take.
    pub fn steps(&self) -> (Option<String>, Option<String>) {
        (
            self.history.undo_label().map(str::to_string),
            self.history.redo_label().map(str::to_string),
        )
    }

    /// All that was found, of the light too: the gravest first.
    pub fn all_findings(&self) -> Vec<&Finding> {
        let mut all: Vec<&Finding> = self.findings.iter().chain(&self.light_findings).collect();
        all.sort_by_key(|f| std::cmp::Reverse(f.severity));
        all
    }

    /// Takes what the checks say of the light on the row as it is.
    pub fn judge_light(&mut self, findings: Vec<Finding>) {
        self.light_findings = findings;
        self.light_holds = true;
    }

    /// Whether a finding was made of a row that has changed since, and waits for a new answer: its remedies do too.
    pub fn is_out_of_date(&self, finding: &Finding) -> bool {
        !self.light_holds
            && self
                .light_findings
                .iter()
                .any(|light| std::ptr::eq(light, finding))
    }

    /// What has changed since the last call.
    pub fn take_changes(&mut self) -> Changes {
        std::mem::take(&mut self.changes)
    }

    /// Has the whole wall drawn anew.
    pub fn changed_wholly(&mut self) {
        self.changes.all = true;
    }

    /// Looks at another moment, and no longer corrects the record.
    pub fn look_at(&mut self, moment: Moment) {
        self.drop_drag();
        self.before = false;
        self.end_correcting();
        self.moment = moment.max(self.plan().start());
        self.derive();
    }

    /// Whether the row is shown before the work of the moment, with signs for it.
    pub fn is_before(&self) -> bool {
        self.before
    }

    /// Shows the row before the work of the moment, or after it.
    pub fn show_before(&mut self, before: bool) {
        self.drop_drag();
        self.before = before;
        self.end_correcting();
        self.derive();
    }

    /// The work of the moment that is looked at, in order of subject; none while the record is corrected.
    pub fn works(&self) -> Vec<Work> {
        self.work_where(|_| true)
    }

    /// Takes one piece of work of this moment back.
    ///
    /// # Errors
    /// No such scheme.
    pub fn take_back_work(&mut self, work: &Work) -> Result<(), Refusal> {
        self.take_back_where(|w| w == work)
    }

    /// The moment whose row is on the wall.
    pub fn shown_moment(&self) -> Moment {
        match self.correcting {
            true => self.plan().start(),
            false => self.moment,
        }
    }

    /// Whether the work of the shown moment has been done on the row on the wall.
    pub fn phase(&self) -> Phase {
        match self.before || self.correcting {
            true => Phase::Before,
            false => Phase::After,
        }
    }

    /// Works everything out anew from the plan.
    fn derive(&mut self) {
        let plan = Arc::clone(self.history.plan());
        // The scheme is there: it is kept within the plan's own list.
        self.scheme = self.scheme.min(plan.schemes.len().saturating_sub(1));
        let seen = match self.correcting {
            true => self.replayer.found(&plan),
            false => {
                let (moment, phase) = (self.moment, self.phase());
                let seen = self.replayer.at(&plan, self.scheme, moment, phase);
                let Ok(seen) = seen else { return };
                seen
            }
        };
        let row = &seen.row;
        let geometry = seen.terms.geometry;
        let same_frame = row.trellis == self.row.trellis
            && (row.from, row.to) == (self.row.from, self.row.to)
            && geometry == self.geometry
            && row.trees.len() == self.row.trees.len()
            && row
                .trees
                .iter()
                .zip(&self.row.trees)
                .all(|(a, b)| a.id == b.id);
        let same_limits =
            Arc::ptr_eq(&plan.targets, &self.limits.0) && Arc::ptr_eq(&plan.site, &self.limits.1);
        let changed = row
            .trees
            .iter()
            .zip(&self.row.trees)
            .filter(|(a, b)| !Arc::ptr_eq(a, b))
            .map(|(a, _)| a.id);
        if same_frame {
            let known = self.changes.trees.len();
            self.changes.trees.extend(changed);
            self.light_holds &= same_limits && self.changes.trees.len() == known;
        } else {
            self.changes.all = true;
            self.light_holds = false;
        }
        self.geometry = geometry;
        let context = Context::of(&plan, &seen);
        // What the last survey worked out holds where nothing near has changed, under the same limits.
        let known = same_limits.then_some(Before {
            row: &self.row,
            findings: &self.findings,
        });
        let judged = survey(&context, known);
        self.limits = (Arc::clone(&plan.targets), Arc::clone(&plan.site));
        self.row = seen.row;
        self.terms = seen.terms;
        self.figures = judged.figures;
        self.cover = judged.cover;
        self.places = judged.places;
        self.findings = judged.findings;
        let still_there = self.chosen.is_some_and(|part| match part.shoot {
            Some(shoot) => self.row.shoot(part.tree, shoot).is_some(),
            None => self.row.tree(part.tree).is_some(),
        });
        if !still_there {
            self.chosen = None;
        }
    }

    /// Does work at the moment that is looked at, as one step.
    ///
    /// # Errors
    /// Why it can't be done; nothing has changed then.
    pub fn work(&mut self, label: &str, works: Vec<Work>) -> Result<(), Refusal> {
        self.drop_drag();
        self.refuse_while_correcting()?;
        let plan = self.plan().with_works(self.scheme, self.moment, works)?;
        self.set_work(label, plan);
        Ok(())
    }

    /// Does what a finding's remedy asks for, as one step.
    ///
    /// # Errors
    /// As [`Desk::work`]; a wall height outside the accepted range.
    pub fn mend(&mut self, label: &str, remedy: &Remedy) -> Result<(), Refusal> {
        self.mend_each(label, core::slice::from_ref(remedy))?;
        Ok(())
    }

    /// Does each of several remedies that can be done, as one step, and says how many were.
    ///
    /// # Errors
    /// Why the first can't be done, when none can.
    pub fn mend_each(&mut self, label: &str, remedies: &[Remedy]) -> Result<usize, Refusal> {
        self.drop_drag();
        self.refuse_while_correcting()?;
        // All at once, and one by one only where one of them can't be done.
        if let Ok(plan) = self.mended(self.plan(), remedies) {
            self.set_work(label, plan);
            return Ok(remedies.len());
        }
        let mut plan = (**self.plan()).clone();
        let (mut done, mut refused) = (0, None);
        for remedy in remedies {
            match self.mended(&plan, core::slice::from_ref(remedy)) {
                Ok(next) => {
                    plan = next;
                    done += 1;
                }
                Err(why) => refused = refused.or(Some(why)),
            }
        }
        match refused {
            Some(why) if done == 0 => Err(why),
            _ => {
                self.set_work(label, plan);
                Ok(done)
            }
        }
    }

    /// Takes a plan with more work in it. Who works wants to see what it does.
    fn set_work(&mut self, label: &str, plan: Plan) {
        self.before = false;
        self.set(label, plan);
    }

    /// The plan with what all the remedies ask for.
    fn mended(&self, plan: &Plan, remedies: &[Remedy]) -> Result<Plan, Refusal> {
        let mut plan = plan.clone();
        for height in remedies.iter().filter_map(|r| r.wall_height) {
            plan = plan.with_setting(Setting::WallHeight, Some(height.f()))?;
        }
        // Seen before the work, a shoot may lack what its planned cut takes off anyway.
        let scheme = plan.scheme(self.scheme)?;
        let idle = |work: &&Work| scheme.schedule.is_idle(self.moment, work);
        let work = remedies.iter().flat_map(|r| &r.work);
        let work = work.filter(|w| !idle(w)).cloned().collect();
        plan.with_works(self.scheme, self.moment, work)
    }

    /// Takes back the work that was done at this moment on a part.
    ///
    /// # Errors
    /// No such scheme.
    pub fn take_back(&mut self, part: Part) -> Result<(), Refusal> {
        let about = self.about(part);
        self.take_back_where(about)
    }

    fn take_back_where(&mut self, goes: impl Fn(&Work) -> bool) -> Result<(), Refusal> {
        self.drop_drag();
        let plan = self.plan().without_work(self.scheme, self.moment, goes)?;
        self.set("step-take-back", plan);
        Ok(())
    }

    /// The work that was done at this moment on a part.
    pub fn work_on(&self, part: Part) -> Vec<Work> {
        self.work_where(self.about(part))
    }

    /// Whether work is about a part: one of its shoots, or the tree as a whole.
    fn about(&self, part: Part) -> impl Fn(&Work) -> bool + use<> {
        let leaf = self.moment.leaf;
        move |work| match part.shoot {
            Some(shoot) => work.is_about(part.tree, shoot, leaf),
            None => {
                let subject = work.subject();
                subject.tree == Some(part.tree) && subject.kind == Stage::Tree
            }
        }
    }

    fn work_where(&self, wanted: impl Fn(&Work) -> bool) -> Vec<Work> {
        if self.correcting {
            return Vec::new();
        }
        let scheme = self.plan().schemes.get(self.scheme);
        let works = scheme.into_iter().flat_map(|s| s.work(self.moment));
        works.filter(|w| wanted(w)).cloned().collect()
    }

    /// Puts a changed plan on the desk as one step.
    pub fn set(&mut self, label: &str, plan: Plan) {
        self.history.set(label, plan);
        self.derive();
    }

    /// Keeps a bud on a laid shoot at the place `x` along the row, and chooses it.
    ///
    /// # Errors
    /// Why no bud can be kept there.
    pub fn keep_bud(&mut self, tree: TreeId, shoot: ShootId, x: f64) -> Result<(), Refusal> {
        let Some(at) = self.along(tree, shoot, x) else {
            return Err(Refusal::new("refusal-bud-off-wood", vec![]));
        };
        let work = Work::KeepBud {
            tree,
            shoot,
            at_mm: Mm::round(at),
        };
        let bud = work.kept_bud(self.moment.leaf);
        self.work("step-keep-bud", vec![work])?;
        self.chosen = Some(Part { tree, shoot: bud });
        Ok(())
    }

    /// How far along a shoot the place `x` is.
    pub fn along(&self, tree: TreeId, shoot: ShootId, x: f64) -> Option<f64> {
        self.course(tree, shoot)?.at_x(x)
    }

    /// The laid shoot that covers the wire at `x`: of several the one that begins nearest.
    pub fn laid_at(&self, x: f64) -> Option<(TreeId, ShootId)> {
        self.cover
            .laid
            .iter()
            .filter(|l| l.span.from <= x && x <= l.span.to)
            .max_by(|a, b| a.span.from.total_cmp(&b.span.from))
            .map(|l| (l.tree, l.shoot))
    }

    /// The middle, along the row, of the widest space between uprights on a laid shoot.
    pub fn widest_space(&self, tree: TreeId, shoot: ShootId) -> Option<f64> {
        let laid = self
            .cover
            .laid
            .iter()
            .find(|l| l.tree == tree && l.shoot == shoot)?;
        let (from, to) = (laid.span.from, laid.span.to);
        let inside = self
            .places
            .iter()
            .map(|p| p.x)
            .filter(|x| *x > from && *x < to);
        let edges: Vec<f64> = [from].into_iter().chain(inside).chain([to]).collect();
        edges
            .windows(2)
            .max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])))
            .map(|w| (w[0] + w[1]) / 2.0)
    }

    /// Where a shoot runs.
    pub fn course(&self, tree: TreeId, shoot: ShootId) -> Option<Course> {
        let tree = self.row.tree(tree)?;
        let index = tree.index(shoot)?;
        layout(tree, self.geometry).get(index).copied()
    }

    /// Takes a shoot's tip in the hand.
    pub fn drag_begin(&mut self, tree: TreeId, shoot: ShootId) -> bool {
        self.drop_drag();
        if self.before {
            self.show_before(false);
        }
        let Some(found) = self.row.tree(tree) else {
            return false;
        };
        let Some(index) = found.index(shoot) else {
            return false;
        };
        let bendable =
            found.shoots[index].pose != Pose::Stub && !found.shoots[index].units.is_empty();
        if bendable {
            self.drag = Some(Drag {
                tree,
                shoot,
                from: Arc::clone(found),
                index,
            });
            self.history.begin(if self.correcting {
                "step-correct"
            } else {
                "step-bend"
            });
        }
        bendable
    }

    /// Moves the tip in the hand toward `to`. What can't be done leaves the shoot where it was.
    pub fn drag_to(&mut self, to: Point, snap: bool) {
        let Some(drag) = &self.drag else { return };
        let pose = bend_toward(&drag.from, drag.index, self.geometry, to, snap);
        let (tree, shoot) = (drag.tree, drag.shoot);
        if self.correcting {
            let correction = Correction::Pose { tree, shoot, pose };
            if let Ok(plan) = self.history.base().corrected(&correction) {
                self.history.update(plan);
                self.derive();
            }
            return;
        }
        let work = match pose {
            Pose::Laid { toward, rise } => Work::Lay {
                tree,
                shoot,
                toward,
                rise_deg: rise,
            },
            Pose::Upright { lean } => Work::Stand {
                tree,
                shoot,
                lean_deg: lean,
            },
            Pose::Stub | Pose::Free => return,
        };
        if let Ok(plan) = self
            .history
            .base()
            .with_work(self.scheme, self.moment, work)
        {
            self.history.update(plan);
            self.derive();
        }
    }

    /// Whether a tip is in the hand.
    pub fn dragging(&self) -> bool {
        self.drag.is_some()
    }

    /// The shoot whose tip is in the hand.
    pub fn dragged(&self) -> Option<(TreeId, ShootId)> {
        self.drag.as_ref().map(|d| (d.tree, d.shoot))
    }

    /// Lets go of the tip: one step.
    pub fn drag_end(&mut self) {
        if self.drag.take().is_some() {
            self.history.commit();
            self.derive();
        }
    }

    /// Lets go of the tip and puts it back.
    pub fn drop_drag(&mut self) {
        if self.drag.take().is_some() {
            self.history.cancel();
            self.derive();
        }
    }

    /// Takes the last step back; its label.
    pub fn undo(&mut self) -> Option<String> {
        self.drag = None;
        let label = self.history.undo();
        self.derive();
        label
    }

    /// Does the step again that was taken back; its label.
    pub fn redo(&mut self) -> Option<String> {
        self.drop_drag();
        let label = self.history.redo();
        self.derive();
        label
    }

    /// Chooses a part, or nothing. A choice is no step.
    pub fn choose(&mut self, part: Option<Part>) {
        self.chosen = part;
    }

    /// The next shoot along the row from the chosen one, or the previous.
    pub fn neighbour(&self, forward: bool) -> Option<Part> {
        let mut order: Vec<(f64, Part)> = Vec::new();
        for tree in &self.row.trees {
            for (shoot, course) in tree.shoots.iter().zip(layout(tree, self.geometry)) {
                order.push((
                    course.base.x,
                    Part {
                        tree: tree.id,
                        shoot: Some(shoot.id),
                    },
                ));
            }
        }
        order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let here = self
            .chosen
            .and_then(|c| order.iter().position(|(_, p)| *p == c));
        let next = match (here, forward) {
            (None, true) => 0,
            (None, false) => order.len().checked_sub(1)?,
            (Some(i), true) => i + 1,
            (Some(i), false) => i.checked_sub(1)?,
        };
        order.get(next).map(|(_, p)| *p)
    }
}
