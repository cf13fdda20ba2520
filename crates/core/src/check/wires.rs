//! Wires: the next one due, two too far apart, bare steel under the wood.

use super::seen::{Seen, over};
use super::{Finding, Part, Severity};
use crate::row::{Covering, Limit};
use crate::words::Arg;

pub(super) const NEXT: &str = "next-wire-due";
pub(super) const FAR: &str = "wires-too-far";
pub(super) const BARE: &str = "bare-wire";

/// A finding names at most so many uprights.
const MOST_NAMED: usize = 50;

/// The next wire is due once uprights stand so far above the top wire that they could be tied to it.
pub(super) fn find_next(c: &Seen<'_>) -> Vec<Finding> {
    let Some(top) = c.row.trellis.wires.last().map(|w| w.height.f()) else {
        return Vec::new();
    };
    let next = (top + c.limit(Limit::WireSpacing)).min(c.row.trellis.wall_height.f());
    if !over(next, top) {
        return Vec::new();
    }
    let most = c.limit(Limit::FreeEndMax);
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
    vec![
        along(c, NEXT, Severity::Soon, next, Limit::FreeEndMax, tallest).with(
            parts,
            vec![
                ("height", Arg::Length(next)),
                ("count", Arg::Count(count)),
                ("above", super::seen::distance(tallest)),
                ("top", Arg::Length(top)),
            ],
        ),
    ]
}

/// Neighbouring wires too far apart to hold what is tied to them.
pub(super) fn find_far(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::WireSpacingMax);
    c.row
        .trellis
        .wires
        .windows(2)
        .filter_map(|w| {
            let (low, high) = (w[0].height.f(), w[1].height.f());
            over(high - low, most).then(|| {
                along(
                    c,
                    FAR,
                    Severity::Note,
                    low,
                    Limit::WireSpacingMax,
                    high - low,
                )
                .with(
                    Vec::new(),
                    vec![
                        ("low", Arg::Length(low)),
                        ("high", Arg::Length(high)),
                        ("distance", Arg::Length(high - low)),
                        ("most", Arg::Length(most)),
                    ],
                )
            })
        })
        .collect()
}

/// Wood tied to a cordon wire of bare steel.
pub(super) fn find_bare(c: &Seen<'_>) -> Vec<Finding> {
    let tied = !c.cover.laid.is_empty();
    let bare = c
        .row
        .trellis
        .wires
        .iter()
        .take(1)
        .filter(|w| tied && w.covering == Covering::Bare)
        .count() as f64;
    if !over(bare, c.limit(Limit::BareWiresMax)) {
        return Vec::new();
    }
    vec![
        along(c, BARE, Severity::Note, c.g.wire, Limit::BareWiresMax, bare)
            .with(Vec::new(), vec![("height", Arg::Length(c.g.wire))]),
    ]
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

impl Finding {
    fn with(self, subjects: Vec<Part>, args: Vec<(&'static str, Arg)>) -> Self {
        Self {
            subjects,
            args,
            ..self
        }
    }
}
