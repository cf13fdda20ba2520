//! What is asked of the document, from wherever it comes.

use super::{Look, Mode};
use cordonry::check::{self, Part, Remedy};
use cordonry::model::Parameter;
use cordonry::plan::{CopiedOn, Correction, Left, Plan, Setting, VoidWork};
use cordonry::refusal::Refusal;
use cordonry::row::{Limit, ShootId, TreeId};
use cordonry::standing::Rule;
use cordonry::units::Mm;
use cordonry::work::{Work, apply_to_trellis};
use std::sync::Arc;

/// Something to be changed, as one step that undo takes back.
#[derive(Clone, Debug, PartialEq)]
pub struct Edit {
    /// The text that names it as work or as a setting.
    step: &'static str,
    /// What is changed.
    pub request: Request,
    /// What is chosen once it is made; `None` leaves the choice as it is.
    pub choose: Option<Part>,
    /// What is open once it is made; `None` leaves that as it is.
    pub mode: Option<Mode>,
}

/// What is changed.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    /// Work is done at the moment that is looked at: all of it, or none.
    Work(Vec<Work>),
    /// The plan becomes what is drafted: that of its window.
    Draft(Arc<Plan>),
    /// Each of several remedies that can be done is done.
    Mend(Vec<Remedy>),
    /// Work at the moment that is looked at is taken back.
    TakeBack(Vec<Work>),
    /// The wires: as work, or in the record while that is open.
    Wires(Work),
    /// The record is corrected.
    Record(Correction),
    /// Whether last year's growth had been tipped where the record shows no cut; `None` where that is not known.
    Tipped(Option<bool>),
    /// A setting; `None` leaves it out.
    Setting(Setting, Option<f64>),
    /// A limit; `None` puts its default back.
    Limit(Limit, Option<f64>),
    /// Every limit goes back to its default.
    DefaultLimits,
    /// A rule of the scheme that is looked at; `None` puts its default back.
    Rule(Rule, Option<f64>),
    /// Whether that scheme has rules.
    Standing(bool),
    /// The first leaf that it lets bear; `None` for every one.
    CropFrom(Option<f64>),
    /// A value of the model; `None` puts its default back.
    Assumption(Parameter, Option<f64>),
    /// Every value of the model goes back to its default.
    DefaultAssumptions,
    /// Posts so far apart along the row, mm.
    PostsEvery(f64),
    /// The row's name.
    Name(String),
    /// The window that is looked at stands again, with its work gone.
    StandAgain,
    /// The usual work stands in every window of the scheme that is not planned.
    UsualWork,
    /// The schemes.
    Schemes(Schemes),
    /// The work of the leaf that is looked at is done once more in the next.
    CopyLeaf,
    /// Something that was found is left for a year.
    Leave(Left),
    /// What stands there among all that is left is taken up again.
    TakeUp(usize),
    /// The plan becomes another one, in what is no work: in what is told from the row, or in delivered trees.
    Become(Arc<Plan>),
}

/// What is done with the schemes: with the one that is looked at, or one more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Schemes {
    /// One without work is added.
    Add,
    /// It is copied.
    Copy,
    /// It has another name.
    Name(String),
    /// It goes.
    Remove,
}

/// What came of an edit.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// How many of the things asked for were done.
    pub count: usize,
    /// The scheme that is looked at from then on, where it is another.
    pub scheme: Option<usize>,
    /// Work of the leaf that could not be copied on, and why.
    pub left: Vec<VoidWork>,
}

impl Done {
    /// So many things, under the scheme that is looked at.
    pub fn count(count: usize) -> Self {
        Self {
            count,
            scheme: None,
            left: Vec::new(),
        }
    }
}

impl Edit {
    fn new(step: &'static str, request: Request) -> Self {
        Self {
            step,
            request,
            choose: None,
            mode: None,
        }
    }

    fn choosing(self, tree: TreeId, shoot: Option<ShootId>) -> Self {
        Self {
            choose: Some(Part { tree, shoot }),
            ..self
        }
    }

    /// Work, named by `step`.
    pub fn work(step: &'static str, works: Vec<Work>) -> Self {
        Self::new(step, Request::Work(works))
    }

    /// One remedy.
    pub fn mend(remedy: Remedy) -> Self {
        Self::new("step-remedy", Request::Mend(vec![remedy]))
    }

    /// Each of several remedies that can be done.
    pub fn mend_each(remedies: Vec<Remedy>) -> Self {
        Self::new("step-remedies", Request::Mend(remedies))
    }

    /// What is drafted of a window's work is done.
    pub fn draft(plan: Arc<Plan>) -> Self {
        Self::new("step-draft", Request::Draft(plan))
    }

