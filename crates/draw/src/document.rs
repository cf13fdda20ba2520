//! A whole sheet: the row as a stand-alone SVG file, in strips to a round scale.

use crate::Detail;
use crate::band::{self, BAND_HEIGHT};
use crate::element::{add, clean, el, group, path, text};
use crate::frame;
use crate::pen::{Pen, num, translate};
use crate::tree::{self, Options};
use crate::{style, work};
use cordonry::cover::{Span, cover, upright_places};
use cordonry::plan::Plan;
use cordonry::pose::{Geometry, layout};
use cordonry::row::{Row, Tree};
use cordonry::units::{LengthStyle, show_length};
use cordonry::words::{Arg, Words};
use cordonry::work::Work;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::{Element, Style};

/// Pixels in a millimetre of paper, at CSS's 96 to the inch.
const PAPER: f64 = 96.0 / 25.4;
/// Width of the sheet, millimetres of paper: A4 on its side.
const WIDTH: f64 = 297.0;
/// Margin, pixels.
const MARGIN: f64 = 38.0;
/// Scales that a drawing may have; a row too long for the last is cut into strips.
const SCALES: [f64; 7] = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0];
/// Room beside the row's ends, mm on the wall.
const BESIDE: f64 = 250.0;
/// How far twigs, leaves and signs may reach beyond a tree's axes, mm.
const ASIDE: f64 = 700.0;
/// Room at the left of a strip for the heights, pixels.
const GUTTER: f64 = 66.0;

/// What a sheet shows beside the row itself.
#[derive(Clone, Copy)]
pub struct Sheet<'a> {
    /// Language and units.
    pub words: &'a Words,
    /// Leaves, as a light tone.
    pub foliage: bool,
    /// Work whose signs are drawn over the row, which then is the row before it.
    pub work: &'a [Work],
}

/// The row as a stand-alone SVG file, in metres and English, without work.
pub fn document(plan: &Plan, row: &Row) -> String {
    let words = Words::default();
    document_with(
        plan,
        row,
        &Sheet {
            words: &words,
            foliage: false,
            work: &[],
        },
    )
}

