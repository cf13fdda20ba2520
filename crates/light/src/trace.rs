//! Single directions and single points: what an hour's sun does, and the exact walk of one ray.

use crate::direction::Direction;
use crate::kernel::{CHUNK, Windows, ground};
use crate::plan::{RayPlan, Sampling, for_each_wall};
use crate::wall::{Ends, Wall};

/// Sampling of a single direction: 4 rays a column, quarters of levels, pieces of an eighth of the alley.
pub const SINGLE: Sampling = Sampling {
    piece: 0.125,
    rays_per_column: 4,
    level_parts: 4,
};
/// Sampling of each direction of the fixed set at rest.
pub const SET: Sampling = Sampling {
    piece: 0.25,
    rays_per_column: 1,
    level_parts: 2,
};
/// Sampling of each direction of the fixed set while a hand drags: whole levels, pieces that end only where a wall's
/// shadow edge falls.
pub const QUICK: Sampling = Sampling {
    piece: 1.0,
    rays_per_column: 1,
    level_parts: 1,
};

/// Share of the light from one direction that reaches the ground under each column, mean over the alley's width;
/// 0–1. A bare wall gives 1 everywhere.
pub fn ground_by_column(wall: &Wall, direction: Direction, sampling: Sampling) -> Vec<f32> {
    let sampling = sampling.fit(wall);
    let rays = sampling.rays_per_column.max(1);
    let mut total = vec![0.0f32; wall.columns()];
    let mut means = vec![[0.0; CHUNK]; wall.levels() * sampling.level_parts.max(1)];
    for r in 0..rays {
        let offset = (r as f64 + 0.5) / rays as f64;
        let plan = RayPlan::new(wall, direction, sampling, offset, &[]);
        let windows = Windows::new(wall, core::iter::once(&plan));
        for (c, out) in total.chunks_mut(CHUNK).enumerate() {
            windows.shear(&plan, (c * CHUNK) as i32, &mut means);
            let t = ground(&plan, &means);
            for (o, t) in out.iter_mut().zip(t) {
                *o += t / rays as f32;
            }
        }
    }
    total
}

/// Share caught of the light from one direction, 0–1: one less the mean that reaches the ground. Light from the
/// horizon or below counts as caught in full where any leaf stands.
pub fn caught(wall: &Wall, direction: Direction, sampling: Sampling) -> f64 {
    1.0 - mean(&ground_by_column(wall, direction, sampling))
}

fn mean(values: &[f32]) -> f64 {
    // Several sums side by side, in a fixed order, for the machine's vector registers.
    let mut sums = [0.0f64; 8];
    let mut chunks = values.chunks_exact(8);
    for chunk in &mut chunks {
        for (sum, v) in sums.iter_mut().zip(chunk) {
            *sum += f64::from(*v);
        }
    }
    let rest: f64 = chunks.remainder().iter().map(|v| f64::from(*v)).sum();
    ((sums.iter().sum::<f64>() + rest) / values.len().max(1) as f64).clamp(0.0, 1.0)
}

/// Share of the light from one direction seen at one point: `x` m along the row, `y` m across it (0 is the wall's
/// middle), `z` m above the ground; 0–1. The ray is walked exactly from cell to cell in f64.
pub fn through_to_point(wall: &Wall, direction: Direction, x: f64, y: f64, z: f64) -> f64 {
    let m = direction.along() / wall.dx();
    let start = (x - wall.x0()) / wall.dx();
    let mut depth = 0.0;
    for_each_wall(wall, direction, y, z, |low, high| {
        for level in 0..wall.levels() {
            let from = low.max(wall.z()[level]);
            let to = high.min(wall.z()[level + 1]);
            if to > from {
                let (a, b) = (start + m * (from - z), start + m * (to - z));
                depth += (to - from) * mean_density(wall, level, a.min(b), a.max(b));
            }
        }
    });
    libm::exp(-wall.shape().g * direction.slant() * depth)
}

/// Mean density of a level between two places, in columns from the row's start.
fn mean_density(wall: &Wall, level: usize, a: f64, b: f64) -> f64 {
    let n = wall.columns() as i64;
    let row = wall.level(level);
    let at = |j: i64| -> f64 {
        match wall.ends() {
            Ends::Repeated => f64::from(row[j.rem_euclid(n) as usize]),
            Ends::Ended if (0..n).contains(&j) => f64::from(row[j as usize]),
            Ends::Ended => 0.0,
        }
    };
    let (mut first, mut last) = (libm::floor(a) as i64, libm::floor(b) as i64);
    if first == last || b - a < 1e-12 {
        return at(first);
    }
    if wall.ends() == Ends::Ended {
        first = first.clamp(-1, n);
        last = last.clamp(-1, n);
    }
    let mut sum = 0.0;
    for j in first..=last {
        let overlap = b.min((j + 1) as f64) - a.max(j as f64);
        sum += overlap.max(0.0) * at(j);
    }
    sum / (b - a)
}