    /// Delivered trees stand in the record.
    pub fn delivered(plan: Arc<Plan>) -> Self {
        Self::new("step-delivered", Request::Become(plan))
    }

    /// Work is taken back.
    pub fn take_back(works: Vec<Work>) -> Self {
        Self::new("step-take-back", Request::TakeBack(works))
    }

    /// The window that is looked at is given back to the usual work.
    pub fn stand_again() -> Self {
        Self::new("step-stand-again", Request::StandAgain)
    }

    /// The usual work stands in windows that nobody planned.
    pub fn usual_work() -> Self {
        Self::new("step-usual-work", Request::UsualWork)
    }

    /// Something is done with the schemes.
    pub fn schemes(what: Schemes) -> Self {
        let step = match what {
            Schemes::Add => "step-scheme-add",
            Schemes::Copy => "step-scheme-copy",
            Schemes::Name(_) => "step-scheme-name",
            Schemes::Remove => "step-scheme-remove",
        };
        Self::new(step, Request::Schemes(what))
    }

    /// The work of the leaf that is looked at is done once more in the next.
    pub fn copy_leaf() -> Self {
        Self::new("step-copy-leaf", Request::CopyLeaf)
    }

    /// A matter is left for a year.
    pub fn leave(left: Left) -> Self {
        Self::new("step-leave", Request::Leave(left))
    }

    /// What was left is taken up again.
    pub fn take_up(place: usize) -> Self {
        Self::new("step-take-up", Request::TakeUp(place))
    }

    /// What is told from the row, or of the crew.
    pub fn told(step: &'static str, plan: Plan) -> Self {
        Self::new(step, Request::Become(Arc::new(plan)))
    }

    /// Work on the wires.
    pub fn wires(work: Work) -> Self {
        Self::new("step-wires", Request::Wires(work))
    }

    /// A bud is kept, and chosen.
    pub fn keep_bud(tree: TreeId, leaf: u8, work: Work) -> Self {
        let bud = work.kept_bud(leaf);
        let step = match work {
            Work::Notch { .. } => "step-notch",
            _ => "step-keep-bud",
        };
        Self::work(step, vec![work]).choosing(tree, bud)
    }

    /// The record is corrected.
    pub fn record(correction: Correction) -> Self {
        let step = match correction {
            Correction::Leaf { .. } => "step-correct-leaf",
            _ => "step-correct",
        };
        Self::new(step, Request::Record(correction))
    }

    /// Whether last year's growth had been tipped before it was measured.
    pub fn tipped(tipped: Option<bool>) -> Self {
        Self::new("step-correct", Request::Tipped(tipped))
    }

    /// A tree is recorded at the place `x`, like its neighbours, and chosen. The record stays open for the next.
    pub fn record_tree(plan: &Plan, x: f64) -> Self {
        let tree = plan.next_tree();
        let request = Request::Record(plan.tree_like_others(x));
        Self {
            mode: Some(Mode::Found),
            ..Self::new("step-found-tree", request).choosing(tree, Some(ShootId::STEM))
        }
    }

    /// An upright is recorded on a laid shoot, `at` mm along it, like the others, and chosen.
    pub fn record_upright(plan: &Plan, tree: TreeId, on: ShootId, at: f64) -> Self {
        let shoot = plan.next_shoot(tree);
        Self::record(plan.upright_like_others(tree, on, at)).choosing(tree, Some(shoot))
    }

    /// The posts' places.
    pub fn posts(at_mm: Vec<Mm>) -> Self {
        Self::new("step-setting", Request::Record(Correction::Posts { at_mm }))
    }

    /// Posts so far apart, mm.
    pub fn posts_every(distance: f64) -> Self {
        Self::new("step-setting", Request::PostsEvery(distance))
    }

    /// A setting.
    pub fn setting(setting: Setting, value: Option<f64>) -> Self {
        Self::new("step-setting", Request::Setting(setting, value))
    }

    /// A limit.
    pub fn limit(limit: Limit, value: Option<f64>) -> Self {
        Self::new("step-limit", Request::Limit(limit, value))
    }

    /// Every limit at its default.
    pub fn default_limits() -> Self {
        Self::new("step-limits-reset", Request::DefaultLimits)
    }

    /// A setting of the scheme that is looked at, or of the model.
    pub fn assumed(request: Request) -> Self {
        Self::new("step-assumed", request)
    }

    /// The row's name.
    pub fn name(name: String) -> Self {
        Self::new("step-name", Request::Name(name))
    }

