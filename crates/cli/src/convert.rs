//! `cordonry import` and `export`: from one file to another.

use crate::Status;
use crate::args::{Answer, Export, Import};
use crate::files;
use crate::out::tell;
use anyhow::{Result, anyhow, bail};
use cordonry::file::csv::{self, Measured, Options, Style};
use cordonry::file::write_plan;
use cordonry::plan::Scheme;
use cordonry::range;
use cordonry::row::{Trellis, Wire};
use cordonry::said::Arg;
use cordonry::units::{BareUnit, Deg, LengthStyle, Mm, parse_length};
use cordonry_words::Words;
use serde_json::{Value, json};
use std::path::Path;
use std::sync::Arc;

pub fn import(ask: &Import, words: &Words) -> Status {
    let done = || -> Result<(Value, String)> {
        named(&ask.output_file, "command-a-plan", &["json"], words)?;
        if !ask.replace && holds_work(&ask.output_file, words) {
            let why = words.plain("command-holds-work");
            return Err(anyhow!(why).context(ask.output_file.display().to_string()));
        }
        let options = options(ask, words)?;
        let measured = csv::read(&files::bytes(&ask.path, words)?, &options)
            .map_err(|why| files::refused(&why, words))?;
        let doubt = measured.doubt.as_ref().map(|doubt| words.say(doubt));
        let said = said(ask, &measured, doubt.as_deref(), words);
        let (taken, left) = (measured.taken, measured.bad.len());
        let counts = [
            ("taken", Arg::Count(taken as i64)),
            ("left", Arg::Count(left as i64)),
            ("all", Arg::Count((taken + left) as i64)),
        ];
        if taken == 0 && !measured.treeless {
            bail!(words.plain("command-none-taken"));
        }
        if measured.is_mostly_bad() && !ask.anyway {
            bail!(words.text("command-too-many-left-out", &counts));
        }
        let trees = measured.row.trees.len();
        let lost = measured.row.trees.iter().filter(|t| t.is_lost()).count();
        let bad: Vec<Value> = measured
            .bad
            .iter()
            .map(|b| json!({"line": b.line, "text": b.text, "reason": words.say(&b.reason())}))
            .collect();
        let name = ask.path.file_stem().unwrap_or_default();
        let leaf = measured.row.leaf;
        let asks = measured.asks_tipped();
        let remains = measured.remains(words);
        let mut plan = measured.plan(name.to_string_lossy());
        plan.tipped = ask
            .tipped
            .filter(|_| asks)
            .map(|a| a == Answer::Yes)
            .or(plan.tipped);
        let file = ask.path.file_name().unwrap_or_default().to_string_lossy();
        let with = |more: &[(&'static str, Arg)]| [&counts[..], more].concat();
        let note = words.text(
            "command-plan-note",
            &with(&[("file", Arg::Text(file.into_owned()))]),
        );
        plan.note = format!("{note} {remains}").trim_end().into();
        put(
            &ask.output_file,
            &ask.path,
            write_plan(&plan).as_bytes(),
            words,
        )?;
        let row = json!({
            "file": ask.path.display().to_string(),
            "output": ask.output_file.display().to_string(),
            "leaf": leaf,
            "lines_taken": taken,
            "trees": trees,
            "trees_lost": lost,
            "bad_lines": bad,
            "assumed": said,
        });
        let asked = doubt.map_or_else(String::new, |doubt| format!(". {doubt}"));
        let told = words.text(
            "command-imported",
            &with(&[
                ("file", files::shown(&ask.output_file)),
                ("trees", Arg::Count(trees as i64)),
                ("lost", Arg::Count(lost as i64)),
            ]),
        );
        Ok((row, told + &asked + "\n"))
    };
    files::outcome(&ask.output, words, &ask.path, done())
}

/// Whether a plan is there that somebody has worked on.
fn holds_work(path: &Path, words: &Words) -> bool {
    files::plan(path, words).is_ok_and(|plan| {
        let worked = |s: &Arc<Scheme>| s.schedule.all().next().is_some();
        plan.schemes.iter().any(worked) || !plan.marks.is_empty()
    })
}

/// Names what was assumed and the bad lines on standard error, how many they are last; gives what was assumed.
fn said(ask: &Import, measured: &Measured, doubt: Option<&str>, words: &Words) -> Vec<String> {
    let file = ask.path.display();
    let said = measured.said.iter().map(|s| words.say(s));
    let tipped = match (measured.asks_tipped(), ask.tipped) {
        (true, None) => Some("command-tipped-unknown"),
        (false, Some(_)) => Some("command-tipped-told"),
        _ => None,
    };
    let tipped = tipped.map(|key| words.plain(key));
    let doubt = doubt.map(str::to_string).into_iter();
    let said: Vec<String> = doubt.chain(said).chain(tipped).collect();
    for line in &said {
        tell(&format!("{file}: {line}"));
    }
    for bad in &measured.bad {
        let why = words.say(&bad.reason());
        tell(&format!("{file}:{}: {why}  [{}]", bad.line, bad.text));
    }
    let left = measured.bad.len();
    if left > 0 {
        let all = measured.taken + left;
        let told = words.text(
            "command-left-out",
            &[
                ("left", Arg::Count(left as i64)),
                ("all", Arg::Count(all as i64)),
            ],
        );
        tell(&format!("{file}: {told}"));
    }
    said
}

fn options(ask: &Import, words: &Words) -> Result<Options> {
    if !range::has(range::PLANTING_ANGLE, ask.planted) {
        let angle = Arg::Text(words.to_type(&ask.planted.to_string()));
        bail!(words.text("command-planted-refused", &[("angle", angle)]));
    }
    let trellis = ask
        .wire
        .as_deref()
        .map(|wire| trellis(wire, words))
        .transpose()?;
    Ok(Options {
        leaf: ask.leaf,
        planted: Deg::new(ask.planted),
        trellis,
        ..Options::default()
    })
}

/// Wires of which the lowest is at the height that was asked for.
fn trellis(wire: &str, words: &Words) -> Result<Trellis> {
    let height = parse_length(wire, BareUnit::Metre)
        .map_err(|e| anyhow!(words.text("command-wire", &[("reason", e.into())])))?;
    if !range::has(range::WIRE_HEIGHT, height) {
        bail!(words.text(
            "command-wire-refused",
            &[
                ("height", Arg::Text(words.to_type(&height.to_string()))),
                ("low", Arg::Number(range::WIRE_HEIGHT.0, 0)),
                ("high", Arg::Number(range::WIRE_HEIGHT.1, 0)),
            ],
        ));
    }
    let mut trellis = Trellis::default();
    let height = Mm::round(height);
    trellis.wires.retain(|w| w.height > height);
    trellis.wires.insert(
        0,
        Wire {
            height,
            covering: Default::default(),
        },
    );
    if height != Trellis::default().cordon_height() {
        trellis
            .wires
            .retain(|w| w.height == height || w.height > height + Mm(300));
    }
    Ok(trellis)
}

pub fn export(ask: &Export, words: &Words) -> Status {
    let done = || -> Result<(Value, String)> {
        named(&ask.output_file, "command-a-table", &["csv"], words)?;
        let plan = files::plan(&ask.path, words)?;
        let style = Style {
            lengths: if ask.us {
                LengthStyle::FeetInches
            } else {
                LengthStyle::Metric
            },
            decimal_comma: ask.decimal_comma,
        };
        let text = csv::write(&plan.found, &plan.name, &plan.site, plan.tipped, style);
        put(&ask.output_file, &ask.path, text.as_bytes(), words)?;
        Ok((
            json!({
                "file": ask.path.display().to_string(),
                "output": ask.output_file.display().to_string(),
                "leaf": plan.found.leaf,
                "trees": plan.found.trees.len(),
                "lines": plan.found.trees.iter().map(|t| t.shoots.len().max(1)).sum::<usize>(),
            }),
            words.text(
                "command-written",
                &[("file", files::shown(&ask.output_file))],
            ) + "\n",
        ))
    };
    files::outcome(&ask.output, words, &ask.path, done())
}

/// A file's name says what is in it (`what`: the text that names it), so that no program takes it for another thing.
pub fn named(path: &Path, what: &'static str, endings: &[&str], words: &Words) -> Result<()> {
    let fits = |e: &std::ffi::OsStr| endings.iter().any(|own| e.eq_ignore_ascii_case(own));
    if path.extension().is_some_and(fits) {
        return Ok(());
    }
    bail!(words.text(
        "command-name-refused",
        &[
            ("what", Arg::key(what)),
            ("file", files::shown(path)),
            ("ending", Arg::Text(format!(".{}", endings.join(" / .")))),
        ],
    ))
}

/// Writes the file that was asked for; an error names that one.
pub fn put(path: &Path, from: &Path, bytes: &[u8], words: &Words) -> Result<()> {
    files::write(path, from, bytes, words).map_err(|e| e.context(path.display().to_string()))
}
