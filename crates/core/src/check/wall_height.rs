//! Uprights above the wall, and a wall too tall for the distance of the rows.

use super::seen::{Seen, distance, over};
use super::{Finding, Remedy, Severity};
use crate::row::Limit;
use crate::units::Mm;
use crate::words::Arg;
use crate::work::Work;

pub(super) const ABOVE: &str = "above-wall";
pub(super) const TALL: &str = "wall-too-tall";

/// Least length that holding at a height leaves of an upright, mm.
const LEAST_KEPT: f64 = 10.0;

pub(super) fn find_above(c: &Seen<'_>) -> Vec<Finding> {
    let top = c.row.trellis.wall_height.f();
    let most = c.limit(Limit::AboveWallMax);
    c.trees
        .iter()
        .filter_map(|seen| {
            let tall: Vec<_> = seen
                .uprights()
                .filter(|(_, course)| over(course.tip().y - top, most))
                .collect();
            let highest = tall
                .iter()
                .map(|(_, course)| course.tip().y - top)
                .fold(0.0, f64::max);
            if tall.is_empty() {
                return None;
            }
            // Wood that is laid above the wall has nothing below the wall's height to keep.
            let held = tall
                .iter()
                .all(|(_, course)| course.base.y <= top - LEAST_KEPT);
            let ids: Vec<_> = tall.iter().map(|(s, _)| s.id).collect();
            let work: Vec<Work> = seen
                .outermost(&ids)
                .into_iter()
                .map(|shoot| Work::HoldHeight {
                    tree: seen.tree.id,
                    shoot,
                    height_mm: c.row.trellis.wall_height,
                })
                .collect();
            Some(Finding {
                z: top,
                subjects: tall.iter().map(|(s, _)| seen.part(s.id)).collect(),
                args: vec![
                    ("tree", seen.number()),
                    ("count", Arg::Count(tall.len() as i64)),
                    ("above", distance(highest)),
                    ("height", Arg::Length(top)),
                ],
                remedies: if held {
                    vec![Remedy {
                        key: "remedy-hold-height",
                        args: vec![
                            ("tree", seen.number()),
                            ("count", Arg::Count(work.len() as i64)),
                            ("height", Arg::Length(top)),
                        ],
                        work,
                    }]
                } else {
                    Vec::new()
                },
                ..seen.finding(c, ABOVE, Severity::Note, Limit::AboveWallMax, highest)
            })
        })
        .collect()
}

pub(super) fn find_tall(c: &Seen<'_>) -> Vec<Finding> {
    let height = c.row.trellis.wall_height.f();
    let given = c.site.row_spacing.map(Mm::f).filter(|s| *s > 0.0);
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
            (
                "given",
                Arg::Text(if given.is_some() { "yes" } else { "no" }.into()),
            ),
        ],
        remedies: Vec::new(),
    }]
}
