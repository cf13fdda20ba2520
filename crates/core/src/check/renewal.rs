//! Renewal: uprights due to be stubbed this season, and wood that is too old.
//!
//! Age is counted in completed growing seasons, in the dormant season before the row's leaf.

use super::near::{MARGIN, Near};
use super::placed::{FEWEST, median_thickness, over_vigorous, taken_off, this_winter};
use super::seen::{Due, Seen, SeenTree, distance, over, under};
use super::uprights_count::too_few;
use super::{Context, Finding, Part, Remedy, Severity};
use crate::arrange::Arrange;
use crate::cover::Span;
use crate::renewal::Upright;
use crate::row::{Kind, Limit, Role, Shoot, ShootId, TreeId};
use crate::said::Arg;
use crate::units::Mm;
use crate::work::Work;

pub(super) const DUE: &str = "renewal-due";
pub(super) const OLD: &str = "wood-too-old";

impl Due {
    /// `None` before renewal begins. A leaf before, only what is thick or over-vigorous already goes; and of a tree that has
    /// fewer uprights than it needs only what would grow too old: the rest waits until it has them.
    fn of(c: &Seen<'_>, tree: usize, holes: &mut Holes) -> Option<Self> {
        let seen = &c.trees[tree];
        let leaf = f64::from(c.row.leaf);
        let begins = c.limit(Limit::RenewalLeaf);
        if leaf < begins - 1.0 {
            return None;
        }
        let early = !c.renewal_has_begun();
        let thick = c.let_pass(Limit::RenewalThick);
        // Later all goes by its turn, thick or not.
        let median = early
            .then(|| median_thickness(seen, this_winter(c), FEWEST, None))
            .flatten();
        let keep = c.limit(Limit::StubLength);
        let mut wood: Vec<(f64, ShootId, Upright)> = seen
            .pairs()
            .filter_map(|(shoot, course)| {
                let role = seen.tree.role(shoot);
                if !matches!(role, Role::Upright | Role::Stub) || seen.is_spare(shoot.id) {
                    return None;
                }
                let waits = early
                    && under(shoot.diameter, thick)
                    && median.is_none_or(|m| over_vigorous(c, seen, shoot, course, m).is_none());
                let upright = Upright {
                    age: age(c, shoot),
                    size: shoot.size(),
                    cut: seen.tree.winters_since_stub(shoot, c.row.leaf, begins),
                    stubbed: role == Role::Stub && is_fresh(c, shoot),
                    // What is no longer than a stub can't be cut to one.
                    spared: role == Role::Stub || shoot.length() <= keep || waits,
                    crowds: role == Role::Upright && c.crowds_better(tree, shoot),
                };
                Some((course.base.x, shoot.id, upright))
            })
            .collect();
        wood.arrange_by(|a, b| a.0.total_cmp(&b.0));
        let wood: Vec<_> = wood.into_iter().map(|(_, s, u)| (s, u)).collect();
        let mut uprights: Vec<Upright> = wood.iter().map(|(_, u)| *u).collect();
        let stand = seen.uprights().filter(|(s, _)| !seen.is_spare(s.id));
        let stubbed = uprights.iter().filter(|u| u.stubbed);
        let few = too_few(c, seen, stand.count() + stubbed.count());
        // What is taken off whole this winter is of its share too: behind the others, for none of it is cut again.
        uprights.extend(gone(c, seen));
        let own = c.places_of(tree).iter();
        let place = |s: ShootId| own.clone().copied().find(|p| c.places[*p].shoot == s);
        let at: Vec<Option<usize>> = wood.iter().map(|(s, _)| place(*s)).collect();
        let harms = |i: usize, cut: &[usize]| {
            // What crowds is taken off whole, and leaves no hole.
            !uprights[i].crowds
                && at[i].is_some_and(|p| {
                    let beside = |j: &usize| at[*j].is_some_and(|q| q.abs_diff(p) == 1);
                    holes.beside(c, p) || cut.iter().any(beside)
                })
        };
        // Trees have their turns one after the other, so that a row has much the same work each winter.
        let winter = u32::from(c.row.leaf).saturating_add(seen.tree.id.0);
        let winter = c.renewal.due(few, &uprights, winter, &harms);
        let beside = match c.judging {
            true => Vec::new(),
            false => (0..wood.len()).map(|i| harms(i, &winter.cut)).collect(),
        };
        for p in winter.cut.iter().filter_map(|i| at[*i]) {
            holes.cut[p] = true;
        }
        Some(Self {
            beside,
            gone: uprights.len() - wood.len(),
            wood,
            winter,
            few,
        })
    }

