//! Cordon cover: which stretches of the wire bear wood, which are bare, which are covered twice.

use crate::arrange::{Arrange, arrange_numbers};
use crate::pose::{AnyRow, Course, Geometry, ON_THE_WIRE, Posed};
use crate::row::{Limit, Pose, Row, ShootId, Targets, Tree, TreeId};
use std::sync::Arc;

/// A stretch along the row, mm; `from` ≤ `to`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Smaller x.
    pub from: f64,
    /// Larger x.
    pub to: f64,
}

impl Span {
    /// The stretch between two places, in either order.
    pub fn between(a: f64, b: f64) -> Self {
        Self {
            from: a.min(b),
            to: a.max(b),
        }
    }

    /// Its length, mm.
    pub fn length(self) -> f64 {
        self.to - self.from
    }

    /// Its middle.
    pub fn middle(self) -> f64 {
        (self.from + self.to) / 2.0
    }

    /// What of it lies in `other`; its length is not above 0 where nothing does.
    pub fn within(self, other: Self) -> Self {
        Self {
            from: self.from.max(other.from),
            to: self.to.min(other.to),
        }
    }
}

/// Stretches as one wherever they meet, from left to right.
pub fn joined(mut spans: Vec<Span>) -> Vec<Span> {
    spans.arrange_by(|a, b| a.from.total_cmp(&b.from));
    let mut out: Vec<Span> = Vec::new();
    for span in spans {
        match out.last_mut() {
            Some(last) if span.from <= last.to => last.to = last.to.max(span.to),
            _ => out.push(span),
        }
    }
    out
}

/// Length of a row that stretches fill, once or more, mm.
pub fn filled(spans: Vec<Span>, row: Span) -> f64 {
    let joined = joined(spans).into_iter();
    joined.map(|s| s.within(row).length().max(0.0)).sum()
}

/// Share that is filled of a length, 0 to 1; 1 where nothing is to be filled.
pub fn fill_share(filled: f64, owed: f64) -> f64 {
    if owed > 0.0 { filled / owed } else { 1.0 }
}

/// The wood of one laid shoot that covers the wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laid {
    /// The tree.
    pub tree: TreeId,
    /// The shoot.
    pub shoot: ShootId,
    /// Where it covers the wire.
    pub span: Span,
}

/// A bare stretch, or one covered more than once.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Where.
    pub span: Span,
    /// The laid shoots that end at its edges (a gap), or that lie side by side there (an overlap).
    pub by: Vec<(TreeId, ShootId)>,
}

/// The whole row's cover.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cover {
    /// Laid wood, by tree in row order.
    pub laid: Vec<Laid>,
    /// Bare stretches from left to right.
    pub gaps: Vec<Stretch>,
    /// Stretches covered twice or more, from left to right.
    pub overlaps: Vec<Stretch>,
    /// Length that is to be filled, mm.
    pub owed: f64,
    /// Length that is filled, once or more, mm.
    pub filled: f64,
}

impl Cover {
    /// The wood of a laid shoot that covers the wire, if it covers any.
    pub fn laid_shoot(&self, tree: TreeId, shoot: ShootId) -> Option<&Laid> {
        self.laid
            .iter()
            .find(|l| l.tree == tree && l.shoot == shoot)
    }

    /// Share of the wire that is filled, 0 to 1; 1 where nothing is to be filled.
    pub fn fill_share(&self) -> f64 {
        fill_share(self.filled, self.owed)
    }

    /// Length of wire that is covered more than once, mm.
    pub fn doubled(&self) -> f64 {
        self.overlaps.iter().map(|o| o.span.length()).sum()
    }

