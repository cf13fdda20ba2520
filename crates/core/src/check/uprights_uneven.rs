//! Uprights of one age on one tree that differ much in length or thickness.

use super::figures::mean_and_cv;
use super::seen::{Seen, over};
use super::{Finding, Severity};
use crate::row::{Limit, Shoot};
use crate::words::Arg;
use std::collections::BTreeMap;

pub(super) const RULE: &str = "uprights-uneven";

/// Fewer than this have no spread to speak of.
const FEWEST: usize = 3;

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::UnevenMax);
    c.trees
        .iter()
        .filter_map(|seen| {
            // Returns of a renewed upright are younger and so shorter: like is compared with like.
            let mut by_age: BTreeMap<Option<u8>, Vec<&Shoot>> = BTreeMap::new();
            for (shoot, _) in seen.uprights() {
                by_age.entry(shoot.born()).or_default().push(shoot);
            }
            let alike = by_age.into_values().max_by_key(Vec::len)?;
            let spread = |values: Vec<f64>| match values.len() < FEWEST {
                true => 0.0,
                false => mean_and_cv(&values).1,
            };
            let length = spread(alike.iter().map(|s| s.length()).collect());
            let measured = |s: &&Shoot| (s.diameter > 0.0).then_some(s.diameter);
            let thickness = spread(alike.iter().filter_map(measured).collect());
            let worst = length.max(thickness);
            over(worst, most).then(|| {
                let base = seen.finding(c, RULE, Severity::Note, Limit::UnevenMax, worst);
                let of = if thickness > length {
                    "thickness"
                } else {
                    "length"
                };
                Finding {
                    subjects: alike.iter().map(|s| seen.part(s.id)).collect(),
                    args: vec![
                        ("tree", seen.number()),
                        ("of", Arg::Text(of.into())),
                        ("spread", Arg::Share(worst)),
                        ("most", Arg::Share(most)),
                        ("count", Arg::Count(alike.len() as i64)),
                    ],
                    ..base
                }
            })
        })
        .collect()
}
