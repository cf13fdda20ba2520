//! Nothing is lost or stands out over a page's edge, lengths are true, and the same row gives the same sheets.

use super::*;
use crate::chart::Series;
use crate::figures::{row_figures, row_figures_title};
use crate::measure::{Face, STRONG};
use cordonry::check::{Context, check, figures, matters};
use cordonry::make::{Form, RowSketch};
use cordonry::plan::{Mark, Phase};
use cordonry::pose::PosedRow;
use cordonry::row::{Kind, Pose, Row, Toward, TreeId};
use cordonry::terms::Terms;
use cordonry::units::{Deg, Mm};
use cordonry_words::Language;
use std::sync::Arc;

/// A made row, and work on its first uprights.
fn row(trees: u32, pieces: usize) -> (Plan, Vec<Work>) {
    let sketch = RowSketch {
        trees,
        leaf: 4,
        unevenness: 0.6,
        ..RowSketch::usual(LengthStyle::Metric)
    };
    let plan = Plan::new("A made row", sketch.row().expect("usual figures"));
    let mut work: Vec<Work> = Vec::new();
    for tree in &plan.found.trees {
        for shoot in tree.shoots.iter().filter(|s| s.kind() == Kind::Upright) {
            let (tree, shoot, keep_mm) = (tree.id, shoot.id, Mm(150));
            work.push(match work.len() % 3 {
                0 => Work::Stub {
                    tree,
                    shoot,
                    keep_mm,
                },
                1 => Work::TakeLaterals { tree, shoot },
                _ => Work::Remove { tree, shoot },
            });
        }
    }
    assert!(work.len() >= pieces, "{}", work.len());
    work.truncate(pieces);
    (plan, work)
}

fn drawn(plan: &Plan, work: &[Work], paper: Paper, style: LengthStyle) -> Vec<String> {
    drawn_as(plan, &plan.found, work, paper, style)
}

/// The sheets of what the work has made of the plan's row.
fn drawn_as(
    plan: &Plan,
    row: &Row,
    work: &[Work],
    paper: Paper,
    style: LengthStyle,
) -> Vec<String> {
    let words = Words::new(Language::default(), style);
    let terms = Terms::of(row, &plan.targets);
    let found = PosedRow::of(&plan.found, &plan.targets);
    let posed = PosedRow::of(row, &plan.targets).worked_on(&found);
    let findings = check(&Context::found(&posed, &terms, &plan.targets));
    let findings: Vec<&Finding> = findings.iter().collect();
    let cover = cover(row, &plan.targets);
    let matters = matters(row, &cover, &plan.targets, &findings, &plan.left);
    let counted = figures(row, &plan.targets);
    let told = Told {
        plan,
        row: &found,
        worked: &posed,
        date: "",
        time: Some(Time {
            moment: plan.start(),
            phase: Phase::Before,
            stands: false,
        }),
        work,
        field: None,
        findings: &findings,
        matters: &matters,
        figures: &[FigureTable {
            title: row_figures_title(row.leaf, &words),
            lines: row_figures(&counted, &plan.targets, true, &words),
            assumed: "What was taken for them. ".repeat(8),
        }],
        words: &words,
    };
    sheets(&told, paper)
}

/// The value of an attribute of a tag.
fn value<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let from = tag.find(&format!(" {name}=\""))? + name.len() + 3;
    tag[from..].split('"').next()
}

fn number(tag: &str, name: &str) -> Option<f64> {
    value(tag, name)?.trim_end_matches("mm").parse().ok()
}

/// Every element of a page that stands on the paper itself, with the place that its groups are moved to: what is in an
/// inner drawing is cut off at that drawing's edge.
pub(super) fn on_paper(page: &str) -> Vec<(String, f64, f64, String)> {
    let mut out = Vec::new();
    let mut groups: Vec<(f64, f64)> = vec![(0.0, 0.0)];
    let mut inner = 0;
    for part in page.split('<').skip(1) {
        let (tag, content) = part.split_once('>').expect("a tag ends");
        let (x, y) = groups.last().copied().unwrap_or_default();
        match tag.split(' ').next() {
            Some("svg") => {
                // The page itself, then the drawings in it.
                if inner == 1 {
                    out.push((tag.to_string(), x, y, String::new()));
                }
                inner += 1;
            }
            Some("/svg") => inner -= 1,
            Some("g") if inner == 1 => {
                let moved = value(tag, "transform")
                    .and_then(|t| t.strip_prefix("translate("))
                    .and_then(|t| t.split(')').next())
                    .and_then(|t| t.split_once(' '))
                    .and_then(|(a, b)| Some((a.parse::<f64>().ok()?, b.parse::<f64>().ok()?)))
                    .unwrap_or_default();
                groups.push((x + moved.0, y + moved.1));
            }
            Some("/g") if inner == 1 => {
                groups.pop();
            }
            Some("text") if inner == 1 => out.push((tag.to_string(), x, y, content.to_string())),
            _ => {}
        }
    }
    out
}

