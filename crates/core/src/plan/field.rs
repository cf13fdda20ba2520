//! What the crew tells of a scheme's work: which pieces are done, which were left and why, and what a second look at trees found.
//!
//! What is told is told of a piece as it was handed out. Work that is changed afterwards is another piece, of which nothing is told;
//! other work may change as it likes.

use super::{Moment, Plan, Replayer, Schedule};
use crate::arrange::Gather;
use crate::hands::Job;
use crate::refusal::Refusal;
use crate::row::TreeId;
use crate::said::Arg;
use crate::sorted::{Map, Set};
use crate::work::{Subject, Work};

/// What is told of one piece of work.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Told {
    /// Nothing yet.
    #[default]
    Open,
    /// It is done.
    Done,
    /// It was left, with the reason why; that may be empty.
    Skipped(String),
}

/// What a second look found of a piece that was to be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Seen {
    /// It is done as it was handed out.
    Right,
    /// It is not done.
    Missed,
    /// Something else was done.
    Wrong,
}

/// All that is told of a scheme's work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Field {
    /// The pieces that are done.
    pub(crate) done: Schedule,
    /// The pieces that were left, with the reason.
    pub(crate) skipped: Map<(Moment, Subject), (Work, String)>,
    /// What was written down at a tree, or at the trellis, in a window.
    pub(crate) notes: Map<(Moment, Option<TreeId>), String>,
    /// What a second look found.
    pub(crate) seen: Map<(Moment, Subject), (Work, Seen)>,
    /// How many cuts more a second look found on a tree than a job asked for.
    pub(crate) extra: Map<(Moment, Job, TreeId), u16>,
}

impl Field {
    /// Longest reason or note, in characters.
    pub const MAX_TEXT: usize = 400;
    /// Most pieces that are told of as left, that were looked at again, and most notes; of each.
    pub const MAX: usize = 20_000;
    /// Fewest and most cuts that nobody asked for, on a tree where there are some.
    pub const EXTRA: crate::range::Range = (1.0, 500.0);

    /// Whether nothing is told.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// What is told of a piece of a moment's work.
    pub fn told(&self, moment: Moment, work: &Work) -> Told {
        let subject = work.subject();
        let done = self.done.work_on(moment, subject.tree);
        if let Ok(at) = done.binary_search_by_key(&subject, Work::subject)
            && done[at] == *work
        {
            return Told::Done;
        }
        let skipped = self.skipped.get(&(moment, subject));
        let skipped = skipped.filter(|(was, _)| was == work);
        skipped.map_or(Told::Open, |(_, why)| Told::Skipped(why.clone()))
    }

    /// The pieces of which something is told, and what.
    pub fn pieces(&self) -> impl Iterator<Item = (Moment, &Work, Told)> {
        let done = self.done.all().map(|(m, w)| (m, w, Told::Done));
        let left = self.skipped.iter();
        done.chain(left.map(|((m, _), (w, why))| (*m, w, Told::Skipped(why.clone()))))
    }

    /// What was written down at a tree, or at the trellis, in a window; nothing where nothing was.
    pub fn note(&self, moment: Moment, tree: Option<TreeId>) -> &str {
        self.notes.get(&(moment, tree)).map_or("", |note| note)
    }

    /// What a second look found of a piece.
    pub fn seen(&self, moment: Moment, work: &Work) -> Option<Seen> {
        let seen = self.seen.get(&(moment, work.subject()));
        seen.filter(|(was, _)| was == work).map(|(_, seen)| *seen)
    }

    /// How many cuts more a second look found on a tree than a job asked for; `None` where nobody has said.
    pub fn extra(&self, moment: Moment, job: Job, tree: TreeId) -> Option<u16> {
        self.extra.get(&(moment, job, tree)).copied()
    }

    /// The same, but that of done pieces it says on some trees, the trellis as `None`, what it does, and on all others what another
    /// one says.
    #[must_use]
    pub fn taking(&self, trees: &[Option<TreeId>], others: &Self) -> Self {
        Self {
            done: others.done.taking(trees, &self.done),
            ..self.clone()
        }
    }

    /// The trees on which other pieces are done than another one says, the trellis as `None`.
    pub fn differs_on(&self, other: &Self) -> Vec<Option<TreeId>> {
        self.done.differs_on(&other.done)
    }

    /// The trees that it speaks of.
    pub(super) fn trees(&self) -> impl Iterator<Item = TreeId> {
        let done = self.done.by_tree().filter_map(|(tree, _)| tree);
        let pieces = self.skipped.keys().chain(self.seen.keys());
        let noted = self.notes.keys().filter_map(|(_, tree)| *tree);
        let more = self.extra.keys().map(|(_, _, tree)| *tree);
        done.chain(pieces.filter_map(|(_, s)| s.tree))
            .chain(noted)
            .chain(more)
    }

