//! What the trees of a row bring together, leaf by leaf, summed in blocks: after an edit of one tree its block alone is summed
//! anew. The blocks are the same whatever was kept, so that the sums are too.

use crate::cover::{Span, joined};
use crate::plan::{AGES, PlaceYears, RowYear, RowYears, TreeYear, WorkCount};

/// Places of a block.
const BLOCK: usize = 16;

/// What some trees bring in one leaf.
#[derive(Clone, Debug, Default)]
pub(super) struct Sum {
    pub uprights: usize,
    /// Lengths of the uprights, mm.
    pub length: f64,
    pub fruit: f64,
    /// Leaf, m².
    pub leaf_area: f64,
    pub kg: f64,
    /// What of it is large enough.
    pub kg_large: f64,
    /// Age of the oldest upright.
    pub oldest: u8,
    pub ages: [u32; AGES],
    /// Age of the oldest wood that is cut.
    pub cut: u8,
    pub work: WorkCount,
    /// Where wood lies on the wire.
    pub laid: Vec<Span>,
}

/// Adds work to work.
pub(super) fn add_work(to: &mut WorkCount, of: &WorkCount) {
    for (kind, count) in of {
        *to.entry(kind).or_default() += count;
    }
}

impl Sum {
    fn of(tree: &TreeYear) -> Self {
        Self {
            uprights: tree.uprights,
            length: tree.length,
            fruit: tree.crop.fruit,
            leaf_area: tree.crop.leaf_area,
            kg: tree.crop.kg,
            kg_large: tree.crop.kg * tree.crop.share_large,
            oldest: tree.oldest,
            ages: tree.ages,
            cut: tree.cut,
            work: tree.work.clone(),
            laid: tree.laid.iter().map(|l| l.span).collect(),
        }
    }

    fn add(&mut self, other: &Self) {
        self.uprights += other.uprights;
        self.length += other.length;
        self.fruit += other.fruit;
        self.leaf_area += other.leaf_area;
        self.kg += other.kg;
        self.kg_large += other.kg_large;
        self.oldest = self.oldest.max(other.oldest);
        for (age, count) in self.ages.iter_mut().zip(other.ages) {
            *age += count;
        }
        self.cut = self.cut.max(other.cut);
        add_work(&mut self.work, &other.work);
        self.laid.extend_from_slice(&other.laid);
    }
}

/// The sums of one scheme, kept by block.
#[derive(Clone, Debug, Default)]
pub(super) struct Sums(Vec<Block>);

#[derive(Clone, Debug, Default)]
struct Block {
    places: Vec<PlaceYears>,
    /// By leaf, from the found one on.
    leaves: Vec<Sum>,
}

impl Block {
    fn of(places: &[PlaceYears], years: &RowYears) -> Self {
        let leaf = |(i, of): (usize, &RowYear)| {
            let mut sum = Sum::default();
            for place in places.iter().filter(|p| p.from <= of.leaf) {
                sum.add(&Sum::of(&place.years[i]));
            }
            sum.laid = joined(sum.laid);
            sum
        };
        Self {
            places: places.to_vec(),
            leaves: years.leaves.iter().enumerate().map(leaf).collect(),
        }
    }

    fn is_of(&self, places: &[PlaceYears], years: &RowYears) -> bool {
        let same = |(a, b): (&PlaceYears, &PlaceYears)| a.is(b);
        self.leaves.len() == years.leaves.len()
            && self.places.len() == places.len()
            && self.places.iter().zip(places).all(same)
    }
}

impl Sums {
    /// Of all places, by leaf.
    pub fn of(&mut self, years: &RowYears) -> Vec<Sum> {
        let blocks = years.trees.chunks(BLOCK);
        self.0.resize_with(blocks.len(), Block::default);
        let mut out = vec![Sum::default(); years.leaves.len()];
        for (places, block) in blocks.zip(&mut self.0) {
            if !block.is_of(places, years) {
                *block = Block::of(places, years);
            }
            for (sum, of) in out.iter_mut().zip(&block.leaves) {
                sum.add(of);
            }
        }
        out
    }
}
