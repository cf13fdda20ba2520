//! Two schemes on one page: both walls to one scale, one under the other, then figures and charts of both.

use crate::block::{LINE, about, at, paper, scale_bar, title};
use crate::chart::{self, HIGH, Series, WIDE};
use crate::element::group;
use crate::lone::lone_shoots;
use crate::measure::{STRONG, TEXT, TITLE, first_lines, wrap};
use crate::paper::{MARGIN, Paper};
use crate::pen::num;
use crate::strip::{Drawing, Room, Strips};
use crate::style;
use crate::time::{Time, signs_of};
use cordonry::cover::cover;
use cordonry::plan::Plan;
use cordonry::pose::PosedRow;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// Two schemes of a plan at one moment.
#[derive(Clone, Copy)]
pub struct Both<'a> {
    /// The plan: its name and limits.
    pub plan: &'a Plan,
    /// The schemes.
    pub sides: [Side<'a>; 2],
    /// Figures: the name of each, and its value under both.
    pub figures: &'a [(String, [String; 2])],
    /// Language and units.
    pub words: &'a Words,
}

/// One of them.
#[derive(Clone, Copy)]
pub struct Side<'a> {
    /// The row at that moment.
    pub row: &'a PosedRow,
    /// When it is so: the same moment under both.
    pub time: Time,
    /// The work of the moment.
    pub work: &'a [Work],
    /// Its name, and what it brings leaf by leaf.
    pub series: Series<'a>,
}

/// Where the walls begin, and where figures and charts do, pixels from the upper margin and to the lower one.
const HEAD: f64 = 58.0;
const FIGURES: f64 = 264.0;
/// Over each wall, for the scheme's name.
const NAME: f64 = 20.0;
/// Room for the scale's bar and its words, pixels.
const SCALE: f64 = 400.0;
/// The charts that are printed, in two columns.
const CHARTS: [&str; 4] = [
    "chart-fill",
    "chart-uprights",
    "chart-crop",
    "chart-leaf-fruit",
];
/// Share of the width that the figures take; the charts have the rest.
const TABLE: f64 = 0.44;
/// Room for the sign of a figure that differs, before both values.
const DIFFERS: f64 = 14.0;
/// Room between two charts.
const GAP: f64 = 12.0;

