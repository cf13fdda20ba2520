//! Every language, put together: what is found, proposed, drawn and handed out of the examples is worded whole in each.

use cordonry::check::{Context, Finding, matters, survey};
use cordonry::file::csv::{Options, read};
use cordonry::file::read_plan;
use cordonry::plan::{Moment, Plan, Window, replay};
use cordonry::units::LengthStyle;
use cordonry_draw::{DocumentOptions, document_with};
use cordonry_words::{Language, Words};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

fn plans() -> BTreeMap<String, Plan> {
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples");
    let mut out = BTreeMap::new();
    for folder in [home.clone(), home.join("lessons")] {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let bytes = || fs::read(&path).unwrap();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            match path.extension().and_then(|e| e.to_str()) {
                Some("json") => out.insert(name, read_plan(&bytes()).unwrap()),
                Some("csv") => {
                    let measured = read(&bytes(), &Options::default()).unwrap();
                    out.insert(name, measured.plan("measured"))
                }
                _ => None,
            };
        }
    }
    assert!(out.len() > 20, "{} plans", out.len());
    out
}

/// All that is said of a moment of a plan, as it is worded.
fn said(plan: &Plan, moment: Moment, all: &[Words]) -> Vec<BTreeSet<String>> {
    let at = replay(plan, 0, moment).unwrap();
    let seen = survey(&Context::of(&at), None);
    let findings: Vec<&Finding> = seen.findings.iter().collect();
    let found = matters(&at.row, &seen.cover, &at.targets, &findings, &plan.left);
    let work = plan.work_at(0, moment).unwrap();
    let worded = |words: &Words| {
        let mut out = BTreeSet::new();
        out.extend(findings.iter().map(|f| words.finding(f)));
        let remedies = findings.iter().flat_map(|f| &f.remedies);
        out.extend(remedies.map(|r| words.remedy(r)));
        out.extend(found.iter().map(|m| words.matter(m, &findings)));
        out.extend(work.iter().map(|w| words.work(w)));
        out
    };
    all.iter().map(worded).collect()
}

/// What no sentence holds, whatever its language.
const BROKEN: [&str; 9] = ["{", "}", "  ", " ,", " .", " ;", " :", "..", ".;"];

#[test]
fn what_is_said_of_the_examples_is_whole_in_every_language() {
    let of = |code: &str, style| {
        let language = Language::of(code).unwrap();
        Words::new(language, style).made_strict()
    };
    let codes: Vec<&str> = Language::all().map(|l| l.code).collect();
    assert_eq!(codes[0], Language::WHOLE);
    let mut told = 0;
    for style in [LengthStyle::Metric, LengthStyle::FeetInches] {
        let words: Vec<Words> = codes.iter().map(|code| of(code, style)).collect();
        for (name, plan) in plans() {
            for leaf in plan.found.leaf..plan.found.leaf + 2 {
                for window in [Window::Dormant, Window::BudSwell] {
                    let said = said(&plan, Moment { leaf, window }, &words);
                    for (code, texts) in codes.iter().zip(&said) {
                        told += texts.len();
                        for text in texts {
                            let broken = BROKEN.iter().find(|b| text.contains(*b));
                            assert_eq!(broken, None, "{code} of {name}: {text}");
                        }
                    }
                    for (code, texts) in codes.iter().zip(&said).skip(1) {
                        let alike: Vec<_> = texts.intersection(&said[0]).collect();
                        assert_eq!(alike, Vec::<&String>::new(), "{code} of {name}");
                    }
                }
            }
        }
    }
    assert!(told > 4000, "{told} texts");
}

#[test]
fn the_examples_are_drawn_in_every_language() {
    for language in Language::all() {
        let words = Words::new(*language, LengthStyle::Metric).made_strict();
        for (name, plan) in plans() {
            let at = replay(&plan, 0, plan.start()).unwrap();
            let drawn = document_with(
                &plan,
                &at.row,
                &DocumentOptions {
                    words: &words,
                    foliage: false,
                    work: &[],
                    time: None,
                    field: None,
                },
            );
            let cordon = words.plain("draw-cordon");
            assert!(drawn.contains(&cordon), "{}: {name}", language.code);
        }
    }
}
