//! Which uprights are well placed, and which of those that crowd each other go.
//!
//! Of crowded uprights so many are kept as can stand far enough apart: the well placed before those that are over-vigorous
//! or far off their age's size, these before what is due to be renewed this winter, and the thicker before the thinner. From memory.

use super::seen::{Seen, SeenTree, Standing, over, under};
use crate::arrange::arrange_numbers;
use crate::cover::Place;
use crate::pose::Course;
use crate::row::{
    Face, Kind, Limit, Moment, Pose, Role, Shoot, ShootId, Toward, Tree, TreeId, Window,
};

/// An upright that leans more than this, degrees, is none to keep.
const LEAN: f64 = 30.0;
/// Length, as a share of the median of its age, under which an upright is far off its age's size.
const SHORT: f64 = 0.5;
/// What an upright is worth that is well placed, beside its thickness in mm: no thickness makes up for it.
const WELL: f64 = 1e6;
/// What a bud is worth.
const BUD: f64 = -1.0;
/// What one is worth that is kept though it is not well placed.
const KEPT: f64 = 1e3;
/// What one is worth, less its size, that is due to go this winter: taken off whole it brings nothing back into the crowd.
const DUE: f64 = 500.0;
/// What two of those that stand well must be worth together, as a share: more than one that is not due.
const SHARE_DUE: f64 = 0.7;
/// Two that stand closer than this, as a share of the least distance, have no room between them for either to bear.
const CLOSE: f64 = 2.0 / 3.0;

fn median(of: &mut [f64]) -> f64 {
    arrange_numbers(of);
    match of.len() {
        0 => 0.0,
        n if n % 2 == 1 => of[n / 2],
        n => (of[n / 2 - 1] + of[n / 2]) / 2.0,
    }
}

/// A tree's uprights as the crew finds them, before the moment's work.
pub(super) fn found_uprights<'s>(seen: &'s SeenTree<'_>) -> impl Iterator<Item = &'s Shoot> {
    let found = seen.found();
    let all = found.shoots.iter().filter(|s| s.kind() == Kind::Upright);
    all.filter(|s| found.role(s) == Role::Upright)
}

/// Those that the moment's work takes off.
pub(super) fn taken_off<'s>(seen: &'s SeenTree<'_>) -> impl Iterator<Item = &'s Shoot> {
    found_uprights(seen).filter(|s| seen.tree.index(s.id).is_none())
}

/// Median thickness of a tree's uprights, mm, as they stood before this winter's cuts: what was cut to a stub or taken off counts as
/// thick as it was, so that no cut makes another upright too thick. With `as_old`, of those alone that are as old as that shoot or
/// older. `None` of fewer than `fewest` with a known thickness.
pub(super) fn median_thickness(
    seen: &SeenTree<'_>,
    winter: Moment,
    fewest: usize,
    as_old: Option<&Shoot>,
) -> Option<f64> {
    let stubbed = seen
        .tree
        .shoots
        .iter()
        .filter(|s| s.kind() == Kind::Stub && s.last_cut().is_some_and(|cut| cut >= winter));
    let mut all: Vec<f64> = seen
        .uprights()
        .map(|(s, _)| s)
        .chain(stubbed)
        .chain(taken_off(seen))
        .filter(|s| as_old.is_none_or(|other| s.born() <= other.born()))
        .map(|s| s.diameter)
        .filter(|d| *d > 0.0)
        .collect();
    (all.len() >= fewest.max(1)).then(|| median(&mut all))
}

/// A median of fewer than this says little.
pub(super) const FEWEST: usize = 3;

/// After this, what is cut is cut in the winter that is judged.
pub(super) fn this_winter(c: &Seen<'_>) -> Moment {
    Moment {
        leaf: c.moment.leaf.saturating_sub(1),
        window: Window::AfterHarvest,
    }
}

