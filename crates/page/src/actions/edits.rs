//! The edits that actions make, from the scene and what is chosen.

use crate::desk::Desk;
use crate::document::{Edit, Mode};
use crate::look::Scene;
use cordonry::check::Part;
use cordonry::plan::{Correction, Measure, Plan};
use cordonry::refusal::Refusal;
use cordonry::row::{ShootId, TreeId};
use cordonry::work::{Choice, Work, choices, nudged, raised, stubbed};

/// What came of asking for an edit: one, nothing to be done, or why not.
pub(super) type Outcome = Result<Option<Edit>, Refusal>;

/// How far a key bends, degrees: at once, and finely.
const BEND: (f64, f64) = (2.0, 0.2);
/// How far a key moves along wood, mm: at once, and finely.
const ALONG: (i32, i32) = (10, 1);

fn shoot(desk: &Desk) -> Option<(TreeId, ShootId)> {
    let part = desk.chosen()?;
    Some((part.tree, part.shoot?))
}

/// What the core offers on a part.
pub fn choices_on(scene: &Scene, part: Part) -> Vec<Choice> {
    choices(
        &scene.row,
        scene.moment,
        &scene.terms,
        &scene.plan.targets,
        part.tree,
        part.shoot,
    )
}

/// The numbers in the record of a part.
pub fn measures_of(plan: &Plan, part: Part) -> Vec<Measure> {
    plan.measures(part.tree, part.shoot)
}

pub(super) fn shoot_chosen(desk: &Desk) -> bool {
    shoot(desk).is_some()
}

pub(super) fn tree_chosen(desk: &Desk) -> bool {
    desk.chosen().is_some_and(|part| part.shoot.is_none())
}

/// Whether the tree that is chosen is marked as diseased; nothing where it was not found.
fn diseased(desk: &Desk) -> Option<bool> {
    let part = desk.chosen().filter(|_| tree_chosen(desk))?;
    let tree = desk.plan().found.tree(part.tree)?;
    (!tree.is_lost()).then_some(tree.diseased)
}

pub(super) fn sound_chosen(desk: &Desk) -> bool {
    diseased(desk) == Some(false)
}

pub(super) fn diseased_chosen(desk: &Desk) -> bool {
    diseased(desk) == Some(true)
}

pub(super) fn mark_tree(desk: &Desk, _: bool) -> Outcome {
    let diseased = sound_chosen(desk);
    of_tree(desk, |tree| Correction::Diseased { tree, diseased })
}

pub(super) fn lost_chosen(desk: &Desk) -> bool {
    tree_chosen(desk) && is_lost(desk)
}

pub(super) fn standing_chosen(desk: &Desk) -> bool {
    tree_chosen(desk) && !is_lost(desk)
}

fn is_lost(desk: &Desk) -> bool {
    let tree = desk.chosen().and_then(|c| desk.scene().row.tree(c.tree));
    tree.is_some_and(|t| t.is_lost())
}

pub(super) fn work_chosen(desk: &Desk) -> bool {
    let part = desk.chosen();
    part.is_some_and(|part| !desk.scene().works_on(part).is_empty())
}

pub(super) fn always(_: &Desk) -> bool {
    true
}

pub(super) fn has_others(desk: &Desk) -> bool {
    desk.plan().schemes.len() > 1
}

pub(super) fn has_room(desk: &Desk) -> bool {
    desk.plan().schemes.len() < Plan::MAX_SCHEMES
}

/// Whether the leaf has planned work, and there is one after it.
pub(super) fn has_work_to_copy(desk: &Desk) -> bool {
    let leaf = desk.look().moment.leaf;
    let planned = |s: &cordonry::plan::Scheme| s.schedule.all().any(|(m, _)| m.leaf == leaf);
    leaf < Plan::MAX_LEAF && desk.scheme().is_some_and(planned)
}

pub(super) fn raise(desk: &Desk, fine: bool) -> Outcome {
    bend(desk, if fine { BEND.1 } else { BEND.0 })
}

