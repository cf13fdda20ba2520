//! Ways to fill a bare stretch of cordon: each is tried on the row, and offered with what it leaves bare.

use super::Remedy;
use super::placed::found_uprights;
use super::seen::{Seen, SeenTree, Way, over, under};
use super::stock_too_short::stock_for;
use crate::arrange::Arrange;
use crate::cover::{Cover, Laid, Span, Stretch, joined};
use crate::pose::{Course, layout};
use crate::row::{GrowthUnit, Kind, Limit, Pose, Shoot, ShootId, Toward, Tree, TreeId, notch_take};
use crate::said::{Arg, Args};
use crate::units::{Deg, Mm};
use crate::work::Work;

/// Work that gains less than this, mm, is not worth a walk.
const LEAST_GAIN: f64 = 10.0;
/// How far from the stretch a lost tree's foot may be, mm: a slanting stem comes up some way beside it.
const REPLANT_REACH: f64 = 1000.0;
/// Share of an upright's length that at least comes to lie on the wire.
const LEAST_LAID: f64 = 0.5;
/// Share of what it fills for which a laid shoot may lie beside its own tree's wood.
const OWN_DOUBLE: f64 = 1.0 / 3.0;
/// What a cut through a leader costs, as mm of wire: as one that ends an overlap.
const LEADER_CUT: f64 = 50.0;
/// At most so many ways are offered.
const MOST: usize = 3;

pub(super) fn remedies(c: &Seen<'_>, gap: &Stretch) -> Vec<Remedy> {
    if c.judging {
        return Vec::new();
    }
    let mut ways: Vec<&Way> = ways_into(c, gap).iter().collect();
    let most = c.limit(Limit::GapMax);
    ways.arrange_by(|a, b| {
        over(a.leaves, most)
            .cmp(&over(b.leaves, most))
            .then(a.costs_upright.cmp(&b.costs_upright))
            .then(a.cost.total_cmp(&b.cost))
            .then(a.work.len().cmp(&b.work.len()))
    });
    let mut out: Vec<Remedy> = Vec::new();
    // Where none closes it alone: all stems that stand, or else two sides.
    if let Some(first) = ways.first()
        && over(first.leaves, most)
    {
        let together =
            lay_all(c, &ways, gap.span).or_else(|| from_both_sides(c, first, &ways, gap.span));
        out.extend(together);
    }
    let closes = ways.first().is_some_and(|w| !over(w.leaves, most));
    out.extend(ways.iter().take(MOST).map(|way| told_way(c, way)));
    if let Some(new) = replant(c, gap.span) {
        // Wood that is there comes first, where it closes the stretch.
        let behind = out.first().is_some_and(|_| closes);
        out.insert(usize::from(behind), new);
    }
    out.truncate(MOST);
    out
}

/// A way to lay wood into a bare stretch, as it was tried.
#[derive(Clone, Debug)]
pub struct FillWay {
    /// The stretch.
    pub gap: Span,
    /// What it would do.
    pub remedy: Remedy,
    /// The tree.
    pub tree: TreeId,
    /// The tree's laid wood then.
    pub laid: Vec<Laid>,
    /// What the work itself costs, as mm of wire.
    pub cost: f64,
    /// Whether it takes a trained upright from its place: one that crowds another has none.
    pub costs_upright: bool,
    /// Of the tree's trained uprights, how many may still be laid this winter.
    pub spares: usize,
}

/// Every way in which wood of the trees beside may be laid into the row's bare stretches that are findings, from left to right.
pub(super) fn ways_to_fill(c: &Seen<'_>) -> Vec<FillWay> {
    let ways = |gap: &Stretch| {
        let span = gap.span;
        ways_into(c, gap).iter().map(move |way| FillWay {
            gap: span,
            tree: way.tree,
            laid: way.laid.clone(),
            cost: way.by_itself,
            costs_upright: way.costs_upright,
            spares: c.tree(way.tree).map_or(0, spares),
            remedy: told_way(c, way),
        })
    };
    c.flagged_gaps().flat_map(ways).collect()
}