    /// How far two places along the row are apart, mm, less the bare stretches between them that are longer than
    /// `gap_max`, which are told by themselves; and those stretches, from left to right.
    pub fn apart(&self, left: f64, right: f64, gap_max: f64) -> (f64, Vec<Span>) {
        let from = self.gaps.partition_point(|g| g.span.to <= left);
        let between = Span {
            from: left,
            to: right,
        };
        let bare: Vec<Span> = self.gaps[from..]
            .iter()
            .take_while(|g| g.span.from < right)
            .filter(|g| g.span.length() > gap_max + 1e-6)
            .map(|g| g.span.within(between))
            .collect();
        let length: f64 = bare.iter().map(|span| span.length()).sum();
        (right - left - length, bare)
    }
}

/// Less than any length of wood, and more than rounding does, mm.
const HAIR: f64 = 1e-3;

/// The stretch of wire that a laid shoot covers; `None` where it bears none. Its wood bears from the height
/// `bearing` on its way up to the wire, and counts up to `band` above the wire.
fn laid_span(course: &Course, is_stem: bool, g: Geometry, bearing: f64, band: f64) -> Option<Span> {
    let bearing = bearing.min(g.wire);
    let (base, tip) = (course.base, course.tip());
    let top = g.wire + band;
    // Wood at the very top of the band counts on whichever side of it rounding puts its base.
    let is_above = base.y > top + HAIR;
    if is_above && tip.y >= top {
        return None;
    }
    // What begins on the wire bears from its base on, be it a hair below: it does not climb to the wire first.
    let climbs = base.y < bearing && base.y < g.wire - ON_THE_WIRE;
    // What forks from a stem is at the wire beside its base.
    let start = if climbs && is_stem && libm::sin(course.heading0) > 1e-6 {
        let corner = base.x + (bearing - base.y) / libm::tan(course.heading0);
        begins(course, corner, bearing.min(g.wire - band))
    } else if is_above {
        // It droops into the band from above.
        base.x + (top - base.y) / libm::tan(course.heading0)
    } else {
        base.x
    };
    if climbs && tip.y < bearing - 1.0 - HAIR {
        return None;
    }
    let climb = libm::sin(course.end_heading());
    let end = if tip.y > top && climb > 1e-6 {
        // Back from the tip along the last straight part to the top of the band.
        let back = (tip.y - top) / climb;
        tip.x - libm::cos(course.end_heading()) * back
    } else {
        tip.x
    };
    let forward = libm::cos(course.end_heading()).signum();
    ((end - start) * forward > 0.0).then(|| Span::between(start, end))
}

/// Where along the row the wood of a stem begins to cover the wire, whose straight part is aimed at `corner`: where a wide bend
/// cuts the corner off, only where it comes to the height `z`, as near to the wire from below as wood may lie above it.
fn begins(course: &Course, corner: f64, z: f64) -> f64 {
    let wood = climbs_to(course, z);
    match libm::cos(course.end_heading()) < 0.0 {
        true => corner.min(wood),
        false => corner.max(wood),
    }
}

/// Where along the row the wood of a tree's stem, laid on, begins to cover the wire; `None` where it covers none.
pub(crate) fn stem_begins(stem: &Course, g: Geometry, targets: &Targets) -> Option<f64> {
    let bearing = targets.get(Limit::BearingHeight);
    let span = laid_span(stem, true, g, bearing, targets.get(Limit::CordonBand))?;
    Some(match libm::cos(stem.end_heading()) < 0.0 {
        true => span.to,
        false => span.from,
    })
}

/// Where along the row a climbing shoot reaches the height `z` on its straight part or in its bend.
fn climbs_to(course: &Course, z: f64) -> f64 {
    let (sin, cos) = (libm::sin(course.heading0), libm::cos(course.heading0));
    let left = z - course.base.y - course.first * sin;
    if left <= 0.0 || course.radius <= 0.0 {
        return course.base.x + (z - course.base.y) / sin * cos;
    }
    // The bend turns from the heading of the straight part toward the wire: its height is that of the angle still left.
    let side = -course.turn.signum();
    let level = (side * cos + left / course.radius).clamp(-1.0, 1.0);
    let across = libm::sqrt(1.0 - level * level);
    course.base.x + course.first * cos + side * course.radius * (sin - across)
}

