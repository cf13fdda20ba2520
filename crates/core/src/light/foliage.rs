//! The wall's leaves from the row's own wood.
//!
//! How much leaf each piece of wood carries is told by [`crate::canopy`]; here it is spread evenly through the wall's thickness
//! and over a strip about the wood, laterals' along the shoot that carries them. Beyond its ends the row is taken to go on as it
//! began, and the rows beside it are copies of it. Each tree's leaves are kept by themselves, so that a tree that changed
//! is laid anew alone.

use crate::arrange::Arrange;
use crate::canopy::{Canopy, leaf_below};
use crate::model::Parameter::LeafLateral;
use serde::{Deserialize, Serialize};
use std::ops::Range;
use std::sync::Arc;

use super::sky::Site;
use super::tally::Tally;
use super::wall::{COLUMN_MAX_M, Ends, G_SPHERICAL, LEVEL_MAX_M, RowShape, Wall};
use crate::pose::{AnyRow, Geometry, Posed};
use crate::row::{self, Limit, Row, Targets};
use crate::terms::Terms;
use crate::units::Mm;

/// Latitude that is taken where the site gives none: the middle of the northern fruit regions.
pub const LATITUDE_DEG: f64 = 45.0;
/// Bearing that is taken where the site gives none: north to south.
pub const BEARING_DEG: f64 = 0.0;
/// Width of an upright's strip of leaves, as a share of the distance between uprights aimed at. From memory: neighbours do
/// not quite touch.
pub const STRIP_SHARE: f64 = 0.75;

/// What of site and limits the light needs, with what was taken where nothing is given.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Surroundings {
    /// Latitude and bearing.
    pub site: Site,
    /// Thickness and row spacing.
    pub shape: RowShape,
    /// Whether the latitude is the site's own; else it is [`LATITUDE_DEG`].
    pub place_given: bool,
    /// Whether the bearing is the site's own; else it is [`BEARING_DEG`].
    pub bearing_given: bool,
    /// Whether the row spacing is the site's own; else it is that of the limits.
    pub spacing_given: bool,
}

impl Surroundings {
    /// Of a site under the limits. A wall thicker than the rows are apart is taken as thick as that.
    pub fn of(site: &row::Site, targets: &Targets) -> Self {
        let latitude = site.latitude_deg.filter(|l| (-90.0..=90.0).contains(l));
        let bearing = site.row_bearing_deg.filter(|b| b.is_finite());
        let given = site.row_spacing.map(Mm::f).filter(|s| *s > 0.0);
        let spacing = given.unwrap_or(targets.get(Limit::RowSpacing)) / 1000.0;
        Self {
            site: Site {
                latitude_deg: latitude.unwrap_or(LATITUDE_DEG),
                row_azimuth_deg: bearing.unwrap_or(BEARING_DEG),
            },
            shape: RowShape {
                thickness: (targets.get(Limit::WallThickness) / 1000.0).min(spacing),
                row_spacing: spacing,
                g: G_SPHERICAL,
            },
            place_given: latitude.is_some(),
            bearing_given: bearing.is_some(),
            spacing_given: given.is_some(),
        }
    }
}

/// The grid that leaves are laid on: even columns along the stretch to be filled, even levels from just below the cordon
/// up.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Grid {
    x0: f64,
    dx: f64,
    columns: usize,
    z0: f64,
    levels: usize,
}

/// Half the height of the box that a piece of wood spreads its leaves over, m; also how far the grid reaches below the
/// cordon.
const HALF_BOX: f64 = 0.05;
/// Longest piece of wood that is laid at once, mm.
const PIECE: f64 = 50.0;
/// The grid's height grows by such steps, m, so that a tip that rises a little fits.
const HEAD_STEP: f64 = 0.5;

/// Most columns: rows longer than 2 km get wider ones, so that no row is too long for a device's memory.
const COLUMNS_MAX: f64 = 40_000.0;

