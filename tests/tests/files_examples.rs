//! The examples: made anew they are the same, each is read, says that it is invented, and shows what it is there to show.

use cordonry::check::{Context, Finding, Severity, check};
use cordonry::file::csv::{self, Options, Style};
use cordonry::file::{read_plan, write_plan};
use cordonry::forecast::Forecast;
use cordonry::plan::{Moment, Plan, Window, replay};
use cordonry::work::{Work, apply};
use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples")
}

fn plans() -> BTreeMap<String, Plan> {
    let mut out = BTreeMap::new();
    for entry in fs::read_dir(folder()).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "json") {
            let name = path.file_name().unwrap().to_str().unwrap().to_string();
            let plan = read_plan(&fs::read(&path).unwrap());
            out.insert(
                name,
                plan.unwrap_or_else(|e| panic!("{}: {e}", path.display())),
            );
        }
    }
    out
}

/// What is found in the found row with the dormant work of its leaf done.
fn findings(plan: &Plan) -> Vec<Finding> {
    let at = replay(plan, 0, plan.start()).unwrap();
    check(&Context::of(&at))
}

#[test]
fn made_anew_they_are_the_same() {
    let all = cordonry_tests::examples::all().into_iter();
    for (name, text) in all.chain(cordonry_tests::examples::told()) {
        let kept = fs::read_to_string(folder().join(&name)).unwrap_or_default();
        assert!(
            kept == text,
            "examples/{name} is not what `cargo run -p cordonry-tests --bin make-examples` makes"
        );
    }
}

#[test]
fn every_plan_is_sound_and_says_that_it_is_invented() {
    let plans = plans();
    assert!(plans.len() >= 8);
    for (name, plan) in &plans {
        let text = fs::read_to_string(folder().join(name)).unwrap();
        assert_eq!(write_plan(plan), text, "{name}");
        assert!(plan.note.contains("Invented"), "{name}");
        let last = Moment {
            leaf: plan.found.leaf,
            window: Window::AfterHarvest,
        };
        assert_eq!(replay(plan, 0, last).unwrap().void, vec![], "{name}");
        let twice: BTreeSet<_> = plan.found.trees.iter().map(|t| t.id).collect();
        assert_eq!(twice.len(), plan.found.trees.len());
    }
    assert_eq!(plans["third-leaf.json"].found.leaf, 3);
    assert!(
        plans["third-leaf.json"].schemes[0]
            .schedule
            .moments()
            .iter()
            .any(|m| m.leaf == 3)
    );
}

/// The coming leaf holds the work that is planned in it and no other; from the next one on the usual work stands.
#[test]
fn each_begins_as_plans_do() {
    for (name, plan) in plans() {
        let scheme = &plan.schemes[0];
        let coming = plan.found.leaf;
        for leaf in coming..=coming + 5 {
            for window in Window::ALL {
                let moment = Moment { leaf, window };
                assert_eq!(scheme.stands(moment), leaf > coming, "{name}: {moment:?}");
            }
        }
        let leaves = Forecast::default().of(&plan, 0, coming + 5).unwrap();
        for leaf in &leaves[1..] {
            assert!(
                !leaf.work.is_empty(),
                "{name}: no work in leaf {}",
                leaf.leaf
            );
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Expected {
    /// Every finding of these rules: the trees that it is about, from left to right.
    exactly: BTreeMap<String, Vec<Vec<u32>>>,
    /// Rules of which there is at least one finding.
    some: Vec<String>,
    gravest: String,
}

#[test]
fn every_plan_shows_what_it_is_there_to_show() {
    let expected: BTreeMap<String, Expected> =
        serde_json::from_str(include_str!("../data/findings.json")).unwrap();
    let plans = plans();
    assert!(plans.keys().eq(expected.keys()));
    for (name, expected) in &expected {
        let found = findings(&plans[name]);
        for (rule, trees) in &expected.exactly {
            let mut alike: Vec<&Finding> = found.iter().filter(|f| f.rule == rule).collect();
            alike.sort_by(|a, b| a.x.total_cmp(&b.x));
            let about = |f: &&Finding| -> Vec<u32> {
                let trees: BTreeSet<u32> = f.subjects.iter().map(|p| p.tree.0).collect();
                trees.into_iter().collect()
            };
            let got: Vec<Vec<u32>> = alike.iter().map(about).collect();
            assert_eq!(got, *trees, "{name}: {rule}");
        }
        for rule in &expected.some {
            assert!(found.iter().any(|f| f.rule == rule), "{name}: no {rule}");
        }
        let gravest = match found.iter().map(|f| f.severity).max() {
            Some(Severity::Now) => "now",
            Some(Severity::Soon) => "soon",
            _ => "note",
        };
        assert_eq!(gravest, expected.gravest, "{name}");
    }
}

#[test]
fn laying_the_end_shoot_of_the_fifth_tree_closes_the_gap() {
    let plan = &plans()["third-leaf.json"];
    let tree = plan.found.trees.iter().find(|t| t.id.0 == 5).unwrap();
    let end = tree.shoots[0].length();
    let tip = tree.shoots.iter().find(|s| s.at == end).unwrap();
    let lay = Work::Lay {
        tree: tree.id,
        shoot: tip.id,
        toward: cordonry::row::Toward::Right,
        rise_deg: Default::default(),
    };
    let after = apply(
        &plan.found,
        plan.start(),
        &plan.terms(&plan.found.trellis),
        &lay,
    )
    .unwrap();
    let gaps = cordonry::cover::cover(&after, &plan.targets).gaps;
    let limit = plan.targets.get(cordonry::row::Limit::GapMax);
    assert!(gaps.iter().all(|g| g.span.length() <= limit), "{gaps:?}");
}

#[test]
fn the_measured_row_is_taken_but_for_its_slips() {
    let bytes = fs::read(folder().join("measured-40.csv")).unwrap();
    let text = String::from_utf8(bytes.clone()).unwrap();
    assert!(text.starts_with("# Invented"));
    let measured = csv::read(&bytes, &Options::default()).unwrap();
    assert_eq!(measured.row.trees.len(), 40);
    assert_eq!(measured.row.leaf, 4);
    let lost: Vec<u32> = measured
        .row
        .trees
        .iter()
        .filter(|t| t.is_lost())
        .map(|t| t.id.0)
        .collect();
    assert_eq!(lost, [17]);
    let keys: Vec<&str> = measured.bad.iter().map(|b| b.why.key).collect();
    let expected = [
        "refusal-csv-unread",
        "refusal-csv-place",
        "refusal-csv-length",
        "refusal-csv-empty",
        "refusal-csv-empty",
        "refusal-csv-word",
    ];
    assert_eq!(keys, expected);
    for bad in &measured.bad {
        assert_eq!(text.lines().nth(bad.line - 1), Some(&*bad.text));
    }
    let lines = text.lines().count();
    assert_eq!(measured.taken, lines - 2 - measured.bad.len());
    let out = csv::write(&measured.row, "", &measured.site, None, Style::default());
    let again = csv::read(out.as_bytes(), &Options::default()).unwrap();
    assert_eq!(again.row, measured.row);
    assert_eq!(again.bad, vec![]);
}