/// The laid wood of one tree.
pub fn laid_of(tree: &Tree, courses: &[Course], g: Geometry, targets: &Targets) -> Vec<Laid> {
    let bearing = targets.get(Limit::BearingHeight);
    let band = targets.get(Limit::CordonBand);
    tree.shoots
        .iter()
        .zip(courses)
        .filter(|(shoot, _)| matches!(shoot.pose, Pose::Laid { .. }))
        .filter_map(|(shoot, course)| {
            laid_span(course, shoot.parent.is_none(), g, bearing, band).map(|span| Laid {
                tree: tree.id,
                shoot: shoot.id,
                span,
            })
        })
        .collect()
}

/// The cover of the row's stretch of wire.
pub fn cover(row: &impl AnyRow, targets: &Targets) -> Cover {
    let g = Geometry::of(row.row(), targets);
    cover_of_posed(row.row(), &row.posed_in(g), g, targets)
}

fn cover_of_posed(row: &Row, trees: &[Arc<Posed>], g: Geometry, targets: &Targets) -> Cover {
    let laid = trees
        .iter()
        .flat_map(|t| laid_of(t.tree(), t.courses(), g, targets))
        .collect();
    cover_of(
        laid,
        Span {
            from: row.from.f(),
            to: row.to.f(),
        },
    )
}

/// The cover of `row` by laid wood: a sweep over the ends of the spans. Stretches shorter than half a millimetre are none.
pub fn cover_of(laid: Vec<Laid>, row: Span) -> Cover {
    const LEAST: f64 = 0.5;
    // Rounding in the places of the wood, mm: so little does not part two stretches.
    const SAME: f64 = 1e-6;
    let mut out = Cover {
        owed: row.length().max(0.0),
        ..Cover::default()
    };
    let inside: Vec<Laid> = laid
        .iter()
        .map(|l| Laid {
            span: l.span.within(row),
            ..*l
        })
        .filter(|l| l.span.length() > 0.0)
        .collect();
    // From left to right as far as the wood lies so: what is in order already is soon put in order.
    let mut edges: Vec<f64> = [row.from]
        .into_iter()
        .chain(inside.iter().flat_map(|l| [l.span.from, l.span.to]))
        .chain([row.to])
        .collect();
    arrange_numbers(&mut edges);
    edges.dedup();
    // Depth by a running count over the sorted ends: one pass, however long the row.
    let mut steps: Vec<(f64, i32)> = inside
        .iter()
        .flat_map(|l| [(l.span.from, 1), (l.span.to, -1)])
        .collect();
    steps.arrange_by(|a, b| a.0.total_cmp(&b.0));
    let mut step = steps.iter().peekable();
    let mut depth = 0;
    for pair in edges.windows(2) {
        let span = Span {
            from: pair[0],
            to: pair[1],
        };
        while let Some((_, change)) = step.next_if(|(x, _)| *x <= span.from) {
            depth += change;
        }
        if depth > 0 {
            out.filled += span.length();
        }
        let list = match depth {
            0 => &mut out.gaps,
            1 => continue,
            _ => &mut out.overlaps,
        };
        match list.last_mut() {
            Some(last) if span.from - last.span.to < SAME => last.span.to = span.to,
            _ => list.push(Stretch {
                span,
                by: Vec::new(),
            }),
        }
    }
    out.gaps.retain(|s| s.span.length() >= LEAST);
    out.overlaps.retain(|s| s.span.length() >= LEAST);
    attribute(&mut out, &inside);
    out.laid = laid;
    out
}

