//! `cordonry link`: a plan as a link, and back.

use crate::Status;
use crate::args::Link;
use crate::convert::{named, put};
use crate::files;
use anyhow::{Context as _, Result, anyhow};
use cordonry::file::link::{link_in, read_link, write_link};
use cordonry::file::write_plan;
use cordonry::said::{Arg, beginning};
use cordonry_draw::{MAX_QR, qr};
use cordonry_words::Words;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

pub fn link(ask: &Link, words: &Words) -> Status {
    match (&ask.open, &ask.path) {
        (Some(given), _) => {
            // A link is named by its beginning.
            let name = PathBuf::from(beginning(given, 40));
            files::outcome(&ask.output, words, &name, opened(ask, given, words))
        }
        (None, path) => {
            let path = path.clone().unwrap_or_default();
            files::outcome(&ask.output, words, &path, made(ask, &path, words))
        }
    }
}

fn made(ask: &Link, path: &Path, words: &Words) -> Result<(Value, String)> {
    let plan = files::plan(path, words)?;
    let link = write_link(&plan).map_err(|why| files::refused(&why, words))?;
    let link = match &*ask.base {
        "" => link,
        base => format!("{}#{link}", base.split('#').next().unwrap_or_default()),
    };
    let mut row = json!({
        "file": path.display().to_string(),
        "link": link,
        "characters": link.len(),
    });
    let mut told = format!("{link}\n");
    if let Some(file) = &ask.output_file {
        named(file, "command-a-code", &["svg"], words)?;
        let drawn = qr(&link, &plan.name).ok_or_else(|| {
            let lengths = [
                ("value", Arg::Count(link.len() as i64)),
                ("high", Arg::Count(MAX_QR as i64)),
            ];
            anyhow!(words.text("command-no-code", &lengths))
        })?;
        put(file, path, drawn.as_bytes(), words)?;
        row["output"] = file.display().to_string().into();
        told += &(words.text("command-written", &[("file", files::shown(file))]) + "\n");
    }
    Ok((row, told))
}

fn opened(ask: &Link, given: &str, words: &Words) -> Result<(Value, String)> {
    let file = ask.output_file.clone().unwrap_or_default();
    named(&file, "command-a-plan", &["json"], words)?;
    let path = Path::new(given);
    let text = match link_in(given) {
        Some(link) => link.to_string(),
        None if path.is_file() => {
            let bytes = files::bytes(path, words)?;
            String::from_utf8(bytes).context(words.plain("command-cannot-read"))?
        }
        None => given.to_string(),
    };
    let plan = read_link(&text).map_err(|why| files::refused(&why, words))?;
    put(&file, path, write_plan(&plan).as_bytes(), words)?;
    let row = json!({
        "output": file.display().to_string(),
        "leaf": plan.found.leaf,
        "trees": plan.found.trees.len(),
    });
    let told = words.text("command-written", &[("file", files::shown(&file))]);
    Ok((row, told + "\n"))
}
