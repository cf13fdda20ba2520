//! What the light figures say: shares caught, the light map's dark parts, fall-through along the row.

use core::ops::Range;
use serde::{Deserialize, Serialize};

use super::Sampling;
use super::direction::DirectionSet;
use super::sky::{Period, PeriodLight, Site, sun_path};
use super::state::{LightState, Weights};
use super::sun::ClearDay;
use super::trace::{caught, through_to_point};
use super::wall::Wall;

/// Light below which flowering wood fails, as a share of the light above the row (at least 30 % of full sun, in
/// published orchard-light thresholds).
pub const FLOWERING_LIGHT: f64 = 0.30;
/// Light below which fruit quality suffers, as a share of the light above the row (at least 50 % of full sun, in
/// published orchard-light thresholds).
pub const QUALITY_LIGHT: f64 = 0.50;

/// Shares of the incoming light that the wall catches, each 0–1.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Shares {
    /// Of the sun's beam.
    pub beam: f64,
    /// Of the sky's light.
    pub sky: f64,
    /// Of both together, as a clear period mixes them.
    pub total: f64,
}

/// Shares caught over a period whose weights were laid on the state's own directions.
pub fn shares(state: &LightState, light: &PeriodLight) -> Shares {
    let [beam, sky, total] = state.caught_each([&light.beam, &light.sky, &light.total]);
    Shares { beam, sky, total }
}

/// Share of the beam caught over one clear day, each of its suns traced by itself; none in polar night.
pub fn beam_over_day(
    wall: &Wall,
    site: Site,
    day: u32,
    clear: ClearDay,
    sampling: Sampling,
) -> Option<f64> {
    let (mut sum, mut of) = (0.0, 0.0);
    for step in sun_path(site, Period::day(day), clear) {
        sum += step.beam * caught(wall, step.direction, sampling);
        of += step.beam;
    }
    (of > 0.0).then(|| sum / of)
}

/// A light map: light on the wall's middle plane as a share of the light above the row on level ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LightMap {
    /// Columns that it covers.
    pub columns: Range<usize>,
    /// Level edges, m above the ground.
    pub z: Vec<f64>,
    /// Level by level from the lowest, each over the columns; 0–1.
    pub light: Vec<f32>,
}

/// Light in a band of heights.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ZoneLight {
    /// Mean over the band, 0–1.
    pub mean: f64,
    /// The band's light where it is lowest: of one cell of a map, or of one column over the whole thickness; 0–1.
    pub lowest: f64,
    /// Column where that is.
    pub lowest_column: usize,
}

impl ZoneLight {
    /// Of the band's light column by column, the first of them being column `first`; none without any.
    pub fn over_columns(light: &[f32], first: usize) -> Option<Self> {
        let mut lowest = (f64::INFINITY, 0);
        let mut sum = 0.0;
        for (i, light) in light.iter().enumerate() {
            let light = f64::from(*light);
            sum += light;
            if light < lowest.0 {
                lowest = (light, first + i);
            }
        }
        (!light.is_empty()).then(|| Self {
            mean: sum / light.len() as f64,
            lowest: lowest.0,
            lowest_column: lowest.1,
        })
    }
}

impl LightMap {
    /// The map of a state's view under the given weights.
    pub fn new(state: &LightState, weights: &Weights) -> Self {
        Self {
            columns: state.view(),
            z: state.wall().z().to_vec(),
            light: state.light_map(weights),
        }
    }

    /// Light in one cell, `column` counted in the wall; none outside the view.
    pub fn at(&self, column: usize, level: usize) -> Option<f32> {
        if !self.columns.contains(&column) || level + 1 >= self.z.len() {
            return None;
        }
        Some(self.light[level * self.columns.len() + column - self.columns.start])
    }

    /// The part of the map over some columns, cut to those that it covers.
    pub fn part(&self, columns: Range<usize>) -> Self {
        let from = columns.start.clamp(self.columns.start, self.columns.end);
        let to = columns.end.clamp(from, self.columns.end);
        let width = self.columns.len();
        let at = from - self.columns.start;
        let rows = 0..self.z.len().saturating_sub(1);
        Self {
            columns: from..to,
            z: self.z.clone(),
            light: rows
                .flat_map(|l| &self.light[l * width + at..l * width + at + (to - from)])
                .copied()
                .collect(),
        }
    }

