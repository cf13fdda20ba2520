//! The inner loops, in f32 on fixed-size chunks of columns so that the compiler lays them on the machine's vector
//! registers. Every column is worked out by the same operations in the same order wherever it falls in a chunk, so
//! that a part worked out anew equals the whole bit for bit.

use crate::plan::{PathTerm, Ray, RayPlan};
use crate::wall::{Ends, Wall};

/// Columns worked on together.
pub(crate) const CHUNK: usize = 16;
/// A value for each column of a chunk.
pub(crate) type Lanes = [f32; CHUNK];

/// e⁻ˣ for x ≥ 0, within 2·10⁻⁷ (relative to 1), without branches: 2^f on [−½, ½] by a polynomial (least squares of
/// the relative error, 2⁰ = 1 kept exact), times a power
/// of two put together from its bits. From x = 87 on, about 10⁻³⁸.
#[inline(always)]
pub(crate) fn exp_minus(x: f32) -> f32 {
    // Adding 1.5·2²³ leaves the nearest whole number in the low bits.
    const SHIFT: f32 = 12_582_912.0;
    let t = (x * -core::f32::consts::LOG2_E).max(-126.0);
    let whole = t + SHIFT;
    let f = t - (whole - SHIFT);
    let p = 0.001_321_867_2_f32;
    let p = p * f + 0.009_671_698;
    let p = p * f + 0.055_508_93;
    let p = p * f + 0.240_222_38;
    let p = p * f + 0.693_146_9;
    let p = p * f + 1.0;
    f32::from_bits(p.to_bits().wrapping_add(whole.to_bits() << 23))
}

/// Sums of 1, 2, 4 … neighbouring columns for each level, with margins that let any chunk be read in one piece.
#[derive(Debug, Clone)]
pub(crate) struct Windows {
    columns: usize,
    levels: usize,
    /// Places before column 0: none in a repeated wall, enough for the widest window in an ended one.
    before: usize,
    stride: usize,
    scales: u32,
    repeated: bool,
    sums: Vec<f32>,
}

impl Windows {
    /// The windows that rays of the given plans need.
    pub fn new<'a>(wall: &Wall, plans: impl Iterator<Item = &'a RayPlan>) -> Self {
        let widest = plans
            .flat_map(|p| &p.shear)
            .map(|t| t.scale)
            .max()
            .unwrap_or(0);
        let repeated = wall.ends() == Ends::Repeated;
        let before = if repeated { 0 } else { (1 << widest) + CHUNK };
        let stride = before + wall.columns() + CHUNK;
        let mut windows = Self {
            columns: wall.columns(),
            levels: wall.levels(),
            before,
            stride,
            scales: widest + 1,
            repeated,
            sums: vec![0.0; (widest as usize + 1) * wall.levels() * stride],
        };
        windows.refresh(wall, 0..wall.columns());
        windows
    }

    fn row(&self, scale: u32, level: usize) -> usize {
        (scale as usize * self.levels + level) * self.stride + self.before
    }

    /// Takes the densities of `columns` from the wall again.
    pub fn refresh(&mut self, wall: &Wall, columns: core::ops::Range<usize>) {
        let n = self.columns as i64;
        let end = columns.end as i64;
        for level in 0..self.levels {
            let base = self.row(0, level);
            self.sums[base + columns.start..base + columns.end]
                .copy_from_slice(&wall.level(level)[columns.clone()]);
            self.mirror_margin(base);
            for scale in 1..self.scales {
                // The window of 2^s columns that starts at c reaches c + 2^s − 1.
                let half = 1i64 << (scale - 1);
                let mut first = columns.start as i64 - (2 * half - 1);
                if self.repeated {
                    first = first.max(end - n);
                } else {
                    first = first.max(-(self.before as i64));
                }
                let (below, row) = (
                    self.row(scale - 1, level) as i64,
                    self.row(scale, level) as i64,
                );
                for c in first..end {
                    let (c, far) = if self.repeated {
                        (c.rem_euclid(n), (c + half).rem_euclid(n))
                    } else {
                        // All zero from one past the row's end on.
                        (c, (c + half).min(n))
                    };
                    let sum = self.sums[(below + c) as usize] + self.sums[(below + far) as usize];
                    self.sums[(row + c) as usize] = sum;
                }
                self.mirror_margin(row as usize);
            }
        }
    }

    fn mirror_margin(&mut self, base: usize) {
        if self.repeated {
            for i in 0..CHUNK {
                self.sums[base + self.columns + i] = self.sums[base + i % self.columns];
            }
        }
    }

    /// Place of the chunk that starts `shift` columns after column `start`, within a row of sums. In a repeated wall
    /// both are already taken modulo the period.
    #[inline(always)]
    fn slot(&self, start: i32, shift: i32) -> usize {
        let (n, before) = (self.columns as i32, self.before as i32);
        let at = start + shift;
        if self.repeated {
            (if at >= n { at - n } else { at }) as usize
        } else {
            (at.clamp(-before, n) + before) as usize
        }
    }

    /// Mean density that each of the sheared columns `start` … meets in each part of a level.
    pub fn shear(&self, plan: &RayPlan, start: i32, means: &mut [Lanes]) {
        for (part, mean) in means.iter_mut().enumerate() {
            let level = part / plan.parts;
            let terms = &plan.shear[plan.shear_at[part] as usize..plan.shear_at[part + 1] as usize];
            let mut sum = [0.0; CHUNK];
            for term in terms {
                let row = (term.scale as usize * self.levels + level) * self.stride;
                let at = row + self.slot(start, term.shift);
                let columns: &[f32; CHUNK] =
                    self.sums[at..at + CHUNK].try_into().expect("a whole chunk");
                for i in 0..CHUNK {
                    sum[i] += term.weight * columns[i];
                }
            }
            *mean = sum;
        }
    }
}

/// Share of light that a ray lets through, for each column of the chunk.
#[inline(always)]
fn through(terms: &[PathTerm], means: &[Lanes]) -> Lanes {
    let mut depth = [0.0; CHUNK];
    for term in terms {
        let mean = &means[term.part as usize];
        for i in 0..CHUNK {
            depth[i] += term.weight * mean[i];
        }
    }
    let mut out = [0.0; CHUNK];
    for i in 0..CHUNK {
        out[i] = exp_minus(depth[i]);
    }
    out
}

/// Share of light that reaches the ground, mean over the alley's width, for each column of the chunk.
pub(crate) fn ground(plan: &RayPlan, means: &[Lanes]) -> Lanes {
    over_rays(plan, &plan.ground, means, plan.clear)
}

/// Sum over rays of what they let through, each by its share, on top of `clear`.
#[inline(always)]
pub(crate) fn over_rays(plan: &RayPlan, rays: &[Ray], means: &[Lanes], clear: f32) -> Lanes {
    let mut sum = [clear; CHUNK];
    for ray in rays {
        let t = through(plan.terms(*ray), means);
        for i in 0..CHUNK {
            sum[i] += ray.share * t[i];
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exponential_is_close_and_dark_at_the_end() {
        let mut worst = 0.0f64;
        for i in 0..200_000 {
            let x = i as f32 * 5e-4;
            worst = worst.max((f64::from(exp_minus(x)) - (-f64::from(x)).exp()).abs());
        }
        assert!(worst < 2e-7, "{worst}");
        assert_eq!(exp_minus(0.0), 1.0);
        assert!(exp_minus(1e12) < 2e-38 && exp_minus(1e12) >= 0.0);
    }
}
