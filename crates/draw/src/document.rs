//! A whole sheet: the row as a stand-alone SVG file, in strips to a round scale.

use crate::Detail;
use crate::band::{self, BAND_HEIGHT};
use crate::element::{add, clean, el, group, path, text};
use crate::frame;
use crate::key;
use crate::pen::{Pen, num, translate};
use crate::tree::{self, Options};
use crate::{style, work};
use cordonry::cover::{Cover, Place, Span, cover, upright_places};
use cordonry::plan::Plan;
use cordonry::pose::{Geometry, layout};
use cordonry::row::{Moment, Row, Tree};
use cordonry::said::Arg;
use cordonry::units::{LengthStyle, show_length};
use cordonry::work::Work;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::{Element, Style};

/// Pixels in a millimetre of paper, at CSS's 96 to the inch.
const PAPER: f64 = 96.0 / 25.4;
/// Width of the sheet, millimetres of paper: A4 on its side.
const WIDTH: f64 = 297.0;
/// Its height.
const HEIGHT: f64 = 210.0;
/// Margin, pixels.
const MARGIN: f64 = 38.0;
/// What a page's height leaves between its margins, pixels.
const USABLE_HEIGHT: f64 = HEIGHT * PAPER - 2.0 * MARGIN;
/// Most lines of the plan's note.
const NOTE_LINES: usize = 4;
/// From a line to the next, under the head, below the ground and under a strip: pixels.
const LINE: f64 = 17.0;
const HEAD_GAP: f64 = 26.0;
const BELOW: f64 = 24.0;
const STRIP_GAP: f64 = 24.0;
/// Height of the signs' key: pixels.
const KEY_HEIGHT: f64 = 20.0;
/// Scales that a drawing may have; a row too long for the last is cut into strips.
const SCALES: [f64; 8] = [10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0];
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
    /// A sentence on the time of the row that is shown; may be empty.
    pub time: &'a str,
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
            time: "",
        },
    )
}

/// As [`document`], with what `sheet` asks for.
pub fn document_with(plan: &Plan, row: &Row, sheet: &Sheet<'_>) -> String {
    let drawn = Drawn::new(plan, row, sheet);
    let blocks: Vec<&Block> = drawn.blocks.iter().collect();
    let paper = drawn.paper(&blocks, None);
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{paper}\n")
}

/// The same as SVG elements to print, one for each page of A4 on its side; no strip is cut by a page's end.
pub fn pages_with(plan: &Plan, row: &Row, sheet: &Sheet<'_>) -> Vec<String> {
    let drawn = Drawn::new(plan, row, sheet);
    let mut pages: Vec<Vec<&Block>> = vec![Vec::new()];
    let mut left = USABLE_HEIGHT;
    for block in &drawn.blocks {
        let page = pages
            .last_mut()
            .filter(|p| p.is_empty() || block.height <= left);
        match page {
            Some(page) => page.push(block),
            None => {
                pages.push(vec![block]);
                left = USABLE_HEIGHT;
            }
        }
        left -= block.height;
    }
    pages
        .iter()
        .map(|blocks| drawn.paper(blocks, Some(HEIGHT * PAPER)).to_string())
        .collect()
}

/// A part of the sheet that is kept together, from its own upper edge on.
struct Block {
    element: Element,
    /// Pixels.
    height: f64,
}

/// All of a sheet, not yet laid on paper.
struct Drawn {
    title: String,
    about: String,
    style: String,
    blocks: Vec<Block>,
}

impl Drawn {
    fn new(plan: &Plan, row: &Row, sheet: &Sheet<'_>) -> Self {
        let g = Geometry::of(row, &plan.targets);
        let cover = cover(row, &plan.targets);
        let words = sheet.words;
        let title = match plan.name.trim() {
            "" => "–",
            _ => &plan.name,
        };
        let summary = words.text(
            "draw-summary",
            &[
                ("leaf", Arg::Count(row.leaf.into())),
                ("trees", Arg::Count(row.trees.len() as i64)),
                ("length", Arg::Length(cover.owed)),
                ("filled", Arg::Share(cover.fill_share())),
            ],
        );
        let wall = WholeWall::new(plan, row, sheet, g, cover);
        let about = format!("{summary}. {}", sheet.time).trim_end().to_string();
        let mut blocks = vec![head(plan, title, &about, wall.ratio, words)];
        blocks.extend(key(sheet));
        blocks.extend(wall.spans.iter().map(|span| wall.strip(*span)));
        blocks.extend(notes(plan, words));
        Self {
            title: title.into(),
            about: words.text("draw-about", &[("summary", Arg::Text(clean(&summary)))]),
            style: style::fixed(wall.px()),
            blocks,
        }
    }

