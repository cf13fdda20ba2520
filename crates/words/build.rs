//! Lists the language folders: `lang/xx/` with its `.ftl` files is all that a language takes.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

/// What is in a folder, by name.
fn entries(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut out = fs::read_dir(folder)?
        .map(|entry| entry.map(|e| e.path()))
        .collect::<io::Result<Vec<_>>>()?;
    out.sort();
    Ok(out)
}

/// A file's texts alone: what explains them is for whoever words them, and weighs in the page's module.
fn without_comments(file: &str) -> String {
    let lines = file.lines().filter(|l| !l.starts_with('#'));
    lines.flat_map(|line| [line, "\n"]).collect()
}

fn main() -> io::Result<()> {
    let home = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default());
    let lang = home.join("lang");
    println!("cargo::rerun-if-changed=lang");
    let mut list = String::from("&[\n");
    // The page has no command line.
    let page = env::var("CARGO_CFG_TARGET_ARCH").is_ok_and(|a| a == "wasm32");
    let unused = |file: &Path| page && file.ends_with("commands.ftl");
    for folder in entries(&lang)?.iter().filter(|p| p.is_dir()) {
        let code = folder.file_name().unwrap_or_default().to_string_lossy();
        let _ = writeln!(list, "({code:?}, &[");
        for file in entries(folder)? {
            if file.extension().is_some_and(|e| e == "ftl") && !unused(&file) {
                let _ = writeln!(list, "{:?},", without_comments(&fs::read_to_string(file)?));
            }
        }
        list.push_str("]),\n");
    }
    list.push(']');
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::write(out.join("languages.rs"), list)
}
