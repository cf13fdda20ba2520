//! The dormant season: ends, side shoots, cutting back, stubs, laterals, tips and the wall's height.

use super::{Job, Rule, renew};
use crate::pose::layout;
use crate::row::{Face, Kind, Origin, Pose, Shoot};
use crate::units::Mm;
use crate::work::{Work, work_on};

/// How far beyond the next tree an end may reach, mm: closer nobody measures.
const END_OFF: f64 = 20.0;
/// How much under the wall's height an upright still has it, mm.
const NEARLY: f64 = 50.0;
/// How much of last year's growth is left of what is not tipped yet.
const WHOLE: f64 = 0.95;
/// So few of the uprights that a wall needs, as a share, are cut back to bring more.
const FEW: f64 = 0.6;

pub(super) fn work(job: &mut Job<'_>) {
    let mut cuts = ends(job);
    cuts.extend(side_shoots(job));
    // What comes off with these is no upright to cut.
    let before = job.tree.clone();
    for cut in &cuts {
        // Some go with others.
        let _ = work_on(job.tree.to_mut(), job.moment, job.terms, cut);
    }
    cuts.extend(cut_back(job));
    cuts.extend(renew::stubs(job));
    job.tree = before;
    job.carry_out(cuts);
    let laterals = laterals(job);
    job.carry_out(laterals);
    let tips = tips(job);
    job.carry_out(tips);
}

/// Ends that reach beyond the next tree. What carries uprights there that somebody kept stays.
fn ends(job: &Job<'_>) -> Vec<Work> {
    let mut out = Vec::new();
    if job.leaf < 2 || !job.rules.does(Rule::CutEnds) {
        return out;
    }
    for side in job.sides() {
        for (wood, course) in &side.wood {
            let wood = &job.tree.shoots[*wood];
            if side.end(course) <= side.reach + END_OFF {
                continue;
            }
            let Some(end) = side.at(course, side.reach) else {
                continue;
            };
            let wanted = |s: &&Shoot| {
                let kept = s.pose.is_laid()
                    || s.holds_upright_place() && s.origin != Some(Origin::WildBud);
                s.parent == Some(wood.id) && kept
            };
            let carrying = job
                .tree
                .shoots
                .iter()
                .filter(wanted)
                .map(|s| s.at + END_OFF);
            let keep = libm::ceil(carrying.fold(end, f64::max));
            if keep < wood.length() {
                out.push(Work::CutBack {
                    tree: job.tree.id,
                    shoot: wood.id,
                    keep_mm: Mm::round(keep),
                });
            }
        }
    }
    out
}

/// Side and underside shoots of the stem and of laid wood.
fn side_shoots(job: &Job<'_>) -> Vec<Work> {
    if job.leaf < 2 || !job.rules.begun(Rule::BudsFrom, job.leaf) {
        return Vec::new();
    }
    let tree = &job.tree;
    let comes_off = |s: &&Shoot| {
        let on = s.parent.and_then(|p| tree.shoot(p));
        let trained = on.is_some_and(|on| on.parent.is_none() || on.pose.is_laid());
        trained && s.face != Face::Top && !s.pose.is_laid() && s.pose != Pose::Stub
    };
    let off = tree.shoots.iter().filter(comes_off);
    off.map(|s| Work::Remove {
        tree: tree.id,
        shoot: s.id,
    })
    .collect()
}

/// Whether a tree has few of the uprights that its wall needs.
pub(super) fn few(uprights: usize, wanted: f64) -> bool {
    uprights as f64 <= FEW * wanted
}

