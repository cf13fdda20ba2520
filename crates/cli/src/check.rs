//! `cordonry check`: what is found in rows.

use crate::Status;
use crate::args::Check;
use crate::files;
use crate::judged::{judged, light_of};
use crate::out::{clean, print, rounded};
use anyhow::Result;
use cordonry::check::{
    Context, Figures, Finding, Matter, Severity, matters, offered, survey, with_light,
};
use cordonry::file::work_value;
use cordonry::light::Weather;
use cordonry::plan::Plan;
use cordonry::row::{LimitInfo, Status as LimitStatus};
use cordonry::said::Arg;
use cordonry_words::Words;
use serde::ser::{Serialize, SerializeMap as _, Serializer};
use serde_json::{Value, json};
use std::cell::{Cell, RefCell};
use std::fmt::Write as _;
use std::path::Path;

struct Checked<'w> {
    words: &'w Words,
    file: String,
    plan: Plan,
    leaf: u8,
    figures: Figures,
    findings: Vec<Finding>,
    matters: Vec<Matter>,
}

fn look_at<'w>(path: &Path, light: Option<Weather>, words: &'w Words) -> Result<Checked<'w>> {
    let plan = files::plan(path, words)?;
    let judged = judged(&plan, words)?;
    let row = &judged.row;
    let context = Context::of(&judged);
    let seen = survey(&context, None);
    let mut findings = seen.findings;
    if let Some(weather) = light {
        let light = light_of(&plan, &judged, None, weather);
        findings = with_light(&context, &light, findings);
    }
    let findings = offered(&plan, 0, &judged, findings);
    let all: Vec<&Finding> = findings.iter().collect();
    let matters = matters(row, &seen.cover, &judged.targets, &all, &plan.left);
    Ok(Checked {
        words,
        file: path.display().to_string(),
        leaf: row.leaf,
        figures: seen.figures,
        findings,
        matters,
        plan,
    })
}

pub fn run(ask: &Check, words: &Words) -> Status {
    let light = ask.light.then(|| ask.sky.into());
    let unreadable = RefCell::default();
    let grave = Cell::new(false);
    let look = |path: &Path| look_at(path, light, words);
    let rows = files::rows(&ask.paths, &unreadable, words, look).inspect(|row| {
        let now = row.findings.iter().any(|f| f.severity == Severity::Now);
        grave.set(grave.get() || now);
    });
    let printed = print(&ask.output, words, rows, &unreadable, |row| {
        let mut out = String::new();
        row_words(row, words, &mut out);
        out
    });
    let judged = if !unreadable.borrow().is_empty() {
        Status::Failed
    } else if grave.get() {
        Status::Grave
    } else {
        Status::Fine
    };
    judged.max(printed)
}

/// A length in metres, to a tenth of a millimetre.
fn metres(mm: f64) -> f64 {
    rounded(mm / 1000.0, 1e4)
}

impl Serialize for Checked<'_> {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let mut map = s.serialize_map(None)?;
        map.serialize_entry("figures", &figures_json(&self.figures))?;
        map.serialize_entry("file", &self.file)?;
        map.serialize_entry("findings", &Listed(self))?;
        map.serialize_entry("leaf", &self.leaf)?;
        map.serialize_entry("matters", &matters_json(self))?;
        map.serialize_entry("name", &self.plan.name)?;
        map.end()
    }
}

/// A row's findings, each made JSON of when it is written: all of a long row's together are heavy.
struct Listed<'r>(&'r Checked<'r>);

impl Serialize for Listed<'_> {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let Checked {
            findings, words, ..
        } = self.0;
        s.collect_seq(findings.iter().map(|f| finding_json(f, words)))
    }
}

/// The matters of a row, each with the places of its findings in their list.
fn matters_json(row: &Checked<'_>) -> Vec<Value> {
    let findings: Vec<&Finding> = row.findings.iter().collect();
    let matter = |m: &Matter| {
        let spans = m.spans.iter();
        let mut out = json!({
            "cause": m.cause.name,
            "severity": m.severity,
            "size": m.size,
            "stretches_m": spans.map(|s| [metres(s.from), metres(s.to)]).collect::<Vec<_>>(),
            "findings": m.findings,
            "words": row.words.matter(m, &findings),
        });
        if let Some(left) = m.left.and_then(|n| row.plan.left.get(n)) {
            out["left"] = json!(left.reason);
        }
        out
    };
    row.matters.iter().map(matter).collect()
}

