//! Sun positions at moments and places.

use cordonry::light::sun::{Air, Instant, Place, sun_at};
use serde_json::{Value, json};

use super::{list, number};

pub(super) fn solve(case: &Value) -> Result<(Value, Value), String> {
    let mut points = Vec::new();
    for point in list(&case["ask"], "points")? {
        let text = point["time_utc"]
            .as_str()
            .ok_or("\"time_utc\" is missing")?;
        let place = Place {
            latitude_deg: number(point, "lat_deg")?,
            longitude_deg: number(point, "lon_deg_east")?,
            elevation_m: number(point, "elevation_m")?,
        };
        let air = Air {
            pressure_hpa: number(point, "pressure_hpa")?,
            temperature_c: number(point, "temperature_c")?,
        };
        let sun = sun_at(moment(text)?, place, air, point["delta_t_s"].as_f64())
            .map_err(|e| e.to_string())?;
        points.push(json!({
            "zenith_true_deg": sun.zenith_true_deg,
            "zenith_apparent_deg": sun.zenith_apparent_deg,
            "azimuth_deg_from_north_clockwise": sun.azimuth_deg,
            "equation_of_time_min": sun.equation_of_time_min,
        }));
    }
    let settings = json!({ "algorithm": "Solar Position Algorithm (Reda & Andreas 2004), crate solar-positioning" });
    Ok((settings, json!({ "points": points })))
}

/// A moment written `2024-06-20T12:00:00Z`, seconds with or without decimals.
fn moment(text: &str) -> Result<Instant, String> {
    let bad = || format!("\"{text}\" is no time like 2024-06-20T12:00:00Z");
    let (date, clock) = text
        .strip_suffix('Z')
        .and_then(|t| t.split_once('T'))
        .ok_or_else(bad)?;
    let (year, rest) = date
        .rsplit_once('-')
        .and_then(|(ym, d)| ym.rsplit_once('-').map(|(y, m)| (y, (m, d))))
        .ok_or_else(bad)?;
    let mut hms = clock.split(':');
    let mut part = || hms.next().ok_or_else(bad);
    let (hour, minute, second) = (part()?, part()?, part()?);
    Ok(Instant {
        year: year.parse().map_err(|_| bad())?,
        month: rest.0.parse().map_err(|_| bad())?,
        day: rest.1.parse().map_err(|_| bad())?,
        hour: hour.parse().map_err(|_| bad())?,
        minute: minute.parse().map_err(|_| bad())?,
        second: second.parse().map_err(|_| bad())?,
    })
}
