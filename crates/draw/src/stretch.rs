//! Bare and doubled stretches of the wire over the wall, drawn in pixels: where they are, and how long.

use crate::element::{el, group, path, text};
use crate::pen::{Pen, num};
use cordonry::arrange::Arrange;
use cordonry::cover::Stretch;
use cordonry::said::Arg;
use cordonry_words::Words;
use kurbo::{Point, Rect};
use svg::node::Node;
use svg::node::element::Element;

/// What part of the wall is on the screen.
#[derive(Clone, Copy, Debug)]
pub struct Window {
    /// Place along the row at the left edge, mm.
    pub x: f64,
    /// Height at the upper edge, mm.
    pub top: f64,
    /// Pixels to a millimetre.
    pub scale: f64,
    /// Width, px.
    pub width: f64,
}

impl Window {
    fn at(self, x: f64, z: f64) -> Point {
        Point::new((x - self.x) * self.scale, (self.top - z) * self.scale)
    }
}

/// A stretch that is told.
#[derive(Clone, Copy, Debug)]
pub struct ToldStretch<'a> {
    /// It.
    pub stretch: &'a Stretch,
    /// Whether it is bare; else it is doubled.
    pub bare: bool,
    /// Whether a hand is at it: its length is told before all others.
    pub in_hand: bool,
}

/// Mean width of a letter, plain and bold, px, and how far a line of text reaches above and below its base line.
const LETTER: f64 = 7.2;
const BOLD_LETTER: f64 = 8.2;
const LINE: (f64, f64) = (11.0, 4.0);
/// Room between two labels, px.
const BETWEEN: f64 = 5.0;
/// The wires' heights stand so far in from the left edge, px.
const HEIGHTS: f64 = 64.0;
/// So far under the wire stands the length of a bare stretch, px, where there is room over the ground.
const UNDER: f64 = 32.0;
/// A stretch that takes fewer pixels is told by its mark alone.
const LEAST: f64 = 8.0;

struct Label {
    at: Point,
    room: Rect,
    class: &'static str,
    text: String,
}

