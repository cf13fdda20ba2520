//! `cordonry`: the checks, drawings and file formats of planar cordon rows on the command line, for many rows at once.

mod args;
mod check;
mod convert;
mod draw;
mod files;
mod judged;
mod light;
mod out;
mod replace;

use clap::Parser;
use cordonry::units::LengthStyle;
use cordonry_words::Words;
use std::process::ExitCode;

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Status {
    /// Done, and nothing grave was found.
    Fine = 0,
    /// Done, with findings of the gravest severity.
    Grave = 1,
    /// Something could not be read or done.
    Failed = 2,
}

fn main() -> ExitCode {
    let asked = args::Args::parse();
    let words = &Words::new(&asked.language, LengthStyle::default());
    let status = match asked.command {
        args::Command::Check(ask) => check::run(&ask, words),
        args::Command::Light(ask) => light::run(&ask, words),
        args::Command::Draw(ask) => draw::draw(&ask, words),
        args::Command::Import(ask) => convert::import(&ask, words),
        args::Command::Export(ask) => convert::export(&ask, words),
    };
    ExitCode::from(status as u8)
}