/// The ways to fill one of the cover's bare stretches, by tree and shoot.
fn ways_into<'c>(c: &'c Seen<'_>, gap: &Stretch) -> &'c [Way] {
    let from = |g: &Stretch| g.span.from < gap.span.from;
    let Some(known) = c.ways.get(c.cover.gaps.partition_point(from)) else {
        return &[];
    };
    known.get_or_init(|| {
        let near = trees_near(c, gap).into_iter();
        near.flat_map(|i| ways_of(c, &c.trees[i], gap.span))
            .collect()
    })
}

fn told_way(c: &Seen<'_>, way: &Way) -> Remedy {
    let args = told(c, way.leaves, vec![("part", way.shoot.clone())]);
    Remedy::new(way.key, args, way.work.clone())
}

/// What speaks against laying a shoot, as mm of wire: what stays bare, and what comes to be covered twice, each beyond what
/// measuring may be off; for each millimetre that the shoot is thick, 5 mm, since thick wood splits where it is bent; and a
/// tenth of what is cut off it. So the nearest thin shoot goes before one that fills a little more from farther off. Common
/// practice, no source.
fn cost(c: &Seen<'_>, leaves: f64, doubles: f64) -> f64 {
    let beyond = |mm: f64| (mm - c.limit(Limit::PlaceTolerance)).max(0.0);
    beyond(leaves) + beyond(doubles)
}

/// What of it is the work's own.
fn by_itself(thickness: f64, lost: f64) -> f64 {
    thickness * 5.0 + lost.max(0.0) * 0.1
}

/// Of laid wood that is older than last season's, as much as is expected to stay without uprights, mm: buds come there by notches
/// alone, of which not all grow.
fn notched(c: &Seen<'_>, shoot: &Shoot) -> f64 {
    let older = |u: &GrowthUnit| {
        let seasons = c.moment.leaf.saturating_sub(u.leaf);
        (seasons > 1).then(|| u.kept * (1.0 - notch_take(seasons)))
    };
    shoot.units.iter().filter_map(older).sum()
}

/// Length of wire that a tree's own wood covers more than once, mm: no cut clears what lies under the base of its shoot.
fn own_double(laid: &[Laid]) -> f64 {
    let spans: Vec<Span> = laid.iter().map(|l| l.span).collect();
    let all: f64 = spans.iter().map(|s| s.length()).sum();
    all - joined(spans).iter().map(|s| s.length()).sum::<f64>()
}

/// Of a tree's trained uprights, how many may still be laid this winter: as of what is cut, at most a third, rounded up, so that it keeps what
/// bears.
fn spares(seen: &SeenTree<'_>) -> usize {
    let now = |s: &Shoot| seen.tree.shoot(s.id).map(Shoot::kind);
    let laid = found_uprights(seen).filter(|s| now(s) == Some(Kind::Leader));
    let most = found_uprights(seen).count().div_ceil(3);
    most.saturating_sub(laid.count())
}

/// Thickness of new stock, tenths of a millimetre: from memory, and no matter for the length.
const STOCK_DIAMETER_DMM: u16 = 150;

