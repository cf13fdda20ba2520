//! Renewal: uprights due to be stubbed this season, and wood that is too old.
//!
//! Age is counted in completed growing seasons, in the dormant season before the row's leaf.

use super::seen::{Seen, SeenTree, distance, over, under};
use super::{Finding, Remedy, Severity};
use crate::arrange::Arrange;
use crate::cover::Span;
use crate::row::{Kind, Limit, Shoot, ShootId};
use crate::said::Arg;
use crate::units::Mm;
use crate::work::Work;

pub(super) const DUE: &str = "renewal-due";
pub(super) const OLD: &str = "wood-too-old";

/// An upright with what decides whether it goes.
#[derive(Clone, Copy)]
struct Candidate {
    id: ShootId,
    age: u8,
    diameter: f64,
    length: f64,
    x: f64,
}

pub(super) fn find_due(c: &Seen<'_>) -> Vec<Finding> {
    let leaf = f64::from(c.row.leaf);
    let begins = c.limit(Limit::RenewalLeaf);
    // What is no longer than a stub can't be cut to one.
    let keep = Mm::round(c.limit(Limit::StubLength));
    if leaf < begins - 1.0 {
        return Vec::new();
    }
    // A leaf before renewal begins, only what is thick already goes.
    let thick = if leaf < begins {
        c.limit(Limit::RenewalThick)
    } else {
        0.0
    };
    c.trees
        .iter()
        .filter_map(|seen| {
            let stubbed = fresh_stubs(c, seen);
            let all = in_order(c, seen);
            let uprights = all.len();
            let n = uprights + stubs(seen).count();
            let due = a_year(c, n);
            let out: Vec<Candidate> = all
                .into_iter()
                .filter(|u| !under(u.diameter, thick) && u.length > keep.f())
                .take(due.saturating_sub(stubbed))
                .collect();
            let first = *out.first()?;
            let ids: Vec<ShootId> = out.iter().map(|u| u.id).collect();
            let measured = stubbed as f64 / n as f64;
            Some(Finding {
                subjects: ids.iter().map(|id| seen.part(*id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(out.len() as i64)),
                    ("of", Arg::Count(uprights as i64)),
                    ("stubs", Arg::Count(stubbed as i64)),
                    ("first", seen.name(first.id)),
                    ("diameter", Arg::Thickness(first.diameter)),
                    ("age", Arg::Count(first.age.into())),
                    ("why", Arg::Text(reason(c, &first).into())),
                ],
                remedies: stub(c, seen, &ids).into_iter().collect(),
                ..seen.finding(c, DUE, Severity::Soon, Limit::RenewalShare, measured)
            })
        })
        .collect()
}

pub(super) fn find_old(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::WoodAgeMax);
    c.trees
        .iter()
        .filter_map(|seen| {
            let old: Vec<Candidate> = in_order(c, seen)
                .into_iter()
                .filter(|u| over(f64::from(u.age), most))
                .collect();
            let oldest = old.iter().map(|u| u.age).max()?;
            let ids: Vec<ShootId> = old.iter().map(|u| u.id).collect();
            Some(Finding {
                subjects: ids.iter().map(|id| seen.part(*id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(old.len() as i64)),
                    ("age", Arg::Count(oldest.into())),
                    ("most", Arg::Count(most as i64)),
                ],
                remedies: stub_this_winter(c, seen, &ids).into_iter().collect(),
                ..seen.finding(c, OLD, Severity::Soon, Limit::WoodAgeMax, f64::from(oldest))
            })
        })
        .collect()
}

/// How many of `n` uprights are renewed in one winter: the share of them, rounded up.
fn a_year(c: &Seen<'_>, n: usize) -> usize {
    libm::ceil(n as f64 * c.limit(Limit::RenewalShare) - 1e-9) as usize
}

/// The oldest of `old` cut to stubs, so many as one winter's renewal has left; the others wait, since a tree cut
/// back whole bears nothing for two seasons.
fn stub_this_winter(c: &Seen<'_>, seen: &SeenTree<'_>, old: &[ShootId]) -> Option<Remedy> {
    let stubbed = fresh_stubs(c, seen);
    let n = seen.uprights().count() + stubs(seen).count();
    let now = a_year(c, n).saturating_sub(stubbed).min(old.len());
    let mut remedy = stub(c, seen, &old[..now])?;
    if now < old.len() {
        remedy.said.key = "remedy-stub-some";
        let left = Arg::Count((old.len() - now) as i64);
        remedy.said.args.push(("left", left));
    }
    Some(remedy)
}

