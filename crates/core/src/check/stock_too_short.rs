//! Stock that can't reach the next tree's wood, even with what its end may grow until the cordon is due filled.

use super::seen::{Seen, SeenTree, under};
use super::{Finding, Severity};
use crate::pose::{Course, bend_saving, layout};
use crate::row::{Limit, Pose, ShootId, Toward, Tree};
use crate::said::Arg;
use crate::stock::Places;
use crate::units::Deg;

pub(super) const RULE: &str = "stock-too-short";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let seasons = c.limit(Limit::FillDueLeaf) + 1.0 - f64::from(c.row.leaf);
    if seasons < 1.0 {
        // What is bare by now is a finding of its own.
        return Vec::new();
    }
    let growth = seasons * c.limit(Limit::EndGrowth);
    let mut out = Vec::new();
    for i in c.near.trees.clone() {
        let seen = &c.trees[i];
        for leader in leaders(c, seen) {
            let needed = needed(c, i, &leader);
            let length = run(seen.tree, leader.index);
            if !under(length + growth, needed - c.limit(Limit::LengthTolerance)) {
                continue;
            }
            let base = seen.finding(c, RULE, Severity::Soon, Limit::EndGrowth, length + growth);
            out.push(Finding {
                subjects: vec![seen.part(leader.id)],
                allowed: needed,
                args: vec![
                    ("part", seen.name(leader.id)),
                    ("length", Arg::Length(length)),
                    ("growth", Arg::Length(growth)),
                    ("needed", Arg::Length(needed)),
                    ("short", Arg::Length(needed - length - growth)),
                    ("due", Arg::Count(c.limit(Limit::FillDueLeaf) as i64)),
                ],
                ..base
            });
        }
    }
    out
}

struct Leader {
    index: usize,
    id: ShootId,
    toward: Toward,
    /// Its course once it is laid.
    course: Course,
}

/// The leaders of a tree: its stem, laid or yet to be laid; of a tree that forks, each fork that is laid.
fn leaders(c: &Seen<'_>, seen: &SeenTree<'_>) -> Vec<Leader> {
    let tree = seen.tree;
    let Some(stem) = tree.shoots.first() else {
        return Vec::new();
    };
    if let Pose::Laid { toward, .. } = stem.pose {
        return vec![Leader {
            index: 0,
            id: stem.id,
            toward,
            course: seen.courses[0],
        }];
    }
    let forks: Vec<Leader> = tree
        .shoots
        .iter()
        .enumerate()
        .filter(|(_, s)| s.parent == Some(stem.id))
        .filter_map(|(index, s)| match s.pose {
            Pose::Laid { toward, .. } => Some(Leader {
                index,
                id: s.id,
                toward,
                course: seen.courses[index],
            }),
            _ => None,
        })
        .collect();
    if !forks.is_empty() || tree.shoots.len() > 1 {
        return forks;
    }
    let toward = tree.planted.toward;
    let mut alone = tree.clone();
    alone.shoots[0].pose = Pose::Laid {
        toward,
        rise: Deg::new(0.0),
    };
    vec![Leader {
        index: 0,
        id: stem.id,
        toward,
        course: layout(&alone, c.g)[0],
    }]
}

/// Asks the row's places something.
fn ask<T>(c: &Seen<'_>, asked: impl FnOnce(&Places<'_>) -> T) -> T {
    asked(&Places {
        count: c.trees.len(),
        tree: &|i| c.trees[i].tree,
        goes: &|i, toward| c.trees[i].goes(toward),
        ends: (c.row.from.f(), c.row.to.f()),
        wire: c.g.wire,
        bearing: c.limit(Limit::BearingHeight),
    })
}

/// Length of new stock for a lost tree's place, planted as that was, mm. The saving of its bend is left out.
pub(super) fn stock_for(c: &Seen<'_>, i: usize) -> f64 {
    ask(c, |places| places.stock_for(i))
}

fn needed(c: &Seen<'_>, i: usize, leader: &Leader) -> f64 {
    let tree = c.trees[i].tree;
    let course = &leader.course;
    let goal = ask(c, |places| places.goal(i, leader.toward));
    let saving = bend_saving(course.radius, course.turn.abs());
    let whole = if leader.index == 0 {
        ask(c, |places| places.whole_length(tree, goal, leader.toward))
    } else {
        (c.g.wire - course.base.y).max(0.0) + (goal - course.base.x) * leader.toward.sign()
    };
    whole - saving
}

/// Length of a leader with what is laid on from its end.
fn run(tree: &Tree, index: usize) -> f64 {
    let Pose::Laid { toward, .. } = tree.shoots[index].pose else {
        return tree.shoots[index].length();
    };
    let mut runs: Vec<f64> = tree.shoots.iter().map(|s| s.length()).collect();
    // Children stand behind their parents: walked from the back, each is done before its parent asks for it.
    for i in (index + 1..tree.shoots.len()).rev() {
        let shoot = &tree.shoots[i];
        let same = matches!(shoot.pose, Pose::Laid { toward: t, .. } if t == toward);
        if let Some(parent) = shoot.parent.and_then(|p| tree.index(p))
            && same
        {
            runs[parent] = runs[parent].max(shoot.at + runs[i]);
        }
    }
    runs[index]
}
