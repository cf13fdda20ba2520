//! Reading and writing files, and saying what went wrong by the file's name.

use crate::Status;
use crate::args::Output;
use crate::out::{Row, Unreadable, clean, print};
use crate::replace::replace;
use anyhow::{Context as _, Result, anyhow, bail};
use cordonry::file::{MAX_BYTES, read_plan, too_large};
use cordonry::plan::Plan;
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry_words::Words;
use serde_json::Value;
use std::cell::RefCell;
use std::fs;
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};

/// The bytes of a file; one that is larger than any reader takes is not read.
pub fn bytes(path: &Path, words: &Words) -> Result<Vec<u8>> {
    if is_pipe(path) {
        bail!(words.plain("command-pipe"));
    }
    let file = fs::File::open(path).context(words.plain("command-cannot-open"))?;
    let most = MAX_BYTES as u64;
    if let Some(size) = file.metadata().ok().filter(fs::Metadata::is_file)
        && size.len() > most
    {
        return Err(refused(&too_large(size.len()), words));
    }
    let mut out = Vec::new();
    file.take(most + 1)
        .read_to_end(&mut out)
        .context(words.plain("command-cannot-read"))?;
    // What says no size may have no end.
    if out.len() > MAX_BYTES {
        bail!(words.text(
            "command-endless",
            &[("high", Arg::Count((MAX_BYTES >> 20) as i64))]
        ));
    }
    Ok(out)
}

/// Whether a path names a pipe, which would keep us until somebody writes to it. One that a shell has opened for us has
/// no name of its own.
fn is_pipe(path: &Path) -> bool {
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt as _;
        let there = fs::canonicalize(path).and_then(fs::metadata);
        there.is_ok_and(|m| m.file_type().is_fifo())
    }
    #[cfg(not(unix))]
    {
        let _ = path;
        false
    }
}

/// Why something was refused, in words.
pub fn refused(why: &Refusal, words: &Words) -> anyhow::Error {
    anyhow!("{}", words.refusal(why))
}

/// A path as a value of a text, on one line whatever it holds.
pub fn shown(path: &Path) -> Arg {
    Arg::Text(clean(&path.display().to_string()))
}

/// The plan in a file.
pub fn plan(path: &Path, words: &Words) -> Result<Plan> {
    read_plan(&bytes(path, words)?).map_err(|why| refused(&why, words))
}

/// Refuses a file that would replace the one that it is made from.
pub fn spares(path: &Path, from: &Path, words: &Words) -> Result<()> {
    let real = |p: &Path| fs::canonicalize(p).ok();
    if real(path).is_some() && real(path) == real(from) {
        bail!(words.plain("command-would-replace"));
    }
    Ok(())
}

/// Writes a file that was made from another, which it may not replace.
pub fn write(path: &Path, from: &Path, bytes: &[u8], words: &Words) -> Result<()> {
    spares(path, from, words)?;
    if is_read_only(path) {
        bail!(words.plain("command-read-only"));
    }
    replace(path, bytes).context(words.plain("command-cannot-write"))
}

/// Whether a file is there that may not be written: a new one in its place would overrule that.
fn is_read_only(path: &Path) -> bool {
    let Some(there) = fs::metadata(path).ok().filter(fs::Metadata::is_file) else {
        return false;
    };
    let opened = fs::OpenOptions::new().write(true).open(path);
    let refused = |e: std::io::Error| e.kind() == ErrorKind::PermissionDenied;
    there.permissions().readonly() || opened.is_err_and(refused)
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
        } else if path.extension().is_some_and(|e| e == "json") && !is_no_file(&path) {
            out.push(path);
        }
    }
    Ok(())
}

/// Whether something else is there: a folder, or a pipe, which would keep us until somebody writes to it.
fn is_no_file(path: &Path) -> bool {
    fs::metadata(path).is_ok_and(|m| !m.is_file())
}

/// What `look` makes of each plan file that the paths stand for, one after the other; what can't be read or worked on is
/// told, and put among the `unreadable`.
pub fn rows<'a, R, F: Fn(&Path) -> Result<R>>(
    paths: &[PathBuf],
    unreadable: &'a RefCell<Vec<Unreadable>>,
    words: &Words,
    look: F,
) -> impl Iterator<Item = R> + use<'a, R, F> {
    plans(paths, words).into_iter().filter_map(move |path| {
        let looked = path.and_then(|p| look(&p).map_err(|e| (p, e)));
        let told = |(path, error): (PathBuf, _)| {
            let said = Unreadable::said(&path, &error);
            unreadable.borrow_mut().push(said);
        };
        looked.map_err(told).ok()
    })
}

/// Tells what `look` makes of each plan file that the paths stand for.
pub fn print_rows(
    paths: &[PathBuf],
    output: &Output,
    words: &Words,
    look: impl Fn(&Path) -> Result<Row>,
) -> Status {
    let unreadable = RefCell::default();
    let rows = rows(paths, &unreadable, words, look);
    let printed = print(output, words, rows, &unreadable, |row| row.people.clone());
    match unreadable.borrow().is_empty() {
        true => printed,
        false => Status::Failed,
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
        Ok((row, told)) => {
            let none = RefCell::new(Vec::new());
            print(output, words, [row].into_iter(), &none, |_| told.clone())
        }
        Err(error) => {
            let unreadable = RefCell::new(vec![Unreadable::said(path, &error)]);
            let rows = std::iter::empty::<Value>();
            print(output, words, rows, &unreadable, |_| String::new());
            Status::Failed
        }
    }
}
