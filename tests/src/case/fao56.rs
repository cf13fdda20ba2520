//! Daily radiation outside the air and day length, by FAO Irrigation and Drainage Paper 56. Figures and questions stand
//! side by side in such a file: the answer repeats its shape with our own figures.

use cordonry::light::sun::fao56_day;
use serde_json::{Map, Value, json};

use super::{list, number};

/// Middle days of the months, as the tables of the paper use them.
const MID_MONTH: [f64; 12] = [
    15.0, 46.0, 74.0, 105.0, 135.0, 166.0, 196.0, 227.0, 258.0, 288.0, 319.0, 349.0,
];

pub(super) fn solve(case: &Value) -> Result<(Value, Value), String> {
    let mut out = Map::new();
    let mut examples = Vec::new();
    for example in list(case, "examples")? {
        let day = fao56_day(number(example, "lat_deg")?, number(example, "J")?);
        examples.push(json!({
            "name": example["name"],
            "published": {
                "dr": day.distance_factor,
                "declination_rad": day.declination,
                "sunset_hour_angle_rad": day.sunset_hour_angle,
                "Ra_mj_m2_day": day.radiation,
                "N_h": day.day_length,
            },
            "computed_eq21_34": {
                "dr": day.distance_factor,
                "decl": day.declination,
                "ws": day.sunset_hour_angle,
                "Ra": day.radiation,
                "N": day.day_length,
            },
        }));
    }
    out.insert("examples".into(), examples.into());
    let cells = &case["table_2_6_found_cells"];
    if let Some(month) = cells["month"].as_u64() {
        let j = MID_MONTH[(month.clamp(1, 12) - 1) as usize];
        let row: Result<Vec<f64>, String> = list(cells, "lat_deg")?
            .iter()
            .map(|l| Ok(fao56_day(l.as_f64().ok_or("a latitude is no number")?, j).radiation))
            .collect();
        out.insert(
            "table_2_6_found_cells".into(),
            json!({ "Ra_mj_m2_day": row? }),
        );
    }
    if let Value::Object(latitudes) = &case["table_computed_from_equations"]["by_latitude_deg"] {
        let mut rows = Map::new();
        for key in latitudes.keys() {
            let (ra, n) = months(degrees(key)?);
            rows.insert(key.clone(), json!({ "Ra_mj_m2_day": ra, "N_h": n }));
        }
        out.insert(
            "table_computed_from_equations".into(),
            json!({ "by_latitude_deg": rows }),
        );
    }
    let table = &case["table_2_6_2_7_transcribed"];
    let mut transcribed = Map::new();
    for (key, south, length) in [
        ("Ra_north_mj_m2_day", false, false),
        ("Ra_south_mj_m2_day", true, false),
        ("N_north_h", false, true),
    ] {
        if let Value::Object(latitudes) = &table[key] {
            let mut rows = Map::new();
            for latitude in latitudes.keys() {
                let north = degrees(latitude)?;
                let (ra, n) = months(if south { -north } else { north });
                rows.insert(latitude.clone(), json!(if length { n } else { ra }));
            }
            transcribed.insert(key.into(), rows.into());
        }
    }
    if !transcribed.is_empty() {
        out.insert("table_2_6_2_7_transcribed".into(), transcribed.into());
    }
    let settings =
        json!({ "equations": "FAO Irrigation and Drainage Paper 56 (1998), 21-25 and 34" });
    Ok((settings, out.into()))
}

fn degrees(key: &str) -> Result<f64, String> {
    key.parse().map_err(|_| format!("\"{key}\" is no latitude"))
}

fn months(latitude: f64) -> (Vec<f64>, Vec<f64>) {
    MID_MONTH
        .iter()
        .map(|j| fao56_day(latitude, *j))
        .map(|d| (d.radiation, d.day_length))
        .unzip()
}