pub(super) fn lower(desk: &Desk, fine: bool) -> Outcome {
    bend(desk, if fine { -BEND.1 } else { -BEND.0 })
}

fn bend(desk: &Desk, by: f64) -> Outcome {
    let Some((tree, shoot)) = shoot(desk) else {
        return Ok(None);
    };
    Ok(match desk.mode() {
        Mode::Work => raised(&desk.scene().row, tree, shoot, by)
            .map(|work| Edit::work("step-bend", vec![work])),
        Mode::Found => {
            let tree = desk.plan().found.tree(tree);
            tree.and_then(|t| t.raised_in_record(shoot, by))
                .map(Edit::record)
        }
    })
}

pub(super) fn forward(desk: &Desk, fine: bool) -> Outcome {
    along(desk, if fine { ALONG.1 } else { ALONG.0 })
}

pub(super) fn back(desk: &Desk, fine: bool) -> Outcome {
    along(desk, if fine { -ALONG.1 } else { -ALONG.0 })
}

fn along(desk: &Desk, by: i32) -> Outcome {
    let Some((tree, shoot)) = shoot(desk) else {
        return Ok(None);
    };
    Ok(match desk.mode() {
        Mode::Work => nudged(&desk.scene().row, tree, shoot, by)
            .map(|work| Edit::work("step-move-bud", vec![work])),
        Mode::Found => {
            let tree = desk.plan().found.tree(tree);
            tree.and_then(|t| t.moved_in_record(shoot, by.into()))
                .map(Edit::record)
        }
    })
}

pub(super) fn remove(desk: &Desk, _: bool) -> Outcome {
    Ok(shoot(desk)
        .map(|(tree, shoot)| Edit::work("step-remove", vec![Work::Remove { tree, shoot }])))
}

pub(super) fn stub(desk: &Desk, _: bool) -> Outcome {
    let scene = desk.scene();
    let work =
        shoot(desk).and_then(|(tree, shoot)| stubbed(&scene.row, &scene.plan.targets, tree, shoot));
    Ok(work.map(|work| Edit::work("step-stub", vec![work])))
}

pub(super) fn keep_bud(desk: &Desk, _: bool) -> Outcome {
    let Some((tree, shoot)) = shoot(desk) else {
        return Ok(None);
    };
    match desk.scene().widest_space(tree, shoot) {
        Some(x) => desk.scene().keep_bud(tree, shoot, x).map(Some),
        None => Err(Refusal::new("refusal-bud-off-wood", vec![])),
    }
}

pub(super) fn record_upright(desk: &Desk, _: bool) -> Outcome {
    let space =
        shoot(desk).and_then(|(tree, on)| Some((tree, on, desk.scene().widest_space(tree, on)?)));
    match space {
        Some((tree, on, x)) => desk.scene().record_upright(tree, on, x).map(Some),
        None => Ok(None),
    }
}

pub(super) fn drop_shoot(desk: &Desk, _: bool) -> Outcome {
    Ok(shoot(desk).map(|(tree, shoot)| Edit::record(Correction::DropShoot { tree, shoot })))
}

fn of_tree(desk: &Desk, correction: impl FnOnce(TreeId) -> Correction) -> Outcome {
    Ok(desk
        .chosen()
        .map(|part| Edit::record(correction(part.tree))))
}

pub(super) fn drop_tree(desk: &Desk, _: bool) -> Outcome {
    of_tree(desk, |tree| Correction::DropTree { tree })
}

pub(super) fn lose_tree(desk: &Desk, _: bool) -> Outcome {
    of_tree(desk, |tree| Correction::Lost { tree })
}

pub(super) fn stand_tree(desk: &Desk, _: bool) -> Outcome {
    of_tree(desk, |tree| desk.plan().standing_like_others(tree))
}

pub(super) fn take_back(desk: &Desk, _: bool) -> Outcome {
    let works = desk.chosen().map(|part| desk.scene().works_on(part));
    Ok(works.filter(|w| !w.is_empty()).map(Edit::take_back))
}
