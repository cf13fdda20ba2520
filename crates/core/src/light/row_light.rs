//! All that is reported of a row's light at rest.

use super::direction::{Direction, DirectionSet, Fineness};
use super::foliage::{Foliage, Surroundings};
use super::gaps::{GapRule, LightGap, light_gaps};
use super::report::{
    FLOWERING_LIGHT, LightMap, QUALITY_LIGHT, Shares, ZoneLight, shares, zone_through_columns,
};
use super::sky::{Period, Sky, period_light};
use super::state::{LightState, Settings, Weights};
use super::sun::{ClearDay, declination, solar_time};
use super::wall::{LEVEL_MAX_M, RowShape, Wall};
use crate::row::{Limit, Targets};
use core::ops::Range;
use serde::{Deserialize, Serialize};

/// What is reported of a row's light over a clear period, a standard overcast sky's light with it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LightReport {
    /// Place, bearing, thickness and spacing, and which of them were taken.
    pub around: Surroundings,
    /// The period.
    pub period: Period,
    /// Share of the leaves that were out, 0–1.
    pub out: f64,
    /// Leaf area per ground area.
    pub leaf_area_index: f64,
    /// Shares of the light that the wall catches.
    pub caught: Shares,
    /// The renewal zone's lowest and highest height, m.
    pub zone_at: (f64, f64),
    /// Light on the wall's middle plane in the renewal zone; none where it misses the leaves' heights.
    pub zone: Option<ZoneLight>,
    /// Share of the leafy wall's face, from the cordon to the height that half of it reaches, under 30 % of the light.
    pub under_flowering: f64,
    /// The same under 50 %.
    pub under_quality: f64,
    /// See-through stretches, greatest loss first.
    pub gaps: Vec<LightGap>,
    /// Share of the light that reaches the ground under each column.
    pub fall_through: Vec<f32>,
    /// Light on the middle plane, the whole row.
    pub map: LightMap,
    /// Length of the row, m.
    pub length: f64,
    /// Where its first column starts, m along the row.
    pub x0: f64,
    /// Width of a column, m.
    pub dx: f64,
    /// Height that half the leafy columns reach, m; the cordon's without leaves.
    pub top: f64,
}

/// Columns whose map is worked out at once: what is kept for each direction stays small on rows of any length.
const CHUNK_COLUMNS: usize = 800;

/// The light map of all columns, piece by piece. The state's view is moved; its ground stays.
pub fn whole_map(state: &mut LightState, weights: &Weights) -> LightMap {
    let (n, levels) = (state.wall().columns(), state.wall().levels());
    let mut light = vec![0.0; n * levels];
    let mut from = 0;
    while from < n {
        let to = (from + CHUNK_COLUMNS).min(n);
        state.set_view(from..to);
        let piece = state.light_map(weights);
        for l in 0..levels {
            light[l * n + from..l * n + to]
                .copy_from_slice(&piece[l * (to - from)..(l + 1) * (to - from)]);
        }
        from = to;
    }
    state.set_view(0..0);
    LightMap {
        columns: 0..n,
        z: state.wall().z().to_vec(),
        light,
    }
}

/// What counts as a gap in a row's wall: as wide as the see-through rule lets no space between uprights be, between the
/// cordon and the height that half of the wall reaches.
pub fn gap_rule(foliage: &Foliage, targets: &Targets) -> GapRule {
    let wire = foliage.wire();
    let most = targets.get(Limit::UprightSpacing) / 1000.0 * targets.get(Limit::SeeThroughRatio);
    let open = (most - foliage.strip_width()).max(0.0);
    GapRule {
        // The next wider width that the columns can tell.
        least_width: open + foliage.column_width() / 2.0,
        ..GapRule::between(
            wire,
            foliage.typical_top().map_or(wire, |t| t - LEVEL_MAX_M),
        )
    }
}

/// The report at rest: everything that is said of a row's light comes from here.
pub fn report(foliage: &Foliage, targets: &Targets, period: Period) -> LightReport {
    let around = *foliage.around();
    let (clear, sky) = (ClearDay::default(), Sky::StandardOvercast);
    let wall = foliage.wall();
    let rule = gap_rule(foliage, targets);
    let gaps = light_gaps(
        &wall,
        around.site,
        period,
        clear,
        sky,
        Fineness::Dragging,
        &rule,
    );
    let mut state = LightState::new(wall, &Settings::settled(&foliage.wall(), None));
    let light = period_light(state.directions(), around.site, period, clear, sky);
    let caught = shares(&state, &light);
    let fall_through = state.fall_through(&light.total);
    let map = whole_map(&mut state, &light.total);
    let zone_at = zone_heights(foliage, targets);
    let (low, high) = (rule.from, rule.to);
    let wall = state.wall();
    LightReport {
        around,
        period,
        out: foliage.out(),
        leaf_area_index: wall.leaf_area_index(),
        caught,
        zone_at,
        zone: map.zone(zone_at.0, zone_at.1),
        under_flowering: map.share_under(FLOWERING_LIGHT, low, high),
        under_quality: map.share_under(QUALITY_LIGHT, low, high),
        gaps,
        fall_through,
        map,
        length: wall.length(),
        x0: wall.x0(),
        dx: wall.dx(),
        top: high,
    }
}

/// The renewal zone's heights, m.
pub fn zone_heights(foliage: &Foliage, targets: &Targets) -> (f64, f64) {
    let wire = foliage.wire();
    (wire, wire + targets.get(Limit::RenewalZone) / 1000.0)
}

