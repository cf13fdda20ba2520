//! A window's work as it is handed out: walks along the row with one job each.
//!
//! A [`Pass`] holds the pieces of one [`Job`] in the order in which they are come to, tree by tree. All passes of a window hold its work,
//! piece for piece; what can't be done as the row stands is told apart. Trees that are marked as diseased are walked last, so that no
//! blade goes from them to a sound one. Counts hold as a pass begins: what was done in the passes before it is done.

mod measure;
mod progress;

pub use crate::hands::{Hands, Job, Rate, Rates};
pub use measure::{Shortened, Side};
pub use progress::{Looked, Progress};

use crate::arrange::{Arrange, Gather};
use crate::plan::{Moment, Phase, Plan, Replayer, Window};
use crate::pose::{Posed, PosedRow};
use crate::refusal::Refusal;
use crate::row::{Covering, Row, Toward, Tree, TreeId, Trellis, Wire};
use crate::sorted::Set;
use crate::terms::Terms;
use crate::units::Mm;
use crate::work::{Work, apply};
use std::sync::Arc;

/// Above this a crew needs a ladder or a pole, mm (from memory).
const REACH: f64 = 2_000.0;
/// From tie to tie along laid wood, mm (from memory).
pub(crate) const TIE_EVERY: f64 = 300.0;

/// A leaf's work as it is handed out.
#[derive(Clone, Debug)]
pub struct Season {
    /// The leaf.
    pub leaf: u8,
    /// The scheme has no work in that leaf: it is the usual work that is handed out.
    pub usual: bool,
    /// The walks, window by window, in the order in which they follow each other.
    pub passes: Vec<Pass>,
    /// Work that can't be done as the row stands.
    pub void: Vec<(Moment, Work)>,
}

/// One walk along the row with one job.
#[derive(Clone, Debug)]
pub struct Pass {
    /// When.
    pub moment: Moment,
    /// It is done by the scheme's rules: nobody planned it.
    pub stands: bool,
    /// What for.
    pub job: Job,
    /// It is the trees that are marked as diseased that are walked.
    pub diseased: bool,
    /// Its pieces as they are come to: those on the trellis first, then tree by tree along the row.
    pub stops: Vec<Stop>,
    /// The row as the pass finds it.
    pub row: PosedRow,
    /// How many do it together.
    pub people: usize,
    /// Minutes of one person.
    pub minutes: f64,
    /// Ties that it takes.
    pub ties: usize,
    /// Sleeves that it takes, one for each tie on bare wire.
    pub sleeves: usize,
    /// Whether some of it is out of reach from the ground.
    pub high: bool,
}

/// What is done at one tree, or on the trellis.
#[derive(Clone, Debug, PartialEq)]
pub struct Stop {
    /// The tree; `None` for the trellis.
    pub tree: Option<TreeId>,
    /// Where its foot stands along the row, mm; of the trellis, where the row begins.
    pub x: f64,
    /// The pieces from the trunk on.
    pub work: Vec<Work>,
}

impl Pass {
    /// How many pieces it has.
    pub fn count(&self) -> usize {
        self.work().count()
    }

    /// On how many trees.
    pub fn trees(&self) -> usize {
        self.stops.iter().filter(|s| s.tree.is_some()).count()
    }

    /// Minutes of each of those who do it.
    pub fn minutes_each(&self) -> f64 {
        self.minutes / self.people.max(1) as f64
    }

    /// Its pieces.
    pub fn work(&self) -> impl Iterator<Item = &Work> + Clone {
        self.stops.iter().flat_map(|s| &s.work)
    }

    /// What to take care of in it: the names of the texts.
    pub fn cautions(&self) -> Vec<&'static str> {
        let mut out = vec!["caution-glasses", "caution-spray"];
        if self.diseased {
            out.push("caution-diseased");
        }
        out.extend(self.job.cautions());
        if self.high {
            out.push("caution-ladder");
        }
        out
    }
}

