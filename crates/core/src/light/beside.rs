//! The row's own flat wall beside a deep canopy with the same leaf area.

use super::direction::{DirectionSet, Fineness};
use super::foliage::Foliage;
use super::report::{ACROSS, LightMap, light_across, zone_through_thickness};
use super::row_light::zone_heights;
use super::sky::{Period, PeriodLight, Sky, Weather, period_light};
use super::state::{LightState, Settings};
use super::sun::ClearDay;
use super::wall::{RowShape, Wall};
use crate::row::{Limit, Targets};
use serde::{Deserialize, Serialize};

/// What the rows of the deep canopy have in common with the flat wall's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Alike {
    /// The clear width to drive between the rows: deeper rows stand as much further apart as they are deeper.
    #[default]
    Alley,
    /// The row spacing from centre to centre: deeper rows leave less to drive.
    RowSpacing,
}

/// A deep canopy to compare with.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct DeepCanopy {
    /// Thickness across the row, m; above 0. With the row spacing alike, at most that.
    pub thickness: f64,
    /// What its rows have in common with the flat wall's.
    pub alike: Alike,
}

/// One of the two that are compared.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Canopy {
    /// Thickness across the row, m.
    pub thickness: f64,
    /// Row spacing from centre to centre, m.
    pub row_spacing: f64,
    /// Leaf area per ground area, before a cut.
    pub leaf_area_index: f64,
    /// Mean light in the renewal zone on the middle plane, 0–1.
    pub plane: f64,
    /// The same through the whole thickness.
    pub base: f64,
    /// Light through the whole thickness at the place of a renewal cut, 0–1.
    pub cut: f64,
    /// Share of the light that the rows catch, 0–1.
    pub caught: f64,
    /// Light from the bottom up, in the bands of [`Beside::z`], each from the middle to the face; 0–1.
    pub section: Vec<[f64; ACROSS]>,
}

impl Canopy {
    /// Clear width between two rows, m.
    pub fn alley(&self) -> f64 {
        self.row_spacing - self.thickness
    }
}

/// A flat wall beside a deep canopy with the same leaf area per ground area.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Beside {
    /// The row's own flat wall.
    pub flat: Canopy,
    /// The deep canopy.
    pub deep: Canopy,
    /// Length of the row that was compared, m.
    pub length: f64,
    /// Edges of the bands of heights of both sections, m.
    pub z: Vec<f64>,
}

/// Longest stretch of a row that is compared, m.
const COMPARED: f64 = 4.0;
/// Length of the row through which a bush's branch mingles its leaves with others', m. From memory.
const BRANCH: f64 = 1.0;
/// Columns between those that a section looks at: no even part of the usual spaces between uprights.
const SECTION_STRIDE: usize = 7;
/// Height of a section's bands, m.
const SECTION_BAND: f64 = 0.25;