/// The sun of a day of the year and an hour of solar time (−12–12 from noon), as the row meets it; none at night.
pub fn sun_of(around: &Surroundings, day: u32, hour: f64) -> Option<Direction> {
    let sun = solar_time(
        around.site.latitude_deg,
        around.site.row_azimuth_deg,
        declination(f64::from(day)),
        hour,
    );
    (sun.z > 0.0).then_some(sun)
}

/// A flat wall beside a deep canopy with the same leaf area.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Beside {
    /// Thickness of the flat wall, m.
    pub flat_thickness: f64,
    /// Thickness of the deep canopy, m.
    pub deep_thickness: f64,
    /// Mean light in the renewal zone through the flat wall's whole thickness, 0–1.
    pub flat: f64,
    /// The same in the deep canopy.
    pub deep: f64,
    /// Light at the base of the flat wall's middle upright once it is stubbed, 0–1.
    pub flat_cut: f64,
    /// Light there in the deep canopy once as much leaf is taken off it.
    pub deep_cut: f64,
    /// Share caught by the flat wall, 0–1.
    pub flat_caught: f64,
    /// Share caught by the deep canopy.
    pub deep_caught: f64,
    /// Leaf area per ground area of both.
    pub leaf_area_index: f64,
    /// Length of the row that was compared, m.
    pub length: f64,
}

/// Longest stretch of a row that is compared, m.
const COMPARED: f64 = 4.0;
/// Length of the row through which a bush's branch mingles its leaves with others', m. From memory.
const BRANCH: f64 = 1.0;

/// The row's own uprights as a flat wall, beside a bush row: the same leaf area at every height, but spread evenly along
/// the row and through the depth, since bush wood grows every way. Light over the whole thickness at the base, before and
/// after a renewal cut. Stubbing takes one upright's leaves off the flat wall, all from its own place; the same leaf area
/// off the bush is a branch that was mingled with others through a metre of the row. Up to 4 m in the row's middle are
/// compared; none without leaves there.
pub fn beside_deep(
    foliage: &Foliage,
    targets: &Targets,
    period: Period,
    thickness: f64,
) -> Option<Beside> {
    let whole = foliage.wall();
    let count = ((COMPARED / whole.dx()) as usize).clamp(1, whole.columns());
    let first = (whole.columns() - count) / 2;
    let shape = whole.shape();
    let wall = |shape: RowShape, cells: Vec<f32>| {
        let x0 = whole.x0() + first as f64 * whole.dx();
        Wall::new(
            x0,
            whole.dx(),
            whole.z().to_vec(),
            cells,
            shape,
            whole.ends(),
        )
        .ok()
    };
    let flat_cells = foliage.density(first..first + count);
    let flat = wall(shape, flat_cells.clone())?;
    if flat.leaf_area_index() <= 0.0 {
        return None;
    }
    let deep_shape = RowShape {
        thickness: thickness.min(shape.row_spacing),
        ..shape
    };
    let thinner = shape.thickness / deep_shape.thickness;
    let even: Vec<f64> = (0..flat.levels())
        .map(|l| {
            let sum: f64 = flat.level(l).iter().map(|d| f64::from(*d)).sum();
            sum / count as f64 * thinner
        })
        .collect();
    let deep_cells: Vec<f32> = even.iter().flat_map(|d| vec![*d as f32; count]).collect();
    let deep = wall(deep_shape, deep_cells.clone())?;

    // The middle upright: the leafiest column within half a metre of the middle, and half a space on either side.
    let metre = |m: f64| ((m / whole.dx()) as usize).max(1);
    let middle = count / 2;
    let leaf_in = |c: usize| -> f64 {
        (0..flat.levels())
            .map(|l| f64::from(flat_cells[l * count + c]))
            .sum()
    };
    let near = middle.saturating_sub(metre(0.5))..(middle + metre(0.5)).min(count);
    let centre = near.max_by(|a, b| leaf_in(*a).total_cmp(&leaf_in(*b)))?;
    let half = metre(targets.get(Limit::UprightSpacing) / 2000.0);
    let own = centre.saturating_sub(half)..(centre + half).min(count);
    let branch =
        centre.saturating_sub(metre(BRANCH / 2.0))..(centre + metre(BRANCH / 2.0)).min(count);
    let (mut flat_cut, mut deep_cut) = (flat_cells, deep_cells);
    let wire_level = flat.z().partition_point(|z| *z < foliage.wire() + 1e-9);
    for l in wire_level..flat.levels() {
        let taken: f64 = own
            .clone()
            .map(|c| f64::from(flat_cut[l * count + c]))
            .sum();
        flat_cut[l * count + own.start..l * count + own.end].fill(0.0);
        let off = (taken * thinner / branch.len() as f64) as f32;
        for d in &mut deep_cut[l * count + branch.start..l * count + branch.end] {
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
    );
    let (low, high) = zone_heights(foliage, targets);
    let base = |wall: &Wall, columns: Range<usize>| {
        zone_through_columns(wall, &set, &light.total, low, high, columns)
    };
    let caught =
        |wall: &Wall| LightState::new(wall.clone(), &Settings::dragging(None)).caught(&light.total);
    Some(Beside {
        flat_thickness: shape.thickness,
        deep_thickness: deep_shape.thickness,
        flat: base(&flat, 0..count)?,
        // It is the same all along.
        deep: base(&deep, 0..1)?,
        flat_cut: base(&flat_cut, own.clone())?,
        deep_cut: base(&deep_cut, own)?,
        flat_caught: caught(&flat),
        deep_caught: caught(&deep),
        leaf_area_index: flat.leaf_area_index(),
        length: flat.length(),
    })
}
