//! `cordonry`: the checks, drawings and file formats of planar cordon rows on the command line, for many rows at once.

mod advise;
mod archive;
mod args;
mod check;
mod compare;
mod convert;
mod crew;
mod draw;
mod files;
mod forecast;
mod judged;
mod light;
mod link;
mod materials;
mod out;
mod pages;
mod replace;
mod report;

use clap::Parser;
use cordonry::units::LengthStyle;
use cordonry_words::Words;
use std::io::{self, ErrorKind, Write as _};
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
    outlive_full_files();
    let asked = match args::Args::try_parse() {
        Ok(asked) => asked,
        Err(told) => return ExitCode::from(tell(&told)),
    };
    let spoken = asked.language.iter();
    let spoken: Vec<Words> = spoken
        .map(|l| Words::new(*l, LengthStyle::default()))
        .collect();
    let words = &spoken[0];
    if spoken.len() > 1 && !matches!(asked.command, args::Command::Crew(_)) {
        out::tell(&words.plain("command-one-language"));
        return ExitCode::from(Status::Failed as u8);
    }
    let status = match asked.command {
        args::Command::Check(ask) => check::run(&ask, words),
        args::Command::Light(ask) => light::run(&ask, words),
        args::Command::Forecast(ask) => forecast::run(&ask, words),
        args::Command::Advise(ask) => advise::run(&ask, words),
        args::Command::Crew(ask) => crew::run(&ask, &spoken),
        args::Command::Materials(ask) => materials::run(&ask, words),
        args::Command::Compare(ask) => compare::run(&ask, words),
        args::Command::Draw(ask) => draw::draw(&ask, words),
        args::Command::Report(ask) => report::run(&ask, words),
        args::Command::Import(ask) => convert::import(&ask, words),
        args::Command::Export(ask) => convert::export(&ask, words),
        args::Command::Link(ask) => link::link(&ask, words),
        args::Command::Archive(ask) => archive::archive(&ask, words),
    };
    ExitCode::from(status as u8)
}

/// Prints help, the version or what is wrong with what was asked; how the run ends. Help that can't be printed is not given.
fn tell(told: &clap::Error) -> u8 {
    let printed = told.print().and_then(|()| io::stdout().flush());
    let lost = printed.is_err_and(|e| e.kind() != ErrorKind::BrokenPipe);
    match lost || told.exit_code() != 0 {
        true => Status::Failed as u8,
        false => Status::Fine as u8,
    }
}

/// A file that may not grow is an error where it is written, and not the end of the program in the middle of it.
fn outlive_full_files() {
    #[cfg(unix)]
    {
        let heard = std::sync::Arc::default();
        // Where it can't be heard all is as without it.
        let _ = signal_hook::flag::register(libc::SIGXFSZ, heard);
    }
}
