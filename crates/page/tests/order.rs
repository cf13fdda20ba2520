//! The modules of the page stand in one order: each knows only those before it.

mod common;

use std::fs;
use std::path::Path;

const ORDER: [&str; 12] = [
    "form",
    "bench_row",
    "view",
    "light",
    "document",
    "look",
    "desk",
    "actions",
    "layers",
    "overlay",
    "helper",
    "browser",
];

const IN_BROWSER: [&str; 10] = [
    "dom", "wall", "app", "controls", "device", "commands", "hand", "ways", "panels", "desk",
];

/// The module of a folder's own that a file is in; `None` for the file of the folder itself.
fn module(file: &Path, folder: &Path) -> Option<String> {
    let inside = file.strip_prefix(folder).ok()?;
    let first = inside.components().next()?;
    let name = Path::new(first.as_os_str()).file_stem()?.to_str()?;
    (!matches!(name, "lib" | "mod")).then(|| name.to_string())
}

/// The modules that a text names after `prefix`, with the line that does. A nested list counts each of its names.
fn named(text: &str, prefix: &str) -> Vec<(String, String)> {
    let mut out = Vec::new();
    for line in text.lines().filter(|l| !l.trim_start().starts_with("//")) {
        let mut rest = line;
        while let Some(at) = rest.find(prefix) {
            rest = &rest[at + prefix.len()..];
            let list = match rest.strip_prefix('{') {
                Some(inner) => inner.split('}').next().unwrap_or_default(),
                None => rest,
            };
            let names = list
                .split(',')
                .take(if rest.starts_with('{') { 99 } else { 1 });
            for name in names {
                let end = |c: char| !(c.is_ascii_lowercase() || c == '_');
                let name = name.trim().split(end).next().unwrap_or_default();
                out.push((name.to_string(), line.trim().to_string()));
            }
        }
    }
    out
}

fn backward(folder: &Path, prefix: &str, order: &[&str]) -> Vec<String> {
    let place = |name: &str| order.iter().position(|m| *m == name);
    let mut files = Vec::new();
    common::sources_in(folder, &mut files);
    let (mut wrong, mut seen) = (Vec::new(), 0);
    for file in files {
        let Some(own) = module(&file, folder) else {
            continue;
        };
        let here = place(&own).unwrap_or_else(|| panic!("{own} has no place in the order"));
        let text = fs::read_to_string(&file).expect("it is text");
        // What a module's own tests take is no part of it.
        let text = text.split("#[cfg(test)]").next().unwrap_or_default();
        for (name, line) in named(text, prefix) {
            seen += 1;
            if place(&name).is_some_and(|there| there > here) {
                wrong.push(format!("{}: {line}", file.display()));
            }
        }
    }
    assert!(seen > 20, "only {seen} are named after {prefix}");
    wrong
}

#[test]
fn each_module_knows_only_those_before_it() {
    let source = common::source_folder();
    let mut wrong = backward(&source, "crate::", &ORDER);
    wrong.extend(backward(
        &source.join("browser"),
        "crate::browser::",
        &IN_BROWSER,
    ));
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_back_arrow_is_seen() {
    let found = named(
        "use crate::{desk, look::Scene};\nlet a = crate::form::b;",
        "crate::",
    );
    let names: Vec<&str> = found.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["desk", "look", "form"]);
}
