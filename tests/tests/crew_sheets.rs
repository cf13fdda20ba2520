//! The sheets of a pass: every piece is a box, and who has them alone knows what is cut.

use cordonry::crew::{Job, Pass, season};
use cordonry::file::read_plan;
use cordonry::plan::{Correction, Moment, Plan};
use cordonry::row::{GrowthUnit, Kind, Laterals, Role, Shoot, Toward, TreeId};
use cordonry::said::Arg;
use cordonry::units::{LengthStyle, Mm};
use cordonry::work::{Work, apply_to_tree};
use cordonry_draw::{Handed, Paper, marking_sheets, pass_sheets};
use cordonry_fixture::wall::{row, stem};
use cordonry_words::{Language, Words};
use std::fs;
use std::path::Path;
use std::sync::Arc;

fn words(language: &str) -> Words {
    Words::new(Language::of(language).unwrap(), LengthStyle::Metric)
}

fn example(name: &str) -> Plan {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples");
    read_plan(&fs::read(path.join(name)).unwrap()).unwrap()
}

fn handed<'a>(plan: &'a Plan, pass: &'a Pass, words: &'a Words) -> Handed<'a> {
    Handed {
        plan,
        pass,
        number: (1, 1),
        words,
    }
}

/// The texts of a page in their order, as a reader has them.
fn texts(page: &str) -> Vec<String> {
    let texts = page.split("<text").skip(1).filter_map(|t| {
        let content = t.split_once('>')?.1.split_once("</text>")?.0;
        Some(content.trim().replace("&amp;", "&").to_string())
    });
    texts.collect()
}

fn boxes(pages: &[String]) -> usize {
    pages
        .iter()
        .map(|p| p.matches("\"tick-box\"").count())
        .sum()
}

/// Forty trees 1.5 m apart with seven or eight uprights, every one of which has laterals: 300 pieces.
fn forty() -> Plan {
    let trees = (0..40).map(|i| {
        let foot = i * 1500;
        let count = if i % 2 == 0 { 8 } else { 7 };
        let places: Vec<f64> = (0..count)
            .map(|n| f64::from(foot) + 650.0 + f64::from(n) * 185.0)
            .collect();
        stem(i as u32 + 1, foot, 45.0, Toward::Right, 2200.0).uprights(&places)
    });
    let mut row = row(500, 60_500, trees.collect());
    row.leaf = 3;
    row.trellis.posts = (0..=9)
        .map(|n| cordonry::units::Mm(n * 7000 - 100))
        .collect();
    for tree in &mut row.trees {
        for shoot in Arc::make_mut(tree).shoots.iter_mut().skip(1) {
            shoot.units = vec![GrowthUnit::whole(1, 700.0), GrowthUnit::whole(2, 500.0)];
            shoot.diameter = 14.0;
            shoot.laterals = Laterals {
                count: 3,
                total: 600.0,
            };
        }
    }
    let plan = Plan::new("Forty", row);
    let work = plan.found.trees.iter().flat_map(|t| {
        let uprights = t.shoots.iter().skip(1);
        uprights.map(|s| Work::TakeLaterals {
            tree: t.id,
            shoot: s.id,
        })
    });
    let work = work.collect();
    plan.with_works(0, Moment::dormant(3), work).unwrap()
}

#[test]
fn three_hundred_pieces_are_three_hundred_boxes_on_six_pages_at_most() {
    let plan = forty();
    let season = season(&plan, 0, 3).unwrap();
    let pass = &season.passes[0];
    assert_eq!((pass.job, pass.count()), (Job::Laterals, 300));
    for language in ["en", "es"] {
        for paper in Paper::ALL {
            let words = words(language);
            let pages = pass_sheets(&handed(&plan, pass, &words), paper);
            assert_eq!(boxes(&pages), 300, "{language} {paper:?}");
            assert!(
                pages.len() <= 6,
                "{language} {paper:?}: {} pages",
                pages.len()
            );
        }
    }
}

