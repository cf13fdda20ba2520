//! `cordonry draw`, `import` and `export`: from one file to another.

use crate::Status;
use crate::args::{Draw, Export, Import};
use crate::check::judged;
use crate::files;
use anyhow::{Result, anyhow, bail};
use cordonry::file::csv::{self, Measured, Options, Style};
use cordonry::file::write_plan;
use cordonry::plan::Plan;
use cordonry::row::{Trellis, Wire};
use cordonry::units::{BareUnit, Deg, LengthStyle, Mm, parse_length};
use cordonry::words::Words;
use serde_json::{Value, json};

pub fn draw(ask: &Draw) -> Status {
    let done = || -> Result<(Value, String)> {
        let svg = ask.output_file.extension();
        if !svg.is_some_and(|e| e.eq_ignore_ascii_case("svg")) {
            bail!(
                "a drawing named {} is refused; a name that ends in .svg is accepted",
                ask.output_file.display()
            );
        }
        let plan = files::plan(&ask.path)?;
        let row = judged(&plan)?.row;
        let text = cordonry_draw::document(&plan, &row);
        put(&ask.output_file, &ask.path, &text)?;
        Ok((
            json!({
                "file": ask.path.display().to_string(),
                "output": ask.output_file.display().to_string(),
                "leaf": row.leaf,
                "trees": row.trees.len(),
            }),
            format!("{} drawn\n", ask.output_file.display()),
        ))
    };
    files::outcome(&ask.output, &ask.path, done())
}

pub fn import(ask: &Import) -> Status {
    let done = || -> Result<(Value, String)> {
        let options = options(ask)?;
        let measured =
            csv::read(&files::bytes(&ask.path)?, &options).map_err(|why| anyhow!("{why}"))?;
        let said = said(ask, &measured);
        if measured.taken == 0 {
            bail!("no line could be taken");
        }
        let (taken, left) = (measured.taken, measured.bad.len());
        let trees = measured.row.trees.len();
        let lost = measured.row.trees.iter().filter(|t| t.is_lost()).count();
        let bad: Vec<Value> = measured
            .bad
            .iter()
            .map(|b| json!({"line": b.line, "text": b.text, "reason": b.why.to_string()}))
            .collect();
        let name = ask.path.file_stem().unwrap_or_default();
        let leaf = measured.row.leaf;
        let mut plan = Plan::new(name.to_string_lossy(), measured.row);
        let file = ask.path.file_name().unwrap_or_default().to_string_lossy();
        plan.note = format!("Measured row from {file}: {taken} lines taken, {left} left out.");
        put(&ask.output_file, &ask.path, &write_plan(&plan))?;
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
        let words = format!(
            "{}: {taken} lines taken, {left} left out; {trees} trees, {lost} of them lost\n",
            ask.output_file.display()
        );
        Ok((row, words))
    };
    files::outcome(&ask.output, &ask.path, done())
}

/// Names the bad lines and what was assumed on standard error; gives the latter.
fn said(ask: &Import, measured: &Measured) -> Vec<String> {
    let words = Words::default();
    let file = ask.path.display();
    for bad in &measured.bad {
        eprintln!("{file}:{}: {}  [{}]", bad.line, bad.why, bad.text);
    }
    let said = measured.said.iter().map(|s| words.text(s.key, &s.args));
    let said: Vec<String> = said.collect();
    for line in &said {
        eprintln!("{file}: {line}");
    }
    said
}

fn options(ask: &Import) -> Result<Options> {
    if !(10.0..=90.0).contains(&ask.planted) {
        bail!(
            "a planting angle of {} degrees is refused; 10 to 90 is accepted",
            ask.planted
        );
    }
    let height = parse_length(&ask.wire, BareUnit::Metre).map_err(|e| anyhow!("wire: {e}"))?;
    let highest = Trellis::MAX_HEIGHT;
    if !(1.0..=highest.f()).contains(&height) {
        bail!("a cordon wire at {height} mm is refused; 1 to {highest} is accepted");
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
    Ok(Options {
        leaf: ask.leaf,
        planted: Deg::new(ask.planted),
        trellis,
    })
}

pub fn export(ask: &Export) -> Status {
    let done = || -> Result<(Value, String)> {
        let plan = files::plan(&ask.path)?;
        let style = Style {
            lengths: if ask.us {
                LengthStyle::FeetInches
            } else {
                LengthStyle::Metric
            },
            decimal_comma: ask.decimal_comma,
        };
        let text = csv::write(&plan.found, style);
        put(&ask.output_file, &ask.path, &text)?;
        Ok((
            json!({
                "file": ask.path.display().to_string(),
                "output": ask.output_file.display().to_string(),
                "leaf": plan.found.leaf,
                "trees": plan.found.trees.len(),
                "lines": plan.found.trees.iter().map(|t| t.shoots.len().max(1)).sum::<usize>(),
            }),
            format!("{} written\n", ask.output_file.display()),
        ))
    };
    files::outcome(&ask.output, &ask.path, done())
}

/// Writes the file that was asked for; an error names that one.
fn put(path: &std::path::Path, from: &std::path::Path, text: &str) -> Result<()> {
    files::write(path, from, text).map_err(|e| e.context(path.display().to_string()))
}
