//! What is marked on the wall: numbered pins with what they point at, measure or go around.

use crate::element::{add, el, group, markup, path, text};
use crate::pen::{Pen, num, translate};
use crate::wood::on_page;
use cordonry::cover::Span;
use cordonry::plan::{Mark, MarkShape, Pin, Pinned, PinnedTo};
use cordonry::pose::PosedRow;
use cordonry::said::Arg;
use cordonry_words::Words;
use kurbo::{Point, Vec2};
use svg::node::Node;
use svg::node::element::Element;

/// How far from its place a pin's head stands, px.
const HEAD: Vec2 = Vec2::new(0.0, -17.0);
const RADIUS: f64 = 8.0;

/// All marks on a row as markup, to be laid over the wall.
pub fn marks(all: &[Mark], row: &PosedRow, words: &Words) -> String {
    let numbered = all.iter().enumerate();
    markup(numbered.map(|(n, mark)| element(n, mark, row, words, None)))
}

/// The marks of a stretch of the row in order of number, as large as they are on paper at so many millimetres to a pixel.
pub(crate) fn elements_in(
    stretch: Span,
    all: &[Mark],
    row: &PosedRow,
    words: &Words,
    px: f64,
) -> Vec<Element> {
    let here = |mark: &Mark| {
        let at = mark.at.on(row).point.x;
        let to = mark.to.map_or(at, |to| to.on(row).point.x);
        at.min(to) <= stretch.to && at.max(to) >= stretch.from
    };
    let numbered = all.iter().enumerate().filter(|(_, mark)| here(mark));
    numbered
        .map(|(n, mark)| element(n, mark, row, words, Some(px)))
        .collect()
}

/// Without a measure of pixels the style sizes its head.
fn element(n: usize, mark: &Mark, row: &PosedRow, words: &Words, px: Option<f64>) -> Element {
    let at = mark.at.on(row);
    let to = mark.to.map(|to| to.on(row));
    let gone = [Some(at), to].iter().flatten().any(|p| !p.is_there);
    let class = if gone { "mark gone" } else { "mark" };
    let mut out = el("g", &[("class", class), ("data-mark", &n.to_string())]);
    let a = on_page(at.point);
    let mut head = a;
    if let Some(Pinned { point, .. }) = to {
        let b = on_page(point);
        let mut line = Pen::default();
        match mark.kind {
            MarkShape::Stretch => {
                let corners = [a, Point::new(b.x, a.y), b, Point::new(a.x, b.y), a];
                line.move_to(corners[0]);
                for corner in &corners[1..] {
                    line.line_to(*corner);
                }
                // At its upper left corner.
                head = Point::new(a.x.min(b.x), a.y.min(b.y));
            }
            _ => {
                line.line(a, b);
            }
        }
        add(&mut out, path("mark-ground", &line));
        add(&mut out, path("mark-line", &line));
        let heading = (b - a).atan2();
        match mark.kind {
            MarkShape::Arrow => out.append(tipped(b, heading, px, &arrow_head())),
            MarkShape::Distance => {
                out.append(tipped(a, heading, px, &end_tick()));
                out.append(tipped(b, heading, px, &end_tick()));
                out.append(length(a, b, &words.length((b - a).hypot()), px));
            }
            MarkShape::Note | MarkShape::Stretch => {}
        }
    }
    out.append(pin(n, head, px));
    out
}

/// A drawing in pixels at a place, turned to a heading.
fn tipped(place: Point, heading: f64, px: Option<f64>, shape: &Pen) -> Element {
    let turn = format!("{} rotate({})", translate(place), num(heading.to_degrees()));
    let mut out = el("g", &[("transform", &turn)]);
    let mut own = sized(px);
    add(&mut own, path("mark-end", shape));
    out.append(own);
    out
}

fn arrow_head() -> Pen {
    let mut pen = Pen::default();
    pen.line(Point::new(-11.0, -5.5), Point::ZERO);
    pen.line_to(Point::new(-11.0, 5.5));
    pen
}

fn end_tick() -> Pen {
    let mut pen = Pen::default();
    pen.line(Point::new(0.0, -6.0), Point::new(0.0, 6.0));
    pen
}

/// The length of a distance beside its middle, where the line does not run through it.
fn length(a: Point, b: Point, told: &str, px: Option<f64>) -> Element {
    let flat = (b.x - a.x).abs() >= (b.y - a.y).abs();
    let (off, anchor) = match flat {
        // Under it: numbers stand over its ends.
        true => (("0", "17"), "mark-length middle"),
        false => (("9", "4"), "mark-length"),
    };
    let mut out = el("g", &[("transform", &translate(a.midpoint(b)))]);
    let mut own = sized(px);
    let told = text(
        "text",
        &[("class", anchor), ("x", off.0), ("y", off.1)],
        told,
    );
    own.append(told);
    out.append(own);
    out
}