#[test]
fn every_piece_of_every_example_is_a_box_in_both_languages() {
    for name in [
        "third-leaf.json",
        "missed-bud-removal.json",
        "two-cordons.json",
        "overdue-renewal.json",
    ] {
        let plan = example(name);
        for leaf in plan.found.leaf..plan.found.leaf + 2 {
            for pass in &season(&plan, 0, leaf).unwrap().passes {
                for language in ["en", "es"] {
                    let words = words(language);
                    let handed = handed(&plan, pass, &words);
                    let pages = pass_sheets(&handed, Paper::A4);
                    assert_eq!(
                        boxes(&pages),
                        pass.count(),
                        "{name} leaf {leaf} {:?}",
                        pass.job
                    );
                    let marked = marking_sheets(&handed, Paper::A4);
                    let paints = matches!(pass.job, Job::Stub | Job::CutBack | Job::TakeOff);
                    assert_eq!(boxes(&marked), if paints { pass.trees() } else { 0 });
                }
            }
        }
    }
}

/// Who reads the sheets alone – bay, place, number from the trunk – and counts on the row as the pass finds it comes to the very shoots.
#[test]
fn a_reader_with_the_sheet_alone_names_exactly_what_is_cut() {
    let mut read = 0;
    for name in [
        "third-leaf.json",
        "missed-bud-removal.json",
        "two-cordons.json",
        "overdue-renewal.json",
    ] {
        let plan = example(name);
        for leaf in plan.found.leaf..plan.found.leaf + 3 {
            let season = season(&plan, 0, leaf).unwrap();
            for pass in season.passes.iter().filter(|p| p.job == Job::Stub) {
                let words = words("en");
                let pages = pass_sheets(&handed(&plan, pass, &words), Paper::A4);
                let mut tree = None;
                let mut cut = Vec::new();
                let texts = pages.iter().flat_map(|p| texts(p));
                for text in texts.take_while(|t| !t.starts_with("Answer ")) {
                    if let Some(rest) = text
                        .split(" (tree ")
                        .nth(1)
                        .filter(|_| text.starts_with("Bay "))
                    {
                        tree = rest.split(' ').next().and_then(|n| n.parse::<u32>().ok());
                    } else if let Some(rest) = text.strip_prefix("Tree ") {
                        tree = rest.split(':').next().and_then(|n| n.parse().ok());
                    } else if let (Some(tree), Some(rest)) = (tree, text.strip_prefix("no. ")) {
                        let mut said = rest.split(" · ").next().unwrap().split(' ');
                        let number: usize = said.next().unwrap().parse().unwrap();
                        let side = said.next().map(String::from);
                        cut.push(by_count(pass, tree, number, side.as_deref()));
                    }
                }
                let mut expected: Vec<(u32, u64)> = pass
                    .work()
                    .map(|w| (w.tree().unwrap().0, w.subject().shoot.number()))
                    .collect();
                expected.sort_unstable();
                cut.sort_unstable();
                assert_eq!(cut, expected, "{name} leaf {leaf}");
                read += cut.len();
            }
        }
    }
    assert!(read >= 40, "{read}");
}

/// The shoot that one finds who counts uprights and stubs on a tree from its trunk on, by where they stand.
fn by_count(pass: &Pass, tree: u32, number: usize, side: Option<&str>) -> (u32, u64) {
    let posed = pass
        .row
        .posed()
        .iter()
        .find(|p| p.tree().id.0 == tree)
        .unwrap();
    let own = posed.tree();
    let foot = own.foot.f();
    let roles = own.roles();
    let mut there: Vec<(f64, u64)> = posed
        .places()
        .iter()
        .filter(|(i, _)| matches!(roles[*i], Role::Upright | Role::Stub))
        .map(|(i, place)| (place.x - foot, own.shoots[*i].id.number()))
        .filter(|(x, _)| match side {
            Some("left") => *x < 0.0,
            Some(_) => *x >= 0.0,
            None => true,
        })
        .collect();
    there.sort_by(|a, b| a.0.abs().total_cmp(&b.0.abs()));
    (tree, there[number - 1].1)
}

