//! The wall as a grid of leaf-area density.

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Widest column that the grid uses, in metres. Wider columns over narrow leaf strips cost up to 0.01 of the
/// share caught (derived by comparing grids).
pub const COLUMN_MAX_M: f64 = 0.05;
/// Tallest level that the grid uses, in metres.
pub const LEVEL_MAX_M: f64 = 0.10;
/// Density that stands for a solid wall, m² m⁻³: a millimetre of it lets through e⁻⁵⁰⁰.
pub const OPAQUE: f32 = 1.0e6;
/// Projection of leaf area on a plane across the ray, for leaves that face every way alike (exact for
/// spherical leaf angles).
pub const G_SPHERICAL: f64 = 0.5;

/// What stands beyond the two ends of the row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// The wall repeats itself without end: the period is `columns · dx`.
    Repeated,
    /// The wall ends: beyond it there are no leaves, in this row and in the neighbours alike.
    Ended,
}

/// A box of constant leaf-area density. Lengths in metres, x along the row, z above the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeafBox {
    /// Start along the row, m.
    pub x0: f64,
    /// End along the row, m; a box with `x1 <= x0` holds nothing.
    pub x1: f64,
    /// Bottom, m.
    pub z0: f64,
    /// Top, m; a box with `z1 <= z0` holds nothing.
    pub z1: f64,
    /// Leaf area per volume, m² m⁻³, at least 0; infinite for a solid box.
    pub density: f64,
}

/// The shape that rows share: how thick the wall is and how far apart the rows stand.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct RowShape {
    /// Thickness of the wall across the row, m, above 0 and at most `row_spacing`.
    pub thickness: f64,
    /// Row spacing from centre to centre, m, above 0.
    pub row_spacing: f64,
    /// Projection of leaf area, 0–1; [`G_SPHERICAL`] unless measured.
    pub g: f64,
}

/// Why a wall cannot be made. Each names the value and what would be accepted.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum WallError {
    /// A length, thickness or spacing that is not above zero or not finite.
    #[error("{what} is {value} m; it must be above 0 and finite")]
    Length {
        /// Which length.
        what: &'static str,
        /// Its value, m.
        value: f64,
    },
    /// The wall is thicker than the rows are apart.
    #[error("the wall is {thickness} m thick; rows {row_spacing} m apart allow at most that")]
    TooThick {
        /// Thickness, m.
        thickness: f64,
        /// Row spacing, m.
        row_spacing: f64,
    },
    /// A density below zero or not a number.
    #[error("leaf-area density is {0} m² per m³; it must be 0 or more")]
    Density(f64),
    /// The projection is outside 0–1.
    #[error("the leaf projection is {0}; it must be above 0 and at most 1")]
    Projection(f64),
    /// A grid whose level edges do not rise, or whose size is not `levels · columns`.
    #[error("the grid does not fit: {0}")]
    Grid(&'static str),
}

/// Leaf-area density on a grid of columns (along the row) and levels (upward), of constant thickness, repeated
/// at every row spacing.
#[derive(Debug, Clone, PartialEq)]
pub struct Wall {
    x0: f64,
    dx: f64,
    columns: usize,
    z: Vec<f64>,
    density: Vec<f32>,
    shape: RowShape,
    ends: Ends,
}

impl Wall {
    /// A wall from its grid. `z` holds the level edges (m, rising, from 0 up), `density` the leaf-area density
    /// in m² m⁻³, level by level from the lowest, each level from the row's start.
    pub fn new(
        x0: f64,
        dx: f64,
        z: Vec<f64>,
        density: Vec<f32>,
        shape: RowShape,
        ends: Ends,
    ) -> Result<Self, WallError> {
        check_shape(&shape)?;
        positive("column width", dx)?;
        if !x0.is_finite() {
            return Err(WallError::Grid("the start is not finite"));
        }
        if z.len() < 2 || z[0] < 0.0 || z.windows(2).any(|e| e[1] <= e[0] || !e[1].is_finite()) {
            return Err(WallError::Grid("level edges must rise from the ground up"));
        }
        let levels = z.len() - 1;
        if density.is_empty() || !density.len().is_multiple_of(levels) {
            return Err(WallError::Grid("density must fill levels times columns"));
        }
        if let Some(bad) = density.iter().find(|d| d.is_nan() || **d < 0.0) {
            return Err(WallError::Density(f64::from(*bad)));
        }
        let density: Vec<f32> = density.into_iter().map(|d| d.min(OPAQUE)).collect();
        Ok(Self {
            x0,
            dx,
            columns: density.len() / levels,
            z,
            density,
            shape,
            ends,
        })
    }

