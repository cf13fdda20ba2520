//! Figures of the whole grid that follow a change of some columns without a look at the others.

use std::ops::Range;

/// How high the leaves of each column reach.
#[derive(Debug, Clone, Default)]
pub struct Tally {
    columns: usize,
    levels: usize,
    /// Levels up to the highest leaf of each column; 0 without one.
    tops: Vec<u16>,
    /// How many columns reach each number of levels.
    reaching: Vec<usize>,
}

impl Tally {
    /// Of a bare grid.
    pub fn new(columns: usize, levels: usize) -> Self {
        let mut reaching = vec![0; levels + 1];
        reaching[0] = columns;
        Self {
            columns,
            levels,
            tops: vec![0; columns],
            reaching,
        }
    }

    /// Takes some columns of the grid, whose densities stand level by level, anew.
    pub fn count(&mut self, cells: &[f32], columns: Range<usize>) {
        let n = self.columns;
        for c in columns {
            let top = (0..self.levels).rfind(|l| cells[l * n + c] > 0.0);
            let top = top.map_or(0, |l| l + 1);
            self.reaching[usize::from(self.tops[c])] -= 1;
            self.reaching[top] += 1;
            self.tops[c] = top as u16;
        }
    }

    /// Levels that half of the leafy columns reach; none without a leaf.
    pub fn typical_levels(&self) -> Option<usize> {
        let leafy = self.columns - self.reaching[0];
        let mut left = leafy / 2;
        (1..=self.levels).find(|levels| match left.checked_sub(self.reaching[*levels]) {
            Some(more) => {
                left = more;
                false
            }
            None => true,
        })
    }

    /// Levels that the highest leaf reaches.
    pub fn most_levels(&self) -> usize {
        (0..=self.levels)
            .rfind(|levels| self.reaching[*levels] > 0)
            .unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_follows_equals_what_is_counted_anew() {
        let (columns, levels) = (150, 4);
        let mut cells: Vec<f32> = (0..columns * levels)
            .map(|i| {
                if i * 7 % 13 > i / columns * 4 {
                    1.0 + i as f32
                } else {
                    0.0
                }
            })
            .collect();
        let mut follows = Tally::new(columns, levels);
        assert_eq!(follows.typical_levels(), None);
        assert_eq!(follows.most_levels(), 0);
        follows.count(&cells, 0..columns);
        for range in [0..1, 60..70, 140..150, 0..150] {
            for c in range.clone() {
                for l in 0..levels {
                    cells[l * columns + c] *= ((c + l) % 3) as f32;
                }
            }
            follows.count(&cells, range);
            let mut anew = Tally::new(columns, levels);
            anew.count(&cells, 0..columns);
            assert_eq!(follows.typical_levels(), anew.typical_levels());
            let mut tops: Vec<usize> = (0..columns)
                .filter_map(|c| (0..levels).rfind(|l| cells[l * columns + c] > 0.0))
                .map(|l| l + 1)
                .collect();
            tops.sort_unstable();
            assert_eq!(anew.typical_levels(), tops.get(tops.len() / 2).copied());
            assert_eq!(anew.most_levels(), tops.last().copied().unwrap_or(0));
        }
    }
}