    /// Blocks under each other on one paper, as high as they need or as it is.
    fn paper(&self, blocks: &[&Block], height: Option<f64>) -> Element {
        let mut out = el(
            "svg",
            &[("xmlns", "http://www.w3.org/2000/svg"), ("role", "img")],
        );
        out.append(text("title", &[], &self.title));
        out.append(text("desc", &[], &self.about));
        out.append(Style::new(self.style.clone()));
        let mut page = group("sheet");
        let mut y = MARGIN;
        for block in blocks {
            let mut own = block.element.clone();
            own.assign("transform", translate(Point::new(0.0, y)));
            page.append(own);
            y += block.height;
        }
        let width = WIDTH * PAPER;
        let height = height.unwrap_or(y + MARGIN);
        let mut ground = Pen::default();
        ground.rect(0.0, 0.0, width, height);
        add(&mut out, path("paper", &ground));
        out.append(page);
        out.assign("viewBox", format!("0 0 {} {}", num(width), num(height)));
        out.assign("width", format!("{}mm", num(WIDTH)));
        out.assign("height", format!("{}mm", num(height / PAPER)));
        out
    }
}

/// Title, summary, scale and note.
fn head(plan: &Plan, title: &str, about: &str, ratio: f64, words: &Words) -> Block {
    let mut element = group("sheet-head");
    let mut y = 14.0;
    element.append(at("sheet-title", MARGIN, y, title));
    y += 20.0;
    element.append(at("sheet-text", MARGIN, y, about));
    let right = WIDTH * PAPER - MARGIN;
    scale_bar(&mut element, ratio, right, y - 14.0, words);
    for line in wrapped(&plan.note, 150, NOTE_LINES) {
        y += LINE;
        element.append(at("sheet-text", MARGIN, y, &line));
    }
    Block {
        element,
        height: y + HEAD_GAP,
    }
}

/// What the signs for work mean, where there are any.
fn key(sheet: &Sheet<'_>) -> Option<Block> {
    let half = key::KEY_SIDE / 2.0;
    // In the room under the head.
    key::line(sheet.work, MARGIN, half - HEAD_GAP / 2.0, sheet.words).map(|element| Block {
        element,
        height: KEY_HEIGHT,
    })
}

/// The notes that are pinned on the wall.
fn notes(plan: &Plan, words: &Words) -> Option<Block> {
    if plan.marks.is_empty() {
        return None;
    }
    let mut element = group("sheet-notes");
    let mut y = 14.0;
    element.append(at(
        "sheet-text strong",
        MARGIN,
        y,
        &words.plain("draw-notes"),
    ));
    for (i, mark) in plan.marks.iter().enumerate() {
        let note = format!("{}  {}", i + 1, mark.text);
        for line in wrapped(&note, 150, 6) {
            y += LINE;
            element.append(at("sheet-text", MARGIN, y, &line));
        }
    }
    Some(Block {
        element,
        height: y + 20.0,
    })
}

/// The wall as it is drawn in strips.
struct WholeWall<'a> {
    plan: &'a Plan,
    row: &'a Row,
    sheet: &'a Sheet<'a>,
    g: Geometry,
    cover: Cover,
    places: Vec<Place>,
    extents: Vec<Span>,
    ratio: f64,
    spans: Vec<Span>,
    /// Height up to which it is drawn, mm.
    top: f64,
}

impl<'a> WholeWall<'a> {
    fn new(plan: &'a Plan, row: &'a Row, sheet: &'a Sheet<'a>, g: Geometry, cover: Cover) -> Self {
        let extents: Vec<Span> = row.trees.iter().map(|t| extent(t, g)).collect();
        let top = frame::top_of(row, g) + 120.0;
        let key = match key::Sign::all_of(sheet.work).is_empty() {
            true => 0.0,
            false => KEY_HEIGHT,
        };
        let (ratio, spans) = strips(stretch(row, &extents), top, key);
        Self {
            plan,
            row,
            sheet,
            g,
            cover,
            places: upright_places(row, g),
            extents,
            ratio,
            spans,
            top,
        }
    }