impl Season {
    /// How many pieces its passes have.
    pub fn count(&self) -> usize {
        self.passes.iter().map(Pass::count).sum()
    }

    /// Minutes of one person in all its passes.
    pub fn minutes(&self) -> f64 {
        self.passes.iter().map(|p| p.minutes).sum()
    }
}

/// A leaf's work of a scheme as passes. Where the scheme has none in that leaf, it is the usual work of that leaf.
///
/// # Errors
/// No such scheme.
pub fn season(plan: &Plan, scheme: usize, leaf: u8) -> Result<Season, Refusal> {
    let mut out = Season {
        leaf,
        usual: false,
        passes: Vec::new(),
        void: Vec::new(),
    };
    out.fill(plan, scheme)?;
    if out.passes.is_empty() && out.void.is_empty() {
        out.usual = true;
        let usual = plan.with_season_usual(scheme, leaf)?;
        out.fill(&usual, scheme)?;
    }
    Ok(out)
}

/// The passes of one window.
///
/// # Errors
/// No such scheme.
pub fn window(plan: &Plan, scheme: usize, moment: Moment) -> Result<Vec<Pass>, Refusal> {
    let (mut replayer, mut void) = (Replayer::default(), Vec::new());
    passes(plan, scheme, moment, &mut replayer, &mut void)
}

impl Season {
    /// Has people and minutes follow other hands.
    pub fn time(&mut self, hands: &Hands) {
        self.passes.iter_mut().for_each(|pass| pass.time(hands));
    }

    /// The rates that its minutes come from, in the order in which they are shown.
    pub fn rates(&self) -> Vec<Rate> {
        let counts = |rate: &Rate| self.passes.iter().any(|pass| pass.has(*rate));
        Rate::ALL.into_iter().filter(counts).collect()
    }

    fn fill(&mut self, plan: &Plan, scheme: usize) -> Result<(), Refusal> {
        let mut replayer = Replayer::default();
        for window in Window::ALL {
            let moment = Moment {
                leaf: self.leaf,
                window,
            };
            let void = &mut self.void;
            let more = passes(plan, scheme, moment, &mut replayer, void)?;
            self.passes.extend(more);
        }
        Ok(())
    }
}

fn passes(
    plan: &Plan,
    scheme: usize,
    moment: Moment,
    replayer: &mut Replayer,
    void: &mut Vec<(Moment, Work)>,
) -> Result<Vec<Pass>, Refusal> {
    let work = replayer.work_at(plan, scheme, moment)?;
    if work.is_empty() || moment < plan.start() {
        void.extend(work.into_iter().map(|w| (moment, w)));
        return Ok(Vec::new());
    }
    let stands = plan.scheme(scheme)?.stands(moment);
    let before = replayer.at(plan, scheme, moment, Phase::Before)?;
    let mut stage = Stage {
        moment,
        terms: replayer.at(plan, scheme, moment, Phase::After)?.terms,
        row: before.row,
        hands: &plan.hands,
    };
    let marked = |tree: &&Arc<Tree>| tree.diseased;
    let ill: Set<TreeId> = stage
        .row
        .trees
        .iter()
        .filter(marked)
        .map(|t| t.id)
        .gathered_set();
    let mut out = Vec::new();
    for diseased in [false, true] {
        for job in Job::ALL {
            let mine = |w: &&Work| {
                let ill = w.tree().is_some_and(|t| ill.contains(&t));
                Job::of(w) == job && ill == diseased
            };
            let pieces: Vec<Work> = work.iter().filter(mine).cloned().collect();
            let mut pass = stage.pass(job, diseased, stands);
            for (work, done) in stage.walk(pieces) {
                match done {
                    true => pass.take(work),
                    false => void.push((moment, work)),
                }
            }
            if pass.stops.is_empty() {
                continue;
            }
            pass.finish(&stage);
            out.push(pass);
        }
    }
    Ok(out)
}

/// The row between the passes of a window.
struct Stage<'a> {
    moment: Moment,
    terms: Terms,
    row: PosedRow,
    hands: &'a Hands,
}

