//! Two neighbouring uprights farther apart than the largest distance.

use super::seen::{Seen, distance, over, under};
use super::{Finding, Part, Remedy, Severity};
use crate::arrange::arrange_numbers;
use crate::cover::{Place, Span};
use crate::row::{Face, Limit, Pose, Tree};
use crate::said::Arg;
use crate::units::{Deg, Mm};
use crate::work::Work;

pub(super) const RULE: &str = "uprights-too-far";

/// More buds than this at once are no remedy but a new row.
pub(super) const MOST_BUDS: usize = 50;

/// How far inside the end of laid wood a bud is kept, mm.
const FROM_THE_END: f64 = 10.0;

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::UprightSpacingMax);
    c.near_pairs()
        .filter(|i| !c.is_notched(*i))
        .filter_map(|i| {
            // A notched bud may not grow: what it parts waits for it, as wide as it is.
            let before = (0..i).rev().find(|k| !c.is_notched(*k))?;
            let notched: Vec<usize> = (before + 1..i).collect();
            let (a, b) = (c.places[before], c.places[i]);
            let (apart, bare) = c.apart(a.x, b.x);
            over(apart, c.let_pass(Limit::UprightSpacingMax)).then(|| Finding {
                rule: RULE,
                severity: match notched.is_empty() {
                    true => Severity::Soon,
                    false => Severity::Note,
                },
                x: a.x,
                z: a.z,
                width: b.x - a.x,
                subjects: [a, b].map(Part::from).to_vec(),
                measured: apart,
                allowed: most,
                limit: Limit::UprightSpacingMax,
                args: vec![
                    ("distance", distance(apart)),
                    ("most", distance(most)),
                    ("left", c.name(a.tree, a.shoot)),
                    ("right", c.name(b.tree, b.shoot)),
                    ("bare", Arg::yes(!bare.is_empty())),
                    ("notched", c.notched(&notched)),
                ],
                remedies: match notched.is_empty() {
                    true => remedies(c, a, b, apart, &bare, "remedy-keep-buds"),
                    false => Vec::new(),
                },
            })
        })
        .collect()
}

/// A free shoot stood up between the two, or buds kept or brought on there: worded by `keep_buds_key`, which may name both.
pub(super) fn remedies(
    c: &Seen<'_>,
    a: Place,
    b: Place,
    apart: f64,
    bare: &[Span],
    keep_buds_key: &'static str,
) -> Vec<Remedy> {
    if c.judging {
        return Vec::new();
    }
    let largest = |marks: &[f64]| {
        let mut ends: Vec<f64> = marks.iter().copied().chain([a.x, b.x]).collect();
        arrange_numbers(&mut ends);
        ends.windows(2)
            .map(|w| c.apart(w[0], w[1]).0)
            .fold(0.0, f64::max)
    };
    let mut out = Vec::new();
    if let Some((work, marks)) = stand_up(c, a, b, bare)
        && let Work::Stand { tree, shoot, .. } = work
    {
        out.push(Remedy::new(
            "remedy-stand-free",
            vec![
                ("part", c.name(tree, shoot)),
                ("leaves", distance(largest(&[marks]))),
            ],
            vec![work],
        ));
    }
    let (work, marks) = keep_buds(c, a, apart, bare);
    let left = largest(&marks);
    if !work.is_empty() && left < apart - 1.0 {
        out.push(Remedy::new(
            keep_buds_key,
            vec![
                ("left", c.name(a.tree, a.shoot)),
                ("right", c.name(b.tree, b.shoot)),
                ("buds", Arg::Count(work.len() as i64)),
                ("leaves", distance(left)),
                ("notched", c.notches(&work)),
            ],
            work,
        ));
    }
    out
}

/// Into how many spaces a distance is best parted: as near to the aim as the limits let it.
fn spaces(c: &Seen<'_>, apart: f64) -> usize {
    let aim = libm::round(apart / c.limit(Limit::UprightSpacing));
    let fewest = libm::ceil(apart / c.limit(Limit::UprightSpacingMax) - 1e-9);
    let most = libm::floor(apart / c.limit(Limit::UprightSpacingMin) + 1e-9);
    // Where no number keeps both limits, the cordon is rather crowded than empty.
    aim.min(most).max(fewest).max(2.0) as usize
}

