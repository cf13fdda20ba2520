//! What tipping takes, drawn: future fruiting sites and what the shoot bears against the length that comes off.

use crate::element::{add, el, path, text};
use crate::pen::{Pen, num};
use cordonry::nodes::sites_removed;
use cordonry::said::Arg;
use cordonry::tipping::{MOST, Tipping};
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// Its size, and the room that its axes take, pixels.
const WIDE: f64 = 270.0;
const HIGH: f64 = 132.0;
const LEFT: f64 = 40.0;
const RIGHT: f64 = 12.0;
const ABOVE: f64 = 10.0;
const BELOW: f64 = 20.0;
/// Half the width of a mark.
const MARK: f64 = 4.0;

/// Where so much of the length, and a share of what it takes, 0 to 1, stand.
fn place(length: f64, share: f64) -> Point {
    let most = f64::from(MOST) / 100.0;
    let x = LEFT + length / most * (WIDE - LEFT - RIGHT);
    Point::new(x, HIGH - BELOW - share * (HIGH - BELOW - ABOVE))
}

/// A curve over the lengths, by whole per cent.
fn curve(of: &dyn Fn(f64) -> f64) -> Pen {
    let mut pen = Pen::default();
    for percent in 0..=MOST {
        let x = f64::from(percent) / 100.0;
        let here = place(x, of(x));
        match percent {
            0 => pen.move_to(here),
            _ => pen.line_to(here),
        };
    }
    pen
}

/// The curves as an `svg` element, with a mark on each where the share `at` of the length comes off.
pub fn tip_curve(tipping: &Tipping, at: Option<f64>, words: &Words) -> String {
    let title = words.plain("tip-curve");
    let mut out = el(
        "svg",
        &[
            ("class", "chart"),
            ("viewBox", &format!("0 0 {} {}", num(WIDE), num(HIGH))),
            ("role", "img"),
            ("aria-label", &title),
        ],
    );
    let label = |out: &mut Element, class: &str, at: Point, content: &str| {
        let place = [("class", class), ("x", &num(at.x)), ("y", &num(at.y))];
        out.append(text("text", &place, content));
    };
    let share = |share: f64| words.arg(&Arg::Share(share));
    let mut grid = Pen::default();
    for line in [0.0, 0.5, 1.0] {
        let (from, to) = (place(0.0, line), place(f64::from(MOST) / 100.0, line));
        grid.line(from, to);
        let at = Point::new(from.x - 5.0, from.y + 4.0);
        label(&mut out, "value", at, &share(line));
    }
    add(&mut out, path("grid", &grid));
    for percent in (0..=MOST).step_by(10) {
        let length = f64::from(percent) / 100.0;
        let at = Point::new(place(length, 0.0).x, HIGH - 5.0);
        label(&mut out, "leaf", at, &share(length));
    }
    add(&mut out, path("course", &curve(&sites_removed)));
    label(
        &mut out,
        "name",
        place(0.02, 0.85),
        &words.plain("tip-sites"),
    );
    let crop = |x: f64| tipping.crop_removed(x);
    if crop(1.0).is_some() {
        let of = |x| crop(x).unwrap_or_default();
        add(&mut out, path("course other", &curve(&of)));
        let end = place(f64::from(MOST) / 100.0, of(0.3));
        let at = Point::new(end.x, end.y + 18.0);
        label(&mut out, "value", at, &words.plain("tip-crop"));
    }
    let Some(at) = at.filter(|at| (0.0..=f64::from(MOST) / 100.0).contains(at)) else {
        return out.to_string();
    };
    let sites = place(at, sites_removed(at));
    let mut line = Pen::default();
    line.line(place(at, 0.0), place(at, 1.0));
    add(&mut out, path("here", &line));
    let mut mark = Pen::default();
    mark.rect(
        sites.x - MARK,
        sites.y - MARK,
        sites.x + MARK,
        sites.y + MARK,
    );
    add(&mut out, path("marks", &mark));
    if let Some(crop) = crop(at) {
        let here = place(at, crop);
        let r = MARK * 1.4;
        let mut mark = Pen::default();
        mark.move_to(Point::new(here.x - r, here.y))
            .line_to(Point::new(here.x, here.y - r))
            .line_to(Point::new(here.x + r, here.y))
            .line_to(Point::new(here.x, here.y + r))
            .close();
        add(&mut out, path("marks other", &mark));
    }
    out.to_string()
}
