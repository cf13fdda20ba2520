//! What has become of a row's findings: whether anything is graver than it was.

use super::seen::Seen;
use super::{ALL, Context, Finding, Part, Severity};
use crate::arrange::Arrange;
use crate::cover::Span;
use crate::row::TreeId;
use crate::sorted::Set;

/// Rules that look at the row as a whole: a part of it says nothing about them.
pub(super) const WHOLE: [&str; 6] = [
    super::cordon_fill_due::RULE,
    super::wall_height::TALL,
    super::wires::NEXT,
    super::wires::FAR,
    super::wires::BARE,
    super::work_void::RULE,
];

/// Rules that speak of a bare wire, and those that speak of what is still to be done on it once it is filled.
const BARE: [&str; 2] = [super::cordon_gap::RULE, super::leans_opposed::RULE];
const FILLED: [&str; 4] = [
    super::uprights_too_far::RULE,
    super::uprights_count::FEW,
    super::stock_too_short::RULE,
    super::side_shoots::BUDS,
];

/// Rules that ask nothing of an upright that is to be cut this winter: where another goes in its place, they ask it again.
const ASKED_AGAIN: [&str; 3] = [
    super::laterals_due::RULE,
    super::tipping_due::RULE,
    super::wall_height::ABOVE,
];

/// Where a finding follows from work at another's place, mm: one space between uprights.
const NEAR: f64 = 300.0;
/// So much more or less, of what is allowed, is no change.
const SAME: f64 = 0.02;

/// What the rules find on a row, without remedies.
pub(super) fn judged(context: &Context<'_>) -> Vec<Finding> {
    let seen = Seen::to_judge(context);
    ALL.iter().flat_map(|(_, find)| find(&seen)).collect()
}

/// The same of a part of a row: what can be said of a part.
pub(super) fn judged_near(context: &Context<'_>) -> Vec<Finding> {
    let seen = Seen::to_judge(context);
    let near = ALL.iter().filter(|(id, _)| !WHOLE.contains(id));
    near.flat_map(|(_, find)| find(&seen)).collect()
}

/// As [`judged_near`], but for openings, which come and go with the height of the whole wall; from left to right.
pub(super) fn judged_work(context: &Context<'_>) -> Vec<Finding> {
    let seen = Seen::to_judge(context);
    let own = |id: &str| !WHOLE.contains(&id) && id != super::see_through::RULE;
    let near = ALL.iter().filter(|(id, _)| own(id));
    let mut found: Vec<Finding> = near.flat_map(|(_, find)| find(&seen)).collect();
    found.arrange_by(|a, b| a.x.total_cmp(&b.x));
    found
}

/// The trees about which anything is graver on a row than it was; with something that is about none, all trees.
pub fn harmed(before: &Context<'_>, after: &Context<'_>) -> Set<TreeId> {
    let (was, is) = (judged(before), judged(after));
    let change = Change::new(was.iter().collect(), is.iter().collect());
    let all = || after.row.trees.iter().map(|t| t.id);
    let mut out = Set::new();
    for graver in change.graver() {
        match graver.subjects.is_empty() {
            true => out.extend(all()),
            false => out.extend(graver.subjects.iter().map(|p| p.tree)),
        }
    }
    out
}

/// Of what was found on a row with other work on it, whether it is found on this one: by the same rule, of any of the same trees, along
/// half the stretch at least.
pub fn stand(context: &Context<'_>, findings: &[&Finding]) -> Vec<bool> {
    stand_among(&judged(context), findings)
}

/// The same, where it is at least as grave.
pub fn stand_as_grave(context: &Context<'_>, findings: &[&Finding]) -> Vec<bool> {
    let mut now = judged(context);
    now.arrange_by_key(|f| std::cmp::Reverse(f.severity));
    let as_grave = |f: &&Finding| {
        let grave = now.partition_point(|n| n.severity >= f.severity);
        stand_among(&now[..grave], &[f]) == [true]
    };
    findings.iter().map(as_grave).collect()
}

fn stand_among(now: &[Finding], findings: &[&Finding]) -> Vec<bool> {
    let again = |f: &Finding, n: &Finding| {
        let shared = (n.x + n.width).min(f.x + f.width) - n.x.max(f.x);
        let tree = |p: &Part| f.subjects.iter().any(|q| q.tree == p.tree);
        n.rule == f.rule
            && (n.subjects.iter().any(tree) || n.subjects.is_empty() && f.subjects.is_empty())
            && shared >= (f.width / 2.0).max(0.0) - Finding::AGAIN
    };
    let found = |f: &&Finding| now.iter().any(|n| again(f, n));
    findings.iter().map(found).collect()
}

fn span(f: &Finding) -> Span {
    Span {
        from: f.x,
        to: f.x + f.width,
    }
}

fn meet(a: &Finding, b: &Finding, room: f64) -> bool {
    let (a, b) = (span(a), span(b));
    a.from <= b.to + room && b.from <= a.to + room
}

/// Whether both say the same of the same place.
fn same(a: &Finding, b: &Finding) -> bool {
    // A bend is its shoot's, wherever that comes to lie.
    if a.rule == super::bend_too_tight::RULE {
        return a.rule == b.rule && a.subjects == b.subjects;
    }
    a.rule == b.rule
        && match (a.subjects.first(), b.subjects.first()) {
            (Some(x), Some(y)) if x.tree != y.tree => false,
            _ => overlap(a, b),
        }
}