/// As [`document`], with what `sheet` asks for.
pub fn document_with(plan: &Plan, row: &Row, sheet: &Sheet<'_>) -> String {
    let g = Geometry::of(row, &plan.targets);
    let cover = cover(row, &plan.targets);
    let places = upright_places(row, g);
    let words = sheet.words;
    let extents: Vec<Span> = row.trees.iter().map(|t| extent(t, g)).collect();
    let whole = stretch(row, &extents);
    let (ratio, strips) = strips(whole);
    let px_per_mm = PAPER / ratio;
    let px = 1.0 / px_per_mm;
    let width = WIDTH * PAPER;
    let top = frame::top_of(row, g) + 120.0;
    let below = 24.0 * px;
    let wall_height = (top + below) * px_per_mm;

    let mut out = el(
        "svg",
        &[("xmlns", "http://www.w3.org/2000/svg"), ("role", "img")],
    );
    let title = if plan.name.trim().is_empty() {
        "–"
    } else {
        &plan.name
    };
    let length = cover.owed;
    let summary = words.text(
        "draw-summary",
        &[
            ("leaf", Arg::Count(row.leaf.into())),
            ("trees", Arg::Count(row.trees.len() as i64)),
            ("length", Arg::Length(length)),
            ("filled", Arg::Share(cover.fill_share())),
        ],
    );
    out.append(text("title", &[], title));
    out.append(text(
        "desc",
        &[],
        &words.text("draw-about", &[("summary", Arg::Text(clean(&summary)))]),
    ));
    out.append(Style::new(style::fixed(px)));
    let mut page = group("sheet");

    let mut y = MARGIN + 14.0;
    page.append(at("sheet-title", MARGIN, y, title));
    y += 20.0;
    page.append(at("sheet-text", MARGIN, y, &format!("{summary}.")));
    scale_bar(&mut page, px_per_mm, ratio, width - MARGIN, y - 14.0, words);
    for line in wrapped(&plan.note, 150, 4) {
        y += 17.0;
        page.append(at("sheet-text", MARGIN, y, &line));
    }
    y += 26.0;

    let options = Options {
        foliage: sheet.foliage,
        px: Some(px),
    };
    let left = MARGIN + GUTTER;
    for span in &strips {
        let mut wall = window("wall", *span, -top, top + below, px_per_mm, left, y);
        wall.append(frame::backdrop_element(row, *span));
        let near = |i: &usize| {
            let own = extents[*i];
            own.to >= span.from - ASIDE && own.from <= span.to + ASIDE
        };
        let shown: Vec<usize> = (0..row.trees.len()).filter(near).collect();
        for i in &shown {
            wall.append(tree::element(&row.trees[*i], g, Detail::Full, options));
        }
        let on_shown = |w: &&Work| shown.iter().any(|i| Some(row.trees[*i].id) == w.tree());
        let work: Vec<Work> = sheet.work.iter().filter(on_shown).cloned().collect();
        for mark in work::elements(row, &work, g, options) {
            wall.append(mark);
        }
        pins(&mut wall, plan, *span, px);
        page.append(wall);
        // The labels stand beside the strip, over nothing.
        let wide = Span {
            from: span.from - GUTTER * px,
            to: span.to,
        };
        let mut labels = window("wall", wide, -top, top + below, px_per_mm, MARGIN, y);
        labels.assign("overflow", "visible");
        labels.append(frame::foreground_element(row, wide, px_per_mm, words));
        labels.append(frame::numbers(row, *span, px_per_mm, words));
        page.append(labels);
        y += wall_height + 6.0;
        page.append(at(
            "sheet-text",
            MARGIN,
            y + 16.0,
            &words.plain("draw-cordon"),
        ));
        let mut strip = el(
            "svg",
            &[
                ("height", &num(BAND_HEIGHT)),
                (
                    "viewBox",
                    &format!(
                        "{} 0 {} {}",
                        num(span.from * px_per_mm),
                        num(span.length() * px_per_mm),
                        num(BAND_HEIGHT)
                    ),
                ),
                ("width", &num(span.length() * px_per_mm)),
                ("x", &num(left)),
                ("y", &num(y)),
            ],
        );
        strip.append(band::element(
            &cover,
            &places,
            *span,
            &plan.targets,
            words,
            px_per_mm,
        ));
        page.append(strip);
        y += BAND_HEIGHT + 24.0;
    }
    if !plan.marks.is_empty() {
        page.append(at(
            "sheet-text strong",
            MARGIN,
            y,
            &words.plain("draw-notes"),
        ));
        for (i, mark) in plan.marks.iter().enumerate() {
            let note = format!("{}  {}", i + 1, mark.text);
            for line in wrapped(&note, 150, 6) {
                y += 17.0;
                page.append(at("sheet-text", MARGIN, y, &line));
            }
        }
        y += 20.0;
    }
    let height = y + MARGIN - 24.0;
    let mut paper = Pen::default();
    paper.rect(0.0, 0.0, width, height);
    add(&mut out, path("paper", &paper));
    out.append(page);
    out.assign("viewBox", format!("0 0 {} {}", num(width), num(height)));
    out.assign("width", format!("{}mm", num(WIDTH)));
    out.assign("height", format!("{}mm", num(height / PAPER)));
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{out}\n")
}

/// The stretch that a tree's axes take up.
fn extent(tree: &Tree, g: Geometry) -> Span {
    let foot = Span::between(tree.foot.f(), tree.foot.f());
    layout(tree, g).iter().fold(foot, |out, c| {
        let (base, tip) = (c.base.x, c.tip().x);
        Span {
            from: out.from.min(base).min(tip),
            to: out.to.max(base).max(tip),
        }
    })
}

/// The stretch that the sheet shows, mm: the row, its posts and all wood.
fn stretch(row: &Row, extents: &[Span]) -> Span {
    let all = extents.iter().fold(frame::reach(row), |out, own| Span {
        from: out.from.min(own.from),
        to: out.to.max(own.to),
    });
    Span {
        from: all.from - BESIDE,
        to: all.to + BESIDE,
    }
}