fn face(class: &str) -> Face {
    match class {
        "sheet-title" => TITLE,
        "sheet-heading" => Face {
            size: 14.0,
            strong: true,
        },
        "crew-title" => Face {
            size: 24.0,
            strong: true,
        },
        c if c.starts_with("crew-") => Face {
            size: 16.0,
            strong: c.contains("strong"),
        },
        c if c.contains("strong") => STRONG,
        _ => TEXT,
    }
}

/// A text without the escapes of markup.
pub(super) fn plain(content: &str) -> String {
    content
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&amp;", "&")
}

pub(super) fn check_within(pages: &[String], paper: Paper) {
    let (right, bottom) = (paper.width() - MARGIN + 0.5, paper.height() - MARGIN + 0.5);
    for page in pages {
        for (tag, x, y, content) in on_paper(page) {
            let (at, down) = (
                number(&tag, "x").unwrap_or(0.0) + x,
                number(&tag, "y").unwrap_or(0.0) + y,
            );
            let class = value(&tag, "class").unwrap_or_default();
            let (long, high) = match number(&tag, "width") {
                Some(width) => (width, number(&tag, "height").unwrap_or(0.0)),
                None => (width(&plain(&content), face(class)), 0.0),
            };
            let from = if class.contains("end") { at - long } else { at };
            assert!(
                from >= MARGIN - 0.5
                    && from + long <= right
                    && down >= MARGIN
                    && down + high <= bottom,
                "{tag} {content}: {from} {long} {down} {high}"
            );
        }
    }
}

fn count(pages: &[String], what: &str) -> usize {
    pages.iter().map(|p| p.matches(what).count()).sum()
}

#[test]
fn every_piece_of_work_has_its_box_on_every_paper() {
    for (trees, pieces) in [(1, 0), (2, 3), (12, 61), (60, 300)] {
        let (plan, work) = row(trees, pieces);
        for paper in Paper::ALL {
            for style in [LengthStyle::Metric, LengthStyle::FeetInches] {
                let pages = drawn(&plan, &work, paper, style);
                assert_eq!(count(&pages, "\"tick-box\""), pieces);
                check_within(&pages, paper);
                for (i, page) in pages.iter().enumerate() {
                    let told = format!("Page {} of {}", i + 1, pages.len());
                    assert!(page.contains(&told), "{told}");
                }
                // 62 boxes to a page in two columns, and not many more pages than wall and work ask for.
                assert!(
                    pages.len() <= 6 + trees as usize / 10 + pieces / 50,
                    "{}",
                    pages.len()
                );
                assert_eq!(pages, drawn(&plan, &work, paper, style));
            }
        }
    }
}

#[test]
fn a_page_is_as_large_as_its_paper_and_its_bars_are_true() {
    let (plan, work) = row(30, 20);
    for (paper, style, bar) in [
        (Paper::A4, LengthStyle::Metric, 100.0),
        (Paper::Letter, LengthStyle::Metric, 100.0),
        (Paper::Letter, LengthStyle::FeetInches, 101.6),
    ] {
        let pages = drawn(&plan, &work, paper, style);
        let mut walls = 0;
        for page in &pages {
            let tag = page.split('>').next().unwrap_or_default();
            let (wide, high) = paper.size();
            assert_eq!(
                (number(tag, "width"), number(tag, "height")),
                (Some(wide), Some(high))
            );
            let view: Vec<f64> = value(tag, "viewBox")
                .expect("a page has a view box")
                .split(' ')
                .map(|n| n.parse().expect("a number"))
                .collect();
            let mm = wide / view[2];
            let Some(at) = page.find("true-bar") else {
                continue;
            };
            walls += 1;
            // `M38 a v8 … l378 0`: the level stroke is the longest.
            let d = value(page[at..].split('>').next().unwrap_or_default(), "d").expect("a bar");
            let long = d
                .split('l')
                .filter_map(|s| s.split([' ', 'm', '-']).next()?.parse::<f64>().ok())
                .fold(0.0, f64::max);
            assert!((long * mm - bar).abs() < 0.05, "{d}: {}", long * mm);
            // The wall's own scale: its height in user units against that in millimetres.
            let wall = &page[page.find("\"wall\"").expect("a wall")..];
            let tag = wall.split('>').next().unwrap_or_default();
            let view: Vec<f64> = value(tag, "viewBox")
                .expect("a wall has a view box")
                .split(' ')
                .map(|n| n.parse().expect("a number"))
                .collect();
            let ratio = view[2] / (number(tag, "width").expect("a width") * mm);
            let told = page
                .split("scale 1 : ")
                .nth(1)
                .and_then(|t| t.split(',').next());
            let told: f64 = told.and_then(|t| t.parse().ok()).expect("a scale");
            assert!((ratio / told - 1.0).abs() < 1e-3, "{ratio} {told}");
        }
        assert!(
            walls >= 2 && walls < pages.len(),
            "{walls} of {}",
            pages.len()
        );
    }
}

