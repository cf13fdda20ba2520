//! `cordonry crew`: a leaf's work as it is handed out, pass by pass.

use crate::Status;
use crate::args::Crew as Asked;
use crate::files;
use crate::judged::{scheme_named, window};
use crate::out::{Row, clean, rounded, tell};
use crate::pages;
use anyhow::{Result, anyhow};
use cordonry::crew::{Job, Pass, Rate, Season, season};
use cordonry::file::work_value;
use cordonry::plan::{Correction, Plan};
use cordonry::row::TreeId;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_draw::{Handed, Paper, caution, marking_sheets, pass_sheets, work_line};
use cordonry_words::Words;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// `spoken` are the languages: all is told in the first, and written in each.
pub fn run(ask: &Asked, spoken: &[Words]) -> Status {
    let words = &spoken[0];
    if ask.output_file.is_some() && (ask.paths.len() > 1 || ask.paths[0].is_dir()) {
        tell(&words.plain("command-one-row"));
        return Status::Failed;
    }
    files::print_rows(&ask.paths, &ask.output, words, |path| {
        let plan = asked(files::plan(path, words)?, ask, words)?;
        let scheme = scheme_named(&plan, ask.scheme.as_deref(), words)?;
        let leaf = ask.leaf.unwrap_or(plan.found.leaf);
        let season = season(&plan, scheme, leaf).map_err(|why| files::refused(&why, words))?;
        let mut row = json_of(path, &plan, scheme, &season, words);
        let mut told = people(path, &plan, scheme, &season, words);
        if let Some(output) = &ask.output_file {
            let mut written = Vec::new();
            for own in spoken {
                let output = match spoken.len() {
                    1 => output.clone(),
                    _ => in_language(output, own.language().code),
                };
                let paper = ask.paper.into();
                written.extend(write(&output, path, &plan, &season, paper, own)?);
            }
            for file in &written {
                let file = [("file", files::shown(file))];
                let _ = writeln!(told, "  {}", words.text("command-written", &file));
            }
            row["written"] = written.iter().map(|p| p.display().to_string()).collect();
        }
        Ok(Row { row, people: told })
    })
}

/// What was said as a name and its number.
pub fn pair(text: &str, words: &Words) -> Result<(String, f64)> {
    let pair = text.split_once('=');
    let pair = pair.and_then(|(name, n)| Some((name.trim().into(), n.trim().parse().ok()?)));
    let wrong = || words.text("command-name-value", &[("text", Arg::short(text))]);
    pair.ok_or_else(|| anyhow!(wrong()))
}

/// The plan with what is asked about rates, people and diseased trees, beside what stands in it.
fn asked(plan: Plan, ask: &Asked, words: &Words) -> Result<Plan> {
    let mut out = (*plan.hands).clone();
    for rate in &ask.rates {
        let (name, seconds) = pair(rate, words)?;
        let with = out.rates.with(&name, seconds);
        out.rates = with.map_err(|why| files::refused(&why, words))?;
    }
    for people in &ask.people {
        let (name, count) = pair(people, words)?;
        let job = Job::ALL.into_iter().find(|j| j.name() == name);
        let names = Job::ALL.map(Job::name).join(", ");
        let args = [("name", Arg::short(people)), ("names", Arg::Text(names))];
        let set = job.map(|job| out.set_people(job, Some(count)).is_ok());
        if set != Some(true) {
            return Err(anyhow!(words.text("command-no-job", &args)));
        }
    }
    let hands = Arc::new(out);
    let marked = |plan: Plan, id: &u32| {
        let (tree, diseased) = (TreeId(*id), true);
        plan.corrected(&Correction::Diseased { tree, diseased })
    };
    let plan = ask.diseased.iter().try_fold(Plan { hands, ..plan }, marked);
    plan.map_err(|why| files::refused(&why, words))
}

/// `crew.svg` with a language's code: `crew-es.svg`.
fn in_language(path: &Path, code: &str) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!("{stem}-{code}.{ending}"))
}

/// Writes the sheets of all passes, or the table of all pieces, by the file's ending; the files that there are then.
fn write(
    output: &Path,
    from: &Path,
    plan: &Plan,
    season: &Season,
    paper: Paper,
    words: &Words,
) -> Result<Vec<PathBuf>> {
    if output.extension().is_some_and(|e| e == "csv") {
        files::write(output, from, table(season, words).as_bytes(), words)?;
        return Ok(vec![output.to_path_buf()]);
    }
    let as_pdf = pages::is_pdf(output, "command-sheets", words)?;
    let all = Handed::all(plan, season, words);
    let sheets = all.flat_map(|handed| {
        let marking = marking_sheets(&handed, paper).into_iter();
        marking.chain(pass_sheets(&handed, paper))
    });
    let sheets: Vec<String> = sheets.collect();
    pages::write(output, from, (&plan.name, &sheets), as_pdf, words)
}

/// All pieces, one a line.
fn table(season: &Season, words: &Words) -> String {
    let mut out = String::from("pass,job,window,diseased,tree,bay,place in bay,kind,piece\n");
    for (n, pass) in season.passes.iter().enumerate() {
        for (stop, work) in pass
            .stops
            .iter()
            .flat_map(|s| s.work.iter().map(move |w| (s, w)))
        {
            let posed = stop.tree.and_then(|t| pass.row.of_tree(t));
            let bay = posed.and_then(|p| pass.row.bay(p.tree()));
            let number = |n: Option<usize>| n.map_or(String::new(), |n| n.to_string());
            let tree = stop.tree.map_or(String::new(), |t| t.to_string());
            let piece = work_line(work, &pass.row, words).replace('"', "\"\"");
            let _ = writeln!(
                out,
                "{},{},{},{},{tree},{},{},{},\"{piece}\"",
                n + 1,
                pass.job.name(),
                window(pass.moment.window),
                if pass.diseased { "yes" } else { "no" },
                number(bay.map(|b| b.number)),
                number(bay.map(|b| b.place)),
                work.kind(),
            );
        }
    }
    out
}

