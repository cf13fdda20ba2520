//! Solves a case file and prints settings and results as one JSON document; with `--compare` also how far they are from
//! the results in the file. Exit status 2 with the reason where a file cannot be read or solved.

use std::process::ExitCode;

use cordonry_tests::case::{deviation, expected, solve};
use serde_json::Value;

fn main() -> ExitCode {
    match run() {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(reason) => {
            eprintln!("case: {reason}");
            ExitCode::from(2)
        }
    }
}

fn run() -> Result<String, String> {
    let mut compare = false;
    let mut path = None;
    for argument in std::env::args().skip(1) {
        match argument.as_str() {
            "--compare" => compare = true,
            other if other.starts_with("--") => {
                return Err(format!(
                    "no option {other}; use: case FILE.json [--compare]"
                ));
            }
            other => path = Some(other.to_string()),
        }
    }
    let path = path.ok_or("which file? use: case FILE.json [--compare]")?;
    let text = std::fs::read_to_string(&path).map_err(|e| format!("{path}: {e}"))?;
    let case: Value = serde_json::from_str(&text).map_err(|e| format!("{path}: {e}"))?;
    let mut answer = solve(&case).map_err(|e| format!("{path}: {e}"))?;
    if compare {
        let apart = deviation(&answer["results"], expected(&case));
        answer["deviation"] = serde_json::to_value(apart).map_err(|e| e.to_string())?;
    }
    serde_json::to_string_pretty(&answer).map_err(|e| e.to_string())
}