#[test]
fn long_texts_and_many_notes_go_on_from_page_to_page() {
    let (mut plan, work) = row(3, 5);
    plan.name = "W".repeat(400);
    plan.note = "A note that is too long for the head of any sheet. ".repeat(60);
    plan.marks = (0..150)
        .map(|i| {
            Mark::note(
                Mm(i * 30),
                Mm(900),
                format!("note {i} <&> {}", "word ".repeat((i % 60) as usize)),
            )
        })
        .collect();
    let pages = drawn(&plan, &work, Paper::A4, LengthStyle::Metric);
    check_within(&pages, Paper::A4);
    for i in 0..150 {
        assert!(
            pages
                .iter()
                .any(|p| p.contains(&format!("note {i} &lt;&amp;&gt;"))),
            "{i}"
        );
    }
    assert_eq!(count(&pages, "\"tick-box\""), 5);
    // The head holds the first lines of the note, the list all of it.
    let said = count(&pages, "any sheet.");
    assert!(said >= 60, "{said}");
}

#[test]
fn the_wall_is_drawn_before_its_work_whatever_was_looked_at() {
    let (plan, work) = row(4, 9);
    let words = Words::default();
    let found = PosedRow::of(&plan.found, &plan.targets);
    let of_work = |time, work| {
        sheets(
            &Told {
                plan: &plan,
                row: &found,
                worked: &found,
                date: "",
                time,
                work,
                field: None,
                findings: &[],
                matters: &[],
                figures: &[],
                words: &words,
            },
            Paper::A4,
        )
    };
    let of = |time| of_work(time, &work);
    let time = |phase| {
        Some(Time {
            moment: plan.start(),
            phase,
            stands: false,
        })
    };
    let first = of(time(Phase::Before));
    assert!(count(&first, "\"work work-") >= 9 && count(&first, "sign-key") == 1);
    assert!(first[0].contains("before its 9 pieces of work"));
    let then = of(time(Phase::After));
    // The crew's wall is that before the work; what was found after it says so.
    assert_eq!(
        (count(&then, "\"work work-"), count(&then, "tick-box\"")),
        (count(&first, "\"work work-"), 9)
    );
    let after = words.plain("draw-after-work");
    assert_eq!((count(&first, &after), count(&then, &after)), (0, 1));
    let care = cautions(&work);
    assert!(!care.is_empty());
    let start: String = words.plain(care[0]).chars().take(20).collect();
    assert!(count(&first, &start) == 1);
    // Over what nobody planned it is said that it stands.
    let said = words.plain("work-stands");
    assert_eq!(count(&first, &said), 0);
    let stands = time(Phase::Before).map(|t| Time { stands: true, ..t });
    let told = |work| count(&of_work(stands, work)[..1], &said);
    assert!(told(&work) >= 1);
    assert_eq!(told(&[]), 0);
    // As found: no time, no list of work.
    assert_eq!(count(&of(None), "tick-box\""), 0);
}

#[test]
fn what_is_done_in_the_row_is_ticked_on_the_wall_and_in_the_list() {
    let (plan, work) = row(4, 9);
    let words = Words::default();
    let found = PosedRow::of(&plan.found, &plan.targets);
    let moment = plan.start();
    let told = plan.with_told(0, moment, &work[..2], &cordonry::plan::Told::Done);
    let of = |plan: &Plan| {
        let told = Told {
            plan,
            row: &found,
            worked: &found,
            date: "",
            time: Some(Time {
                moment,
                phase: Phase::Before,
                stands: false,
            }),
            work: &work,
            field: Some(&plan.schemes[0].field),
            findings: &[],
            matters: &[],
            figures: &[],
            words: &words,
        };
        let pages = sheets(&told, Paper::A4);
        let boxes = on_boxes(&pages);
        let ticked = boxes.iter().filter(|d| d.contains('m')).count();
        let signs = count(&pages, " work-done\" data-part");
        let keyed = count(&pages, &words.plain("draw-sign-done"));
        (boxes.len(), ticked, signs, keyed)
    };
    assert_eq!(of(&plan), (9, 0, 0, 0));
    assert_eq!(of(&told.unwrap()), (9, 2, 2, 1));
}

