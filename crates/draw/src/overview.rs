//! The whole row as one thin strip: how its wire is filled, where its trees stand, and where something is to be fixed.
//!
//! Drawn in pixels, as the cordon band is ([`crate::band`]): a place x on the wall lies at `x · px_per_mm`, and y runs from
//! 0 to [`OVERVIEW_HEIGHT`].

use crate::band;
use crate::element::{add, el, group, path};
use crate::pen::{Pen, scale};
use cordonry::arrange::Arrange;
use cordonry::check::Severity;
use cordonry::cover::{Cover, Span};
use cordonry::row::{Row, Targets};
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;

/// Height of the strip, pixels.
pub const OVERVIEW_HEIGHT: f64 = 24.0;

/// Half a sign's width, and how near to each other two may stand.
const SIGN: f64 = 4.5;
const APART: f64 = 2.0 * SIGN + 1.0;
/// Upper and lower edge of the wire, and how far down a tree's mark goes.
const WIRE: (f64, f64) = (11.0, 19.0);
const TREE: f64 = 23.0;

/// What was found and where, mm along the row.
pub type Sighted = (f64, Severity);

/// The row between the ends of `span` (mm). Where signs would run into each other the gravest stands; what is only told for
/// information has none.
pub fn overview(
    row: &Row,
    cover: &Cover,
    span: Span,
    found: &[Sighted],
    targets: &Targets,
    words: &Words,
    px_per_mm: f64,
) -> String {
    let px_per_mm = scale(px_per_mm);
    let mut out = group("overview");
    let squeezed = (WIRE.1 - WIRE.0) / (band::BOTTOM - band::TOP);
    let down = WIRE.0 - band::TOP * squeezed;
    let mut wire = el(
        "g",
        &[(
            "transform",
            &format!("matrix(1 0 0 {squeezed:.3} 0 {down:.2})"),
        )],
    );
    wire.append(band::wire(cover, span, targets, words, px_per_mm));
    out.append(wire);
    let mut trees = Pen::default();
    let mut lost = Pen::default();
    for tree in &row.trees {
        let x = tree.foot.f() * px_per_mm;
        if tree.is_lost() {
            let (a, b) = ((x - 3.0, x + 3.0), (TREE - 6.0, TREE));
            lost.line(Point::new(a.0, b.0), Point::new(a.1, b.1));
            lost.line(Point::new(a.0, b.1), Point::new(a.1, b.0));
        } else {
            trees.line(Point::new(x, WIRE.1), Point::new(x, TREE));
        }
    }
    add(&mut out, path("overview-tree", &trees));
    add(&mut out, path("overview-lost", &lost));
    for (severity, class) in [
        (Severity::Now, "overview-now"),
        (Severity::Soon, "overview-soon"),
    ] {
        let mut pen = Pen::default();
        for (x, _) in signs(found, px_per_mm).iter().filter(|s| s.1 == severity) {
            sign(&mut pen, *x, severity);
        }
        add(&mut out, path(class, &pen));
    }
    out.to_string()
}

/// The signs that stand, px, and none nearer to another than they are wide.
fn signs(found: &[Sighted], px_per_mm: f64) -> Vec<Sighted> {
    let mut all: Vec<Sighted> = found.to_vec();
    all.retain(|(_, severity)| *severity != Severity::Note);
    all.arrange_by(|a, b| b.1.cmp(&a.1).then(a.0.total_cmp(&b.0)));
    let mut out: Vec<Sighted> = Vec::new();
    for (x, severity) in all {
        let x = x * px_per_mm;
        let at = out.partition_point(|s| s.0 < x);
        let near = [at.checked_sub(1), Some(at)].into_iter().flatten();
        if near
            .filter_map(|i| out.get(i))
            .all(|s| (s.0 - x).abs() >= APART)
        {
            out.insert(at, (x, severity));
        }
    }
    out
}

/// The shape that a severity has wherever it is told: a triangle or a lozenge.
fn sign(pen: &mut Pen, x: f64, severity: Severity) {
    let p = Point::new;
    match severity {
        Severity::Now => pen
            .move_to(p(x, 1.0))
            .line_to(p(x + SIGN, 9.0))
            .line_to(p(x - SIGN, 9.0)),
        _ => pen
            .move_to(p(x, 0.5))
            .line_to(p(x + SIGN, 5.0))
            .line_to(p(x, 9.5))
            .line_to(p(x - SIGN, 5.0)),
    }
    .close();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_gravest_sign_stands_where_there_is_room_for_one() {
        let found = [
            (1000.0, Severity::Soon),
            (1040.0, Severity::Now),
            (1090.0, Severity::Note),
            (3000.0, Severity::Soon),
        ];
        assert_eq!(
            signs(&found, 0.1),
            [(104.0, Severity::Now), (300.0, Severity::Soon)]
        );
    }

    #[test]
    fn no_two_signs_overlap() {
        let found: Vec<Sighted> = (0..400)
            .map(|i| {
                let severity = [Severity::Now, Severity::Soon][i % 2];
                (f64::from((i * 7919 % 60_000) as u32), severity)
            })
            .collect();
        for px_per_mm in [0.01, 0.02, 0.1] {
            let signs = signs(&found, px_per_mm);
            assert!(signs.len() > 10);
            assert!(signs.windows(2).all(|w| w[1].0 - w[0].0 >= APART));
        }
    }
}