/// The page as an SVG element, as large as the paper where it is printed at 100 %.
pub fn sheet_beside(both: &Both<'_>, on: Paper) -> String {
    let words = both.words;
    let width = on.usable_width();
    let walls = on.usable_height() - HEAD - FIGURES;
    let each = walls / 2.0;
    let [a, b] = both.sides.map(|s| s.row);
    let lone = [lone_shoots(a, b), lone_shoots(b, a)];
    let strips = |of: usize| {
        let side = &both.sides[of];
        let drawing = Drawing {
            plan: both.plan,
            row: side.row,
            words,
            foliage: false,
            work: signs_of(Some(side.time), side.work),
            moment: side.time.moment,
            field: None,
            lone: Some(&lone[of]),
        };
        let room = Room {
            width,
            height: each - NAME,
        };
        Strips::whole(drawing, cover(side.row, &both.plan.targets), room)
    };
    let (mut own, mut other) = (strips(0), strips(1));
    // A band has nothing on its lowest pixels.
    own.match_with(&mut other, each - NAME + 8.0);

    let mut page = group("sheet");
    let mut y = MARGIN + 14.0;
    for line in first_lines(title(&both.plan.name), TITLE, width - SCALE, 1) {
        page.append(at("sheet-title", MARGIN, y, &line));
    }
    scale_bar(&mut page, own.ratio, MARGIN + width, MARGIN, words);
    let [one, two] = both.sides.map(|s| Arg::Text(s.series.name.into()));
    let names = words.text("two-title", &[("one", one), ("other", two)]);
    y += LINE + 4.0;
    for line in first_lines(&names, STRONG, width - SCALE, 1) {
        page.append(at("sheet-text strong", MARGIN, y, &line));
    }
    let mut key = words.plain("two-key");
    let doubted = |(_, values): &(String, [String; 2])| values.iter().any(|v| v.starts_with('≈'));
    if both.figures.iter().any(doubted) {
        key = format!("{key} {}", words.plain("two-about"));
    }
    for line in first_lines(&key, TEXT, width, 1) {
        page.append(at("sheet-text", MARGIN, y + LINE, &line));
    }
    for (of, strips) in [&own, &other].into_iter().enumerate() {
        let side = &both.sides[of];
        let top = MARGIN + HEAD + each * of as f64;
        let time = side.time.sentence(side.work, words);
        let name = format!("{} · {time}", side.series.name);
        for line in first_lines(&name, STRONG, width, 1) {
            page.append(at("sheet-text strong", MARGIN, top + 12.0, &line));
        }
        for block in strips.blocks() {
            page.append(block.placed(Point::new(0.0, top + NAME)));
        }
    }
    let under = MARGIN + HEAD + walls;
    page.append(figures(both, width * TABLE - 20.0, under));
    let left = MARGIN + width * TABLE;
    let wide = (width * (1.0 - TABLE) - GAP) / 2.0;
    let high = (FIGURES / 2.0 - LINE - GAP).min(wide * HIGH / WIDE);
    let series = both.sides.map(|s| s.series);
    for (i, (name, mut drawing)) in chart::elements(&series, &CHARTS, words)
        .into_iter()
        .enumerate()
    {
        let x = left + (wide + GAP) * (i % 2) as f64;
        let top = under + FIGURES / 2.0 * (i / 2) as f64;
        page.append(at("sheet-text strong", x, top + 12.0, &name));
        let size = [
            ("x", x),
            ("y", top + LINE),
            ("width", wide),
            ("height", high),
        ];
        for (key, value) in size {
            drawing.assign(key, num(value));
        }
        drawing.assign("preserveAspectRatio", "xMinYMin");
        page.append(drawing);
    }
    let size = (on.width(), on.height());
    let said = (title(&both.plan.name), about(&names, words));
    let style = style::sheet_of_schemes(own.px());
    paper(size, (said.0, &said.1), &style, page).to_string()
}

/// The figures as a table whose lines are as close as they have to be.
fn figures(both: &Both<'_>, width: f64, top: f64) -> Element {
    let columns = [0.0, width * 0.54, width * 0.77];
    let mut out = group("sheet-table");
    let names = both.sides.map(|s| s.series.name.to_string());
    let head = (String::new(), names);
    let room = width * 0.54 - DIFFERS - 8.0;
    let face = |i| match i {
        0 => ("sheet-text strong", STRONG),
        _ => ("sheet-text", TEXT),
    };
    // A long name takes two lines, and the others move together for it.
    let lines = [&head].into_iter().chain(both.figures).enumerate();
    let lines = lines.map(|(i, (name, values))| (i, wrap(name, face(i).1, room), values));
    let lines: Vec<_> = lines.collect();
    let many = |name: &[String]| name.len().max(1) as f64;
    let all: f64 = lines.iter().map(|(_, name, _)| many(name)).sum();
    let step = ((FIGURES - 14.0) / all).min(LINE);
    let mut y = top + 12.0;
    for (i, name, values) in lines {
        let face = face(i);
        for (n, line) in name.iter().enumerate() {
            out.append(at(face.0, MARGIN, y + step * n as f64, line));
        }
        for (cell, x) in values.iter().zip(&columns[1..]) {
            for line in wrap(cell, face.1, width * 0.23 - 8.0).into_iter().take(1) {
                out.append(at(face.0, MARGIN + x, y, &line));
            }
        }
        if i > 0 && values[0] != values[1] {
            let x = MARGIN + columns[1] - DIFFERS;
            out.append(at("sheet-text strong", x, y, "≠"));
        }
        y += step * many(&name);
    }
    out
}
