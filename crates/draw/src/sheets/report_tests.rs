//! A report holds all that is told of a row, in every language and on every paper, and nothing of it is cut.

use super::super::tests::{check_within, on_paper, plain};
use super::*;
use crate::paper::MARGIN;
use cordonry::file::read_plan;
use cordonry::plan::Mark;
use cordonry::row::Phase;
use cordonry::units::{LengthStyle, Mm};
use cordonry_words::Language;
use std::fs;
use std::path::Path;

fn examples() -> Vec<(String, Plan)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let mut paths: Vec<_> = fs::read_dir(folder)
        .expect("the examples")
        .map(|e| e.expect("an entry").path())
        .filter(|p| p.extension().is_some_and(|e| e == "json"))
        .collect();
    paths.sort();
    let read = |path: &std::path::PathBuf| {
        let bytes = fs::read(path).expect("an example");
        (
            path.display().to_string(),
            read_plan(&bytes).expect("a plan"),
        )
    };
    paths.iter().map(read).collect()
}

fn words(language: &str, style: LengthStyle) -> Words {
    let language = Language::of(language).expect("a language");
    Words::new(language, style).made_strict()
}

/// All that is told on the pages but for their heads and feet, without spaces: a line may break anywhere.
fn told(pages: &[String]) -> String {
    let mut out = String::new();
    for (n, page) in pages.iter().enumerate() {
        for (tag, _, y, content) in on_paper(page) {
            let of_head = n > 0 && y < MARGIN;
            if tag.contains("class=\"crew-") && !of_head {
                out += &plain(&content);
            }
        }
    }
    squeezed(&out)
}

fn squeezed(text: &str) -> String {
    text.split_whitespace().collect()
}

fn check(name: &str, plan: &Plan, leaf: u8) {
    let report = Report::of(plan, 0, leaf).expect("its own scheme");
    let changes = Changes::of(plan, 0, leaf).expect("its own scheme");
    let findings: Vec<&Finding> = report.findings.iter().collect();
    for language in ["en", "es"] {
        for paper in Paper::ALL {
            let words = words(language, LengthStyle::Metric);
            let client = ClientReport {
                plan,
                scheme: 0,
                report: &report,
                changes: &changes,
                gain: None,
                but: &[],
                filled: ["North 4 <&>", "", "A. Consultant"],
                words: &words,
            };
            let pages = client.sheets(paper);
            check_within(&pages, paper);
            let all = told(&pages);
            let holds = |text: &str| {
                assert!(
                    all.contains(&squeezed(text)),
                    "{name} leaf {leaf}, {language}, {paper:?}: {text}"
                );
            };
            holds("North 4 <&>");
            holds(BLANK);
            for matter in &report.matters {
                let (found, order) = (
                    words.found_matter(matter, &findings),
                    words.matter(matter, &findings),
                );
                holds(&found);
                // What was found is no order.
                assert!(
                    found == order || !all.contains(&squeezed(&order)),
                    "{order}"
                );
                if let Some(left) = matter.left.and_then(|n| plan.left.get(n)) {
                    holds(&left.reason);
                }
            }
            for handed in Handed::all(plan, &report.season, &words) {
                holds(&handed.name());
                holds(&handed.takes());
                holds(&client.when(handed.pass.moment));
                for key in handed.pass.cautions() {
                    holds(&caution(key, &words));
                }
            }
            for note in super::super::lists::noted(&report.found.row, &words) {
                holds(&note);
            }
            for mark in &plan.marks {
                holds(&mark_line(mark, &report.found.row, &words));
            }
            for own in &changes.trees {
                let (name, lines) = changes_on(&changes, own, &words);
                assert_eq!(lines.len(), own.work.len());
                holds(&name);
                lines.iter().for_each(|line| holds(line));
            }
            holds(&words.plain("report-defers"));
            assert_eq!(pages, client.sheets(paper));
        }
    }
}

#[test]
fn every_matter_pass_mark_and_change_of_every_example_is_told() {
    for (name, plan) in examples() {
        for leaf in plan.found.leaf..plan.found.leaf + 2 {
            check(&name, &plan, leaf);
        }
    }
}