/// Before the second leaf, where few uprights have come: each is cut back to buds, the stronger to more of them, so that even
/// ones take their place.
fn cut_back(job: &Job<'_>) -> Vec<Work> {
    if job.leaf != 2 || !job.rules.does(Rule::CutBack) {
        return Vec::new();
    }
    let last = job.moment.leaf - 1;
    let young = |s: &&Shoot| s.kind() == Kind::Upright && s.born() == Some(last);
    let uprights: Vec<&Shoot> = job.tree.shoots.iter().filter(young).collect();
    let mut wanted = 0.0_f64;
    for side in job.sides() {
        let older = |s: &Shoot| -> f64 {
            let units = s.units.iter().filter(|u| u.leaf < last);
            units.map(|u| u.kept).sum()
        };
        let has_room = |place: &usize| {
            let far = (*place as f64 + 0.5) * side.apart();
            side.wood.iter().any(|(wood, course)| {
                let old = older(&job.tree.shoots[*wood]) - END_OFF;
                side.at(course, far).is_some_and(|at| at < old)
            })
        };
        wanted += (0..side.places).filter(has_room).count() as f64;
    }
    let wanted = wanted.max(1.0);
    if !few(uprights.len(), wanted) {
        return Vec::new();
    }
    let total: f64 = uprights.iter().map(|s| s.length()).sum();
    let back = uprights.iter().map(|s| {
        let buds = libm::floor(wanted * s.length() / total + 0.5);
        Work::CutToBuds {
            tree: job.tree.id,
            shoot: s.id,
            buds: buds.clamp(2.0, 4.0) as i32,
        }
    });
    back.collect()
}

fn laterals(job: &Job<'_>) -> Vec<Work> {
    if !job.rules.begun(Rule::LateralsFrom, job.leaf) {
        return Vec::new();
    }
    let has = |s: &&Shoot| {
        let some = s.laterals.count > 0 || s.laterals.total > 0.0;
        s.kind() == Kind::Upright && some
    };
    let with = job.tree.shoots.iter().filter(has);
    with.map(|s| Work::TakeLaterals {
        tree: job.tree.id,
        shoot: s.id,
    })
    .collect()
}

/// Whether the uprights whose tips stand so high have the wall's height: half of them, or nearly.
pub fn have_height(tips: impl Iterator<Item = f64>, wall: f64) -> bool {
    let (mut tall, mut all) = (0, 0);
    for tip in tips {
        all += 1;
        tall += usize::from(tip > wall - NEARLY);
    }
    tall > 0 && 2 * tall >= all
}

/// Tips, or the height at which uprights are held.
fn tips(job: &Job<'_>) -> Vec<Work> {
    // Leaders that still stand are to be laid in their whole length.
    if job.tree.standing_leaders().is_some() {
        return Vec::new();
    }
    let (tree, wall) = (job.tree.id, job.terms.stand.wall_height);
    let courses = layout(&job.tree, job.terms.geometry);
    let pairs = job.tree.shoots.iter().zip(&courses);
    let uprights = || pairs.clone().filter(|(s, _)| s.kind() == Kind::Upright);
    let share = job.rules.get(Rule::TipShare);
    let has_height = have_height(uprights().map(|(_, c)| c.tip().y), wall);
    let is_done = has_height || job.rules.begun(Rule::RenewFrom, job.leaf);
    let tipping = job.targets.is_tipped_before(job.leaf, is_done);
    let mut out = Vec::new();
    for (s, course) in uprights() {
        let Some(last) = s.units.last() else { continue };
        let is_last_years = last.leaf + 1 == job.moment.leaf;
        let off = match tipping && is_last_years {
            true => share * last.grown,
            false => 0.0,
        };
        let tip = course.point(course.length - off).y;
        if job.rules.does(Rule::Hold) && tip > wall + 1.0 {
            // What begins up there can't be held: it goes with what it grows from, or stays.
            out.extend((course.base.y <= wall).then(|| Work::HoldHeight {
                tree,
                shoot: s.id,
                height_mm: Mm::round(wall),
            }));
        } else if off > 0.0 && last.kept > WHOLE * last.grown {
            out.push(Work::Tip {
                tree,
                shoot: s.id,
                percent: libm::round(share * 100.0).max(1.0) as i32,
            });
        }
    }
    out
}
