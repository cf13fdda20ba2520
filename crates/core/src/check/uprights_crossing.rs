//! An upright that leans across its neighbours.

use super::seen::{Seen, SeenTree, over};
use super::upright_outside::{straighten, tied_straight};
use super::{Finding, Remedy, Severity};
use crate::arrange::Arrange;
use crate::pose::Course;
use crate::row::{Limit, Shoot};
use crate::said::Arg;
use crate::work::Work;
use kurbo::{Line, Point};

pub(super) const RULE: &str = "uprights-crossing";

/// An upright is compared with at most so many of those that begin to its right: more than that stand in no wall.
const MOST_NEAR: usize = 64;

struct Standing<'c> {
    seen: &'c SeenTree<'c>,
    shoot: &'c Shoot,
    line: Line,
    from: f64,
    to: f64,
}

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::CrossingsMax);
    // Ends that are as near to the other as places may be off do not reach across it.
    let off = c.limit(Limit::PlaceTolerance).max(1e-3);
    let mut all: Vec<Standing<'_>> = c
        .near_trees()
        .flat_map(|seen| {
            seen.uprights()
                .map(move |(s, course)| standing(seen, s, course))
        })
        .collect();
    all.arrange_by(|a, b| a.from.total_cmp(&b.from));
    // Whom each one leans across: the one that leans more is the one at fault.
    let mut crossed: Vec<(usize, usize)> = Vec::new();
    for i in 0..all.len() {
        let near = all[i + 1..]
            .iter()
            .take_while(|b| b.from <= all[i].to)
            .take(MOST_NEAR);
        for (k, b) in near.enumerate() {
            if meet(all[i].line, b.line, off) {
                let j = i + 1 + k;
                let width = |n: usize| all[n].to - all[n].from;
                crossed.push(if width(j) > width(i) { (j, i) } else { (i, j) });
            }
        }
    }
    crossed.arrange();
    crossed
        .chunk_by(|a, b| a.0 == b.0)
        .filter(|group| over(group.len() as f64, most))
        .map(|group| {
            let at = &all[group[0].0];
            let part = |n: usize| all[n].seen.part(all[n].shoot.id);
            let straight = Line::new(
                at.line.p0,
                Point::new(at.line.p0.x, at.line.p0.y + at.shoot.length()),
            );
            let clears = group
                .iter()
                .all(|(_, n)| !meet(straight, all[*n].line, off));
            let first = &all[group[0].1];
            Finding {
                rule: RULE,
                severity: Severity::Soon,
                x: at.from,
                z: at.line.p0.y,
                width: at.to - at.from,
                subjects: std::iter::once(part(group[0].0))
                    .chain(group.iter().map(|(_, n)| part(*n)))
                    .collect(),
                measured: group.len() as f64,
                allowed: most,
                limit: Limit::CrossingsMax,
                args: vec![
                    ("part", at.seen.name(at.shoot.id)),
                    ("count", Arg::Count(group.len() as i64)),
                    ("other", first.seen.name(first.shoot.id)),
                ],
                // Where it leans alone, it is tied straight; where the others lean too, all are.
                remedies: if clears {
                    vec![straighten(
                        at.seen.tree.id,
                        at.shoot.id,
                        at.seen.name(at.shoot.id),
                    )]
                } else {
                    let ids = group.iter().map(|(_, n)| *n);
                    let involved = std::iter::once(group[0].0).chain(ids);
                    let involved: Vec<&Standing<'_>> = involved.map(|n| &all[n]).collect();
                    straighten_all(&involved, off).into_iter().collect()
                },
            }
        })
        .collect()
}

/// All of them that lean tied straight up; `None` where that does not part them, by more than `off` mm.
fn straighten_all(all: &[&Standing<'_>], off: f64) -> Option<Remedy> {
    let apart = |a: &Standing<'_>, b: &Standing<'_>| (a.line.p0.x - b.line.p0.x).abs() > off;
    let parts = (1..all.len()).all(|i| all[..i].iter().all(|a| apart(a, all[i])));
    let leans = all.iter().filter(|s| s.to - s.from > 1e-3);
    let work: Vec<Work> = leans
        .map(|s| tied_straight(s.seen.tree.id, s.shoot.id))
        .collect();
    let count = Arg::Count(work.len() as i64);
    parts.then(|| Remedy::new("remedy-straighten-all", vec![("count", count)], work))
}

fn standing<'c>(seen: &'c SeenTree<'c>, shoot: &'c Shoot, course: &Course) -> Standing<'c> {
    // What grows from laid wood runs straight.
    let line = Line::new(course.base, course.tip());
    Standing {
        seen,
        shoot,
        line,
        from: line.p0.x.min(line.p1.x),
        to: line.p0.x.max(line.p1.x),
    }
}

/// Whether the two cross, each by more than `off` mm on both sides of the other.
fn meet(a: Line, b: Line, off: f64) -> bool {
    let apart = |l: Line, m: Line| {
        let along = l.p1 - l.p0;
        let side = |p: Point| along.cross(p - l.p0) / along.hypot().max(1e-9);
        let (one, other) = (side(m.p0), side(m.p1));
        one.min(other) < -off && one.max(other) > off
    };
    apart(a, b) && apart(b, a)
}
