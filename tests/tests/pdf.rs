//! Sheets as a PDF, read back by another program: as many pages of the paper's size, lengths that are true, text as text.

use cordonry::crew::season;
use cordonry::file::read_plan;
use cordonry::forecast::Forecast;
use cordonry::make::{Form as _, RowSketch};
use cordonry::plan::{Moment, Phase, Plan, replay};
use cordonry::pose::PosedRow;
use cordonry::row::Kind;
use cordonry::units::LengthStyle;
use cordonry::work::Work;
use cordonry_draw::{
    Both, DocumentOptions, Handed, Paper, Series, Side, Time, Told, document_with, marking_sheets,
    pass_sheets, sheet_beside, sheets,
};
use cordonry_pdf::{About, has, pdf};
use cordonry_words::{Language, Words};
use lopdf::content::Content;
use lopdf::{Document, Object};
use std::fs;
use std::path::{Path, PathBuf};

fn home() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn words(language: &str) -> Words {
    Words::new(Language::of(language).unwrap(), LengthStyle::Metric)
}

fn plan(path: &Path) -> Plan {
    read_plan(&fs::read(path).unwrap()).unwrap()
}

/// All sheets of a leaf's work, the foreman's too.
fn crew(plan: &Plan, leaf: u8, words: &Words, paper: Paper) -> Vec<String> {
    let season = season(plan, 0, leaf).unwrap();
    let all = Handed::all(plan, &season, words);
    let pages = all.flat_map(|h| {
        let marking = marking_sheets(&h, paper).into_iter();
        marking.chain(pass_sheets(&h, paper)).collect::<Vec<_>>()
    });
    pages.collect()
}

/// Written as a file and read back.
fn read(pages: &[String], language: &str) -> Document {
    let title = "A row";
    let bytes = pdf(pages, About { title, language }).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    Document::load_mem(&bytes).unwrap()
}

/// What stands between the tags of a drawing's texts, one after the other, without the gaps between words.
fn texts(drawing: &str) -> String {
    let texts = drawing.split("<text").skip(1).filter_map(|t| {
        let content = t.split_once('>')?.1.split_once("</text>")?.0;
        let signs = [
            ("&lt;", "<"),
            ("&gt;", ">"),
            ("&quot;", "\""),
            ("&apos;", "'"),
            ("&amp;", "&"),
        ];
        let plain = |text: String, (from, to): &(&str, &str)| text.replace(from, to);
        Some(signs.iter().fold(content.to_string(), plain))
    });
    texts
        .flat_map(|t| t.chars().collect::<Vec<_>>())
        .filter(|c| !c.is_whitespace())
        .collect()
}

/// The text of a page as a reader finds it, without the gaps.
fn found(document: &Document, page: u32) -> String {
    let text = document.extract_text(&[page]).unwrap();
    text.chars().filter(|c| !c.is_whitespace()).collect()
}

fn operations(document: &Document, page: u32) -> Vec<(String, Vec<f32>)> {
    let at = document.get_pages()[&page];
    let content = Content::decode(&document.get_page_content(at)).unwrap();
    let numbers = |all: &[Object]| all.iter().filter_map(|o| o.as_float().ok()).collect();
    let all = content.operations.iter();
    all.map(|o| (o.operator.clone(), numbers(&o.operands)))
        .collect()
}

/// How long the lines are that run along the paper, in millimetres of it.
fn level_lines(document: &Document, page: u32) -> Vec<f32> {
    let (mut scales, mut scale, mut pen) = (Vec::new(), 1.0, [0.0; 2]);
    let mut out = Vec::new();
    for (name, values) in operations(document, page) {
        match name.as_str() {
            "q" => scales.push(scale),
            "Q" => scale = scales.pop().unwrap(),
            // How far a step to the right goes, by whatever turns it.
            "cm" => scale *= values[0].hypot(values[1]),
            "m" => pen = [values[0], values[1]],
            "l" => {
                if values[1] == pen[1] {
                    out.push((values[0] - pen[0]) * scale / 72.0 * 25.4);
                }
                pen = [values[0], values[1]];
            }
            _ => {}
        }
    }
    out
}

