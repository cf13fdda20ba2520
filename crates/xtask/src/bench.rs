//! `cargo xtask bench`: every figure that is measured, beside an anchor from the same run.

use crate::{build, process, server, setup, workspace};
use anyhow::{Context, Result, bail};
use serde_json::Value;

/// A program that prints one JSON object a line for each figure:
/// `{"measure": words, "unit": "ms", "ours": number, "anchor": number or null}`. Other lines are passed on.
struct Bench {
    name: &'static str,
    about: &'static str,
    command: &'static [&'static str],
    /// Whether it needs the built page, served at CORDONRY_URL, and the browser in CHROMIUM.
    page: bool,
    /// The folder of its own Node packages under tests/, which nothing else needs.
    packages: Option<&'static str>,
}

/// To add one, add a line.
const BENCHES: &[Bench] = &[
    Bench {
        name: "edit",
        about: "a drag on a row of 300 trees with 10 uprights each: from the pointer's event to the shown frame, \
                beside one circle dragged on an empty page",
        command: &["node", "tests/browser/bench-edit.mjs"],
        page: true,
        packages: None,
    },
    Bench {
        name: "edit-long",
        about: "the same on a row of 1,000 trees with 12 uprights each",
        command: &["node", "tests/browser/bench-edit.mjs", "1000x12"],
        page: true,
        packages: None,
    },
    Bench {
        name: "light",
        about: "the light of a row of 40 m by 2.5 m in cells of 5 by 10 cm, native and in WebAssembly, beside the same \
                model straight down in JavaScript and numpy",
        command: &["node", "tests/bench/light.mjs"],
        page: false,
        packages: None,
    },
    Bench {
        name: "light-drag",
        about: "a drag with the light map on, on rows of 40, 300 and 1,000 trees with 10 uprights each: it costs what is near",
        command: &[
            "node",
            "tests/browser/bench-edit.mjs",
            "40x10,300x10,1000x10",
            "light",
        ],
        page: true,
        packages: None,
    },
    Bench {
        name: "years-drag",
        about: "a drag in leaf 2 of a row of 40 trees that are just planted, while leaves 3 to 10 follow in the strip",
        command: &["node", "tests/browser/bench-edit.mjs", "40", "years"],
        page: true,
        packages: None,
    },
    Bench {
        name: "kill",
        about: "the browser killed fifty times in bursts of edits, 30 to 150 ms apart: what of them is gone when the page is \
                opened again",
        command: &["node", "tests/browser/bench-kill.mjs"],
        page: true,
        packages: None,
    },
    Bench {
        name: "lighthouse",
        about: "what Lighthouse says of the first view on a middling phone and on a desk, beside an empty page",
        command: &["node", "tests/bench/lighthouse/lighthouse.mjs"],
        page: true,
        packages: Some("bench/lighthouse"),
    },
    Bench {
        name: "replay",
        about: "300 trees through ten leaves under two schemes, ten works a leaf and tree: the time of replay and of an edit, \
                beside the same asked of a replayer that knows nothing; what a step of undo and the cache weigh",
        command: &[
            "cargo",
            "run -q --release -p cordonry-tests --bin bench-replay",
        ],
        page: false,
        packages: None,
    },
    Bench {
        name: "growth",
        about: "300 trees from planting through ten leaves of usual work, worked on and not, and one tree of them, beside the time \
                that they are to keep",
        command: &[
            "cargo",
            "run -q --release -p cordonry-tests --bin bench-growth",
        ],
        page: false,
        packages: None,
    },
    Bench {
        name: "advice",
        about: "the exact solvers of advice on rows of 1,000 trees, beside the bounds that they are to keep, and on the reference \
                cases beside HiGHS",
        command: &["node", "tests/bench/advice.mjs"],
        page: false,
        packages: None,
    },
    Bench {
        name: "drafts",
        about: "what becomes of rows in five leaves under drafts, beside nothing, the first remedies and the usual rules alone; how long a \
                draft takes",
        command: &[
            "cargo",
            "run -q --release -p cordonry-tests --bin bench-drafts",
        ],
        page: false,
        packages: None,
    },
    Bench {
        name: "many",
        about: "all uprights of a row held at a height, as one step",
        command: &[
            "cargo",
            "run --release --quiet -p cordonry-page --example bench-many",
        ],
        page: false,
        packages: None,
    },
];

