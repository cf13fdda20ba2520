//! What the wall hangs on and is measured by: ground, posts, wires and their heights.

use crate::element::{add, group, markup, path, text};
use crate::pen::{Pen, num, scale};
use cordonry::arrange::Arrange;
use cordonry::cover::Span;
use cordonry::pose::{AnyRow, Geometry, PosedRow};
use cordonry::range::LENGTH;
use cordonry::row::{Row, Tree};
use cordonry::said::Arg;
use cordonry_words::Words;
use kurbo::Point;
use std::sync::Arc;
use svg::node::Node;
use svg::node::element::Element;

/// Thickness of a post, mm.
const POST: f64 = 90.0;
/// How far a post stands out above the highest wire, mm.
const POST_ABOVE: f64 = 60.0;
/// Room that a line of text takes up on the screen, pixels.
const LINE: f64 = 15.0;
/// Width of one letter of a label, pixels.
const LETTER: f64 = 6.8;

/// Posts, wires, ground, their heights and the wall's, within `view`: [`backdrop`] and [`foreground`] in one, where
/// no tree comes between.
pub fn frame(row: &Row, view: Span, px_per_mm: f64, words: &Words) -> String {
    markup([
        backdrop_element(row, view),
        foreground_element(row, view, px_per_mm, words),
    ])
}

/// What stands behind the trees: posts, wires and the line of the wall's height.
pub fn backdrop(row: &Row, view: Span) -> String {
    backdrop_element(row, view).to_string()
}

/// What lies over the trees: the ground, each wire's height at the left of `view` and the wall's at its right, worded
/// by `words`; labels that would crowd each other at `px_per_mm` are left out.
pub fn foreground(row: &Row, view: Span, px_per_mm: f64, words: &Words) -> String {
    foreground_element(row, view, px_per_mm, words).to_string()
}

/// The height that the drawing has to show, mm: of the wall, the highest wire and the tallest shoot. The labels
/// want some 16 pixels above it, and the trees' numbers 24 below the ground.
pub fn top_of(row: &impl AnyRow, g: Geometry) -> f64 {
    let posed = row.posed_in(g);
    let row = row.row();
    let trees = posed.iter().flat_map(|t| t.courses()).map(|c| c.tip().y);
    let wires = row.trellis.wires.iter().map(|w| w.height.f() + POST_ABOVE);
    trees
        .chain(wires)
        .filter(|z| z.is_finite())
        .fold(row.trellis.wall_height.f(), f64::max)
}

/// Where wires and wall begin and end: the row, and the posts that stand beyond it.
pub(crate) fn reach(row: &Row) -> Span {
    let posts = row.trellis.posts.iter().map(|p| p.f());
    let mut out = Span::between(row.from.f(), row.to.f());
    for x in posts {
        out = Span::between(out.from.min(x), out.to.max(x));
    }
    out
}

fn level_line(pen: &mut Pen, span: Span, z: f64) {
    if span.length() > 0.0 {
        pen.line(Point::new(span.from, -z), Point::new(span.to, -z));
    }
}

fn clip(span: Span, view: Span) -> Span {
    Span {
        from: span.from.max(view.from),
        to: span.to.min(view.to),
    }
}

pub(crate) fn backdrop_element(row: &Row, view: Span) -> Element {
    let mut out = group("backdrop");
    let wall = clip(reach(row), view);
    let top = row
        .trellis
        .wires
        .iter()
        .map(|w| w.height.f())
        .fold(row.trellis.wall_height.f(), f64::max)
        + POST_ABOVE;
    let mut posts = Pen::default();
    for x in row.trellis.posts.iter().map(|p| p.f()) {
        if x + POST > view.from && x - POST < view.to {
            posts.rect(x - POST / 2.0, -top, x + POST / 2.0, 0.0);
        }
    }
    add(&mut out, path("post", &posts));
    let mut pen = Pen::default();
    level_line(&mut pen, wall, row.trellis.wall_height.f());
    add(&mut out, path("wall-height", &pen));
    for (i, wire) in row.trellis.wires.iter().enumerate() {
        let mut pen = Pen::default();
        level_line(&mut pen, wall, wire.height.f());
        let class = if i == 0 { "wire cordon-wire" } else { "wire" };
        if let Some(mut line) = path(class, &pen) {
            line.assign("data-height", wire.height.0);
            out.append(line);
        }
    }
    out
}