#[test]
fn pages_are_as_many_and_as_large_and_a_bar_is_as_long_as_it_says() {
    let plan = plan(&home().join("examples/third-leaf.json"));
    for language in ["en", "es"] {
        for paper in Paper::ALL {
            let pages = crew(&plan, 3, &words(language), paper);
            let document = read(&pages, language);
            let read = document.get_pages();
            assert_eq!(read.len(), pages.len());
            for (number, at) in &read {
                let page = document.get_dictionary(*at).unwrap();
                let sides = page.get(b"MediaBox").unwrap().as_array().unwrap();
                let sides: Vec<f32> = sides.iter().map(|s| s.as_float().unwrap()).collect();
                let (wide, high) = paper.size();
                for (side, mm) in [(0, 0.0), (1, 0.0), (2, wide), (3, high)] {
                    let own = f64::from(sides[side]) / 72.0 * 25.4;
                    assert!(
                        (own - mm).abs() < 0.001,
                        "{paper:?} {number}: {own} mm, not {mm}"
                    );
                }
                let lines = level_lines(&document, *number);
                let bars = lines.iter().filter(|mm| (*mm - 100.0).abs() < 0.02).count();
                assert_eq!(bars, 1, "{language} {paper:?} {number}: {lines:?}");
            }
            // The stick of the stubs, on the first sheet of that pass.
            let stick = |page: &u32| {
                level_lines(&document, *page)
                    .iter()
                    .any(|mm| (mm - 150.0).abs() < 0.02)
            };
            assert_eq!(read.keys().filter(|p| stick(p)).count(), 1);
            let root = document.catalog().unwrap();
            assert_eq!(
                root.get(b"Lang").unwrap().as_str().unwrap(),
                language.as_bytes()
            );
            let shown = root.get(b"ViewerPreferences").unwrap().as_dict().unwrap();
            assert_eq!(
                shown.get(b"PrintScaling").unwrap().as_name().unwrap(),
                b"None"
            );
        }
    }
}

#[test]
fn a_reader_finds_all_text_once_in_its_order() {
    let plan = plan(&home().join("examples/third-leaf.json"));
    for language in ["en", "es"] {
        let words = words(language);
        let mut pages = crew(&plan, 3, &words, Paper::A4);
        let options = DocumentOptions {
            words: &words,
            foliage: true,
            time: None,
            field: None,
            work: &[],
        };
        let row = PosedRow::of(&plan.found, &plan.targets);
        pages.push(document_with(&plan, &row, &options));
        let document = read(&pages, language);
        for (number, page) in (1..).zip(&pages) {
            assert_eq!(found(&document, number), texts(page), "{language} {number}");
        }
        let marked = ["tree", "árbol"][usize::from(language == "es")];
        assert!(found(&document, 1).contains(marked));
    }
}

#[test]
fn three_hundred_pieces_are_three_hundred_boxes() {
    let sketch = RowSketch {
        trees: 60,
        leaf: 4,
        ..RowSketch::usual(LengthStyle::Metric)
    };
    let plan = Plan::new("Many", sketch.row().unwrap());
    let all = plan.found.trees.iter().flat_map(|t| {
        let uprights = t.shoots.iter().filter(|s| s.kind() == Kind::Upright);
        uprights.map(|s| Work::Remove {
            tree: t.id,
            shoot: s.id,
        })
    });
    let work: Vec<Work> = all.take(300).collect();
    assert_eq!(work.len(), 300);
    let plan = plan.with_works(0, Moment::dormant(4), work).unwrap();
    let words = words("es");
    let season = season(&plan, 0, 4).unwrap();
    let of_work = Handed::all(&plan, &season, &words)
        .find(|h| h.pass.count() == 300)
        .unwrap();
    let document = read(&pass_sheets(&of_work, Paper::Letter), "es");
    let boxes = |page: u32| {
        let all = operations(&document, page);
        // Three steps of 14 pixels round a square, closed, and a line around it.
        let square = |w: &&[(String, Vec<f32>)]| {
            let names: Vec<&str> = w.iter().map(|o| o.0.as_str()).collect();
            let step = |i: usize, side: usize| (w[i].1[side] - w[i - 1].1[side]).abs();
            let round = |x: f32| (x * 10.0).round() / 10.0;
            names == ["m", "l", "l", "l", "h", "S"]
                && [step(1, 0), step(2, 1), step(3, 0)].map(round) == [14.0; 3]
        };
        all.windows(6).filter(square).count()
    };
    let counted: usize = document.get_pages().keys().map(|p| boxes(*p)).sum();
    assert_eq!(counted, 300);
}

#[test]
fn whatever_a_name_holds_comes_as_text() {
    let mut plan = plan(&home().join("examples/third-leaf.json"));
    plan.name = "A</text> & <b>\u{7}(x) \\) ½≠ 樹 ñ\u{202e}İ".into();
    let pages = crew(&plan, 3, &words("en"), Paper::A4);
    let about = About {
        title: &plan.name,
        language: "en",
    };
    let bytes = pdf(&pages, about).unwrap();
    assert_eq!(bytes, pdf(&pages, about).unwrap());
    let document = Document::load_mem(&bytes).unwrap();
    let text = found(&document, 2);
    assert!(text.contains("A</text>&<b>(x)\\)½≠樹ñİ"), "{text}");
}

