//! Small drawings of single trees, as a crew's sheet has them.

use crate::element::{group, path, text};
use crate::frame;
use crate::measure::{self, Face};
use crate::pen::{Pen, num};
use crate::strip::{extent, window};
use crate::tree::{self, Options};
use crate::wood::Wood;
use crate::{Detail, work};
use cordonry::arrange::Arrange;
use cordonry::cover::Span;
use cordonry::pose::PosedRow;
use cordonry::row::{Moment, Row, Tree, TreeId};
use cordonry::terms::Terms;
use cordonry::work::{Work, apply_to_tree};
use cordonry_words::Words;
use kurbo::Point;
use std::sync::Arc;
use svg::node::Node;
use svg::node::element::Element;

/// Millimetres of wall in a pixel of the drawing: where there is room, and at most.
pub const SCALE: f64 = 13.0;
pub const SMALLEST: f64 = 18.0;
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

/// A tree to be drawn: by itself in a row, and the row that it is found in, of which its neighbours are drawn as far as they reach
/// among its wood.
#[derive(Clone, Copy)]
pub struct Pictured<'a> {
    pub alone: &'a PosedRow,
    pub among: &'a PosedRow,
    /// What is done on it, whose signs are drawn.
    pub signs: &'a [Work],
    pub moment: Moment,
    pub terms: &'a Terms,
    /// Whether its uprights bear their numbers.
    pub numbers: bool,
    pub words: &'a Words,
}

impl Pictured<'_> {
    /// The stretch that is drawn at so many mm in a pixel: its wood, what stands out from it, and its name under its foot.
    fn span(&self, px: f64) -> Span {
        let own = extent(&self.alone.posed()[0]);
        let tree = &self.alone.trees[0];
        let named = measure::width(&frame::tree_label(tree, true, self.words), FACE);
        let half = (named / 2.0 + 2.0) * px;
        let foot = tree.foot.f();
        Span {
            from: (own.from - BESIDE.0).min(foot - half),
            to: (own.to + BESIDE.1).max(foot + half),
        }
    }

    /// How wide it is at so many mm in a pixel, mm of wall.
    pub fn wide(&self, px: f64) -> f64 {
        self.span(px).length()
    }

    /// How high it reaches, mm of wall.
    pub fn tallest(&self) -> f64 {
        frame::top_of(self.alone, self.alone.geometry())
    }

    /// The drawing, at most `width` pixels wide, and how high it is: what is as tall as `tallest` has room.
    pub fn drawn(&self, (width, tallest): (f64, f64), px: f64) -> (Element, f64) {
        let mut span = self.span(px);
        span.to = span.to.min(span.from + width * px);
        let (top, high) = reach(tallest);
        let mut out = group("crew-picture");
        let mut wall = window("wall", span, -top, high, 1.0 / px, 0.0);
        for part in self.parts(span, px) {
            wall.append(part);
        }
        out.append(wall);
        (out, high / px)
    }

    /// The same as markup, as large as a small screen has room for; it may be shown larger.
    pub fn on_screen(&self) -> String {
        let (top, high) = reach(self.tallest());
        let px = (self.wide(SCALE) / SCREEN.0).max(high / SCREEN.1);
        let span = self.span(px);
        let mut out = format!(
            "<svg class=\"wall\" aria-hidden=\"true\" style=\"--px:{px:.3}\" viewBox=\"{:.0} {:.0} {:.0} {high:.0}\">",
            span.from,
            -top,
            span.length()
        );
        for part in self.parts(span, px) {
            out += &part.to_string();
        }
        out + "</svg>"
    }

    /// All that is drawn within a stretch.
    fn parts(&self, span: Span, px: f64) -> Vec<Element> {
        let options = Options {
            foliage: false,
            px: Some(px),
        };
        let mut out = vec![frame::backdrop_element(self.alone, span)];
        out.extend(self.neighbours(span, px));
        let own = &self.alone.posed()[0];
        out.push(tree::element(own, Detail::Full, options, &[]));
        for sign in work::elements(
            self.alone,
            self.signs,
            self.moment,
            self.terms,
            None,
            options,
        ) {
            let mut signs = group("work");
            signs.append(sign);
            out.push(signs);
        }
        out.push(frame::ground(span, 1.0 / px));
        if self.numbers {
            out.push(upright_numbers(self.alone, px));
        }
        out.push(frame::numbers(self.alone, span, 1.0 / px, self.words));
        out
    }

    /// What stands of other trees among its wood, plain and with the tree's name: who counts leaves it out.
    fn neighbours(&self, span: Span, px: f64) -> Vec<Element> {
        let own = &self.alone.posed()[0];
        let among = extent(own);
        let within = |x: f64| x >= among.from && x <= among.to;
        let mut out = Vec::new();
        for other in self.among.posed() {
            let tree = other.tree();
            let woven = other.courses().iter().any(|c| within(c.base.x));
            if !woven || tree.id == own.tree().id {
                continue;
            }
            let mut pen = Pen::default();
            for (shoot, course) in other.pairs().filter(|(_, c)| c.length >= 1.0) {
                Wood::of(shoot, *course).outline(&mut pen);
            }
            out.extend(path("neighbour", &pen));
            // On an upright, halfway up; else under its foot.
            let mut uprights = other.uprights().iter().map(|at| other.courses()[*at]);
            let upright = uprights.find(|c| within(c.base.x));
            let foot = || Point::new(tree.foot.f(), -UNDER_GROUND * px);
            let at = upright.map_or_else(foot, |c| c.point(c.length / 2.0));
            let label = frame::tree_label(tree, true, self.words);
            let half = (measure::width(&label, measure::TEXT) / 2.0 + 2.0) * px;
            let x = at.x.min(span.to - half).max(span.from + half);
            out.push(text(
                "text",
                &[
                    ("class", "neighbour-name"),
                    ("x", &num(x)),
                    ("y", &num(-at.y)),
                ],
                &label,
            ));
        }
        out
    }
}

/// Up to where is drawn what is so tall, and how much that is with what lies under the ground, mm of wall.
fn reach(tallest: f64) -> (f64, f64) {
    let top = tallest + OVER;
    (top, top + UNDER)
}

/// How high the drawing of what is so tall is, mm of wall.
pub fn high(tallest: f64) -> f64 {
    reach(tallest).1
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

/// How far under the ground a neighbour's name stands, pixels.
const UNDER_GROUND: f64 = 26.0;
/// How far under the wire the numbers stand, mm of wall: clear of the laid wood.
const UNDER_WIRE: f64 = 25.0;
const FACE: Face = Face {
    size: NUMBER,
    strong: true,
};

/// How wide and high the drawing is on a small screen, pixels.
const SCREEN: (f64, f64) = (340.0, 330.0);
