//! `cordonry draw`: a row as one drawing, or as sheets to print.

use crate::Status;
use crate::args::{Draw, PaperSize};
use crate::convert::put;
use crate::files;
use crate::judged::judged;
use crate::pages;
use anyhow::Result;
use cordonry::check::{Context, Finding, check, figures, fill_is_due, matters};
use cordonry::cover::cover;
use cordonry::plan::{Plan, replay};
use cordonry::pose::PosedRow;
use cordonry::row::Phase;
use cordonry_draw::{
    DocumentOptions, FigureTable, Paper, Time, Told, row_figures, row_figures_title,
};
use cordonry_words::Words;
use serde_json::{Value, json};

pub fn draw(ask: &Draw, words: &Words) -> Status {
    let done = || -> Result<(Value, String)> {
        let as_pdf = pages::is_pdf(&ask.output_file, "command-a-drawing", words)?;
        let plan = files::plan(&ask.path, words)?;
        let write = |pages: &[String]| {
            let pages = (plan.name.as_str(), pages);
            pages::write(&ask.output_file, &ask.path, pages, as_pdf, words)
        };
        let ((leaf, trees), written) = match ask.sheets {
            None => {
                let row = judged(&plan, words)?.row;
                let text = cordonry_draw::document_with(
                    &plan,
                    &row,
                    &DocumentOptions {
                        words,
                        foliage: false,
                        work: &[],
                        time: None,
                        field: None,
                    },
                );
                let written = match as_pdf {
                    true => write(&[text])?,
                    false => {
                        put(&ask.output_file, &ask.path, text.as_bytes(), words)?;
                        vec![ask.output_file.clone()]
                    }
                };
                ((row.leaf, row.trees.len()), written)
            }
            Some(paper) => {
                let written = write(&sheets(&plan, paper, words))?;
                ((plan.found.leaf, plan.found.trees.len()), written)
            }
        };
        let mut told = json!({
            "file": ask.path.display().to_string(),
            "output": written[0].display().to_string(),
            "leaf": leaf,
            "trees": trees,
        });
        if ask.sheets.is_some() {
            let names: Vec<String> = written.iter().map(|p| p.display().to_string()).collect();
            told["sheets"] = names.into();
        }
        let drawn = written
            .iter()
            .map(|name| words.text("command-drawn", &[("file", files::shown(name))]) + "\n")
            .collect();
        Ok((told, drawn))
    };
    files::outcome(&ask.output, words, &ask.path, done())
}

/// The found row before the first work of the first scheme, which is the row that the crew finds.
fn sheets(plan: &Plan, paper: PaperSize, words: &Words) -> Vec<String> {
    let row = &*plan.found;
    let moment = plan.start();
    let terms = plan.terms(&row.trellis);
    let targets = plan.limits(0);
    let findings = check(&Context {
        moment,
        ..Context::found(&PosedRow::of(row, &targets), &terms, &targets)
    });
    let work = plan.work_at(0, moment).unwrap_or_default();
    let stands = plan.schemes.first().is_some_and(|s| s.stands(moment));
    // Without work the row before it is the row after it.
    let phase = match work.is_empty() {
        true => Phase::After,
        false => Phase::Before,
    };
    let posed = PosedRow::of(row, &targets);
    let worked = replay(plan, 0, moment).map_or_else(|_| posed.clone(), |r| r.row);
    let due = fill_is_due(&findings);
    let findings: Vec<&Finding> = findings.iter().collect();
    let counted = figures(row, &plan.targets);
    let told = Told {
        plan,
        row: &posed,
        worked: &worked,
        date: "",
        time: Some(Time {
            moment,
            phase,
            stands,
        }),
        work: &work,
        field: plan.schemes.first().map(|s| &s.field),
        findings: &findings,
        matters: &matters(row, &cover(row, &targets), &targets, &findings, &plan.left),
        figures: &[FigureTable {
            title: row_figures_title(row.leaf, words),
            lines: row_figures(&counted, &plan.targets, due, words),
            assumed: String::new(),
        }],
        words,
    };
    cordonry_draw::sheets(&told, paper.into())
}

impl From<PaperSize> for Paper {
    fn from(size: PaperSize) -> Self {
        match size {
            PaperSize::A4 => Self::A4,
            PaperSize::Letter => Self::Letter,
        }
    }
}