/// The line of the ground, and strokes under it as earth is drawn in an elevation.
pub(crate) fn ground(view: Span, px_per_mm: f64) -> Element {
    let mut out = group("ground");
    let px = 1.0 / px_per_mm;
    let mut earth = Pen::default();
    let step = (70.0 * px).max(100.0);
    let first = (view.from / step).floor();
    let groups = ((view.to - view.from) / step).clamp(0.0, 400.0) as u32 + 1;
    for i in 0..=groups {
        let x = (first + f64::from(i)) * step;
        for k in 0..3 {
            let from = x + f64::from(k) * 5.0 * px;
            let to = from - 5.0 * px;
            if to >= view.from && from <= view.to {
                earth.line(Point::new(from, 0.0), Point::new(to, 5.0 * px));
            }
        }
    }
    add(&mut out, path("earth", &earth));
    let mut line = Pen::default();
    level_line(&mut line, view, 0.0);
    add(&mut out, path("ground-line", &line));
    out
}

/// Where a label that is `wide` mm and would begin at `x` begins, so that no post stands behind it.
fn clear_of_posts(row: &Row, x: f64, wide: f64) -> f64 {
    let in_way = |x: f64| {
        let posts = row.trellis.posts.iter().map(|p| p.f());
        let mut over = posts.filter(|p| p + POST / 2.0 > x && p - POST / 2.0 < x + wide);
        over.next().map(|p| p + POST / 2.0)
    };
    // Past one post there may be another, but hardly a third.
    let beside = in_way(x).unwrap_or(x);
    in_way(beside).unwrap_or(beside)
}

pub(crate) fn foreground_element(row: &Row, view: Span, px_per_mm: f64, words: &Words) -> Element {
    let px_per_mm = scale(px_per_mm);
    let mut out = group("foreground");
    out.append(ground(view, px_per_mm));
    let mut last = 0.0;
    for (i, wire) in row.trellis.wires.iter().enumerate() {
        let z = wire.height.f();
        // The cordon wire's height is always told.
        if i > 0 && (z - last) * px_per_mm < LINE {
            continue;
        }
        last = z;
        let label = words.length(z);
        let wide = (label.chars().count() as f64 * LETTER + LINE / 2.0) / px_per_mm;
        out.append(text(
            "text",
            &[
                ("class", "height"),
                ("dx", ".4em"),
                ("dy", "-.3em"),
                ("x", &num(clear_of_posts(row, view.from, wide))),
                ("y", &num(-z)),
            ],
            &label,
        ));
    }
    let z = row.trellis.wall_height.f();
    out.append(text(
        "text",
        &[
            ("class", "height end"),
            ("dx", "-.4em"),
            ("dy", "-.3em"),
            ("x", &num(view.to)),
            ("y", &num(-z)),
        ],
        &words.text("draw-wall-height", &[("height", Arg::Length(z))]),
    ));
    out
}

/// The trees' numbers under the ground, within `view`; where they would crowd each other, some are left out.
pub fn tree_numbers(row: &Row, view: Span, px_per_mm: f64, words: &Words) -> String {
    numbers(row, view, px_per_mm, words).to_string()
}

/// From how many pixels a millimetre on uprights are numbered: the usual space between them holds a number then.
const NUMBERED: f64 = 0.06;
/// How far under the wire their numbers stand, mm: clear of the laid wood.
const UNDER_WIRE: f64 = 25.0;