    fn tell(&mut self, moment: Moment, work: &Work, told: &Told) {
        let key = (moment, work.subject());
        self.done.drop_subject(moment, key.1);
        self.skipped.remove(&key);
        match told {
            Told::Open => {}
            Told::Done => self.done.put(moment, work.clone()),
            Told::Skipped(why) => {
                self.skipped.insert(key, (work.clone(), why.clone()));
            }
        }
    }
}

fn many(count: usize) -> Result<(), Refusal> {
    match count > Field::MAX {
        false => Ok(()),
        true => Err(Refusal::new(
            "refusal-field-many",
            vec![("high", Arg::Count(Field::MAX as i64))],
        )),
    }
}

/// What was written, without what stands around it.
fn written(text: &str) -> Result<String, Refusal> {
    let text = text.trim();
    match text.chars().count() {
        long if long > Field::MAX_TEXT => Err(Refusal::new(
            "refusal-field-text",
            vec![
                ("value", Arg::Count(long as i64)),
                ("high", Arg::Count(Field::MAX_TEXT as i64)),
            ],
        )),
        _ => Ok(text.into()),
    }
}

/// What came of taking over what another copy of a plan tells.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// The plan with all of it that is about its own work.
    pub plan: Plan,
    /// Pieces that are told of otherwise than before.
    pub pieces: usize,
    /// Notes that are others than before.
    pub notes: usize,
    /// Pieces that it has as they stood already.
    pub same: usize,
    /// What is told of work that the plan has no more, or has otherwise.
    pub strange: Vec<(Moment, Work)>,
    /// Names of schemes of which something is told, and which the plan doesn't have.
    pub schemes: Vec<String>,
}

impl Plan {
    /// The plan with the same told of some pieces of a moment's work, as they were handed out.
    ///
    /// # Errors
    /// No such scheme; a reason that is too long; more pieces left than a plan holds.
    pub fn with_told(
        &self,
        scheme: usize,
        moment: Moment,
        works: &[Work],
        told: &Told,
    ) -> Result<Plan, Refusal> {
        let told = match told {
            Told::Skipped(why) => Told::Skipped(written(why)?),
            other => other.clone(),
        };
        let out = self.with_field(scheme, |field| {
            for work in works {
                field.tell(moment, work, &told);
            }
        })?;
        many(out.schemes[scheme].field.skipped.len())?;
        Ok(out)
    }

    /// The plan with something written down at a tree, or at the trellis, in a window; nothing takes it away.
    ///
    /// # Errors
    /// No such scheme; a note that is too long; more notes than a plan holds.
    pub fn with_field_note(
        &self,
        scheme: usize,
        moment: Moment,
        tree: Option<TreeId>,
        note: &str,
    ) -> Result<Plan, Refusal> {
        let note = written(note)?;
        let out = self.with_field(scheme, |field| match note.is_empty() {
            true => {
                field.notes.remove(&(moment, tree));
            }
            false => {
                field.notes.insert((moment, tree), note);
            }
        })?;
        many(out.schemes[scheme].field.notes.len())?;
        Ok(out)
    }

    /// The plan with what a second look found of a piece; `None` takes it back.
    ///
    /// # Errors
    /// No such scheme; more than a plan holds.
    pub fn with_seen(
        &self,
        scheme: usize,
        moment: Moment,
        work: &Work,
        seen: Option<Seen>,
    ) -> Result<Plan, Refusal> {
        let key = (moment, work.subject());
        let out = self.with_field(scheme, |field| match seen {
            None => {
                field.seen.remove(&key);
            }
            Some(seen) => {
                field.seen.insert(key, (work.clone(), seen));
            }
        })?;
        many(out.schemes[scheme].field.seen.len())?;
        Ok(out)
    }

    /// The plan with how many cuts more a second look found on a tree than a job asked for.
    ///
    /// # Errors
    /// No such scheme; more than [`Field::EXTRA`]; more than a plan holds.
    pub fn with_extra(
        &self,
        scheme: usize,
        (moment, job, tree): (Moment, Job, TreeId),
        cuts: u16,
    ) -> Result<Plan, Refusal> {
        let (_, high) = Field::EXTRA;
        if f64::from(cuts) > high {
            let args = vec![
                ("value", Arg::Count(cuts.into())),
                ("high", Arg::Number(high, 0)),
            ];
            return Err(Refusal::new("refusal-extra", args));
        }
        let key = (moment, job, tree);
        let out = self.with_field(scheme, |field| match cuts {
            0 => {
                field.extra.remove(&key);
            }
            cuts => {
                field.extra.insert(key, cuts);
            }
        })?;
        many(out.schemes[scheme].field.extra.len())?;
        Ok(out)
    }