#[test]
fn the_bars_are_as_long_as_they_say() {
    let plan = example("third-leaf.json");
    let season = season(&plan, 0, 3).unwrap();
    let words = words("en");
    let pages = pass_sheets(&handed(&plan, &season.passes[0], &words), Paper::A4);
    // The paper is 297 mm wide, and so many units.
    let units: f64 = pages[0]
        .split("viewBox=\"0 0 ")
        .nth(1)
        .unwrap()
        .split(' ')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    let mm = 297.0 / units;
    for (class, length) in [("true-bar", 100.0), ("stick", 150.0)] {
        let drawn = |e: &&str| e.starts_with("path") && e.contains(class);
        let own = pages[0].split('<').find(drawn).unwrap();
        let data = own
            .split(" d=\"")
            .nth(1)
            .unwrap()
            .split('"')
            .next()
            .unwrap();
        // Its line along the paper is the one relative step that far to the right.
        let steps = data
            .split('l')
            .filter_map(|step| step.split(' ').next()?.parse::<f64>().ok());
        let longest = steps.fold(0.0, f64::max) * mm;
        assert!(
            (longest - length).abs() < 0.05,
            "{class}: {longest} mm, {own}"
        );
    }
    assert!(pages[0].contains("width=\"297mm\""));
}

/// Every tree is drawn whole: its wood, on both sides of the trunk, lies within its picture, and the picture within the margins.
#[test]
fn no_tree_is_cut_off_in_its_picture() {
    let mut drawn = 0;
    for name in [
        "two-cordons.json",
        "third-leaf.json",
        "missed-bud-removal.json",
    ] {
        let plan = example(name);
        let leaf = plan.found.leaf;
        for pass in &season(&plan, 0, leaf).unwrap().passes {
            let far = pass.row.posed().iter().map(|p| {
                let ends = p.courses().iter().flat_map(|c| [c.base.x, c.tip().x]);
                let foot = p.tree().foot.f();
                let (low, high) = ends.fold((foot, foot), |(a, b), x| (a.min(x), b.max(x)));
                (p.tree().id.0, low, high)
            });
            let far: Vec<(u32, f64, f64)> = far.collect();
            let words = words("en");
            for page in pass_sheets(&handed(&plan, pass, &words), Paper::Letter) {
                // Numbers stand where the tree is as it is found.
                let found = page.split("crew-picture\"").skip(1);
                for picture in found.filter(|p| p.contains("picture-number")) {
                    let numbers = |key: &str| -> Vec<f64> {
                        let own = picture.split(&format!(" {key}=\"")).nth(1).unwrap();
                        let own = own.split('"').next().unwrap();
                        own.split(' ').map(|n| n.parse().unwrap()).collect()
                    };
                    let view = numbers("viewBox");
                    let tree = numbers("data-tree")[0] as u32;
                    let (_, low, high) = far.iter().find(|f| f.0 == tree).unwrap();
                    assert!(
                        *low >= view[0] && *high <= view[0] + view[2],
                        "{name}: tree {tree}"
                    );
                    drawn += 1;
                }
            }
        }
    }
    assert!(drawn >= 25, "{drawn}");
}

