//! What reading holds at its most, in bytes: bounded whatever the file.
//!
//! One test alone, for all tests of a file share what is allocated.

use cordonry::file::csv::{Options, read};
use peak_alloc::PeakAlloc;

#[global_allocator]
static HELD: PeakAlloc = PeakAlloc;

/// The most that is held while something is made, beyond what was held before, bytes.
fn most_held<T>(make: impl FnOnce() -> T) -> (T, usize) {
    let before = HELD.current_usage();
    HELD.reset_peak_usage();
    let made = make();
    (made, HELD.peak_usage().saturating_sub(before))
}

#[test]
fn a_long_table_is_refused_or_read_in_bounded_memory() {
    let head = "tree,place (m),kind,length (m),diameter (mm)\n";
    // A million lines: refused before any is held.
    let text = head.to_string() + &"1,0,leader,1.9,30\n".repeat(1_000_000);
    let (got, most) = most_held(|| read(text.as_bytes(), &Options::default()));
    assert_eq!(got.unwrap_err().key, "refusal-csv-lines");
    assert!(most < 1_000_000, "{most} bytes");
    drop(text);
    // As many as are read, on as many trees as a row may have.
    let mut text = head.to_string();
    for tree in 0..5_000 {
        let foot = f64::from(tree) * 0.9;
        text += &format!("{tree},{foot:.3},leader,2.5,30\n");
        for n in 1..99 {
            let place = foot + 0.6 + 0.014 * f64::from(n);
            text += &format!("{tree},{place:.3},upright,0.8,9.5\n");
        }
    }
    let (got, most) = most_held(|| read(text.as_bytes(), &Options::default()).unwrap());
    println!("{} lines of {} bytes: {most} bytes", got.taken, text.len());
    assert_eq!(
        (got.taken, got.bad.len()),
        (495_000, 0),
        "{:?}",
        got.bad.first()
    );
    assert!(most < 350_000_000, "{most} bytes");
}
