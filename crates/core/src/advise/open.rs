//! What a draft leaves open, and why.

use super::{Draft, Taken, windows};
use crate::arrange::Gather;
use crate::check::{
    Context, Finding, Matter, Remedy, Severity, Withheld, matters, mended, stand_as_grave, survey,
    take_offers, tips_due, tried_told,
};
use crate::plan::{Phase, Plan, Replayed, Replayer};
use crate::refusal::Refusal;
use crate::row::{Limit, TreeId, Window};
use crate::said::{Arg, Said};
use crate::sorted::Set;
use crate::work::Work;

/// So many of the matters that stay open are told.
const OPEN: usize = 8;
/// Of so many findings of a matter the remedies are tried.
const TRIED: usize = 4;

/// Why a draft does not mend something.
#[derive(Clone, Debug, PartialEq)]
pub enum Stuck {
    /// No work is known that would.
    None,
    /// What would belongs to another time of the year.
    OtherTime,
    /// All that was tried makes something graver, or nothing better: what the first makes graver.
    Graver(Option<Box<Finding>>),
    /// It would take away work that is planned there already.
    Planned,
    /// It could be done, but costs more than it brings, seen along the row.
    Weighed,
    /// A piece of the draft mends it that is not taken.
    Untaken,
}

impl Stuck {
    /// The text that says it.
    pub fn word(&self) -> &'static str {
        match self {
            Self::None => "stuck-none",
            Self::OtherTime => "stuck-other-time",
            Self::Graver(_) => "stuck-graver",
            Self::Planned => "stuck-held",
            Self::Weighed => "stuck-weighed",
            Self::Untaken => "stuck-untaken",
        }
    }
}

/// What stays open after a draft.
#[derive(Clone, Debug)]
pub struct Open {
    /// All that is found then.
    pub findings: Vec<Finding>,
    /// What of it is to be mended, now or soon, the gravest first, each with why it stays.
    pub matters: Vec<(Matter, Stuck)>,
}

/// Why trees are not tipped in a winter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Untipped {
    /// So many that are to be tipped need none once the work is done: tipping ends where a tree's renewal begins, and what comes
    /// off is not tipped.
    Trees(usize),
    /// Renewal has begun on the whole row.
    Renewing,
}

impl Untipped {
    /// What says it.
    pub fn said(self) -> Said {
        match self {
            Self::Trees(n) => Said::new("draft-untipped", vec![("trees", Arg::Count(n as i64))]),
            Self::Renewing => Said::new("draft-no-tips", vec![]),
        }
    }
}

impl Draft {
    /// Why trees of the plan from which it was drafted are not tipped: once renewal has begun, or where some that are to be are neither
    /// in it nor after it.
    ///
    /// # Errors
    /// No such scheme in that plan.
    pub fn untipped(&self, plan: &Plan) -> Result<Option<Untipped>, Refusal> {
        if self.moment.window != Window::Dormant {
            return Ok(None);
        }
        if f64::from(self.moment.leaf) >= plan.targets.get(Limit::RenewalLeaf) {
            return Ok(Some(Untipped::Renewing));
        }
        let mut replayer = Replayer::default();
        let mut due = |plan: &Plan| -> Result<Set<TreeId>, Refusal> {
            let at = replayer.at(plan, self.scheme, self.moment, Phase::After)?;
            Ok(tips_due(&Context::of(&at)))
        };
        let (was, is) = (due(plan)?, due(&self.plan)?);
        let tip = |w: &&Work| matches!(w, Work::Tip { .. });
        let works = self.pieces.iter().flat_map(|p| &p.work).filter(tip);
        let tipped = works.filter_map(Work::tree).gathered_set();
        let gone = |t: &&TreeId| !is.contains(t) && !tipped.contains(t);
        let trees = was.iter().filter(gone).count();
        Ok((trees > 0).then_some(Untipped::Trees(trees)))
    }