impl Stage<'_> {
    fn pass(&self, job: Job, diseased: bool, stands: bool) -> Pass {
        Pass {
            moment: self.moment,
            stands,
            job,
            diseased,
            stops: Vec::new(),
            row: self.row.clone(),
            people: 0,
            minutes: 0.0,
            ties: 0,
            sleeves: 0,
            high: false,
        }
    }

    /// Does pieces of work, and gives them as they are come to: tree by tree along the row, in each from its trunk on; each with
    /// whether it could be done.
    fn walk(&mut self, mut pieces: Vec<Work>) -> Vec<(Work, bool)> {
        let found = self.row.clone();
        pieces.arrange_by(|a, b| {
            let (x, y) = (place(&found, a), place(&found, b));
            let along = x.0.total_cmp(&y.0).then(x.1.total_cmp(&y.1));
            along.then(a.subject().cmp(&b.subject()))
        });
        let mut row: Row = self.row.row().clone();
        let mut out = Vec::with_capacity(pieces.len());
        for work in pieces {
            let done = apply(&row, self.moment, &self.terms, &work);
            out.push((way(&found, &work), work, done.is_ok()));
            row = done.unwrap_or(row);
        }
        // Within a tree alone: trees and wires stand in their order.
        out.arrange_by(|(x, a, _), (y, b, _)| {
            let trees = place(&found, a).0.total_cmp(&place(&found, b).0);
            let trees = trees.then(a.tree().cmp(&b.tree()));
            let along = trees.then(x.0.cmp(&y.0)).then(x.1.total_cmp(&y.1));
            along.then(a.subject().cmp(&b.subject()))
        });
        self.row = PosedRow::after(row, self.terms.geometry, &found);
        out.into_iter()
            .map(|(_, work, done)| (work, done))
            .collect()
    }
}

/// How a piece of work is come to on its tree: on which side of the trunk, the left first, and how far from it.
fn way(row: &PosedRow, work: &Work) -> (Option<Toward>, f64) {
    let Some((posed, at)) = subject_of(work, row) else {
        return (None, place(row, work).1);
    };
    let on = |at: usize, along: Mm| posed.courses()[at].point(along.f()).x;
    let parent = || posed.tree().index(posed.tree().shoots[at].parent?);
    let x = match *work {
        Work::KeepBud { at_mm, .. } | Work::Notch { at_mm, .. } => on(at, at_mm),
        Work::MoveBud { at_mm, .. } => on(parent().unwrap_or(at), at_mm),
        _ => posed.courses()[at].base.x,
    };
    posed.way_to(at, x)
}

/// Where a piece of work is come to along the row: its tree's foot, before all trees that of the wires; and the height of a wire.
fn place(row: &PosedRow, work: &Work) -> (f64, f64) {
    let Some(id) = work.tree() else {
        let height = work.subject().at.map_or(0.0, |at| at.f());
        return (f64::MIN, height);
    };
    let foot = row.of_tree(id).map(|posed| posed.tree().foot.f());
    let planted = match *work {
        Work::Plant { foot_mm, .. } => foot_mm.f(),
        _ => f64::MAX,
    };
    (foot.unwrap_or(planted), 0.0)
}

impl Pass {
    /// Puts a piece behind the others.
    fn take(&mut self, work: Work) {
        let x = match work.tree() {
            None => self.row.from.f(),
            Some(_) => place(&self.row, &work).0,
        };
        match self.stops.last_mut().filter(|s| s.tree == work.tree()) {
            Some(stop) => stop.work.push(work),
            None => self.stops.push(Stop {
                tree: work.tree(),
                x,
                work: vec![work],
            }),
        }
    }

    /// How many do it together, and how long it takes.
    fn time(&mut self, hands: &Hands) {
        let usual = self.job.people();
        self.people = hands.people.get(&self.job).map_or(usual, |n| *n);
        let posts = self.row.trellis.posts.len();
        self.minutes = hands.rates.minutes(self.work(), posts);
        if self.diseased && self.job.cuts() {
            let stops = self.stops.len() as f64;
            self.minutes += stops * hands.rates.get(Rate::Disinfect) / 60.0;
        }
    }