/// Whether it is what is left of a bare stretch or of a wide space that was: what comes to stand in the middle of it makes two of
/// one.
fn is_rest(a: &Finding, b: &Finding) -> bool {
    a.rule == b.rule
        && [super::cordon_gap::RULE, super::uprights_too_far::RULE].contains(&a.rule)
        && a.x >= b.x - Finding::AGAIN
        && a.x + a.width <= b.x + b.width + Finding::AGAIN
}

/// Whether two stretches are the same one, grown or shrunk: neighbours that end at one upright are not. Points are the same
/// within a millimetre.
fn overlap(a: &Finding, b: &Finding) -> bool {
    let shared = (a.x + a.width).min(b.x + b.width) - a.x.max(b.x);
    let least = a.width.min(b.width);
    shared >= if least > 1.0 { least / 2.0 } else { -1.0 }
}

/// How far it is off what is allowed, in parts of that.
fn excess(f: &Finding) -> f64 {
    (f.measured - f.allowed).abs() / f.allowed.abs().max(1.0)
}

/// The findings on a row before and after something was done.
pub(super) struct Change<'f> {
    before: Vec<&'f Finding>,
    after: Vec<&'f Finding>,
    /// Of those before, the ones that are gone or have become less.
    cleared: Vec<&'f Finding>,
}

impl<'f> Change<'f> {
    pub fn new(before: Vec<&'f Finding>, after: Vec<&'f Finding>) -> Self {
        let lasts = |b: &Finding| {
            after.iter().any(|a| {
                same(a, b)
                    && a.severity >= b.severity
                    && excess(a) > excess(b) * 0.8
                    && a.subjects.len() >= b.subjects.len()
            })
        };
        Self {
            cleared: before.iter().copied().filter(|b| !lasts(b)).collect(),
            before,
            after,
        }
    }

    /// Whether what was done is of use: something is less than it was. What a rule of the light finds is not judged again.
    pub fn mends(&self, rule: &str) -> bool {
        !self.cleared.is_empty() || super::light_rules().any(|r| r == rule)
    }

    /// Whether it is of use to some trees, or where they reach, if what is less is about none.
    pub fn mends_of(&self, trees: &Set<TreeId>, reach: Span) -> bool {
        let about = |f: &Finding| match f.subjects.is_empty() {
            true => f.x <= reach.to && reach.from <= f.x + f.width,
            false => f.subjects.iter().any(|p| trees.contains(&p.tree)),
        };
        self.cleared.iter().any(|f| about(f))
    }

    /// Whether anything is graver than it was: it stands where nothing as grave stood, and nothing graver is gone from there.
    /// How far one sees through the wall hangs on the height of all of it; what stands too far apart has a rule of its own.
    pub fn is_graver(&self) -> bool {
        self.graver().next().is_some()
    }

    /// Tells the gravest of what is graver, where nothing is told yet, as it is found on the row after what was done.
    pub fn tell_gravest(&self, after: &Context<'_>, to: Option<&mut Option<Finding>>) {
        let Some(to) = to.filter(|to| to.is_none()) else {
            return;
        };
        let Some(gravest) = self.graver().max_by_key(|f| f.severity) else {
            return;
        };
        // What is merely judged has no names.
        let seen = Seen::new(after);
        let own = ALL.iter().filter(|(id, _)| *id == gravest.rule);
        let mut found = own.flat_map(|(_, find)| find(&seen));
        *to = found.find(|f| f.is_again(gravest));
    }

    /// Whether any of what reaches into a stretch is.
    pub fn is_graver_in(&self, stretch: Span) -> bool {
        let here = |f: &Finding| f.x <= stretch.to && stretch.from <= f.x + f.width;
        self.graver().any(here)
    }

    fn graver(&self) -> impl Iterator<Item = &'f Finding> {
        let judged = |a: &&Finding| a.rule != super::see_through::RULE;
        let judged = self.after.iter().copied().filter(judged);
        // Wood that is bent until it breaks mends nothing, however much wire it was to fill.
        let breaks = |a: &Finding| a.rule == super::bend_too_tight::RULE;
        judged.filter(move |a| !self.was(a) && !self.waited(a) && (breaks(a) || !self.follows(a)))
    }

    fn was(&self, a: &Finding) -> bool {
        self.before.iter().any(|b| {
            (same(a, b) || is_rest(a, b))
                && b.severity >= a.severity
                && excess(a) <= excess(b) * (1.0 + SAME) + SAME
        })
    }

    /// Whether it was not asked for because what it is about was to be cut.
    fn waited(&self, a: &Finding) -> bool {
        let cut = |b: &&&Finding| {
            b.rule == super::renewal::DUE && b.subjects.iter().any(|p| a.subjects.contains(p))
        };
        ASKED_AGAIN.contains(&a.rule) && self.before.iter().find(cut).is_some()
    }

    /// Whether it is the lesser evil: it comes with the mending of something graver there, or is what is left to do on wire
    /// that was bare.
    fn follows(&self, a: &Finding) -> bool {
        self.cleared.iter().any(|b| {
            let next = BARE.contains(&b.rule) && FILLED.contains(&a.rule);
            let lesser = b.severity > a.severity || a.severity == Severity::Note;
            // What fills a bare stretch from a little behind its end lies beside the other for less than it fills.
            let beside = BARE.contains(&b.rule)
                && a.rule == super::cordon_overlap::RULE
                && a.width < b.width / 2.0;
            meet(a, b, NEAR) && (lesser || ((next || beside) && b.severity >= a.severity))
        })
    }
}