/// New stock in the place of a lost tree, laid the way that one was planted for: the one that fills most.
fn replant(c: &Seen<'_>, gap: Span) -> Option<Remedy> {
    let feet = c.feet_within(Span {
        from: gap.from - REPLANT_REACH,
        to: gap.to + REPLANT_REACH,
    });
    let ways = feet.filter(|i| c.trees[*i].tree.is_lost()).filter_map(|i| {
        let tree = c.trees[i].tree;
        let planted = |length: f64| {
            let work = vec![
                Work::ReplaceTree {
                    tree: tree.id,
                    planted: tree.planted,
                    length_mm: Mm::round(length),
                    diameter_dmm: STOCK_DIAMETER_DMM,
                },
                Work::Lay {
                    tree: tree.id,
                    shoot: ShootId::STEM,
                    toward: tree.planted.toward,
                    rise_deg: Deg::new(0.0),
                },
            ];
            let after = c.after(tree, &work)?;
            Some((length, work, after))
        };
        let whole = planted(libm::ceil(stock_for(c, i)))?;
        // Wood of others may lie where the next tree's place would be: stock is ordered as long as what is bare.
        let tip = layout(&whole.2, c.g).first()?.tip().x;
        let beyond = beyond(tip, tree.planted.toward, gap);
        let (length, work, after) = match over(beyond, c.limit(Limit::OverlapMax)) {
            true => planted(libm::ceil(whole.0 - beyond)).unwrap_or(whole),
            false => whole,
        };
        let (leaves, _) = tried(c, gap, &[(tree.id, c.laid(&after))])?;
        Some((leaves, i, length, work))
    });
    let (leaves, i, length, work) = ways.min_by(|a, b| a.0.total_cmp(&b.0))?;
    Some(Remedy::new(
        "remedy-replant",
        told(
            c,
            leaves,
            vec![
                ("tree", c.trees[i].number()),
                ("length", Arg::Length(length)),
            ],
        ),
        work,
    ))
}

/// How far a tip reaches beyond the end of a stretch, mm.
fn beyond(tip: f64, toward: Toward, gap: Span) -> f64 {
    match toward {
        Toward::Right => tip - gap.to,
        Toward::Left => gap.from - tip,
    }
}

/// What a text says of the stretch that is left.
fn told(c: &Seen<'_>, leaves: f64, mut args: Args) -> Args {
    let outcome = match over(leaves, c.limit(Limit::PlaceTolerance)) {
        true => "left",
        false => "closed",
    };
    args.push(("outcome", Arg::Text(outcome.into())));
    args.push(("leaves", Arg::Length(leaves)));
    args
}

/// Where the trees stand that may reach into the stretch: those whose wood ends there, those planted there, and
/// the nearest living one on either side.
pub(super) fn trees_near(c: &Seen<'_>, gap: &Stretch) -> Vec<usize> {
    let feet = c.feet_within(gap.span);
    let living = |i: &usize| !c.trees[*i].tree.is_lost();
    let before = (0..feet.start).rev().find(living);
    let after = (feet.end..c.trees.len()).find(living);
    let mut out: Vec<usize> = feet
        .filter(living)
        .chain(before)
        .chain(after)
        .chain(gap.by.iter().filter_map(|(t, _)| c.tree_index(*t)))
        .collect();
    out.arrange();
    out.dedup();
    out
}

fn ways_of(c: &Seen<'_>, seen: &SeenTree<'_>, gap: Span) -> Vec<Way> {
    let mut out = Vec::new();
    for (shoot, course) in seen.pairs() {
        for (key, toward) in moves(c, seen.tree, shoot, course, gap) {
            out.extend(try_lay(c, seen.tree, shoot, key, toward, gap));
        }
    }
    if spares(seen) == 0 {
        out.retain(|way| !way.costs_upright);
    }
    out
}

/// Whether it can still be bent: last season's wood, and such of two seasons as is thin.
fn is_young(c: &Seen<'_>, shoot: &Shoot) -> bool {
    let age = shoot.born().map_or(0, |b| c.row.leaf.saturating_sub(b));
    age <= 1 || (age == 2 && !over(shoot.diameter, c.limit(Limit::BendThick)))
}