    /// Whether one of the wood stands beside a gap or a stub, so that cut it would make a larger hole.
    pub fn is_beside(&self, at: usize) -> bool {
        self.beside.get(at) == Some(&true)
    }

    /// The uprights that are yet to be cut this winter, the first to go first.
    pub fn cut(&self) -> Vec<ShootId> {
        self.winter.cut.iter().map(|i| self.wood[*i].0).collect()
    }

    fn cuts(&self, shoot: ShootId) -> bool {
        self.winter.cut.iter().any(|i| self.wood[*i].0 == shoot)
    }

    /// Before which leaf, as its winters follow each other, the last wood that is too old is cut.
    fn until(&self, c: &Seen<'_>, tree: u32) -> u8 {
        let mut all: Vec<Upright> = self.wood.iter().map(|(_, u)| *u).collect();
        let (mut cut, mut leaf, rule) = (self.winter.cut.clone(), c.row.leaf, c.renewal);
        loop {
            for i in &cut {
                all[*i].stubbed = true;
            }
            let old = |u: &Upright| !u.stubbed && !u.spared && u.age > rule.age_limit;
            if !all.iter().any(old) || leaf == u8::MAX {
                return leaf;
            }
            leaf += 1;
            for u in &mut all {
                (u.age, u.cut) = match u.stubbed {
                    // What grew from the stub.
                    true => (1, Some(1)),
                    false => (u.age.saturating_add(1), u.cut.map(|w| w.saturating_add(1))),
                };
                u.stubbed = false;
            }
            let winter = u32::from(leaf).saturating_add(tree);
            cut = rule.due(self.few, &all, winter, &|_, _| false).cut;
        }
    }

    /// Whether a larger one that is no less due stands for want of room: beside a stub or a gap.
    fn spares(&self, age_limit: u8) -> bool {
        let cut = &self.winter.cut;
        let Some(first) = cut.first().map(|i| &self.wood[*i].1) else {
            return false;
        };
        let waits = |u: &Upright| {
            u.size > first.size
                && u.age >= first.age
                && !(u.stubbed || u.spared)
                && u.cut.is_none_or(|winters| winters >= age_limit)
        };
        let mut left = (0..self.wood.len()).filter(|i| !cut.contains(i));
        left.any(|i| waits(&self.wood[i].1))
    }

    /// Whether any that stands is older than that.
    fn is_over(&self, age_limit: u8) -> bool {
        let mut standing = self.wood.iter().map(|(_, u)| u).filter(|u| !u.stubbed);
        standing.any(|u| u.age > age_limit)
    }

    fn stubbed(&self) -> usize {
        self.wood.iter().filter(|(_, u)| u.stubbed).count()
    }
}

/// Whether a rule asks for the renewal of a tree's uprights.
pub fn is_renewal(rule: &str) -> bool {
    [DUE, OLD].contains(&rule)
}

/// The uprights that the moment's work takes off a tree, as of its renewal.
fn gone(c: &Seen<'_>, seen: &SeenTree<'_>) -> Vec<Upright> {
    let mut spare = None;
    let mut is_spare = |s: &Shoot| {
        let all = spare.get_or_insert_with(|| seen.found().spare_returns(c.targets));
        all.contains(&s.id)
    };
    let all = taken_off(seen).filter(|s| !is_spare(s));
    let taken = |s: &Shoot| Upright {
        age: age(c, s),
        size: s.size(),
        cut: None,
        stubbed: true,
        spared: true,
        crowds: false,
    };
    all.map(taken).collect()
}

/// The trees of which more than a third, rounded up, comes off or is stubbed this winter, each with how many stubs it would have to have less.
pub fn cut_too_much(context: &Context<'_>) -> Vec<(TreeId, usize)> {
    let c = &Seen::to_judge(context);
    let too_many = |seen: &SeenTree<'_>| {
        let due = c.due(seen)?;
        let (stubs, all) = (due.stubbed(), due.wood.len() + due.gone);
        let over = (stubs + due.gone).saturating_sub(all.div_ceil(3));
        (over.min(stubs) > 0).then(|| (seen.tree.id, over.min(stubs)))
    };
    c.trees.iter().filter_map(too_many).collect()
}

/// Where the wall has holes, or will have them once what is chosen is cut.
struct Holes {
    /// The middles of bare stretches, from left to right.
    bare: Vec<f64>,
    /// Whether each place is to be cut.
    cut: Vec<bool>,
}

