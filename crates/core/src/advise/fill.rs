//! Which of the wood that can be laid is laid, the whole row seen at once.

use super::{Choosing, Next, NextBest, Weight, Weights, Worse};
use crate::arrange::Arrange;
use crate::check::{Context, FillWay, Finding, Remedy};
use crate::cover::{Cover, Laid, Span, filled};
use crate::pose::Posed;
use crate::row::{Limit, Pose, Toward};
use crate::solve::fill::{self, Against, Row, Way, fill};
use std::sync::Arc;

/// The rules whose remedies lay wood into a bare stretch.
const RULES: [&str; 2] = ["cordon-gap", "leans-opposed"];
/// Remedies that bring other wood than there is, or lay the whole row's: they are no choice between one tree's ways.
const OTHERS: [&str; 2] = ["remedy-replant", "remedy-lay-all"];
/// An end that has not grown for more seasons than this is none to wait for.
const GREW: u8 = 2;

/// What a way is of a tree: which of the ways to fill it takes.
type Takes = Vec<usize>;

/// Puts first, in what was found, the work that fills best along the whole row; where it is better to wait or to leave it, none is
/// left. Tells of that work how much worse the next best is. What was `refused` as the row stands is no choice.
pub(super) fn choose(found: &mut [Finding], by: &Choosing<'_>) -> Vec<Next> {
    let (context, cover, weights) = (by.context, by.row.cover(), by.weights);
    if !found.iter().any(|f| RULES.contains(&f.rule)) {
        return Vec::new();
    }
    let mut ways = by.row.ways_to_fill();
    ways.retain(|way| !by.refused.contains(&way.remedy.work));
    // Which ways are each tree's.
    let mut owned: Vec<usize> = (0..ways.len()).collect();
    owned.arrange_by_key(|w| ways[*w].tree);
    let own = |posed: &Posed| {
        let id = posed.tree().id;
        let first = owned.partition_point(|w| ways[*w].tree < id);
        let all = owned[first..].iter().copied();
        all.take_while(|w| ways[*w].tree == id).collect()
    };
    // Laid wood stands in the order of the trees.
    let mut laid = &cover.laid[..];
    let all = context.row.posed().iter();
    let all = all.map(|posed| {
        let more = laid.iter().position(|l| l.tree != posed.tree().id);
        let lies;
        (lies, laid) = laid.split_at(more.unwrap_or(laid.len()));
        of_tree(context, cover, posed, lies, own(posed), &ways, weights)
    });
    let mut all: Vec<(Vec<Way>, Vec<Takes>)> = all.filter(|(ways, _)| !ways.is_empty()).collect();
    // As their wood begins, and not as they stand: one that leans back may come before its neighbour.
    all.arrange_by(|a, b| a.0[0].left.total_cmp(&b.0[0].left));
    let (mut row, mut trees) = (ends(context), Vec::new());
    for (of_tree, takes) in all {
        row.tree(of_tree);
        trees.push(takes);
    }
    let costs = fill::Weights {
        gap: 1.0,
        gap_each: 0.0,
        gap_free: 0.0,
        overlap: weights.get(Weight::Overlap),
        overlap_each: weights.get(Weight::OverlapEach),
        overlap_free: context.targets.let_pass(Limit::OverlapMax),
    };
    // Places and costs are finite, and every tree has the way that it lies: there is a best.
    let Ok(best) = fill(&row, &costs) else {
        return Vec::new();
    };
    let mut chosen: Vec<(&FillWay, Option<NextBest>)> = Vec::new();
    for (i, takes) in trees.iter().enumerate() {
        let taken = &takes[best.choice[i]];
        if taken.is_empty() {
            continue;
        }
        // The same work, with an end that grows besides, is no other.
        let next = fill::otherwise(&row, &costs, &best, i);
        let next = next.filter(|(other, _)| takes[other.choice[i]] != *taken);
        let next = next.map(|(other, worse)| NextBest {
            worse: Worse::Wire(worse),
            said: takes[other.choice[i]]
                .first()
                .map(|w| ways[*w].remedy.said.clone()),
        });
        let taken = taken.iter();
        chosen.extend(taken.map(|w| (&ways[*w], next.clone())));
    }
    for finding in found.iter_mut().filter(|f| RULES.contains(&f.rule)) {
        put_first(finding, chosen.iter().map(|(way, _)| *way));
    }
    let next = |(way, next): (&FillWay, Option<NextBest>)| Next {
        work: way.remedy.work.clone(),
        next,
    };
    chosen.into_iter().map(next).collect()
}

fn put_first<'w>(finding: &mut Finding, mut chosen: impl Iterator<Item = &'w FillWay>) {
    let here = Span {
        from: finding.x,
        to: finding.x + finding.width,
    };
    let meets = |way: &&FillWay| way.gap.within(here).length() > 0.0;
    let other = |r: &Remedy| OTHERS.contains(&r.said.key);
    finding.remedies.retain(other);
    finding
        .remedies
        .extend(chosen.find(meets).map(|way| way.remedy.clone()));
}

