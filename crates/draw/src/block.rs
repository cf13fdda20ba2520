//! What a sheet of paper is put together from.

use crate::element::{add, clean, el, group, path, text};
use crate::paper::PX;
use crate::pen::{Pen, num, translate};
use cordonry::cover::Cover;
use cordonry::row::Row;
use cordonry::said::Arg;
use cordonry::units::LengthStyle;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::{Element, Style};

/// From a line of text to the next, pixels.
pub(crate) const LINE: f64 = 17.0;
/// Under the head, pixels.
pub(crate) const HEAD_GAP: f64 = 26.0;
/// Most lines of the plan's note.
pub(crate) const NOTE_LINES: usize = 4;

/// A part of a sheet that is kept together, from its own upper edge on.
pub(crate) struct Block {
    pub element: Element,
    /// Pixels.
    pub height: f64,
}

impl Block {
    /// The block at a place on the paper.
    pub(crate) fn placed(&self, at: Point) -> Element {
        let mut out = self.element.clone();
        out.assign("transform", translate(at));
        out
    }
}

/// A line of text.
pub(crate) fn at(class: &str, x: f64, y: f64, content: &str) -> Element {
    text(
        "text",
        &[("class", class), ("x", &num(x)), ("y", &num(y))],
        content,
    )
}

/// A paper as an SVG element: its title and description for whoever can't see it, its style and what stands on it.
/// Width and height in pixels; the drawing is as large as the paper where it is printed at 100 %.
pub(crate) fn paper(
    (width, height): (f64, f64),
    (title, about): (&str, &str),
    style: &str,
    content: Element,
) -> Element {
    let mut out = el(
        "svg",
        &[("xmlns", "http://www.w3.org/2000/svg"), ("role", "img")],
    );
    out.append(text("title", &[], title));
    out.append(text("desc", &[], about));
    out.append(Style::new(style));
    let mut ground = Pen::default();
    ground.rect(0.0, 0.0, width, height);
    add(&mut out, path("paper", &ground));
    out.append(content);
    out.assign("viewBox", format!("0 0 {} {}", num(width), num(height)));
    out.assign("width", format!("{}mm", num(width / PX)));
    out.assign("height", format!("{}mm", num(height / PX)));
    out
}

/// The name that stands over a row.
pub(crate) fn title(name: &str) -> &str {
    match name.trim() {
        "" => "–",
        _ => name,
    }
}

/// Leaf, trees and wire in a sentence without its full stop.
pub(crate) fn summary(row: &Row, cover: &Cover, words: &Words) -> String {
    words.text(
        "draw-summary",
        &[
            ("leaf", Arg::Count(row.leaf.into())),
            ("trees", Arg::Count(row.trees.len() as i64)),
            ("length", Arg::Length(cover.owed)),
            ("filled", Arg::Share(cover.fill_share())),
        ],
    )
}

/// What a drawing is, for whoever can't see it.
pub(crate) fn about(summary: &str, words: &Words) -> String {
    words.text("draw-about", &[("summary", Arg::Text(clean(summary)))])
}

/// The scale with a bar that ends at `right`: a metre on the wall, or three feet.
pub(crate) fn scale_bar(parent: &mut Element, ratio: f64, right: f64, y: f64, words: &Words) {
    let unit = match words.style {
        LengthStyle::Metric => 1000.0,
        LengthStyle::FeetInches => 3.0 * 304.8,
    };
    let left = right - unit * PX / ratio;
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
                ("length", Arg::Length(unit)),
            ],
        ),
    ));
    parent.append(own);
}

/// A drawing's markup as a file of its own.
pub fn file(svg: &str) -> String {
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{svg}\n")
}
