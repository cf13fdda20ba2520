//! How a tree is planted, as a sheet tells and shows it: its foot on the tape, its angle, its side.

use crate::block::{Block, at};
use crate::element::{add, group, path};
use crate::paper::{MARGIN, Paper};
use crate::pen::Pen;
use cordonry::plan::Plan;
use cordonry::row::{Planted, Toward};
use cordonry::said::Arg;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;

/// Nearer to a post than this a tree is not planted, mm (common practice, no source).
pub(super) const CLEAR: f64 = 250.0;

/// How the tape lies and feet are set: where the first tree of the row stands.
pub(super) fn planting_how(plan: &Plan, first: f64, words: &Words) -> String {
    let post = plan.found.trellis.posts.first();
    let args = [
        ("clear", Arg::Length(CLEAR)),
        ("first", Arg::Length(first)),
        ("posts", Arg::yes(post.is_some())),
        ("post", Arg::Length(post.map_or(0.0, |p| p.f()))),
    ];
    words.text("planting-how", &args)
}

/// A tree as it is planted: its foot on the tape, its angle, the wire that it leans towards.
pub(super) fn planted_picture(plan: &Plan, planted: Planted, words: &Words, paper: Paper) -> Block {
    let mut element = group("crew-pictures");
    let wire = plan.found.trellis.cordon_height().f() / PICTURED;
    let ground = wire + 34.0;
    let (left, right) = (MARGIN, MARGIN + paper.usable_width());
    let foot = Point::new(left + (right - left) / 2.0, ground);
    let level = |y: f64| {
        let mut pen = Pen::default();
        pen.line((left, y).into(), (right, y).into());
        pen
    };
    add(&mut element, path("crew-line", &level(ground)));
    add(&mut element, path("crew-line", &level(ground - wire)));
    let angle = planted.angle.radians();
    let sign = planted.toward.sign();
    let along = |by: f64| {
        Point::new(
            foot.x + sign * libm::cos(angle) * by,
            foot.y - libm::sin(angle) * by,
        )
    };
    let mut stem = Pen::default();
    stem.line(foot, along(wire / libm::sin(angle).max(0.2) + 22.0));
    add(&mut element, path("crew-stem", &stem));
    // From the level to the stem, as the board stands.
    let mut arc = Pen::default();
    const STEPS: usize = 8;
    let on_arc = |n: usize| {
        let a = angle * n as f64 / STEPS as f64;
        Point::new(
            foot.x + sign * 46.0 * libm::cos(a),
            foot.y - 46.0 * libm::sin(a),
        )
    };
    for n in 0..STEPS {
        arc.line(on_arc(n), on_arc(n + 1));
    }
    let under = ground + 12.0;
    arc.line((left, under).into(), (foot.x, under).into())
        .line((left, under - 5.0).into(), (left, under + 5.0).into())
        .line((foot.x, under - 5.0).into(), (foot.x, under + 5.0).into());
    add(&mut element, path("crew-line", &arc));
    let wire_at = [(
        "height",
        Arg::Length(plan.found.trellis.cordon_height().f()),
    )];
    let beside = |key: &str, args: &[(&'static str, Arg)], x: f64, y: f64| {
        at("crew-body", x, y, &words.text(key, args))
    };
    element.append(beside("planting-wire", &wire_at, left, ground - wire - 6.0));
    let degrees = [("angle", Arg::Angle(planted.angle.degrees()))];
    let off = if sign > 0.0 { 56.0 } else { -110.0 };
    element.append(beside(
        "planting-angle",
        &degrees,
        foot.x + off,
        ground - 8.0,
    ));
    element.append(beside("planting-tape", &[], left, ground + 32.0));
    Block {
        element,
        height: ground + 44.0,
    }
}

/// Millimetres of wall in a pixel of the picture.
const PICTURED: f64 = 7.0;

pub(super) fn side(toward: Toward) -> Arg {
    Arg::Text(
        match toward {
            Toward::Left => "left",
            Toward::Right => "right",
        }
        .into(),
    )
}
