//! What a client is told of a row: what was found, what is advised for a leaf, what becomes of each matter by that work, and every change
//! of the plan by tree.

use crate::advise::Brought;
use crate::arrange::{Arrange, Gather};
use crate::check::{Cause, Context, Finding, Matter, Severity, matters, survey, with_light};
use crate::crew::{Season, season};
use crate::light::row_light::report;
use crate::light::{Foliage, Period};
use crate::plan::{Moment, Phase, Plan, Replayed, Replayer, Window};
use crate::pose::PosedRow;
use crate::refusal::Refusal;
use crate::row::TreeId;
use crate::said::Arg;
use crate::sorted::Set;
use crate::work::Work;

/// What becomes of a matter by the leaf's work. The row is set beside the same row without that work at the same time, so that
/// what goes by growth alone is not told as mended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// The work of that window settles it.
    Settled(Moment),
    /// That work makes it less.
    Less(Moment),
    /// That work sees to it, and it waits for what comes of that: buds that are notched, say.
    UnderWay(Moment),
    /// The leaf's work leaves it as it is.
    Open,
}

/// A matter whose weight goes by less than this share is as large as it was.
const LESS: f64 = 0.95;

/// What is told of one leaf.
#[derive(Clone, Debug)]
pub struct Report {
    /// The leaf.
    pub leaf: u8,
    /// The row before the leaf's first work.
    pub found: Replayed,
    /// The row after its last; the same where there is none.
    pub advised: Replayed,
    /// What was found, the light too.
    pub findings: Vec<Finding>,
    /// The same by its causes, the gravest and largest first, what is left for the year last.
    pub matters: Vec<Matter>,
    /// What becomes of each of them.
    pub outcomes: Vec<Outcome>,
    /// The leaf's work in passes; none where it has none, be there usual work or not.
    pub season: Season,
    /// The plan with nothing done in that leaf.
    pub without: Plan,
}

impl Report {
    /// Of a scheme's leaf.
    ///
    /// # Errors
    /// No such scheme; a leaf before the one in which the row was found, or that no plan reaches.
    pub fn of(plan: &Plan, scheme: usize, leaf: u8) -> Result<Self, Refusal> {
        if !(plan.found.leaf..=Plan::MAX_LEAF).contains(&leaf) {
            let [low, high, value] = [plan.found.leaf, Plan::MAX_LEAF, leaf];
            let args = [("low", low), ("high", high), ("value", value)];
            let args = args.map(|(name, n)| (name, Arg::Count(n.into())));
            return Err(Refusal::new("refusal-leaf", args.into()));
        }
        let mut season = season(plan, scheme, leaf)?;
        if season.usual {
            season.passes.clear();
            season.void.clear();
        }
        let at = |window| Moment { leaf, window };
        let mut without = plan.clone();
        for window in Window::ALL {
            without = without.without_work(scheme, at(window), |_| true)?;
        }
        let mut replayer = Replayer::default();
        let found = replayer.at(plan, scheme, at(Window::Dormant), Phase::Before)?;
        let mut windows: Vec<Moment> = season.passes.iter().map(|p| p.moment).collect();
        windows.dedup();
        let advised = match windows.last() {
            Some(last) => replayer.at(plan, scheme, *last, Phase::After)?,
            None => found.clone(),
        };
        let (findings, matters) = lit(&found, plan);
        let mut out = Self {
            leaf,
            outcomes: vec![Outcome::Open; matters.len()],
            found,
            advised,
            findings,
            matters,
            season,
            without,
        };
        let mut bare = Replayer::default();
        for moment in windows {
            let with = replayer.at(plan, scheme, moment, Phase::After)?;
            let without = bare.at(&out.without, scheme, moment, Phase::After)?;
            out.settle(moment, &told(&with, plan), &told(&without, plan), &|_| true);
        }
        // Light takes long: it is looked at before the work and after all of it.
        let dark = |c: Cause| crate::check::light_rules().any(|rule| rule == c.name);
        let last = out.season.passes.last().map(|p| p.moment);
        if let Some(moment) = last.filter(|_| out.matters.iter().any(|m| dark(m.cause))) {
            let without = bare.at(&out.without, scheme, moment, Phase::After)?;
            let [with, without] = [&out.advised, &without].map(|at| lit(at, plan).1);
            out.settle(moment, &with, &without, &dark);
        }
        Ok(out)
    }

    /// What the row brings where all is done but one of the passes; all where there is no such pass.
    ///
    /// # Errors
    /// No such scheme.
    pub fn but(&self, plan: &Plan, scheme: usize, pass: usize) -> Result<Brought, Refusal> {
        let Some(pass) = self.season.passes.get(pass) else {
            return Brought::of(plan, scheme, self.leaf);
        };
        let own: Vec<&Work> = pass.work().collect();
        let plan = plan.without_work(scheme, pass.moment, |w| own.contains(&w))?;
        Brought::of(&plan, scheme, self.leaf)
    }