#[test]
fn who_counts_trees_is_told_which_are_missing() {
    let plan = example("lost-tree.json");
    let lost: Vec<u32> = plan
        .found
        .trees
        .iter()
        .filter(|t| t.is_lost())
        .map(|t| t.id.0)
        .collect();
    assert!(!lost.is_empty());
    let season = season(&plan, 0, plan.found.leaf + 1).unwrap();
    for (language, word) in [("en", "before it tree "), ("es", "antes falta el árbol ")] {
        let words = words(language);
        let pass = season.passes.iter().find(|p| p.stops.len() > 5).unwrap();
        let pages = pass_sheets(&handed(&plan, pass, &words), Paper::A4);
        let all: String = pages
            .iter()
            .flat_map(|p| texts(p))
            .collect::<Vec<_>>()
            .join(" ");
        for tree in &lost {
            assert!(all.contains(&format!("{word}{tree}")), "{language}: {all}");
        }
    }
}

#[test]
fn a_sheet_says_whose_it_is_what_to_leave_and_what_to_care_for() {
    let plan = example("third-leaf.json");
    let season = season(&plan, 0, 3).unwrap();
    let words = words("en");
    let pages = pass_sheets(&handed(&plan, &season.passes[0], &words), Paper::Letter);
    let all: Vec<String> = pages.iter().flat_map(|p| texts(p)).collect();
    let has = |part: &str| assert!(all.iter().any(|t| t.contains(part)), "{part}: {all:#?}");
    for part in [
        "Foreman:",
        "Crew:",
        "tape it, leave it, call",
        "has a box",
        "Wear glasses",
        "no flush cut",
        "RIGHT",
        "WRONG",
        "Solved:",
        "Try 3",
        "Answer 3",
    ] {
        has(part);
    }
    // Nothing tells the answer of those to try but by its number in words.
    assert!(pages.iter().all(|p| !p.contains("NaN")));
}

/// Who tries finds the number alone; how many there are to count, and which they are in the picture, stands on a page of its own.
#[test]
fn what_is_to_be_tried_tells_its_answer_overleaf_alone() {
    let plans = ["third-leaf.json", "overdue-renewal.json"].map(example);
    let mut tried = 0;
    for (plan, paper) in plans.iter().zip(Paper::ALL) {
        let season = season(plan, 0, plan.found.leaf).unwrap();
        for code in ["en", "es"] {
            let words = words(code);
            for handed in Handed::all(plan, &season, &words) {
                let pages = pass_sheets(&handed, paper);
                let said = |key: &str| words.text(key, &[("number", Arg::Count(1))]);
                let [answer, list] = [said("crew-answer"), said("crew-solved")];
                let with = |page: &&String, part: &str| {
                    texts(page).iter().any(|text| text.starts_with(part))
                };
                let answers: Vec<&String> = pages.iter().filter(|p| with(p, &answer)).collect();
                assert_eq!(answers.len(), usize::from(handed.pass.stops.len() > 1));
                for page in answers {
                    assert_eq!(boxes(std::slice::from_ref(page)), 0);
                    assert!(!with(&page, &list));
                    assert!(page.contains("picture-number"));
                    tried += 1;
                }
            }
            // Behind what is asked nothing on its page counts, be it uprights or the laterals in brackets.
            let ask = words.text(
                "crew-try",
                &[
                    ("number", Arg::Count(1)),
                    ("pieces", Arg::Text(String::new())),
                ],
            );
            let found = words.text("crew-find", &[("count", Arg::Text(String::new()))]);
            for handed in Handed::all(plan, &season, &words) {
                for page in pass_sheets(&handed, paper) {
                    let all = texts(&page);
                    let from = all.iter().position(|t| t.starts_with(ask.trim_end()));
                    let list = words.text("crew-list", &handed.counts());
                    let asked = all[from.unwrap_or(all.len())..].iter();
                    let mut asked = asked.take_while(|t| **t != list);
                    let counts = |t: &&String| t.contains(found.trim_end()) || t.contains('(');
                    assert_eq!(asked.find(counts), None);
                }
            }
        }
    }
    assert!(tried >= 8, "{tried}");
}