    /// A wall from boxes of leaf. Columns are at most [`COLUMN_MAX_M`] wide and levels at most [`LEVEL_MAX_M`]
    /// high; both are laid so that box edges fall on the grid where that is possible. What a box covers in part
    /// it fills by area share; a solid box (infinite density) fills a cell when it covers at least half of it, so
    /// that its size stays right in the mean. No box, or only empty ones, gives a bare wall of one level.
    ///
    /// `length` is the length of the row, or the period of a repeated wall, m; boxes of a repeated wall that
    /// stand out of the period come in again on the other side, those of an ended wall are cut.
    pub fn from_boxes(
        x0: f64,
        length: f64,
        boxes: &[LeafBox],
        shape: RowShape,
        ends: Ends,
    ) -> Result<Self, WallError> {
        check_shape(&shape)?;
        positive("row length", length)?;
        if let Some(bad) = boxes.iter().find(|b| b.density.is_nan() || b.density < 0.0) {
            return Err(WallError::Density(bad.density));
        }
        let full = |b: &&LeafBox| {
            b.x1 > b.x0
                && b.z1 > b.z0
                && b.z1 > 0.0
                && b.density > 0.0
                && [b.x0, b.x1, b.z0, b.z1].iter().all(|v| v.is_finite())
        };
        let boxes: Vec<LeafBox> = boxes.iter().filter(full).copied().collect();
        let z = level_edges(&boxes);
        let columns = fit_columns(length, boxes.iter().flat_map(|b| [b.x0 - x0, b.x1 - x0]));
        let dx = length / columns as f64;
        let mut sum = vec![0.0f64; (z.len() - 1) * columns];
        for b in &boxes {
            lay_box(b, x0, dx, columns, &z, ends, &mut sum);
        }
        let density = sum.into_iter().map(|d| d as f32).collect();
        Self::new(x0, dx, z, density, shape, ends)
    }

    /// Where the first column starts, m along the row.
    pub fn x0(&self) -> f64 {
        self.x0
    }
    /// Width of a column, m.
    pub fn dx(&self) -> f64 {
        self.dx
    }
    /// Number of columns.
    pub fn columns(&self) -> usize {
        self.columns
    }
    /// Number of levels.
    pub fn levels(&self) -> usize {
        self.z.len() - 1
    }
    /// Level edges, m above the ground, from the lowest.
    pub fn z(&self) -> &[f64] {
        &self.z
    }
    /// Length of the row or period, m.
    pub fn length(&self) -> f64 {
        self.dx * self.columns as f64
    }
    /// Thickness, row spacing, leaf projection.
    pub fn shape(&self) -> RowShape {
        self.shape
    }
    /// What stands beyond the ends.
    pub fn ends(&self) -> Ends {
        self.ends
    }
    /// Centre of a column, m along the row.
    pub fn column_centre(&self, column: usize) -> f64 {
        self.x0 + (column as f64 + 0.5) * self.dx
    }
    /// Middle height of a level, m.
    pub fn level_centre(&self, level: usize) -> f64 {
        0.5 * (self.z[level] + self.z[level + 1])
    }
    /// Densities of one level, m² m⁻³, from the row's start.
    pub fn level(&self, level: usize) -> &[f32] {
        &self.density[level * self.columns..(level + 1) * self.columns]
    }
    /// All densities, level by level.
    pub fn density(&self) -> &[f32] {
        &self.density
    }
    /// Sets the density of one cell, m² m⁻³; below zero or not a number counts as bare, above [`OPAQUE`] as solid.
    pub(crate) fn set(&mut self, level: usize, column: usize, density: f32) {
        let clean = if density > 0.0 {
            density.min(OPAQUE)
        } else {
            0.0
        };
        self.density[level * self.columns + column] = clean;
    }
    /// Whether any cell is solid: so dense that a tenth of a metre of it lets through less than one part in 10⁶.
    pub fn has_solid(&self) -> bool {
        let limit = (138.0 / self.shape.g) as f32;
        self.density.iter().any(|d| *d >= limit)
    }
    /// Leaf area per ground area, m² m⁻² (leaf area index). Huge for a solid wall.
    pub fn leaf_area_index(&self) -> f64 {
        let per_length: f64 = (0..self.levels())
            .map(|l| {
                let sum: f64 = self.level(l).iter().map(|d| f64::from(*d)).sum();
                sum * (self.z[l + 1] - self.z[l]) / self.columns as f64
            })
            .sum();
        per_length * self.shape.thickness / self.shape.row_spacing
    }
    /// Column range whose centres lie in `[from, to)` metres along the row, cut to the row.
    pub fn columns_between(&self, from: f64, to: f64) -> std::ops::Range<usize> {
        let index = |x: f64| {
            let c = libm::ceil((x - self.x0) / self.dx - 0.5 - 1e-9);
            (c.max(0.0) as usize).min(self.columns)
        };
        let start = index(from);
        start..index(to).max(start)
    }
}

