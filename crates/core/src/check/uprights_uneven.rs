//! Uprights of one age on one tree that differ much in length or thickness.

use super::figures::mean_and_cv;
use super::placed::{by_age, well_placed};
use super::seen::{Seen, SeenTree, over};
use super::{Finding, Remedy, Severity};
use crate::row::{Limit, Shoot};
use crate::said::Arg;
use crate::work::Work;

pub(super) const RULE: &str = "uprights-uneven";

/// Fewer than this have no spread to speak of.
const FEWEST: usize = 3;

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::UnevenMax);
    c.near_trees()
        .filter_map(|seen| {
            // Returns of a renewed upright are younger and so shorter: like is compared with like.
            let stand = seen.uprights().map(|(s, _)| s);
            let ages = by_age(stand.filter(|s| !starts_again(c, s)));
            let most_of = ages
                .into_iter()
                .max_by_key(|(born, all)| (all.len(), *born));
            let (_, alike) = most_of?;
            // Where measuring alone may have brought so much, there is none.
            let spread = |values: Vec<f64>, off: Limit| {
                let (mean, cv) = mean_and_cv(&values);
                match values.len() < FEWEST || !over((cv - most) * mean, c.limit(off)) {
                    true => 0.0,
                    false => cv,
                }
            };
            let length = spread(
                alike.iter().map(|s| s.length()).collect(),
                Limit::LengthTolerance,
            );
            let measured = |s: &&Shoot| (s.diameter > 0.0).then_some(s.diameter);
            let thickness = spread(
                alike.iter().filter_map(measured).collect(),
                Limit::ThicknessTolerance,
            );
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
                    remedies: cut_to_buds(c, seen, &alike).into_iter().collect(),
                    ..base
                }
            })
        })
        .collect()
}

/// Whether it was cut back for this season to less than half of what grew: it is to grow anew, and says nothing of what stands.
fn starts_again(c: &Seen<'_>, shoot: &Shoot) -> bool {
    let last = shoot.units.last();
    last.is_some_and(|u| u.cut.is_some_and(|at| at.leaf == c.row.leaf) && u.kept * 2.0 < u.grown)
}

/// Shoots of the first leaf that came unevenly: those too thick or far off their age's size are cut back to 2 to 4 buds before
/// the second leaf grows, so that each one's vigour is shared by as many even shoots. Those well placed stay. Later there is
/// too much wood to lose.
fn cut_to_buds(c: &Seen<'_>, seen: &SeenTree<'_>, alike: &[&Shoot]) -> Option<Remedy> {
    if c.row.leaf != 2 || alike.iter().any(|s| s.born() != Some(1)) {
        return None;
    }
    let wanted = libm::round(c.reach(seen).length() / c.limit(Limit::UprightSpacing));
    let buds = libm::ceil(wanted / alike.len() as f64).clamp(2.0, 4.0) as u16;
    let stay = well_placed(c, seen);
    let work: Vec<Work> = alike
        .iter()
        .filter(|s| !stay.contains(&s.id))
        .map(|s| Work::CutToBuds {
            tree: seen.tree.id,
            shoot: s.id,
            buds: buds.into(),
        })
        .collect();
    if c.judging || work.is_empty() {
        return None;
    }
    c.after(seen.tree, &work)?;
    Some(Remedy::new(
        "remedy-cut-to-buds",
        vec![
            ("tree", seen.number()),
            ("count", Arg::Count(work.len() as i64)),
            ("buds", Arg::Count(buds.into())),
        ],
        work,
    ))
}