    /// The plan with what another copy of it tells of the work, scheme by scheme of the same name, wherever the work is the same. What
    /// is told there stands over what is told here; where nothing is told there, nothing changes.
    ///
    /// # Errors
    /// More than a plan holds.
    pub fn taking_told(&self, from: &Plan) -> Result<Taken, Refusal> {
        let mut out = Taken {
            plan: self.clone(),
            pieces: 0,
            notes: 0,
            same: 0,
            strange: Vec::new(),
            schemes: Vec::new(),
        };
        for theirs in from.schemes.iter().filter(|s| !s.field.is_empty()) {
            let mut own = self.schemes.iter();
            match own.position(|own| own.name.trim() == theirs.name.trim()) {
                Some(own) => out.take(own, &theirs.field)?,
                None => out.schemes.push(theirs.name.clone()),
            }
        }
        Ok(out)
    }

    fn with_field(&self, scheme: usize, change: impl FnOnce(&mut Field)) -> Result<Plan, Refusal> {
        self.scheme(scheme)?;
        Ok(self.with_scheme(scheme, |s| change(&mut s.field)))
    }
}

impl Taken {
    fn take(&mut self, scheme: usize, theirs: &Field) -> Result<(), Refusal> {
        let mut handed = Handed::default();
        let mut field = self.plan.schemes[scheme].field.clone();
        for (moment, work, told) in theirs.pieces() {
            if !handed.has(&self.plan, scheme, moment, work)? {
                self.strange.push((moment, work.clone()));
            } else if field.told(moment, work) == told {
                self.same += 1;
            } else {
                field.tell(moment, work, &told);
                self.pieces += 1;
            }
        }
        for ((moment, subject), (work, seen)) in &theirs.seen {
            if handed.has(&self.plan, scheme, *moment, work)? {
                field
                    .seen
                    .insert((*moment, *subject), (work.clone(), *seen));
            }
        }
        let known = |tree: Option<TreeId>| tree.is_none_or(|t| self.plan.knows(t));
        for (at, note) in theirs.notes.iter().filter(|(at, _)| known(at.1)) {
            let was = field.notes.insert(*at, note.clone());
            self.notes += usize::from(was.as_ref() != Some(note));
        }
        for (at, cuts) in theirs.extra.iter().filter(|(at, _)| known(Some(at.2))) {
            field.extra.insert(*at, *cuts);
        }
        many(field.skipped.len().max(field.notes.len()))?;
        many(field.seen.len().max(field.extra.len()))?;
        self.plan = self.plan.with_field(scheme, |own| *own = field)?;
        Ok(())
    }
}

/// The work that is handed out of a plan, moment by moment, as it is asked for: that of the scheme, and the usual work of a leaf in
/// which it has none.
#[derive(Default)]
struct Handed {
    replayer: Replayer,
    leaves: Map<u8, Plan>,
    usual: Replayer,
    work: Map<Moment, Vec<Work>>,
}

impl Handed {
    fn has(
        &mut self,
        plan: &Plan,
        scheme: usize,
        moment: Moment,
        work: &Work,
    ) -> Result<bool, Refusal> {
        if !self.work.contains_key(&moment) {
            let mut all = self.replayer.work_at(plan, scheme, moment)?;
            if all.is_empty() && self.is_idle(plan, scheme, moment.leaf)? {
                if !self.leaves.contains_key(&moment.leaf) {
                    let usual = plan.with_season_usual(scheme, moment.leaf)?;
                    self.leaves.insert(moment.leaf, usual);
                }
                let usual = &self.leaves[&moment.leaf];
                all = self.usual.work_at(usual, scheme, moment)?;
            }
            self.work.insert(moment, all);
        }
        let all = &self.work[&moment];
        let at = all.binary_search_by_key(&work.subject(), Work::subject);
        Ok(at.is_ok_and(|at| all[at] == *work))
    }

    fn is_idle(&mut self, plan: &Plan, scheme: usize, leaf: u8) -> Result<bool, Refusal> {
        for window in super::Window::ALL {
            let at = Moment { leaf, window };
            if !self.replayer.work_at(plan, scheme, at)?.is_empty() {
                return Ok(false);
            }
        }
        Ok(true)
    }
}

impl Plan {
    /// Whether a tree of that number was found, or is planted in some scheme.
    pub(super) fn knows(&self, tree: TreeId) -> bool {
        self.found.tree(tree).is_some() || self.planted().contains(&tree)
    }

    fn planted(&self) -> Set<TreeId> {
        let schemes = self.schemes.iter();
        let works = schemes.flat_map(|s| s.schedule.all().map(|(_, work)| work));
        let planted = works.filter(|w| matches!(w, Work::Plant { .. }));
        planted.filter_map(Work::tree).gathered_set()
    }
}