    /// Mean and lowest light between two heights, m; levels that reach into the band in part count by that part. None
    /// where the band misses the map.
    pub fn zone(&self, low: f64, high: f64) -> Option<ZoneLight> {
        let width = self.columns.len();
        let (mut sum, mut of) = (0.0, 0.0);
        let mut lowest = (f64::INFINITY, 0);
        for (level, edges) in self.z.windows(2).enumerate() {
            let part = high.min(edges[1]) - low.max(edges[0]);
            if part <= 1e-9 {
                continue;
            }
            for (i, light) in self.light[level * width..(level + 1) * width]
                .iter()
                .enumerate()
            {
                let light = f64::from(*light);
                sum += part * light;
                of += part;
                if light < lowest.0 {
                    lowest = (light, self.columns.start + i);
                }
            }
        }
        (of > 0.0).then(|| ZoneLight {
            mean: sum / of,
            lowest: lowest.0,
            lowest_column: lowest.1,
        })
    }

    /// Share of the wall's face between two heights (m) that has less light than `limit`, 0–1; 0 without a face.
    pub fn share_under(&self, limit: f64, from: f64, to: f64) -> f64 {
        let width = self.columns.len();
        let (mut under, mut of) = (0.0, 0.0);
        for (level, edges) in self.z.windows(2).enumerate() {
            let part = (to.min(edges[1]) - from.max(edges[0])).max(0.0);
            for light in &self.light[level * width..(level + 1) * width] {
                of += part;
                if f64::from(*light) < limit {
                    under += part;
                }
            }
        }
        if of > 0.0 { under / of } else { 0.0 }
    }
}

/// Means over `bins` even stretches of what stands column by column, columns that straddle two going to both by share.
/// No bins give nothing.
pub fn in_bins(columns: &[f32], bins: usize) -> Vec<f64> {
    let per_bin = columns.len() as f64 / bins.max(1) as f64;
    (0..bins)
        .map(|b| {
            let (from, to) = (b as f64 * per_bin, (b + 1) as f64 * per_bin);
            let (first, last) = (from as usize, (libm::ceil(to) as usize).min(columns.len()));
            let sum: f64 = (first..last)
                .map(|c| {
                    f64::from(columns[c]) * (to.min((c + 1) as f64) - from.max(c as f64)).max(0.0)
                })
                .sum();
            if per_bin > 0.0 { sum / per_bin } else { 0.0 }
        })
        .collect()
}

/// Light at a single point, each ray walked exactly, under weights laid on `set`: `x` m along the row, `y` m across it
/// from the wall's middle, `z` m above the ground; 0–1. Weights are alike on both sides of the row.
pub fn light_at(wall: &Wall, set: &DirectionSet, weights: &Weights, x: f64, y: f64, z: f64) -> f64 {
    let sum: f64 = weights
        .values()
        .iter()
        .enumerate()
        .map(|(i, w)| {
            let near = through_to_point(wall, set.get(i), x, y, z);
            let far = if y == 0.0 {
                near
            } else {
                through_to_point(wall, set.get(i), x, -y, z)
            };
            w * 0.5 * (near + far)
        })
        .sum();
    sum.clamp(0.0, 1.0)
}

/// Places across half a wall's thickness at which light is worked out.
pub const ACROSS: usize = 4;

/// Light in a band of heights (m) at [`ACROSS`] places from the wall's middle to its face, each the middle of an even
/// part of half the thickness: mean over some columns and the levels' parts in the band; 0–1. None where the band misses
/// the leaves' heights, or without columns.
pub fn light_across(
    wall: &Wall,
    set: &DirectionSet,
    weights: &Weights,
    (low, high): (f64, f64),
    columns: impl Iterator<Item = usize> + Clone,
) -> Option<[f64; ACROSS]> {
    let part = 0.5 * wall.shape().thickness / ACROSS as f64;
    let (mut sums, mut of) = ([0.0; ACROSS], 0.0);
    for edges in wall.z().windows(2) {
        let (from, to) = (low.max(edges[0]), high.min(edges[1]));
        if to - from <= 1e-9 {
            continue;
        }
        for column in columns.clone() {
            let (x, z) = (wall.column_centre(column), 0.5 * (from + to));
            for (across, sum) in sums.iter_mut().enumerate() {
                let y = part * (across as f64 + 0.5);
                *sum += (to - from) * light_at(wall, set, weights, x, y, z);
            }
            of += to - from;
        }
    }
    (of > 0.0).then(|| sums.map(|sum| sum / of))
}

/// Mean light in a band of heights over the whole thickness of the wall, not its middle plane alone: what buds anywhere in
/// the wood there see. As [`light_across`].
pub fn zone_through_thickness(
    wall: &Wall,
    set: &DirectionSet,
    weights: &Weights,
    band: (f64, f64),
    columns: impl Iterator<Item = usize> + Clone,
) -> Option<f64> {
    let across = light_across(wall, set, weights, band, columns)?;
    Some(across.iter().sum::<f64>() / ACROSS as f64)
}
