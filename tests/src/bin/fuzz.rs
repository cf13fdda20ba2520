//! Damages inputs for so many minutes and prints figures: `fuzz TARGET MINUTES SEED`. What panics is kept beside the target's
//! seeds. `fuzz TARGET seeds FOLDER` writes the seeds instead, `fuzz list` the targets. It ends with 1 where anything panicked, took longer than a second or held more than 256 MB.

use cordonry_tests::fuzz::{TARGETS, run};
use peak_alloc::PeakAlloc;
use std::fs;
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::{Duration, Instant};

#[global_allocator]
static HELD: PeakAlloc = PeakAlloc;

const SLOW: Duration = Duration::from_secs(1);
const MUCH: usize = 256 << 20;

fn held(work: &mut dyn FnMut()) -> usize {
    let before = HELD.current_usage();
    HELD.reset_peak_usage();
    work();
    HELD.peak_usage().saturating_sub(before)
}

fn main() -> ExitCode {
    let mut args = std::env::args().skip(1);
    let name = args.next().unwrap_or_default();
    let (second, third) = (args.next(), args.next());
    if name == "list" {
        TARGETS.iter().for_each(|t| println!("{}", t.name));
        return ExitCode::SUCCESS;
    }
    let Some(target) = TARGETS.iter().find(|t| t.name == name) else {
        let names: Vec<&str> = TARGETS.iter().map(|t| t.name).collect();
        eprintln!("no target {name:?}; there are {}", names.join(", "));
        return ExitCode::FAILURE;
    };
    if second.as_deref() == Some("seeds") {
        let folder = PathBuf::from(third.unwrap_or_default());
        let write = |(n, seed): (usize, Vec<u8>)| fs::write(folder.join(n.to_string()), seed);
        let written = target
            .all_seeds()
            .into_iter()
            .enumerate()
            .try_for_each(write);
        return ExitCode::from(u8::from(written.is_err()));
    }
    let minutes: f64 = second.and_then(|m| m.parse().ok()).unwrap_or(1.0);
    let seed = third.and_then(|s| s.parse().ok()).unwrap_or(1);
    let begun = Instant::now();
    let time = Duration::from_secs_f64(minutes.max(0.0) * 60.0);
    let figures = run(target, seed, &held, &|_| begun.elapsed() < time);
    println!("{name}: {figures}");
    for (n, input) in figures.panics.iter().enumerate() {
        let path = target.corpus().join(format!("panic-{seed}-{n}"));
        let kept = fs::create_dir_all(target.corpus()).and_then(|()| fs::write(&path, input));
        match kept {
            Ok(()) => println!("kept as {}", path.display()),
            Err(why) => println!("{}: {why}", path.display()),
        }
    }
    let bad = !figures.panics.is_empty() || figures.slowest > SLOW || figures.most_held > MUCH;
    ExitCode::from(u8::from(bad))
}
