//! `cargo xtask test`: every check and test, each counted.

use crate::counts::{self, Counts};
use crate::{build, one_file, process, server, setup, workspace};
use anyhow::{Context, Result};
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

pub fn test() -> Result<ExitCode> {
    let mut suite = Suite::default();
    suite.step("set-up: wasm", "the page is compiled for wasm", || {
        setup::wasm_target()?;
        Ok(Counts::default())
    });
    let has_browser = suite.step(
        "set-up: browser",
        "the page is tried in Chromium, driven from Node",
        || {
            let browser = setup::chromium();
            setup::node()?;
            setup::node_packages()?;
            browser.map(|_| Counts::default())
        },
    );
    suite.step("format", "one layout of code for everybody", || {
        check(&mut process::cargo(&["fmt", "--all", "--check"]))
    });
    suite.step(
        "lints",
        "what the compiler and clippy doubt, in every crate and test",
        || {
            check(&mut process::cargo(&[
                "clippy",
                "--workspace",
                "--all-targets",
                "--",
                "-D",
                "warnings",
            ]))
        },
    );
    suite.step(
        "lints: wasm",
        "the page's crate as the browser gets it",
        || {
            check(&mut process::cargo(&[
                "clippy",
                "--package",
                "cordonry-page",
                "--target",
                setup::WASM_TARGET,
                "--",
                "-D",
                "warnings",
            ]))
        },
    );
    suite.step(
        "documentation",
        "the core's pages build and their links lead somewhere",
        || {
            check(
                process::cargo(&["doc", "--package", "cordonry", "--no-deps"])
                    .env("RUSTDOCFLAGS", "-D warnings"),
            )
        },
    );
    suite.step(
        "native tests",
        "the model, its figures and its files",
        || {
            let (status, output) = process::tee(&mut process::cargo(&[
                "test",
                "--workspace",
                "--no-fail-fast",
            ]))?;
            Ok(counts::of_cargo_test(&output).ended(status.success()))
        },
    );
    let is_built = suite.step("build", "the page as it is served, and as one file", || {
        build::build(true)?;
        Ok(Counts::PASSED)
    });
    if has_browser && is_built {
        suite.step(
            "browser tests",
            "the built page, as a person meets it",
            browser_tests,
        );
    }
    Ok(suite.close())
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
        .env("CORDONRY_URL", server::background(dist)?)
        .env("CHROMIUM", setup::chromium()?),
    )?;
    let report = fs::read_to_string(&report).context("the browser tests left no report")?;
    Ok(counts::of_tap(&report).ended(status.success()))
}