#[test]
fn marks_a_matter_that_is_left_and_a_long_note_are_told_whole() {
    let (name, mut plan) = examples().into_iter().nth(2).expect("some examples");
    plan.marks = (0..60)
        .map(|i| {
            Mark::note(
                Mm(i * 90),
                Mm(900),
                format!("mark {i} <&> {}", "word ".repeat(i as usize)),
            )
        })
        .collect();
    plan.note = "A note that is long. ".repeat(40);
    plan.name = "A name that never ends ".repeat(130);
    let mut row = (*plan.found).clone();
    std::sync::Arc::make_mut(&mut row.trees[1]).note = "very <strong>".into();
    plan.found = row.into();
    let leaf = plan.found.leaf;
    let report = Report::of(&plan, 0, leaf).expect("its own scheme");
    let findings: Vec<&Finding> = report.findings.iter().collect();
    let left = report.matters[0].left(&findings, leaf, "next winter, once <it> is dry".into());
    let plan = plan.with_left(&left).expect("a reason");
    let report = Report::of(&plan, 0, leaf).expect("its own scheme");
    assert_eq!(
        report.matters.iter().filter(|m| m.left.is_some()).count(),
        1
    );
    check(&name, &plan, leaf);
}

#[test]
fn what_is_not_there_is_said() {
    let (_, mut plan) = examples().swap_remove(0);
    let leaf = plan.found.leaf;
    plan = Report::of(&plan, 0, leaf).expect("its own scheme").without;
    plan.marks.clear();
    let mut row = (*plan.found).clone();
    row.trees.clear();
    plan.found = row.into();
    for language in ["en", "es"] {
        let words = words(language, LengthStyle::FeetInches);
        let report = Report::of(&plan, 0, leaf).expect("its own scheme");
        let changes = Changes::of(&plan, 0, leaf).expect("its own scheme");
        let client = ClientReport {
            plan: &plan,
            scheme: 0,
            report: &report,
            changes: &changes,
            gain: None,
            but: &[],
            filled: ["", "", ""],
            words: &words,
        };
        let pages = client.sheets(Paper::Letter);
        check_within(&pages, Paper::Letter);
        let all = told(&pages);
        let none = [("leaf", Arg::Count(leaf.into()))];
        assert!(all.contains(&squeezed(&words.text("report-none", &none))));
        for key in ["report-marks-none", "report-left-none"] {
            assert!(all.contains(&squeezed(&words.plain(key))), "{key}");
        }
    }
}

/// A space that waits for a notched bud is seen to, though it is as wide as it was.
#[test]
fn what_waits_for_the_work_is_told_as_under_way() {
    let mut under_way = 0;
    let gap = |(name, _): &(String, Plan)| name.ends_with("/third-leaf.json");
    for (name, plan) in examples().into_iter().filter(gap) {
        let moment = plan.start();
        let draft = cordonry::advise::draft(&plan, 0, moment).expect("a draft");
        let taken = draft.plan;
        let report = Report::of(&taken, 0, moment.leaf).expect("its own scheme");
        for (matter, outcome) in report.matters.iter().zip(&report.outcomes) {
            if let Outcome::UnderWay(_) = outcome {
                under_way += 1;
                assert_ne!(matter.severity, cordonry::check::Severity::Note, "{name}");
            }
        }
    }
    assert!(under_way > 0);
}

#[test]
fn only_what_the_work_does_is_told_as_settled() {
    let mut settled = 0;
    for (name, plan) in examples() {
        let leaf = plan.found.leaf;
        let report = Report::of(&plan, 0, leaf).expect("its own scheme");
        let is = |o: &Outcome| !matches!(o, Outcome::Open);
        settled += report.outcomes.iter().filter(|o| is(o)).count();
        let bare = Report::of(&report.without, 0, leaf).expect("its own scheme");
        assert!(bare.season.passes.is_empty(), "{name}");
        assert!(!bare.outcomes.iter().any(is), "{name}");
        assert_eq!(bare.advised.row, bare.found.row);
        assert_eq!(report.found.phase, Phase::Before);
    }
    assert!(settled > 2, "{settled}");
}

#[test]
fn of_a_pass_that_is_not_done_only_what_differs_is_told() {
    let words = words("en", LengthStyle::Metric);
    let all = Brought {
        crop: 48.3,
        fill: 1.0,
        oldest: 5,
        ..Brought::default()
    };
    let same = Brought { crop: 48.31, ..all };
    let parts = ["t/ha", "cordon filled", "seasons"];
    let tells = |but: &Brought| {
        let said = lacks(but, &all, &words);
        parts.map(|part| said.contains(part))
    };
    assert!(lacks(&same, &all, &words).contains(&words.plain("report-but-same")));
    assert_eq!(tells(&same), [false; 3]);
    assert_eq!(tells(&Brought { crop: 47.0, ..all }), [true, false, false]);
    let less = Brought {
        fill: 0.9,
        oldest: 6,
        ..all
    };
    assert_eq!(tells(&less), [false, true, true]);
}