/// The ways in which a shoot may be laid into the stretch.
fn moves(
    c: &Seen<'_>,
    tree: &Tree,
    shoot: &Shoot,
    course: &Course,
    gap: Span,
) -> Vec<(&'static str, Toward)> {
    if !is_young(c, shoot) {
        return Vec::new();
    }
    if let Pose::Laid { toward, rise } = shoot.pose {
        return match rise.degrees() > 0.0 {
            true => vec![("remedy-lower-leader", toward)],
            false => Vec::new(),
        };
    }
    if shoot.units.is_empty() || shoot.kind() == Kind::Stub {
        return Vec::new();
    }
    // A stretch that takes no upright is not worth one.
    if shoot.kind() == Kind::Upright && under(gap.length(), c.limit(Limit::UprightSpacing)) {
        return Vec::new();
    }
    let base = course.base;
    let parent = shoot.parent.and_then(|p| tree.shoot(p));
    let Some(parent) = parent else {
        // Stock that still stands: it goes the way it was planted for.
        return match tree.standing_stem() {
            Some(_) => vec![("remedy-lay-leader", tree.planted.toward)],
            None => Vec::new(),
        };
    };
    // No farther from the stretch than one upright place, or it would lie beside wood that is there already; what crowds another, and
    // has no place of its own, twice as far.
    let spares = shoot.kind() == Kind::Upright && c.is_crowded(tree.id, shoot.id);
    let reach = c.let_pass(Limit::UprightSpacingMax) * if spares { 2.0 } else { 1.0 };
    if over(gap.from - base.x, reach)
        || over(base.x - gap.to, reach)
        || base.y > c.g.wire + c.limit(Limit::CordonBand)
    {
        return Vec::new();
    }
    let toward = if base.x <= gap.middle() {
        Toward::Right
    } else {
        Toward::Left
    };
    match parent.pose {
        Pose::Laid { toward: way, .. } if way == toward => vec![("remedy-fill-forward", toward)],
        Pose::Laid { .. } => vec![("remedy-fill-backward", toward)],
        _ if parent.parent.is_none() => vec![("remedy-lay-leader", toward)],
        _ => Vec::new(),
    }
}

fn try_lay(
    c: &Seen<'_>,
    tree: &Tree,
    shoot: &Shoot,
    key: &'static str,
    toward: Toward,
    gap: Span,
) -> Option<Way> {
    let lay = Work::Lay {
        tree: tree.id,
        shoot: shoot.id,
        toward,
        rise_deg: Deg::new(0.0),
    };
    let trained = shoot.kind() == Kind::Upright && !c.is_crowded(tree.id, shoot.id);
    let mut work = vec![lay];
    let mut after = c.after(tree, &work)?;
    // What would lie beside the wood beyond the stretch is cut off: a shoot ends where the next begins.
    let index = after.index(shoot.id)?;
    let tip = layout(&after, c.g)[index].tip().x;
    let beyond = beyond(tip, toward, gap);
    let keep = Mm::round(libm::ceil(shoot.length() - beyond));
    if over(beyond, c.limit(Limit::OverlapMax)) {
        // A trained upright is not spent on a stretch that takes little of it; what crowds another goes anyway.
        if trained && keep.f() < shoot.length() * LEAST_LAID {
            return None;
        }
        work.push(Work::CutBack {
            tree: tree.id,
            shoot: shoot.id,
            keep_mm: keep,
        });
        after = c.after(tree, &work)?;
    }
    let mut laid = c.laid(&after);
    let (mut leaves, mut doubles) = tried(c, gap, &[(tree.id, laid.clone())])?;
    let own_doubled = |laid: &[Laid]| (own_double(laid) - own_double(c.laid_now(tree.id))).max(0.0);
    let mut own = own_doubled(&laid);
    let mut cut = 0.0;
    // What it lies beside of its own tree is wood for nothing, and may be a third of what it fills. More is taken off where
    // the shoot takes the place of its leader's end; under anything else no cut clears it.
    if over(own, c.let_pass(Limit::OverlapMax)) && own > (gap.length() - leaves) * OWN_DOUBLE {
        let end = end_of_leader(tree, shoot).filter(|_| key == "remedy-fill-forward")?;
        cut = LEADER_CUT;
        work.push(end);
        after = c.after(tree, &work)?;
        laid = c.laid(&after);
        (leaves, doubles) = tried(c, gap, &[(tree.id, laid.clone())])?;
        own = own_doubled(&laid);
    }
    let laid_on = after.shoot(shoot.id)?;
    let by_itself = by_itself(shoot.diameter, shoot.length() - laid_on.length())
        + notched(c, laid_on)
        + own
        + cut;
    Some(Way {
        by_itself,
        key,
        tree: tree.id,
        shoot: c.name(tree.id, shoot.id),
        work,
        laid,
        leaves,
        cost: cost(c, leaves, doubles) + by_itself,
        costs_upright: trained,
    })
}

