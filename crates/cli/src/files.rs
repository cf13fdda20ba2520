//! Reading and writing files, and saying what went wrong by the file's name.

use crate::Status;
use crate::args::Output;
use crate::replace::replace;
use anyhow::{Context as _, Result, anyhow, bail};
use cordonry::file::{MAX_BYTES, read_plan};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
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
pub fn bytes(path: &Path, words: &Words) -> Result<Vec<u8>> {
    let file = fs::File::open(path).context(words.plain("command-cannot-open"))?;
    let mut out = Vec::new();
    file.take(MAX_BYTES as u64 + 1)
        .read_to_end(&mut out)
        .context(words.plain("command-cannot-read"))?;
    Ok(out)
}

/// Why something was refused, in words.
pub fn refused(why: &Refusal, words: &Words) -> anyhow::Error {
    anyhow!("{}", words.refusal(why))
}

/// A path as a value of a text.
pub fn shown(path: &Path) -> Arg {
    Arg::Text(path.display().to_string())
}

/// The plan in a file.
pub fn plan(path: &Path, words: &Words) -> Result<Plan> {
    read_plan(&bytes(path, words)?).map_err(|why| refused(&why, words))
}

/// Writes a file that was made from another, which it may not replace.
pub fn write(path: &Path, from: &Path, text: &str, words: &Words) -> Result<()> {
    let real = |p: &Path| fs::canonicalize(p).ok();
    if real(path).is_some() && real(path) == real(from) {
        bail!(words.plain("command-would-replace"));
    }
    replace(path, text).context(words.plain("command-cannot-write"))
}

/// The plan files that the paths stand for: a file itself, a folder its *.json, folders within it included, by name.
pub fn plans(paths: &[PathBuf], words: &Words) -> Vec<Result<PathBuf, (PathBuf, anyhow::Error)>> {
    let mut out = Vec::new();
    for path in paths {
        if !path.is_dir() {
            out.push(Ok(path.clone()));
            continue;
        }
        let mut found = Vec::new();
        let looked = look_into(path, &mut found, words);
        if looked.is_ok() && found.is_empty() {
            out.push(Err((
                path.clone(),
                anyhow!(words.plain("command-no-plans")),
            )));
        }
        out.extend(found.into_iter().map(Ok));
        if let Err(error) = looked {
            out.push(Err((path.clone(), error)));
        }
    }
    out
}

fn look_into(folder: &Path, out: &mut Vec<PathBuf>, words: &Words) -> Result<()> {
    let mut entries = fs::read_dir(folder)
        .and_then(Iterator::collect::<std::io::Result<Vec<_>>>)
        .with_context(|| words.text("command-folder-cannot-read", &[("folder", shown(folder))]))?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let path = entry.path();
        // A link to a folder is not followed: it may lead back here.
        if entry.file_type().is_ok_and(|t| t.is_dir()) {
            look_into(&path, out, words)?;
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
    words: &Words,
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
            let reason = Arg::Text(error.to_string());
            eprintln!(
                "{}",
                words.text("command-standard-output", &[("reason", reason)])
            );
            Status::Failed
        }
    }
}

/// The outcome of a command on one file.
pub fn outcome(
    output: &Output,
    words: &Words,
    path: &Path,
    done: Result<(Value, String)>,
) -> Status {
    match done {
        Ok((row, told)) => print(output, words, &[row], &[], |out| out.push_str(&told)),
        Err(error) => {
            print(
                output,
                words,
                &[],
                &[Unreadable::said(path, &error)],
                |_| {},
            );
            Status::Failed
        }
    }
}