/// Of an upright that is over-vigorous beside the median thickness of its tree, and of those there that are as old: how far from
/// the trunk it stands, mm, and the larger of the two. `None` of others. Younger wood is thinner and tells little.
pub(super) fn over_vigorous(
    c: &Seen<'_>,
    seen: &SeenTree<'_>,
    shoot: &Shoot,
    course: &Course,
    median: f64,
) -> Option<(f64, f64)> {
    let start = trunk_end(c, seen.tree, shoot.parent?)?;
    let from_trunk = (course.base.x - start).abs();
    let thickest =
        |usual: f64| c.limit(Limit::VigourRatio) * usual + c.limit(Limit::ThicknessTolerance);
    let near = !over(from_trunk, c.limit(Limit::NearTrunk));
    if !near || !over(shoot.diameter, thickest(median)) {
        return None;
    }
    let as_old = median_thickness(seen, this_winter(c), FEWEST, Some(shoot)).unwrap_or(median);
    let usual = median.max(as_old);
    over(shoot.diameter, thickest(usual)).then_some((from_trunk, usual))
}

/// Where the cordon begins at the trunk, for wood that is laid from the trunk itself.
fn trunk_end(c: &Seen<'_>, tree: &Tree, laid: ShootId) -> Option<f64> {
    let shoot = tree.shoot(laid)?;
    let from_trunk = match shoot.parent {
        None => true,
        Some(p) => !tree.shoot(p)?.pose.is_laid(),
    };
    let span = c.laid_at(tree.id, laid)?.span;
    match shoot.pose {
        Pose::Laid { toward, .. } if from_trunk => Some(match toward {
            Toward::Right => span.from,
            Toward::Left => span.to,
        }),
        _ => None,
    }
}

/// Shoots of one age together, each age where its first shoot stands.
pub(super) fn by_age<'s>(
    shoots: impl Iterator<Item = &'s Shoot>,
) -> Vec<(Option<u8>, Vec<&'s Shoot>)> {
    let mut out: Vec<(Option<u8>, Vec<&Shoot>)> = Vec::new();
    for shoot in shoots {
        match out.iter_mut().find(|(born, _)| *born == shoot.born()) {
            Some(known) => known.1.push(shoot),
            None => out.push((shoot.born(), vec![shoot])),
        }
    }
    out
}

/// The well-placed uprights of a tree.
pub(super) fn well_placed(c: &Seen<'_>, seen: &SeenTree<'_>) -> Vec<ShootId> {
    let known = median_thickness(seen, this_winter(c), 1, None);
    let too_thick = |s: &Shoot| {
        let than = |median: f64| over(s.diameter, median * c.limit(Limit::VigourRatio));
        let as_old = || median_thickness(seen, this_winter(c), FEWEST, Some(s));
        known.is_some_and(than) && as_old().is_none_or(than)
    };
    let usual = by_age(seen.uprights().map(|(s, _)| s)).into_iter();
    let usual = usual.map(|(born, all)| {
        let mut lengths: Vec<f64> = all.iter().map(|s| s.length()).collect();
        (born, median(&mut lengths))
    });
    let usual: Vec<(Option<u8>, f64)> = usual.collect();
    let of_its_age = |s: &Shoot| {
        usual
            .iter()
            .find(|(born, _)| *born == s.born())
            .map_or(0.0, |u| u.1)
    };
    let age = |s: &Shoot| f64::from(s.born().map_or(0, |b| c.row.leaf.saturating_sub(b)));
    let whole = c.whole();
    seen.uprights()
        .filter(|(s, course)| {
            let straight = matches!(s.pose, Pose::Upright { lean } if lean.degrees().abs() <= LEAN);
            straight
                && seen
                    .tree
                    .rooted(s)
                    .is_some_and(|root| root.face == Face::Top)
                && (whole.from..=whole.to).contains(&course.base.x)
                && age(s) < c.limit(Limit::WoodAgeMax)
                && !under(s.length(), SHORT * of_its_age(s))
                && !too_thick(s)
        })
        .map(|(s, _)| s.id)
        .collect()
}

/// What is known of each of the row's places that are judged, in the order of all.
pub(super) fn standing(c: &Seen<'_>) -> Vec<Standing> {
    let least = c.limit(Limit::UprightSpacingMin);
    let x = |i: usize| c.places[i].x;
    let crowd = |i: usize| under(x(i) - x(i - 1), least);
    let near = c.near.trees.clone().flat_map(|t| c.places_of(t));
    let hull = |(first, last): (usize, usize), i: &usize| (first.min(*i), last.max(i + 1));
    let (mut first, mut last) = near.fold((c.places.len(), 0), hull);
    // Those that crowd each other in a chain are one question.
    while first > 0 && first < last && crowd(first) {
        first -= 1;
    }
    while first < last && last < c.places.len() && crowd(last) {
        last += 1;
    }
    let mut out = vec![Standing::default(); c.places.len()];
    let mut chain: Vec<usize> = Vec::new();
    for i in first..last {
        out[i].well = c.is_well_placed(i);
        out[i].due = c.is_due_at(i);
        // A stub crowds nothing until something comes back from it.
        if c.is_stub(i) {
            continue;
        }
        if chain
            .last()
            .is_some_and(|before| !under(x(i) - x(*before), least))
        {
            keep(c, &chain, &mut out);
            chain.clear();
        }
        chain.push(i);
    }
    keep(c, &chain, &mut out);
    out
}