/// The outlines of all boxes to tick.
fn on_boxes(pages: &[String]) -> Vec<String> {
    let tags = pages.iter().flat_map(|p| p.split('<'));
    let boxes = tags.filter(|t| t.contains("class=\"tick-box\""));
    boxes
        .map(|t| value(t, "d").unwrap_or_default().to_string())
        .collect()
}

#[test]
fn what_is_noted_of_trees_and_shoots_is_drawn_where_they_are_and_listed() {
    let (mut plan, work) = row(4, 3);
    let mut found = (*plan.found).clone();
    let tree = Arc::make_mut(&mut found.trees[1]);
    tree.note = "late to leaf".into();
    let upright = tree.shoots.iter_mut().find(|s| s.kind() == Kind::Upright);
    upright.expect("it has some").note = "canker <here>".into();
    plan.found = Arc::new(found);
    let pages = drawn(&plan, &work, Paper::A4, LengthStyle::Metric);
    check_within(&pages, Paper::A4);
    let found = PosedRow::of(&plan.found, &plan.targets);
    let tree = Words::default().part(&found, TreeId(2), None);
    assert_eq!(count(&pages, &format!("{tree}: late to leaf")), 1);
    assert_eq!(count(&pages, &format!(", {tree}: canker &lt;here&gt;")), 1);
    assert_eq!(count(&pages, "class=\"note-sign\""), 1);
}

#[test]
fn a_shoot_is_called_under_the_notes_what_the_list_of_work_calls_it() {
    let (mut plan, _) = row(2, 0);
    let mut found = (*plan.found).clone();
    let tree = Arc::make_mut(&mut found.trees[0]);
    let last = tree.shoots.iter_mut().rfind(|s| s.kind() == Kind::Upright);
    let last = last.expect("it has some");
    last.note = "crossing".into();
    let id = last.id;
    let pose = Pose::Laid {
        toward: Toward::Right,
        rise: Deg::default(),
    };
    plan.found = Arc::new(found.clone());
    let tree = Arc::make_mut(&mut found.trees[0]);
    let place = tree.index(id).expect("it is there");
    tree.shoots[place].pose = pose;
    let work = Work::posing(tree.id, id, pose).expect("it is laid");
    let posed = |row: &Row| PosedRow::of(row, &plan.targets);
    let name = |row: &Row| Words::default().part(&posed(row), TreeId(1), Some(id));
    assert_ne!(name(&found), name(&plan.found));
    let pages = drawn_as(&plan, &found, &[work], Paper::A4, LengthStyle::Metric);
    let called = name(&plan.found);
    assert_eq!(count(&pages, &format!("{called}: crossing")), 1);
    let on_tree = called.replace(", tree 1", "");
    assert_eq!(count(&pages, &format!("{on_tree}, at ")), 1);
}

#[test]
fn a_number_is_the_same_in_all_places() {
    use crate::frame::upright_numbers;
    use crate::worklist::work_line;
    use cordonry::cover::Span;
    let (mut plan, _) = row(3, 0);
    let mut found = (*plan.found).clone();
    found.trellis.posts = vec![Mm(-500), Mm(1000), Mm(9000)];
    plan.found = Arc::new(found);
    let words = Words::default();
    let before = PosedRow::of(&plan.found, &plan.targets);
    let tree = &before.posed()[1];
    let (number, place) = tree.numbers().nth(4).expect("it has as many uprights");
    let at = tree.uprights()[4];
    let shoot = tree.tree().shoots[at].id;
    let (tree, of) = (tree.tree().id, tree.names()[at].of);
    let work = |shoot| Work::Stub {
        tree,
        shoot,
        keep_mm: Mm(150),
    };
    // Another that is nearer to the trunk comes off with it.
    let own = &before.of_tree(tree).expect("it is there");
    let near = own
        .names()
        .iter()
        .position(|n| n.number == number - 1 && n.called == cordonry::pose::Called::Upright);
    let near = own.tree().shoots[near.expect("it is not the first")].id;
    let works = [Work::Remove { tree, shoot: near }, work(shoot)];
    let start = plan.start();
    let plan = plan
        .with_works(0, start, works.to_vec())
        .expect("it can be done");
    let after = cordonry::plan::replay(&plan, 0, start)
        .expect("its own scheme")
        .row;
    let line = format!(
        "upright {number} of {of}, tree {tree}, bay 2 tree {}",
        tree.0 - 1
    );
    for row in [&before, &after] {
        let told = work_line(&works[1], row, &words);
        assert!(told.starts_with(&format!("{line}, at ")), "{told}");
        let view = Span {
            from: place.x - 1.0,
            to: place.x + 1.0,
        };
        let drawn = upright_numbers(row, view, 0.1).concat();
        assert!(
            drawn.contains(&format!(">\n{number}\n<")) || drawn.contains(&format!(">{number}<")),
            "{drawn}"
        );
    }
    assert_eq!(words.part(&before, tree, Some(shoot)), line);
    assert_eq!(
        words.part(&after, tree, Some(shoot)),
        line.replacen("upright", "stub", 1)
    );
    let pages = drawn_as(&plan, after.row(), &works, Paper::A4, LengthStyle::Metric);
    assert_eq!(count(&pages, &format!("upright {number} of {of}, at ")), 1);
    assert_eq!(
        count(
            &pages,
            &format!("tree {tree}, bay 2 tree {}, at ", tree.0 - 1)
        ),
        1
    );
}

