//! A stretch of wire that two cordons cover.

use super::seen::{Seen, SeenTree, over};
use super::{Finding, Part, Remedy, Severity};
use crate::arrange::Arrange;
use crate::cover::{Laid, Span, Stretch, on_cordon};
use crate::row::{Limit, Pose, Shoot, ShootId, Toward, TreeId};
use crate::said::{Arg, Args};
use crate::units::{Deg, Mm};
use crate::work::Work;

pub(super) const RULE: &str = "cordon-overlap";

/// A leader cut back keeps at least this much wood on the wire, mm: less bears nothing worth the tie.
const LEAST_CORDON: f64 = 100.0;

/// Of each kind of remedy, at most so many are tried.
const MOST_TRIED: usize = 8;

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let most = c.limit(Limit::OverlapMax);
    c.cover
        .overlaps
        .iter()
        .filter(|o| c.is_near(o.span.from, o.span.to))
        .filter(|o| over(o.span.length(), c.let_pass(Limit::OverlapMax)))
        .map(|o| {
            // A tree's end shoot may begin beyond where its neighbour does: the trees don't stand in order.
            let mut trees: Vec<_> = o.by.iter().map(|(tree, _)| *tree).collect();
            trees.arrange();
            trees.dedup();
            let mut args = vec![
                ("length", Arg::Length(o.span.length())),
                ("from", Arg::Length(o.span.from)),
            ];
            let beside = match trees.len() {
                0 | 1 => "within",
                _ => "between",
            };
            args.push(("where", Arg::Text(beside.into())));
            if let (Some(left), Some(right)) = (trees.first(), trees.last()) {
                args.push(("left", Arg::Count(left.0.into())));
                args.push(("right", Arg::Count(right.0.into())));
            }
            Finding {
                rule: RULE,
                severity: Severity::Soon,
                x: o.span.from,
                z: c.g.wire,
                width: o.span.length(),
                subjects: o
                    .by
                    .iter()
                    .map(|(tree, shoot)| Part {
                        tree: *tree,
                        shoot: Some(*shoot),
                    })
                    .collect(),
                measured: o.span.length(),
                allowed: most,
                limit: Limit::OverlapMax,
                args,
                remedies: remedies(c, o),
            }
        })
        .collect()
}

fn remedies(c: &Seen<'_>, o: &Stretch) -> Vec<Remedy> {
    if c.judging {
        return Vec::new();
    }
    let seen = |(tree, shoot): &(TreeId, ShootId)| {
        let seen = c.tree(*tree)?;
        Some((seen, seen.tree.shoot(*shoot)?, c.laid_at(*tree, *shoot)?))
    };
    let tips = o.by.iter().filter_map(seen).filter_map(|(t, s, laid)| {
        let end = tip_in(s, laid, o.span)?;
        Some((t, s, end))
    });
    let loose =
        o.by.iter()
            .filter_map(seen)
            .filter(|(t, s, _)| is_end_shoot(t, s));
    let mut ways: Vec<(f64, Remedy)> = tips
        .take(MOST_TRIED)
        .filter_map(|(t, s, end)| cut_back(c, t, s, end, o))
        .collect();
    ways.extend(
        loose
            .take(MOST_TRIED)
            .filter_map(|(t, s, _)| stand_up(c, t, s, o.span)),
    );
    ways.arrange_by(|a, b| a.0.total_cmp(&b.0));
    ways.into_iter().map(|(_, r)| r).take(3).collect()
}

/// A tip in an overlap: how much of its shoot's wood lies there, measured along the shoot, and how much of it covers
/// the wire before.
struct Tip {
    inside: f64,
    rest: f64,
}

fn tip_in(shoot: &Shoot, laid: &Laid, o: Span) -> Option<Tip> {
    let Pose::Laid { toward, rise } = shoot.pose else {
        return None;
    };
    let (inside, rest) = match toward {
        Toward::Right if (laid.span.to - o.to).abs() < 1.0 => {
            (laid.span.to - o.from, o.from - laid.span.from)
        }
        Toward::Left if (laid.span.from - o.from).abs() < 1.0 => {
            (o.to - laid.span.from, laid.span.to - o.to)
        }
        _ => return None,
    };
    Some(Tip {
        inside: inside / libm::cos(rise.radians()),
        rest,
    })
    .filter(|tip| tip.rest >= LEAST_CORDON)
}

/// The leader whose tip lies in the overlap ends where the other begins.
fn cut_back(
    c: &Seen<'_>,
    seen: &SeenTree<'_>,
    shoot: &Shoot,
    tip: Tip,
    o: &Stretch,
) -> Option<(f64, Remedy)> {
    let keep = Mm::round(libm::ceil(shoot.length() - tip.inside));
    let own = o.by.iter().all(|(tree, _)| *tree == seen.tree.id);
    let o = o.span;
    let beyond =
        |s: &&Shoot| s.parent == Some(shoot.id) && s.at > keep.f() && s.holds_upright_place();
    // As the crew finds it: what comes off by itself needs no cut where this takes it.
    let lost = seen.found().shoots.iter().filter(beyond).count();
    let bears = seen.tree.shoots.iter().any(|s| beyond(&s));
    // A tree's own wood is no reason to take off what bears on it.
    if own && bears {
        return None;
    }
    tried(
        c,
        seen,
        o,
        "remedy-end-leader",
        vec![
            ("part", seen.name(shoot.id)),
            ("keep", Arg::Length(keep.f())),
            ("uprights", Arg::Count(lost as i64)),
        ],
        Work::CutBack {
            tree: seen.tree.id,
            shoot: shoot.id,
            keep_mm: keep,
        },
    )
}

/// Whether it was laid on from other laid wood and bears nothing yet.
fn is_end_shoot(seen: &SeenTree<'_>, shoot: &Shoot) -> bool {
    on_cordon(seen.tree, shoot.parent)
        && seen.tree.shoots.iter().all(|s| s.parent != Some(shoot.id))
}

/// A laid shoot too many is stood up as an upright.
fn stand_up(c: &Seen<'_>, seen: &SeenTree<'_>, shoot: &Shoot, o: Span) -> Option<(f64, Remedy)> {
    tried(
        c,
        seen,
        o,
        "remedy-stand-up",
        vec![("part", seen.name(shoot.id))],
        Work::Stand {
            tree: seen.tree.id,
            shoot: shoot.id,
            lean_deg: Deg::new(0.0),
        },
    )
}

/// The remedy with what it leaves, where it shortens the overlap and lays no more bare than is let pass.
fn tried(
    c: &Seen<'_>,
    seen: &SeenTree<'_>,
    o: Span,
    key: &'static str,
    mut args: Args,
    work: Work,
) -> Option<(f64, Remedy)> {
    let work = vec![work];
    let after = c.laid(&c.after(seen.tree, &work)?);
    let mut window = o;
    for l in after.iter().chain(c.laid_now(seen.tree.id)) {
        window.from = window.from.min(l.span.from);
        window.to = window.to.max(l.span.to);
    }
    let instead = [(seen.tree.id, after)];
    let leaves = c.cover_within(o, &instead).doubled();
    let bared = c.cover_within(window, &[]).filled - c.cover_within(window, &instead).filled;
    if leaves > o.length() - 10.0 || over(bared, c.limit(Limit::GapMax)) {
        return None;
    }
    args.push(("leaves", Arg::Length(leaves)));
    args.push((
        "outcome",
        Arg::Text(if leaves < 1.0 { "closed" } else { "left" }.into()),
    ));
    Some((leaves, Remedy::new(key, args, work)))
}