/// Of places in their order, tells of each that it goes unless it is kept: the most that is worth while all kept stand far
/// enough apart. What is due to be cut this winter goes before the others, but where more stand without one of those.
fn keep(c: &Seen<'_>, chain: &[usize], of: &mut [Standing]) {
    // What stands alone stays.
    if chain.len() < 2 {
        return;
    }
    let worth = |i: &usize, due: f64| match (of[*i], c.shoot_at(*i)) {
        // Of those that go this winter anyway, the larger sooner.
        (
            Standing {
                due: true, well, ..
            },
            Some(s),
        ) => (if well { due } else { DUE } - s.size()).max(1.0),
        (Standing { well: true, .. }, Some(s)) => WELL + s.size(),
        (_, Some(s)) if !s.units.is_empty() => KEPT + s.size(),
        _ => 1.0,
    };
    let kept = |due: f64| {
        let worth: Vec<f64> = chain.iter().map(|i| worth(i, due)).collect();
        apart(c, chain, &worth)
    };
    let standing = |kept: &[bool]| kept.iter().filter(|k| **k).count();
    let mut best = kept(DUE);
    if chain.len() > 2 && chain.iter().any(|i| of[*i].due) {
        let more = kept(WELL * SHARE_DUE);
        if standing(&more) > standing(&best) {
            best = more;
        }
    }
    for (i, kept) in chain.iter().zip(best) {
        of[*i].goes = !kept;
    }
}

/// Which places of a chain are kept.
fn apart(c: &Seen<'_>, chain: &[usize], worth: &[f64]) -> Vec<bool> {
    let least = c.limit(Limit::UprightSpacingMin);
    let x = |k: usize| c.places[chain[k]].x;
    // The best of the first k places, and how many of those go before the k-th where that one is kept.
    let mut best = vec![0.0; chain.len() + 1];
    let mut before = vec![0; chain.len()];
    for k in 0..chain.len() {
        let near = (0..k).rev().take_while(|j| under(x(k) - x(*j), least));
        before[k] = k - near.count();
        best[k + 1] = f64::max(best[k], best[before[k]] + worth[k]);
    }
    let mut out = vec![false; chain.len()];
    let mut k = chain.len();
    while k > 0 {
        let kept = best[before[k - 1]] + worth[k - 1] > best[k - 1];
        out[k - 1] = kept;
        k = if kept { before[k - 1] } else { k - 1 };
    }
    out
}

