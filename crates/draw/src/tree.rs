//! One tree: its wood, buds, cuts and, if asked for, its leaves.

use crate::Detail;
use crate::element::{add, el, group, path, text};
use crate::paint::{self, Paint, Tone};
use crate::pen::{Pen, num, translate};
use crate::wood::{Wood, along, on_page};
use cordonry::pose::{Course, Geometry, Posed};
use cordonry::row::{Kind, Shoot, Toward, Tree};
use cordonry::seed::Seeded;
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI};
use std::sync::Arc;
use svg::node::Node;
use svg::node::element::Element;

/// What else a drawing of a tree may show.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Options {
    /// Leaves, as a light tone behind the wood; without them the tree is dormant.
    pub foliage: bool,
    /// Millimetres in a pixel, where the drawing is for one scale alone. Without it, signs
    /// that keep their size on the screen take it from `--px`.
    pub px: Option<f64>,
}

/// A tree as one group, `<g class="tree" data-tree="3">`.
pub fn tree_group(tree: &Tree, g: Geometry, detail: Detail) -> String {
    tree_group_with(tree, g, detail, Options::default())
}

/// As [`tree_group`], with options.
pub fn tree_group_with(tree: &Tree, g: Geometry, detail: Detail, options: Options) -> String {
    let posed = Posed::new(Arc::new(tree.clone()), g);
    element(&posed, detail, options, &[]).to_string()
}

/// As [`tree_group`], of a tree whose courses are known.
pub fn posed_group(posed: &Posed, detail: Detail) -> String {
    element(posed, detail, Options::default(), &[]).to_string()
}

/// The same in colours, with a number on each shoot where there is room for it. From far away shoots are drawn for their
/// tones.
pub fn painted_group(posed: &Posed, detail: Detail, paint: &Paint<'_>) -> String {
    let tones = paint.tones(posed);
    let detail = match tones.is_empty() {
        true => detail,
        false => detail.max(Detail::Plain),
    };
    element(posed, detail, Options::default(), &tones).to_string()
}

/// What `data-part` says of a shoot.
pub(crate) fn part(tree: &Tree, shoot: &Shoot) -> String {
    format!("{}/{}", tree.id, shoot.id)
}

fn kind_class(kind: Kind) -> &'static str {
    match kind {
        Kind::Stem => "stem",
        Kind::Leader => "leader",
        Kind::Upright => "upright",
        Kind::Bud => "bud",
        Kind::Stub => "stub",
        Kind::Shoot => "free",
    }
}

pub(crate) fn element(
    posed: &Posed,
    detail: Detail,
    options: Options,
    tones: &[Option<Tone>],
) -> Element {
    let tree = posed.tree();
    let class = if tree.is_lost() { "tree lost" } else { "tree" };
    let mut out = el(
        "g",
        &[("class", class), ("data-tree", &tree.id.to_string())],
    );
    if tree.is_lost() {
        lost(&mut out, tree, options);
        return out;
    }
    let courses = posed.courses();
    if options.foliage {
        foliage(&mut out, tree, courses);
    }
    if detail == Detail::Sketch {
        let mut pen = Pen::default();
        for (shoot, course) in tree.shoots.iter().zip(courses) {
            if course.length >= 1.0 {
                Wood::of(shoot, *course).outline(&mut pen);
            }
        }
        add(&mut out, path("wood", &pen));
        return out;
    }
    for (i, (shoot, course)) in tree.shoots.iter().zip(courses).enumerate() {
        let tone = tones.get(i).and_then(|t| t.as_ref());
        let toned = tone.map_or_else(String::new, |t| format!(" {}", paint::class(t.tone)));
        let root = if shoot.parent.is_none() { " root" } else { "" };
        let kind = kind_class(shoot.kind());
        let mut own = el(
            "g",
            &[
                ("class", &format!("shoot {kind}{root}{toned}")),
                ("data-part", &part(tree, shoot)),
            ],
        );
        note_text(&mut own, &shoot.note);
        if course.length < 1.0 {
            let parent = shoot.parent.and_then(|p| tree.index(p));
            let thick = parent.map_or(0.0, |p| {
                Wood::of(&tree.shoots[p], courses[p]).radius(shoot.at)
            });
            bud(&mut own, course, thick, detail, options);
        } else {
            wood(&mut own, shoot, course, detail);
        }
        if !shoot.note.is_empty() {
            own.append(note_sign(course, options));
        }
        if let Some(tone) = tone.filter(|t| !t.label.is_empty()) {
            own.append(told_on(course, i, &tone.label));
        }
        out.append(own);
    }
    out
}

