//! Openings in the wall, ranked by the season's light that falls through them.

use super::light_cost::LightCost;
use super::seen::{Seen, distance, over};
use super::uprights_too_far;
use super::{Finding, Remedy, Severity, fill};
use crate::cover::Span;
use crate::light::{LightGap, LightReport};
use crate::row::Limit;
use crate::said::Arg;

pub(super) const RULE: &str = "light-gap";

/// An opening that loses as much as so many that are just let pass is to be mended soon.
const SOON: f64 = 3.0;

/// Openings that no finding about the wood covers, as findings; what the others cost is told by those that cover them.
pub(super) fn find(
    c: &Seen<'_>,
    light: &LightReport,
    wood: &[Finding],
) -> (Vec<Finding>, Vec<LightCost>) {
    let most = c.limit(Limit::LightGapMax);
    let (mut findings, mut costs) = (Vec::new(), Vec::new());
    for gap in &light.gaps {
        let worth = worth(gap, light);
        if let Some(cost) = LightCost::of(gap, worth, wood) {
            costs.push(cost);
        } else if over(worth, most) {
            findings.push(finding(c, gap, worth, most, findings.len() + 1));
        }
    }
    (findings, costs)
}

fn finding(c: &Seen<'_>, gap: &LightGap, worth: f64, most: f64, rank: usize) -> Finding {
    let span = Span {
        from: gap.x0 * 1000.0,
        to: gap.x1 * 1000.0,
    };
    Finding {
        rule: RULE,
        severity: match over(worth, SOON * most) {
            true => Severity::Soon,
            false => Severity::Note,
        },
        x: span.from,
        z: gap.z0 * 1000.0,
        width: span.length(),
        subjects: Vec::new(),
        measured: worth,
        allowed: most,
        limit: Limit::LightGapMax,
        args: vec![
            ("rank", Arg::Count(rank as i64)),
            ("from", Arg::Length(span.from)),
            ("width", distance(span.length())),
            ("low", Arg::Length(gap.z0 * 1000.0)),
            ("high", Arg::Length(gap.z1 * 1000.0)),
            ("worth", distance(worth)),
            ("most", distance(most)),
            ("loss", Arg::Number(gap.loss * 100.0, 2)),
        ],
        remedies: remedies(c, span),
    }
}

/// Length of this wall, mm, that catches as much light as the opening loses; the row's own length where it catches none.
fn worth(gap: &LightGap, light: &LightReport) -> f64 {
    let share = gap.loss / light.caught.total.max(1e-6);
    share.min(1.0) * light.length * 1000.0
}

/// Wood laid into a bare stretch of the opening, or buds and free shoots in the widest space that it holds.
fn remedies(c: &Seen<'_>, span: Span) -> Vec<Remedy> {
    let bare = c
        .flagged_gaps()
        .filter(|g| g.span.from < span.to && g.span.to > span.from)
        .max_by(|a, b| a.span.length().total_cmp(&b.span.length()));
    if let Some(bare) = bare {
        return fill::remedies(c, bare);
    }
    let aim = c.limit(Limit::UprightSpacing) * c.limit(Limit::SeeThroughRatio);
    c.places
        .windows(2)
        .filter(|w| w[0].x < span.to && w[1].x > span.from)
        .map(|w| (w, c.apart(w[0].x, w[1].x)))
        .filter(|(_, (apart, _))| over(*apart, aim))
        .max_by(|a, b| a.1.0.total_cmp(&b.1.0))
        .map(|(w, (apart, bare))| {
            // An opening does not name the uprights beside it.
            let key = "remedy-keep-buds-between";
            uprights_too_far::remedies(c, w[0], w[1], apart, &bare, key)
        })
        .unwrap_or_default()
}