#[test]
fn two_schemes_lie_on_one_page_to_one_scale() {
    use cordonry::forecast::LeafFigures;
    let words = Words::new(Language::default(), LengthStyle::Metric);
    let year = |leaf: u8| LeafFigures {
        leaf,
        crop_t_per_ha: f64::from(leaf),
        cordon_fill_share: 0.9,
        ..LeafFigures::default()
    };
    let years: Vec<LeafFigures> = (4..=10).map(year).collect();
    let long = "A very long name of a scheme ".repeat(12);
    for (trees, lines) in [(1, 0), (12, 11), (60, 11), (300, 30)] {
        let (plan, work) = row(trees, trees as usize);
        let posed = PosedRow::of(&plan.found, &plan.targets);
        let mut less = (*plan.found).clone();
        let first = Arc::make_mut(&mut less.trees[0]);
        let stem = first.shoots[0].id;
        first.shoots.retain(|s| s.id == stem);
        let less = PosedRow::of(&less, &plan.targets);
        let side = |row, phase, name| Side {
            row,
            time: Time {
                moment: plan.start(),
                phase,
                stands: false,
            },
            work: &work,
            series: Series {
                name,
                years: &years,
                ranges: None,
                light: None,
            },
        };
        let figure = ("Bare wire".repeat(9), ["1.20 m".into(), long.clone()]);
        let alike = ("Overlap".to_string(), ["0".into(), "0".into()]);
        for paper in Paper::ALL {
            for phase in [Phase::Before, Phase::After] {
                let both = Both {
                    plan: &plan,
                    sides: [side(&posed, phase, "A"), side(&less, phase, &long)],
                    figures: &[vec![figure.clone(); lines], vec![alike.clone()]].concat(),
                    words: &words,
                };
                let page = sheet_beside(&both, paper);
                check_within(std::slice::from_ref(&page), paper);
                let walls: Vec<&str> = page
                    .split("<svg")
                    .filter(|tag| tag.contains("class=\"wall\"") && !tag.contains("overflow"))
                    .collect();
                assert_eq!(walls.len(), 2);
                for name in ["x", "width", "height", "viewBox"] {
                    let of = |i: usize| value(walls[i].split('>').next().expect("a tag"), name);
                    assert_eq!(of(0), of(1), "{name}");
                }
                // What is missing in the other is marked in the one.
                assert_eq!(page.matches("class=\"lone\"").count(), 1);
                assert_eq!(page.matches("class=\"chart\"").count(), 4);
                // Figures that differ are marked, those alike are not.
                assert_eq!(page.matches("≠").count(), lines);
                assert_eq!(page, sheet_beside(&both, paper));
            }
        }
    }
}

#[test]
fn many_places_of_one_matter_are_told_by_their_trees() {
    // Each tree of a long row is stubbed but for its first uprights: there is much to see through.
    let (plan, _) = row(40, 0);
    let pages = drawn(&plan, &[], Paper::A4, LengthStyle::Metric);
    let texts = pages.join(" ");
    let on: Vec<&str> = texts.matches("On trees ").collect();
    let at = texts
        .split('>')
        .filter(|t| t.starts_with("At ") && t.contains(" m, "));
    let most = at.map(|t| t.matches(" m, ").count()).max().unwrap_or(0);
    assert!(!on.is_empty(), "none of so many");
    // What is no tree's has its places, and how many more there are.
    assert!(!texts.contains("On trees <"), "trees are left out");
    assert!(
        texts.contains(" more<"),
        "no place of so many to see through"
    );
    assert!(most < 12, "{most} places in a line");
}