/// The scale's ratio, and the stretches that fit on the sheet's width.
fn strips(whole: Span) -> (f64, Vec<Span>) {
    let usable = WIDTH - (2.0 * MARGIN + GUTTER) / PAPER;
    let length = whole.length().max(1000.0);
    let last = SCALES[SCALES.len() - 1];
    let ratio = SCALES
        .into_iter()
        .find(|n| length / n <= usable)
        .unwrap_or(last);
    let count = (length / ratio / usable).ceil().max(1.0);
    let each = length / count;
    let span = |i: u32| Span {
        from: whole.from + each * f64::from(i),
        to: whole.from + each * f64::from(i + 1),
    };
    (ratio, (0..count as u32).map(span).collect())
}

/// An inner drawing that shows a stretch of the wall and cuts off what lies beside it.
fn window(class: &str, span: Span, y0: f64, high: f64, scale: f64, x: f64, y: f64) -> Element {
    el(
        "svg",
        &[
            ("class", class),
            ("height", &num(high * scale)),
            (
                "viewBox",
                &format!(
                    "{} {} {} {}",
                    num(span.from),
                    num(y0),
                    num(span.length()),
                    num(high)
                ),
            ),
            ("width", &num(span.length() * scale)),
            ("x", &num(x)),
            ("y", &num(y)),
        ],
    )
}

fn at(class: &str, x: f64, y: f64, content: &str) -> Element {
    text(
        "text",
        &[("class", class), ("x", &num(x)), ("y", &num(y))],
        content,
    )
}

fn scale_bar(page: &mut Element, px_per_mm: f64, ratio: f64, right: f64, y: f64, words: &Words) {
    let unit = match words.style {
        LengthStyle::Metric => 1000.0,
        LengthStyle::FeetInches => 3.0 * 304.8,
    };
    let left = right - unit * px_per_mm;
    let mut own = group("scale-bar");
    let mut pen = Pen::default();
    pen.rect(left, y, (left + right) / 2.0, y + 5.0);
    add(&mut own, path("scale-half", &pen));
    let mut pen = Pen::default();
    pen.rect(left, y, right, y + 5.0);
    add(&mut own, path("scale-edge", &pen));
    own.append(at(
        "sheet-text end",
        right,
        y + 19.0,
        &words.text(
            "draw-scale",
            &[
                ("ratio", Arg::Number(ratio, 0)),
                ("length", Arg::Text(show_length(unit, words.style))),
            ],
        ),
    ));
    page.append(own);
}

/// The plan's notes as numbered pins on the wall.
fn pins(wall: &mut Element, plan: &Plan, span: Span, px: f64) {
    for (i, mark) in plan.marks.iter().enumerate() {
        let (x, z) = (mark.x.f(), mark.z.f());
        if x < span.from || x > span.to {
            continue;
        }
        let transform = format!("{} scale({})", translate(Point::new(x, -z)), num(px));
        let mut own = el("g", &[("class", "pin"), ("transform", &transform)]);
        own.append(el("circle", &[("class", "pin-head"), ("r", "8")]));
        own.append(text(
            "text",
            &[("class", "pin-number"), ("y", "4")],
            &(i + 1).to_string(),
        ));
        wall.append(own);
    }
}

/// The text in lines of at most `width` letters; what does not fit into `most` lines ends in an ellipsis.
fn wrapped(content: &str, width: usize, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let content = clean(content);
    for word in content.split_whitespace() {
        let mut letters: Vec<char> = word.chars().collect();
        while !letters.is_empty() {
            let piece: String = letters.drain(..letters.len().min(width)).collect();
            let room = lines
                .last()
                .is_some_and(|l| l.chars().count() + 1 + piece.chars().count() <= width);
            match lines.last_mut() {
                Some(line) if room => {
                    line.push(' ');
                    line.push_str(&piece);
                }
                _ => lines.push(piece),
            }
        }
    }
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            last.push_str(" …");
        }
    }
    lines
}
