//! What a ray of one direction meets, worked out once per direction: it depends on the wall's shape alone, not on
//! its leaves.

use core::ops::Range;

use crate::direction::{Direction, gauss_legendre};
use crate::wall::{Ends, Wall};

/// One term of a level's mean density along the ray: a sum of `2^scale` neighbouring columns, `shift` columns on.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ShearTerm {
    pub shift: i32,
    pub scale: u32,
    pub weight: f32,
}

/// Optical depth per density of one part of a level, along a ray's way.
#[derive(Debug, Clone, Copy)]
pub(crate) struct PathTerm {
    pub part: u32,
    pub weight: f32,
}

/// A ray to the ground (or to a level of the map): its part of the whole, and its path terms.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Ray {
    pub share: f32,
    pub from: u32,
    pub to: u32,
}

/// A height at which light is mapped: on the wall's middle plane, or as the mean at `across` places through its thickness.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MapRow {
    pub level: usize,
    pub z: f64,
    /// 1 is the middle plane.
    pub across: usize,
}

/// How a row of the map is worked out: its rays, and where its cells lie among the sheared columns. Cell `i` is met by
/// sheared columns `i + shift` and the next, the latter with share `next`.
#[derive(Debug, Clone)]
pub(crate) struct MapPlan {
    pub rays: Range<usize>,
    pub shift: i32,
    pub next: f32,
}

/// How finely the ground is sampled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sampling {
    /// Longest stretch across the alley that one 4-point Gauss–Legendre piece may span, as a share of the row
    /// spacing, above 0; 1 splits only where the edge of a wall passes.
    pub piece: f64,
    /// Rays per column along the row, at least 1, evenly placed.
    pub rays_per_column: usize,
    /// Parts into which each level is cut along the ray, at least 1. A ray that meets a level in part meets the mean of
    /// that part. An even number lets the rays to the map's cells start where a part does.
    pub level_parts: usize,
}

impl Sampling {
    /// The same, with levels cut four times as finely where the wall has solid cells: a part that a ray meets for a moment
    /// only is dark as a whole there.
    pub fn fit(self, wall: &Wall) -> Self {
        let level_parts = if wall.has_solid() {
            4 * self.level_parts
        } else {
            self.level_parts
        };
        Self {
            level_parts,
            ..self
        }
    }
}

/// The plan of one direction.
#[derive(Debug, Clone)]
pub(crate) struct RayPlan {
    /// Edges of the parts of levels, m.
    pub edges: Vec<f64>,
    /// Parts of each level.
    pub parts: usize,
    /// Terms of part `l`: `shear[shear_at[l]..shear_at[l + 1]]`.
    pub shear: Vec<ShearTerm>,
    pub shear_at: Vec<u32>,
    /// Share of the alley's width from which no wall is met.
    pub clear: f32,
    pub ground: Vec<Ray>,
    pub map: Vec<MapPlan>,
    map_rays: Vec<Ray>,
    pub terms: Vec<PathTerm>,
    /// Columns that a ray passes between the ground and the top (positive: toward +x).
    pub reach: f64,
}

/// Greatest power of two of columns that a window sum spans.
pub(crate) const MAX_SCALE: u32 = 12;

impl RayPlan {
    /// `offset` (0–1) is where in its column a ray meets the ground; `map` are the rows of the map.
    pub fn new(
        wall: &Wall,
        direction: Direction,
        sampling: Sampling,
        offset: f64,
        map: &[MapRow],
    ) -> Self {
        let parts = sampling.level_parts.max(1);
        let mut edges = vec![wall.z()[0]];
        for z in wall.z().windows(2) {
            edges.extend((1..=parts).map(|p| {
                if p == parts {
                    z[1]
                } else {
                    z[0] + (z[1] - z[0]) * p as f64 / parts as f64
                }
            }));
        }
        let mut plan = Self {
            parts,
            edges: Vec::new(),
            shear: Vec::new(),
            shear_at: vec![0],
            clear: 0.0,
            ground: Vec::new(),
            map: Vec::new(),
            map_rays: Vec::new(),
            terms: Vec::new(),
            reach: direction.along() * wall.z()[wall.levels()] / wall.dx(),
        };
        let per_height = direction.along() / wall.dx();
        for z in edges.windows(2) {
            plan.shear_level(offset + per_height * z[0], offset + per_height * z[1]);
            plan.shear_at.push(plan.shear.len() as u32);
        }
        plan.edges = edges;
        if wall.ends() == Ends::Repeated {
            for term in &mut plan.shear {
                term.shift = term.shift.rem_euclid(wall.columns() as i32);
            }
        }
        plan.ground_rays(wall, direction, sampling.piece);
        for row in map {
            let first = plan.map_rays.len();
            // One node is the middle, with all the weight.
            let (nodes, weights) = gauss_legendre(row.across.max(1));
            for (node, weight) in nodes.iter().zip(&weights) {
                let y = 0.5 * wall.shape().thickness * node;
                let ray = plan.ray(wall, direction, y, row.z, 0.5 * weight);
                plan.map_rays.push(ray);
            }
            // Cell centre i + ½ is reached from the ground at i + ½ − m z; sheared column j starts at j + offset.
            let from = 0.5 - per_height * row.z - offset;
            let shift = libm::floor(from);
            plan.map.push(MapPlan {
                rays: first..plan.map_rays.len(),
                shift: shift as i32,
                next: (from - shift) as f32,
            });
        }
        plan
    }

