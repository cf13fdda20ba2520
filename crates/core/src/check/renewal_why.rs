//! Why some of a tree's uprights are renewed this winter, each for itself, and why older ones stand.

use super::Context;
use super::renewal::age;
use super::seen::{Due, Seen, SeenTree};
use crate::renewal::Upright;
use crate::row::{Kind, Limit, Shoot, ShootId, TreeId};
use crate::said::{Arg, Args, Said};

/// Why an upright is cut to a stub, or stands though a younger one is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Reason {
    /// The tree.
    pub tree: TreeId,
    /// The upright.
    pub shoot: ShootId,
    /// Completed growing seasons of its wood.
    pub age: u8,
    /// Whether it is cut.
    pub goes: bool,
    /// What is said of it.
    pub said: Said,
}

impl Reason {
    /// That it stands, since with it more of the tree would come off than in one winter may.
    pub(crate) fn stays_over(&mut self) {
        self.goes = false;
        self.said.key = "renewal-stays-third";
    }
}

/// The reasons of this winter's renewal on some trees: of all that is cut, and of what stands though it is older, where one is known.
pub fn renewal_reasons(context: &Context<'_>, trees: &[TreeId]) -> Vec<Reason> {
    if trees.is_empty() {
        return Vec::new();
    }
    let c = &Seen::new(context);
    let all = trees.iter().filter_map(|id| c.tree(*id));
    let own = |seen| Some(of_tree(c, seen, c.due(seen)?));
    all.filter_map(own).flatten().collect()
}

fn of_tree(c: &Seen<'_>, seen: &SeenTree<'_>, due: &Due) -> Vec<Reason> {
    let cut = &due.winter.cut;
    let told = |at: usize, goes: bool, key: &'static str| {
        let (id, upright) = &due.wood[at];
        let shoot = seen.tree.shoot(*id)?;
        Some(Reason {
            tree: seen.tree.id,
            shoot: *id,
            age: upright.age,
            goes,
            said: Said::new(key, args(c, seen, due, shoot, at)),
        })
    };
    let goes = cut
        .iter()
        .filter_map(|at| told(*at, true, why_goes(c, due, *at)));
    let stays = (0..due.wood.len()).filter_map(|at| told(at, false, why_stays(c, seen, due, at)?));
    goes.chain(stays).collect()
}

fn args(c: &Seen<'_>, seen: &SeenTree<'_>, due: &Due, shoot: &Shoot, at: usize) -> Args {
    let upright = &due.wood[at].1;
    let by = if shoot.diameter > 0.0 {
        "size"
    } else {
        "length"
    };
    vec![
        ("part", seen.on_tree(shoot.id)),
        ("age", Arg::Count(age(c, shoot).into())),
        ("limit", Arg::Count(c.renewal.age_limit.into())),
        ("over", Arg::yes(upright.age > c.renewal.age_limit)),
        ("among", Arg::Text(among(due, at).into())),
        ("by", Arg::Text(by.into())),
        ("diameter", Arg::Thickness(shoot.diameter)),
        ("length", Arg::Length(shoot.length())),
        ("leaf", Arg::Count(c.limit(Limit::RenewalLeaf) as i64)),
    ]
}

/// Why of those that are as old this one goes: the thickest, or what crowds, or what has no hole beside it.
fn among(due: &Due, at: usize) -> &'static str {
    let own = &due.wood[at].1;
    let stays = (0..due.wood.len()).filter(|i| !due.winter.cut.contains(i));
    let as_old = stays.map(|i| (i, &due.wood[i].1));
    let as_old = as_old.filter(|(_, u)| !u.stubbed && !u.spared && u.age == own.age);
    let as_old: Vec<(usize, &Upright)> = as_old.collect();
    let mut larger = as_old.iter().filter(|(_, u)| u.size > own.size);
    if as_old.is_empty() {
        "none"
    } else if own.crowds && as_old.iter().any(|(_, u)| !u.crowds) {
        "crowds"
    } else if larger.clone().next().is_none() {
        "thick"
    } else if !due.is_beside(at) && larger.all(|(i, _)| due.is_beside(*i)) {
        "free"
    } else {
        "none"
    }
}

/// Whether an upright grew from a stub of the last `limit` winters, as far as is known or its age tells.
fn grew_in_turn(upright: &Upright, limit: u8) -> bool {
    upright.cut.is_some_and(|winters| winters < limit)
}

fn why_goes(c: &Seen<'_>, due: &Due, at: usize) -> &'static str {
    let (limit, own) = (c.renewal.age_limit, &due.wood[at].1);
    if own.age >= limit {
        return "renewal-goes-old";
    }
    if own.crowds {
        return "renewal-goes-crowds";
    }
    if grew_in_turn(own, limit) {
        // There was none left whose turn it is.
        return match due.winter.count > due.winter.carried {
            true => "renewal-goes-again",
            false => "renewal-goes-share",
        };
    }
    let others = (0..due.wood.len()).filter(|i| !due.winter.cut.contains(i));
    let larger = others.filter(|i| {
        let u = &due.wood[*i].1;
        !(u.stubbed || u.spared) && u.size > own.size
    });
    // What is thicker and was renewed within this turn waits for the next.
    let waits = |i: &usize| grew_in_turn(&due.wood[*i].1, limit);
    let (turned, larger): (Vec<usize>, Vec<usize>) = larger.partition(waits);
    if larger.is_empty() && turned.is_empty() {
        "renewal-goes-thick"
    } else if larger.is_empty() {
        "renewal-goes-turn"
    } else if !due.is_beside(at) && larger.iter().all(|i| due.is_beside(*i)) {
        "renewal-goes-free"
    } else if due.winter.count > due.winter.carried
        && larger.iter().all(|i| due.wood[*i].1.age < own.age)
    {
        "renewal-goes-in-time"
    } else {
        "renewal-goes-share"
    }
}

/// Why an upright stands that is older than one that is cut; nothing of others, and where no reason is known.
fn why_stays(c: &Seen<'_>, seen: &SeenTree<'_>, due: &Due, at: usize) -> Option<&'static str> {
    let (limit, (id, own)) = (c.renewal.age_limit, &due.wood[at]);
    let shoot = seen.tree.shoot(*id)?;
    let cut = || due.winter.cut.iter().map(|i| (*i, &due.wood[*i].1));
    let younger = || cut().filter(|(_, u)| u.age < own.age);
    if own.stubbed || shoot.kind() != Kind::Upright || cut().any(|(i, _)| i == at) {
        return None;
    }
    younger().next()?;
    let waits = |u: &Upright| u.age < limit && grew_in_turn(u, limit);
    if shoot.length() <= c.limit(Limit::StubLength) {
        Some("renewal-stays-short")
    } else if own.spared {
        Some("renewal-stays-early")
    } else if waits(own) && !younger().any(|(_, u)| waits(u)) {
        Some("renewal-stays-turn")
    } else if due.is_beside(at) {
        Some("renewal-stays-beside")
    } else if own.age >= limit {
        None
    } else if !own.crowds && younger().all(|(_, u)| u.crowds) {
        Some("renewal-stays-crowds")
    } else if younger().all(|(_, u)| u.crowds || u.size >= own.size) {
        Some("renewal-stays-thin")
    } else {
        None
    }
}