/// The page that sets two schemes of a plan beside each other; none where there is one alone.
fn beside(plan: &Plan, words: &Words) -> Option<String> {
    let moment = plan.start();
    let rows = [0, 1].map(|n| replay(plan, n, moment).ok());
    let years = [0, 1].map(|n| Forecast::default().of(plan, n, moment.leaf + 4).ok());
    let ([Some(a), Some(b)], [Some(of_a), Some(of_b)]) = (rows, years) else {
        return None;
    };
    let time = Time {
        moment,
        phase: Phase::After,
        stands: false,
    };
    let side = |at: usize, row, years| Side {
        row,
        time,
        work: &[],
        series: Series {
            name: &plan.schemes[at].name,
            years,
            ranges: None,
            light: None,
        },
    };
    let both = Both {
        plan,
        sides: [side(0, &a.row, &of_a), side(1, &b.row, &of_b)],
        figures: &[("≈".into(), ["½".into(), "1".into()])],
        words,
    };
    Some(sheet_beside(&both, Paper::A4))
}

/// The wall's own pages.
fn wall(plan: &Plan, words: &Words) -> Vec<String> {
    let moment = plan.start();
    let work = plan.work_at(0, moment).unwrap();
    let found = PosedRow::of(&plan.found, &plan.targets);
    let worked = replay(plan, 0, moment).unwrap().row;
    let told = Told {
        plan,
        row: &found,
        worked: &worked,
        time: Some(Time {
            moment,
            phase: Phase::Before,
            stands: false,
        }),
        date: "2031-02-03",
        work: &work,
        field: None,
        findings: &[],
        matters: &[],
        figures: &[],
        words,
    };
    sheets(&told, Paper::Letter)
}

#[test]
fn every_example_can_be_written_and_no_letter_is_missing() {
    let (mut seen, mut compared) = (0, 0);
    for folder in ["examples", "examples/lessons"] {
        let mut all: Vec<PathBuf> = fs::read_dir(home().join(folder))
            .unwrap()
            .map(|e| e.unwrap().path())
            .collect();
        all.retain(|path| path.extension().is_some_and(|e| e == "json"));
        for path in all {
            let plan = plan(&path);
            for language in ["en", "es"] {
                let words = words(language);
                let mut pages = crew(&plan, plan.found.leaf, &words, Paper::Letter);
                pages.extend(wall(&plan, &words));
                let two = beside(&plan, &words);
                compared += two.iter().count();
                pages.extend(two);
                let missing: Vec<char> = pages
                    .iter()
                    .flat_map(|p| texts(p).chars().collect::<Vec<_>>())
                    .filter(|c| !has(*c))
                    .collect();
                assert!(missing.is_empty(), "{}: {missing:?}", path.display());
                let about = About {
                    title: "",
                    language,
                };
                pdf(&pages, about).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
                seen += pages.len();
            }
        }
    }
    assert!(seen > 200 && compared > 10, "{seen} pages, {compared}");
}

/// The sources of all that is told and drawn, and what of a line is no remark.
#[test]
fn every_letter_of_every_text_is_in_the_font() {
    let mut sources = Vec::new();
    let mut folders = vec![
        (home().join("crates/words/lang"), "ftl", "#"),
        (home().join("crates/words/src"), "rs", "//"),
        (home().join("crates/draw/src"), "rs", "//"),
    ];
    while let Some((folder, ending, remark)) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push((path, ending, remark));
            } else if path.extension().is_some_and(|e| e == ending) {
                let text = fs::read_to_string(&path).unwrap();
                // What tests ask about may be of any script.
                let text = text.split("#[cfg(test)]").next().unwrap().to_string();
                let lines = text.lines().filter(|l| !l.trim_start().starts_with(remark));
                sources.push((path, lines.collect::<String>()));
            }
        }
    }
    assert!(sources.len() > 50, "{}", sources.len());
    for (path, text) in sources {
        let missing: Vec<char> = text
            .chars()
            .filter(|c| !c.is_whitespace() && !has(*c))
            .collect();
        assert!(missing.is_empty(), "{}: {missing:?}", path.display());
    }
    // A font that had them all would tell nothing.
    assert!(!has('樹') && has('☐') && has('½') && has('¿'));
}