/// What was noted, for a pointer that rests on it and for whoever can't see it.
fn note_text(own: &mut Element, note: &str) {
    if !note.is_empty() {
        own.append(text("title", &[], note));
    }
}

/// A number on a shoot; those of neighbours stand at two heights.
fn told_on(course: &Course, i: usize, label: &str) -> Element {
    let share = if i.is_multiple_of(2) { 0.6 } else { 0.75 };
    let at = on_page(course.point(course.length * share));
    let place = [
        ("class", "tone-label"),
        ("dy", ".35em"),
        ("x", &num(at.x)),
        ("y", &num(at.y)),
    ];
    text("text", &place, label)
}

/// How far from its base along a shoot the sign of a note stands, as a share of its length: clear of the wire and of what
/// is drawn at the tip.
const NOTE_AT: f64 = 0.45;

/// A slip of paper with a corner turned down, at the shoot's side.
fn note_sign(course: &Course, options: Options) -> Element {
    let at = on_page(course.point(course.length * NOTE_AT));
    let (mut place, class) = sized(at, 0.0, "note-sign", options, 3.0);
    let mut pen = Pen::default();
    let p = Point::new;
    pen.move_to(p(4.0, -7.0))
        .line_to(p(10.0, -7.0))
        .line_to(p(14.0, -3.0))
        .line_to(p(14.0, 7.0))
        .line_to(p(4.0, 7.0))
        .close();
    pen.move_to(p(10.0, -7.0))
        .line_to(p(10.0, -3.0))
        .line_to(p(14.0, -3.0));
    add(&mut place, path(&class, &pen));
    place
}

fn wood(own: &mut Element, shoot: &Shoot, course: &Course, detail: Detail) {
    let wood = Wood::of(shoot, *course);
    let mut pen = Pen::default();
    if detail == Detail::Full {
        twigs(&mut pen, shoot, course, &wood);
        add(own, path("twig", &pen));
        pen = Pen::default();
    }
    wood.outline(&mut pen);
    add(own, path("wood", &pen));
    if detail == Detail::Full {
        let mut rings = Pen::default();
        let mut s = 0.0;
        for unit in &shoot.units[..shoot.units.len().saturating_sub(1)] {
            s += unit.kept;
            wood.across(&mut rings, s, 0.0, 0.0);
        }
        add(own, path("ring", &rings));
    }
    if wood.cut {
        let mut face = Pen::default();
        wood.cut_face(&mut face);
        add(own, path("cut-face", &face));
    }
    if detail == Detail::Full {
        let mut hit = Pen::default();
        wood.spine(&mut hit, 0.0);
        add(own, path("hit", &hit));
    }
}

/// A pointed bud about 7 by 9 units, its foot at the origin and its tip to the right.
pub(crate) fn bud_shape() -> Pen {
    let mut pen = Pen::default();
    let p = Point::new;
    pen.move_to(p(0.0, -2.0))
        .curve_to(p(2.6, -4.4), p(6.0, -2.4), p(9.0, 0.0))
        .curve_to(p(6.0, 2.4), p(2.6, 4.4), p(0.0, 2.0))
        .close();
    pen
}

/// Places a sign drawn in pixels: under a group that stands at `at` and looks along `heading`, so
/// that it never gets smaller than `least` millimetres a pixel.
pub(crate) fn sized(
    at: Point,
    heading: f64,
    class: &str,
    options: Options,
    least: f64,
) -> (Element, String) {
    let turn = num(-heading.to_degrees());
    match options.px {
        Some(px) => {
            let transform = format!(
                "{} rotate({turn}) scale({})",
                translate(at),
                num(px.max(least))
            );
            (el("g", &[("transform", &transform)]), class.to_string())
        }
        None => {
            let transform = format!("{} rotate({turn})", translate(at));
            (
                el("g", &[("transform", &transform)]),
                format!("{class} sized"),
            )
        }
    }
}

fn bud(own: &mut Element, course: &Course, thick: f64, detail: Detail, options: Options) {
    let heading = course.heading0;
    let at = on_page(course.base + along(heading) * thick * 0.8);
    let (mut place, class) = sized(at, heading, "wood", options, 2.0);
    add(&mut place, path(&class, &bud_shape()));
    if detail == Detail::Full {
        let mut hit = Pen::default();
        hit.line(Point::ZERO, Point::new(10.0, 0.0));
        let class = if options.px.is_some() {
            "hit"
        } else {
            "hit sized"
        };
        add(&mut place, path(class, &hit));
    }
    own.append(place);
}

