//! How far an answer is from the one expected.

use std::collections::BTreeMap;

use serde_json::Value;

/// Largest absolute deviation by kind. The kind of a number is its topmost key; lists of places or days (`points`,
/// `examples`) are told apart by the number's own key. Azimuths are compared around the circle. Numbers that have
/// no counterpart are left out, and so is a `choice`: several may reach one value.
pub fn deviation(ours: &Value, expected: &Value) -> BTreeMap<String, f64> {
    let mut worst = BTreeMap::new();
    if let Value::Object(kinds) = ours {
        for (key, value) in kinds.iter().filter(|(key, _)| *key != "choice") {
            walk(value, &expected[key], key, key, &mut worst);
        }
    }
    worst
}

fn walk(ours: &Value, expected: &Value, kind: &str, key: &str, worst: &mut BTreeMap<String, f64>) {
    match (ours, expected) {
        (Value::Object(fields), _) => {
            for (key, value) in fields {
                walk(value, &expected[key], kind, key, worst);
            }
        }
        (Value::Array(items), Value::Array(others)) => {
            for (ours, other) in items.iter().zip(others) {
                walk(ours, other, kind, key, worst);
            }
        }
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (
                a.as_f64().unwrap_or(f64::NAN),
                b.as_f64().unwrap_or(f64::NAN),
            );
            let mut apart = (a - b).abs();
            if key.starts_with("azimuth") {
                apart = apart.min((360.0 - apart).abs());
            }
            let kind = if matches!(kind, "points" | "examples") {
                key
            } else {
                kind
            };
            let entry = worst.entry(kind.to_string()).or_insert(0.0);
            if apart.is_nan() || apart > *entry {
                *entry = apart;
            }
        }
        _ => {}
    }
}