    /// Judges the matters of some causes by the row after a window's work and the row without it.
    fn settle(
        &mut self,
        moment: Moment,
        with: &[Matter],
        without: &[Matter],
        of: &dyn Fn(Cause) -> bool,
    ) {
        let known = |c: Cause| (c.name, c.tree);
        let weight = |all: &[Matter], cause: Cause| -> f64 {
            let same = all.iter().filter(|m| known(m.cause) == known(cause));
            same.map(|m| m.weight).sum()
        };
        for (matter, outcome) in self.matters.iter().zip(&mut self.outcomes) {
            if matter.left.is_some() || !of(matter.cause) {
                continue;
            }
            let waits = |all: &[Matter]| {
                let mut same = all.iter().filter(|m| known(m.cause) == known(matter.cause));
                same.all(|m| m.severity == Severity::Note)
            };
            let under_way = !waits(std::slice::from_ref(matter)) && waits(with) && !waits(without);
            let [with, without] = [with, without].map(|all| weight(all, matter.cause));
            match outcome {
                Outcome::Settled(_) => {}
                _ if without > 0.0 && with <= 0.0 => *outcome = Outcome::Settled(moment),
                Outcome::Open | Outcome::Less(_) if under_way => {
                    *outcome = Outcome::UnderWay(moment)
                }
                // What is as large as it was found is not made less, be it larger without the work.
                Outcome::Open if with < without.min(matter.weight) * LESS => {
                    *outcome = Outcome::Less(moment)
                }
                _ => {}
            }
        }
    }
}

/// What the rules but for those about light find, by its causes.
fn told(at: &Replayed, plan: &Plan) -> Vec<Matter> {
    let seen = survey(&Context::of(at), None);
    let findings: Vec<&Finding> = seen.findings.iter().collect();
    matters(&at.row, &seen.cover, &at.targets, &findings, &plan.left)
}

/// What all rules find, those about light too, and the same by its causes.
fn lit(at: &Replayed, plan: &Plan) -> (Vec<Finding>, Vec<Matter>) {
    let context = Context::of(at);
    let seen = survey(&context, None);
    let foliage = Foliage::new(&at.row, &at.terms, &plan.targets, 1.0);
    let period = Period::growing_season(foliage.around().site.latitude_deg);
    let light = report(&foliage, &plan.targets, period);
    let findings = with_light(&context, &light, seen.findings);
    let all: Vec<&Finding> = findings.iter().collect();
    let matters = matters(&at.row, &seen.cover, &at.targets, &all, &plan.left);
    (findings, matters)
}

/// Every change that a plan makes on one tree, or on the trellis.
#[derive(Clone, Debug, PartialEq)]
pub struct OnTree {
    /// The tree; `None` for the trellis.
    pub tree: Option<TreeId>,
    /// Its work in order of time, each with its place among the [times](Changes::times).
    pub work: Vec<(usize, Work)>,
}

/// A window in which a plan changes something.
#[derive(Clone, Debug)]
pub struct ChangedAt {
    /// When.
    pub moment: Moment,
    /// It is done by the scheme's rules: nobody planned it.
    pub stands: bool,
    /// The row after its work, which names what is worked on as it is found.
    pub row: PosedRow,
}

/// What a plan changes, tree by tree as one walks along the row.
#[derive(Clone, Debug)]
pub struct Changes {
    /// The windows, in order of time.
    pub times: Vec<ChangedAt>,
    /// The trellis first, then the trees.
    pub trees: Vec<OnTree>,
}

impl Changes {
    /// Of a scheme: all that is planned from a leaf on, and what stands by rule in that leaf.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(plan: &Plan, scheme: usize, leaf: u8) -> Result<Self, Refusal> {
        let stored = plan.scheme(scheme)?;
        let own = Window::ALL.map(|window| Moment { leaf, window });
        let planned = stored.schedule.moments().into_iter();
        let moments: Set<Moment> = own.into_iter().chain(planned).gathered_set();
        let mut replayer = Replayer::default();
        let mut times = Vec::new();
        let mut all: Vec<(f64, Option<TreeId>, usize, Work)> = Vec::new();
        for moment in moments {
            if moment.leaf < leaf || moment < plan.start() {
                continue;
            }
            let works = replayer.work_at(plan, scheme, moment)?;
            if works.is_empty() {
                continue;
            }
            let row = replayer.at(plan, scheme, moment, Phase::After)?.row;
            for work in works {
                let foot = work
                    .tree()
                    .map(|t| row.of_tree(t).map(|p| p.tree().foot.f()));
                // The wires before every tree, a tree that is nowhere behind them.
                let foot = foot.map_or(f64::MIN, |f| f.unwrap_or(f64::MAX));
                all.push((foot, work.tree(), times.len(), work));
            }
            times.push(ChangedAt {
                moment,
                stands: stored.stands(moment),
                row,
            });
        }
        all.arrange_by(|a, b| {
            (a.0.total_cmp(&b.0))
                .then(a.1.cmp(&b.1))
                .then(a.2.cmp(&b.2))
                .then(a.3.subject().cmp(&b.3.subject()))
        });
        let mut trees: Vec<OnTree> = Vec::new();
        for (_, tree, at, work) in all {
            match trees.last_mut().filter(|t| t.tree == tree) {
                Some(own) => own.work.push((at, work)),
                None => trees.push(OnTree {
                    tree,
                    work: vec![(at, work)],
                }),
            }
        }
        Ok(Self { times, trees })
    }

    /// How many changes there are.
    pub fn count(&self) -> usize {
        self.trees.iter().map(|t| t.work.len()).sum()
    }
}