/// Most side branches that are drawn on a shoot.
const MAX_TWIGS: u16 = 60;

/// The side branches of a shoot; none of a stub.
pub(crate) fn twigs(pen: &mut Pen, shoot: &Shoot, course: &Course, wood: &Wood) {
    let count = shoot.laterals.shown();
    if count == 0 || shoot.kind() == Kind::Stub {
        return;
    }
    let mean = (shoot.laterals.total / f64::from(count)).clamp(20.0, 600.0);
    let shown = count.min(MAX_TWIGS);
    // The same leaves each time it is drawn.
    let mut seeded = Seeded::new(shoot.id.number());
    for i in 0..shown {
        let s = course.length * (0.18 + 0.76 * (f64::from(i) + seeded.share()) / f64::from(shown));
        let length = mean * (0.7 + 0.6 * seeded.share());
        let side = if i % 2 == 0 { 1.0 } else { -1.0 };
        let heading = course.heading(s);
        let from = course.point(s) + along(heading + FRAC_PI_2) * (side * wood.radius(s) * 0.5);
        // Out at a wide angle, then along with the shoot.
        let knee = from + along(heading + side * (0.75 + 0.4 * seeded.share())) * (length * 0.5);
        let tip = knee + along(heading + side * 0.55) * (length * 0.5);
        pen.move_to(on_page(from))
            .quad_to(on_page(knee), on_page(tip));
    }
}

fn lost(out: &mut Element, tree: &Tree, options: Options) {
    let foot = Point::new(tree.foot.f(), 0.0);
    let heading = tree.planted.heading().to_radians();
    let mut pen = Pen::default();
    pen.line(foot, on_page(foot + along(heading) * 450.0));
    add(out, path("ghost", &pen));
    let (mut place, class) = sized(foot, 0.0, "lost-cross", options, 3.0);
    let mut cross = Pen::default();
    let p = Point::new;
    cross
        .line(p(-6.0, -6.0), p(6.0, 6.0))
        .line(p(-6.0, 6.0), p(6.0, -6.0));
    add(&mut place, path(&class, &cross));
    out.append(place);
}

/// Distance between the leaves that are drawn, mm.
const LEAF_STEP: f64 = 62.0;

fn foliage(out: &mut Element, tree: &Tree, courses: &[Course]) {
    let mut layers = [Pen::default(), Pen::default()];
    for (shoot, course) in tree.shoots.iter().zip(courses) {
        if matches!(shoot.kind(), Kind::Stem | Kind::Leader | Kind::Bud) {
            continue;
        }
        // The same leaves each time it is drawn.
        let mut seeded = Seeded::new(shoot.id.number() ^ (u64::from(tree.id.0) << 32));
        let leaves = (course.length / LEAF_STEP) as u32;
        for i in 0..leaves {
            let s = (f64::from(i) + 0.4 + 0.6 * seeded.share()) * LEAF_STEP;
            let side = if i % 2 == 0 { 1.0 } else { -1.0 };
            let heading = course.heading(s) + side * (0.7 + 0.9 * seeded.share());
            let from = course.point(s);
            let stalk = 10.0 + 30.0 * seeded.share();
            let long = 90.0 + 70.0 * seeded.share();
            let wide = long * (0.42 + 0.2 * seeded.share());
            leaf(
                &mut layers[(i % 2) as usize],
                from + along(heading) * stalk,
                heading,
                long,
                wide,
            );
        }
    }
    for (layer, class) in layers.iter().zip(["leaves far", "leaves near"]) {
        add(out, path(class, layer));
    }
}

fn leaf(pen: &mut Pen, from: Point, heading: f64, long: f64, wide: f64) {
    let (ahead, aside): (Vec2, Vec2) = (along(heading), along(heading + FRAC_PI_2));
    let at = |a: f64, b: f64| on_page(from + ahead * (a * long) + aside * (b * wide));
    pen.move_to(at(0.0, 0.0))
        .curve_to(at(0.15, 0.6), at(0.65, 0.65), at(1.0, 0.0))
        .curve_to(at(0.65, -0.65), at(0.15, -0.6), at(0.0, 0.0))
        .close();
}

/// The heading of the level toward one side.
pub(crate) fn level(toward: Toward) -> f64 {
    match toward {
        Toward::Right => 0.0,
        Toward::Left => PI,
    }
}

/// A plain group for signs.
pub(crate) fn signs(class: &str, part: &str) -> Element {
    let mut out = group(class);
    out.assign("data-part", part);
    out
}
