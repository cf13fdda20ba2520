//! Starting other programs.

use crate::workspace;
use anyhow::{Context, Result, bail};
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, ExitStatus, Stdio};

/// A program, started in the workspace's folder.
pub fn program(name: &str, arguments: &[&str]) -> Command {
    let mut command = Command::new(name);
    command.args(arguments).current_dir(workspace::root());
    // `cargo run` describes this crate in the environment. Passed on, it would make a cargo started from here
    // differ from one started by hand, and build some crates again.
    for (key, _) in std::env::vars_os() {
        let name = key.to_string_lossy();
        if [
            "CARGO_PKG_",
            "CARGO_MANIFEST_",
            "CARGO_BIN_",
            "CARGO_CRATE_",
        ]
        .iter()
        .any(|prefix| name.starts_with(prefix))
        {
            command.env_remove(key);
        }
    }
    command
}

/// The cargo that runs this program, with words that hold no spaces.
pub fn cargo(words: &str) -> Command {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_string());
    program(&cargo, &words.split_whitespace().collect::<Vec<_>>())
}

/// Runs to the end; anything but success is an error.
pub fn run(command: &mut Command) -> Result<()> {
    let status = status(command)?;
    if !status.success() {
        bail!("`{}` failed ({status})", line(command));
    }
    Ok(())
}

/// Runs to the end and says how it went.
pub fn status(command: &mut Command) -> Result<ExitStatus> {
    command
        .status()
        .with_context(|| format!("`{}` could not be started", line(command)))
}

/// Runs quietly and gives what it wrote to standard output.
pub fn quiet(command: &mut Command) -> Result<String> {
    output(command.stderr(Stdio::null()))
}

/// Runs to the end and gives what it wrote to standard output; what it says of errors is shown.
pub fn heard(command: &mut Command) -> Result<String> {
    output(command.stderr(Stdio::inherit()))
}

fn output(command: &mut Command) -> Result<String> {
    let output = command
        .output()
        .with_context(|| format!("`{}` could not be started", line(command)))?;
    if !output.status.success() {
        bail!("`{}` failed ({})", line(command), output.status);
    }
    Ok(String::from_utf8_lossy(&output.stdout).trim().to_string())
}

/// Runs to the end, passes standard output on as it comes, and gives a copy of it.
pub fn tee(command: &mut Command) -> Result<(ExitStatus, String)> {
    let mut child = command
        .stdout(Stdio::piped())
        .spawn()
        .with_context(|| format!("`{}` could not be started", line(command)))?;
    let mut copy = String::new();
    if let Some(stdout) = child.stdout.take() {
        let mut reader = BufReader::new(stdout);
        let mut bytes = Vec::new();
        while reader.read_until(b'\n', &mut bytes)? > 0 {
            std::io::stdout().write_all(&bytes)?;
            copy.push_str(&String::from_utf8_lossy(&bytes));
            bytes.clear();
        }
    }
    Ok((child.wait()?, copy))
}

/// The command as it would be typed.
pub fn line(command: &Command) -> String {
    let mut words = vec![command.get_program().to_string_lossy().into_owned()];
    words.extend(
        command
            .get_args()
            .map(|word| word.to_string_lossy().into_owned()),
    );
    if let Some(name) = words[0].rsplit('/').next() {
        words[0] = name.to_string();
    }
    words.join(" ")
}