    /// The rays of a row of the map.
    pub fn map_rays(&self, row: &MapPlan) -> &[Ray] {
        &self.map_rays[row.rays.clone()]
    }

    /// Mean over the stretch from `a` to `b` (in columns from the sheared column's own start), as window sums.
    fn shear_level(&mut self, a: f64, b: f64) {
        let (a, b) = if a <= b { (a, b) } else { (b, a) };
        let (first, last) = (libm::floor(a), libm::floor(b));
        let width = b - a;
        let mut push = |shift: f64, scale: u32, weight: f64| {
            if weight > 0.0 {
                self.shear.push(ShearTerm {
                    shift: shift as i32,
                    scale,
                    weight: weight as f32,
                });
            }
        };
        if first == last || width < 1e-9 {
            push(first, 0, 1.0);
            return;
        }
        push(first, 0, (first + 1.0 - a) / width);
        let mut at = first + 1.0;
        let mut left = (last - first) as u64 - 1;
        while left > 0 {
            let scale = left.ilog2().min(MAX_SCALE);
            push(at, scale, 1.0 / width);
            at += (1u64 << scale) as f64;
            left -= 1 << scale;
        }
        push(last, 0, (b - last) / width);
    }

    /// Pieces of the alley between the places where the shadow edge of a wall falls, four Gauss–Legendre rays each.
    fn ground_rays(&mut self, wall: &Wall, direction: Direction, longest: f64) {
        let a = wall.shape().row_spacing;
        let half = 0.5 * wall.shape().thickness;
        let n = direction.across();
        let (low, high) = (wall.z()[0], wall.z()[wall.levels()]);
        let mut edges: Vec<f64> = [
            half - n * high,
            -half - n * high,
            half - n * low,
            -half - n * low,
        ]
        .iter()
        .map(|y| y - a * libm::floor(y / a))
        .collect();
        edges.sort_unstable_by(f64::total_cmp);
        edges.push(edges[0] + a);
        let (nodes, weights) = gauss_legendre(4);
        let mut clear = 0.0;
        for e in edges.windows(2) {
            let length = e[1] - e[0];
            if length < 1e-9 * a {
                continue;
            }
            let parts = libm::ceil(length / (longest * a) - 1e-9).max(1.0);
            let part = length / parts;
            for p in 0..parts as usize {
                let middle = e[0] + (p as f64 + 0.5) * part;
                for (node, weight) in nodes.iter().zip(&weights) {
                    let y = middle + 0.5 * part * node;
                    let share = 0.5 * weight * part / a;
                    let ray = self.ray(wall, direction, y, 0.0, share);
                    if ray.from == ray.to {
                        clear += share;
                    } else {
                        self.ground.push(ray);
                    }
                }
            }
        }
        self.clear = clear as f32;
    }

    /// The path terms of a ray that arrives at `y` across the row and height `z`.
    fn ray(&mut self, wall: &Wall, direction: Direction, y: f64, z: f64, share: f64) -> Ray {
        let edges = &self.edges;
        let mut cover = vec![0.0; edges.len() - 1];
        for_each_wall(wall, direction, y, z, |low, high| {
            let first = edges[1..].partition_point(|top| *top <= low);
            for (l, c) in cover.iter_mut().enumerate().skip(first) {
                if edges[l] >= high {
                    break;
                }
                *c += high.min(edges[l + 1]) - low.max(edges[l]);
            }
        });
        let from = self.terms.len() as u32;
        let per_height = wall.shape().g * direction.slant();
        self.terms.extend(
            cover
                .iter()
                .enumerate()
                .filter(|(_, c)| **c > 0.0)
                .map(|(part, c)| PathTerm {
                    part: part as u32,
                    weight: (per_height * c) as f32,
                }),
        );
        Ray {
            share: share as f32,
            from,
            to: self.terms.len() as u32,
        }
    }

    /// Path terms of a ray.
    pub fn terms(&self, ray: Ray) -> &[PathTerm] {
        &self.terms[ray.from as usize..ray.to as usize]
    }
}

/// Calls `visit(low, high)` for the heights between which a ray, arriving at `y` across the row and height `z`,
/// runs inside each wall it meets, cut to the leaves' heights.
pub(crate) fn for_each_wall(
    wall: &Wall,
    direction: Direction,
    y: f64,
    z: f64,
    mut visit: impl FnMut(f64, f64),
) {
    let a = wall.shape().row_spacing;
    let half = 0.5 * wall.shape().thickness;
    let n = direction.across();
    let bottom = wall.z()[0].max(z);
    let top = wall.z()[wall.levels()];
    if top <= bottom {
        return;
    }
    let first = libm::ceil((y + n * (bottom - z) - half) / a) as i64;
    let last = libm::floor((y + n * (top - z) + half) / a) as i64;
    for k in first..=last {
        let centre = k as f64 * a - y;
        let low = (z + (centre - half) / n).max(bottom);
        let high = (z + (centre + half) / n).min(top);
        if high > low {
            visit(low, high);
        }
    }
}
