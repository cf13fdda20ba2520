//! Each module knows only those before it, in the order that DEVELOPERS.md draws.

use cordonry_tests::order::{Broken, Module, arrows, broken, drawn, line_of, sources};
use std::path::Path;

fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

fn developers() -> String {
    std::fs::read_to_string(root().join("DEVELOPERS.md")).unwrap()
}

fn broken_in(order: &[String], sources: &[(Module, String)]) -> Vec<Broken> {
    let modules: Vec<Module> = sources.iter().map(|(m, _)| m.clone()).collect();
    let all = sources
        .iter()
        .flat_map(|(m, text)| arrows(m, text).unwrap())
        .collect();
    broken(order, &modules, &all)
}

fn holds(name: &str, folder: &str) {
    let order = drawn(&line_of(&developers(), name).expect(name));
    let sources = sources(&root().join(folder)).unwrap();
    let named: Vec<String> = broken_in(&order, &sources)
        .iter()
        .map(ToString::to_string)
        .collect();
    assert!(named.is_empty(), "in {folder}:\n{}", named.join("\n"));
    for module in &order {
        let there = sources.iter().any(|(m, _)| m.join("/") == *module);
        assert!(
            there,
            "{module} stands in the order of {name}, not in {folder}"
        );
    }
}

#[test]
fn core_keeps_its_order() {
    holds("core", "crates/core/src");
}

#[test]
fn the_page_keeps_its_order() {
    holds("page", "crates/page/src");
}

#[test]
fn the_command_line_keeps_its_order() {
    holds("cli", "crates/cli/src");
}

#[test]
fn light_and_drawing_keep_their_order() {
    holds("light", "crates/light/src");
    holds("draw", "crates/draw/src");
    holds("pdf", "crates/pdf/src");
}

#[test]
fn crates_keep_their_order() {
    let order = drawn(&line_of(&developers(), "crates").unwrap());
    for (place, name) in order.iter().enumerate() {
        let path = root().join("crates").join(name).join("Cargo.toml");
        let manifest: toml::Table = std::fs::read_to_string(&path).unwrap().parse().unwrap();
        let mut tables = vec![&manifest];
        let targets = manifest.get("target").and_then(|t| t.as_table());
        tables.extend(
            targets
                .iter()
                .flat_map(|t| t.values())
                .filter_map(|t| t.as_table()),
        );
        for table in tables {
            let known = table.get("dependencies").and_then(|d| d.as_table());
            for dependency in known.iter().flat_map(|d| d.keys()) {
                let own = match dependency.as_str() {
                    "cordonry" => "core",
                    other => match other.strip_prefix("cordonry-") {
                        Some(own) => own,
                        None => continue,
                    },
                };
                let at = order.iter().position(|o| o == own);
                assert!(at.is_some_and(|at| at < place), "{name} knows {own}");
            }
        }
    }
}

/// A small crate of made-up files: what it breaks, in words.
#[track_caller]
fn check(order: &str, files: &[(&str, &str)], expected: &[&str]) {
    let sources: Vec<(Module, String)> = files
        .iter()
        .map(|(path, text)| {
            let module = path.split('/').filter(|p| !p.is_empty());
            (module.map(str::to_string).collect(), (*text).to_string())
        })
        .collect();
    let found: Vec<String> = broken_in(&drawn(order), &sources)
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(found, expected);
}

#[test]
fn an_arrow_forward_is_fine_and_one_back_is_named() {
    let forward = [("row", ""), ("plan/edit", "use crate::row::Row;")];
    check("row · plan", &forward, &[]);
    let back = "row/tree knows plan/Plan, which stands after it";
    for text in [
        "use crate::plan::Plan;",
        "use crate::{plan::Plan};",
        "use super::super::plan::Plan as P;",
        "fn f(_: crate::plan::Plan) {}",
        "fn f() { assert!(crate::plan::Plan == 1) }",
    ] {
        let files = [("row/tree", text), ("row", "mod tree;"), ("plan", "")];
        check("row · plan", &files, &[back]);
    }
}

#[test]
fn what_tests_alone_know_does_not_count() {
    let text = "#[cfg(test)] mod tests { use crate::plan::Plan; }";
    check("row · plan", &[("row", text), ("plan", "")], &[]);
}

#[test]
fn a_module_without_a_place_is_named() {
    let files = [("row", ""), ("stray", "")];
    check("row", &files, &["stray stands nowhere in the order"]);
}

#[test]
fn a_circle_of_files_is_named() {
    let files = [
        ("check", "mod one; mod two;"),
        ("check/one", "use super::two::b;"),
        ("check/two", "use crate::check::one::a;"),
        ("check/free", "use super::one::a;"),
    ];
    let circle = "a circle: check/one → check/two → check/one";
    check("check", &files, &[circle]);
}
