//! A desk with an example on it.
#![allow(dead_code)] // Each test takes what it needs.

use cordonry::file::read_plan;
use cordonry::plan::Plan;
use cordonry::row::{ShootId, TreeId};
use cordonry_page::desk::Desk;
use std::fs;
use std::path::{Path, PathBuf};

/// The tree of the example whose cordon is too short.
pub const TREE: TreeId = TreeId(5);
/// Its end shoot, which closes the gap when it is laid.
pub const END: ShootId = ShootId::found(1);

pub fn plan() -> Plan {
    let text = include_str!("../../../../examples/third-leaf.json");
    read_plan(text.as_bytes()).expect("the example is read")
}

pub fn desk() -> Desk {
    Desk::new(plan()).expect("it has a scheme")
}

/// The page's own sources.
pub fn sources() -> Vec<PathBuf> {
    let mut all = Vec::new();
    sources_in(&source_folder(), &mut all);
    all
}

/// Where they are.
pub fn source_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// All Rust files in a folder and those in it.
pub fn sources_in(folder: &Path, into: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("the folder is there") {
        let path = entry.expect("it can be read").path();
        if path.is_dir() {
            sources_in(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            into.push(path);
        }
    }
}
