//! Small drawings of single trees, as a crew's sheet has them.

use crate::element::group;
use crate::frame;
use crate::strip::{extent, window};
use crate::tree::{self, Options};
use crate::{Detail, work};
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
pub const SCALE: f64 = 11.0;
/// Room on its left, where its number may reach beyond its foot, and on its right, mm of wall.
const BESIDE: (f64, f64) = (300.0, 80.0);
/// Room over it, and under the ground, mm of wall.
const OVER: f64 = 120.0;
const UNDER: f64 = 260.0;

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
    let options = Options {
        foliage: false,
        px: Some(SCALE),
    };
    let mut out = group("crew-picture");
    let mut wall = window("wall", span, -top, high, 1.0 / SCALE, 0.0);
    wall.append(frame::backdrop_element(alone, span));
    wall.append(tree::element(&alone.posed()[0], Detail::Full, options, &[]));
    for sign in work::elements(alone, signs, moment, terms, options) {
        let mut signs = group("work");
        signs.append(sign);
        wall.append(signs);
    }
    wall.append(frame::ground(span, 1.0 / SCALE));
    if numbers {
        for number in frame::of_uprights(alone, span, 1.0 / SCALE) {
            wall.append(number);
        }
    }
    wall.append(frame::numbers(alone, span, 1.0 / SCALE, words));
    out.append(wall);
    (out, high / SCALE)
}