    fn px_per_mm(&self) -> f64 {
        PAPER / self.ratio
    }

    fn px(&self) -> f64 {
        1.0 / self.px_per_mm()
    }

    /// A stretch of the wall with its labels, its work and its cordon band.
    fn strip(&self, span: Span) -> Block {
        let (row, g, words) = (self.row, self.g, self.sheet.words);
        let (px_per_mm, px) = (self.px_per_mm(), self.px());
        let left = MARGIN + GUTTER;
        let (up, high) = (-self.top, self.top + BELOW * px);
        let mut element = group("sheet-strip");

        let mut wall = window("wall", span, up, high, px_per_mm, left);
        wall.append(frame::backdrop_element(row, span));
        let near = |i: &usize| {
            let own = self.extents[*i];
            own.to >= span.from - ASIDE && own.from <= span.to + ASIDE
        };
        let shown: Vec<usize> = (0..row.trees.len()).filter(near).collect();
        let options = Options {
            foliage: self.sheet.foliage,
            px: Some(px),
        };
        for i in &shown {
            wall.append(tree::element(&row.trees[*i], g, Detail::Full, options));
        }
        let on_shown = |w: &&Work| shown.iter().any(|i| Some(row.trees[*i].id) == w.tree());
        let work: Vec<Work> = self.sheet.work.iter().filter(on_shown).cloned().collect();
        let terms = self.plan.terms(&row.trellis);
        let moment = Moment::dormant(row.leaf);
        for mark in work::elements(row, &work, moment, &terms, options) {
            wall.append(mark);
        }
        pins(&mut wall, self.plan, span, px);
        element.append(wall);

        // The labels stand beside the strip, over nothing.
        let wide = Span {
            from: span.from - GUTTER * px,
            to: span.to,
        };
        let mut labels = window("wall", wide, up, high, px_per_mm, MARGIN);
        labels.assign("overflow", "visible");
        labels.append(frame::foreground_element(row, wide, px_per_mm, words));
        labels.append(frame::numbers(row, span, px_per_mm, words));
        element.append(labels);

        let y = high * px_per_mm + 6.0;
        element.append(at(
            "sheet-text",
            MARGIN,
            y + 16.0,
            &words.plain("draw-cordon"),
        ));
        let band_span = Span {
            from: span.from * px_per_mm,
            to: span.to * px_per_mm,
        };
        let mut band = window("", band_span, 0.0, BAND_HEIGHT, 1.0, left);
        band.assign("y", num(y));
        band.append(band::element(
            &self.cover,
            &self.places,
            span,
            &self.plan.targets,
            words,
            px_per_mm,
        ));
        element.append(band);
        Block {
            element,
            height: y + BAND_HEIGHT + STRIP_GAP,
        }
    }
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

/// The scale's ratio, and the stretches that fit on the sheet's width: the largest at which the row fits on one page, or
/// else the smallest.
fn strips(whole: Span, top: f64, key: f64) -> (f64, Vec<Span>) {
    let usable = WIDTH - (2.0 * MARGIN + GUTTER) / PAPER;
    let head = 14.0 + 20.0 + NOTE_LINES as f64 * LINE + HEAD_GAP;
    let beside = head + key + BELOW + 6.0 + BAND_HEIGHT + STRIP_GAP;
    let usable_height = (USABLE_HEIGHT - beside) / PAPER;
    let length = whole.length().max(1000.0);
    let last = SCALES[SCALES.len() - 1];
    let ratio = SCALES
        .into_iter()
        .find(|n| length / n <= usable && top / n <= usable_height)
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
fn window(class: &str, span: Span, y0: f64, high: f64, scale: f64, x: f64) -> Element {
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

fn scale_bar(page: &mut Element, ratio: f64, right: f64, y: f64, words: &Words) {
    let unit = match words.style {
        LengthStyle::Metric => 1000.0,
        LengthStyle::FeetInches => 3.0 * 304.8,
    };
    let left = right - unit * PAPER / ratio;
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