/// The row's own uprights as a flat wall, beside a bush row: as much leaf per ground area at every height, but spread
/// evenly along the row and through the depth, since bush wood grows every way. Light over the whole thickness at the
/// base, before and after a renewal cut. Stubbing takes one upright's leaves off the flat wall, all from its own place; the
/// same leaf area off the bush is a branch that was mingled with others through a metre of the row. Up to 4 m in the row's
/// middle are compared; none without leaves there.
pub fn beside_deep(
    foliage: &Foliage,
    targets: &Targets,
    (period, weather): (Period, Weather),
    canopy: DeepCanopy,
) -> Option<Beside> {
    let whole = foliage.wall();
    let count = ((COMPARED / whole.dx()) as usize).clamp(1, whole.columns());
    let first = (whole.columns() - count) / 2;
    let wall = |shape: RowShape, cells: Vec<f32>| {
        let x0 = whole.x0() + first as f64 * whole.dx();
        let z = whole.z().to_vec();
        Wall::new(x0, whole.dx(), z, cells, shape, whole.ends()).ok()
    };
    let shape = whole.shape();
    let flat_cells = foliage.density(first..first + count);
    let flat = wall(shape, flat_cells.clone())?;
    if flat.leaf_area_index() <= 0.0 {
        return None;
    }
    let deep_shape = deep_shape(shape, canopy);
    // Density for density, so that a leaf area spread through the deep canopy is the flat wall's.
    let thinner = shape.thickness / deep_shape.thickness;
    let even = thinner * deep_shape.row_spacing / shape.row_spacing;
    let deep_cells: Vec<f32> = (0..flat.levels())
        .flat_map(|l| {
            let sum: f64 = flat.level(l).iter().map(|d| f64::from(*d)).sum();
            vec![(sum / count as f64 * even) as f32; count]
        })
        .collect();
    let deep = wall(deep_shape, deep_cells.clone())?;

    // The middle upright: the leafiest column within half a metre of the middle, and half a space on either side.
    let metre = |m: f64| ((m / whole.dx()) as usize).max(1);
    let around = |c: usize, half: usize| c.saturating_sub(half)..(c + half).min(count);
    let leaf_in = |c: usize| -> f64 {
        (0..flat.levels())
            .map(|l| f64::from(flat_cells[l * count + c]))
            .sum()
    };
    let centre =
        around(count / 2, metre(0.5)).max_by(|a, b| leaf_in(*a).total_cmp(&leaf_in(*b)))?;
    let own = around(centre, metre(targets.get(Limit::UprightSpacing) / 2000.0));
    let branch = around(centre, metre(BRANCH / 2.0));
    let (mut flat_cut, mut deep_cut) = (flat_cells, deep_cells);
    let wire_level = flat.z().partition_point(|z| *z < foliage.wire() + 1e-9);
    for l in wire_level..flat.levels() {
        let at = l * count;
        let upright = &mut flat_cut[at + own.start..at + own.end];
        let taken: f64 = upright.iter().map(|d| f64::from(*d)).sum();
        upright.fill(0.0);
        let off = (taken * thinner / branch.len() as f64) as f32;
        for d in &mut deep_cut[at + branch.start..at + branch.end] {
            *d = (*d - off).max(0.0);
        }
    }
    let (flat_cut, deep_cut) = (wall(shape, flat_cut)?, wall(deep_shape, deep_cut)?);

    let set = DirectionSet::new(Fineness::Dragging);
    let light = period_light(
        &set,
        foliage.around().site,
        period,
        ClearDay::default(),
        Sky::StandardOvercast,
    )
    .under(weather);
    let z = bands(&flat);
    let one = |before: &Wall, after: &Wall, columns: core::ops::Range<usize>| {
        light_in(
            before,
            after,
            &set,
            &light,
            Places {
                zone: zone_heights(foliage, targets),
                bands: &z,
                columns,
                cut: own.clone(),
            },
        )
    };
    Some(Beside {
        flat: one(&flat, &flat_cut, 0..count)?,
        // It is the same all along.
        deep: one(&deep, &deep_cut, 0..1)?,
        length: flat.length(),
        z,
    })
}

/// The shape of the deep canopy's rows.
fn deep_shape(flat: RowShape, canopy: DeepCanopy) -> RowShape {
    match canopy.alike {
        Alike::Alley => RowShape {
            thickness: canopy.thickness,
            row_spacing: flat.row_spacing - flat.thickness + canopy.thickness,
            ..flat
        },
        Alike::RowSpacing => RowShape {
            thickness: canopy.thickness.min(flat.row_spacing),
            ..flat
        },
    }
}

/// Edges of even bands from the wall's lowest level edge to its highest, m.
fn bands(wall: &Wall) -> Vec<f64> {
    let (low, high) = (wall.z()[0], wall.z()[wall.levels()]);
    let count = libm::ceil((high - low) / SECTION_BAND).max(1.0);
    (0..=count as usize)
        .map(|i| low + (high - low) * i as f64 / count)
        .collect()
}

/// Where a canopy's light is looked at.
struct Places<'a> {
    zone: (f64, f64),
    bands: &'a [f64],
    columns: core::ops::Range<usize>,
    cut: core::ops::Range<usize>,
}

fn light_in(
    before: &Wall,
    after: &Wall,
    set: &DirectionSet,
    light: &PeriodLight,
    places: Places<'_>,
) -> Option<Canopy> {
    let Places {
        zone,
        bands,
        columns,
        cut,
    } = places;
    let state = LightState::new(before.clone(), &Settings::dragging(Some(columns.clone())));
    let map = LightMap::new(&state, &light.total);
    let some = columns.clone().step_by(SECTION_STRIDE);
    Some(Canopy {
        thickness: before.shape().thickness,
        row_spacing: before.shape().row_spacing,
        leaf_area_index: before.leaf_area_index(),
        plane: map.zone(zone.0, zone.1)?.mean,
        base: zone_through_thickness(before, set, &light.total, zone, columns)?,
        cut: zone_through_thickness(after, set, &light.total, zone, cut)?,
        caught: state.caught(&light.total),
        section: bands
            .windows(2)
            .map(|edges| {
                let band = (edges[0], edges[1]);
                light_across(before, set, &light.total, band, some.clone())
            })
            .collect::<Option<_>>()?,
    })
}
