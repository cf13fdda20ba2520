//! `cargo xtask fuzz`: what must hold whatever is given, on damaged inputs for as long as it is told. Where there is a nightly
//! compiler libFuzzer looks for inputs that reach what no other does; the stable one draws damage.

use crate::{process, workspace};
use anyhow::{Context, Result, bail};
use std::fs;
use std::process::ExitCode;

/// What damages by chance, names the targets and writes their seeds.
const PROGRAM: &str = "run --quiet --release --package cordonry-tests --bin fuzz --";

/// What has the compiler count which branches are reached (libFuzzer's documentation), and the most that an input may hold, MB, and take, s.
const COVERAGE: &str = "-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
    -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
    -Cllvm-args=-sanitizer-coverage-trace-compares -Ccodegen-units=1 --cfg fuzzing";
const MEMORY: &str = "-rss_limit_mb=1024";
const TIME: &str = "-timeout=5";

/// Runs one target or all, each for so many minutes.
pub fn fuzz(target: Option<&str>, minutes: f64) -> Result<ExitCode> {
    let all = process::heard(process::cargo(PROGRAM).arg("list"))?;
    let all: Vec<&str> = all.split_whitespace().collect();
    let targets: Vec<&str> = match target {
        None => all,
        Some(name) if all.contains(&name) => vec![name],
        Some(name) => bail!("there is no target {name}; there are {}", all.join(", ")),
    };
    let seconds = (minutes * 60.0).max(1.0);
    let nightly = host_of_nightly();
    match &nightly {
        Some(_) => println!("With the nightly compiler: libFuzzer, led by what inputs reach."),
        None => println!(
            "No nightly compiler is there (`rustup toolchain install nightly` brings one), so inputs are damaged by chance, and nothing \
             tells what they reach."
        ),
    }
    let mut well = true;
    for name in targets {
        println!("\n== {name}, {seconds:.0} s");
        well &= match &nightly {
            Some(host) => with_nightly(name, seconds, host)?,
            None => by_chance(name, minutes)?,
        };
    }
    Ok(ExitCode::from(u8::from(!well)))
}

fn by_chance(name: &str, minutes: f64) -> Result<bool> {
    let mut command = process::cargo(PROGRAM);
    let seed = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH)?;
    command.args([name, &minutes.to_string(), &seed.as_secs().to_string()]);
    Ok(process::status(&mut command)?.success())
}

/// The machine that the nightly compiler builds for, where there is one.
fn host_of_nightly() -> Option<String> {
    let told = process::quiet(&mut process::program("rustc", &["+nightly", "-vV"])).ok()?;
    let host = told.lines().find_map(|l| l.strip_prefix("host: "));
    host.map(str::to_string)
}

fn with_nightly(name: &str, seconds: f64, host: &str) -> Result<bool> {
    let home = workspace::target().join("fuzz");
    let (seeds, found) = (home.join("seeds").join(name), home.join("found").join(name));
    for folder in [&seeds, &found] {
        fs::create_dir_all(folder).with_context(|| folder.display().to_string())?;
    }
    let mut write = process::cargo(PROGRAM);
    process::run(write.args([name, "seeds"]).arg(&seeds))?;
    let kept = workspace::root().join("tests/fuzz").join(name);
    fs::create_dir_all(&kept)?;
    let manifest = "tests/libfuzzer/Cargo.toml";
    let mut build = process::program(
        "cargo",
        &[
            "+nightly",
            "run",
            "--release",
            "--manifest-path",
            manifest,
            "--target",
            host,
            "--",
        ],
    );
    // Whoever runs this by cargo has its compiler in the environment.
    build.env_remove("CARGO").env_remove("RUSTUP_TOOLCHAIN");
    build
        .env("RUSTFLAGS", COVERAGE)
        .env("CARGO_TARGET_DIR", home.join("target"));
    build.env("CORDONRY_FUZZ_TARGET", name);
    build.args([&found, &seeds]);
    build.args([
        MEMORY,
        TIME,
        "-print_final_stats=1",
        &format!("-max_total_time={seconds:.0}"),
    ]);
    // What fails is kept where the tests read it.
    build.arg(format!("-artifact_prefix={}/", kept.display()));
    Ok(process::status(&mut build)?.success())
}