fn age(c: &Seen<'_>, shoot: &Shoot) -> u8 {
    shoot.born().map_or(0, |b| c.row.leaf.saturating_sub(b))
}

/// A tree's grown uprights in the order in which they are renewed: those at the age limit first, the oldest of them
/// first; then the largest.
fn in_order(c: &Seen<'_>, seen: &SeenTree<'_>) -> Vec<Candidate> {
    let at_limit = |u: &Candidate| match f64::from(u.age) >= c.limit(Limit::WoodAgeMax) {
        true => u.age,
        false => 0,
    };
    let mut all: Vec<Candidate> = seen
        .uprights()
        .map(|(s, course)| Candidate {
            id: s.id,
            age: age(c, s),
            diameter: s.diameter,
            length: s.length(),
            x: course.base.x,
        })
        .collect();
    all.arrange_by(|a, b| {
        at_limit(b)
            .cmp(&at_limit(a))
            .then(b.diameter.total_cmp(&a.diameter))
            .then(b.length.total_cmp(&a.length))
            .then(a.x.total_cmp(&b.x))
    });
    all
}

fn reason(c: &Seen<'_>, first: &Candidate) -> &'static str {
    if f64::from(first.age) >= c.limit(Limit::WoodAgeMax) {
        "age"
    } else if first.diameter > 0.0 {
        "size"
    } else {
        "length"
    }
}

/// Stubs from which nothing has come back yet.
fn stubs<'t>(seen: &'t SeenTree<'_>) -> impl Iterator<Item = &'t Shoot> {
    let stubs = seen.tree.shoots.iter().filter(|s| s.kind() == Kind::Stub);
    stubs.filter(|stub| seen.tree.shoots.iter().all(|s| s.parent != Some(stub.id)))
}

/// How many of them were made in the leaf that is judged. Where the record is silent, they are taken for such.
fn fresh_stubs(c: &Seen<'_>, seen: &SeenTree<'_>) -> usize {
    let now = c.moment.leaf;
    stubs(seen)
        .filter(|s| s.last_cut().is_none_or(|cut| cut.leaf == now))
        .count()
}

/// Of each tree the upright that is renewed next, where it stands within a stretch and the tree has not had its share of
/// stubs this winter; `None` before renewal begins, and where there is none.
pub(super) fn stub_within(c: &Seen<'_>, span: Span) -> Option<Remedy> {
    if f64::from(c.row.leaf) < c.limit(Limit::RenewalLeaf) {
        return None;
    }
    let keep = Mm::round(c.limit(Limit::StubLength));
    let next = |seen: &SeenTree<'_>| {
        let all = in_order(c, seen);
        let stubbed = fresh_stubs(c, seen);
        let due = a_year(c, all.len() + stubs(seen).count()) > stubbed;
        all.into_iter()
            .find(|u| due && u.x >= span.from && u.x <= span.to && u.length > keep.f())
            .map(|u| u.id)
    };
    let stubs: Vec<(&SeenTree<'_>, ShootId)> = c
        .trees
        .iter()
        .filter_map(|seen| Some((seen, next(seen)?)))
        .collect();
    let (first, shoot) = stubs.first()?;
    Some(Remedy::new(
        "remedy-stub-each",
        vec![
            ("count", Arg::Count(stubs.len() as i64)),
            ("part", first.name(*shoot)),
        ],
        stubs
            .iter()
            .map(|(seen, shoot)| Work::Stub {
                tree: seen.tree.id,
                shoot: *shoot,
                keep_mm: keep,
            })
            .collect(),
    ))
}

/// Those uprights cut to stubs; `None` where one of them is no longer than a stub.
pub(super) fn stub(c: &Seen<'_>, seen: &SeenTree<'_>, ids: &[ShootId]) -> Option<Remedy> {
    let keep = Mm::round(c.limit(Limit::StubLength));
    let longer = |id: &ShootId| {
        let shoot = seen.tree.shoot(*id);
        shoot.is_some_and(|s| s.length() > keep.f())
    };
    if !ids.iter().all(longer) {
        return None;
    }
    let work: Vec<Work> = seen
        .outermost(ids)
        .into_iter()
        .map(|shoot| Work::Stub {
            tree: seen.tree.id,
            shoot,
            keep_mm: keep,
        })
        .collect();
    Some(Remedy::new(
        "remedy-stub",
        vec![
            ("count", Arg::Count(work.len() as i64)),
            ("part", seen.name(*ids.first()?)),
            ("tree", seen.number()),
            ("keep", distance(keep.f())),
        ],
        work,
    ))
}