/// A stub's length stands over all boxes where it is the same, and at each box where it is not.
#[test]
fn how_long_a_stub_stays_is_told_once_or_at_each() {
    let plan = example("overdue-renewal.json");
    let words = words("en");
    let at = plan.start();
    let stub = |n: usize, keep_mm| {
        let tree = &plan.found.trees[n];
        let uprights = tree.shoots.iter().filter(|s| s.kind() == Kind::Upright);
        Work::Stub {
            tree: tree.id,
            shoot: uprights.map(|s| s.id).next().unwrap(),
            keep_mm,
        }
    };
    let told = |lengths: [i32; 2]| {
        let work = vec![stub(0, Mm(lengths[0])), stub(1, Mm(lengths[1]))];
        let plan = plan.with_works(0, at, work).unwrap();
        let season = season(&plan, 0, at.leaf).unwrap();
        let pass = season.passes.iter().find(|p| p.job == Job::Stub).unwrap();
        let pages = pass_sheets(&handed(&plan, pass, &words), Paper::A4);
        let all: Vec<String> = pages.iter().flat_map(|p| texts(p)).collect();
        let list = all.iter().position(|t| t.ends_with("tick each")).unwrap();
        let on =
            |texts: &[String], length: &str| texts.iter().filter(|t| t.contains(length)).count();
        let listed = on(&all[list..], "0.15 m") + on(&all[list..], "0.20 m");
        (
            listed,
            pages.concat().matches("crew-bar stick").count(),
            all,
        )
    };
    let (listed, sticks, all) = told([150, 150]);
    assert_eq!((listed, sticks), (0, 1), "{all:?}");
    assert!(
        all.contains(&"On each: stubbed to 0.15 m".to_string()),
        "{all:?}"
    );
    let (listed, sticks, all) = told([150, 200]);
    assert_eq!((listed, sticks), (2, 0), "{all:?}");
}

/// What a bay is is told by one of the row's own.
#[test]
fn a_bay_is_told_by_one_that_the_row_has() {
    let mut plan = example("third-leaf.json");
    let season_of = |plan: &Plan| season(plan, 0, plan.found.leaf).unwrap();
    let told = |plan: &Plan, code: &str| -> Vec<String> {
        let words = words(code);
        let season = season_of(plan);
        let all = Handed::all(plan, &season, &words).map(|handed| {
            let pages = pass_sheets(&handed, Paper::A4);
            pages
                .iter()
                .flat_map(|p| texts(p))
                .collect::<Vec<_>>()
                .join(" ")
        });
        all.collect()
    };
    for (code, bay, post) in [("en", "Bay", "post"), ("es", "El vano", "el poste")] {
        for all in told(&plan, code) {
            let said = (1..20).filter(|n| {
                let between = [("en", "lies between"), ("es", "está entre")];
                let between = between.iter().find(|b| b.0 == code).unwrap().1;
                all.contains(&format!("{bay} {n} {between} {post} {n} "))
            });
            let said: Vec<usize> = said.collect();
            let bays = plan.found.trellis.posts.len() - 1;
            assert!(
                said.len() == 1 && said[0] <= bays,
                "{said:?} of {bays}: {all}"
            );
        }
    }
    // Where no tree stands in a bay none is told.
    let mut found = (*plan.found).clone();
    found.trellis.posts.clear();
    plan.found = Arc::new(found);
    assert!(
        told(&plan, "en")
            .iter()
            .all(|all| !all.contains("lies between"))
    );
}

#[test]
fn a_sheet_says_what_its_numbers_are_counted_and_measured_from() {
    let plan = example("overdue-renewal.json");
    let season = season(&plan, 0, plan.found.leaf).unwrap();
    for code in ["en", "es"] {
        let words = words(code);
        for paper in [Paper::A4, Paper::Letter] {
            for handed in Handed::all(&plan, &season, &words) {
                let pages = pass_sheets(&handed, paper);
                let told = pages.iter().flat_map(|p| texts(p)).collect::<Vec<_>>();
                let all = told.join(" ");
                let job = handed.pass.job;
                // A length only where one stays.
                let measured = matches!(job, Job::Stub | Job::CutBack);
                assert_eq!(all.contains(&words.plain("crew-measured")), measured);
                // A line to write a count on behind each tree that is counted.
                let trees = handed.pass.trees();
                assert_eq!(
                    all.matches(" ____").count(),
                    trees + all.matches(": ____").count()
                );
            }
        }
    }
}

