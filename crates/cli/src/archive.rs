//! `cordonry archive`: many rows as one file, and each as a file again. Nothing that is there is replaced unasked.

use crate::Status;
use crate::args::Archive;
use crate::convert::{named, put};
use crate::files;
use crate::out::{Row, Unreadable, print};
use anyhow::{Context as _, Result, anyhow, bail};
use cordonry::file::{name_in, read_archive, read_plan, write_archive, write_plan};
use cordonry::said::Arg;
use cordonry_words::Words;
use serde_json::json;
use std::cell::RefCell;
use std::fs;
use std::path::{Path, PathBuf};

pub fn archive(ask: &Archive, words: &Words) -> Status {
    let unreadable = RefCell::default();
    let (of, done) = match &ask.open {
        Some(file) => (file, taken_apart(ask, file, &unreadable, words)),
        None => (
            &ask.output_file,
            put_together(ask, &unreadable, words).map(|row| vec![row]),
        ),
    };
    let rows = done.unwrap_or_else(|error| {
        let said = Unreadable::said(of, &error);
        unreadable.borrow_mut().push(said);
        Vec::new()
    });
    let rows = rows.into_iter();
    let printed = print(&ask.output, words, rows, &unreadable, |r| r.people.clone());
    match unreadable.borrow().is_empty() {
        true => printed,
        false => Status::Failed,
    }
}

/// One file of all plans that can be read, or a few where they are too many for one.
fn put_together(
    ask: &Archive,
    unreadable: &RefCell<Vec<Unreadable>>,
    words: &Words,
) -> Result<Row> {
    let output = &ask.output_file;
    named(output, "command-file-of-rows", &["json"], words)?;
    let read = |path: &Path| Ok((path.to_path_buf(), write_plan(&files::plan(path, words)?)));
    let (from, texts): (Vec<PathBuf>, Vec<String>) =
        files::rows(&ask.paths, unreadable, words, read).unzip();
    let archives = write_archive(&texts);
    let outputs: Vec<PathBuf> = match archives.len() {
        0 => bail!(words.plain("command-no-rows")),
        1 => vec![output.clone()],
        more => (1..=more).map(|n| numbered(output, n)).collect(),
    };
    // All or none: a part of the rows alone would be taken for the whole.
    for output in &outputs {
        free(output, ask.replace, words)?;
        for path in &from {
            files::spares(output, path, words)?;
        }
    }
    for (output, bytes) in outputs.iter().zip(&archives) {
        put(output, &from[0], bytes, words)?;
    }
    let written: Vec<String> = outputs.iter().map(|o| o.display().to_string()).collect();
    let told = words.text(
        "command-archived",
        &[
            ("count", Arg::Count(texts.len() as i64)),
            ("file", files::shown(Path::new(&written.join(", ")))),
        ],
    );
    Ok(Row {
        row: json!({"output": written, "rows": texts.len()}),
        people: told + "\n",
    })
}

/// `rows.json` with a number: `rows-2.json`.
fn numbered(path: &Path, number: usize) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!("{stem}-{number}.json"))
}

/// Refuses to put a file where something is already.
fn free(path: &Path, replace: bool, words: &Words) -> Result<()> {
    if !replace && path.symlink_metadata().is_ok() {
        let why = words.plain("command-is-there");
        return Err(anyhow!(why).context(path.display().to_string()));
    }
    Ok(())
}

/// A file for each row; what can't be read of them is put beside these as it stands.
fn taken_apart(
    ask: &Archive,
    file: &Path,
    unreadable: &RefCell<Vec<Unreadable>>,
    words: &Words,
) -> Result<Vec<Row>> {
    let plans = read_archive(&files::bytes(file, words)?);
    let plans = plans.map_err(|why| files::refused(&why, words))?;
    let folder = &ask.output_file;
    fs::create_dir_all(folder)
        .context(words.plain("command-cannot-write"))
        .context(folder.display().to_string())?;
    let digits = plans.len().to_string().len();
    let mut rows = Vec::new();
    for (n, bytes) in plans.iter().enumerate() {
        let place = n + 1;
        let keep = |name: &str, ending: &str, bytes: &[u8]| {
            let path = folder.join(format!("{place:0digits$}-{}.{ending}", as_file(name)));
            free(&path, ask.replace, words)?;
            put(&path, file, bytes, words).map(|()| path)
        };
        let taken = match read_plan(bytes) {
            Ok(plan) => keep(&plan.name, "json", write_plan(&plan).as_bytes()).map(|path| Row {
                row: json!({
                    "file": file.display().to_string(),
                    "place": place,
                    "name": plan.name,
                    "output": path.display().to_string(),
                    "leaf": plan.found.leaf,
                    "trees": plan.found.trees.len(),
                }),
                people: words.text("command-written", &[("file", files::shown(&path))]) + "\n",
            }),
            Err(why) => {
                let told = name_in(bytes);
                // No ending of a plan's: whoever looks through the folder for plans passes it over.
                keep(&told, "damaged", bytes).and_then(|path| {
                    let name = match &*told {
                        "" => words.plain("unnamed"),
                        told => told.to_string(),
                    };
                    let row = [
                        ("place", Arg::Count(place as i64)),
                        ("row", Arg::Text(name)),
                        ("why", Arg::Text(words.refusal(&why))),
                        ("file", files::shown(&path)),
                    ];
                    Err(anyhow!(words.text("command-set-aside", &row)))
                })
            }
        };
        match taken {
            Ok(row) => rows.push(row),
            Err(error) => {
                let said = Unreadable::said(file, &error);
                unreadable.borrow_mut().push(said);
            }
        }
    }
    Ok(rows)
}

/// A row's name as a part of a file's: letters and digits, and no more than any disk takes.
fn as_file(name: &str) -> String {
    let plain = |c: char| if c.is_alphanumeric() { c } else { '-' };
    let name: String = name.trim().chars().take(40).map(plain).collect();
    match name.trim_matches('-') {
        "" => "row".to_string(),
        name => name.to_string(),
    }
}