/// The leaves of one tree. Columns may lie beyond the grid: they come in again on its other side.
#[derive(Debug, Clone)]
struct Strip {
    posed: Arc<Posed>,
    /// The highest place of the tree's wood, mm.
    top: f64,
    /// Its leaf, m²: also what hangs below the grid.
    leaf: f64,
    /// Whether some of that is on wood of this leaf.
    grown: bool,
    columns: Range<i64>,
    /// Density level by level over the columns.
    cells: Vec<f32>,
}

/// What has changed on the grid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// The grid is another one.
    All,
    /// Leaves in these columns; none overlap.
    Columns(Vec<Range<usize>>),
}

/// The leaves of a row on a grid.
#[derive(Debug, Clone)]
pub struct Foliage {
    leaf: u8,
    terms: Terms,
    half_width: f64,
    around: Surroundings,
    grid: Grid,
    strips: Vec<Strip>,
    /// The trellis's wall height, m.
    wall_height: f64,
    /// Density in full leaf, level by level.
    full: Vec<f32>,
    /// How high the leaves of each column reach, by which the whole row's figures follow a change at once.
    tallied: Tally,
    /// Share of the leaves that are out.
    out: f32,
}

impl Foliage {
    /// The leaves of a row, `out` of them (0 dormant, 1 full leaf) unfolded. A row with nothing to fill has a bare metre.
    pub fn new(row: &impl AnyRow, terms: &Terms, targets: &Targets, out: f64) -> Self {
        let trees = row.posed_in(terms.geometry);
        Self::of_posed(row.row(), &trees, terms, targets, out)
    }

    fn of_posed(
        row: &Row,
        trees: &[Arc<Posed>],
        terms: &Terms,
        targets: &Targets,
        out: f64,
    ) -> Self {
        let half_width = targets.get(Limit::UprightSpacing) / 1000.0 * STRIP_SHARE / 2.0;
        let mut foliage = Self {
            leaf: row.leaf,
            terms: terms.clone(),
            half_width,
            around: Surroundings::of(&terms.site, targets),
            grid: grid(row, trees.iter().map(|t| highest(t)), terms.geometry),
            strips: Vec::new(),
            wall_height: row.trellis.wall_height.f() / 1000.0,
            full: Vec::new(),
            tallied: Tally::default(),
            out: share(out),
        };
        foliage.full = vec![0.0; foliage.grid.columns * foliage.grid.levels];
        foliage.tallied = Tally::new(foliage.grid.columns, foliage.grid.levels);
        foliage.strips = trees.iter().map(|t| foliage.strip(t)).collect();
        foliage.sum(0..foliage.grid.columns);
        foliage
    }

    /// Follows the row. Trees are told apart by their place in memory: one that is shared still is not looked at.
    pub fn follow(&mut self, row: &impl AnyRow, terms: &Terms, targets: &Targets) -> Change {
        let trees = row.posed_in(terms.geometry);
        self.follow_posed(row.row(), &trees, terms, targets)
    }

    fn follow_posed(
        &mut self,
        row: &Row,
        trees: &[Arc<Posed>],
        terms: &Terms,
        targets: &Targets,
    ) -> Change {
        let same_trees = self.strips.len() == row.trees.len()
            && self
                .strips
                .iter()
                .zip(&row.trees)
                .all(|(s, t)| s.posed.tree().id == t.id);
        let fits = {
            let tops = self.strips.iter().zip(trees).map(|(strip, posed)| {
                match Arc::ptr_eq(strip.posed.tree(), posed.tree()) {
                    true => strip.top,
                    false => highest(posed),
                }
            });
            let wanted = grid(row, tops, terms.geometry);
            // A wall that became lower keeps its grid.
            wanted.levels <= self.grid.levels
                && Grid {
                    levels: self.grid.levels,
                    ..wanted
                } == self.grid
        };
        let half_width = targets.get(Limit::UprightSpacing) / 1000.0 * STRIP_SHARE / 2.0;
        let around = Surroundings::of(&terms.site, targets);
        let as_before = (row.leaf, half_width, around) == (self.leaf, self.half_width, self.around)
            && same_leaves(terms, &self.terms);
        if !(same_trees && fits && as_before) {
            *self = Self::of_posed(row, trees, terms, targets, f64::from(self.out));
            return Change::All;
        }
        self.wall_height = row.trellis.wall_height.f() / 1000.0;
        let mut changed: Vec<Range<i64>> = Vec::new();
        for (i, posed) in trees.iter().enumerate() {
            if Arc::ptr_eq(self.strips[i].posed.tree(), posed.tree()) {
                continue;
            }
            let new = self.strip(posed);
            changed.extend([self.strips[i].columns.clone(), new.columns.clone()]);
            self.strips[i] = new;
        }
        let ranges = on_the_grid(&changed, self.grid.columns);
        for range in &ranges {
            self.sum(range.clone());
        }
        Change::Columns(ranges)
    }

