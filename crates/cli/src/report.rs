//! `cordonry report`: what a consultant hands to a client.

use crate::Status;
use crate::args::Report as Asked;
use crate::files;
use crate::judged::{scheme_named, window};
use crate::out::{Row, clean, rounded, tell};
use crate::pages;
use cordonry::advise::{Brought, Gain};
use cordonry::check::Finding;
use cordonry::plan::Plan;
use cordonry::report::{Changes, Outcome, Report};
use cordonry::said::Arg;
use cordonry_draw::ClientReport;
use cordonry_words::Words;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::Path;

pub fn run(ask: &Asked, words: &Words) -> Status {
    if ask.paths.len() > 1 || ask.paths[0].is_dir() {
        tell(&words.plain("command-one-row"));
        return Status::Failed;
    }
    files::print_rows(&ask.paths, &ask.output, words, |path| {
        let as_pdf = pages::is_pdf(&ask.output_file, "command-a-report", words)?;
        let refused = |why| files::refused(&why, words);
        let plan = files::plan(path, words)?;
        let scheme = scheme_named(&plan, ask.scheme.as_deref(), words)?;
        let leaf = ask.leaf.unwrap_or(plan.found.leaf);
        let report = Report::of(&plan, scheme, leaf).map_err(refused)?;
        let changes = Changes::of(&plan, scheme, leaf).map_err(refused)?;
        let works = !report.season.passes.is_empty();
        let gain = works.then(|| Gain::of(&report.without, &plan, scheme, leaf));
        let gain = gain.transpose().map_err(refused)?;
        let but = (0..report.season.passes.len()).map(|n| report.but(&plan, scheme, n));
        let but: Vec<Brought> = but.collect::<Result<_, _>>().map_err(refused)?;
        let client = ClientReport {
            plan: &plan,
            scheme,
            report: &report,
            changes: &changes,
            gain: gain.as_ref(),
            but: &but,
            filled: [&ask.block, &ask.date, &ask.by].map(|text| text.as_deref().unwrap_or("")),
            words,
        };
        let sheets = client.sheets(ask.paper.into());
        let written = pages::write(&ask.output_file, path, (&plan.name, &sheets), as_pdf, words)?;
        let mut row = json_of(path, &plan, &report, &changes, words);
        row["written"] = written.iter().map(|p| p.display().to_string()).collect();
        Ok(Row {
            row,
            people: people(path, &plan, &report, &changes, &written, words),
        })
    })
}

fn json_of(path: &Path, plan: &Plan, report: &Report, changes: &Changes, words: &Words) -> Value {
    let findings: Vec<&Finding> = report.findings.iter().collect();
    let matters = report.matters.iter().zip(&report.outcomes);
    let matters = matters.map(|(matter, outcome)| {
        let (how, at) = match outcome {
            Outcome::Settled(at) => ("settled", Some(*at)),
            Outcome::Less(at) => ("less", Some(*at)),
            Outcome::UnderWay(at) => ("way", Some(*at)),
            Outcome::Open => ("open", None),
        };
        let left = matter.left.and_then(|n| plan.left.get(n));
        json!({
            "cause": matter.cause.name,
            "severity": matter.severity,
            "words": words.matter(matter, &findings),
            "outcome": how,
            "window": at.map(|m| window(m.window)),
            "left": left.map(|l| &l.reason),
        })
    });
    let passes = report.season.passes.iter().map(|pass| {
        json!({
            "pass": pass.job.name(),
            "window": window(pass.moment.window),
            "count": pass.count(),
            "trees": pass.trees(),
            "minutes": rounded(pass.minutes, 10.0),
        })
    });
    json!({
        "file": path.display().to_string(),
        "name": plan.name,
        "leaf": report.leaf,
        "matters": matters.collect::<Vec<_>>(),
        "passes": passes.collect::<Vec<_>>(),
        "marks": plan.marks.len(),
        "changes": changes.count(),
    })
}

fn people(
    path: &Path,
    plan: &Plan,
    report: &Report,
    changes: &Changes,
    written: &[std::path::PathBuf],
    words: &Words,
) -> String {
    let count = |n: usize| Arg::Count(n as i64);
    let open = report.matters.iter().filter(|m| m.left.is_none());
    let settled = report.outcomes.iter();
    let settled = settled.filter(|o| matches!(o, Outcome::Settled(_)));
    let args = [
        ("file", Arg::Text(clean(&path.display().to_string()))),
        ("name", Arg::Text(clean(&plan.name))),
        ("leaf", Arg::Count(report.leaf.into())),
        ("matters", count(open.count())),
        ("settled", count(settled.count())),
        ("passes", count(report.season.passes.len())),
        ("changes", count(changes.count())),
    ];
    let mut out = words.text("command-report", &args);
    out.push('\n');
    for file in written {
        let file = [("file", files::shown(file))];
        let _ = writeln!(out, "  {}", words.text("command-written", &file));
    }
    out
}
