//! `cargo xtask test`: every check and test, each counted.

use crate::counts::{self, Counts};
use crate::{build, glue, one_file, process, server, setup, workspace};
use anyhow::{Context, Result, ensure};
use std::fs;
use std::process::{Command, ExitCode};
use std::time::{Duration, Instant};

#[derive(Default)]
struct Suite {
    steps: Vec<Step>,
}

struct Step {
    name: &'static str,
    counts: Counts,
    time: Duration,
    words: Option<String>,
}

impl Suite {
    /// Runs one step. A step that fails to run counts as one failure, and the next goes on.
    fn step(
        &mut self,
        name: &'static str,
        why: &str,
        work: impl FnOnce() -> Result<Counts>,
    ) -> bool {
        println!("\n== {name}: {why}");
        let start = Instant::now();
        let (counts, words) = match work() {
            Ok(counts) => (counts, None),
            Err(error) => (Counts::FAILED, Some(format!("{error:#}"))),
        };
        if let Some(words) = &words {
            println!("{words}");
        }
        self.steps.push(Step {
            name,
            counts,
            time: start.elapsed(),
            words,
        });
        counts.failed == 0
    }

    fn close(&self) -> ExitCode {
        let mut sum = Counts::default();
        println!("\n== Summary");
        for step in &self.steps {
            sum += step.counts;
            println!(
                "{:<16} {:>5} passed {:>5} failed {:>6} s",
                step.name,
                step.counts.passed,
                step.counts.failed,
                step.time.as_secs()
            );
        }
        for step in &self.steps {
            if let Some(words) = &step.words {
                println!("{}: {words}", step.name);
            }
        }
        println!("\n{sum}");
        if sum.good() {
            ExitCode::SUCCESS
        } else {
            ExitCode::FAILURE
        }
    }
}

/// One command that counts as one check.
fn check(command: &mut Command) -> Result<Counts> {
    process::run(command)?;
    Ok(Counts::PASSED)
}

/// Every step, or those that the browser tests need.
pub fn test(only_browser: bool) -> Result<ExitCode> {
    let mut suite = Suite::default();
    suite.step("set-up: wasm", "the page is compiled for wasm", || {
        setup::wasm_target()?;
        Ok(Counts::default())
    });
    let why = "the page is tried in Chromium and Firefox, driven from Node";
    let has_browser = suite.step("set-up: browser", why, || {
        let browsers = setup::chromium().and(setup::firefox());
        setup::node()?;
        setup::node_packages(&workspace::browser_tests())?;
        browsers.map(|_| Counts::default())
    });
    if !only_browser {
        suite.checks();
    }
    let why = "the page as it is served, and as one file";
    let is_built = suite.step("build", why, || {
        build::build(true)?;
        glue::digest()?;
        Ok(Counts::PASSED)
    });
    if has_browser && is_built {
        let why = "the built page, as a person meets it";
        suite.step("browser tests", why, browser_tests);
    }
    Ok(suite.close())
}

impl Suite {
    /// What is checked without a browser.
    fn checks(&mut self) {
        self.step("format", "one layout of code for everybody", || {
            check(&mut process::cargo("fmt --all --check"))
        });
        let why = "what the compiler and clippy doubt, in every crate and test";
        self.step("lints", why, || {
            check(&mut process::cargo(
                "clippy --workspace --all-targets -- -D warnings",
            ))
        });
        let why = "the page's crate as the browser gets it";
        self.step("lints: wasm", why, || {
            check(&mut process::cargo(&format!(
                "clippy --package cordonry-page --target {} -- -D warnings",
                setup::WASM_TARGET
            )))
        });
        // The whole workspace, because one crate alone would have its dependencies built with other features.
        let why = "the libraries' pages build, and their links lead somewhere";
        self.step("documentation", why, || {
            let mut command = process::cargo("doc --workspace --lib --no-deps");
            check(command.env("RUSTDOCFLAGS", "-D warnings"))
        });
        let why = "the model, its figures and its files";
        self.step("native tests", why, || {
            cargo_test("test --workspace --exclude xtask --no-fail-fast")
        });
        // By itself, because it has been built by itself: with the others it would be built again.
        let why = "this machinery's own parts";
        self.step("xtask's tests", why, || cargo_test("test --package xtask"));
    }
}

fn cargo_test(words: &str) -> Result<Counts> {
    let (status, output) = process::tee(&mut process::cargo(words))?;
    Ok(counts::of_cargo_test(&output).ended(status.success()))
}

/// Serves dist/ and runs every `*.test.mjs` against it: words for people, a TAP report for the counts.
fn browser_tests() -> Result<Counts> {
    let folder = workspace::browser_tests();
    let mut files = Vec::new();
    for entry in fs::read_dir(&folder)? {
        let name = entry?.file_name().to_string_lossy().into_owned();
        if name.ends_with(".test.mjs") {
            files.push(name);
        }
    }
    ensure!(!files.is_empty(), "there are no browser tests");
    files.sort();
    let report = workspace::target().join("browser-tests.tap");
    if report.exists() {
        fs::remove_file(&report)?;
    }
    let dist = workspace::dist();
    let status = process::status(
        process::program(
            "node",
            &[
                "--test",
                "--test-reporter=spec",
                "--test-reporter-destination=stdout",
            ],
        )
        .args(["--test-reporter=tap", "--test-reporter-destination"])
        .arg(&report)
        .args(&files)
        .current_dir(&folder)
        .env("CORDONRY_ONE_FILE", dist.join(one_file::NAME))
        .env(
            "CORDONRY_DIGEST",
            workspace::target().join("glue").join("digest"),
        )
        .env("CORDONRY_URL", server::background(dist)?)
        .env("CHROMIUM", setup::chromium()?)
        .env("FIREFOX", setup::firefox()?),
    )?;
    let report = fs::read_to_string(&report).context("the browser tests left no report")?;
    Ok(counts::of_tap(&report).ended(status.success()))
}