    /// The same leaves in columns half as wide.
    pub fn finer(&self) -> Self {
        let grid = Grid {
            dx: 0.5 * self.grid.dx,
            columns: 2 * self.grid.columns,
            ..self.grid
        };
        let mut finer = Self {
            grid,
            full: vec![0.0; grid.columns * grid.levels],
            tallied: Tally::new(grid.columns, grid.levels),
            strips: Vec::new(),
            ..self.clone()
        };
        finer.strips = self.strips.iter().map(|s| finer.strip(&s.posed)).collect();
        finer.sum(0..grid.columns);
        finer
    }

    /// Unfolds another share of the leaves.
    pub fn unfold(&mut self, out: f64) {
        self.out = share(out);
    }

    /// Share of the leaves that are out, 0–1.
    pub fn out(&self) -> f64 {
        f64::from(self.out)
    }

    /// Where the row stands, how thick and how far apart its walls are.
    pub fn around(&self) -> &Surroundings {
        &self.around
    }

    /// Height of the cordon wire, m.
    pub fn wire(&self) -> f64 {
        self.terms.geometry.wire / 1000.0
    }

    /// The height to which the wall is to grow, m.
    pub fn wall_height(&self) -> f64 {
        self.wall_height
    }

    /// Number of columns.
    pub fn columns(&self) -> usize {
        self.grid.columns
    }

    /// Width of a column, m.
    pub fn column_width(&self) -> f64 {
        self.grid.dx
    }

    /// The wall with these leaves.
    pub fn wall(&self) -> Wall {
        let grid = &self.grid;
        let z = (0..=grid.levels).map(|l| grid.z0 + LEVEL_MAX_M * l as f64);
        Wall::new(
            grid.x0,
            grid.dx,
            z.collect(),
            self.density(0..grid.columns),
            self.around.shape,
            Ends::Repeated,
        )
        .expect("lengths are positive and densities finite by construction")
    }

    /// Densities of some columns, level by level, as [`LightState::edit`](super::LightState::edit) takes them.
    pub fn density(&self, columns: Range<usize>) -> Vec<f32> {
        let n = self.grid.columns;
        (0..self.grid.levels)
            .flat_map(|l| &self.full[l * n + columns.start..l * n + columns.end])
            .map(|d| d * self.out)
            .collect()
    }

    /// The height, m, that the leaves of half the leafy columns reach; none without a leaf.
    pub fn typical_top(&self) -> Option<f64> {
        let levels = self.tallied.typical_levels()?;
        Some(self.grid.z0 + LEVEL_MAX_M * levels as f64)
    }

    /// Number of levels up to the highest leaf.
    pub fn leafy_levels(&self) -> usize {
        self.tallied.most_levels()
    }

    /// Leaf area per ground area of the trees, lost ones counted in: what the growth model says of the same trees. Leaves on the
    /// trunk below the grid count here, and shade nothing.
    pub fn leaf_area_index(&self) -> f64 {
        let leaf: f64 = self.strips.iter().map(|s| s.leaf).sum();
        let ground = self.terms.stand.ground() * self.strips.len() as f64;
        match ground > 0.0 {
            true => leaf / ground * f64::from(self.out),
            false => 0.0,
        }
    }

    /// Whether anything has grown in the row's leaf yet.
    pub fn has_grown(&self) -> bool {
        self.strips.iter().any(|s| s.grown)
    }

