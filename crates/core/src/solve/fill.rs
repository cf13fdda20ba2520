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

/// What the next tree's wood is held against.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Against {
    /// The end of the wood of the tree before it, however far others reach.
    #[default]
    Neighbour,
    /// The farthest end of all before it.
    Reach,
}

/// Trees from left to right, each with the ways that its wood may lie.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// Where the stretch that is to be filled begins and ends; `None` where nothing is asked of its ends.
    pub ends: Option<(f64, f64)>,
    /// What the next tree's wood is held against.
    pub against: Against,
    ways: Vec<Way>,
    /// Where each tree's ways begin, and where the last one's end.
    first: Vec<usize>,
}

impl Row {
    /// A row of no tree.
    pub fn new(ends: Option<(f64, f64)>, against: Against) -> Self {
        Self {
            ends,
            against,
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
        let mut end = self.start();
        for (tree, chosen) in choice.iter().enumerate() {
            let (cost, next) = self.step(weights, end, &self.ways(tree)[*chosen]);
            sum += cost;
            end = Some(next);
        }
        sum + self.close(weights, end)
    }

    fn start(&self) -> Option<f64> {
        self.ends.map(|(from, _)| from)
    }

    /// What a way costs after wood that ends there, and where all ends then.
    fn step(&self, weights: &Weights, end: Option<f64>, way: &Way) -> (f64, f64) {
        let Some(end) = end else {
            return (way.cost, way.right);
        };
        match self.against {
            Against::Neighbour => (way.cost + weights.between(way.left - end), way.right),
            Against::Reach => {
                let doubled = end.min(way.right) - way.left;
                let apart = if doubled > 0.0 {
                    -doubled
                } else {
                    (way.left - end).max(0.0)
                };
                (way.cost + weights.between(apart), end.max(way.right))
            }
        }
    }

    /// What is bare or doubled at the end of the row.
    fn close(&self, weights: &Weights, end: Option<f64>) -> f64 {
        let ends = self.ends.zip(end);
        ends.map_or(0.0, |((_, to), end)| weights.between(to - end))
    }
}

/// The best of all choices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Filled {
    /// What it costs.
    pub value: f64,
    /// The way of each tree; of several that are as good the first.
    pub choice: Vec<usize>,
}

/// What all trees up to one cost at the least, where that one goes a way and all ends there.
#[derive(Clone, Copy)]
struct State {
    way: usize,
    end: f64,
    cost: f64,
    /// The state of the tree before.
    from: usize,
}

/// The best choice for a row.
///
/// # Errors
/// A tree that has no way, or a number that is none.
pub fn fill(row: &Row, weights: &Weights) -> Result<Filled, Refusal> {
    solve(row, weights, None)
}

/// The best choice in which a tree goes another way than in this one, and how much worse it is; `None` where it has no other.
pub fn otherwise(
    row: &Row,
    weights: &Weights,
    best: &Filled,
    tree: usize,
) -> Option<(Filled, f64)> {
    if tree >= row.len() || row.ways(tree).len() < 2 {
        return None;
    }
    let next = solve(row, weights, Some((tree, best.choice[tree]))).ok()?;
    let worse = (next.value - best.value).max(0.0);
    Some((next, worse))
}

/// The best choice without a way of a tree.
fn solve(row: &Row, weights: &Weights, without: Option<(usize, usize)>) -> Result<Filled, Refusal> {
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
    let mut states: Vec<State> = Vec::new();
    // Where the states of each tree begin.
    let mut first = vec![0];
    for tree in 0..trees {
        let before = first[tree.saturating_sub(1)]..states.len();
        let begins = states.len();
        for (at, way) in row.ways(tree).iter().enumerate() {
            if without == Some((tree, at)) {
                continue;
            }
            let own = states.len();
            let put = |states: &mut Vec<State>, end: Option<f64>, cost: f64, from: usize| {
                let (more, end) = row.step(weights, end, way);
                let cost = cost + more;
                match states[own..].iter_mut().find(|s| s.end == end) {
                    Some(known) if known.cost <= cost => {}
                    Some(known) => (known.cost, known.from) = (cost, from),
                    None => states.push(State {
                        way: at,
                        end,
                        cost,
                        from,
                    }),
                }
            };
            if tree == 0 {
                put(&mut states, row.start(), 0.0, 0);
            }
            for from in before.clone().filter(|_| tree > 0) {
                let State { end, cost, .. } = states[from];
                put(&mut states, Some(end), cost, from);
            }
        }
        first.push(states.len());
        debug_assert!(begins < states.len());
    }
    let last = first[trees.saturating_sub(1)]..states.len();
    let whole = states[last.clone()]
        .iter()
        .map(|s| s.cost + row.close(weights, Some(s.end)));
    let mut choice = vec![0; trees];
    if let Some((at, _)) = least(whole) {
        let mut at = last.start + at;
        for way in choice.iter_mut().rev() {
            (*way, at) = (states[at].way, states[at].from);
        }
    }
    Ok(Filled {
        value: row.cost(weights, &choice),
        choice,
    })
}
