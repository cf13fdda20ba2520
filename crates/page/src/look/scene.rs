//! What is seen at a look: worked out from the document, and only read.

use super::Look;
use crate::document::{Document, Edit, Mode};
use cordonry::arrange::Arrange;
use cordonry::check::{Before, Context, Figures, Finding, Kept, Part, survey};
use cordonry::cover::{Cover, Place, Span};
use cordonry::plan::{Moment, Phase, Plan, VoidWork};
use cordonry::pose::{Course, Posed, PosedRow};
use cordonry::refusal::Refusal;
use cordonry::row::{Limit, ShootId, Targets, Tree, TreeId};
use cordonry::said::Arg;
use cordonry::terms::Terms;
use cordonry::units::Mm;
use cordonry::work::{Stage, Work, budded};
use cordonry_draw::Time;
use std::sync::Arc;

/// What is seen.
#[derive(Clone, Debug)]
pub struct Scene {
    /// Of which plan.
    pub plan: Arc<Plan>,
    /// What of the plan is open.
    pub mode: Mode,
    /// What is looked at.
    pub look: Look,
    /// The row.
    pub row: PosedRow,
    /// When it is so.
    pub moment: Moment,
    /// What pose and work read besides its trees.
    pub terms: Terms,
    /// The limits by which it is judged.
    pub targets: Arc<Targets>,
    /// How its wire is covered.
    pub cover: Cover,
    /// Its uprights from left to right.
    pub places: Vec<Place>,
    /// What the checks say; what they say of the light is apart from it.
    pub findings: Vec<Finding>,
    /// The figures.
    pub figures: Figures,
    /// What the next scene takes from what was worked out of this one.
    kept: Kept,
    /// Work on the way here that touched nothing.
    pub void: Vec<VoidWork>,
    /// The work of the moment, where nobody has planned it.
    pub standing: Option<Vec<Work>>,
}