    /// Width of an upright's strip of leaves, m.
    pub fn strip_width(&self) -> f64 {
        2.0 * self.half_width
    }

    /// Adds up the trees' leaves in some columns, always in the trees' order: what is added up anew equals the whole.
    fn sum(&mut self, columns: Range<usize>) {
        let (n, levels) = (self.grid.columns, self.grid.levels);
        for l in 0..levels {
            self.full[l * n + columns.start..l * n + columns.end].fill(0.0);
        }
        for strip in &self.strips {
            if !reaches(&strip.columns, &columns, n) {
                continue;
            }
            let width = strip.columns.end - strip.columns.start;
            for (i, j) in strip.columns.clone().enumerate() {
                let c = j.rem_euclid(n as i64) as usize;
                if columns.contains(&c) {
                    for l in 0..levels {
                        self.full[l * n + c] += strip.cells[l * width as usize + i];
                    }
                }
            }
        }
        self.tallied.count(&self.full, columns);
    }

    /// The leaves of one tree.
    fn strip(&self, posed: &Arc<Posed>) -> Strip {
        let a = &*self.terms.assumptions;
        let canopy = Canopy::of(posed.tree(), self.leaf, a);
        let carried = canopy.carried(&self.terms);
        let mut pieces: Vec<Piece> = Vec::new();
        for (shoot, course) in posed.pairs() {
            let mut at = 0.0;
            let lateral = shoot.laterals.total / shoot.length().max(1.0) * a[LeafLateral] / 1000.0;
            for unit in &shoot.units {
                let (mut from, mut below) = (0.0, 0.0);
                // From the base up, so that a tip that moves leaves the other pieces as they are.
                while from < unit.kept {
                    let to = (from + PIECE).min(unit.kept);
                    let leaf = leaf_below(shoot, unit, to, self.leaf, a);
                    let area = (leaf - below + lateral * (to - from)) * carried;
                    if area > 0.0 {
                        let point = course.point(at + 0.5 * (from + to));
                        pieces.push(Piece {
                            x: point.x / 1000.0,
                            z: point.y / 1000.0,
                            area,
                        });
                    }
                    (from, below) = (to, leaf);
                }
                at += unit.kept;
            }
        }
        let mut strip = self.lay(posed, &pieces);
        strip.leaf = canopy.leaf_area(&self.terms);
        strip.grown = canopy.new > 0.0;
        strip
    }

    fn lay(&self, posed: &Arc<Posed>, pieces: &[Piece]) -> Strip {
        let top = highest(posed);
        let grid = &self.grid;
        let column = |x: f64| (x - grid.x0) / grid.dx;
        let half = self.half_width / grid.dx;
        let pieces = || {
            pieces
                .iter()
                .filter(|p| p.z > grid.z0 && p.x.is_finite() && p.z.is_finite())
        };
        let first = pieces().map(|p| column(p.x)).fold(f64::INFINITY, f64::min);
        let last = pieces()
            .map(|p| column(p.x))
            .fold(f64::NEG_INFINITY, f64::max);
        if first > last {
            return Strip {
                posed: Arc::clone(posed),
                top,
                leaf: 0.0,
                grown: false,
                columns: 0..0,
                cells: Vec::new(),
            };
        }
        let columns = libm::floor(first - half) as i64..libm::ceil(last + half) as i64;
        let width = (columns.end - columns.start) as usize;
        let mut cells = vec![0.0f64; width * grid.levels];
        let cell_volume = grid.dx * LEVEL_MAX_M * self.around.shape.thickness;
        for p in pieces() {
            let x = column(p.x) - columns.start as f64;
            let (from, to) = (x - half, x + half);
            let z = (p.z - grid.z0) / LEVEL_MAX_M;
            let up = HALF_BOX / LEVEL_MAX_M;
            let (low, high) = ((z - up).max(0.0), (z + up).min(grid.levels as f64));
            let density = p.area / cell_volume / ((to - from) * (high - low).max(1e-9));
            for l in low as usize..(libm::ceil(high) as usize).min(grid.levels) {
                let part = high.min((l + 1) as f64) - low.max(l as f64);
                let row = &mut cells[l * width..(l + 1) * width];
                let (first, last) = (from as usize, (libm::ceil(to) as usize).min(width));
                for (c, cell) in row.iter_mut().enumerate().take(last).skip(first) {
                    let along = to.min((c + 1) as f64) - from.max(c as f64);
                    *cell += density * (part * along).max(0.0);
                }
            }
        }
        Strip {
            posed: Arc::clone(posed),
            top,
            leaf: 0.0,
            grown: false,
            columns,
            cells: cells.into_iter().map(|d| d as f32).collect(),
        }
    }
}