/// A mark at each stretch, and its length where there is room for it, the longest first, each a drawing of its own. `wire` is
/// the wire's height, mm.
pub fn stretch_marks(
    told: &[ToldStretch<'_>],
    wire: f64,
    window: Window,
    words: &Words,
) -> Vec<String> {
    let mut out = group("stretches");
    for one in told {
        mark(&mut out, one, wire, window);
    }
    for label in labels(told, wire, window, words) {
        out.append(text(
            "text",
            &[
                ("class", label.class),
                ("x", &num(label.at.x)),
                ("y", &num(label.at.y)),
            ],
            &label.text,
        ));
    }
    out.get_children().iter().map(ToString::to_string).collect()
}

/// How far under the wire the lines of a stretch stand: that which measures it, and that of its length.
fn lines(bare: bool, wire: f64, window: Window) -> (f64, f64) {
    match bare {
        true if wire * window.scale >= UNDER + LINE.1 => (UNDER / 2.0, UNDER),
        // No wood stands on bare wire.
        true => (-14.0, -20.0),
        false => (-10.0, -16.0),
    }
}

fn mark(out: &mut Element, told: &ToldStretch<'_>, wire: f64, window: Window) {
    let span = told.stretch.span;
    let (a, b) = (window.at(span.from, wire), window.at(span.to, wire));
    if b.x < 0.0 || a.x > window.width {
        return;
    }
    if told.bare {
        out.append(el(
            "rect",
            &[
                ("class", "stretch-bare"),
                ("x", &num(a.x)),
                ("y", &num(a.y - 7.0)),
                ("width", &num((b.x - a.x).max(1.0))),
                ("height", "14"),
            ],
        ));
    }
    let y = a.y + lines(told.bare, wire, window).0;
    let mut pen = Pen::default();
    pen.line(Point::new(a.x, y), Point::new(b.x, y));
    for x in [a.x, b.x] {
        pen.line(Point::new(x, y - 4.0), Point::new(x, y + 4.0));
    }
    let class = if told.bare {
        "measure bare"
    } else {
        "measure twice"
    };
    out.append(path(class, &pen).expect("lines were drawn"));
}

/// The lengths that find room, none over another or over the heights at the left.
fn labels(told: &[ToldStretch<'_>], wire: f64, window: Window, words: &Words) -> Vec<Label> {
    let mut order: Vec<&ToldStretch<'_>> = told.iter().collect();
    let length = |one: &ToldStretch<'_>| one.stretch.span.length();
    order.arrange_by(|a, b| {
        b.in_hand
            .cmp(&a.in_hand)
            .then(length(b).total_cmp(&length(a)))
    });
    let mut out: Vec<Label> = Vec::new();
    for one in order {
        let span = one.stretch.span;
        let (a, b) = (window.at(span.from, wire), window.at(span.to, wire));
        let wide = b.x - a.x;
        if b.x < 0.0 || a.x > window.width || (wide < LEAST && !one.in_hand) {
            continue;
        }
        let (key, class, letter) = match one.bare {
            true => ("stretch-bare", "measure-text bare", BOLD_LETTER),
            false => ("stretch-twice", "measure-text twice", LETTER),
        };
        let text = words.text(key, &[("length", Arg::Length(span.length()))]);
        let half = text.chars().count() as f64 * letter / 2.0;
        let line = lines(one.bare, wire, window).1;
        let middle = (a.x + b.x) / 2.0;
        let first = if line < 0.0 { HEIGHTS + half } else { half };
        let x = middle.min(window.width - half).max(first);
        let room = Rect::new(x - half, a.y + line - LINE.0, x + half, a.y + line + LINE.1);
        let free = room.inflate(BETWEEN, 0.0);
        let beside = (x - middle).abs() > half + wide / 2.0;
        if beside || out.iter().any(|l| l.room.overlaps(free)) {
            continue;
        }
        let at = Point::new(x, a.y + line);
        out.push(Label {
            at,
            room,
            class,
            text,
        });
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::tree_numbers;
    use cordonry::cover::{Cover, Span, cover};
    use cordonry::row::{Row, Targets};
    use cordonry::units::LengthStyle;
    use cordonry_fixture::wild::row;
    use cordonry_words::Language;
    use proptest::prelude::*;

    fn told(cover: &Cover) -> Vec<ToldStretch<'_>> {
        let one = |bare| {
            move |stretch| ToldStretch {
                stretch,
                bare,
                in_hand: false,
            }
        };
        let gaps = cover.gaps.iter().map(one(true));
        gaps.chain(cover.overlaps.iter().map(one(false))).collect()
    }

    /// The room of the trees' numbers, px.
    fn numbers(row: &Row, window: Window, words: &Words) -> Vec<Rect> {
        let span = Span {
            from: window.x,
            to: window.x + window.width / window.scale,
        };
        let markup = tree_numbers(row, span, window.scale, words);
        let texts = markup.split("<text").skip(1).map(|t| {
            let x = t.split(" x=\"").nth(1).expect("a place");
            let x = x.split('"').next().expect("its end");
            let word = t.split_once('>').expect("a text").1;
            let word = word.split('<').next().expect("its end").trim();
            let half = word.chars().count() as f64 * 3.3;
            let at = window.at(x.parse().expect("a number"), 0.0);
            // Base line at 1.55 em of 12 px.
            Rect::new(at.x - half, at.y + 8.6, at.x + half, at.y + 21.6)
        });
        texts.collect()
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        #[test]
        fn no_label_lies_over_another(row in row(), scale in 0.004f64..0.4, width in 200.0f64..2000.0, from in -0.2f64..1.0) {
            let words = Words::new(Language::default(), LengthStyle::Metric);
            let targets = Targets::default();
            let cover = cover(&row, &targets);
            let x = row.from.f() + from * (row.to.f() - row.from.f());
            let window = Window { x, top: 3000.0, scale, width };
            let wire = row.trellis.wires.first().map_or(500.0, |w| w.height.f());
            let told = told(&cover);
            let mut rooms: Vec<Rect> = labels(&told, wire, window, &words).iter().map(|l| l.room).collect();
            for room in &rooms {
                prop_assert!(room.x0 >= -1e-9 && room.x1 <= width + 1e-9 || room.width() > width);
            }
            rooms.extend(numbers(&row, window, &words));
            for (i, a) in rooms.iter().enumerate() {
                for b in &rooms[..i] {
                    prop_assert!(!a.overlaps(*b), "{a:?} {b:?}");
                }
            }
        }
    }

    #[test]
    fn the_longest_is_told_where_there_is_room_for_one() {
        let stretch = |from: f64, to: f64| Stretch {
            span: Span { from, to },
            by: vec![],
        };
        let all = [stretch(1000.0, 1600.0), stretch(1700.0, 2900.0)];
        let told: Vec<_> = all
            .iter()
            .map(|stretch| ToldStretch {
                stretch,
                bare: true,
                in_hand: false,
            })
            .collect();
        let words = Words::new(Language::default(), LengthStyle::Metric);
        let window = |scale| Window {
            x: 0.0,
            top: 3000.0,
            scale,
            width: 1200.0,
        };
        let texts = |scale| {
            let labels = labels(&told, 500.0, window(scale), &words);
            labels.into_iter().map(|l| l.text).collect::<Vec<_>>()
        };
        assert_eq!(texts(0.2).len(), 2);
        assert_eq!(texts(0.03), ["1.20 m bare"]);
    }
}