fn json_of(path: &Path, plan: &Plan, scheme: usize, season: &Season, words: &Words) -> Value {
    let worded = |work: &Work, pass: &Pass| {
        let mut out = work_value(work);
        out["words"] = work_line(work, &pass.row, words).into();
        out
    };
    let passes = season.passes.iter().map(|pass| {
        let stops = || pass.stops.iter();
        let trees = stops().filter_map(|stop| {
            let tree = stop.tree?;
            let mut out = json!({
                "tree": tree,
                "count": stop.work.len(),
                "x_m": rounded(stop.x / 1000.0, 1e4),
                "work": stop.work.iter().map(|w| worded(w, pass)).collect::<Vec<_>>(),
            });
            let posed = pass.row.of_tree(tree);
            if let Some(bay) = posed.and_then(|p| pass.row.bay(p.tree())) {
                out["bay"] = bay.number.into();
                out["place"] = bay.place.into();
            }
            Some(out)
        });
        let trellis: Vec<Value> = stops()
            .filter(|stop| stop.tree.is_none())
            .flat_map(|stop| stop.work.iter().map(|w| worded(w, pass)))
            .collect();
        let cautions = pass.cautions();
        json!({
            "pass": pass.job.name(),
            "window": window(pass.moment.window),
            "standing": pass.stands,
            "diseased": pass.diseased,
            "count": pass.count(),
            "people": pass.people,
            "minutes": rounded(pass.minutes, 10.0),
            "minutes_each": rounded(pass.minutes_each(), 10.0),
            "tool": words.text("crew-tool", &[("job", Arg::Text(pass.job.name().into()))]),
            "ties": pass.ties,
            "sleeves": pass.sleeves,
            "cautions": cautions.iter().map(|c| caution(c, words)).collect::<Vec<_>>(),
            "trees": trees.collect::<Vec<_>>(),
            "trellis": trellis,
        })
    });
    let rates = Rate::ALL.map(|r| (r.info().0.to_string(), json!(plan.hands.rates.get(r))));
    let void = season.void.iter().map(|(moment, work)| {
        let mut out = work_value(work);
        out["window"] = window(moment.window).into();
        out
    });
    json!({
        "file": path.display().to_string(),
        "name": plan.name,
        "scheme": plan.schemes[scheme].name,
        "leaf": season.leaf,
        "usual": season.usual,
        "passes": passes.collect::<Vec<_>>(),
        "void": void.collect::<Vec<_>>(),
        "rates": serde_json::Map::from_iter(rates),
    })
}

fn people(path: &Path, plan: &Plan, scheme: usize, season: &Season, words: &Words) -> String {
    let count = |n: usize| Arg::Count(n as i64);
    let args = [
        ("file", Arg::Text(clean(&path.display().to_string()))),
        ("name", Arg::Text(clean(&plan.name))),
        ("scheme", Arg::Text(clean(&plan.schemes[scheme].name))),
        ("leaf", Arg::Count(season.leaf.into())),
        ("passes", count(season.passes.len())),
        ("pieces", count(season.count())),
        ("hours", Arg::Number(season.minutes() / 60.0, 1)),
    ];
    let mut out = words.text("command-crew", &args);
    out.push('\n');
    if season.usual {
        let leaf = [("leaf", Arg::Count(season.leaf.into()))];
        let _ = writeln!(out, "  {}", words.text("command-crew-usual", &leaf));
    }
    for (n, pass) in season.passes.iter().enumerate() {
        let name = Arg::Text(pass.job.name().into());
        let job = words.text("crew-job", &[("job", name.clone())]);
        let job = match pass.diseased {
            true => words.text("crew-job-diseased", &[("job", Arg::Text(job))]),
            false => job,
        };
        let args = [
            ("number", count(n + 1)),
            ("job", Arg::Text(job)),
            ("window", Arg::Text(window(pass.moment.window).into())),
            ("pieces", count(pass.count())),
            ("trees", count(pass.trees())),
            ("people", count(pass.people)),
            ("minutes", Arg::Number(pass.minutes_each().ceil(), 0)),
            ("stands", Arg::yes(pass.stands)),
        ];
        let _ = writeln!(out, "  {}", words.text("command-crew-pass", &args));
        let tools = words.text("crew-tool", &[("job", name)]);
        let args = [
            ("tools", Arg::Text(tools)),
            ("ties", count(pass.ties)),
            ("sleeves", count(pass.sleeves)),
        ];
        let _ = writeln!(out, "     {}", words.text("command-crew-tools", &args));
        let trees = pass.stops.iter().filter_map(|s| {
            let args = [
                ("tree", Arg::Count(s.tree?.0.into())),
                ("count", count(s.work.len())),
            ];
            Some(words.text("command-crew-tree", &args))
        });
        let trees: Vec<String> = trees.collect();
        if !trees.is_empty() {
            let _ = writeln!(out, "     {}", trees.join(", "));
        }
        for c in pass.cautions() {
            let _ = writeln!(out, "     ! {}", caution(c, words));
        }
    }
    for (_, work) in &season.void {
        let work = [("work", Arg::Text(words.work(work)))];
        let _ = writeln!(out, "  {}", words.text("command-crew-void", &work));
    }
    out
}