/// A short piece of wood: its middle, m, and its leaves, m².
struct Piece {
    x: f64,
    z: f64,
    area: f64,
}

/// Whether the same wood has the same leaves under both.
fn same_leaves(a: &Terms, b: &Terms) -> bool {
    a.geometry == b.geometry
        && a.stand.tree_spacing == b.stand.tree_spacing
        && (Arc::ptr_eq(&a.assumptions, &b.assumptions) || a.assumptions == b.assumptions)
}

fn share(out: f64) -> f32 {
    if out > 0.0 { out.min(1.0) as f32 } else { 0.0 }
}

/// The grid of a row whose trees' wood reaches these heights, mm.
fn grid(row: &Row, tops: impl Iterator<Item = f64>, g: Geometry) -> Grid {
    let x0 = row.from.f() / 1000.0;
    let length = (row.to.f() / 1000.0 - x0).max(0.0);
    let length = if length > 0.0 { length } else { 1.0 };
    let columns = libm::ceil(length / COLUMN_MAX_M - 1e-9).clamp(1.0, COLUMNS_MAX);
    let tips = tops.fold(0.0, f64::max);
    let z0 = (g.wire / 1000.0 - 2.0 * HALF_BOX).max(0.0);
    let top = (row.trellis.wall_height.f().max(tips) / 1000.0 + HALF_BOX).max(z0 + HEAD_STEP);
    let steps = libm::ceil((top - z0) / HEAD_STEP - 1e-9);
    Grid {
        x0,
        dx: length / columns,
        columns: columns as usize,
        z0,
        levels: libm::round(steps * HEAD_STEP / LEVEL_MAX_M) as usize,
    }
}

/// Columns of trees, which may lie beyond the grid, as ranges on it: from left to right, none overlapping.
fn on_the_grid(columns: &[Range<i64>], n: usize) -> Vec<Range<usize>> {
    let mut parts: Vec<Range<usize>> = Vec::new();
    for range in columns.iter().filter(|r| !r.is_empty()) {
        if (range.end - range.start) as usize >= n {
            return std::iter::once(0..n).collect();
        }
        let from = range.start.rem_euclid(n as i64) as usize;
        let to = from + (range.end - range.start) as usize;
        parts.push(from..to.min(n));
        parts.push(0..to.saturating_sub(n));
    }
    parts.retain(|part| !part.is_empty());
    parts.arrange_by_key(|part| (part.start, part.end));
    let mut out: Vec<Range<usize>> = Vec::new();
    for part in parts {
        match out.last_mut() {
            Some(last) if part.start <= last.end => last.end = last.end.max(part.end),
            _ => out.push(part),
        }
    }
    out
}

/// Whether a tree's columns, which may lie beyond the grid, come into some of it.
fn reaches(strip: &Range<i64>, columns: &Range<usize>, n: usize) -> bool {
    let from = strip.start.rem_euclid(n as i64) as usize;
    let to = from + (strip.end - strip.start) as usize;
    // What stands out beyond the end begins the grid again.
    from < to && (from < columns.end && to > columns.start || to > n + columns.start)
}

/// The highest place of a tree's wood, mm.
fn highest(posed: &Posed) -> f64 {
    posed
        .courses()
        .iter()
        .map(|c| c.tip().y.max(c.base.y))
        .filter(|z| z.is_finite())
        .fold(0.0, f64::max)
}
