//! Where buds are kept, the whole cordon seen at once.

use super::{Choosing, Next, NextBest, Weight, Worse};
use crate::arrange::{Arrange, arrange_numbers};
use crate::check::{Context, Finding, Remedy, distance};
use crate::cover::{Span, joined};
use crate::row::{Limit, TreeId};
use crate::said::Arg;
use crate::solve::uprights::{self, Candidate, otherwise, solve};
use crate::units::Mm;
use crate::work::{Work, budded};

/// The remedies that keep buds between two uprights, and along a tree.
const KEEP: [&str; 2] = ["remedy-keep-buds", "remedy-keep-buds-along"];
/// How near each other places for buds are looked for, mm: nobody chooses a bud more finely.
const STEP: f64 = 20.0;
/// The longest distance that is weighed one by one, mm.
const LONGEST: f64 = 900.0;

/// A place for a bud: the work that keeps it, and where it comes to stand.
struct Bud {
    x: f64,
    tree: TreeId,
    work: Work,
}

/// Puts buds that part the cordon best in the place of those that were found one space at a time. Tells how much worse the best is
/// without them.
pub(super) fn choose(found: &mut [Finding], by: &Choosing<'_>) -> Vec<Next> {
    let (context, cover, weights) = (by.context, by.row.cover(), by.weights);
    let keeps = |f: &Finding| f.remedies.iter().any(|r| KEEP.contains(&r.said.key));
    if !found.iter().any(keeps) {
        return Vec::new();
    }
    let t = context.targets;
    let most = t.let_pass(Limit::GapMax);
    let wide: Vec<Span> = cover.gaps.iter().map(|g| g.span).collect();
    let wide: Vec<Span> = wide.into_iter().filter(|s| s.length() > most).collect();
    // Along the cordon, without the bare stretches that are findings of their own.
    let mut until = vec![0.0];
    for bare in &wide {
        until.push(until[until.len() - 1] + bare.length());
    }
    let along = |x: f64| {
        let before = wide.partition_point(|s| s.from < x);
        let bare = match before.checked_sub(1) {
            Some(last) => until[last] + (x.min(wide[last].to) - wide[last].from),
            None => 0.0,
        };
        x - bare
    };
    let here: Vec<Span> = found.iter().filter(|f| keeps(f)).map(room).collect();
    let buds = buds(context, &joined(here));
    let standing = by.row.places().iter();
    let mut all: Vec<(Candidate, Option<usize>)> = standing
        .map(|place| {
            let stays = Candidate {
                x: along(place.x),
                stays: true,
                ..Candidate::default()
            };
            (stays, None)
        })
        .collect();
    all.extend(buds.iter().enumerate().map(|(i, bud)| {
        let keep = match bud.work {
            Work::Notch { .. } => weights.get(Weight::Notch),
            _ => weights.get(Weight::Bud),
        };
        let x = along(bud.x);
        let bud = Candidate {
            x,
            keep,
            ..Candidate::default()
        };
        (bud, Some(i))
    }));
    all.arrange_by(|a, b| a.0.x.total_cmp(&b.0.x));
    let candidates: Vec<Candidate> = all.iter().map(|(c, _)| *c).collect();
    let weights = uprights::Weights {
        min: t.get(Limit::UprightSpacingMin),
        max: t.let_pass(Limit::UprightSpacingMax),
        target: t.get(Limit::UprightSpacing),
        spacing: weights.get(Weight::Spacing),
        long_gap: weights.get(Weight::LongGap),
        longest: LONGEST,
        beyond: Some(weights.get(Weight::LongGapMetre) / 1000.0),
        end: t.get(Limit::UprightSpacing),
    };
    let cordon = (along(context.row.from.f()), along(context.row.to.f()));
    let Ok(best) = solve(cordon, &candidates, &weights) else {
        return Vec::new();
    };
    let kept: Vec<(usize, &Bud)> = best
        .kept
        .iter()
        .filter_map(|at| Some((*at, &buds[all[*at].1?])))
        .collect();
    let mut by_tree: Vec<&(usize, &Bud)> = kept.iter().collect();
    by_tree.arrange_by_key(|(_, b)| b.tree);
    let mut out = Vec::new();
    for finding in found.iter_mut().filter(|f| keeps(f)) {
        let (from, to) = (finding.x, finding.x + finding.width);
        let tree = finding.subjects.first().map(|p| p.tree);
        let is_tree = finding.subjects.iter().all(|p| p.shoot.is_none());
        let Some(remedy) = finding
            .remedies
            .iter_mut()
            .find(|r| KEEP.contains(&r.said.key))
        else {
            continue;
        };
        let mine: Vec<&(usize, &Bud)> = match is_tree {
            true => {
                let first = by_tree.partition_point(|(_, b)| Some(b.tree) < tree);
                let own = by_tree[first..].iter().copied();
                own.take_while(|(_, b)| Some(b.tree) == tree).collect()
            }
            false => {
                let (from_here, to_here) = (along(from) - 1.0, along(to) + 1.0);
                let first = kept.partition_point(|(at, _)| candidates[*at].x < from_here);
                let near = kept[first..].iter();
                let near = near.take_while(|(at, _)| candidates[*at].x <= to_here);
                near.filter(|(_, b)| b.x > from && b.x < to).collect()
            }
        };
        let ends = [from, to].into_iter();
        let mut marks: Vec<f64> = ends
            .chain(mine.iter().map(|(_, b)| b.x))
            .map(along)
            .collect();
        arrange_numbers(&mut marks);
        let widest = marks.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max);
        if take(remedy, &mine, widest, by.refused) {
            let each = mine
                .iter()
                .map(|(at, _)| otherwise(cordon, &candidates, &weights, &best, *at));
            out.push(Next {
                work: remedy.work.clone(),
                next: each.flatten().reduce(f64::min).map(|worse| NextBest {
                    worse: Worse::Spacing(worse),
                    said: None,
                }),
            });
        }
    }
    out
}