#[test]
fn every_upright_of_a_picture_bears_a_number_that_is_read_in_a_row() {
    let plan = forty();
    let season = season(&plan, 0, 3).unwrap();
    let words = words("en");
    let handed = Handed::at(&plan, &season, 0, &words).unwrap();
    let pages = pass_sheets(&handed, Paper::A4).concat();
    let numbers: Vec<&str> = pages
        .split("\"picture-number\"")
        .skip(1)
        .filter_map(|t| Some(t.split_once('>')?.1.split_once('<')?.0.trim()))
        .collect();
    // The first tree as it is found, and solved; then the answers of the next three.
    let all = ["1", "2", "3", "4", "5", "6", "7", "8"];
    let expected = [8, 8, 7, 8, 7].map(|n| &all[..n]);
    assert_eq!(numbers, expected.concat());
    // Figures are 0.73 of their letters high: 3.5 mm of them are 18 pixels, 13 mm of wall each.
    assert!(pages.contains("picture-number{font:600 234px"), "too small");
}

/// What stands between two parts of a text, as a number.
fn number(text: &str, before: &str, after: &str) -> f64 {
    let from = text
        .split_once(before)
        .unwrap_or_else(|| panic!("{text}"))
        .1;
    let own = from.split_once(after).unwrap_or_else(|| panic!("{text}")).0;
    own.parse().unwrap_or_else(|_| panic!("{text}"))
}

#[test]
fn a_reader_with_the_laterals_sheet_alone_finds_each_of_them() {
    let words = words("en");
    let mut read = 0;
    for name in [
        "third-leaf.json",
        "overdue-renewal.json",
        "two-cordons.json",
    ] {
        let plan = example(name);
        for leaf in plan.found.leaf..plan.found.leaf + 4 {
            let season = season(&plan, 0, leaf).unwrap();
            for pass in season.passes.iter().filter(|p| p.job == Job::Laterals) {
                let pages = pass_sheets(&handed(&plan, pass, &words), Paper::A4);
                let told: Vec<String> = pages.iter().flat_map(|p| texts(p)).collect();
                let list = told.iter().position(|t| t.ends_with("tick each")).unwrap();
                let counts: Vec<f64> = told[list..]
                    .iter()
                    .take_while(|t| !t.starts_with("Answer "))
                    .filter(|t| t.starts_with("no. "))
                    .map(|t| number(t, " (", ")"))
                    .collect();
                let own = |w: &Work| {
                    let posed = pass.row.of_tree(w.tree().unwrap()).unwrap();
                    let shoot = posed.tree().shoot(w.subject().shoot).unwrap();
                    shoot.laterals
                };
                // What has length has at least one that is seen.
                let expected: Vec<f64> = pass
                    .work()
                    .map(|w| f64::from(own(w).count.max(1)))
                    .collect();
                assert_eq!(counts, expected, "{name} leaf {leaf}");
                // How long and thick they are, and from where to where, once for all.
                let all = told.join(" ");
                let sum = expected.iter().sum::<f64>();
                assert!(
                    all.contains(&format!("{sum} laterals in all, some ")),
                    "{all}"
                );
                assert_eq!(all.matches(" above the ground.").count(), 1);
                // In the drawings each upright whose laterals come off has them in the sign's colour.
                let signs = pages.iter().map(|p| p.matches("\"twigs-off\"").count());
                let shown = pass.stops.iter().take(4).map(|s| s.work.len());
                assert_eq!(signs.sum::<usize>(), shown.sum::<usize>(), "{name} {leaf}");
                read += counts.len();
            }
        }
    }
    assert!(read >= 60, "{read}");
}

