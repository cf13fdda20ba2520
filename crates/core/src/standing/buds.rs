//! Bud swell: side and underside buds are rubbed out, and a top bud is kept wherever the wall has room for an upright.

use super::cordon::{Side, carries};
use super::{Job, Rule};
use crate::row::{Kind, Limit, Moment, Shoot};
use crate::units::Mm;
use crate::work::Work;

/// How near its tip wood brings no upright, mm.
const BARE_TIP: f64 = 20.0;

pub(super) fn work(job: &mut Job<'_>) {
    if !job.rules.begun(Rule::BudsFrom, job.leaf) {
        return;
    }
    let tree = job.tree.id;
    let wood = job.tree.shoots.iter().filter(|s| carries(&job.tree, s));
    // Of stock that forks the trunk, too.
    let forks = job.tree.standing_leaders().is_some();
    let trunk = job.tree.shoots.first().filter(|_| forks);
    let wood = wood.chain(trunk).filter(|s| !s.rubbed);
    let rub = wood.map(|s| Work::RubOut { tree, shoot: s.id });
    job.carry_out(rub.collect());
    // What is rubbed out is gone from the tree, and its other shoots have moved up.
    let (sides, holders) = (job.sides(), job.holders());
    let keep = sides.iter().flat_map(|side| keep_on(job, side, &holders));
    job.carry_out(keep.collect());
}

/// The buds to keep on one side: so many that its uprights stand at their usual distance.
fn keep_on(job: &Job<'_>, side: &Side, holders: &[(usize, usize)]) -> Vec<Work> {
    let held = job.held(side, holders);
    let mut room = side.places.saturating_sub(held.len());
    if room == 0 {
        return Vec::new();
    }
    let apart = side.apart();
    // Half a place before its beginning and half a one beyond its end the next ones stand, of whatever tree.
    let mut points = vec![-apart / 2.0];
    points.extend(held);
    points.push(side.reach + apart / 2.0);
    crate::arrange::arrange_numbers(&mut points);
    let most = job.targets.let_pass(Limit::UprightSpacingMax);
    let least = job.limit(Limit::UprightSpacingMin);
    let mut out = Vec::new();
    for two in points.windows(2) {
        let wide = two[1] - two[0];
        if wide <= most {
            continue;
        }
        let mut more = (libm::floor(wide / apart + 0.5) - 1.0).max(0.0);
        while more > 0.0 && wide / (more + 1.0) < least {
            more -= 1.0;
        }
        for i in 1..=more as usize {
            let far = two[0] + wide * i as f64 / (more + 1.0);
            let kept = keep_at(job, side, far).filter(|_| room > 0);
            room -= usize::from(kept.is_some());
            out.extend(kept);
        }
    }
    out
}

/// A bud kept so far along a side: on last season's wood above its blind base, by a notch on older wood. `None` where no wood
/// is yet, and where what was cut back this winter is to bring several shoots.
fn keep_at(job: &Job<'_>, side: &Side, far: f64) -> Option<Work> {
    let (leaf, blind) = (job.moment.leaf, job.limit(Limit::BlindBase));
    side.wood.iter().find_map(|(wood, course)| {
        let wood = &job.tree.shoots[*wood];
        let end = wood.length() - BARE_TIP;
        let at = side.at(course, far).filter(|at| *at < end)?;
        // Beside what is laid near the end there may be none.
        let at = Some(job.tree.clear_of_laid(wood.id, at)).filter(|at| *at < end)?;
        let (seasons, at) = match wood.bud_wood(at, leaf, blind) {
            Some(seasons) => (seasons, at),
            None => {
                let at = above_blind_base(wood, at, blind)?;
                (wood.bud_wood(at, leaf, blind).filter(|_| at < end)?, at)
            }
        };
        let (tree, shoot) = (job.tree.id, wood.id);
        let at_mm = Mm::round(at);
        match seasons {
            1 => Some(Work::KeepBud { tree, shoot, at_mm }),
            _ if is_cut_back(job) => None,
            _ => Some(Work::Notch { tree, shoot, at_mm }),
        }
    })
}

/// The lowest place above the blind base in which `at` lies.
fn above_blind_base(wood: &Shoot, at: f64, blind: f64) -> Option<f64> {
    let mut base = 0.0;
    for unit in &wood.units {
        if at <= base + unit.kept {
            return Some(libm::ceil(base + blind));
        }
        base += unit.kept;
    }
    None
}

/// Whether uprights of last season were cut back this winter: each brings several, which fill the wood that they stand on.
fn is_cut_back(job: &Job<'_>) -> bool {
    let winter = Moment::dormant(job.moment.leaf);
    job.leaf == 2
        && job.tree.shoots.iter().any(|s| {
            s.kind() == Kind::Upright
                && s.last_cut() == Some(winter)
                && s.units.len() == 1
                && s.units[0].kept < 0.5 * s.units[0].grown
        })
}