/// Buds evenly between the two, on the wood that lies there; and where they come to stand.
fn keep_buds(c: &Seen<'_>, a: Place, apart: f64, bare: &[Span]) -> (Vec<Work>, Vec<f64>) {
    let parts = spaces(c, apart).min(MOST_BUDS);
    let step = apart / parts as f64;
    let mut work: Vec<Work> = Vec::new();
    let mut marks: Vec<f64> = Vec::new();
    // The trees with the buds so far: no bud is kept twice.
    let mut budded: Vec<Tree> = Vec::new();
    for i in 1..parts {
        // So far along the wood, past every bare stretch on the way.
        let x = bare.iter().fold(a.x + step * i as f64, |x, gap| {
            if x > gap.from { x + gap.length() } else { x }
        });
        if let Some((item, x)) = bud_at(c, x, &mut budded) {
            work.push(item);
            marks.push(x);
        }
    }
    (work, marks)
}

/// A bud kept or brought on at `x`, or at the nearest end of laid wood where a short bare stretch is there; and its place.
pub(super) fn bud_at(c: &Seen<'_>, x: f64, budded: &mut Vec<Tree>) -> Option<(Work, f64)> {
    let bare = c.cover.gaps.partition_point(|g| g.span.to <= x);
    let places = match c.cover.gaps.get(bare) {
        Some(gap) if gap.span.from < x => {
            let ends = [gap.span.from - FROM_THE_END, gap.span.to + FROM_THE_END];
            if x <= gap.span.middle() {
                ends.to_vec()
            } else {
                ends.into_iter().rev().collect()
            }
        }
        _ => vec![x],
    };
    // Where the wood is blind there, a little beside.
    let room = c.limit(Limit::UprightSpacingMin) / 2.0;
    let tries = [0.0, room].into_iter();
    let mut tries = tries.flat_map(|room| places.iter().map(move |x| (*x, room)));
    tries.find_map(|(x, room)| {
        c.laid_over(x).find_map(|laid| {
            let seen = c.tree(laid.tree)?;
            let index = seen.tree.index(laid.shoot)?;
            let course = &seen.courses[index];
            let at = c.bud_near(laid, course.at_x(x)?, room)?;
            let at_mm = Mm::round(seen.tree.clear_of_laid(laid.shoot, at));
            let work = c.budded(laid.tree, laid.shoot, at_mm)?;
            let before = budded.iter().position(|t| t.id == laid.tree);
            let tree = before.map_or(seen.tree, |i| &budded[i]);
            let after = c.after(tree, std::slice::from_ref(&work))?;
            match before {
                Some(i) => budded[i] = after,
                None => budded.push(after),
            }
            Some((work, course.point(at_mm.f()).x))
        })
    })
}

/// The longest stretch of wood between the two.
fn longest_wood(a: Place, b: Place, bare: &[Span]) -> Span {
    let starts = [a.x].into_iter().chain(bare.iter().map(|gap| gap.to));
    let ends = bare.iter().map(|gap| gap.from).chain([b.x]);
    starts
        .zip(ends)
        .map(|(from, to)| Span { from, to })
        .max_by(|l, r| l.length().total_cmp(&r.length()))
        .unwrap_or(Span { from: a.x, to: b.x })
}

/// An untrained shoot that grows from the top of the cordon between the two, no nearer to either than is let pass:
/// it is a season ahead of a bud.
fn stand_up(c: &Seen<'_>, a: Place, b: Place, bare: &[Span]) -> Option<(Work, f64)> {
    let least = c.limit(Limit::UprightSpacingMin);
    let fits = |x: f64| {
        let beside = |from: f64, to: f64| from < to && !under(c.apart(from, to).0, least);
        beside(a.x, x) && beside(x, b.x)
    };
    let middle = longest_wood(a, b, bare).middle();
    [a.tree, b.tree]
        .into_iter()
        .filter_map(|id| c.tree(id))
        .flat_map(|seen| seen.pairs().map(move |(s, course)| (seen, s, course)))
        .filter(|(seen, s, course)| {
            s.pose == Pose::Free
                && s.face == Face::Top
                && !s.units.is_empty()
                && fits(course.base.x)
                && s.parent
                    .and_then(|p| seen.tree.shoot(p))
                    .is_some_and(|p| p.pose.is_laid())
        })
        .min_by(|(_, _, a), (_, _, b)| {
            (a.base.x - middle)
                .abs()
                .total_cmp(&(b.base.x - middle).abs())
        })
        .map(|(seen, s, course)| {
            (
                Work::Stand {
                    tree: seen.tree.id,
                    shoot: s.id,
                    lean_deg: Deg::new(0.0),
                },
                course.base.x,
            )
        })
}
