//! Too few or too many uprights on a tree for the length of its cordon.

use super::placed::can_spare;
use super::seen::{Seen, SeenTree, distance, over, under};
use super::uprights_too_far::MOST_BUDS;
use super::{Finding, Remedy, Severity};
use crate::cover::{Place, Span, filled};
use crate::row::Limit;
use crate::said::{Arg, Args};
use crate::units::Mm;
use crate::work::Work;

pub(super) const FEW: &str = "uprights-too-few";
pub(super) const MANY: &str = "uprights-too-many";

pub(super) fn find_few(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::UprightSpacingMax);
    each(c)
        .filter_map(|mut t| {
            let enough = !too_few(c, t.seen, t.places.len());
            let all = t.places.clone();
            // A notched bud may not grow.
            t.places.retain(|p| !c.is_notched(*p));
            if !too_few(c, t.seen, t.places.len()) {
                return None;
            }
            let least = libm::ceil(t.length / most - 1e-9);
            let mut args = told(&t, least);
            args.push(("notched", c.notched(&all)));
            let finding = t.finding(c, FEW, Limit::UprightSpacingMax);
            Some(Finding {
                args,
                severity: match enough {
                    true => Severity::Note,
                    false => finding.severity,
                },
                remedies: match enough {
                    true => Vec::new(),
                    false => keep_buds(c, &t).into_iter().collect(),
                },
                ..finding
            })
        })
        .collect()
}

pub(super) fn find_many(c: &Seen<'_>) -> Vec<Finding> {
    let least = c.limit(Limit::UprightSpacingMin);
    each(c)
        .filter(|t| t.places.len() > 1 && under((t.length + off(c)) / t.places.len() as f64, least))
        .map(|t| {
            let most = libm::floor(t.length / least + 1e-9).max(1.0);
            Finding {
                args: told(&t, most),
                remedies: take_off(c, &t, most as usize).into_iter().collect(),
                ..t.finding(c, MANY, Limit::UprightSpacingMin)
            }
        })
        .collect()
}

/// Whether so many uprights are fewer than a tree's cordon needs.
pub(super) fn too_few(c: &Seen<'_>, seen: &SeenTree<'_>, uprights: usize) -> bool {
    let each = (length(c, seen) - off(c)) / uprights.max(1) as f64;
    over(each, c.limit(Limit::UprightSpacingMax))
}

/// Length of wire that a tree covers, once or more, mm.
fn length(c: &Seen<'_>, seen: &SeenTree<'_>) -> f64 {
    let laid = || c.laid_now(seen.tree.id).iter().map(|l| l.span);
    let of = || filled(laid().collect(), c.whole());
    *seen.length.get_or_init(of)
}

/// By how much the measured length of a tree's cordon may be off, mm: both its ends are places.
fn off(c: &Seen<'_>) -> f64 {
    2.0 * c.limit(Limit::PlaceTolerance)
}

/// Uprights off the most crowded tree that reaches into a stretch, down to the spacing aimed at; none where no tree
/// there has more than that.
pub(super) fn thin_out(c: &Seen<'_>, span: Span) -> Option<Remedy> {
    let aim = c.limit(Limit::UprightSpacing);
    each(c)
        .filter(|t| {
            let reach = c.reach(t.seen);
            reach.from < span.to && reach.to > span.from
        })
        .map(|t| (libm::round(t.length / aim).max(1.0), t))
        .filter(|(most, t)| t.places.len() as f64 > *most)
        .min_by(|(_, a), (_, b)| {
            let each = |t: &Counted<'_>| t.length / t.places.len() as f64;
            each(a).total_cmp(&each(b))
        })
        .and_then(|(most, t)| take_off(c, &t, most as usize))
}

/// A tree that has wood on the wire.
struct Counted<'c> {
    seen: &'c SeenTree<'c>,
    /// Length of wire that it covers, once or more, mm.
    length: f64,
    /// Which of the row's places its uprights, buds and stubs are, from left to right.
    places: Vec<usize>,
}

impl Counted<'_> {
    fn finding(&self, c: &Seen<'_>, rule: &'static str, limit: Limit) -> Finding {
        let each = self.length / self.places.len().max(1) as f64;
        self.seen.finding(c, rule, Severity::Soon, limit, each)
    }
}

