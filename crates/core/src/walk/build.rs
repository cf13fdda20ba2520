//! From trees in draft to the row.

use super::WalkSetup;
use super::state::{Draft, Leader, State};
use crate::arrange::Arrange;
use crate::make::field::trellis;
use crate::make::wood::{bare_tree, course, fork_length, length_to, shoot};
use crate::plan::Plan;
use crate::pose::Geometry;
use crate::refusal::Refusal;
use crate::row::{GrowthUnit, Planted, Pose, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId};
use crate::said::{Arg, Said, Wording};
use crate::units::{Deg, Mm};
use crate::usual;
use std::sync::Arc;

/// The least that a shoot is taken to measure, mm.
const LEAST_LENGTH: f64 = 50.0;

pub(super) fn plan(setup: &WalkSetup, state: &State, words: &dyn Wording) -> Result<Plan, Refusal> {
    if !state.stands() {
        return Err(Refusal::new("refusal-walk-none", vec![]));
    }
    let g = Geometry::at(setup.wires[0].f(), &Targets::default());
    let trees = every_tree(setup, state)
        .map(|(draft, from)| {
            let mut tree = tree(setup, &draft, g);
            tree.note = note(setup, &draft, from, words);
            tree.like = from.map(TreeId);
            Arc::new(tree)
        })
        .collect();
    let mut row = Row {
        leaf: setup.leaf,
        from: Mm(0),
        to: Mm(0),
        trellis: trellis(&setup.wires, setup.wall_height, Mm(0), Mm(0)),
        trees,
    };
    row.sort();
    (row.from, row.to) = row.default_stretch();
    row.trellis = trellis(&setup.wires, setup.wall_height, row.from, row.to);
    let of = row.trees.len();
    let mut plan = Plan::new(words.say(&Said::plain("walk-name")), row).begun();
    let heights = ("heights", Arg::yes(setup.heights));
    let note = match setup.sample {
        None => Said::new("walk-note", vec![("trees", Arg::Count(of as i64)), heights]),
        Some(_) => {
            let numbers: Vec<String> = state.drafts.iter().map(|d| d.number.to_string()).collect();
            Said::new(
                "walk-note-sample",
                vec![
                    ("count", Arg::Count(numbers.len() as i64)),
                    ("trees", Arg::Count(of as i64)),
                    ("numbers", Arg::Text(numbers.join(", "))),
                    heights,
                ],
            )
        }
    };
    plan.note = words.say(&note);
    Ok(plan)
}

/// Every tree of the row: those walked to, and of a sample the others, each like the nearest that stands; with the
/// number of that one.
fn every_tree<'s>(
    setup: &WalkSetup,
    state: &'s State,
) -> Box<dyn Iterator<Item = (Draft, Option<u32>)> + 's> {
    let walked = &state.drafts;
    if setup.sample.is_none() {
        return Box::new(walked.iter().map(|d| (d.clone(), None)));
    }
    let numbers = 1..=walked.last().map_or(0, |d| d.number);
    Box::new(numbers.filter_map(move |n| {
        let next = walked.partition_point(|d| d.number < n);
        let after = walked.get(next)?;
        if after.number == n {
            return Some((after.clone(), None));
        }
        let before = walked.get(next.checked_sub(1)?)?;
        let share = f64::from(n - before.number) / f64::from(after.number - before.number);
        let foot = before.foot.f() + share * (after.foot - before.foot).f();
        let like = walked
            .iter()
            .filter(|d| d.stands())
            .min_by_key(|d| (d.number.abs_diff(n), d.number))?;
        Some((like.at(n, Mm::round(foot)), Some(like.number)))
    }))
}

fn note(setup: &WalkSetup, draft: &Draft, filled: Option<u32>, words: &dyn Wording) -> String {
    let with = |key, tree: u32| {
        let tree = Arg::Count(tree.into());
        words.say(&Said::new(key, vec![("tree", tree)]))
    };
    match (filled, draft.same, setup.sample) {
        (Some(tree), ..) => with("walk-filled", tree),
        (None, Some(tree), _) => with("walk-same", tree),
        (None, None, Some(_)) => words.say(&Said::plain("walk-sampled")),
        (None, None, None) => String::new(),
    }
}