    /// The text that names the step.
    pub fn label(&self, mode: Mode) -> &'static str {
        match self.request {
            Request::Wires(_) if mode == Mode::Found => "step-correct",
            _ => self.step,
        }
    }

    /// Whether work is added by it: who works wants to see what it does.
    pub fn is_work(&self) -> bool {
        matches!(
            self.request,
            Request::Work(_) | Request::Mend(_) | Request::Draft(_)
        )
    }

    /// The plan with the edit made.
    ///
    /// # Errors
    /// Why it can't be made.
    pub(super) fn made(
        &self,
        plan: &Arc<Plan>,
        mode: Mode,
        look: Look,
    ) -> Result<(Plan, Done), Refusal> {
        let Look { scheme, moment, .. } = look.within(plan);
        let one = |plan| Ok((plan, Done::count(1)));
        if mode == Mode::Found && self.is_work() {
            return Err(Refusal::new("refusal-while-correcting", vec![]));
        }
        match &self.request {
            Request::Work(works) => {
                let done = Done::count(works.len());
                Ok((plan.with_works(scheme, moment, works.clone())?, done))
            }
            Request::Draft(made) | Request::Become(made) => one((**made).clone()),
            Request::Mend(remedies) => mended_each(plan, look, remedies),
            Request::TakeBack(works) => {
                one(plan.without_work(scheme, moment, |w| works.contains(w))?)
            }
            Request::Wires(work) if mode == Mode::Found => {
                let wires = apply_to_trellis(&plan.found.trellis, work)?.wires;
                one(plan.corrected(&Correction::Wires { wires })?)
            }
            Request::Wires(work) => one(plan.with_work(scheme, moment, work.clone())?),
            Request::Record(correction) => one(plan.corrected(correction)?),
            Request::Tipped(tipped) => one(Plan {
                tipped: *tipped,
                ..(**plan).clone()
            }),
            Request::Setting(setting, value) => one(plan.with_setting(*setting, *value)?),
            Request::Limit(limit, value) => one(plan.with_limit_under(scheme, *limit, *value)?),
            Request::DefaultLimits => one(plan.with_default_limits_under(scheme)?),
            Request::Rule(rule, value) => one(plan.with_rule(scheme, *rule, *value)?),
            Request::Standing(stands) => one(plan.with_standing(scheme, *stands)?),
            Request::CropFrom(leaf) => one(plan.with_crop_from(scheme, *leaf)?),
            Request::Assumption(parameter, value) => one(plan.with_assumption(*parameter, *value)?),
            Request::DefaultAssumptions => one(plan.with_default_assumptions()),
            Request::PostsEvery(distance) => one(plan.with_posts_every(*distance)?),
            Request::StandAgain => one(plan.with_window_standing(scheme, moment)?),
            Request::UsualWork => one(plan.with_standing(scheme, true)?),
            Request::Schemes(what) => {
                let (plan, scheme) = match what {
                    Schemes::Add => (plan.with_scheme_added(scheme)?, plan.schemes.len()),
                    Schemes::Copy => (plan.with_scheme_copied(scheme)?, plan.schemes.len()),
                    Schemes::Name(name) => (plan.with_scheme_named(scheme, name)?, scheme),
                    Schemes::Remove => (
                        plan.without_scheme(scheme)?,
                        scheme.min(plan.schemes.len() - 2),
                    ),
                };
                let done = Done {
                    scheme: Some(scheme),
                    ..Done::count(1)
                };
                Ok((plan, done))
            }
            Request::CopyLeaf => {
                let CopiedOn { plan, count, left } =
                    plan.with_leaf_copied_on(scheme, moment.leaf)?;
                let done = Done {
                    left,
                    ..Done::count(count)
                };
                Ok((plan, done))
            }
            Request::Leave(left) => one(plan.with_left(left)?),
            Request::TakeUp(place) => one(plan.without_left(*place)),
            Request::Name(name) => one(Plan {
                name: name.clone(),
                ..(**plan).clone()
            }),
        }
    }
}

/// The plan with each remedy that can be done: all at once, and one by one only where one of them can't be.
fn mended_each(plan: &Plan, look: Look, remedies: &[Remedy]) -> Result<(Plan, Done), Refusal> {
    if let Ok(plan) = mended(plan, look, remedies) {
        return Ok((plan, Done::count(remedies.len())));
    }
    let mut plan = plan.clone();
    let (mut count, mut refused) = (0, None);
    for remedy in remedies {
        match mended(&plan, look, core::slice::from_ref(remedy)) {
            Ok(next) => {
                plan = next;
                count += 1;
            }
            Err(why) => refused = refused.or(Some(why)),
        }
    }
    match refused {
        Some(why) if count == 0 => Err(why),
        _ => Ok((plan, Done::count(count))),
    }
}

/// The plan with what all the remedies ask for.
fn mended(plan: &Plan, look: Look, remedies: &[Remedy]) -> Result<Plan, Refusal> {
    let Look { scheme, moment, .. } = look.within(plan);
    check::mended(plan, scheme, moment, &remedies.iter().collect::<Vec<_>>())
}
