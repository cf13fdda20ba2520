//! A row drawn small, to be looked at before it is taken.

use cordonry::cover::Span;
use cordonry::pose::{Geometry, PosedRow};
use cordonry::row::{Row, Targets};
use cordonry::said::Arg;
use cordonry_draw::{Detail, backdrop, foreground, posed_group, top_of, tree_numbers};
use cordonry_words::Words;

/// Pixels in a millimetre of the small drawing: a wall of 2.5 m is 90 high.
const SMALL: f64 = 0.036;
/// How far above the wall's height is drawn, mm; what goes on is cut off and told.
const OVER_WALL: f64 = 2_000.0;
/// Pixels above the wall and below the ground, for the heights and the trees' numbers.
const ROOM: (f64, f64) = (18.0, 26.0);

/// The whole of a row, small.
pub(super) fn small(row: &Row, words: &Words) -> String {
    let g = Geometry::of(row, &Targets::default());
    let posed = PosedRow::new(row.clone(), g);
    let courses = || posed.posed().iter().flat_map(|t| t.courses());
    let posts = || row.trellis.posts.iter().map(|p| p.f());
    let ends = courses().flat_map(|c| [c.base.x, c.tip().x]);
    let feet = row.trees.iter().map(|t| t.foot.f());
    let all = ends
        .chain(feet)
        .chain(posts())
        .chain([row.from.f(), row.to.f()]);
    let (low, far) = all.fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(x), b.max(x)));
    let span = Span::between(low - 500.0, far + 500.0);
    // One slip of ten times its length would make all others too small to be seen.
    let usual = row.trellis.wall_height.f() + OVER_WALL;
    let tallest = top_of(&posed, g);
    let top = tallest.min(usual) + ROOM.0 / SMALL;
    let high = top + ROOM.1 / SMALL;
    let long = span.length();
    let (width, height, px) = (long * SMALL, high * SMALL, 1.0 / SMALL);
    let mut out = format!(
        "<svg class=\"wall\" aria-hidden=\"true\" style=\"--px:{px:.3}\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"{:.0} {:.0} {long:.0} {high:.0}\">",
        span.from, -top
    );
    out += &backdrop(row, span);
    for tree in posed.posed() {
        out += &posed_group(tree, Detail::Sketch);
    }
    out += &foreground(row, span, SMALL, words);
    out += &tree_numbers(row, span, SMALL, words);
    for course in courses().filter(|c| c.tip().y > usual) {
        let height = [("height", Arg::Length(course.tip().y))];
        let told = words.text("import-cut-off", &height);
        // Within the drawing, however near to its end the shoot stands.
        let side = if course.base.x > (low + far) / 2.0 {
            "end"
        } else {
            "start"
        };
        out += &format!(
            "<text class=\"cut-off\" text-anchor=\"{side}\" dy=\"1.1em\" x=\"{:.0}\" y=\"{:.0}\">{told}</text>",
            course.base.x, -top
        );
    }
    out + "</svg>"
}

/// Millimetres of a row that are drawn where rows are listed: some eight trees.
const BEGINNING: f64 = 9_000.0;
/// Millimetres in a pixel of it: a wall of 2.5 m is 45 high.
const LISTED: f64 = 56.0;

/// The beginning of a row as it was found, so small that it can be told from others, and no more.
pub fn beginning(row: &Row) -> String {
    let from = row
        .trees
        .iter()
        .map(|t| t.foot.f())
        .fold(row.from.f(), f64::min)
        - 300.0;
    let span = Span::between(from, from + BEGINNING);
    let mut row = row.clone();
    row.trees
        .retain(|t| (span.from..span.to).contains(&t.foot.f()));
    let g = Geometry::of(&row, &Targets::default());
    let posed = PosedRow::new(row.clone(), g);
    let (top, long) = (row.trellis.wall_height.f() + 300.0, span.length());
    let mut out = format!(
        "<svg class=\"wall\" aria-hidden=\"true\" style=\"--px:{LISTED}\" width=\"{:.0}\" height=\"{:.0}\" viewBox=\"{:.0} {:.0} {long:.0} {:.0}\">",
        long / LISTED,
        (top + 200.0) / LISTED,
        span.from,
        -top,
        top + 200.0
    );
    out += &backdrop(&row, span);
    for tree in posed.posed() {
        out += &posed_group(tree, Detail::Sketch);
    }
    out + "</svg>"
}