impl Seen<'_> {
    /// What is known of the place at `i`.
    pub fn standing_at(&self, i: usize) -> Standing {
        let all = self.standing.get_or_init(|| standing(self));
        all.get(i).copied().unwrap_or_default()
    }

    fn is_well_placed(&self, i: usize) -> bool {
        let seen = self.tree_at(i);
        let well = seen.well.get_or_init(|| well_placed(self, seen));
        well.contains(&self.places[i].shoot)
    }

    /// Whether an upright stands closer to another than the least distance.
    pub fn is_crowded(&self, tree: TreeId, shoot: ShootId) -> bool {
        let Some(seen) = self.tree_index(tree) else {
            return false;
        };
        let mut own = self.places_of(seen).iter().copied();
        let Some(at) = own.find(|i| self.places[*i].shoot == shoot) else {
            return false;
        };
        let least = self.let_pass(Limit::UprightSpacingMin);
        let near = |a: usize, b: usize| {
            let grown = |i: usize| !self.is_stub(i) && !is_bud(self.worth(i));
            b < self.places.len()
                && under(self.places[b].x - self.places[a].x, least)
                && grown(a)
                && grown(b)
        };
        near(at, at + 1) || at.checked_sub(1).is_some_and(|before| near(before, at))
    }

    /// Whether an upright of a tree is thick, or old enough to go next winter, and crowds a better one that stands well: a younger, or
    /// of two as old the smaller.
    pub fn crowds_better(&self, tree: usize, shoot: &Shoot) -> bool {
        let age = shoot.born().map_or(0, |b| self.row.leaf.saturating_sub(b));
        let soon = age.saturating_add(1) >= self.renewal.age_limit;
        if !soon && !over(shoot.diameter, self.let_pass(Limit::RenewalThick)) {
            return false;
        }
        let mut own = self.places_of(tree).iter().copied();
        let Some(at) = own.find(|i| self.places[*i].shoot == shoot.id) else {
            return false;
        };
        let least = self.let_pass(Limit::UprightSpacingMin);
        let near = |i: &usize| under((self.places[*i].x - self.places[at].x).abs(), least);
        let better = |i: usize| {
            if !self.better_without(at, (self.places[i].x - self.places[at].x).abs()) {
                return false;
            }
            let other = self.shoot_at(i).filter(|s| s.kind() == Kind::Upright);
            other.is_some_and(|o| {
                let alike = o.born() == shoot.born() && o.size() < shoot.size();
                (o.born() > shoot.born() || alike) && self.is_well_placed(i)
            })
        };
        let before = (0..at).rev().take_while(near);
        let after = (at + 1..self.places.len()).take_while(near);
        before.chain(after).any(better)
    }

    /// Whether the wall is the better without the place at `out`, which has another `near` mm beside it: the space it leaves is nearer to
    /// the usual one than the two are, or they stand so close that neither has room.
    pub fn better_without(&self, out: usize, near: f64) -> bool {
        let space = self
            .sides(out)
            .map_or(0.0, |(left, right)| right.x - left.x);
        let usual = self.limit(Limit::UprightSpacing);
        self.too_close(near) || space - usual <= usual - near
    }

    /// The places on both sides of the one at `i`; `None` at the row's end.
    pub fn sides(&self, i: usize) -> Option<(Place, Place)> {
        Some((self.places[i.checked_sub(1)?], *self.places.get(i + 1)?))
    }

    /// Whether two stand so close that neither has room.
    pub fn too_close(&self, near: f64) -> bool {
        near < CLOSE * self.limit(Limit::UprightSpacingMin)
    }

    /// Whether a stub stands at the place at `i`.
    pub fn is_stub(&self, i: usize) -> bool {
        self.shoot_at(i).is_some_and(|s| s.kind() == Kind::Stub)
    }

    /// Whether a stub stands at the place at `i` that the moment's work makes of an upright: that can still be taken off whole.
    pub fn is_new_stub(&self, i: usize) -> bool {
        let found = self.tree_at(i).found().shoot(self.places[i].shoot);
        self.is_stub(i) && found.is_some_and(|s| s.kind() == Kind::Upright)
    }

    /// What the upright at the place at `i` is worth to the wall, the least what it can rather spare: a bud, what goes for a
    /// better one and is due anyway, what goes for a better one, what is not well placed, and of those alike the thinner. A stub is cut for a reason and stays longest, but for a new one.
    pub fn worth(&self, i: usize) -> f64 {
        match (self.shoot_at(i), self.standing_at(i)) {
            (None, _) => BUD,
            (Some(s), _) if s.kind() == Kind::Bud => BUD,
            (Some(s), _) if s.kind() == Kind::Stub => match self.is_new_stub(i) {
                true => 0.0,
                false => f64::MAX,
            },
            (
                Some(s),
                Standing {
                    goes: true,
                    due: true,
                    ..
                },
            ) => 1.0 / (1.0 + s.size()),
            (Some(s), Standing { goes: true, .. }) => 1.0 + s.size(),
            (Some(s), Standing { due: true, .. } | Standing { well: false, .. }) => KEPT + s.size(),
            (Some(s), _) => WELL + s.size(),
        }
    }
}

/// Whether the wall can spare what is worth so much: a bud, what goes for a better one, and what is not well placed.
pub(super) fn can_spare(worth: f64) -> bool {
    worth < WELL
}

/// Whether what is worth so much is a bud.
pub(super) fn is_bud(worth: f64) -> bool {
    worth <= BUD
}
