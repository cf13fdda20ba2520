//! A tree as a table holds it: whole millimetres, tenths of a millimetre of thickness, and its shoots in one order.
//!
//! The order is by level, then along the parent, so that it does not tell how the tree came about; what a table can't
//! tell apart, such as two growths of one season, is one. Written and read, such a tree is the same.

use super::record::LONGEST_CELL;
use crate::arrange::Arrange;
use crate::row::{Face, GrowthUnit, Shoot, ShootId, Tree};
use std::collections::{BTreeMap, VecDeque};

/// The shoots by level, then along the parent, then by `rank`, numbered anew from the stem on.
pub(super) fn ordered(shoots: &[Shoot], rank: impl Fn(usize) -> usize) -> Vec<Shoot> {
    let mut children: BTreeMap<ShootId, Vec<usize>> = BTreeMap::new();
    for (n, shoot) in shoots.iter().enumerate() {
        if let Some(parent) = shoot.parent {
            children.entry(parent).or_default().push(n);
        }
    }
    for list in children.values_mut() {
        list.arrange_by(|a, b| {
            let at = |n: &usize| shoots[*n].at;
            at(a).total_cmp(&at(b)).then(rank(*a).cmp(&rank(*b)))
        });
    }
    let mut out: Vec<Shoot> = Vec::with_capacity(shoots.len());
    let mut queue: VecDeque<(usize, Option<ShootId>)> = VecDeque::new();
    queue.extend((!shoots.is_empty()).then_some((0, None)));
    while let Some((n, parent)) = queue.pop_front() {
        let id = ShootId::found(out.len() as u32);
        let below = children.get(&shoots[n].id).into_iter().flatten();
        queue.extend(below.map(|c| (*c, Some(id))));
        out.push(Shoot {
            id,
            parent,
            ..shoots[n].clone()
        });
    }
    out
}

/// The tree as it is read back from what is written of it.
pub(super) fn as_written(tree: &Tree) -> Tree {
    let mut lengths: BTreeMap<ShootId, f64> = BTreeMap::new();
    let mut shoots = Vec::with_capacity(tree.shoots.len());
    for shoot in &tree.shoots {
        let mut out = Shoot {
            units: whole(&shoot.units),
            diameter: tenth(shoot.diameter),
            bend_radius: shoot.bend_radius.filter(|_| shoot.bends()).map(tenth),
            note: one_cell(&shoot.note),
            ..shoot.clone()
        };
        out.laterals.total = match out.laterals.count {
            0 => 0.0,
            _ => libm::round(out.laterals.total),
        };
        match shoot.parent {
            Some(parent) => {
                let longest = lengths.get(&parent).copied().unwrap_or(0.0);
                out.at = libm::round(shoot.at).min(longest) + 0.0;
            }
            None => (out.at, out.face) = (0.0, Face::Top),
        }
        lengths.insert(out.id, out.length());
        shoots.push(out);
    }
    Tree {
        shoots: ordered(&shoots, |n| n),
        note: one_cell(&tree.note),
        ..tree.clone()
    }
}

/// The nearest tenth of a millimetre.
fn tenth(mm: f64) -> f64 {
    libm::round(mm * 10.0) / 10.0
}

/// Growth in whole millimetres, one part a season. What has grown does not vanish in rounding.
fn whole(units: &[GrowthUnit]) -> Vec<GrowthUnit> {
    let mut out: Vec<GrowthUnit> = Vec::with_capacity(units.len());
    for unit in units {
        match out.last_mut() {
            Some(last) if last.leaf == unit.leaf => {
                last.grown += unit.grown;
                last.kept += unit.kept;
                last.cut = last.cut.max(unit.cut);
            }
            _ => out.push(*unit),
        }
    }
    for unit in &mut out {
        unit.kept = libm::round(unit.kept).max(1.0);
        unit.grown = libm::round(unit.grown).max(unit.kept);
    }
    out
}

/// A note without the spaces around it that a reader takes off, and in lines no more than a cell may have.
fn one_cell(note: &str) -> String {
    let note = note.trim();
    match note.lines().count() > LONGEST_CELL {
        true => note.lines().collect::<Vec<_>>().join(" "),
        false => note.to_string(),
    }
}