/// Puts buds in the place of a remedy's own; whether it did. What its words say of the tree as a whole, and of notches, stays true: there
/// it takes as many of them, and none that is notched.
fn take(remedy: &mut Remedy, buds: &[&(usize, &Bud)], widest: f64, refused: &[Vec<Work>]) -> bool {
    let work: Vec<Work> = buds.iter().map(|(_, b)| b.work.clone()).collect();
    let notched = |w: &Work| matches!(w, Work::Notch { .. });
    let along = remedy.said.key == KEEP[1];
    if work.is_empty()
        || refused.contains(&work)
        || work.iter().chain(&remedy.work).any(notched)
        || along && work.len() != remedy.work.len()
    {
        return false;
    }
    for (name, arg) in &mut remedy.said.args {
        match *name {
            "buds" => *arg = Arg::Count(work.len() as i64),
            "leaves" if !along => *arg = distance(widest),
            _ => {}
        }
    }
    remedy.work = work;
    true
}

/// Where buds are looked for, for the sake of what was found.
fn room(found: &Finding) -> Span {
    Span {
        from: found.x - LONGEST,
        to: found.x + found.width + LONGEST,
    }
}

/// The places along laid wood where a bud may be kept or brought on by a notch, in stretches from left to right.
fn buds(context: &Context<'_>, here: &[Span]) -> Vec<Bud> {
    let (leaf, blind) = (context.moment.leaf, context.targets.get(Limit::BlindBase));
    let whole = Span::between(context.row.from.f(), context.row.to.f());
    let mut out = Vec::new();
    for posed in context.row.posed() {
        let tree = posed.tree().id;
        for (shoot, course) in posed.pairs().filter(|(s, _)| s.pose.is_laid()) {
            let (base, tip) = (course.base.x, course.tip().x);
            let own = Span::between(base, tip);
            let beyond = here.partition_point(|h| h.to <= own.from);
            if here
                .get(beyond)
                .is_none_or(|h| h.within(own).length() <= 0.0)
            {
                continue;
            }
            let steps = (shoot.length() / STEP) as usize;
            let points = course.points();
            for step in 1..steps {
                let at = step as f64 * STEP;
                let x = points.at(at).x;
                let inside = x >= whole.from && x <= whole.to;
                let clear = posed.tree().clear_of_laid(shoot.id, at) == at;
                if inside && clear && shoot.brings_on(at, leaf, blind).is_some() {
                    let work = budded(tree, shoot, Mm::round(at), leaf);
                    out.push(Bud { x, tree, work });
                }
            }
        }
    }
    out
}