    /// Whether a remedy takes away work of its trees that was planned before the draft.
    fn undoes_planned(&self, taken: &Plan, remedy: &Remedy) -> bool {
        let on = |plan: &Plan, tree| -> Vec<Work> {
            let scheme = plan.schemes.get(self.scheme);
            scheme.map_or(Vec::new(), |s| s.work_on(self.moment, tree).to_vec())
        };
        let Ok(next) = mended(taken, self.scheme, self.moment, &[remedy]) else {
            return false;
        };
        let own = |w: &Work| self.pieces.iter().any(|p| p.work.contains(w));
        remedy.work.iter().any(|work| {
            let (was, is) = (on(taken, work.tree()), on(&next, work.tree()));
            was.iter().any(|w| !own(w) && !is.contains(w))
        })
    }

    /// What stays open once all of it is taken: of its matters the gravest few.
    ///
    /// # Errors
    /// No such scheme or moment, which a draft has.
    pub fn open(&self) -> Result<Open, Refusal> {
        self.open_in(&self.plan, None)
    }

    /// The same once some of it is taken: what the rest would mend is told as such.
    ///
    /// # Errors
    /// As [`Self::open`].
    pub fn open_of(&self, taken: &Taken) -> Result<Open, Refusal> {
        let all = taken.pieces.len() == self.pieces.len();
        let whole = match all {
            true => None,
            false => {
                Some(Replayer::default().at(&self.plan, self.scheme, self.moment, Phase::After)?)
            }
        };
        self.open_in(&taken.plan, whole.as_ref())
    }

    /// The same on a plan with some of it taken, beside the row with all of it.
    fn open_in(&self, plan: &Plan, whole: Option<&Replayed>) -> Result<Open, Refusal> {
        let at = Replayer::default().at(plan, self.scheme, self.moment, Phase::After)?;
        let seen = survey(&Context::of(&at), None);
        let all: Vec<&Finding> = seen.findings.iter().collect();
        let mut open = matters(&at.row, &seen.cover, &at.targets, &all, &plan.left);
        open.retain(|m| m.left.is_none() && m.severity > Severity::Note);
        open.truncate(OPEN);
        let why = |matter: &Matter| {
            let own = matter.findings.iter().take(TRIED);
            let mut own: Vec<Finding> = own.map(|i| seen.findings[*i].clone()).collect();
            own.retain(|f| f.severity == matter.severity);
            if let Some(whole) = whole {
                let found: Vec<&Finding> = own.iter().collect();
                let mut stays = stand_as_grave(&Context::of(whole), &found).into_iter();
                own.retain(|_| stays.next() == Some(true));
                if own.is_empty() {
                    return Stuck::Untaken;
                }
            }
            if own.iter().all(|f| f.remedies.is_empty()) {
                return Stuck::None;
            }
            for finding in &mut own {
                let now = |w: &_| windows::belongs(self.moment.window, w);
                finding.remedies.retain(|r| now(&r.work));
            }
            if own.iter().all(|f| f.remedies.is_empty()) {
                return Stuck::OtherTime;
            }
            let (offers, withheld) = tried_told(plan, self.scheme, &at, &own);
            let offered: Vec<Finding> = take_offers(own, &offers);
            let mut remedies = offered.iter().flat_map(|f| &f.remedies).peekable();
            if remedies.peek().is_none() {
                let graver = withheld.into_iter().find_map(|(_, why)| match why {
                    Withheld::Graver(finding) => Some(finding),
                    Withheld::Waits => None,
                });
                return Stuck::Graver(graver);
            }
            match remedies.all(|r| self.undoes_planned(plan, r)) {
                true => Stuck::Planned,
                false => Stuck::Weighed,
            }
        };
        let matters = open.into_iter().map(|m| {
            let why = why(&m);
            (m, why)
        });
        Ok(Open {
            matters: matters.collect(),
            findings: seen.findings,
        })
    }
}