impl Scene {
    /// What is seen of a document. What an earlier scene worked out is taken from it where it can't have changed: its findings
    /// are gone then.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(
        document: &Document,
        look: Look,
        earlier: Option<&mut Scene>,
    ) -> Result<Self, Refusal> {
        let plan = Arc::clone(document.plan());
        let look = look.within(&plan);
        let seen = document.replayed(look)?;
        let known = earlier
            .filter(|e| e.same_limits_as(&plan, &seen.targets))
            .map(|e| Before {
                row: &e.row,
                moment: e.moment,
                findings: std::mem::take(&mut e.findings),
                kept: std::mem::take(&mut e.kept),
            });
        let found = survey(&Context::of(&seen), known);
        Ok(Self {
            mode: document.mode(),
            look,
            row: seen.row,
            moment: seen.moment,
            terms: seen.terms,
            targets: seen.targets,
            cover: found.cover,
            places: found.places,
            findings: found.findings,
            figures: found.figures,
            kept: found.kept,
            void: seen.void,
            standing: document.standing(look)?,
            plan,
        })
    }

    /// How much of the row was asked anew for its findings.
    pub fn asked(&self) -> usize {
        self.kept.asked()
    }

    fn same_limits_as(&self, plan: &Plan, targets: &Targets) -> bool {
        *targets == *self.targets && Arc::ptr_eq(&plan.site, &self.plan.site)
    }

    /// Whether nothing of a plan that is seen here is another in that one; its own name may be.
    pub(super) fn hangs_on_the_same(&self, plan: &Plan) -> bool {
        let (own, number) = (&self.plan, self.look.scheme);
        let schemes = own.schemes.get(number).zip(plan.schemes.get(number));
        Arc::ptr_eq(&own.targets, &plan.targets)
            && Arc::ptr_eq(&own.site, &plan.site)
            && Arc::ptr_eq(&own.found, &plan.found)
            && Arc::ptr_eq(&own.assumptions, &plan.assumptions)
            && own.tipped == plan.tipped
            && schemes.is_some_and(|(a, b)| Arc::ptr_eq(a, b))
    }

    /// Whether the findings of both were made under the same limits and site.
    pub(super) fn same_limits(&self, other: &Scene) -> bool {
        self.same_limits_as(&other.plan, &other.targets)
    }

    /// Whether the same is seen: the same look at the same plan.
    pub(super) fn is_same_as(&self, other: &Scene) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan) && (self.look, self.mode) == (other.look, other.mode)
    }

    /// Whether all but single trees stands as in another scene.
    pub(super) fn stands_as(&self, other: &Scene) -> bool {
        let (row, before) = (&self.row, &other.row);
        let pairs = row.trees.iter().zip(&before.trees);
        // What the numbers under the ground say of a tree, and where.
        let sign = |tree: &Tree| (tree.id, tree.foot, tree.is_lost());
        self.mode == other.mode
            && row.trellis == before.trellis
            && (row.from, row.to) == (before.from, before.to)
            && self.terms.geometry == other.terms.geometry
            && row.trees.len() == before.trees.len()
            && pairs.into_iter().all(|(a, b)| sign(a) == sign(b))
    }

    /// The trees that are others than in a scene that stands alike.
    pub(super) fn changed_trees(&self, other: &Scene) -> Vec<TreeId> {
        let pairs = self.row.trees.iter().zip(&other.row.trees);
        pairs
            .filter(|(a, b)| !Arc::ptr_eq(a, b))
            .map(|(a, _)| a.id)
            .collect()
    }

    /// What a check looks at.
    pub fn context(&self) -> Context<'_> {
        Context {
            row: &self.row,
            moment: self.moment,
            terms: &self.terms,
            targets: &self.targets,
            void: &self.void,
        }
    }

    /// Whether the row is shown before the work of the moment, with signs for it.
    pub fn is_before(&self) -> bool {
        self.mode == Mode::Work && self.look.phase == Phase::Before
    }

    /// The work of the moment that is looked at, planned or standing, in order of subject; none while the record is open.
    pub fn work(&self) -> impl Iterator<Item = &Work> {
        let scheme = self.plan.schemes.get(self.look.scheme);
        let scheme = scheme.filter(|_| self.mode == Mode::Work && self.standing.is_none());
        let stored = scheme.into_iter().flat_map(|s| s.work(self.look.moment));
        stored.chain(self.standing.iter().flatten())
    }

    /// Whether the work of the moment stands: nobody planned it. Never while the record is open.
    pub fn stands(&self) -> bool {
        self.standing.is_some()
    }

    /// When the row is as it is, for a drawing.
    pub fn time(&self) -> Time {
        Time {
            moment: self.look.moment,
            phase: self.look.phase,
            stands: self.stands(),
        }
    }

    /// The same, to keep.
    pub fn works(&self) -> Vec<Work> {
        self.work().cloned().collect()
    }

    /// The work that a class is asked for: where shoots go, which of them.
    pub fn asked_works(&self) -> Vec<Work> {
        match self.work().any(Work::ends_shoot) {
            true => self.works_where(Work::ends_shoot),
            false => self.works(),
        }
    }

    fn works_where(&self, wanted: impl Fn(&Work) -> bool) -> Vec<Work> {
        self.work().filter(|w| wanted(w)).cloned().collect()
    }

    /// The work that was done at this moment on a part: on one of its shoots, or on the tree as a whole.
    pub fn works_on(&self, part: Part) -> Vec<Work> {
        let leaf = self.look.moment.leaf;
        self.works_where(|work| match part.shoot {
            Some(shoot) => work.is_about(part.tree, shoot, leaf),
            None => {
                let subject = work.subject();
                subject.tree == Some(part.tree) && subject.kind == Stage::Tree
            }
        })
    }

    /// The work on the wires at this moment.
    pub fn works_on_wires(&self) -> Vec<Work> {
        self.works_where(|w| w.subject().kind == Stage::Wire)
    }

    /// Whether a part is there.
    pub fn has(&self, part: Part) -> bool {
        match part.shoot {
            Some(shoot) => self.row.shoot(part.tree, shoot).is_some(),
            None => self.row.tree(part.tree).is_some(),
        }
    }

    /// A tree with where its shoots run.
    pub fn posed(&self, tree: TreeId) -> Option<&Arc<Posed>> {
        self.row.of_tree(tree)
    }

    /// Where a shoot runs.
    pub fn course(&self, tree: TreeId, shoot: ShootId) -> Option<Course> {
        let posed = self.posed(tree)?;
        let index = posed.tree().index(shoot)?;
        posed.courses().get(index).copied()
    }

    /// How far along a shoot the place `x` is.
    pub fn along(&self, tree: TreeId, shoot: ShootId, x: f64) -> Option<f64> {
        self.course(tree, shoot)?.at_x(x)
    }

    /// The middle, along the row, of the widest space between uprights on a laid shoot.
    pub fn widest_space(&self, tree: TreeId, shoot: ShootId) -> Option<f64> {
        let laid = self.cover.laid_shoot(tree, shoot)?;
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

    /// The place over `x` on a laid shoot where a bud can be kept or an upright recorded: on the wood that covers the wire; and
    /// the text that says what a press there does.
    pub fn bud_place(
        &self,
        tree: TreeId,
        shoot: ShootId,
        x: f64,
    ) -> Option<(kurbo::Point, &'static str)> {
        let laid = self.cover.laid_shoot(tree, shoot)?;
        if x < laid.span.from || x > laid.span.to {
            return None;
        }
        let course = self.course(tree, shoot)?;
        let text = match self.bud(tree, shoot, x)? {
            Work::Notch { .. } => "ghost-notch",
            _ => "ghost-bud",
        };
        Some((course.point(course.at_x(x)?), text))
    }

    /// The work that keeps a bud on a laid shoot at the place `x` along the row, or brings one on there.
    pub fn bud(&self, tree: TreeId, shoot: ShootId, x: f64) -> Option<Work> {
        let at = self.along(tree, shoot, x)?;
        let (_, wood) = self.row.shoot(tree, shoot)?;
        Some(budded(tree, wood, Mm::round(at), self.look.moment.leaf))
    }

    /// Keeping a bud on a laid shoot at the place `x` along the row.
    ///
    /// # Errors
    /// A place off the wood.
    pub fn keep_bud(&self, tree: TreeId, shoot: ShootId, x: f64) -> Result<Edit, Refusal> {
        match self.bud(tree, shoot, x) {
            Some(work) => Ok(Edit::keep_bud(tree, self.look.moment.leaf, work)),
            None => Err(Refusal::new("refusal-bud-off-wood", vec![])),
        }
    }

    /// Whether a press at the place `x` may keep a bud there on a laid shoot.
    ///
    /// # Errors
    /// Another upright, bud or stub stands nearer than half the least distance: such a press was hardly meant so.
    pub fn may_press_bud(&self, x: f64) -> Result<(), Refusal> {
        let least = self.plan.targets.get(Limit::UprightSpacingMin) / 2.0;
        match self.places.iter().find(|p| (p.x - x).abs() < least) {
            None => Ok(()),
            Some(near) => Err(Refusal::new(
                "refusal-bud-pressed",
                vec![
                    ("value", Arg::Length(x)),
                    ("low", Arg::Thickness(least)),
                    ("near", Arg::Length(near.x)),
                ],
            )),
        }
    }

    /// Recording a tree at the place `x`, like its neighbours.
    pub fn record_tree(&self, x: f64) -> Edit {
        Edit::record_tree(&self.plan, x)
    }

    /// Recording an upright on a laid shoot at the place `x`, like the others.
    ///
    /// # Errors
    /// A place off the wood.
    pub fn record_upright(&self, tree: TreeId, on: ShootId, x: f64) -> Result<Edit, Refusal> {
        let Some(at) = self.along(tree, on, x) else {
            return Err(Refusal::new("refusal-upright-off-wood", vec![]));
        };
        Ok(Edit::record_upright(&self.plan, tree, on, at))
    }

    /// What the cordon band shows at the place `x`: the nearest upright within `reach`, or else what lies beside the bare
    /// stretch there, or what lies on the wire where no upright is.
    pub fn on_band(&self, x: f64, reach: f64) -> Option<Part> {
        let part = |(tree, shoot): (TreeId, ShootId)| Part {
            tree,
            shoot: Some(shoot),
        };
        let off = |p: &&Place| (p.x - x).abs();
        let near = self.places.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        if let Some(place) = near.filter(|p| off(p) <= reach) {
            return Some(part((place.tree, place.shoot)));
        }
        let is_at = |span: &Span| (span.from..=span.to).contains(&x);
        let gap = self.cover.gaps.iter().find(|g| is_at(&g.span));
        let beside = gap.and_then(|g| g.by.first().copied());
        let laid = || self.cover.laid.iter().find(|l| is_at(&l.span));
        let laid = || laid().map(|l| (l.tree, l.shoot));
        beside.or_else(laid).map(part)
    }

    /// The shoot whose wood comes nearest to a point, within `reach` mm.
    pub fn nearest(&self, to: kurbo::Point, reach: f64) -> Option<Part> {
        let mut near = (reach, None);
        for posed in self.row.posed() {
            for (shoot, course) in posed.pairs() {
                let off = course.nearest(to).0;
                if off <= near.0 {
                    let tree = posed.tree().id;
                    near = (
                        off,
                        Some(Part {
                            tree,
                            shoot: Some(shoot.id),
                        }),
                    );
                }
            }
        }
        near.1
    }

    /// The next shoot along the row from a part, or the previous; from nothing the first or the last.
    pub fn neighbour(&self, from: Option<Part>, forward: bool) -> Option<Part> {
        let mut order: Vec<(f64, Part)> = Vec::new();
        for posed in self.row.posed() {
            let tree = posed.tree();
            for (shoot, course) in posed.pairs() {
                order.push((
                    course.base.x,
                    Part {
                        tree: tree.id,
                        shoot: Some(shoot.id),
                    },
                ));
            }
        }
        order.arrange_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let here = from.and_then(|c| order.iter().position(|(_, p)| *p == c));
        let next = match (here, forward) {
            (None, true) => 0,
            (None, false) => order.len().checked_sub(1)?,
            (Some(i), true) => i + 1,
            (Some(i), false) => i.checked_sub(1)?,
        };
        order.get(next).map(|(_, p)| *p)
    }
}
