//! What an edit reaches: the columns that have to be worked out anew, and no others.

use core::ops::Range;

use crate::direction::Direction;
use crate::plan::RayPlan;
use crate::wall::{Ends, Wall};

/// Columns whose ground is added up together.
pub(crate) const BLOCK: usize = 64;

/// Columns whose ground an edit reaches in any direction, from left to right.
pub(crate) fn reach(wall: &Wall, plans: &[RayPlan], columns: &Range<usize>) -> Vec<Range<usize>> {
    let n = wall.columns() as i64;
    let far = |sign: f64| {
        let reach = plans.iter().map(|plan| sign * plan.reach);
        libm::ceil(reach.fold(0.0, f64::max)).min(1e8) as i64 + 1
    };
    let (from, to) = (
        columns.start as i64 - far(1.0),
        columns.end as i64 + far(-1.0),
    );
    let range = |from: i64, to: i64| from as usize..to as usize;
    match wall.ends() {
        _ if to - from >= n => vec![range(0, n)],
        Ends::Ended => vec![range(from.max(0), to.min(n))],
        Ends::Repeated if from < 0 => vec![range(0, to), range(from + n, n)],
        Ends::Repeated if to > n => vec![range(0, to - n), range(from, n)],
        Ends::Repeated => vec![range(from, to)],
    }
}

/// Which sheared columns an edit reaches in one direction.
pub(crate) struct Reached {
    edited: Option<Range<usize>>,
    /// Sheared columns, possibly beyond the period.
    pub columns: Range<i32>,
}

impl Reached {
    pub fn new(wall: &Wall, plan: &RayPlan, edited: Option<Range<usize>>) -> Self {
        let n = wall.columns() as i32;
        let columns = match &edited {
            None => 0..n,
            Some(e) => {
                let before = libm::ceil(plan.reach.max(0.0)).min(1e8) as i32 + 1;
                let after = libm::ceil((-plan.reach).max(0.0)).min(1e8) as i32 + 1;
                e.start as i32 - before..e.end as i32 + after
            }
        };
        Self { edited, columns }
    }

    /// Whether all sheared columns are reached.
    pub fn all(&self, n: i32) -> bool {
        self.edited.is_none() || self.columns.len() as i32 >= n
    }

    /// Adds up the blocks of the ground that are reached.
    pub fn add_up(&self, ground: &[f32], sums: &mut [f64]) {
        let n = ground.len() as i32;
        let add = |sums: &mut [f64], columns: Range<i32>| {
            let (first, last) = (
                columns.start as usize / BLOCK,
                (columns.end as usize).div_ceil(BLOCK),
            );
            for (block, sum) in sums.iter_mut().enumerate().take(last).skip(first) {
                let part = &ground[block * BLOCK..((block + 1) * BLOCK).min(ground.len())];
                *sum = part.iter().map(|v| f64::from(*v)).sum();
            }
        };
        if self.all(n) {
            add(sums, 0..n);
            return;
        }
        let Range { start, end } = self.columns;
        add(sums, start.max(0)..end.min(n));
        // In a repeated wall what lies beyond one end comes in at the other; in an ended one this is to no purpose.
        if start < 0 {
            add(sums, start + n..n);
        }
        if end > n {
            add(sums, 0..end - n);
        }
    }

    /// Sum over the ground's columns that are reached, each once.
    pub fn sum(&self, ground: &[f32]) -> f64 {
        let n = ground.len() as i32;
        if self.all(n) {
            return ground.iter().map(|v| f64::from(*v)).sum();
        }
        self.columns
            .clone()
            .map(|c| f64::from(ground[c.rem_euclid(n) as usize]))
            .sum()
    }

    /// Cells of a level that are reached, cut to the view.
    pub fn cells(
        &self,
        wall: &Wall,
        direction: Direction,
        level: usize,
        view: &Range<usize>,
    ) -> Range<i32> {
        let (v0, v1) = (view.start as i32, view.end as i32);
        let Some(edited) = &self.edited else {
            return v0..v1;
        };
        let m = direction.along() / wall.dx();
        let height = wall.z()[wall.levels()] - wall.z()[level];
        let own = wall.z()[level + 1] - wall.z()[level];
        // Rays rise from the cell toward +x for m > 0, so that leaves reach the cells on their −x side.
        let (back, on) = if m >= 0.0 {
            (m * height, m * own)
        } else {
            (-m * own, -m * height)
        };
        let from = edited.start as i32 - (libm::ceil(back).min(1e8) as i32 + 2);
        let to = edited.end as i32 + libm::ceil(on).min(1e8) as i32 + 2;
        if wall.ends() == Ends::Ended {
            return from.max(v0)..to.min(v1).max(from.max(v0));
        }
        let n = wall.columns() as i32;
        if to - from >= n || (from < 0 && to > 0) || to > n {
            // Around the joint: the whole view, which holds the reached part.
            let wrapped = |c: i32| to - from >= n || (c - from).rem_euclid(n) < to - from;
            let first = (v0..v1).find(|c| wrapped(*c));
            let last = (v0..v1).rev().find(|c| wrapped(*c));
            return match (first, last) {
                (Some(a), Some(b)) => a..b + 1,
                _ => v0..v0,
            };
        }
        from.max(v0)..to.min(v1).max(from.max(v0))
    }
}
