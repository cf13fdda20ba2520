//! Renewal: uprights due to be stubbed this season, and wood that is too old.
//!
//! Age is counted in completed growing seasons, in the dormant season before the row's leaf.

use super::seen::{Seen, SeenTree, distance, over, under};
use super::{Finding, Remedy, Severity};
use crate::arrange::Arrange;
use crate::cover::Span;
use crate::renewal::{Renewal, Share, Upright, Winter};
use crate::row::{Kind, Limit, Role, Shoot, ShootId, Window};
use crate::said::Arg;
use crate::units::Mm;
use crate::work::Work;

pub(super) const DUE: &str = "renewal-due";
pub(super) const OLD: &str = "wood-too-old";

/// One winter's renewal of one tree.
struct Due<'c> {
    /// Its uprights and stubs from left to right, each as old as it was before this winter's cut.
    wood: Vec<(&'c Shoot, Upright)>,
    winter: Winter,
}

impl<'c> Due<'c> {
    /// `None` before renewal begins. A leaf before that, only what is thick already goes.
    fn of(c: &Seen<'_>, seen: &'c SeenTree<'_>) -> Option<Self> {
        let leaf = f64::from(c.row.leaf);
        let begins = c.limit(Limit::RenewalLeaf);
        if leaf < begins - 1.0 {
            return None;
        }
        let thick = match leaf < begins {
            true => c.let_pass(Limit::RenewalThick),
            false => 0.0,
        };
        let keep = c.limit(Limit::StubLength);
        let mut wood: Vec<(f64, &Shoot, Upright)> = seen
            .pairs()
            .filter_map(|(shoot, course)| {
                let role = seen.tree.role(shoot);
                if !matches!(role, Role::Upright | Role::Stub) || seen.is_spare(shoot.id) {
                    return None;
                }
                let upright = Upright {
                    age: age(c, shoot),
                    // Of shoots without a measured thickness, the length tells.
                    size: shoot.diameter + shoot.length() * 1e-6,
                    cut: renewed(c, seen, shoot),
                    stubbed: role == Role::Stub && is_fresh(c, shoot),
                    // What is no longer than a stub can't be cut to one.
                    spared: role == Role::Stub
                        || shoot.length() <= keep
                        || under(shoot.diameter, thick),
                };
                Some((course.base.x, shoot, upright))
            })
            .collect();
        wood.arrange_by(|a, b| a.0.total_cmp(&b.0));
        let wood: Vec<_> = wood.into_iter().map(|(_, s, u)| (s, u)).collect();
        let uprights: Vec<Upright> = wood.iter().map(|(_, u)| *u).collect();
        // Trees have their turns one after the other, so that a row has much the same work each winter.
        let winter = u32::from(c.row.leaf).saturating_add(seen.tree.id.0);
        let winter = rule(c).winter(&uprights, winter);
        Some(Self { wood, winter })
    }

    /// The uprights that are yet to be cut this winter, the first to go first.
    fn cut(&self) -> impl Iterator<Item = &'c Shoot> {
        self.winter.cut.iter().map(|i| self.wood[*i].0)
    }

    fn stubbed(&self) -> usize {
        self.wood.iter().filter(|(_, u)| u.stubbed).count()
    }
}

/// The share and the age limit in force.
fn rule(c: &Seen<'_>) -> Renewal {
    Renewal {
        share: Share::near(c.limit(Limit::RenewalShare)),
        age_limit: c.limit(Limit::WoodAgeMax) as u8,
    }
}

fn age(c: &Seen<'_>, shoot: &Shoot) -> u8 {
    shoot.born().map_or(0, |b| c.row.leaf.saturating_sub(b))
}

/// Whether a stub was made in the leaf that is judged. Where the record is silent, it is taken for such.
fn is_fresh(c: &Seen<'_>, stub: &Shoot) -> bool {
    let cut = stub.last_cut();
    cut.is_none_or(|cut| cut.leaf == c.moment.leaf)
}

