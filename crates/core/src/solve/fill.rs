//! Which way the wood of each tree goes along the wire, so that bare wire, doubled wire and work are least: an exact dynamic
//! programme from tree to tree.

use super::{finite, least};
use crate::refusal::Refusal;
use crate::said::Arg;

/// One way in which a tree's wood may lie: from `left` to `right` along the row, and what it costs by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Way {
    /// Where its wood begins on the wire.
    pub left: f64,
    /// Where it ends, not before `left`.
    pub right: f64,
    /// What it costs: its work, and what is bare or doubled within it.
    pub cost: f64,
}

/// What a bare or doubled stretch of the wire costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// For each unit of length that is bare.
    pub gap: f64,
    /// For each stretch that is bare at all.
    pub gap_each: f64,
    /// So much bare wire is let pass.
    pub gap_free: f64,
    /// For each unit of length that is doubled.
    pub overlap: f64,
    /// For each stretch that is doubled at all: a cut.
    pub overlap_each: f64,
    /// So much doubled wire is let pass.
    pub overlap_free: f64,
}

impl Weights {
    /// What it costs that the next wood begins so far after the last one's end; before it where negative.
    pub fn between(&self, apart: f64) -> f64 {
        let side = |length: f64, free: f64, each: f64, by_length: f64| {
            let over = length - free;
            let each = if over > super::SAME { each } else { 0.0 };
            each + by_length * over.max(0.0)
        };
        if apart > 0.0 {
            side(apart, self.gap_free, self.gap_each, self.gap)
        } else {
            side(-apart, self.overlap_free, self.overlap_each, self.overlap)
        }
    }

    fn all(&self) -> [f64; 6] {
        let [a, b, c] = [self.gap, self.gap_each, self.gap_free];
        let [d, e, f] = [self.overlap, self.overlap_each, self.overlap_free];
        [a, b, c, d, e, f]
    }
}

/// Trees from left to right, each with the ways that its wood may lie.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// Where the stretch that is to be filled begins and ends; `None` where nothing is asked of its ends.
    pub ends: Option<(f64, f64)>,
    ways: Vec<Way>,
    /// Where each tree's ways begin, and where the last one's end.
    first: Vec<usize>,
}

impl Row {
    /// A row of no tree.
    pub fn new(ends: Option<(f64, f64)>) -> Self {
        Self {
            ends,
            ways: Vec::new(),
            first: vec![0],
        }
    }

    /// The next tree to the right.
    pub fn tree(&mut self, ways: impl IntoIterator<Item = Way>) {
        self.ways.extend(ways);
        self.first.push(self.ways.len());
    }

    /// How many trees there are.
    pub fn len(&self) -> usize {
        self.first.len().saturating_sub(1)
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The ways of a tree.
    pub fn ways(&self, tree: usize) -> &[Way] {
        &self.ways[self.first[tree]..self.first[tree + 1]]
    }

    /// What a choice of a way for each tree costs.
    pub fn cost(&self, weights: &Weights, choice: &[usize]) -> f64 {
        let mut sum = 0.0;
        let mut reached = self.ends.map(|(from, _)| from);
        for (tree, chosen) in choice.iter().enumerate() {
            let way = self.ways(tree)[*chosen];
            sum += way.cost + reached.map_or(0.0, |end| weights.between(way.left - end));
            reached = Some(way.right);
        }
        let last = self.ends.zip(reached);
        sum + last.map_or(0.0, |((_, to), end)| weights.between(to - end))
    }
}

/// The best of all choices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Filled {
    /// What it costs.
    pub value: f64,
    /// The way of each tree; of several that are as good the first.
    pub choice: Vec<usize>,
    /// Of each tree how much worse the best is in which it goes another way, with that way; `None` where it has no other.
    pub next: Vec<Option<(usize, f64)>>,
}

/// The best choice for a row.
///
/// # Errors
/// A tree that has no way, or a number that is none.
pub fn fill(row: &Row, weights: &Weights) -> Result<Filled, Refusal> {
    let trees = row.len();
    let ends = row.ends.map(|(a, b)| [a, b]).into_iter().flatten();
    let numbers = row.ways.iter().flat_map(|w| [w.left, w.right, w.cost]);
    numbers
        .chain(weights.all())
        .chain(ends)
        .try_for_each(finite)?;
    if let Some(bare) = (0..trees).find(|t| row.ways(*t).is_empty()) {
        let args = vec![("count", Arg::Count(bare as i64 + 1))];
        return Err(Refusal::new("refusal-fill-no-way", args));
    }
    if trees == 0 {
        return Ok(Filled {
            value: row.cost(weights, &[]),
            ..Filled::default()
        });
    }
    let apart = |a: &Way, b: &Way| weights.between(b.left - a.right);
    // Of each way the least that the trees up to it cost, itself included, and the way of the tree before it in that.
    let mut to = vec![0.0; row.ways.len()];
    let mut from = vec![0; row.ways.len()];
    for tree in 0..trees {
        for (at, way) in row.ways(tree).iter().enumerate() {
            let here = row.first[tree] + at;
            let (before, cost) = match tree {
                0 => {
                    let start = row.ends.map(|(start, _)| weights.between(way.left - start));
                    (0, start.unwrap_or(0.0))
                }
                _ => {
                    let all = row.ways(tree - 1).iter().enumerate();
                    let reach = |(i, w)| to[row.first[tree - 1] + i] + apart(w, way);
                    least(all.map(reach)).unwrap_or_default()
                }
            };
            (to[here], from[here]) = (cost + way.cost, before);
        }
    }
    // Of each way the least that the trees after it cost.
    let mut after = vec![0.0; row.ways.len()];
    for tree in (0..trees).rev() {
        for (at, way) in row.ways(tree).iter().enumerate() {
            after[row.first[tree] + at] = if tree + 1 == trees {
                let end = row.ends.map(|(_, end)| weights.between(end - way.right));
                end.unwrap_or(0.0)
            } else {
                let all = row.ways(tree + 1).iter().enumerate();
                let rest = |(i, w): (usize, &Way)| {
                    let next = row.first[tree + 1] + i;
                    apart(way, w) + w.cost + after[next]
                };
                least(all.map(rest)).unwrap_or_default().1
            };
        }
    }
    let whole = |tree: usize| {
        let ways = row.first[tree]..row.first[tree + 1];
        ways.map(|w| to[w] + after[w])
    };
    let mut choice = vec![0; trees];
    choice[trees - 1] = least(whole(trees - 1)).unwrap_or_default().0;
    for tree in (1..trees).rev() {
        choice[tree - 1] = from[row.first[tree] + choice[tree]];
    }
    let value = row.cost(weights, &choice);
    let next = (0..trees).map(|tree| {
        let other = |(at, cost): (usize, f64)| if at == choice[tree] { f64::NAN } else { cost };
        let next = least(whole(tree).enumerate().map(other));
        next.map(|(at, cost)| (at, (cost - value).max(0.0)))
    });
    Ok(Filled {
        value,
        next: next.collect(),
        choice,
    })
}
