//! What the programs that measure share: the time that something takes, and how a figure is printed.

use std::time::Instant;

/// The best of several runs, ms.
pub fn best(runs: usize, mut work: impl FnMut()) -> f64 {
    (0..runs)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1e3
        })
        .fold(f64::INFINITY, f64::min)
}

/// Prints a figure beside its anchor, one object a line.
pub fn say(measure: &str, unit: &str, ours: f64, anchor: f64) {
    println!(
        "{}",
        serde_json::json!({"measure": measure, "unit": unit, "ours": ours, "anchor": anchor})
    );
}
