//! A bare stretch of cordon wire.

use super::cordon_fill_due::is_due;
use super::seen::{Seen, over, under};
use super::{Finding, Part, Severity, fill};
use crate::cover::{Laid, Span, Stretch};
use crate::row::{Limit, Pose, Toward};
use crate::said::{Arg, Args};

pub(super) const RULE: &str = "cordon-gap";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let due = is_due(c);
    c.flagged_gaps()
        .filter(|gap| c.is_near(gap.span.from, gap.span.to))
        .map(|gap| {
            let (left, right) = edges(c, gap);
            let mut args = vec![
                ("length", Arg::Length(gap.span.length())),
                ("from", Arg::Length(gap.span.from)),
            ];
            let beside = match (left, right) {
                (Some(l), Some(r)) if l.tree == r.tree => "within",
                (Some(_), Some(_)) => "between",
                (Some(_), None) => "after",
                (None, Some(_)) => "before",
                (None, None) => "alone",
            };
            args.push(("where", Arg::Text(beside.into())));
            for (name, laid) in [("left", left), ("right", right)] {
                if let Some(laid) = laid {
                    args.push((name, Arg::Count(laid.tree.0.into())));
                }
            }
            let remedies = fill::remedies(c, gap);
            args.extend(passing(c, gap));
            let expected = expected(c, gap, left, right).filter(|_| remedies.is_empty());
            args.push(("expected", Arg::Count(expected.unwrap_or(0).into())));
            Finding {
                rule: RULE,
                // Less than one upright takes costs no place.
                severity: match under(gap.span.length(), c.limit(Limit::UprightSpacing)) {
                    true => Severity::Note,
                    // What only waits for an end that grows there is no work for now.
                    false if due && (c.judging || expected.is_none()) => Severity::Now,
                    false => Severity::Soon,
                },
                x: gap.span.from,
                z: c.g.wire,
                width: gap.span.length(),
                subjects: [left, right]
                    .into_iter()
                    .flatten()
                    .map(|l| Part {
                        tree: l.tree,
                        shoot: Some(l.shoot),
                    })
                    .collect(),
                measured: gap.span.length(),
                allowed: c.limit(Limit::GapMax),
                limit: Limit::GapMax,
                args,
                remedies,
            }
        })
        .collect()
}

/// Wood that passes above less of a bare stretch than this, mm, is not told.
const LEAST_PASSING: f64 = 20.0;

/// The longest that a bare stretch waits for the end beside it, seasons.
const WAITS: f64 = 3.0;

/// The leaf by whose end the end of the wood beside a bare stretch is expected to have filled it; `None` where no end grows
/// that way, or it would take too long.
fn expected(c: &Seen<'_>, gap: &Stretch, left: Option<&Laid>, right: Option<&Laid>) -> Option<u8> {
    let top = c.g.wire + c.limit(Limit::CordonBand);
    let goes = |laid: Option<&Laid>, way: Toward| {
        let end = laid.and_then(|l| {
            let seen = c.tree(l.tree)?;
            let at = seen.tree.index(l.shoot)?;
            Some((&seen.tree.shoots[at], &seen.courses[at]))
        });
        // An end that has risen above the wire passes over what is bare.
        end.is_some_and(|(shoot, course)| {
            let last = shoot.units.last().map_or(0, |u| u.leaf);
            // What has not grown for a season is no end to wait for.
            c.row.leaf.saturating_sub(last) <= 2
                && matches!(shoot.pose, Pose::Laid { toward, .. } if toward == way)
                && !over(course.tip().y, top)
        })
    };
    let ends = [goes(left, Toward::Right), goes(right, Toward::Left)];
    let growth = c.limit(Limit::EndGrowth) * ends.iter().filter(|e| **e).count() as f64;
    let seasons = libm::ceil(gap.span.length() / growth.max(1e-9));
    (seasons <= WAITS).then(|| c.row.leaf.saturating_add(seasons as u8 - 1))
}

/// What the text says of the laid wood that passes above a bare stretch, risen too far above the wire to count: of the one
/// that does so for longest.
fn passing(c: &Seen<'_>, gap: &Stretch) -> Args {
    let most = c.limit(Limit::CordonBand);
    let mut longest: Option<(f64, f64, Arg)> = None;
    for i in fill::trees_near(c, gap) {
        let seen = &c.trees[i];
        for (shoot, course) in seen.pairs().filter(|(s, _)| s.pose.is_laid()) {
            let (base, tip) = (course.base, course.tip());
            let high = tip.y - c.g.wire;
            let slope = libm::tan(course.end_heading());
            let out = match base.y - c.g.wire >= most {
                true => base.x,
                // Back from the tip to where it rises out of the band.
                false => tip.x - (high - most) / slope,
            };
            let above = Span::between(out, tip.x).within(gap.span);
            let end = tip.x.clamp(above.from.min(above.to), above.to);
            let so_far = longest.as_ref().map_or(0.0, |(length, ..)| *length);
            if over(high, most) && over(above.length(), so_far.max(LEAST_PASSING)) {
                let high = high - (tip.x - end) * slope;
                longest = Some((above.length(), high, seen.name(shoot.id)));
            }
        }
    }
    match longest {
        Some((length, high, part)) => vec![
            ("passes", Arg::yes(true)),
            ("over", Arg::Length(length)),
            ("high", Arg::Length(high)),
            ("part", part),
        ],
        None => vec![("passes", Arg::yes(false))],
    }
}

/// The laid wood that ends at the left edge of a bare stretch, and the one that begins at its right edge.
fn edges<'c>(c: &'c Seen<'_>, gap: &Stretch) -> (Option<&'c Laid>, Option<&'c Laid>) {
    let beside: Vec<&Laid> = gap
        .by
        .iter()
        .filter_map(|(tree, shoot)| c.laid_at(*tree, *shoot))
        .collect();
    let at =
        |x: f64, end: fn(&Laid) -> f64| beside.iter().copied().find(|l| (end(l) - x).abs() < 1.0);
    (
        at(gap.span.from, |l| l.span.to),
        at(gap.span.to, |l| l.span.from),
    )
}
