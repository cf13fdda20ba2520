//! Times the exact solvers: rows of 1,000 trees, and the cases in tests/data/advice. Prints one object a line. The anchor of a row is the
//! bound that it is to keep; a case's own time stands without one, for who sets another solver beside it.

use cordonry::seed::Seeded;
use cordonry_tests::case::Advice;
use cordonry_tests::timing::{best, say};
use serde_json::{Value, json};
use std::hint::black_box;
use std::path::Path;

const TREES: usize = 1000;
/// The bounds for 1,000 trees, ms.
const FILL: f64 = 10.0;
const UPRIGHTS: f64 = 50.0;

/// A row with one or two leaders to a tree, as the cases have them, in whole centimetres.
fn leaders() -> Value {
    let mut chance = Seeded::new(12);
    let mut cm = |from: f64, to: f64| (from + (to - from) * chance.share()).round() / 100.0;
    let mut x = 0.0;
    let trees: Vec<Value> = (0..TREES)
        .map(|_| {
            x += cm(160.0, 290.0);
            let two = cm(0.0, 100.0) < 0.6;
            let lengths: Vec<f64> = (0..1 + usize::from(two)).map(|_| cm(50.0, 240.0)).collect();
            json!({ "x_m": x, "leader_lengths_m": lengths })
        })
        .collect();
    json!({
        "schema": "advice-leaders-case/1", "row_start_m": 0.0, "row_end_m": x + 1.0, "trees": trees,
        "parameters": {"weight_gap_per_m": 1.0, "weight_overlap_per_m": 0.6, "extend_m": 0.5, "cost_extend": 0.25},
    })
}

/// A cordon of two metres a tree with a place every 20 to 60 mm, of which one in five holds an upright.
fn uprights() -> Value {
    let mut chance = Seeded::new(13);
    let (mut x, end) = (0.0, 2.0 * TREES as f64);
    let mut places: Vec<Value> = Vec::new();
    loop {
        x += ((20.0 + 40.0 * chance.share()).round()) / 1000.0;
        if x >= end {
            break;
        }
        let thick = (chance.share() < 0.2).then(|| 3.0 + 19.0 * chance.share());
        places.push(json!({ "x_m": x, "existing_diameter_mm": thick }));
    }
    json!({
        "schema": "advice-uprights-case/1", "cordon_length_m": end, "candidates": places,
        "parameters": {
            "min_spacing_m": 0.12, "max_spacing_m": 0.3, "target_spacing_m": 0.2, "weight_spacing": 1.0, "cost_add": 0.15,
            "cost_long_gap": 4.0, "long_gap_limit_m": 0.9, "end_max_m": 0.2,
        },
    })
}

fn time(case: &Value) -> f64 {
    let read = Advice::read(case).expect("a case of advice");
    best(9, || {
        black_box(read.solve().expect("it is solved"));
    })
}

fn main() {
    let row = format!("the way of {TREES} trees' leaders; bound");
    say(&row, "ms", time(&leaders()), FILL);
    let row = format!("the uprights of {TREES} trees' cordon; bound");
    say(&row, "ms", time(&uprights()), UPRIGHTS);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/advice");
    for name in std::env::args().skip(1) {
        let text = std::fs::read_to_string(folder.join(&name)).expect("a case");
        let case: Value = serde_json::from_str(&text).expect("JSON");
        let read = Advice::read(&case).expect("a case of advice");
        let value = read.solve().expect("it is solved").0;
        println!(
            "{}",
            json!({ "case": name, "ms": time(&case), "value": value })
        );
    }
}
