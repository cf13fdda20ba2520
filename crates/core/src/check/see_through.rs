//! Openings in the wall that are wide and high enough to be seen through, from the courses of its shoots alone.
//!
//! The wall is looked at as it stands: from the cordon wire to the height that half its uprights reach, in three
//! bands of four levels each.

use super::seen::{Seen, over};
use super::{Finding, Severity};
use crate::arrange::Arrange;
use crate::arrange::middle_of;
use crate::cover::Span;
use crate::row::{Limit, Pose};
use crate::said::Arg;
use kurbo::Point;

pub(super) const RULE: &str = "see-through";

const BANDS: usize = 3;
const LEVELS: usize = 12;

/// A stretch that is open on these levels, one bit a level.
struct Opening {
    span: Span,
    levels: u32,
}

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let Some(top) = height(c) else {
        return Vec::new();
    };
    let aim = c.limit(Limit::UprightSpacing);
    let ratio = c.limit(Limit::SeeThroughRatio);
    let share = c.limit(Limit::SeeThroughShare);
    let most = aim * ratio + c.limit(Limit::PlaceTolerance);
    openings(c, top, most, share)
        .into_iter()
        .map(|o| {
            let per_band = (LEVELS / BANDS) as u32;
            let open = |band: u32| {
                let mask = ((1 << per_band) - 1) << (band * per_band);
                (o.levels & mask).count_ones()
            };
            let counts = [open(0), open(1), open(2)];
            // Where it is open for half of no band, those count that are open at all.
            let half = counts.iter().any(|n| 2 * n >= per_band);
            let open = |band: usize| match half {
                true => 2 * counts[band] >= per_band,
                false => counts[band] > 0,
            };
            let bands = match (open(0), open(1), open(2)) {
                (true, false, false) => "low",
                (false, true, false) => "middle",
                (false, false, true) => "high",
                (true, true, false) => "low-middle",
                (false, true, true) => "middle-high",
                (true, false, true) => "low-high",
                _ => "all",
            };
            let step = (top - c.g.wire) / LEVELS as f64;
            Finding {
                rule: RULE,
                severity: Severity::Note,
                x: o.span.from,
                z: c.g.wire + step * f64::from(o.levels.trailing_zeros()),
                width: o.span.length(),
                subjects: Vec::new(),
                measured: o.span.length() / aim,
                allowed: ratio,
                limit: Limit::SeeThroughRatio,
                args: vec![
                    ("width", super::seen::distance(o.span.length())),
                    ("most", super::seen::distance(aim * ratio)),
                    ("from", Arg::Length(o.span.from)),
                    ("bands", Arg::Text(bands.into())),
                    (
                        "share",
                        Arg::Share(f64::from(o.levels.count_ones()) / LEVELS as f64),
                    ),
                ],
                remedies: Vec::new(),
            }
        })
        .collect()
}

/// The height that half the uprights reach, at most the wall's; `None` without one above the wire.
pub(super) fn height(c: &Seen<'_>) -> Option<f64> {
    let tips: Vec<f64> = c
        .trees
        .iter()
        .flat_map(|t| t.uprights().map(|(_, course)| course.tip().y))
        .collect();
    let top = middle_of(tips)?.min(c.row.trellis.wall_height.f());
    (top > c.g.wire + 1.0).then_some(top)
}

/// Stretches wider than `most` that are open on more than `share` of the levels, from left to right.
fn openings(c: &Seen<'_>, top: f64, most: f64, share: f64) -> Vec<Opening> {
    let whole = c.whole();
    let edges = edges(c, whole, top, most);
    let mut out: Vec<Opening> = Vec::new();
    let mut levels = 0u32;
    let mut i = 0;
    while i < edges.len() {
        let from = edges[i].0;
        let mut closed = 0u32;
        while i < edges.len() && edges[i].0 - from < 1e-6 {
            let (_, opens, level) = edges[i];
            if opens {
                levels |= 1 << level;
            } else {
                levels &= !(1 << level);
                closed |= 1 << level;
            }
            i += 1;
        }
        let Some(next) = edges.get(i) else { break };
        let open = f64::from(levels.count_ones()) / LEVELS as f64;
        if !over(open, share) {
            continue;
        }
        let span = Span { from, to: next.0 };
        let through = |last: u32| last & levels & !closed;
        match out.last_mut() {
            // Neighbouring stretches that are open on other levels are one opening; what all of it shares counts.
            Some(last)
                if last.span.to == from
                    && over(
                        f64::from(through(last.levels).count_ones()) / LEVELS as f64,
                        share,
                    ) =>
            {
                last.span.to = span.to;
                last.levels = through(last.levels);
            }
            _ => out.push(Opening { span, levels }),
        }
    }
    out.retain(|o| over(o.span.length(), most));
    out
}

/// Where an opening wider than `most` begins (`true`) or ends, and on which level, from left to right.
fn edges(c: &Seen<'_>, whole: Span, top: f64, most: f64) -> Vec<(f64, bool, usize)> {
    // Everything that stands on the cordon, trained or not, as base and tip.
    let mut lines: Vec<(Point, Point)> = Vec::new();
    for t in &c.trees {
        let standing = t
            .pairs()
            .filter(|(s, _)| !s.units.is_empty() && !s.pose.is_laid() && s.pose != Pose::Stub)
            .filter(|(s, _)| t.tree.rooted(s).is_some());
        lines.extend(standing.map(|(_, course)| (course.base, course.tip())));
    }
    // Cells no wider than an opening: one reaches from the last wood of a cell to the first of another, so that these two
    // of each cell are all that is asked, and nothing need be put in order.
    let cells = (whole.length() / most) as usize + 1;
    let width = whole.length() / cells as f64;
    let mut wood: Vec<(f64, f64)> = Vec::new();
    let mut out: Vec<(f64, bool, usize)> = Vec::new();
    for level in 0..LEVELS {
        let z = c.g.wire + (top - c.g.wire) * (level as f64 + 0.5) / LEVELS as f64;
        wood.clear();
        wood.resize(cells, (f64::INFINITY, f64::NEG_INFINITY));
        // A base that lies a little above the wire still closes the wall below it.
        for (base, tip) in lines.iter().filter(|(_, tip)| tip.y >= z) {
            let up = ((z - base.y) / (tip.y - base.y).max(1e-9)).clamp(0.0, 1.0);
            let x = (base.x + up * (tip.x - base.x)).clamp(whole.from, whole.to);
            let cell = ((x - whole.from) / width) as usize;
            let (first, last) = &mut wood[cell.min(cells - 1)];
            *first = first.min(x);
            *last = last.max(x);
        }
        let mut from = whole.from;
        let filled = wood.iter().filter(|(first, _)| first.is_finite());
        for (first, last) in filled.chain([&(whole.to, whole.to)]) {
            if over(first - from, most) {
                out.push((from, true, level));
                out.push((*first, false, level));
            }
            from = *last;
        }
    }
    out.arrange_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.cmp(&b.2)));
    out
}