/// The cut that ends a shoot's leader where the shoot begins; `None` where more stands beyond.
fn end_of_leader(tree: &Tree, shoot: &Shoot) -> Option<Work> {
    let leader = shoot.parent?;
    let beyond = |s: &Shoot| s.parent == Some(leader) && s.id != shoot.id && s.at >= shoot.at;
    let is_last = !tree.shoots.iter().any(beyond);
    is_last.then(|| Work::CutBack {
        tree: tree.id,
        shoot: leader,
        keep_mm: Mm::round(libm::ceil(shoot.at)),
    })
}

/// What of the stretch stays bare with other wood on these trees, and what is covered twice then that was not; `None` where too little is gained, or as much is
/// laid bare elsewhere.
fn tried(c: &Seen<'_>, gap: Span, instead: &[(TreeId, Vec<Laid>)]) -> Option<(f64, f64)> {
    let bare = |cover: &Cover| cover.owed - cover.filled;
    let leaves = bare(&c.cover_within(gap, instead));
    let mut window = gap;
    for (tree, laid) in instead {
        let now = c.tree(*tree).map(|t| c.laid_now(t.tree.id));
        for l in laid.iter().chain(now.unwrap_or_default()) {
            window.from = window.from.min(l.span.from);
            window.to = window.to.max(l.span.to);
        }
    }
    let (was, is) = (c.cover_within(window, &[]), c.cover_within(window, instead));
    let gain = bare(&was) - bare(&is);
    let doubles = is.doubled() - was.doubled();
    // What comes to lie beside another for longer than it fills is in the way.
    let worth = gain >= LEAST_GAIN && doubles - c.let_pass(Limit::OverlapMax) <= gain;
    (gap.length() - leaves >= LEAST_GAIN && worth).then_some((leaves, doubles))
}

/// All stock that still stands is laid, where there is more of it than two sides.
fn lay_all(c: &Seen<'_>, ways: &[&Way], gap: Span) -> Option<Remedy> {
    let stands =
        |way: &&&Way| matches!(way.work[0], Work::Lay { shoot, .. } if shoot == ShootId::STEM);
    let standing: Vec<&&Way> = ways.iter().filter(stands).collect();
    if standing.len() < 3 {
        return None;
    }
    let instead: Vec<_> = standing.iter().map(|w| (w.tree, w.laid.clone())).collect();
    let (leaves, _) = tried(c, gap, &instead)?;
    let mut work: Vec<Work> = standing.iter().flat_map(|w| w.work.clone()).collect();
    work.arrange_by_key(Work::subject);
    Some(Remedy::new(
        "remedy-lay-all",
        told(
            c,
            leaves,
            vec![("count", Arg::Count(standing.len() as i64))],
        ),
        work,
    ))
}

/// The best way together with one on another tree that leaves less than either alone.
fn from_both_sides(c: &Seen<'_>, first: &Way, ways: &[&Way], gap: Span) -> Option<Remedy> {
    let (other, leaves) = ways
        .iter()
        .filter(|w| w.tree != first.tree)
        .filter_map(|w| {
            let both = [(first.tree, first.laid.clone()), (w.tree, w.laid.clone())];
            let (leaves, _) = tried(c, gap, &both)?;
            (leaves + LEAST_GAIN <= first.leaves).then_some((w, leaves))
        })
        .min_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(Remedy::new(
        "remedy-fill-both",
        told(
            c,
            leaves,
            vec![
                ("part", first.shoot.clone()),
                ("other", other.shoot.clone()),
            ],
        ),
        first.work.iter().chain(&other.work).cloned().collect(),
    ))
}