#[test]
fn each_tip_says_what_comes_off_and_how_high_it_is_cut() {
    let words = words("en");
    let mut read = 0;
    for name in [
        "third-leaf.json",
        "clean-third-leaf.json",
        "uneven-uprights.json",
    ] {
        let plan = example(name);
        for leaf in plan.found.leaf..plan.found.leaf + 4 {
            let season = season(&plan, 0, leaf).unwrap();
            for pass in season.passes.iter().filter(|p| p.job == Job::Tip) {
                let handed = handed(&plan, pass, &words);
                let terms = plan.terms(&pass.row.trellis);
                for work in pass.work() {
                    let told = handed.piece(work);
                    let posed = pass.row.of_tree(work.tree().unwrap()).unwrap();
                    let own = work.subject().shoot;
                    let at = posed.tree().index(own).unwrap();
                    let after = apply_to_tree(posed.tree(), pass.moment, &terms, work).unwrap();
                    let kept = after.shoots[at].length();
                    let off = posed.courses()[at].length - kept;
                    let height = posed.courses()[at].point(kept).y;
                    assert!(
                        (number(&told, ": ", " m, at") * 1000.0 - off).abs() <= 5.1,
                        "{told}"
                    );
                    assert!(
                        (number(&told, ", at ", " m") * 1000.0 - height).abs() <= 5.1,
                        "{told}"
                    );
                    read += 1;
                }
                let pages = pass_sheets(&handed, Paper::A4);
                let all = pages.iter().flat_map(|p| texts(p)).collect::<Vec<_>>();
                let all = all.join(" ");
                assert!(all.contains(&words.plain("crew-cut")), "{all}");
            }
        }
    }
    assert!(read >= 20, "{read}");
}

#[test]
fn who_plants_is_told_the_place_on_the_tape_the_angle_and_the_side() {
    let plan = example("lost-tree.json");
    let lost = plan.found.trees.iter().find(|t| t.is_lost()).unwrap();
    let work = Work::ReplaceTree {
        tree: lost.id,
        planted: lost.planted,
        length_mm: Mm(1650),
        diameter_dmm: 120,
    };
    let at = plan.start();
    let plan = plan.with_works(0, at, vec![work]).unwrap();
    let season = season(&plan, 0, at.leaf).unwrap();
    let pass = season.passes.iter().find(|p| p.job == Job::Plant).unwrap();
    for code in ["en", "es"] {
        let words = words(code);
        let pages = pass_sheets(&handed(&plan, pass, &words), Paper::A4);
        let all: Vec<String> = pages.iter().flat_map(|p| texts(p)).collect();
        let all = all.join(" ");
        for part in [
            words.length(lost.foot.f()),
            words.arg(&Arg::Angle(lost.planted.angle.degrees())),
            words.length(1650.0),
            words.plain("planting-tape"),
        ] {
            assert!(all.contains(&part), "{code} {part}: {all}");
        }
        assert_eq!(boxes(&pages), 1);
    }
}

