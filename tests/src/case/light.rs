//! Light on walls made of boxes.

use std::f64::consts::PI;

use cordonry::light::direction::{Direction, DirectionSet, Fineness};
use cordonry::light::report::{beam_over_day, in_bins, light_at};
use cordonry::light::sky::{
    DAYS, Period, Site, Sky, TIMES, fluence_weights, period_light, sky_weights,
};
use cordonry::light::state::{LightState, Settings, Weights};
use cordonry::light::sun::ClearDay;
use cordonry::light::trace::{SINGLE, caught, through_to_point};
use cordonry::light::wall::{Ends, G_SPHERICAL, LeafBox, RowShape, Wall};
use serde_json::{Value, json};

use super::{list, number};

pub(super) fn solve(case: &Value) -> Result<(Value, Value), String> {
    let wall = wall(&case["geometry"])?;
    let site = Site {
        latitude_deg: number(&case["site"], "latitude_deg")?,
        row_azimuth_deg: number(&case["site"], "row_azimuth_deg")?,
    };
    let ask = &case["ask"];
    let settled = Settings::settled(&wall, None);
    let state = LightState::new(wall.clone(), &settled);
    let set = state.directions();
    let clear = ClearDay::default();

    let suns: Vec<Direction> = list(ask, "direct")?
        .iter()
        .map(direction)
        .collect::<Result<_, _>>()?;
    let direct: Vec<Value> = suns
        .iter()
        .map(|s| share(caught(&wall, *s, SINGLE)))
        .collect();

    let uniform = sky_weights(set, Sky::Uniform);
    let overcast = sky_weights(set, Sky::StandardOvercast);

    let mut clear_days = Vec::new();
    for day in list(ask, "clear_days")? {
        let day = day.as_u64().ok_or("a clear day is no day of the year")? as u32;
        let day = beam_over_day(&wall, site, day, clear, SINGLE);
        clear_days.push(share(day.unwrap_or(0.0)));
    }

    let season = &ask["season"];
    let period = Period {
        first: number(season, "doy_first")? as u32,
        last: number(season, "doy_last")? as u32,
    };
    let period = period.later(season["southern_shift_days"].as_u64().unwrap_or(0) as u32);
    let light = period_light(set, site, period, clear, Sky::Uniform);

    let columns = state.fall_through(&light.beam);
    let bins = ask["ground_by_x_bins"].as_u64().unwrap_or(0) as usize;

    let fine = DirectionSet::new(Fineness::Fine);
    let fine_light = period_light(&fine, site, period, clear, Sky::Uniform);
    let fine_uniform = sky_weights(&fine, Sky::Uniform);
    let fine_overcast = sky_weights(&fine, Sky::StandardOvercast);
    let fluence = fluence_weights(&fine);
    let mut points = Vec::new();
    for point in list(ask, "light_points")? {
        let at = (
            number(point, "x_m")?,
            number(point, "y_m")?,
            number(point, "z_m")?,
        );
        let see = |d: Direction| through_to_point(&wall, d, at.0, at.1, at.2);
        let mean = |w: &Weights| light_at(&wall, &fine, w, at.0, at.1, at.2);
        points.push(json!({
            "direct_transmittance_per_direct_entry": suns.iter().map(|s| see(*s)).collect::<Vec<_>>(),
            "uniform_sky_rel_horizontal": mean(&fine_uniform),
            "standard_overcast_rel_horizontal": mean(&fine_overcast),
            "uniform_sky_rel_fluence": mean(&fluence),
            "season_beam_rel_horizontal": mean(&fine_light.beam),
            "season_beam_plus_uniform_diffuse_rel_horizontal": mean(&fine_light.total),
        }));
    }

    let results = json!({
        "direct": direct,
        "uniform_sky": share(state.caught(&uniform)),
        "standard_overcast_sky": share(state.caught(&overcast)),
        "clear_days": clear_days,
        // The cases give the day's beam as the mean over days of its integral over half the hour angle.
        "season": {
            "beam_horizontal_mean_rel": light.beam_hours_a_day * PI / 24.0,
            "beam_interception": state.caught(&light.beam),
            "beam_plus_uniform_diffuse_interception": state.caught(&light.total),
        },
        "ground_by_x": in_bins(&columns, bins),
        "light_points": points,
    });
    let settings = json!({
        "columns": wall.columns(),
        "column_m": wall.dx(),
        "level_edges_m": wall.z(),
        "directions_of_set": set.len(),
        "ground_rays_per_column_in_set": settled.sampling.rays_per_column,
        "level_parts_in_set": settled.sampling.level_parts,
        "level_parts_single": SINGLE.fit(&wall).level_parts,
        "ground_piece_in_set": settled.sampling.piece,
        "ground_rays_per_column_single": SINGLE.rays_per_column,
        "ground_piece_single": SINGLE.piece,
        "season_days": DAYS,
        "times_a_day": TIMES,
        "traced_exactly": ["direct", "clear_days", "direct_transmittance_per_direct_entry"],
        "through_the_set": ["uniform_sky", "standard_overcast_sky", "season", "ground_by_x"],
        "light_points": "rays walked exactly, sky and season through a finer set",
        "directions_of_finer_set": fine.len(),
    });
    Ok((settings, results))
}

fn share(caught: f64) -> Value {
    json!({ "interception": caught })
}

fn wall(geometry: &Value) -> Result<Wall, String> {
    let opaque = geometry["opaque"].as_bool().unwrap_or(false);
    let mut boxes = Vec::new();
    for b in list(geometry, "boxes")? {
        boxes.push(LeafBox {
            x0: number(b, "x0_m")?,
            x1: number(b, "x1_m")?,
            z0: number(b, "z0_m")?,
            z1: number(b, "z1_m")?,
            density: if opaque {
                f64::INFINITY
            } else {
                number(b, "leaf_area_density_m2_per_m3")?
            },
        });
    }
    let shape = RowShape {
        thickness: number(geometry, "thickness_m")?,
        row_spacing: number(geometry, "row_spacing_m")?,
        g: geometry["g_function"].as_f64().unwrap_or(G_SPHERICAL),
    };
    Wall::from_boxes(
        0.0,
        number(geometry, "period_x_m")?,
        &boxes,
        shape,
        Ends::Repeated,
    )
    .map_err(|e| e.to_string())
}

fn direction(sun: &Value) -> Result<Direction, String> {
    Ok(Direction {
        x: number(sun, "sun_vec_x_along_row")?,
        y: number(sun, "sun_vec_y_across_row")?,
        z: number(sun, "sun_vec_z_up")?,
    })
}