fn positive(what: &'static str, value: f64) -> Result<(), WallError> {
    if value > 0.0 && value.is_finite() {
        Ok(())
    } else {
        Err(WallError::Length { what, value })
    }
}

fn check_shape(shape: &RowShape) -> Result<(), WallError> {
    positive("wall thickness", shape.thickness)?;
    positive("row spacing", shape.row_spacing)?;
    if shape.thickness > shape.row_spacing {
        return Err(WallError::TooThick {
            thickness: shape.thickness,
            row_spacing: shape.row_spacing,
        });
    }
    if !(shape.g > 0.0 && shape.g <= 1.0) {
        return Err(WallError::Projection(shape.g));
    }
    Ok(())
}

/// Level edges from the lowest leaf to the highest: on the box edges where that does not need many more levels
/// than even ones would, else even.
fn level_edges(boxes: &[LeafBox]) -> Vec<f64> {
    let mut edges: Vec<f64> = boxes.iter().flat_map(|b| [b.z0.max(0.0), b.z1]).collect();
    edges.sort_unstable_by(f64::total_cmp);
    edges.dedup_by(|b, a| *b - *a < 0.005);
    let (Some(&low), Some(&high)) = (edges.first(), edges.last()) else {
        return vec![0.0, LEVEL_MAX_M];
    };
    if edges.len() < 2 {
        return vec![low, low + 0.005];
    }
    let split = |a: f64, b: f64| libm::ceil((b - a) / LEVEL_MAX_M - 1e-9).max(1.0) as usize;
    let even = split(low, high);
    let fitted: usize = edges.windows(2).map(|e| split(e[0], e[1])).sum();
    if 2 * fitted > 3 * even + 4 {
        edges = vec![low, high];
    }
    let mut z = vec![low];
    for e in edges.windows(2) {
        let n = split(e[0], e[1]);
        z.extend((1..=n).map(|i| {
            if i == n {
                e[1]
            } else {
                e[0] + (e[1] - e[0]) * i as f64 / n as f64
            }
        }));
    }
    z
}

/// Number of columns: the fewest that are narrow enough, or up to half as many again where that brings the given
/// edges (m from the start) nearer to the grid. Long rows with edges everywhere keep the fewest.
fn fit_columns(length: f64, edges: impl Iterator<Item = f64>) -> usize {
    let least = libm::ceil(length / COLUMN_MAX_M - 1e-9).max(1.0) as usize;
    let mut edges: Vec<f64> = edges.collect();
    edges.sort_unstable_by(f64::total_cmp);
    edges.dedup_by(|b, a| *b - *a < 1e-6);
    if edges.len() > 64 || least > 400 {
        return least;
    }
    let miss = |n: usize| -> f64 {
        let per = n as f64 / length;
        edges
            .iter()
            .map(|e| (e * per - libm::round(e * per)).abs() / per)
            .sum()
    };
    let mut best = (least, miss(least));
    for n in least + 1..=least + least / 2 {
        let m = miss(n);
        if m < best.1 - 1e-3 * length / least as f64 {
            best = (n, m);
        }
    }
    best.0
}

fn lay_box(b: &LeafBox, x0: f64, dx: f64, columns: usize, z: &[f64], ends: Ends, sum: &mut [f64]) {
    let (from, to) = ((b.x0 - x0) / dx, (b.x1 - x0) / dx);
    let (mut first, mut last) = (
        libm::floor(from + 1e-9) as i64,
        libm::ceil(to - 1e-9) as i64,
    );
    if ends == Ends::Ended {
        first = first.max(0);
        last = last.min(columns as i64);
    }
    for j in first..last {
        let along = (to.min((j + 1) as f64) - from.max(j as f64)).clamp(0.0, 1.0);
        let column = j.rem_euclid(columns as i64) as usize;
        for l in 0..z.len() - 1 {
            let up = (b.z1.min(z[l + 1]) - b.z0.max(z[l])).max(0.0) / (z[l + 1] - z[l]);
            let share = along * up;
            if b.density.is_finite() {
                sum[l * columns + column] += b.density * share;
            } else if share >= 0.5 {
                sum[l * columns + column] = f64::from(OPAQUE);
            }
        }
    }
}
