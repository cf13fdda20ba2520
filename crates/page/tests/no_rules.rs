//! The page holds no rule of the trade: it shows what the core says, and asks it what can be done.

mod common;

use std::fs;

/// What a rule would be written with: kinds and poses of shoots, a finding's rule, what a refusal speaks of.
const SIGNS: [&str; 6] = [
    "Kind::",
    "Pose::",
    "rule ==",
    "rule !=",
    ".args",
    "units.is_empty",
];

/// A made row for measuring is written out in full.
const EXCEPT: &str = "bench_row.rs";

#[test]
fn no_source_of_the_page_decides_by_what_a_shoot_is() {
    let all = common::sources();
    assert!(all.len() > 40, "{}", all.len());
    let mut found = Vec::new();
    for path in all.iter().filter(|p| !p.ends_with(EXCEPT)) {
        let text = fs::read_to_string(path).expect("it is text");
        for (n, line) in text.lines().enumerate() {
            if SIGNS.iter().any(|sign| line.contains(sign)) {
                found.push(format!("{}:{}: {}", path.display(), n + 1, line.trim()));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}
