//! Ten thousand damaged links: none panics, and none holds more than its share of memory.
//!
//! One test alone, for all tests of a file share what is allocated. How long each took is printed, and judged by `cargo xtask fuzz`.

use cordonry_tests::fuzz::{TARGETS, run};
use peak_alloc::PeakAlloc;

#[global_allocator]
static HELD: PeakAlloc = PeakAlloc;

/// The most that is held while something is done, beyond what was held before, bytes.
fn held(work: &mut dyn FnMut()) -> usize {
    let before = HELD.current_usage();
    HELD.reset_peak_usage();
    work();
    HELD.peak_usage().saturating_sub(before)
}

#[test]
fn ten_thousand_damaged_links() {
    let target = TARGETS.iter().find(|t| t.name == "link").unwrap();
    let figures = run(target, 1, &held, &|runs| runs < 10_000);
    println!("{figures}");
    assert_eq!((figures.runs, figures.panics.len()), (10_000, 0));
    assert!(figures.most_held < 256 << 20, "{figures}");
}