/// A neighbour's uprights among a tree's own are there, plain and by the neighbour's name, and bear no number.
#[test]
fn what_a_neighbour_has_among_a_trees_wood_is_drawn_and_named() {
    let tree = |id, foot, toward, at: [f64; 3]| stem(id, foot, 45.0, toward, 2200.0).uprights(&at);
    let row = row(
        0,
        4000,
        vec![
            tree(1, 0, Toward::Right, [700.0, 900.0, 1500.0]),
            // It leans back over the first: one of its uprights stands among the first tree's.
            tree(2, 2600, Toward::Left, [1900.0, 1700.0, 1200.0]),
        ],
    );
    let plan = Plan::new("Woven", row);
    let work = plan.found.trees[0].shoots[2].id;
    let keep_mm = Mm(150);
    let tree = TreeId(1);
    let stub = Work::Stub {
        tree,
        shoot: work,
        keep_mm,
    };
    let plan = plan.with_works(0, plan.start(), vec![stub]).unwrap();
    let season = season(&plan, 0, plan.found.leaf).unwrap();
    let words = words("en");
    let pages = pass_sheets(&handed(&plan, &season.passes[0], &words), Paper::A4).concat();
    let pictures = pages.matches("\"crew-picture\"").count();
    assert!(pictures >= 4);
    assert_eq!(pages.matches("\"neighbour\"").count(), pictures);
    let named = pages.split("\"neighbour-name\"").skip(1);
    let named: Vec<&str> = named
        .filter_map(|t| Some(t.split_once('>')?.1.split_once('<')?.0.trim()))
        .collect();
    assert_eq!(named, vec!["tree 2"; pictures]);
    // Found and solved: three numbers each, and none for the neighbour's.
    assert_eq!(pages.matches("\"picture-number\"").count(), 6);
}

/// The name under a tree has room on either side, whichever way its wood goes.
#[test]
fn no_name_is_cut_off_under_its_tree() {
    let tree = stem(12, 3000, 45.0, Toward::Left, 2200.0).uprights(&[2300.0, 2000.0]);
    let plan = Plan::new("Left", row(0, 4000, vec![tree]));
    let marked = Correction::Diseased {
        tree: TreeId(12),
        diseased: true,
    };
    let plan = plan.corrected(&marked).unwrap();
    let (tree, shoot) = (TreeId(12), plan.found.trees[0].shoots[1].id);
    let plan = plan
        .with_works(0, plan.start(), vec![Work::Remove { tree, shoot }])
        .unwrap();
    let season = season(&plan, 0, plan.found.leaf).unwrap();
    let words = words("en");
    let pages = pass_sheets(&handed(&plan, &season.passes[0], &words), Paper::A4).concat();
    let mut seen = 0;
    for picture in pages.split("\"crew-picture\"").skip(1) {
        let view = picture
            .split("viewBox=\"")
            .nth(1)
            .unwrap()
            .split('"')
            .next()
            .unwrap();
        let view: Vec<f64> = view.split(' ').map(|n| n.parse().unwrap()).collect();
        // Eighteen letters of 18 px, half of them on each side of the foot, 13 mm of wall to a pixel.
        let half = "tree 12, diseased".len() as f64 * 18.0 * 0.5 / 2.0 * 13.0;
        assert!(
            view[0] <= 3000.0 - half && view[0] + view[2] >= 3000.0 + half,
            "{view:?}"
        );
        seen += 1;
    }
    assert!(seen >= 3);
}

#[test]
fn forty_trees_are_six_pages_at_most_whatever_the_pass() {
    let plan = forty();
    let tips = plan.found.trees.iter().flat_map(|t| {
        let of = |s: &Shoot| Work::Tip {
            tree: t.id,
            shoot: s.id,
            percent: 30,
        };
        t.shoots.iter().skip(1).map(of)
    });
    let tips: Vec<Work> = tips.collect();
    let plan = plan.with_works(0, Moment::dormant(3), tips).unwrap();
    let season = season(&plan, 0, 3).unwrap();
    let jobs: Vec<(Job, usize)> = season.passes.iter().map(|p| (p.job, p.count())).collect();
    assert_eq!(jobs, [(Job::Laterals, 300), (Job::Tip, 300)]);
    for language in ["en", "es"] {
        for paper in Paper::ALL {
            let words = words(language);
            for handed in Handed::all(&plan, &season, &words) {
                let pages = pass_sheets(&handed, paper);
                let job = handed.pass.job;
                assert_eq!(boxes(&pages), 300);
                assert!(
                    pages.len() <= 6,
                    "{language} {paper:?} {job:?}: {}",
                    pages.len()
                );
            }
        }
    }
}
