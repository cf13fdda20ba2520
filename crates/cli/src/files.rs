//! Reading and writing files, and saying what went wrong by the file's name.

use crate::Status;
use crate::args::Output;
use crate::replace::replace;
use anyhow::{Context as _, Result, anyhow, bail};
use cordonry::file::{MAX_BYTES, read_plan};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry_words::Words;
use serde::Serialize;
use serde_json::Value;
use std::fs;
use std::io::{ErrorKind, Read as _, Write as _};
use std::path::{Path, PathBuf};

/// A file that could not be read or worked on.
#[derive(Serialize)]
pub struct Unreadable {
    pub file: String,
    pub reason: String,
}

impl Unreadable {
    /// Names the file on standard error too.
    pub fn said(path: &Path, error: &anyhow::Error) -> Self {
        let out = Self {
            file: path.display().to_string(),
            reason: format!("{error:#}"),
        };
        eprintln!("{}: {}", out.file, out.reason);
        out
    }
}

/// The bytes of a file; one that is larger than any reader takes is not read whole.
pub fn bytes(path: &Path) -> Result<Vec<u8>> {
    let file = fs::File::open(path).context("can't be opened")?;
    let mut out = Vec::new();
    file.take(MAX_BYTES as u64 + 1)
        .read_to_end(&mut out)
        .context("can't be read")?;
    Ok(out)
}

/// Why something was refused, in words.
pub fn refused(why: &Refusal) -> anyhow::Error {
    anyhow!("{}", Words::default().refusal(why))
}

/// The plan in a file.
pub fn plan(path: &Path) -> Result<Plan> {
    read_plan(&bytes(path)?).map_err(|why| refused(&why))
}

/// Writes a file that was made from another, which it may not replace.
pub fn write(path: &Path, from: &Path, text: &str) -> Result<()> {
    let real = |p: &Path| fs::canonicalize(p).ok();
    if real(path).is_some() && real(path) == real(from) {
        bail!("it would replace the file that it is made from");
    }
    replace(path, text).context("can't be written")
}

/// The plan files that the paths stand for: a file itself, a folder its *.json, folders within it included, by name.
pub fn plans(paths: &[PathBuf]) -> Vec<Result<PathBuf, (PathBuf, anyhow::Error)>> {
    let mut out = Vec::new();
    for path in paths {
        if !path.is_dir() {
            out.push(Ok(path.clone()));
            continue;
        }
        let mut found = Vec::new();
        let looked = look_into(path, &mut found);
        if looked.is_ok() && found.is_empty() {
            out.push(Err((path.clone(), anyhow!("no *.json in this folder"))));
        }
        out.extend(found.into_iter().map(Ok));
        if let Err(error) = looked {
            out.push(Err((path.clone(), error)));
        }
    }
    out
}

fn look_into(folder: &Path, out: &mut Vec<PathBuf>) -> Result<()> {
    let mut entries = fs::read_dir(folder)
        .and_then(Iterator::collect::<std::io::Result<Vec<_>>>)
        .with_context(|| format!("folder {} can't be read", folder.display()))?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let path = entry.path();
        // A link to a folder is not followed: it may lead back here.
        if entry.file_type().is_ok_and(|t| t.is_dir()) {
            look_into(&path, out)?;
        } else if path.extension().is_some_and(|e| e == "json") && !path.is_dir() {
            out.push(path);
        }
    }
    Ok(())
}

/// Prints rows as the asker wants them; `people` words one for people, and prints nothing when it is empty. What can't be
/// printed ends the run as failed.
pub fn print(
    output: &Output,
    rows: &[Value],
    unreadable: &[Unreadable],
    people: impl Fn(&mut String),
) -> Status {
    let mut text = String::new();
    if output.json {
        let document = serde_json::json!({"rows": rows, "unreadable": unreadable});
        text = format!("{document:#}\n");
    } else if output.json_lines {
        for row in rows {
            text.push_str(&format!("{row}\n"));
        }
    } else {
        people(&mut text);
    }
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => Status::Fine,
        // Whoever reads has seen enough and closed the pipe.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Status::Fine,
        Err(error) => {
            eprintln!("standard output: can't be written: {error}");
            Status::Failed
        }
    }
}

/// The outcome of a command on one file.
pub fn outcome(output: &Output, path: &Path, done: Result<(Value, String)>) -> Status {
    match done {
        Ok((row, words)) => print(output, &[row], &[], |out| out.push_str(&words)),
        Err(error) => {
            print(output, &[], &[Unreadable::said(path, &error)], |_| {});
            Status::Failed
        }
    }
}