impl Holes {
    fn of(c: &Seen<'_>) -> Self {
        Self {
            bare: c.flagged_gaps().map(|gap| gap.span.middle()).collect(),
            cut: vec![false; c.places.len()],
        }
    }

    /// Whether a place has one beside it: a stub or bud, what is to be cut, bare wire or too wide a space.
    fn beside(&self, c: &Seen<'_>, place: usize) -> bool {
        let here = c.places[place].x;
        let to = |other: Option<usize>, end: f64| match other
            .and_then(|i| Some((i, c.places.get(i)?)))
        {
            Some((i, next)) => {
                let bears = c.shoot_at(i).is_some_and(|s| s.kind() == Kind::Upright);
                let apart = (next.x - here).abs();
                (
                    !bears || self.cut[i] || over(apart, c.let_pass(Limit::UprightSpacingMax)),
                    next.x,
                )
            }
            None => (false, end),
        };
        let whole = c.whole();
        let (left, from) = to(place.checked_sub(1), whole.from);
        let (right, to) = to(Some(place + 1), whole.to);
        let right = right || self.goes(c, place);
        let first = self.bare.partition_point(|x| *x <= from);
        left || right || self.bare.get(first).is_some_and(|x| *x < to)
    }

    /// Whether the next place is the next tree's, and what stands there has reached the age limit: it is not chosen yet, but has no
    /// time to wait.
    fn goes(&self, c: &Seen<'_>, place: usize) -> bool {
        let next = place + 1;
        let is_next = next < c.places.len() && c.tree_index_at(next) != c.tree_index_at(place);
        is_next
            && c.shoot_at(next)
                .is_some_and(|s| s.kind() == Kind::Upright && age(c, s) >= c.renewal.age_limit)
    }
}

/// This winter's renewal of each tree. What one tree is to have cut, the next one sees.
fn dues(c: &Seen<'_>) -> Vec<Option<Due>> {
    let mut holes = Holes::of(c);
    let due = |tree| Due::of(c, tree, &mut holes);
    (0..c.trees.len()).map(due).collect()
}

/// The same of what is near, of the rest as `before` found it. Where it comes out otherwise than there, the next trees are near
/// too.
pub(super) fn recall(c: &mut Seen<'_>, before: &[Finding]) {
    let mut holes = Holes::of(c);
    let mut known: Vec<&[Part]> = vec![&[]; c.trees.len()];
    for finding in before.iter().filter(|f| f.rule == DUE) {
        let tree = finding.subjects.first().and_then(|p| c.tree_index(p.tree));
        let Some(tree) = tree else { continue };
        known[tree] = &finding.subjects;
        if tree < c.near.trees.start {
            for place in c.places_of(tree) {
                holes.cut[*place] = finding.subjects.contains(&c.places[*place].into());
            }
        }
    }
    let mut dues: Vec<Option<Due>> = Vec::new();
    dues.resize_with(c.trees.len(), || None);
    let mut next = c.near.trees.start;
    while next < c.near.trees.end {
        let seen = &c.trees[next];
        let due = Due::of(c, next, &mut holes);
        let cut: Vec<Part> = due
            .iter()
            .flat_map(Due::cut)
            .map(|s| seen.part(s))
            .collect();
        dues[next] = due;
        if cut != known[next] {
            let x = |place: Option<&usize>| place.map(|p| c.places[*p].x);
            let own = c.places_of(next);
            let (from, to) = (x(own.first()), x(own.last()));
            let mut span = c.near.span;
            if from.is_some_and(|x| x - MARGIN < span.from) {
                // What came before may have been found on other grounds.
                c.near = Near::all(c.trees.len());
                return;
            }
            span.to = span.to.max(to.unwrap_or(span.to) + MARGIN);
            c.judge_near(span);
        }
        next += 1;
    }
    c.dues = dues.into();
}

impl Seen<'_> {
    /// Whether the row is in the leaf before which renewal begins, or in a later one.
    pub fn renewal_has_begun(&self) -> bool {
        f64::from(self.row.leaf) >= self.limit(Limit::RenewalLeaf)
    }

    /// What of a tree is renewed this winter; `None` where nothing is due on it yet.
    pub fn due(&self, seen: &SeenTree<'_>) -> Option<&Due> {
        self.due_in(self.tree_index(seen.tree.id)?)
    }

    /// The same of the tree at `tree` in `trees`.
    fn due_in(&self, tree: usize) -> Option<&Due> {
        let all = self.dues.get_or_init(|| dues(self));
        all.get(tree)?.as_ref()
    }

    /// Whether an upright is to be cut to a stub this winter: nothing else is asked of it then.
    pub fn is_due(&self, seen: &SeenTree<'_>, shoot: ShootId) -> bool {
        self.due(seen).is_some_and(|due| due.cuts(shoot))
    }

    /// The same of the place at `i`.
    pub fn is_due_at(&self, i: usize) -> bool {
        let due = self.due_in(self.tree_index_at(i));
        due.is_some_and(|due| due.cuts(self.places[i].shoot))
    }
}

