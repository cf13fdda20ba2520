//! Which uprights of a cordon are kept, added and taken off: an exact shortest path along the wire, from one that is kept to
//! the next.

use super::{SAME, finite};
use crate::refusal::Refusal;
use crate::said::Arg;

/// A place where an upright stands or could come.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Candidate {
    /// How far along the cordon.
    pub x: f64,
    /// What it costs to have it: a bud to keep, a shoot that is weak; 0 of a good one that stands.
    pub keep: f64,
    /// What it costs not to have it: the cut of what stands there; 0 of a bud.
    pub drop: f64,
    /// Whether it stays whatever it costs.
    pub stays: bool,
}

/// What spacing costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// Nearer than this no two are kept, unless both stay.
    pub min: f64,
    /// Farther apart than this is a long gap.
    pub max: f64,
    /// The distance to aim at.
    pub target: f64,
    /// For the square of the distance's deviation, in targets.
    pub spacing: f64,
    /// For each long gap, and for each end that is bare farther than `end`.
    pub long_gap: f64,
    /// Longer than this a gap is never, but where `beyond` says what it costs.
    pub longest: f64,
    /// For each unit of length by which a gap is longer than `longest`; `None` where it may not be.
    pub beyond: Option<f64>,
    /// So far from the cordon's ends the first and the last may stand.
    pub end: f64,
}

impl Weights {
    /// What two neighbours so far apart cost; `None` where they may not stand so.
    pub fn between(&self, apart: f64) -> Option<f64> {
        if apart < self.min - SAME {
            return None;
        }
        let off = (apart.min(self.longest) - self.target) / self.target;
        let near = self.spacing * off * off;
        if apart <= self.max + SAME {
            return Some(near);
        }
        Some(near + self.long_gap + self.over(apart)?)
    }

    /// What two neighbours cost: as [`between`](Self::between), and nothing where both are too near and stay.
    fn pair(&self, a: &Candidate, b: &Candidate) -> Option<f64> {
        let cost = self.between(b.x - a.x);
        cost.or((a.stays && b.stays && b.x - a.x < self.min).then_some(0.0))
    }

    /// What a cordon's end costs that is bare so far.
    pub fn end(&self, bare: f64) -> Option<f64> {
        if bare <= self.end + SAME {
            return Some(0.0);
        }
        Some(self.long_gap + self.over(bare)?)
    }

    fn over(&self, length: f64) -> Option<f64> {
        let over = length - self.longest;
        if over <= SAME {
            return Some(0.0);
        }
        Some(self.beyond? * over)
    }

    fn all(&self) -> [f64; 8] {
        let [a, b, c, d] = [self.min, self.max, self.target, self.spacing];
        let [e, f, g] = [self.long_gap, self.longest, self.end];
        [a, b, c, d, e, f, g, self.beyond.unwrap_or(0.0)]
    }
}

/// The best of all choices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chosen {
    /// What it costs.
    pub value: f64,
    /// The candidates that are kept, from left to right; of several choices that are as good the one whose gaps to the left
    /// of each are the longest.
    pub kept: Vec<usize>,
}

/// What a choice of candidates, in order, costs on a cordon; `None` where it is not allowed.
pub fn cost(
    cordon: (f64, f64),
    candidates: &[Candidate],
    weights: &Weights,
    kept: &[usize],
) -> Option<f64> {
    let mut sum = 0.0;
    let mut left = kept.iter().peekable();
    for (i, candidate) in candidates.iter().enumerate() {
        if left.next_if(|k| **k == i).is_some() {
            sum += candidate.keep;
        } else if candidate.stays {
            return None;
        } else {
            sum += candidate.drop;
        }
    }
    let (Some(first), Some(last)) = (kept.first(), kept.last()) else {
        return Some(sum + weights.end(cordon.1 - cordon.0)?);
    };
    sum += weights.end(candidates[*first].x - cordon.0)?;
    sum += weights.end(cordon.1 - candidates[*last].x)?;
    for two in kept.windows(2) {
        sum += weights.pair(&candidates[two[0]], &candidates[two[1]])?;
    }
    Some(sum)
}

/// No candidate.
const NONE: usize = usize::MAX;

