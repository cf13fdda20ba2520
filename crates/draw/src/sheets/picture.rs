//! Small drawings of single trees, as a crew's sheet has them.

use crate::element::{group, text};
use crate::frame;
use crate::measure::{self, Face};
use crate::pen::num;
use crate::strip::{extent, window};
use crate::tree::{self, Options};
use crate::{Detail, work};
use cordonry::arrange::Arrange;
use cordonry::cover::Span;
use cordonry::pose::PosedRow;
use cordonry::row::{Moment, Row, Tree, TreeId};
use cordonry::terms::Terms;
use cordonry::work::{Work, apply_to_tree};
use cordonry_words::Words;
use std::sync::Arc;
use svg::node::Node;
use svg::node::element::Element;

/// Millimetres of wall in a pixel of the drawing.
pub const SCALE: f64 = 13.0;
/// Room on its left, where its number may reach beyond its foot, and on its right, where side branches do: mm of wall.
const BESIDE: (f64, f64) = (600.0, 260.0);
/// Size of the numbers' letters, pixels: figures 3.5 mm high.
const NUMBER: f64 = 18.0;
/// Room over it, and under the ground, mm of wall.
const OVER: f64 = 120.0;
const UNDER: f64 = 420.0;

/// The row of a pass with all its trees but one left out.
pub fn alone(row: &PosedRow, tree: TreeId) -> Option<PosedRow> {
    let own = row.of_tree(tree)?;
    let row = Row {
        trees: vec![Arc::clone(own.tree())],
        ..row.row().clone()
    };
    Some(PosedRow::new(row, own.geometry()))
}

/// The tree of such a row after some work; what can't be done is left out.
pub fn after(alone: &PosedRow, work: &[Work], moment: Moment, terms: &Terms) -> PosedRow {
    let mut tree = Tree::clone(&alone.trees[0]);
    for work in work {
        tree = apply_to_tree(&tree, moment, terms, work).unwrap_or(tree);
    }
    let row = Row {
        trees: vec![Arc::new(tree)],
        ..alone.row().clone()
    };
    PosedRow::new(row, alone.geometry())
}

/// How wide the drawing of the tree that stands alone in its row is, pixels.
pub fn width(alone: &PosedRow) -> f64 {
    let own = extent(&alone.posed()[0]);
    (own.to - own.from + BESIDE.0 + BESIDE.1) / SCALE
}

/// A drawing of the tree that stands alone in its row, at most `width` pixels wide, and how wide and high it is.
pub fn picture(
    alone: &PosedRow,
    (signs, moment, terms): (&[Work], Moment, &Terms),
    numbers: bool,
    (width, tallest): (f64, f64),
    words: &Words,
) -> (Element, f64) {
    let own = extent(&alone.posed()[0]);
    let most = width * SCALE;
    let from = own.from - BESIDE.0;
    let to = (own.to + BESIDE.1).min(from + most);
    let span = Span { from, to };
    let top = tallest + OVER;
    let high = top + UNDER;
    let mut out = group("crew-picture");
    let mut wall = window("wall", span, -top, high, 1.0 / SCALE, 0.0);
    for part in parts(alone, span, (signs, moment, terms), numbers, SCALE, words) {
        wall.append(part);
    }
    out.append(wall);
    (out, high / SCALE)
}

/// The numbers of its uprights under the wire, large enough for a field: where one line crowds them, on two by turns.
fn upright_numbers(alone: &PosedRow, px: f64) -> Element {
    let mut out = group("of-tree");
    let mut all: Vec<_> = alone.posed()[0].numbers().collect();
    all.arrange_by(|a, b| a.1.x.total_cmp(&b.1.x));
    let mut free = [f64::NEG_INFINITY; 2];
    for (number, place) in all {
        let label = number.to_string();
        let half = measure::width(&label, FACE) / 2.0 + 1.0;
        let x = place.x / px;
        let line = match free.iter().position(|free| x - half >= *free) {
            Some(line) => line,
            None => usize::from(free[1] < free[0]),
        };
        free[line] = x + half;
        let down = if line == 0 { "1em" } else { "1.85em" };
        out.append(text(
            "text",
            &[
                ("class", "picture-number"),
                ("dy", down),
                ("x", &num(place.x)),
                ("y", &num(UNDER_WIRE - place.y)),
            ],
            &label,
        ));
    }
    out
}

/// How far under the wire the numbers stand, mm of wall: clear of the laid wood.
const UNDER_WIRE: f64 = 25.0;
const FACE: Face = Face {
    size: NUMBER,
    strong: true,
};

/// All that is drawn of it, at so many mm of wall in a pixel.
fn parts(
    alone: &PosedRow,
    span: Span,
    (signs, moment, terms): (&[Work], Moment, &Terms),
    numbers: bool,
    px: f64,
    words: &Words,
) -> Vec<Element> {
    let options = Options {
        foliage: false,
        px: Some(px),
    };
    let mut out = vec![
        frame::backdrop_element(alone, span),
        tree::element(&alone.posed()[0], Detail::Full, options, &[]),
    ];
    for sign in work::elements(alone, signs, moment, terms, options) {
        let mut signs = group("work");
        signs.append(sign);
        out.push(signs);
    }
    out.push(frame::ground(span, 1.0 / px));
    if numbers {
        out.push(upright_numbers(alone, px));
    }
    out.push(frame::numbers(alone, span, 1.0 / px, words));
    out
}

/// How wide and high the drawing is on a small screen, pixels.
const SCREEN: (f64, f64) = (340.0, 330.0);

/// The same as markup, as large as a small screen has room for; it may be shown larger.
pub fn on_screen(alone: &PosedRow, signs: (&[Work], Moment, &Terms), words: &Words) -> String {
    let own = extent(&alone.posed()[0]);
    let (from, to) = (own.from - BESIDE.0, own.to + BESIDE.1);
    let span = Span { from, to };
    let top = frame::top_of(alone, alone.geometry()) + OVER;
    let high = top + UNDER;
    let px = (span.length() / SCREEN.0).max(high / SCREEN.1);
    let mut out = format!(
        "<svg class=\"wall\" aria-hidden=\"true\" style=\"--px:{px:.3}\" viewBox=\"{from:.0} {:.0} {:.0} {high:.0}\">",
        -top,
        span.length()
    );
    for part in parts(alone, span, signs, true, px, words) {
        out += &part.to_string();
    }
    out + "</svg>"
}