fn each<'c>(c: &'c Seen<'_>) -> impl Iterator<Item = Counted<'c>> {
    c.near.trees.clone().filter_map(|i| {
        let seen = &c.trees[i];
        let own = c.places_of(i).iter().copied();
        let length = length(c, seen);
        (length > 0.0).then(|| Counted {
            seen,
            length,
            places: own.filter(|p| !seen.is_spare(c.places[*p].shoot)).collect(),
        })
    })
}

fn told(t: &Counted<'_>, asked: f64) -> Args {
    vec![
        ("tree", t.seen.number()),
        ("length", Arg::Length(t.length)),
        ("count", Arg::Count(t.places.len() as i64)),
        ("asked", Arg::Count(asked as i64)),
    ]
}

/// Buds kept or brought on at even spaces wherever the cordon has none, from half a space inside each end.
fn keep_buds(c: &Seen<'_>, t: &Counted<'_>) -> Option<Remedy> {
    if c.judging {
        return None;
    }
    let aim = c.limit(Limit::UprightSpacing);
    let least = c.limit(Limit::UprightSpacingMin);
    let mut tree = t.seen.tree.clone();
    let mut work = Vec::new();
    for laid in c.laid_now(t.seen.tree.id) {
        let span = laid.span.within(c.whole());
        if span.length() <= 0.0 {
            continue;
        }
        let course = t.seen.courses[t.seen.tree.index(laid.shoot)?];
        let first = c.places.partition_point(|p| p.x < span.from - aim);
        let mut marks = vec![span.from - aim / 2.0];
        marks.extend(
            c.places[first..]
                .iter()
                .map(|p| p.x)
                .take_while(|x| *x < span.to + aim / 2.0)
                .filter(|x| *x > span.from - aim / 2.0),
        );
        marks.push(span.to + aim / 2.0);
        for pair in marks.windows(2) {
            let space = pair[1] - pair[0];
            let parts = libm::round(space / aim)
                .min(libm::floor(space / least + 1e-9))
                .min(MOST_BUDS as f64);
            for n in 1..parts.max(1.0) as usize {
                let x = pair[0] + space * n as f64 / parts;
                let Some(s) = course.at_x(x) else { continue };
                let s = tree.clear_of_laid(laid.shoot, s);
                let Some(item) = c.budded(tree.id, laid.shoot, Mm::round(s)) else {
                    continue;
                };
                if let Some(after) = c.after(&tree, std::slice::from_ref(&item)) {
                    tree = after;
                    work.push(item);
                }
            }
        }
    }
    (!work.is_empty()).then(|| {
        Remedy::new(
            "remedy-keep-buds-along",
            vec![
                ("tree", t.seen.number()),
                ("buds", Arg::Count(work.len() as i64)),
                (
                    "leaves",
                    distance(t.length / (t.places.len() + work.len()) as f64),
                ),
                ("notched", c.notches(&work)),
            ],
            work,
        )
    })
}

/// One after the other, of the two that stand closest the one that the wall can rather spare, as long as it can spare one of
/// them: what is well placed stays.
fn take_off(c: &Seen<'_>, t: &Counted<'_>, most: usize) -> Option<Remedy> {
    if c.judging {
        return None;
    }
    let mut left: Vec<(Place, f64)> = t
        .places
        .iter()
        .map(|p| (c.places[*p], c.worth(*p)))
        .collect();
    let mut gone = Vec::new();
    while left.len() > most.max(1) {
        let lesser = |i: usize| match left[i - 1].1 < left[i].1 {
            true => i - 1,
            false => i,
        };
        let closest = (1..left.len())
            .filter(|i| can_spare(left[lesser(*i)].1))
            .min_by(|a, b| {
                let space = |i: usize| left[i].0.x - left[i - 1].0.x;
                space(*a).total_cmp(&space(*b))
            });
        let Some(i) = closest else { break };
        gone.push(left.remove(lesser(i)).0.shoot);
    }
    if gone.is_empty() {
        return None;
    }
    let work: Vec<Work> = t
        .seen
        .outermost(&gone)
        .into_iter()
        .map(|shoot| Work::Remove {
            tree: t.seen.tree.id,
            shoot,
        })
        .collect();
    Some(Remedy::new(
        "remedy-take-off-crowded",
        vec![
            ("tree", t.seen.number()),
            ("count", Arg::Count(work.len() as i64)),
            ("leaves", distance(t.length / left.len().max(1) as f64)),
        ],
        work,
    ))
}
