//! All that is reported of a row's light at rest.

use super::direction::{Direction, Fineness};
use super::filled::caught_when_filled;
use super::foliage::{Foliage, Surroundings};
use super::gaps::{GapRule, LightGap, light_gaps};
use super::report::{FLOWERING_LIGHT, LightMap, QUALITY_LIGHT, Shares, ZoneLight, shares};
use super::sky::{Period, Sky, Weather, period_light};
use super::state::{LightState, Settings, Weights};
use super::sun::{ClearDay, declination, solar_time};
use super::wall::LEVEL_MAX_M;
use crate::row::{Limit, Targets};
use serde::{Deserialize, Serialize};

/// What is reported of a row's light over a period, its sky as bright as the standard overcast one from rim to middle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LightReport {
    /// Place, bearing, thickness and spacing, and which of them were taken.
    pub around: Surroundings,
    /// The period.
    pub period: Period,
    /// Its weather.
    pub weather: Weather,
    /// Share of the leaves that were out, 0–1.
    pub out: f64,
    /// Leaf area per ground area.
    pub leaf_area_index: f64,
    /// Shares of the light that the wall catches.
    pub caught: Shares,
    /// Share that this wall would catch, filled ([`caught_when_filled`]).
    pub filled: f64,
    /// The renewal zone's lowest and highest height, m.
    pub zone_at: (f64, f64),
    /// Light in the renewal zone over the wall's whole thickness; none where it misses the leaves' heights.
    pub zone: Option<ZoneLight>,
    /// The same in each column; empty where there is none.
    pub zone_columns: Vec<f32>,
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
    /// Height up to which gaps are looked for, m: a level under what half the leafy columns reach; the cordon's without
    /// leaves.
    pub top: f64,
}

/// Columns whose map is worked out at once: what is kept for each direction stays small on rows of any length.
const CHUNK_COLUMNS: usize = 800;

/// The light map of all columns and the light of the state's band in each, piece by piece. The state's view is moved; its
/// ground stays.
fn whole_map(state: &mut LightState, weights: &Weights) -> (LightMap, Vec<f32>) {
    let (n, levels) = (state.wall().columns(), state.wall().levels());
    let mut light = vec![0.0; n * levels];
    let mut band = Vec::new();
    let mut from = 0;
    while from < n {
        let to = (from + CHUNK_COLUMNS).min(n);
        state.set_view(from..to);
        let piece = state.light_map(weights);
        for l in 0..levels {
            light[l * n + from..l * n + to]
                .copy_from_slice(&piece[l * (to - from)..(l + 1) * (to - from)]);
        }
        band.extend(state.band_light(weights));
        from = to;
    }
    state.set_view(0..0);
    let map = LightMap {
        columns: 0..n,
        z: state.wall().z().to_vec(),
        light,
    };
    (map, band)
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

/// The report at rest, of a clear period: everything that is said of a row's light comes from here.
pub fn report(foliage: &Foliage, targets: &Targets, period: Period) -> LightReport {
    report_under(foliage, targets, period, Weather::Clear)
}

/// The same under any weather.
pub fn report_under(
    foliage: &Foliage,
    targets: &Targets,
    period: Period,
    weather: Weather,
) -> LightReport {
    let around = *foliage.around();
    let (clear, sky) = (ClearDay::default(), Sky::StandardOvercast);
    let wall = foliage.wall();
    let rule = gap_rule(foliage, targets);
    let zone_at = zone_heights(foliage, targets);
    let settings = Settings::settled(&wall, None).with_band(zone_at);
    let mut state = LightState::new(wall, &settings);
    let light = period_light(state.directions(), around.site, period, clear, sky).under(weather);
    // What they lose hangs by their edges: columns of 5 cm smear those so that an upright's opening loses 5 % too little.
    let gaps = light_gaps(&foliage.finer().wall(), around.site, period, weather, &rule);
    let caught = shares(&state, &light);
    let fall_through = state.fall_through(&light.total);
    let (map, zone_columns) = whole_map(&mut state, &light.total);
    let (low, high) = (rule.from, rule.to);
    let wall = state.wall();
    LightReport {
        around,
        period,
        weather,
        out: foliage.out(),
        leaf_area_index: foliage.leaf_area_index(),
        caught,
        filled: caught_when_filled(foliage, targets, period, weather, Fineness::Settled),
        zone_at,
        zone: ZoneLight::over_columns(&zone_columns, 0),
        zone_columns,
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