pub(super) fn age(c: &Seen<'_>, shoot: &Shoot) -> u8 {
    shoot.born().map_or(0, |b| c.row.leaf.saturating_sub(b))
}

/// Whether a stub was made in the leaf that is judged. Where the record is silent, it is taken for such.
fn is_fresh(c: &Seen<'_>, stub: &Shoot) -> bool {
    let cut = stub.last_cut();
    cut.is_none_or(|cut| cut.leaf == c.moment.leaf)
}

pub(super) fn find_due(c: &Seen<'_>) -> Vec<Finding> {
    c.near_trees()
        .filter_map(|seen| {
            let due = c.due(seen)?;
            let ids = due.cut();
            let first = seen.tree.shoot(*ids.first()?)?;
            let (stubbed, limit) = (due.stubbed(), c.renewal.age_limit);
            let measured = stubbed as f64 / due.wood.len() as f64;
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
                    ("spares", Arg::yes(due.spares(limit))),
                    ("raised", Arg::yes(due.winter.count > due.winter.carried)),
                    ("over", Arg::yes(due.is_over(limit))),
                    ("gone", Arg::Count(due.gone as i64)),
                    ("limit", Arg::Count(limit.into())),
                    ("late", Arg::yes(due.winter.reachable > limit)),
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
    c.near_trees()
        .filter_map(|seen| {
            let old: Vec<&Shoot> = seen
                .uprights()
                .map(|(s, _)| s)
                .filter(|s| over(f64::from(age(c, s)), most))
                .collect();
            let oldest = old.iter().map(|s| age(c, s)).max()?;
            let ids: Vec<ShootId> = old.iter().map(|s| s.id).collect();
            let due = c.due(seen);
            let cut = due.map(Due::cut).unwrap_or_default();
            let now = cut.iter().filter(|id| ids.contains(id)).count();
            let until = due.map_or(0, |d| d.until(c, seen.tree.id.0));
            // What the winter's renewal leaves over can't be hurried.
            let (when, severity) = match now {
                0 if due.is_some() && cut.is_empty() => ("later", Severity::Note),
                0 => ("unknown", Severity::Soon),
                _ if now < old.len() => ("some", Severity::Soon),
                _ => ("now", Severity::Soon),
            };
            Some(Finding {
                subjects: ids.iter().map(|id| seen.part(*id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(old.len() as i64)),
                    ("age", Arg::Count(oldest.into())),
                    ("most", Arg::Count(most as i64)),
                    ("when", Arg::Text(when.into())),
                    ("now", Arg::Count(now as i64)),
                    ("until", Arg::Count(until.into())),
                ],
                remedies: stub_this_winter(c, seen, &ids).into_iter().collect(),
                ..seen.finding(c, OLD, severity, Limit::WoodAgeMax, f64::from(oldest))
            })
        })
        .collect()
}

/// Those of `old` that are cut to stubs this winter; the others wait, since a tree cut back whole bears nothing for two
/// seasons.
fn stub_this_winter(c: &Seen<'_>, seen: &SeenTree<'_>, old: &[ShootId]) -> Option<Remedy> {
    let mut now = c.due(seen)?.cut();
    now.retain(|id| old.contains(id));
    let mut remedy = stub(c, seen, &now)?;
    if now.len() < old.len() {
        remedy.said.key = "remedy-stub-some";
        let left = Arg::Count((old.len() - now.len()) as i64);
        remedy.said.args.push(("left", left));
    }
    Some(remedy)
}

fn reason(c: &Seen<'_>, first: &Shoot) -> &'static str {
    if age(c, first) >= c.renewal.age_limit {
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
    if !c.renewal_has_begun() {
        return None;
    }
    let keep = Mm::round(c.limit(Limit::StubLength));
    let next = |seen: &SeenTree<'_>| {
        c.due(seen)?.cut().into_iter().find(|id| {
            let course = seen.tree.index(*id).map(|i| seen.courses[i]);
            course.is_some_and(|at| at.base.x >= span.from && at.base.x <= span.to)
        })
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