    fn has(&self, rate: Rate) -> bool {
        match rate {
            Rate::Walk => self.stops.iter().any(|s| s.tree.is_some()),
            Rate::Disinfect => self.diseased && self.job.cuts(),
            Rate::WirePost => self.job == Job::Wires,
            Rate::GrubOut => {
                let again = |w: &Work| matches!(w, Work::ReplaceTree { .. });
                self.job == Job::GrubOut || self.work().any(again)
            }
            rate => self.job.rate() == rate,
        }
    }

    /// Works out what it takes, once it has all its pieces.
    fn finish(&mut self, stage: &Stage<'_>) {
        self.time(stage.hands);
        let trellis = &stage.row.trellis;
        let needs = self.work().map(|w| ties(w, &stage.row, trellis));
        let sum = |(a, b): (usize, usize), n: (usize, usize)| (a + n.0, b + n.1);
        (self.ties, self.sleeves) = needs.fold((0, 0), sum);
        let high = self.work().any(|w| top(w, &self.row) > REACH);
        self.high = high;
    }
}

/// Ties that a piece of work takes, and how many of them are on bare wire. `row` is as it stands once the work is done.
fn ties(work: &Work, row: &PosedRow, trellis: &Trellis) -> (usize, usize) {
    let Some((posed, at)) = subject_of(work, row) else {
        return (0, 0);
    };
    let bare = |height: f64| {
        let off = |w: &Wire| (w.height.f() - height).abs();
        let nearest = trellis
            .wires
            .iter()
            .min_by(|a, b| off(a).total_cmp(&off(b)));
        usize::from(nearest.is_some_and(|w| w.covering == Covering::Bare))
    };
    let course = posed.courses()[at];
    match work {
        Work::Lay { .. } => {
            let count = libm::ceil(course.length / TIE_EVERY).max(2.0) as usize;
            (count, count * bare(trellis.cordon_height().f()))
        }
        Work::Stand { .. } => {
            let (low, high) = (course.base.y, course.tip().y);
            let crossed = |h: &f64| *h > low.min(high) + 1.0 && *h <= low.max(high);
            let heights = trellis.wires.iter().map(|w| w.height.f()).filter(crossed);
            let heights: Vec<f64> = heights.collect();
            match heights.is_empty() {
                // What ends under the next wire is tied to the cordon.
                true => (1, bare(trellis.cordon_height().f())),
                false => (heights.len(), heights.iter().map(|h| bare(*h)).sum()),
            }
        }
        Work::Plant { .. } | Work::ReplaceTree { .. } => (1, bare(trellis.cordon_height().f())),
        _ => (0, 0),
    }
}

/// The tree and shoot that a piece of work is about, as far as they are there.
fn subject_of<'r>(work: &Work, row: &'r PosedRow) -> Option<(&'r Arc<Posed>, usize)> {
    let posed = row.of_tree(work.tree()?)?;
    let at = posed.tree().index(work.subject().shoot)?;
    Some((posed, at))
}

/// How high up a piece of work is done, mm.
fn top(work: &Work, row: &PosedRow) -> f64 {
    let tip = || subject_of(work, row).map(|(posed, at)| posed.courses()[at].tip().y);
    match work {
        Work::HoldHeight { height_mm, .. } => height_mm.f(),
        Work::Tip { .. } | Work::TakeLaterals { .. } | Work::Stand { .. } => {
            tip().unwrap_or_default()
        }
        Work::AddWire { height_mm, .. }
        | Work::RemoveWire { height_mm }
        | Work::CoverWire { height_mm, .. } => height_mm.f(),
        Work::MoveWire { height_mm, to_mm } => height_mm.f().max(to_mm.f()),
        _ => 0.0,
    }
}