/// The numbers of uprights and stubs under their places on the wire, within `view`, by which lists and findings name them, a
/// drawing for each tree; where they would crowd each other, some are left out.
pub fn upright_numbers(row: &PosedRow, view: Span, px_per_mm: f64) -> Vec<String> {
    let all = of_uprights(row, view, px_per_mm);
    all.iter().map(Element::to_string).collect()
}

pub(crate) fn of_uprights(row: &PosedRow, view: Span, px_per_mm: f64) -> Vec<Element> {
    let px_per_mm = scale(px_per_mm);
    if px_per_mm < NUMBERED {
        return Vec::new();
    }
    // No wood reaches farther.
    let near = view.from - LENGTH.1..=view.to + LENGTH.1;
    let trees = row.posed().iter();
    let trees = trees.filter(|t| near.contains(&t.tree().foot.f()));
    let mut out = Vec::new();
    let mut all: Vec<(usize, u16, Point)> = Vec::new();
    for (at, tree) in trees.enumerate() {
        out.push(group("of-tree"));
        let seen = tree
            .numbers()
            .filter(|(_, p)| p.x >= view.from && p.x <= view.to);
        all.extend(seen.map(|(number, place)| (at, number, place)));
    }
    all.arrange_by(|a, b| a.2.x.total_cmp(&b.2.x).then(a.1.cmp(&b.1)));
    let mut free = f64::NEG_INFINITY;
    for (at, number, place) in all {
        let label = number.to_string();
        let half = label.len() as f64 * 3.0 + 1.5;
        if place.x * px_per_mm - half < free {
            continue;
        }
        free = place.x * px_per_mm + half;
        out[at].append(text(
            "text",
            &[
                ("class", "upright-number"),
                ("dy", "1em"),
                ("x", &num(place.x)),
                ("y", &num(UNDER_WIRE - place.y)),
            ],
            &label,
        ));
    }
    out
}

/// What stands under a tree: its number, with the word where there is room, and what is the matter with it.
pub(crate) fn tree_label(tree: &Tree, named: bool, words: &Words) -> String {
    let key = match (tree.is_lost(), tree.diseased) {
        (true, _) => "draw-tree-lost",
        (_, true) => "draw-tree-diseased",
        _ if named => "name-tree",
        _ => return tree.id.to_string(),
    };
    words.text(key, &[("tree", Arg::Count(tree.id.0.into()))])
}

pub(crate) fn numbers(row: &Row, view: Span, px_per_mm: f64, words: &Words) -> Element {
    let px_per_mm = scale(px_per_mm);
    let mut out = group("tree-numbers");
    let spacing = row.tree_spacing().map_or(2000.0, |s| s.f()) * px_per_mm;
    let mut told: Vec<(f64, f64, &Tree, String)> = Vec::new();
    // A tree that is lost or diseased is told before its neighbours.
    let (first, others): (Vec<&Arc<Tree>>, Vec<_>) =
        row.trees.iter().partition(|t| t.is_lost() || t.diseased);
    for tree in first.into_iter().chain(others) {
        let x = tree.foot.f();
        if x < view.from || x > view.to {
            continue;
        }
        let label = tree_label(tree, spacing >= 64.0, words);
        let half = label.chars().count() as f64 * 3.6 + 3.0;
        let (from, to) = (x * px_per_mm - half, x * px_per_mm + half);
        if told.iter().all(|t| to <= t.0 || t.1 <= from) {
            told.push((from, to, tree, label));
        }
    }
    // Along the row.
    told.arrange_by(|a, b| a.2.foot.cmp(&b.2.foot));
    for (_, _, tree, label) in told {
        let class = match tree.is_lost() {
            true => "tree-number lost",
            false => "tree-number",
        };
        out.append(text(
            "text",
            &[
                ("class", class),
                ("data-tree", &tree.id.to_string()),
                ("dy", "1.55em"),
                ("x", &num(tree.foot.f())),
            ],
            &label,
        ));
    }
    out
}
