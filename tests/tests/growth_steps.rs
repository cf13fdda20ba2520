//! Half a leaf's growth of one tree, step by step against a prototype that was written apart: see tests/reference/README.md.

use cordonry_tests::case::solve;
use serde_json::Value;
use std::path::Path;

/// Largest relative difference of a number.
const TOLERANCE: f64 = 1e-6;

/// What differs between two documents: all of `expected`, and nothing beside it.
fn differs(ours: &Value, expected: &Value, place: &str, out: &mut Vec<String>) {
    match (ours, expected) {
        (Value::Object(a), Value::Object(b)) => {
            for key in a.keys().chain(b.keys().filter(|k| !a.contains_key(*k))) {
                differs(&ours[key], &expected[key], &format!("{place}/{key}"), out);
            }
        }
        (Value::Array(a), Value::Array(b)) => {
            if a.len() != b.len() {
                out.push(format!("{place}: {} items, not {}", a.len(), b.len()));
            }
            for (i, (a, b)) in a.iter().zip(b).enumerate() {
                differs(a, b, &format!("{place}/{i}"), out);
            }
        }
        // Names are whole numbers, larger than those that a fraction can tell apart.
        (Value::Number(a), Value::Number(b)) if a.is_u64() && b.is_u64() => {
            if a != b {
                out.push(format!("{place}: {a}, not {b}"));
            }
        }
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap());
            if (a - b).abs() > TOLERANCE * b.abs() {
                out.push(format!("{place}: {a}, not {b}"));
            }
        }
        _ if ours == expected => {}
        _ => out.push(format!("{place}: {ours}, not {expected}")),
    }
}

#[test]
fn every_step_grows_as_the_prototype_does() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference/growth/steps");
    let mut paths: Vec<_> = std::fs::read_dir(&folder)
        .expect("the folder")
        .map(|e| e.expect("an entry").path())
        .collect();
    paths.sort();
    assert_eq!(paths.len(), 12);
    let mut out = Vec::new();
    for path in paths {
        let text = std::fs::read_to_string(&path).expect("a case");
        let case: Value = serde_json::from_str(&text).expect("JSON");
        let answer = solve(&case).expect("it is solved");
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        differs(&answer["results"], &case["results"], &name, &mut out);
    }
    assert!(out.is_empty(), "{}", out.join("\n"));
}