fn tree(setup: &WalkSetup, draft: &Draft, g: Geometry) -> Tree {
    let forked = draft.leaders.len() > 1;
    let planted = Planted {
        angle: match forked {
            true => Deg::new(90.0),
            false => setup.angle,
        },
        toward: draft.leaders.last().map_or(Toward::Right, |l| l.toward),
    };
    let mut tree = bare_tree(TreeId(draft.number), draft.foot, planted);
    if forked {
        let length = fork_length(planted, g.wire);
        let thickest = draft.leaders.iter().filter_map(|l| l.thick).max();
        let thick = thickest.map_or(usual::diameter(g.wire + 2.0 * length), tenths);
        let stem = shoot(0, None, Pose::Free, whole(length), thick);
        tree.shoots.push(stem);
    }
    let mut leaders: Vec<(&Leader, Shoot)> = Vec::new();
    for draft_leader in &draft.leaders {
        let id = u32::from(forked) + leaders.len() as u32;
        let leader = leader(&tree, draft_leader, id, g);
        leaders.push((draft_leader, leader.clone()));
        tree.shoots.push(leader);
    }
    let mut id = tree.shoots.len() as u32;
    let median = median(draft);
    for upright in &draft.uprights {
        let foot = draft.foot;
        let over = leaders.iter().find(|(l, _)| match l.toward {
            Toward::Left => upright.x < foot,
            Toward::Right => upright.x >= foot,
        });
        let Some((_, leader)) = over.or(leaders.first()) else {
            continue;
        };
        let course = course(&tree, leader, leader.length(), g);
        let at = course.at_x(upright.x.f()).unwrap_or(0.0);
        let at = libm::round(at).min(libm::floor(leader.length()));
        let room = (setup.wall_height.f() - course.point(at).y).max(LEAST_LENGTH);
        let tall = upright.height.map(|h| h.f() - course.point(at).y);
        let units = match (tall, upright.thick.or(median)) {
            (Some(tall), _) => usual::seasons_of(tall.max(LEAST_LENGTH), 1, setup.leaf),
            (None, Some(dmm)) => {
                let length = usual::length(tenths(dmm)).min(room);
                usual::seasons_of(length.max(LEAST_LENGTH), 1, setup.leaf)
            }
            (None, None) => {
                let usual = usual::seasons(1, setup.leaf.max(2), 1.0, room);
                let length = usual.iter().map(|u| u.kept).sum();
                usual::seasons_of(length, 1, setup.leaf)
            }
        };
        let grown = units.iter().map(|u| u.grown).sum();
        let thick = upright
            .thick
            .or(median)
            .map_or(usual::diameter(grown), tenths);
        let pose = Pose::Upright {
            lean: Deg::default(),
        };
        let mut up = shoot(id, Some(leader.id), pose, units, thick);
        up.at = at;
        up.laterals.count = upright.laterals.unwrap_or(0);
        tree.shoots.push(up);
        id += 1;
    }
    tree
}

fn leader(tree: &Tree, draft: &Leader, id: u32, g: Geometry) -> Shoot {
    let reach = (draft.end - tree.foot).f().abs();
    let thick = draft.thick.map_or(usual::diameter(reach + g.wire), tenths);
    let parent: Option<ShootId> = tree.shoots.first().map(|s| s.id);
    let pose = Pose::Laid {
        toward: draft.toward,
        rise: Deg::default(),
    };
    let mut leader = shoot(id, parent, pose, Vec::new(), thick);
    leader.at = tree.shoots.first().map_or(0.0, Shoot::length);
    leader.units = whole(length_to(tree, &leader, draft.end.f(), g));
    leader
}

/// The usual thickness of the tree's uprights, where one was measured: what the others are taken to have.
fn median(draft: &Draft) -> Option<u16> {
    let mut all: Vec<u16> = draft.uprights.iter().filter_map(|u| u.thick).collect();
    all.arrange();
    all.get(all.len() / 2).copied()
}

fn whole(length: f64) -> Vec<GrowthUnit> {
    vec![GrowthUnit::whole(0, length)]
}

fn tenths(dmm: u16) -> f64 {
    f64::from(dmm) / 10.0
}