fn ends(context: &Context<'_>) -> Row {
    // Wood that leans the other way may lie over the next tree's: what is bare lies beyond the end of all.
    let whole = (context.row.from.f(), context.row.to.f());
    Row::new(Some(whole), Against::Reach)
}

/// From the left end of laid wood to its right one, and what of that is bare.
fn hull(laid: &[Laid]) -> Option<(Span, f64)> {
    let spans: Vec<Span> = laid.iter().map(|l| l.span).collect();
    let whole = spans.iter().copied().reduce(|a, b| Span {
        from: a.from.min(b.from),
        to: a.to.max(b.to),
    })?;
    Some((whole, whole.length() - filled(spans, whole)))
}

/// The ways of one tree: as it lies, with one of its shoots laid, or two into different stretches; each also as its ends are expected to
/// grow.
fn of_tree(
    context: &Context<'_>,
    cover: &Cover,
    posed: &Arc<Posed>,
    own: &[Laid],
    can: Vec<usize>,
    ways: &[FillWay],
    weights: &Weights,
) -> (Vec<Way>, Vec<Takes>) {
    let tree = posed.tree();
    let late = f64::from(context.row.leaf) > context.targets.get(Limit::FillDueLeaf);
    let wait = if late { 1.0 } else { weights.get(Weight::Wait) };
    let now = hull(own);
    if now.is_none() && can.is_empty() {
        return (Vec::new(), Vec::new());
    }
    let foot = Span::between(tree.foot.f(), tree.foot.f());
    let (lies, bare) = now.unwrap_or((foot, 0.0));
    let way = |span: Span, cost: f64| Way {
        left: span.from,
        right: span.to,
        cost,
    };
    let mut all: Vec<(Way, Takes)> = vec![(way(lies, bare), Vec::new())];
    let mut single: Vec<(usize, Span, f64)> = Vec::new();
    for at in can {
        let Some((span, bare)) = hull(&ways[at].laid) else {
            continue;
        };
        if tree.waits_as_stock(context.row.leaf) {
            // Stock that stands is laid in its time: what it will fill waits for it.
            let waits = wait * span.length();
            all.push((way(span, ways[at].cost + bare + waits), Vec::new()));
            continue;
        }
        let upright = if ways[at].costs_upright {
            weights.get(Weight::Upright)
        } else {
            0.0
        };
        let cost = ways[at].cost + upright + bare;
        single.push((at, span, cost));
        all.push((way(span, cost), vec![at]));
    }
    for (i, (a, left, one)) in single.iter().enumerate() {
        for (b, right, two) in &single[i + 1..] {
            let shoot = |w: usize| ways[w].remedy.work.first().map(|w| w.subject().shoot);
            let uprights = |w: usize| usize::from(ways[w].costs_upright);
            let spared = uprights(*a) + uprights(*b) <= ways[*a].spares;
            if ways[*a].gap == ways[*b].gap || shoot(*a) == shoot(*b) || !spared {
                continue;
            }
            let both = Span {
                from: left.from.min(right.from),
                to: left.to.max(right.to),
            };
            // What is bare as it lies counts once.
            all.push((way(both, one + two - bare), vec![*a, *b]));
        }
    }
    for toward in [Toward::Left, Toward::Right] {
        let by = grows(context, cover, posed, lies, toward);
        for at in 0..all.len() {
            let (mut grown, takes) = all[at].clone();
            let end = match toward {
                Toward::Left => (&mut grown.left, lies.from),
                Toward::Right => (&mut grown.right, lies.to),
            };
            if by <= 0.0 || *end.0 != end.1 {
                continue;
            }
            *end.0 += by * toward.sign();
            grown.cost += wait * by;
            all.push((grown, takes));
        }
    }
    all.into_iter().unzip()
}

/// By how much the end of a tree's laid wood is expected to fill the bare stretch beside it, mm, in one season.
fn grows(
    context: &Context<'_>,
    cover: &Cover,
    posed: &Arc<Posed>,
    lies: Span,
    toward: Toward,
) -> f64 {
    let end = match toward {
        Toward::Left => lies.from,
        Toward::Right => lies.to,
    };
    let top = context.terms.geometry.wire + context.targets.get(Limit::CordonBand);
    let is_end = |(shoot, course): (&crate::row::Shoot, &crate::pose::Course)| {
        let last = shoot.units.last().map_or(0, |u| u.leaf);
        matches!(shoot.pose, Pose::Laid { toward: way, .. } if way == toward)
            && context.row.leaf.saturating_sub(last) <= GREW
            && course.tip().y <= top
            && (course.tip().x - end).abs() < 1.0
    };
    if !posed.pairs().any(is_end) {
        return 0.0;
    }
    let beside = cover.gaps.iter().find(|gap| match toward {
        Toward::Left => (gap.span.to - end).abs() < 1.0,
        Toward::Right => (gap.span.from - end).abs() < 1.0,
    });
    let growth = context.targets.get(Limit::EndGrowth);
    beside.map_or(0.0, |gap| gap.span.length().min(growth))
}