fn pin(n: usize, place: Point, px: Option<f64>) -> Element {
    let mut out = el("g", &[("class", "pin"), ("transform", &translate(place))]);
    let mut own = sized(px);
    let mut stem = Pen::default();
    stem.line(Point::ZERO, (HEAD + Vec2::new(0.0, RADIUS)).to_point());
    add(&mut own, path("mark-stem", &stem));
    own.append(el("circle", &[("class", "mark-foot"), ("r", "2.2")]));
    own.append(el(
        "circle",
        &[
            ("class", "pin-head"),
            ("cy", &num(HEAD.y)),
            ("r", &num(RADIUS)),
        ],
    ));
    let middle = num(HEAD.y + 4.0);
    let number = (n + 1).to_string();
    own.append(text(
        "text",
        &[("class", "pin-number"), ("y", &middle)],
        &number,
    ));
    out.append(own);
    out
}

fn sized(px: Option<f64>) -> Element {
    match px {
        Some(px) => el("g", &[("transform", &format!("scale({})", num(px)))]),
        None => group("sized"),
    }
}

/// What a mark says in a line: what it is, where, how long a distance is, and its words.
pub fn mark_line(mark: &Mark, row: &PosedRow, words: &Words) -> String {
    let ends = mark.at.on(row).point;
    let far = mark.to.map(|to| to.on(row).point);
    let place = match far {
        Some(to) if mark.kind == MarkShape::Stretch => words.text(
            "mark-from-to",
            &[
                ("from", Arg::Length(ends.x.min(to.x))),
                ("to", Arg::Length(ends.x.max(to.x))),
            ],
        ),
        _ => where_is(mark.about(), row, words),
    };
    let args = [
        ("where", Arg::Text(place)),
        ("length", Arg::Length(mark.span(row).unwrap_or(0.0))),
        ("text", Arg::Text(mark.text.clone())),
        ("says", Arg::yes(!mark.text.is_empty())),
    ];
    let line = words.text(
        match mark.kind {
            MarkShape::Note | MarkShape::Arrow => "mark-line-note",
            MarkShape::Distance => "mark-line-distance",
            MarkShape::Stretch => "mark-line-stretch",
        },
        &args,
    );
    match mark.pins().all(|pin| pin.on(row).is_there) {
        true => line,
        false => words.text("mark-line-gone", &[("line", Arg::Text(line))]),
    }
}

/// The part of a tree that a pin is on, or the place along the row.
fn where_is(pin: &Pin, row: &PosedRow, words: &Words) -> String {
    let there = |on: &PinnedTo| {
        let tree = row.of_tree(on.tree)?;
        let stands = tree.tree().shoots.iter().any(|s| s.id == on.shoot);
        Some(words.part(row, on.tree, stands.then_some(on.shoot)))
    };
    let place = pin.on(row).point.x;
    pin.on
        .as_ref()
        .and_then(there)
        .unwrap_or_else(|| words.text("mark-at", &[("at", Arg::Length(place))]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use cordonry::row::Targets;
    use cordonry::units::Mm;
    use cordonry_fixture::wood;

    fn mark(kind: MarkShape, to: Option<(i32, i32)>, text: &str) -> Mark {
        Mark {
            kind,
            at: Pin::wall(Mm(1_000), Mm(600)),
            to: to.map(|(x, z)| Pin::wall(Mm(x), Mm(z))),
            text: text.into(),
        }
    }

    #[test]
    fn each_mark_is_drawn_with_its_number_and_told_in_a_line() {
        let row = PosedRow::of(&wood::planted(2, 1500, 2000.0), &Targets::default());
        let words = Words::strict();
        let stem = row.posed()[0].courses()[0];
        let near = Pin::near(stem.point(stem.length / 2.0), &row);
        let lost = Pin {
            on: near.on.map(|on| PinnedTo {
                along: Mm(9_000),
                ..on
            }),
            ..near
        };
        let all = [
            mark(MarkShape::Note, None, "<b>bare</b>"),
            mark(MarkShape::Distance, Some((1_300, 1_000)), ""),
            mark(MarkShape::Stretch, Some((200, 2_000)), "weak"),
            Mark {
                to: Some(near),
                ..mark(MarkShape::Arrow, None, "this stem")
            },
            Mark {
                at: lost,
                ..mark(MarkShape::Note, None, "its end")
            },
        ];
        let drawn = marks(&all, &row, &words);
        for n in 1..=5 {
            assert!(drawn.contains(&format!(">{n}<")), "{drawn}");
        }
        assert_eq!(drawn.matches("mark gone").count(), 1);
        assert!(drawn.contains(">0.50 m<"), "{drawn}");
        let line = |n: usize| mark_line(&all[n], &row, &words);
        assert_eq!(line(0), "at 1.00 m: <b>bare</b>");
        assert_eq!(line(1), "at 1.00 m: 0.50 m");
        assert_eq!(line(2), "from 0.20 m to 1.00 m: weak");
        assert!(
            line(3).contains("ree 1") && line(3).ends_with(": this stem"),
            "{}",
            line(3)
        );
        assert!(
            line(4).contains("its end") && line(4) != "its end",
            "{}",
            line(4)
        );
    }
}
