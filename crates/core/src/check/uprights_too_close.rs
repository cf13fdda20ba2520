//! Two uprights closer than the least distance.

use super::seen::{Seen, distance, under};
use super::{Finding, Part, Remedy, Severity};
use crate::row::Limit;
use crate::words::Arg;
use crate::work::Work;

pub(super) const RULE: &str = "uprights-too-close";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let least = c.limit(Limit::UprightSpacingMin);
    (1..c.places.len())
        .filter(|i| under(c.places[*i].x - c.places[*i - 1].x, least))
        .map(|i| {
            let (a, b) = (c.places[i - 1], c.places[i]);
            Finding {
                rule: RULE,
                severity: Severity::Soon,
                x: a.x,
                z: a.z,
                width: b.x - a.x,
                subjects: [a, b].map(Part::from).to_vec(),
                measured: b.x - a.x,
                allowed: least,
                limit: Limit::UprightSpacingMin,
                args: vec![
                    ("distance", distance(b.x - a.x)),
                    ("least", distance(least)),
                    ("left", c.name(a.tree, a.shoot)),
                    ("right", c.name(b.tree, b.shoot)),
                ],
                remedies: remedies(c, i),
            }
        })
        .collect()
}

/// Either of the two goes: a bud before a shoot that has grown, the thinner before the thicker, and of two alike
/// the one whose going leaves the smaller space.
fn remedies(c: &Seen<'_>, i: usize) -> Vec<Remedy> {
    let space = |out: usize| -> Option<f64> {
        let before = out.checked_sub(1)?;
        Some(c.places.get(out + 1)?.x - c.places[before].x)
    };
    let mut ways = [i - 1, i].map(|out| (c.worth(c.places[out]), space(out), out));
    ways.sort_by(|a, b| {
        a.0.total_cmp(&b.0)
            .then_with(|| a.1.unwrap_or(0.0).total_cmp(&b.1.unwrap_or(0.0)))
    });
    ways.iter()
        .map(|(_, space, out)| {
            let place = c.places[*out];
            let mut args = vec![("part", c.name(place.tree, place.shoot))];
            let beside = if space.is_some() { "between" } else { "end" };
            args.push(("where", Arg::Text(beside.into())));
            args.push(("leaves", distance(space.unwrap_or(0.0))));
            Remedy::new(
                "remedy-take-off",
                args,
                vec![Work::Remove {
                    tree: place.tree,
                    shoot: place.shoot,
                }],
            )
        })
        .collect()
}
