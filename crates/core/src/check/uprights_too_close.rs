//! Two uprights closer than the least distance.

use super::placed::{can_spare, is_bud};
use super::seen::{Seen, distance, over, under};
use super::{Finding, Part, Remedy, Severity, uprights_too_far};
use crate::arrange::Arrange;
use crate::cover::Place;
use crate::row::{Kind, Limit};
use crate::said::Arg;
use crate::work::Work;

pub(super) const RULE: &str = "uprights-too-close";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let least = c.limit(Limit::UprightSpacingMin);
    let passes = c.let_pass(Limit::UprightSpacingMin);
    c.near_pairs()
        .filter(|i| under(c.places[*i].x - c.places[*i - 1].x, passes))
        .filter(|i| !of_one_stub(c, c.places[*i - 1], c.places[*i]))
        .map(|i| {
            let (a, b) = (c.places[i - 1], c.places[i]);
            let stub = only_stub(c, i);
            let (remedies, wide) = remedies(c, i);
            let wide = wide.filter(|_| remedies.is_empty());
            Finding {
                rule: RULE,
                severity: if stub { Severity::Note } else { Severity::Soon },
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
                    ("wide", Arg::yes(wide.is_some())),
                    ("leaves", distance(wide.unwrap_or(0.0))),
                ],
                remedies,
            }
        })
        .collect()
}

/// Whether one of the two is a stub: it crowds nothing until something comes back from it. A new one beside a grown upright is better
/// taken off whole.
fn only_stub(c: &Seen<'_>, i: usize) -> bool {
    let apart = c.places[i].x - c.places[i - 1].x;
    let new = |at: usize, other: usize| {
        let grown = c.shoot_at(other).is_some_and(|s| s.kind() == Kind::Upright);
        c.is_new_stub(at) && grown && c.better_without(at, apart)
    };
    (c.is_stub(i - 1) || c.is_stub(i)) && !new(i - 1, i) && !new(i, i - 1)
}

/// Whether both return from one stub, of which one is kept anyway.
fn of_one_stub(c: &Seen<'_>, a: Place, b: Place) -> bool {
    let is_spare = |p: Place| c.tree(p.tree).is_some_and(|t| t.is_spare(p.shoot));
    a.tree == b.tree && a.x == b.x && (is_spare(a) || is_spare(b))
}

/// Either of the two goes: a bud before a shoot that has grown, what is over-vigorous or far off its age's size before what is
/// well placed, the thinner before the thicker, and of two alike the one whose going leaves the smaller space. Where it leaves too wide a space, a bud is kept in the middle of that; where none can be, that space is told.
fn remedies(c: &Seen<'_>, i: usize) -> (Vec<Remedy>, Option<f64>) {
    if c.judging {
        return (Vec::new(), None);
    }
    let mut ways = [i - 1, i].map(|out| {
        let sides = c.sides(out);
        let space = sides.map_or(0.0, |(left, right)| right.x - left.x);
        (c.worth(out), space, out, sides)
    });
    ways.arrange_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let stub = only_stub(c, i);
    let first = c.standing_at(ways[0].2);
    let due = first.due && first.goes || c.is_new_stub(ways[0].2);
    let mut out: Vec<Remedy> = Vec::new();
    let mut wide = None;
    let apart = c.places[i].x - c.places[i - 1].x;
    let wide_without = |at: usize, space: f64| {
        over(space, c.let_pass(Limit::UprightSpacingMax)) || !c.better_without(at, apart)
    };
    for (worth, space, at, sides) in ways {
        let place = c.places[at];
        // Strong, well-placed wood is first only where the other would leave too wide a space, or is cut this winter and leaves its stub;
        // and what has grown goes for no stub.
        let stays = !can_spare(worth) && out.is_empty() && !due && wide.is_none();
        if stays || (stub && !is_bud(worth)) {
            break;
        }
        out.extend(match sides {
            Some(sides) if wide_without(at, space) => {
                let close = c.too_close(apart);
                let even = even_out(c, place, sides, due && close && out.is_empty());
                wide = wide.or(even.is_none().then_some(space));
                even
            }
            _ => Some(Remedy::new(
                "remedy-take-off",
                vec![
                    ("part", c.name(place.tree, place.shoot)),
                    (
                        "where",
                        Arg::Text(if sides.is_some() { "between" } else { "end" }.into()),
                    ),
                    ("leaves", distance(space)),
                ],
                vec![take_off(place)],
            )),
        });
    }
    (out, wide)
}

fn take_off(place: Place) -> Work {
    Work::Remove {
        tree: place.tree,
        shoot: place.shoot,
    }
}

/// One goes, and a bud takes its part in the middle between its neighbours.
fn even_out(c: &Seen<'_>, out: Place, (left, right): (Place, Place), due: bool) -> Option<Remedy> {
    let cut = take_off(out);
    let without = c.after(c.tree(out.tree)?.tree, std::slice::from_ref(&cut))?;
    let (bud, x) = uprights_too_far::bud_at(c, (left.x + right.x) / 2.0, &mut vec![without])?;
    // Wood that stands is not given for a bud that may not grow, unless it is cut this winter in any case.
    if matches!(bud, Work::Notch { .. }) && !due {
        return None;
    }
    let spaces = [x - left.x, right.x - x];
    let fits = spaces.iter().all(|s| {
        !under(*s, c.limit(Limit::UprightSpacingMin))
            && !over(*s, c.limit(Limit::UprightSpacingMax))
    });
    fits.then(|| {
        Remedy::new(
            "remedy-even-out",
            vec![
                ("part", c.name(out.tree, out.shoot)),
                ("leaves", distance(spaces[0].max(spaces[1]))),
                ("notched", c.notches(std::slice::from_ref(&bud))),
            ],
            vec![cut, bud],
        )
    })
}
