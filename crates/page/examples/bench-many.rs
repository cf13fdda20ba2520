//! Times work on many at once: every upright of a row held at a height, as one step. Prints one JSON object a line.

use cordonry::units::Mm;
use cordonry::work::Sweep;
use cordonry_page::bench_row;
use cordonry_page::desk::Desk;
use cordonry_page::document::Edit;
use std::time::Instant;

const UPRIGHTS: u32 = 12;

/// Milliseconds to hold all uprights of so many trees, the least of three times.
fn held(trees: u32) -> f64 {
    let mut desk = Desk::new(bench_row::plan(trees, UPRIGHTS)).expect("it has a scheme");
    let once = |_| {
        let start = Instant::now();
        let works = desk.swept(Sweep::Height(Mm(1600)), |_| true);
        desk.edit(&Edit::work("step-many", works))
            .expect("all can be cut");
        let took = start.elapsed();
        desk.undo();
        took.as_secs_f64() * 1e3
    };
    (0..3).map(once).fold(f64::INFINITY, f64::min)
}

fn main() {
    // Where each tree is seen once, ten times the trees take ten times as long.
    println!(
        r#"{{"measure": "1,000 trees of {UPRIGHTS} uprights; anchor ten times 100 trees", "unit": "ms", "ours": {}, "anchor": {}}}"#,
        held(1000),
        10.0 * held(100),
    );
}