fn figures_json(f: &Figures) -> Value {
    json!({
            "cordon_fill_share": rounded(f.cordon_fill_share, 1e6),
            "cordon_owed_m": metres(f.cordon_owed),
            "gap_total_m": metres(f.gap_total),
            "gap_longest_m": metres(f.gap_longest),
            "overlap_total_m": metres(f.overlap_total),
            "trees": f.trees,
            "trees_lost": f.trees_lost,
            "uprights": f.uprights,
            "buds": f.buds,
            "stubs": f.stubs,
            "upright_spacing_mean_m": metres(f.upright_spacing_mean),
            "upright_spacing_cv": rounded(f.upright_spacing_cv, 1e6),
            "upright_length_mean_m": metres(f.upright_length_mean),
            "uprights_per_tree": rounded(f.uprights_per_tree, 1e6),
            "wood_age_max": f.wood_age_max,
    })
}

fn finding_json(finding: &Finding, words: &Words) -> Value {
    let info = finding.limit.info();
    let remedies: Vec<Value> = finding
        .remedies
        .iter()
        .map(|r| {
            let work: Vec<Value> = r.work.iter().map(work_value).collect();
            let mut out = json!({"words": words.remedy(r), "work": work});
            if let Some(height) = r.wall_height {
                out["wall_height_mm"] = json!(height);
            }
            out
        })
        .collect();
    json!({
        "rule": finding.rule,
        "severity": finding.severity,
        "x_m": metres(finding.x),
        "z_m": metres(finding.z),
        "width_m": metres(finding.width),
        "subjects": finding.subjects,
        "measured": rounded(finding.measured, 1e6),
        "allowed": rounded(finding.allowed, 1e6),
        "unit": info.unit,
        "limit": info.key,
        "status": info.status,
        "source": source(info, words),
        "words": words.finding(finding),
        "remedies": remedies,
    })
}

/// Whose rule a limit is.
fn source(info: &LimitInfo, words: &Words) -> String {
    let status = match info.status {
        LimitStatus::Published => None,
        LimitStatus::Derived => Some("command-derived"),
        LimitStatus::CommonPractice => Some("command-practice"),
        LimitStatus::FromMemory => Some("command-memory"),
        LimitStatus::Assumed => Some("command-assumed"),
    };
    match (status, info.source) {
        (Some(status), Some(source)) => words.text(
            "limit-source",
            &[("status", Arg::key(status)), ("source", Arg::key(source))],
        ),
        (said, source) => said
            .or(source)
            .map_or(String::new(), |key| words.plain(key)),
    }
}

fn severity_word(severity: Severity, words: &Words) -> String {
    words.plain(match severity {
        Severity::Now => "command-now",
        Severity::Soon => "command-soon",
        Severity::Note => "command-note",
    })
}

fn row_words(row: &Checked<'_>, words: &Words, out: &mut String) {
    let f = &row.figures;
    let said = words.text(
        "command-row",
        &[
            ("file", Arg::Text(clean(&row.file))),
            ("name", Arg::Text(clean(&row.plan.name))),
            ("leaf", Arg::Count(row.leaf.into())),
            ("trees", Arg::Count(f.trees as i64)),
            ("uprights", Arg::Count(f.uprights as i64)),
            ("filled", Arg::Number(f.cordon_fill_share * 100.0, 1)),
            ("bare", Arg::Length(f.gap_total)),
        ],
    );
    // Writing to a string has nothing to fail at.
    let _ = writeln!(out, "{said}");
    let findings: Vec<&Finding> = row.findings.iter().collect();
    // What is many places is told as a whole first; the places follow.
    for matter in &row.matters {
        let said = words.matter(matter, &findings);
        let reason = matter.left.and_then(|n| row.plan.left.get(n));
        let severity = match reason {
            None => severity_word(matter.severity, words),
            Some(_) => words.plain("command-left"),
        };
        let _ = writeln!(out, "  {severity:<4} {said}");
        if let Some(left) = reason {
            let _ = writeln!(out, "       {}", clean(&left.reason));
        }
    }
    let count = Arg::Count(findings.len() as i64);
    if !findings.is_empty() {
        let _ = writeln!(out, "  {}", words.text("command-each", &[("count", count)]));
    }
    for finding in &row.findings {
        let severity = severity_word(finding.severity, words);
        let _ = writeln!(
            out,
            "  {severity:<4} {:>9}  {}",
            words.length(finding.x),
            words.finding(finding)
        );
        for remedy in finding.remedies.iter().take(1) {
            let mend = Arg::Text(words.remedy(remedy));
            let mend = words.text("command-mend", &[("remedy", mend)]);
            let _ = writeln!(out, "                   {mend}");
        }
    }
}
