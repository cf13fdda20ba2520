//! A bare stretch of cordon wire.

use super::cordon_fill_due::is_due;
use super::seen::Seen;
use super::{Finding, Part, Severity, fill};
use crate::cover::{Laid, Stretch};
use crate::row::Limit;
use crate::said::Arg;

pub(super) const RULE: &str = "cordon-gap";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let severity = if is_due(c) {
        Severity::Now
    } else {
        Severity::Soon
    };
    c.flagged_gaps()
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
            Finding {
                rule: RULE,
                severity,
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
                remedies: match c.recalled.remedies(gap.span) {
                    Some(known) => known.to_vec(),
                    None => fill::remedies(c, gap),
                },
            }
        })
        .collect()
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
