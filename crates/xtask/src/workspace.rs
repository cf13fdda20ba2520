//! Where things are.

use std::path::{Path, PathBuf};

/// The folder of the workspace's Cargo.toml.
pub fn root() -> PathBuf {
    let crate_folder = std::env::var_os("CARGO_MANIFEST_DIR")
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    crate_folder
        .ancestors()
        .nth(2)
        .map_or_else(|| crate_folder.clone(), Path::to_path_buf)
}

/// The built page.
pub fn dist() -> PathBuf {
    root().join("dist")
}

/// The browser tests and their packages.
pub fn browser_tests() -> PathBuf {
    root().join("tests/browser")
}

/// Where cargo builds.
pub fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(|| root().join("target"), |dir| root().join(dir))
}
