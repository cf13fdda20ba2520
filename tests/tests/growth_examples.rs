//! The example rows grow on for ten leaves, their work done where it can be.

use cordonry::file::read_plan;
use cordonry::plan::{Moment, Window};
use std::fs;
use std::path::Path;

#[test]
fn every_example_keeps_every_rule_through_ten_leaves() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples");
    let mut read = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "json") {
            continue;
        }
        read += 1;
        let plan = read_plan(&fs::read(&path).unwrap()).expect("a plan");
        let last = Moment {
            leaf: plan.found.leaf + 9,
            window: Window::AfterHarvest,
        };
        for scheme in 0..plan.schemes.len() {
            for state in plan.timeline(scheme, last).unwrap() {
                for tree in &state.row.trees {
                    let broken = tree.broken_rule();
                    assert_eq!(broken, None, "{} {:?}", path.display(), state.moment);
                }
            }
        }
    }
    assert!(read >= 8, "{read} examples");
}
