//! Uprights above the wall, and a wall too tall for the distance of the rows.

use super::seen::{Seen, SeenTree, distance, over};
use super::{Finding, Remedy, Severity};
use crate::pose::Course;
use crate::row::{Limit, ShootId};
use crate::said::Arg;
use crate::units::Mm;
use crate::work::Work;

pub(super) const ABOVE: &str = "above-wall";
pub(super) const TALL: &str = "wall-too-tall";

/// Least height of a wall above its cordon, mm: a renewal zone, and fruiting wood above it.
const LEAST_WALL: f64 = 600.0;
/// Least length that holding at a height leaves of an upright, mm.
const LEAST_KEPT: f64 = 10.0;
/// Least share of its length that holding leaves of it: half of what it was before it was tipped. What is so much too tall is
/// renewed rather than held.
const LEAST_SHARE: f64 = 0.65;

pub(super) fn find_above(c: &Seen<'_>) -> Vec<Finding> {
    let top = c.row.trellis.wall_height.f();
    let most = c.let_pass(Limit::AboveWallMax);
    c.near_trees()
        .filter_map(|seen| {
            let tall: Vec<_> = seen
                .uprights()
                .filter(|(s, course)| over(course.tip().y - top, most) && !c.is_due(seen, s.id))
                .collect();
            let highest = tall
                .iter()
                .map(|(_, course)| course.tip().y - top)
                .fold(0.0, f64::max);
            if tall.is_empty() {
                return None;
            }
            let ids: Vec<_> = tall
                .iter()
                .filter(|(_, course)| can_be_held(course, c.row.trellis.wall_height))
                .map(|(s, _)| s.id)
                .collect();
            let work = hold(seen, &ids, c.row.trellis.wall_height);
            let rest = Arg::Count((tall.len() - ids.len()) as i64);
            Some(Finding {
                z: top,
                subjects: tall.iter().map(|(s, _)| seen.part(s.id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(tall.len() as i64)),
                    ("above", distance(highest)),
                    ("height", Arg::Length(top)),
                    ("rest", rest.clone()),
                ],
                remedies: if !ids.is_empty() {
                    vec![Remedy::new(
                        "remedy-hold-height",
                        vec![
                            ("tree", seen.number()),
                            ("count", Arg::Count(work.len() as i64)),
                            ("height", Arg::Length(top)),
                            ("rest", rest),
                        ],
                        work,
                    )]
                } else {
                    Vec::new()
                },
                ..seen.finding(c, ABOVE, Severity::Note, Limit::AboveWallMax, highest)
            })
        })
        .collect()
}

/// Whether holding it at a height leaves enough of it. Wood that is laid above the wall has nothing below its height to keep.
fn can_be_held(course: &Course, height: Mm) -> bool {
    let (base, tip) = (course.base.y, course.tip().y);
    let most = (tip - base) * LEAST_SHARE;
    base <= height.f() - LEAST_KEPT && height.f() - base >= most
}

/// Shoots of a tree held at a height; what grows from another of them goes with it.
fn hold(seen: &SeenTree<'_>, shoots: &[ShootId], height: Mm) -> Vec<Work> {
    seen.outermost(shoots)
        .into_iter()
        .map(|shoot| Work::HoldHeight {
            tree: seen.tree.id,
            shoot,
            height_mm: height,
        })
        .collect()
}

pub(super) fn find_tall(c: &Seen<'_>) -> Vec<Finding> {
    let height = c.row.trellis.wall_height.f();
    let given = c.terms.site.row_spacing.map(Mm::f).filter(|s| *s > 0.0);
    let spacing = given.unwrap_or(c.limit(Limit::RowSpacing));
    let ratio = height / spacing;
    let (severity, limit) = if over(ratio, c.limit(Limit::HeightRatioMax)) {
        (Severity::Soon, Limit::HeightRatioMax)
    } else if over(ratio, c.limit(Limit::HeightRatio)) {
        (Severity::Note, Limit::HeightRatio)
    } else {
        return Vec::new();
    };
    let whole = c.whole();
    vec![Finding {
        rule: TALL,
        severity,
        x: whole.from,
        z: height,
        width: whole.length(),
        subjects: Vec::new(),
        measured: ratio,
        allowed: c.limit(limit),
        limit,
        args: vec![
            ("height", Arg::Length(height)),
            ("spacing", Arg::Length(spacing)),
            ("ratio", Arg::Number(ratio, 2)),
            ("most", Arg::Number(c.limit(limit), 2)),
            ("given", Arg::yes(given.is_some())),
        ],
        remedies: lower(c, spacing).into_iter().collect(),
    }]
}

/// The wall lowered to what is advised for the distance of its rows, with all uprights that stand above that. None where
/// one of them would lose too much by it, or where so low a wall would have no room above the cordon.
fn lower(c: &Seen<'_>, spacing: f64) -> Option<Remedy> {
    let ratio = c
        .limit(Limit::HeightRatio)
        .min(c.limit(Limit::HeightRatioMax));
    let height = Mm(libm::floor(spacing * ratio) as i32);
    if height.f() < c.g.wire + LEAST_WALL || height >= c.row.trellis.wall_height {
        return None;
    }
    let above = |course: &Course| course.tip().y > height.f();
    let held = c.trees.iter().flat_map(SeenTree::uprights);
    if held
        .filter(|(_, course)| above(course))
        .any(|(_, course)| !can_be_held(course, height))
    {
        return None;
    }
    let work: Vec<Work> = c
        .trees
        .iter()
        .flat_map(|seen| {
            let tall: Vec<_> = seen
                .uprights()
                .filter(|(_, course)| above(course))
                .map(|(s, _)| s.id)
                .collect();
            hold(seen, &tall, height)
        })
        .collect();
    Some(Remedy {
        wall_height: Some(height),
        ..Remedy::new(
            "remedy-lower-wall",
            vec![
                ("height", Arg::Length(height.f())),
                ("count", Arg::Count(work.len() as i64)),
            ],
            work,
        )
    })
}