/// How many winters ago the place of an upright was last cut to a stub. Where the record is silent its age tells: wood that
/// first grew once renewal had begun came from a stub, unless it is known to have come from elsewhere.
fn renewed(c: &Seen<'_>, seen: &SeenTree<'_>, shoot: &Shoot) -> Option<u8> {
    let born = shoot.born()?;
    let parent = shoot.parent.and_then(|p| seen.tree.shoot(p));
    if let Some(stub) = parent.filter(|p| p.kind() == Kind::Stub) {
        let before = stub.last_cut().map(|cut| match cut.window {
            // The winter after that harvest.
            Window::AfterHarvest => cut.leaf + 1,
            _ => cut.leaf,
        });
        return Some(c.row.leaf.saturating_sub(before.unwrap_or(born)));
    }
    let silent = shoot.origin.is_none() && f64::from(born) >= c.limit(Limit::RenewalLeaf);
    silent.then(|| age(c, shoot))
}

pub(super) fn find_due(c: &Seen<'_>) -> Vec<Finding> {
    c.trees
        .iter()
        .filter_map(|seen| {
            let due = Due::of(c, seen)?;
            let first = due.cut().next()?;
            let ids: Vec<ShootId> = due.cut().map(|s| s.id).collect();
            let (stubbed, limit) = (due.stubbed(), rule(c).age_limit);
            let measured = stubbed as f64 / due.wood.len() as f64;
            let yes = |is: bool| Arg::Text(if is { "yes" } else { "no" }.into());
            Some(Finding {
                subjects: ids.iter().map(|id| seen.part(*id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(ids.len() as i64)),
                    ("of", Arg::Count(seen.uprights().count() as i64)),
                    ("stubs", Arg::Count(stubbed as i64)),
                    ("first", seen.name(first.id)),
                    ("diameter", Arg::Thickness(first.diameter)),
                    ("age", Arg::Count(age(c, first).into())),
                    ("why", Arg::Text(reason(c, first).into())),
                    ("raised", yes(due.winter.count > due.winter.carried)),
                    ("limit", Arg::Count(limit.into())),
                    ("late", yes(due.winter.reachable > limit)),
                    ("reachable", Arg::Count(due.winter.reachable.into())),
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
            let old: Vec<&Shoot> = seen
                .uprights()
                .map(|(s, _)| s)
                .filter(|s| over(f64::from(age(c, s)), most))
                .collect();
            let oldest = old.iter().map(|s| age(c, s)).max()?;
            let ids: Vec<ShootId> = old.iter().map(|s| s.id).collect();
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

/// Those of `old` that are cut to stubs this winter; the others wait, since a tree cut back whole bears nothing for two
/// seasons.
fn stub_this_winter(c: &Seen<'_>, seen: &SeenTree<'_>, old: &[ShootId]) -> Option<Remedy> {
    let due = Due::of(c, seen)?;
    let now: Vec<ShootId> = due
        .cut()
        .map(|s| s.id)
        .filter(|id| old.contains(id))
        .collect();
    let mut remedy = stub(c, seen, &now)?;
    if now.len() < old.len() {
        remedy.said.key = "remedy-stub-some";
        let left = Arg::Count((old.len() - now.len()) as i64);
        remedy.said.args.push(("left", left));
    }
    Some(remedy)
}

fn reason(c: &Seen<'_>, first: &Shoot) -> &'static str {
    if age(c, first) >= rule(c).age_limit {
        "age"
    } else if first.diameter > 0.0 {
        "size"
    } else {
        "length"
    }
}

/// Of each tree the upright that is renewed next, where it stands within a stretch and the tree has not had its share of
/// stubs this winter; `None` before renewal begins, and where there is none.
pub(super) fn stub_within(c: &Seen<'_>, span: Span) -> Option<Remedy> {
    if f64::from(c.row.leaf) < c.limit(Limit::RenewalLeaf) {
        return None;
    }
    let keep = Mm::round(c.limit(Limit::StubLength));
    let next = |seen: &SeenTree<'_>| {
        let due = Due::of(c, seen)?;
        due.cut()
            .find(|s| {
                let course = seen.tree.index(s.id).map(|i| seen.courses[i]);
                course.is_some_and(|at| at.base.x >= span.from && at.base.x <= span.to)
            })
            .map(|s| s.id)
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
