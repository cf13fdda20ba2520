//! Openings in the wall that are wide and high enough to be seen through, from the courses of its shoots alone.
//!
//! The wall is looked at as it stands: from the cordon wire to the height that half its uprights reach, in three
//! bands of four levels each.

use super::heights::Heights;
use super::seen::{Seen, over};
use super::{Finding, Severity};
use crate::arrange::Arrange;
use crate::cover::Span;
use crate::row::{Limit, Pose};
use crate::said::Arg;
use kurbo::Point;
use std::ops::Range;

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
    openings(c, top)
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
    let heights = c.heights.get_or_init(|| Heights::of(c.row.posed()));
    let top = heights.middle.min(c.row.trellis.wall_height.f());
    (heights.all > 0 && top > c.g.wire + 1.0).then_some(top)
}

/// The row's wire in parts no longer than what is let pass as an opening.
struct Cells {
    whole: Span,
    count: usize,
    width: f64,
    most: f64,
}

impl Cells {
    fn of(c: &Seen<'_>) -> Self {
        let aim = c.limit(Limit::UprightSpacing);
        let most = aim * c.limit(Limit::SeeThroughRatio) + c.limit(Limit::PlaceTolerance);
        let whole = c.whole();
        let count = (whole.length() / most) as usize + 1;
        Self {
            whole,
            count,
            width: whole.length() / count as f64,
            most,
        }
    }

    fn at(&self, x: f64) -> usize {
        let x = x.clamp(self.whole.from, self.whole.to);
        (((x - self.whole.from) / self.width) as usize).min(self.count - 1)
    }

    /// The middle of a cell.
    fn middle(&self, cell: usize) -> f64 {
        self.whole.from + self.width * (cell as f64 + 0.5)
    }

    /// What a part of them reaches over, from the middle of its first to that of its last; at the row's ends without end.
    fn span(&self, of: &Range<usize>) -> Span {
        if of.is_empty() {
            return Span {
                from: f64::INFINITY,
                to: f64::NEG_INFINITY,
            };
        }
        Span {
            from: match of.start {
                0 => f64::NEG_INFINITY,
                start => self.middle(start),
            },
            to: match of.end >= self.count {
                true => f64::INFINITY,
                false => self.middle(of.end - 1),
            },
        }
    }
}

/// Stretches that are wide enough and open on enough of the levels, from left to right.
fn openings(c: &Seen<'_>, top: f64) -> Vec<Opening> {
    let share = c.limit(Limit::SeeThroughShare);
    let cells = Cells::of(c);
    let edges = edges(c, &cells, top);
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
    out.retain(|o| over(o.span.length(), cells.most));
    out
}

/// Where an opening wide enough begins (`true`) or ends, and on which level, from left to right.
fn edges(c: &Seen<'_>, cells: &Cells, top: f64) -> Vec<(f64, bool, usize)> {
    let mut out: Vec<(f64, bool, usize)> = Vec::new();
    gaps(
        c,
        cells,
        top,
        &self::cells(c),
        &(0..0),
        &mut |level, gap, _| {
            if gap.length().is_finite() {
                out.push((gap.from, true, level));
                out.push((gap.to, false, level));
            }
        },
    );
    out.arrange_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.cmp(&b.2)));
    out
}

/// On each level the stretches too wide without wood in the cells `within`, but for that in those `without`; and which of the
/// cells' left ends lie in each. What reaches out of these cells is as long as can be.
fn gaps(
    c: &Seen<'_>,
    cells: &Cells,
    top: f64,
    within: &Range<usize>,
    without: &Range<usize>,
    tell: &mut dyn FnMut(usize, Span, Range<usize>),
) {
    let ends = cells.span(within);
    let trees = c.feet_within(Span {
        from: ends.from - cells.width - c.far,
        to: ends.to + cells.width + c.far,
    });
    // Everything that stands on the cordon, trained or not, as base and tip.
    let mut lines: Vec<(Point, Point)> = Vec::new();
    for t in &c.trees[trees] {
        let standing = t
            .pairs()
            .filter(|(s, _)| !s.units.is_empty() && !s.pose.is_laid() && s.pose != Pose::Stub)
            .filter(|(s, _)| t.tree.rooted(s).is_some());
        lines.extend(standing.map(|(_, course)| (course.base, course.tip())));
    }
    // A gap reaches from the last wood of a cell to the first of another, so that these two of each cell are all that is asked,
    // and nothing need be put in order.
    let mut wood: Vec<(f64, f64)> = Vec::new();
    for level in 0..LEVELS {
        let z = c.g.wire + (top - c.g.wire) * (level as f64 + 0.5) / LEVELS as f64;
        wood.clear();
        wood.resize(within.len(), (f64::INFINITY, f64::NEG_INFINITY));
        // A base that lies a little above the wire still closes the wall below it.
        for (base, tip) in lines.iter().filter(|(_, tip)| tip.y >= z) {
            let up = ((z - base.y) / (tip.y - base.y).max(1e-9)).clamp(0.0, 1.0);
            let x = base.x + up * (tip.x - base.x);
            let cell = cells.at(x);
            if within.contains(&cell) && !without.contains(&cell) {
                let x = x.clamp(cells.whole.from, cells.whole.to);
                let (first, last) = &mut wood[cell - within.start];
                *first = first.min(x);
                *last = last.max(x);
            }
        }
        let (mut from, mut at) = match within.start {
            0 => (cells.whole.from, 0),
            start => (f64::NEG_INFINITY, start - 1),
        };
        let mut next = |first: f64, last: f64, cell: usize| {
            if over(first - from, cells.most) {
                tell(level, Span { from, to: first }, at + 1..cell + 1);
            }
            (from, at) = (last, cell);
        };
        for ((first, last), cell) in wood.iter().zip(within.clone()) {
            if first.is_finite() {
                next(*first, *last, cell);
            }
        }
        match within.end == cells.count {
            true => next(cells.whole.to, cells.whole.to, within.end),
            false => next(f64::INFINITY, f64::INFINITY, within.end),
        }
    }
}

/// The cells that are looked through anew once `wood` has changed: from one to either side that no opening reaches into, and
/// beyond which none can be another.
pub(super) fn reached(c: &Seen<'_>, wood: Span) -> Range<usize> {
    let cells = Cells::of(c);
    let Some(top) = height(c) else {
        return 0..cells.count;
    };
    let changed = cells.at(wood.from)..cells.at(wood.to) + 1;
    let mut room = 16;
    loop {
        let start = changed.start.saturating_sub(room);
        let end = (changed.end + room).min(cells.count);
        let mut open = vec![false; end - start + 1];
        // What stands between the changed wood was not there before, or is no more.
        gaps(
            c,
            &cells,
            top,
            &(start..end),
            &changed,
            &mut |_, _, ends| {
                open[ends.start - start..ends.end - start].fill(true);
            },
        );
        let closed = |cell: &usize| !open[cell - start] && !open[cell + 1 - start];
        let left = (start..changed.start).rev().find(closed);
        let right = (changed.end..end).find(closed);
        let left = left.or((start == 0).then_some(0));
        let right = right.or((end == cells.count).then_some(end));
        if let (Some(left), Some(right)) = (left, right) {
            return left..(right + 1).min(cells.count);
        }
        room *= 4;
    }
}

/// Those that are looked through.
pub(super) fn cells(c: &Seen<'_>) -> Range<usize> {
    c.through.start..c.through.end.min(Cells::of(c).count)
}

/// What of the wire that is.
pub(super) fn through(c: &Seen<'_>) -> Span {
    Cells::of(c).span(&c.through)
}