/// The best choice on a cordon from one place to another; candidates stand in order of place.
///
/// # Errors
/// Where no choice is allowed, with the place; a number that is none, candidates out of order.
pub fn solve(
    cordon: (f64, f64),
    candidates: &[Candidate],
    weights: &Weights,
) -> Result<Chosen, Refusal> {
    sound(cordon, candidates, weights)?;
    let n = candidates.len();
    let all_dropped: f64 = candidates.iter().map(|c| c.drop).sum();
    // The least that all up to a candidate cost where it is kept, beside what all cost that are dropped, and the one before it.
    let mut best: Vec<(f64, usize)> = Vec::with_capacity(n);
    // The last one that stays; nothing is kept across it.
    let mut stays: Option<usize> = None;
    // Of those from which a gap is longer than the longest, the one from which it costs least.
    let mut far: Option<(usize, f64)> = None;
    let mut window = 0;
    let reach = weights.longest.max(weights.max) + SAME;
    for (j, here) in candidates.iter().enumerate() {
        while window < j && here.x - candidates[window].x > reach {
            let whole = best[window].0 - weights.beyond.unwrap_or(0.0) * candidates[window].x;
            let free = stays.is_none_or(|s| window >= s);
            if free && far.is_none_or(|(_, least)| whole < least) {
                far = Some((window, whole));
            }
            window += 1;
        }
        let start = weights.end(here.x - cordon.0).filter(|_| stays.is_none());
        let mut least = (start.unwrap_or(f64::INFINITY), NONE);
        let near = stays.map_or(window, |s| s.max(window))..j;
        for i in far.iter().map(|f| f.0).chain(near) {
            if let Some(cost) = weights.pair(&candidates[i], here)
                && best[i].0 + cost < least.0
            {
                least = (best[i].0 + cost, i);
            }
        }
        best.push((least.0 + here.keep - here.drop, least.1));
        if here.stays {
            (stays, far) = (Some(j), None);
        }
    }
    let nothing = weights.end(cordon.1 - cordon.0);
    let nothing = nothing.filter(|_| stays.is_none());
    let (mut value, mut at) = (nothing.unwrap_or(f64::INFINITY), NONE);
    for (i, (cost, _)) in best.iter().enumerate().skip(stays.unwrap_or(0)) {
        let end = weights.end(cordon.1 - candidates[i].x);
        if end.is_some_and(|end| cost + end < value) {
            (value, at) = (cost + end.unwrap_or(0.0), i);
        }
    }
    if !value.is_finite() {
        return Err(bare(cordon, candidates, &best));
    }
    let mut kept = Vec::new();
    while at != NONE {
        kept.push(at);
        at = best[at].1;
    }
    kept.reverse();
    value += all_dropped;
    Ok(Chosen { value, kept })
}

/// How much worse the best choice is in which a candidate is not as in this one: dropped where it is kept, kept where it is
/// dropped. `None` where it can't be otherwise.
pub fn otherwise(
    cordon: (f64, f64),
    candidates: &[Candidate],
    weights: &Weights,
    chosen: &Chosen,
    candidate: usize,
) -> Option<f64> {
    let this = candidates.get(candidate)?;
    if this.stays {
        return None;
    }
    // Nothing is kept across what stays: all beyond the nearest that does is as it was.
    let stays = |c: &Candidate| c.stays;
    let first = candidates[..candidate].iter().rposition(stays);
    let last = candidates[candidate..].iter().position(stays);
    let range = first.unwrap_or(0)..last.map_or(candidates.len(), |at| candidate + at + 1);
    let place = |at: Option<usize>, end: f64| at.map_or(end, |at| candidates[at].x);
    let cordon = (
        place(first, cordon.0),
        place(last.map(|at| candidate + at), cordon.1),
    );
    let near = &candidates[range.clone()];
    let begin = chosen.kept.partition_point(|k| *k < range.start);
    let own = chosen.kept[begin..].iter();
    let own = own.take_while(|k| range.contains(*k));
    let kept: Vec<usize> = own.map(|k| k - range.start).collect();
    let now = cost(cordon, near, weights, &kept)?;
    // What can't be beside it is out of the question; it alone is where it is dropped.
    let candidate = candidate - range.start;
    let is_kept = kept.contains(&candidate);
    let out = |(i, c): (usize, &Candidate)| match i == candidate {
        true => is_kept,
        false => !is_kept && (c.x - this.x).abs() < weights.min - SAME,
    };
    let (mut other, mut gone) = (Vec::with_capacity(near.len()), 0.0);
    for (i, c) in near.iter().enumerate() {
        match out((i, c)) {
            true if c.stays => return None,
            true => gone += c.drop,
            false => other.push(Candidate {
                stays: c.stays || i == candidate,
                ..*c
            }),
        }
    }
    let next = solve(cordon, &other, weights).ok()?;
    Some((next.value + gone - now).max(0.0))
}

fn sound(cordon: (f64, f64), all: &[Candidate], weights: &Weights) -> Result<(), Refusal> {
    let numbers = all.iter().flat_map(|c| [c.x, c.keep, c.drop]);
    let ends = [cordon.0, cordon.1, 1.0 / weights.target.max(0.0)];
    let mut numbers = numbers.chain(weights.all()).chain(ends);
    numbers.try_for_each(finite)?;
    match all.windows(2).find(|two| two[1].x < two[0].x) {
        None => Ok(()),
        Some(two) => Err(between("refusal-uprights-order", two[0].x, two[1].x)),
    }
}

/// Why nothing can be chosen: the first stretch that no allowed choice comes across.
fn bare(cordon: (f64, f64), candidates: &[Candidate], best: &[(f64, usize)]) -> Refusal {
    let come = best.iter().rposition(|(cost, _)| cost.is_finite());
    let from = come.map_or(cordon.0, |i| candidates[i].x);
    let next = candidates.iter().map(|c| c.x).find(|x| *x > from);
    between("refusal-uprights-bare", from, next.unwrap_or(cordon.1))
}

fn between(key: &'static str, from: f64, to: f64) -> Refusal {
    let args = vec![("from", Arg::Length(from)), ("to", Arg::Length(to))];
    Refusal::new(key, args)
}
