//! The examples: rows that nobody planted, made by rule and a seed so that they are as irregular as rows are and the
//! same whenever they are made. Lengths in millimetres.

mod build;
pub mod lessons;
mod measured;
mod plans;
mod spanish;

use cordonry::file::write_plan;
use cordonry::plan::Plan;
use std::collections::BTreeMap;

/// What each says of itself.
const INVENTED: &str = "Invented demonstration row; no such row was planted.";

/// Every example by file name.
pub fn all() -> Vec<(String, String)> {
    let plans = plans::all().into_iter();
    let plans = plans.map(|(name, plan)| (name.to_string(), plan));
    let mut out: Vec<(String, String)> = plans
        .chain(lessons::all())
        .map(|(name, plan)| (name, write_plan(&plan)))
        .collect();
    out.push(("measured-40.csv".into(), measured::table()));
    out
}

/// What the examples say in other languages, by file name: a line a text, as it stands in their files and as it is told.
pub fn told() -> Vec<(String, String)> {
    let mut texts = BTreeMap::new();
    let mut put = |english: &str, told: String| {
        texts.extend((!english.is_empty()).then(|| (english.to_string(), told)));
    };
    let about = |plan: &Plan| {
        let about = plan.note.strip_prefix(INVENTED).expect("it is invented");
        format!("{} {}", spanish::say(INVENTED), spanish::say(about.trim()))
    };
    let rows = plans::all().into_iter().map(|(_, plan)| {
        let note = about(&plan);
        (plan, note)
    });
    let lessons = lessons::ALL
        .iter()
        .map(|l| (lessons::plan(l, 1), lessons::note(l, spanish::say)));
    for (plan, note) in rows.chain(lessons) {
        put(&plan.note, note);
        let schemes = plan.schemes.iter().map(|s| &s.name);
        let trees = plan.found.trees.iter().map(|t| &t.note);
        let marks = plan.marks.iter().map(|m| &m.text);
        for text in [&plan.name]
            .into_iter()
            .chain(schemes)
            .chain(trees)
            .chain(marks)
        {
            if !text.is_empty() {
                put(text, spanish::say(text).into());
            }
        }
    }
    let lines = texts
        .iter()
        .map(|(english, told)| format!("{english}\t{told}\n"));
    vec![("told/es.tsv".into(), lines.collect())]
}