pub fn bench(name: Option<&str>) -> Result<()> {
    let chosen: Vec<&Bench> = BENCHES
        .iter()
        .filter(|bench| name.is_none_or(|name| name == bench.name))
        .collect();
    if chosen.is_empty() {
        let names: Vec<&str> = BENCHES.iter().map(|bench| bench.name).collect();
        bail!(
            "there is no bench of that name; there are: {}",
            names.join(", ")
        );
    }
    let mut url = None;
    if chosen.iter().any(|bench| bench.command[0] == "node") {
        setup::wasm_target()?;
        setup::node()?;
    }
    if chosen.iter().any(|bench| bench.page) {
        setup::node_packages(&workspace::browser_tests())?;
        build::build(false)?;
        url = Some(server::background(workspace::dist())?);
    }
    let mut rows = Vec::new();
    for bench in chosen {
        println!("{}: {}", bench.name, bench.about);
        if let Some(folder) = bench.packages {
            setup::node_packages(&workspace::root().join("tests").join(folder))?;
        }
        let mut command = match bench.command {
            ["cargo", rest @ ..] => process::cargo(&rest.join(" ")),
            [program, rest @ ..] => process::program(program, rest),
            [] => bail!("the bench {} has no command", bench.name),
        };
        if bench.page {
            command.env("CHROMIUM", setup::chromium()?);
            if let Some(url) = &url {
                command.env("CORDONRY_URL", url);
            }
        }
        let output = process::heard(&mut command)?;
        for line in output.lines() {
            match serde_json::from_str::<Value>(line) {
                Ok(figure) if figure.is_object() => {
                    rows.push(row(bench.name, &figure).with_context(|| line.to_string())?)
                }
                _ => println!("{line}"),
            }
        }
    }
    println!("\n{}", table(&rows));
    Ok(())
}

type Row = [String; 5];

fn row(bench: &str, figure: &Value) -> Result<Row> {
    let words = |key: &str| figure[key].as_str().with_context(|| format!("no {key}"));
    let number = |key: &str| match figure[key].as_f64() {
        // Counts are whole, measures are not.
        Some(_) if figure[key].is_u64() => figure[key].to_string(),
        Some(number) => format!("{number:.2}"),
        None => "–".to_string(),
    };
    figure["ours"].as_f64().context("no figure of ours")?;
    Ok([
        bench.to_string(),
        words("measure")?.to_string(),
        words("unit")?.to_string(),
        number("ours"),
        number("anchor"),
    ])
}

fn table(rows: &[Row]) -> String {
    let head = ["bench", "measure", "unit", "ours", "anchor"].map(str::to_string);
    let lines: Vec<&Row> = std::iter::once(&head).chain(rows).collect();
    let width = |column: usize| {
        lines
            .iter()
            .map(|line| line[column].chars().count())
            .max()
            .unwrap_or(0)
    };
    let widths: [usize; 5] = std::array::from_fn(width);
    lines
        .iter()
        .map(|line| {
            let [a, b, c, d, e] = line;
            let text = format!(
                "{a:<0$}  {b:<1$}  {c:<2$}  {d:>3$}  {e:>4$}",
                widths[0], widths[1], widths[2], widths[3], widths[4]
            );
            text.trim_end().to_string() + "\n"
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_become_one_table() {
        let figure =
            serde_json::json!({"measure": "median", "unit": "ms", "ours": 12.345, "anchor": null});
        let count = serde_json::json!({"measure": "lost", "unit": "", "ours": 2, "anchor": 0});
        let text = table(&[row("edit", &figure).unwrap(), row("edit", &count).unwrap()]);
        assert_eq!(
            text,
            "bench  measure  unit   ours  anchor\nedit   median   ms    12.35       –\nedit   lost               2       0\n"
        );
        assert!(row("edit", &serde_json::json!({"measure": "median"})).is_err());
    }
}
