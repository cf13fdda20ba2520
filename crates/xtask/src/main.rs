//! Build, serve, test and measure Cordonry: `cargo xtask help`.

mod address;
mod bench;
mod build;
mod counts;
mod fuzz;
mod glue;
mod html;
mod lock;
mod mime;
mod one_file;
mod packed;
mod packing;
mod policy;
mod process;
mod server;
mod setup;
mod site;
mod suite;
mod workspace;

use anyhow::Result;
use clap::{Parser, Subcommand};
use std::process::ExitCode;

#[derive(Parser)]
#[command(
    bin_name = "cargo xtask",
    about = "Build, serve, test and measure Cordonry"
)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Build the page into dist/
    Build {
        /// Also make dist/cordonry.html, one file that opens without a server
        #[arg(long)]
        one_file: bool,
    },
    /// Build the page and serve it on this machine
    Serve {
        /// The port to serve on; the next free one is taken if it is busy
        #[arg(long, default_value_t = 8123)]
        port: u16,
    },
    /// Run every check and test, and set up what they need
    Test {
        /// Only build the page and run the browser tests
        #[arg(long)]
        browser: bool,
    },
    /// Measure, and print one table
    Bench {
        /// One bench instead of all
        name: Option<String>,
    },
    /// Give readers and work damaged inputs
    Fuzz {
        /// One target instead of all
        target: Option<String>,
        /// How long for each
        #[arg(long, default_value_t = 1.0)]
        minutes: f64,
    },
}

fn main() -> ExitCode {
    match run(Arguments::parse().command) {
        Ok(code) => code,
        Err(error) => {
            eprintln!("cargo xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(command: Command) -> Result<ExitCode> {
    match command {
        Command::Build { one_file } => build::build(one_file)?,
        Command::Serve { port } => server::serve(port)?,
        Command::Test { browser } => return suite::test(browser),
        Command::Bench { name } => bench::bench(name.as_deref())?,
        Command::Fuzz { target, minutes } => return fuzz::fuzz(target.as_deref(), minutes),
    }
    Ok(ExitCode::SUCCESS)
}
