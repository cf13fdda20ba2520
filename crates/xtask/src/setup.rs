//! What a machine needs, and how it gets there. Everything here says nothing when nothing is missing.

use crate::process;
use anyhow::{Context, Result, bail};
use std::fs;
use std::path::{Path, PathBuf};

pub const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// The oldest Node with the test runner and the reporters that are used.
const NODE: u32 = 18;

/// The standard library for wasm, from rustup if it is missing.
pub fn wasm_target() -> Result<()> {
    if has_wasm_target()? {
        return Ok(());
    }
    println!("Adding the compiler's {WASM_TARGET} target");
    process::run(&mut process::program("rustup", &["target", "add", WASM_TARGET])).with_context(|| {
        format!("the compiler has no {WASM_TARGET} target, and only rustup can add it here; or install your system's package for it")
    })?;
    if !has_wasm_target()? {
        bail!("rustup added {WASM_TARGET}, but not to the compiler that cargo uses");
    }
    Ok(())
}

fn has_wasm_target() -> Result<bool> {
    let rustc = std::env::var("RUSTC").unwrap_or_else(|_| "rustc".to_string());
    let folder = process::quiet(&mut process::program(
        &rustc,
        &["--print", "target-libdir", "--target", WASM_TARGET],
    ))?;
    let has_core = |entry: std::io::Result<fs::DirEntry>| {
        entry.is_ok_and(|entry| entry.file_name().to_string_lossy().starts_with("libcore-"))
    };
    Ok(fs::read_dir(folder).is_ok_and(|mut entries| entries.any(has_core)))
}

/// The browser that all browser tests run in: the one that CHROMIUM names, or the system's.
pub fn chromium() -> Result<PathBuf> {
    browser("CHROMIUM", &["chromium"])
}

/// The browser that the main job is tried in as well: the one that FIREFOX names, or the system's.
pub fn firefox() -> Result<PathBuf> {
    browser("FIREFOX", &["firefox-esr", "firefox"])
}

/// The browser that a variable names, or the first of the programs; the first of them is also its package's name.
fn browser(variable: &str, programs: &[&str]) -> Result<PathBuf> {
    if let Some(path) = std::env::var_os(variable) {
        let path = PathBuf::from(path);
        if path.is_file() {
            return Ok(path);
        }
        bail!("{variable} names {}, which is no file", path.display());
    }
    if let Some(path) = programs.iter().find_map(|name| on_path(name)) {
        return Ok(path);
    }
    let package = programs[0];
    install(&[package]).with_context(|| {
        format!("the browser tests need it: `apt-get install {package}` as root, or {variable}=/path/to/it")
    })?;
    on_path(package)
        .with_context(|| format!("{package} was installed, but there is no `{package}` to start"))
}

/// Node and npm.
pub fn node() -> Result<()> {
    if on_path("node").is_none() || on_path("npm").is_none() {
        install(&["nodejs", "npm"])
            .with_context(|| format!("the browser tests need Node {NODE} or newer with npm: `apt-get install nodejs npm` as root"))?;
    }
    let version = process::quiet(&mut process::program("node", &["--version"]))?;
    if major(&version).is_none_or(|major| major < NODE) {
        bail!("the browser tests need Node {NODE} or newer, and `node --version` says {version}");
    }
    Ok(())
}

fn major(version: &str) -> Option<u32> {
    version.strip_prefix('v')?.split('.').next()?.parse().ok()
}

/// The Node packages of a folder, exactly as locked; again only when the lock has changed.
pub fn node_packages(folder: &Path) -> Result<()> {
    let lock = folder.join("package-lock.json");
    let lock = fs::read(&lock).with_context(|| format!("{} cannot be read", lock.display()))?;
    let copy = folder.join("node_modules/.installed-lock.json");
    if fs::read(&copy).is_ok_and(|installed| installed == lock) {
        return Ok(());
    }
    println!("Fetching the packages of {}", folder.display());
    process::run(
        process::program(
            "npm",
            &["ci", "--no-audit", "--no-fund", "--ignore-scripts"],
        )
        .current_dir(folder)
        .env("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1"),
    )?;
    fs::write(&copy, lock).with_context(|| format!("{} cannot be written", copy.display()))
}

fn on_path(name: &str) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    std::env::split_paths(&path)
        .map(|folder| folder.join(name))
        .find(|file| file.is_file())
}

/// Installs Debian packages where that needs no question.
fn install(packages: &[&str]) -> Result<()> {
    if !Path::new("/usr/bin/apt-get").exists() {
        bail!(
            "{} is missing, and there is no apt-get to install it",
            packages.join(" and ")
        );
    }
    let is_root = process::quiet(&mut process::program("id", &["-u"])).is_ok_and(|id| id == "0");
    let prefix: &[&str] = if is_root {
        &[]
    } else if process::quiet(&mut process::program("sudo", &["-n", "true"])).is_ok() {
        &["sudo", "-n"]
    } else {
        bail!(
            "{} is missing, and installing it needs root",
            packages.join(" and ")
        );
    };
    println!("Installing {}", packages.join(" and "));
    let apt = |arguments: &[&str]| {
        let words = [
            prefix,
            &["env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "-q"],
            arguments,
        ]
        .concat();
        process::run(&mut process::program(words[0], &words[1..]))
    };
    apt(&["update"])?;
    apt(&[&["install", "-y", "--no-install-recommends"], packages].concat())
}

#[cfg(test)]
mod tests {
    #[test]
    fn node_versions_are_read() {
        for (text, expected) in [
            ("v20.20.2", Some(20)),
            ("v18.0.0", Some(18)),
            ("20", None),
            ("", None),
        ] {
            assert_eq!(super::major(text), expected, "{text}");
        }
    }
}
