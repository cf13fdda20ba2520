//! Times the light on a row of 40 m × 2.5 m in cells of 5 × 10 cm: a full evaluation with its map, and an edit of one
//! upright. Prints one table, or with `--json` one object a line; every figure is the best of several runs on one core.

use std::hint::black_box;

use cordonry::light::state::{LightState, Settings};
use cordonry::light::{bench_case, bench_edit};
use cordonry_tests::timing::best;

fn main() {
    let wall = bench_case();
    let (columns, leaves) = bench_edit();
    let whole = 0..wall.columns();
    let json = std::env::args().any(|a| a == "--json");
    let say = |table: String, object: serde_json::Value| {
        if !json {
            println!("{table}");
        } else if !object.is_null() {
            println!("{object}");
        }
    };
    let head = format!(
        "{:<34} {:>10} {:>10} {:>10} {:>22}",
        "settings", "directions", "full, ms", "edit, ms", "ns per cell·direction"
    );
    say(head, serde_json::Value::Null);
    for (name, settings) in [
        (
            "dragging, whole row in the map",
            Settings::dragging(Some(whole.clone())),
        ),
        (
            "dragging, 10 m in the map",
            Settings::dragging(Some(300..500)),
        ),
        (
            "at rest, whole row in the map",
            Settings::settled(&wall, Some(whole.clone())),
        ),
        ("at rest, no map", Settings::settled(&wall, None)),
    ] {
        let full = best(15, || {
            black_box(LightState::new(wall.clone(), &settings));
        });
        let mut state = LightState::new(wall.clone(), &settings);
        let edit = best(30, || {
            state.edit(columns.clone(), &leaves);
            black_box(state.ground(0)[0]);
        });
        let directions = state.directions().len();
        let per_cell = full * 1e6 / (directions * wall.columns() * wall.levels()) as f64;
        say(
            format!("{name:<34} {directions:>10} {full:>10.2} {edit:>10.2} {per_cell:>22.2}"),
            serde_json::json!({"settings": name, "directions": directions, "full": full, "edit": edit}),
        );
    }
}