/// Says which laid shoots end at a gap's edges and which make an overlap.
fn attribute(cover: &mut Cover, laid: &[Laid]) {
    let mut by_from: Vec<&Laid> = laid.iter().collect();
    by_from.arrange_by(|a, b| a.span.from.total_cmp(&b.span.from));
    let longest = laid.iter().map(|l| l.span.length()).fold(0.0, f64::max);
    let near = |span: Span, reach: f64| {
        let first = by_from.partition_point(|l| l.span.from < span.from - longest - reach);
        by_from[first..]
            .iter()
            .take_while(move |l| l.span.from <= span.to + reach)
            .filter(move |l| l.span.to >= span.from - reach)
            .map(|l| **l)
            .collect::<Vec<_>>()
    };
    for gap in &mut cover.gaps {
        gap.by = near(gap.span, 0.5)
            .iter()
            .map(|l| (l.tree, l.shoot))
            .collect();
    }
    for overlap in &mut cover.overlaps {
        overlap.by = near(overlap.span, 0.0)
            .iter()
            .filter(|l| l.span.from < overlap.span.to && l.span.to > overlap.span.from)
            .map(|l| (l.tree, l.shoot))
            .collect();
    }
}

/// One place among the uprights of the row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The tree.
    pub tree: TreeId,
    /// The upright, bud or stub.
    pub shoot: ShootId,
    /// Where it stands on the cordon: its own base, or that of the stub or upright in whose place it came, mm along the row.
    pub x: f64,
    /// Height of that base, mm.
    pub z: f64,
}

/// The places of one tree's uprights, in the order of its shoots.
pub fn places_of(posed: &Posed) -> impl Iterator<Item = Place> {
    posed.places().iter().map(|(shoot, at)| Place {
        tree: posed.tree().id,
        shoot: posed.tree().shoots[*shoot].id,
        x: at.x,
        z: at.y,
    })
}

/// The places of the uprights along the row, from left to right.
pub fn upright_places(row: &impl AnyRow, g: Geometry) -> Vec<Place> {
    let mut out: Vec<Place> = Vec::new();
    for tree in row.posed_in(g).iter() {
        out.extend(places_of(tree));
    }
    out.arrange_by(Place::along_the_row);
    out
}

impl Place {
    /// The order of places along the row: by x, then by tree and shoot.
    pub fn along_the_row(&self, other: &Self) -> std::cmp::Ordering {
        self.x
            .total_cmp(&other.x)
            .then(self.tree.cmp(&other.tree))
            .then(self.shoot.cmp(&other.shoot))
    }
}

/// Whether what grows from `parent` grows from laid wood.
pub(crate) fn on_cordon(tree: &Tree, parent: Option<ShootId>) -> bool {
    parent
        .and_then(|p| tree.shoot(p))
        .is_some_and(|p| p.pose.is_laid())
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

    #[test]
    fn a_climbing_shoot_is_found_where_its_course_is() {
        let g = Geometry::at(500.0, &Targets::default());
        let tree = |angle: f64, toward: crate::row::Toward, diameter: f64| {
            let planted = crate::row::Planted {
                angle: crate::units::Deg::new(angle),
                toward: crate::row::Toward::Right,
            };
            let mut stem = crate::row::Shoot::bud(ShootId::STEM, None, 0.0);
            stem.units = vec![crate::row::GrowthUnit::whole(0, 3000.0)];
            stem.diameter = diameter;
            stem.pose = Pose::Laid {
                toward,
                rise: crate::units::Deg::new(2.0),
            };
            let mut tree = Tree::lost(TreeId(1), crate::units::Mm(100), planted);
            tree.shoots = vec![stem];
            crate::pose::layout(&tree, g)[0]
        };
        for angle in [30.0, 45.0, 70.0, 90.0] {
            for toward in [crate::row::Toward::Right, crate::row::Toward::Left] {
                for diameter in [5.0, 20.0, 40.0] {
                    let course = tree(angle, toward, diameter);
                    for z in [100.0, 350.0, 450.0, 490.0] {
                        let way = 0..30_000;
                        let at: Point = way
                            .map(|s| course.point(f64::from(s) / 10.0))
                            .find(|p| p.y >= z)
                            .expect("it climbs");
                        let x = climbs_to(&course, z);
                        assert!(
                            (x - at.x).abs() < 1.0,
                            "{angle} {toward:?} {diameter} {z}: {x}"
                        );
                    }
                }
            }
        }
    }
}
