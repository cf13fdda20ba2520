//! Wires: the next one due, two too far apart, bare steel under the wood.

use super::seen::{Seen, over};
use super::{Finding, Part, Remedy, Severity};
use crate::row::{Covering, Limit, Wire};
use crate::said::Arg;
use crate::units::Mm;
use crate::work::{Work, apply_to_trellis};

/// The rule by which the next wire is due.
pub(super) const NEXT: &str = "next-wire-due";
pub(super) const FAR: &str = "wires-too-far";
pub(super) const BARE: &str = "bare-wire";

impl Finding {
    /// Whether it is that the next wire is due.
    pub fn asks_for_wire(&self) -> bool {
        self.rule == NEXT
    }
}

/// A finding names at most so many uprights.
const MOST_NAMED: usize = 50;
/// Wires nearer to each other than this, mm, are one.
const LEAST_APART: f64 = 50.0;

/// The next wire is due once uprights stand so far above the top wire that they could be tied to it.
pub(super) fn find_next(c: &Seen<'_>) -> Vec<Finding> {
    let trellis = &c.row.trellis;
    let Some(wire) = trellis.wires.last() else {
        return Vec::new();
    };
    let top = wire.height.f();
    let above = |last: f64| {
        let next = (last + c.limit(Limit::WireSpacing)).min(trellis.wall_height.f());
        (next - last >= LEAST_APART).then_some(next)
    };
    let Some(next) = above(top) else {
        return Vec::new();
    };
    let most = c.let_pass(Limit::FreeEndMax);
    let mut parts: Vec<Part> = Vec::new();
    let (mut count, mut tallest) = (0, 0.0f64);
    for seen in &c.trees {
        for (shoot, course) in seen.uprights() {
            let free = course.tip().y - top;
            if over(free, most) {
                count += 1;
                tallest = tallest.max(free);
                if parts.len() < MOST_NAMED {
                    parts.push(seen.part(shoot.id));
                }
            }
        }
    }
    if count == 0 {
        return Vec::new();
    }
    // As many as the tallest upright asks for.
    let mut heights = vec![next];
    let mut last = next;
    while let Some(next) = above(last).filter(|_| over(top + tallest - last, most)) {
        heights.push(next);
        last = next;
    }
    vec![Finding {
        subjects: parts,
        args: vec![
            ("height", Arg::Length(next)),
            ("count", Arg::Count(count)),
            ("above", super::seen::distance(tallest)),
            ("top", Arg::Length(top)),
        ],
        remedies: stretch(c, &heights, wire.covering),
        ..along(c, NEXT, Severity::Soon, next, Limit::FreeEndMax, tallest)
    }]
}

/// Neighbouring wires too far apart to hold what is tied to them.
pub(super) fn find_far(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::WireSpacingMax);
    let too_far = |w: &&[Wire]| {
        over(
            (w[1].height - w[0].height).f(),
            c.let_pass(Limit::WireSpacingMax),
        )
    };
    c.row
        .trellis
        .wires
        .windows(2)
        .filter(too_far)
        .map(|w| {
            let (low, high) = (w[0].height.f(), w[1].height.f());
            let parts = libm::ceil((high - low) / most - 1e-9).max(2.0);
            let heights: Vec<f64> = (1..parts as usize)
                .map(|i| low + (high - low) * i as f64 / parts)
                .collect();
            Finding {
                args: vec![
                    ("low", Arg::Length(low)),
                    ("high", Arg::Length(high)),
                    ("distance", Arg::Length(high - low)),
                    ("most", Arg::Length(most)),
                ],
                remedies: stretch(c, &heights, w[1].covering),
                ..along(
                    c,
                    FAR,
                    Severity::Note,
                    low,
                    Limit::WireSpacingMax,
                    high - low,
                )
            }
        })
        .collect()
}

/// Wires at these heights, where all of them can be stretched.
fn stretch(c: &Seen<'_>, heights: &[f64], covering: Covering) -> Vec<Remedy> {
    let work: Vec<Work> = heights
        .iter()
        .map(|h| Work::AddWire {
            height_mm: Mm::round(*h),
            covering,
        })
        .collect();
    let tried = work
        .iter()
        .try_fold(c.row.trellis.clone(), |t, w| apply_to_trellis(&t, w).ok());
    let (Some(_), Some(lowest)) = (tried, heights.first()) else {
        return Vec::new();
    };
    vec![Remedy::new(
        "remedy-add-wires",
        vec![
            ("count", Arg::Count(work.len() as i64)),
            ("height", Arg::Length(*lowest)),
        ],
        work,
    )]
}

/// Wood tied to a cordon wire of bare steel.
pub(super) fn find_bare(c: &Seen<'_>) -> Vec<Finding> {
    let tied = !c.cover.laid.is_empty();
    let cordon = c.row.trellis.wires.first();
    let Some(bare) = cordon.filter(|w| tied && w.covering == Covering::Bare) else {
        return Vec::new();
    };
    if !over(1.0, c.limit(Limit::BareWiresMax)) {
        return Vec::new();
    }
    let args = vec![("height", Arg::Length(bare.height.f()))];
    vec![Finding {
        args: args.clone(),
        remedies: vec![Remedy::new(
            "remedy-cover-wire",
            args,
            vec![Work::CoverWire {
                height_mm: bare.height,
                covering: Covering::Plastic,
            }],
        )],
        ..along(c, BARE, Severity::Note, c.g.wire, Limit::BareWiresMax, 1.0)
    }]
}

fn along(
    c: &Seen<'_>,
    rule: &'static str,
    severity: Severity,
    z: f64,
    limit: Limit,
    measured: f64,
) -> Finding {
    let whole = c.whole();
    Finding {
        rule,
        severity,
        x: whole.from,
        z,
        width: whole.length(),
        subjects: Vec::new(),
        measured,
        allowed: c.limit(limit),
        limit,
        args: Vec::new(),
        remedies: Vec::new(),
    }
}
