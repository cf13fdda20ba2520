//! A renewal zone too dark for stubs to break.

use super::seen::{Seen, under};
use super::{Finding, Severity};
use super::{renewal, uprights_count};
use crate::cover::Span;
use crate::light::LightReport;
use crate::row::{Limit, Targets};
use crate::said::Arg;
use core::ops::Range;

pub(super) const RULE: &str = "renewal-zone-dark";

/// Dark stretches nearer to each other than this, m, are one.
const JOINED: f64 = 0.5;
/// A dark stretch shorter than this, m, is the shade of one upright.
const LEAST: f64 = 0.3;

/// Under this share of what stubs ask for it is to be mended soon: the limit itself is an assumption.
const SOON: f64 = 2.0 / 3.0;
/// Length of the stretches over which the dark is judged, m: an upright's own shade moves through the day, and a stub
/// stands beside it.
const OVER: f64 = 0.6;

/// Whether light in the renewal zone, 0–1, is less than stubs ask for.
pub fn is_dark(light: f64, targets: &Targets) -> bool {
    under(light, targets.get(Limit::RenewalLight))
}

pub(super) fn find(c: &Seen<'_>, light: &LightReport) -> Vec<Finding> {
    let least = c.limit(Limit::RenewalLight);
    let means = running(&light.zone_columns, libm::round(OVER / light.dx) as usize);
    let (low, high) = light.zone_at;
    stretches(&means, least, light.dx)
        .into_iter()
        .map(|columns| {
            let mean = mean(&means[columns.clone()]);
            let span = Span {
                from: (light.x0 + columns.start as f64 * light.dx) * 1000.0,
                to: (light.x0 + columns.end as f64 * light.dx) * 1000.0,
            };
            Finding {
                rule: RULE,
                severity: match under(mean, least * SOON) {
                    true => Severity::Soon,
                    false => Severity::Note,
                },
                x: span.from,
                z: c.g.wire,
                width: span.length(),
                subjects: Vec::new(),
                measured: mean,
                allowed: least,
                limit: Limit::RenewalLight,
                args: vec![
                    ("light", Arg::Share(mean)),
                    ("least", Arg::Share(least)),
                    ("from", Arg::Length(span.from)),
                    ("to", Arg::Length(span.to)),
                    ("zone", Arg::Length((high - low) * 1000.0)),
                ],
                remedies: uprights_count::thin_out(c, span)
                    .or_else(|| renewal::stub_within(c, span))
                    .into_iter()
                    .collect(),
            }
        })
        .collect()
}

/// Means over some `width` columns about each, fewer at the ends.
fn running(values: &[f32], width: usize) -> Vec<f64> {
    let half = width / 2;
    let mut sums = vec![0.0];
    for v in values {
        sums.push(sums[sums.len() - 1] + f64::from(*v));
    }
    (0..values.len())
        .map(|i| {
            let (from, to) = (i.saturating_sub(half), (i + half + 1).min(values.len()));
            (sums[to] - sums[from]) / (to - from) as f64
        })
        .collect()
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Stretches of columns with less than `least`, near ones joined where they are dark as one, short ones left out.
fn stretches(means: &[f64], least: f64, dx: f64) -> Vec<Range<usize>> {
    let mut dark: Vec<Range<usize>> = Vec::new();
    for (i, _) in means.iter().enumerate().filter(|(_, m)| under(**m, least)) {
        match dark.last_mut() {
            Some(last) if last.end == i => last.end = i + 1,
            _ => dark.push(i..i + 1),
        }
    }
    let mut out: Vec<Range<usize>> = Vec::new();
    for next in dark {
        match out.last_mut() {
            Some(last)
                if (next.start - last.end) as f64 * dx <= JOINED
                    && under(mean(&means[last.start..next.end]), least) =>
            {
                last.end = next.end;
            }
            _ => out.push(next),
        }
    }
    out.retain(|r| r.len() as f64 * dx >= LEAST);
    out
}
