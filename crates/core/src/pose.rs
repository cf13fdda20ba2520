//! Where each shoot runs on the wall.
//!
//! A shoot's course is a straight part, one bend of constant radius, and a straight part. Its length is
//! its own: bending moves the tip along the curve that the length allows. x grows to the right and
//! z up; headings are counted from the right over the top, so that 90° is straight up.

mod number;
mod posed;

pub(crate) use number::as_found;
pub use number::{Called, Name};
pub use posed::{AnyRow, Posed, PosedRow};

use crate::arrange::Arrange;
use crate::row::{Face, Limit, Pose, Row, Shoot, Targets, Tree, Trellis};
use kurbo::{Arc, BezPath, Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI};

/// What of the row decides where a tree's shoots run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geometry {
    /// Height of the cordon wire, mm.
    pub wire: f64,
    /// Radius of a bend in stem diameters.
    pub bend_diameters: f64,
    /// Up to how thick wood bears to be bent where it begins, mm.
    pub bend_thick: f64,
}

impl Geometry {
    /// The geometry of a row under its limits.
    pub fn of(row: &Row, targets: &Targets) -> Self {
        Self::under(&row.trellis, targets)
    }

    /// The geometry of a trellis under the limits.
    pub fn under(trellis: &Trellis, targets: &Targets) -> Self {
        Self::at(trellis.cordon_height().f(), targets)
    }

    /// The geometry of a cordon wire so many millimetres up, under the limits.
    pub fn at(wire: f64, targets: &Targets) -> Self {
        Self {
            wire,
            bend_diameters: targets.get(Limit::BendDiameters),
            bend_thick: targets.get(Limit::BendThick),
        }
    }
}

/// The points of a course.
pub struct Points<'c> {
    course: &'c Course,
    /// Which way its first straight part runs.
    start: Vec2,
    arc: f64,
    bend_end: Point,
    /// Which way its last one runs.
    end: Vec2,
}

impl Points<'_> {
    /// As [`Course::point`].
    pub fn at(&self, s: f64) -> Point {
        let course = self.course;
        let s = s.clamp(0.0, course.length);
        if s <= course.first {
            return course.base + self.start * s;
        }
        let beyond = s - course.first - self.arc;
        match beyond >= 0.0 {
            true => self.bend_end + self.end * beyond,
            false => course.point(s),
        }
    }
}

/// A shoot's axis on the wall, all in millimetres and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// Where it begins.
    pub base: Point,
    /// Heading at the base.
    pub heading0: f64,
    /// Length of the first straight part.
    pub first: f64,
    /// Radius of the bend; 0 for a corner.
    pub radius: f64,
    /// Turn from the first part to the last, counted as headings are.
    pub turn: f64,
    /// Length from base to tip.
    pub length: f64,
    /// Where that ends: it is asked for far more often than a course is made.
    tip: Point,
}

impl Course {
    fn straight(base: Point, heading: f64, length: f64) -> Self {
        Self {
            base,
            heading0: heading,
            first: length,
            radius: 0.0,
            turn: 0.0,
            length,
            tip: base,
        }
        .ended()
    }

    fn ended(self) -> Self {
        Self {
            tip: self.point(self.length),
            ..self
        }
    }

    /// From `base` along `heading0` to the height `level`, then bent to `heading1`.
    fn bent(
        base: Point,
        heading0: f64,
        level: f64,
        heading1: f64,
        radius: f64,
        length: f64,
    ) -> Self {
        let turn = heading1 - heading0;
        let climb = libm::sin(heading0);
        let rise = (level - base.y).max(0.0);
        if climb < 1e-6 || turn.abs() < 1e-9 {
            return Self::straight(base, heading1, length);
        }
        let to_corner = rise / climb;
        // The bend takes up this much on either side of the corner; it must fit below it.
        let per_radius = libm::tan(turn.abs().min(PI * 0.999) / 2.0);
        let radius = radius.min(to_corner / per_radius).max(0.0);
        Self {
            base,
            heading0,
            first: to_corner - radius * per_radius,
            radius,
            turn,
            length,
            tip: base,
        }
        .ended()
    }

    fn arc_length(&self) -> f64 {
        self.radius * self.turn.abs()
    }

    /// The point `s` mm from the base along the shoot; `s` is held to 0..=length.
    pub fn point(&self, s: f64) -> Point {
        let s = s.clamp(0.0, self.length);
        let dir = |h: f64| Vec2::new(libm::cos(h), libm::sin(h));
        if s <= self.first {
            return self.base + dir(self.heading0) * s;
        }
        let p = self.turned((s - self.first).min(self.arc_length()));
        p + dir(self.end_heading()) * (s - self.first - self.arc_length()).max(0.0)
    }

    /// The point so far into the bend.
    fn turned(&self, into: f64) -> Point {
        let dir = |h: f64| Vec2::new(libm::cos(h), libm::sin(h));
        let bend_start = self.base + dir(self.heading0) * self.first;
        if self.radius <= 0.0 {
            return bend_start;
        }
        let side = self.turn.signum();
        let normal = |h: f64| dir(h + side * FRAC_PI_2);
        let centre = bend_start + normal(self.heading0) * self.radius;
        let h = self.heading0 + side * into / self.radius;
        centre - normal(h) * self.radius
    }

    /// Its points, where many are asked for: the directions of its straight parts are worked out once.
    pub fn points(&self) -> Points<'_> {
        let dir = |h: f64| Vec2::new(libm::cos(h), libm::sin(h));
        Points {
            course: self,
            start: dir(self.heading0),
            arc: self.arc_length(),
            bend_end: self.turned(self.arc_length()),
            end: dir(self.end_heading()),
        }
    }

    /// Heading at the distance `s`, radians.
    pub fn heading(&self, s: f64) -> f64 {
        if s < self.first || (self.radius == 0.0 && s <= self.first) {
            self.heading0
        } else if self.radius > 0.0 && s - self.first < self.arc_length() {
            self.heading0 + self.turn.signum() * (s - self.first) / self.radius
        } else {
            self.end_heading()
        }
    }

    /// Heading of the last straight part, radians.
    pub fn end_heading(&self) -> f64 {
        self.heading0 + self.turn
    }

    /// Where the tip is.
    pub fn tip(&self) -> Point {
        self.tip
    }

    /// The corner in which the two straight parts would meet.
    pub fn corner(&self) -> Point {
        let reach = self.first + self.radius * libm::tan(self.turn.abs().min(PI * 0.999) / 2.0);
        self.base + Vec2::new(libm::cos(self.heading0), libm::sin(self.heading0)) * reach
    }

    /// How far along the shoot the place `x` is, or `None` where it does not reach. Measured on the part that runs
    /// along the row, so that a leader answers with a place on its laid wood rather than on its trunk.
    pub fn at_x(&self, x: f64) -> Option<f64> {
        // The part along the row begins at the bend; where the bend leads back over the foot, at its farthest.
        let returns = libm::cos(self.heading0) * libm::cos(self.end_heading()) < 0.0;
        let farthest = if returns {
            self.radius * (FRAC_PI_2 - self.heading0).abs()
        } else {
            0.0
        };
        let part = (self.first + farthest).min(self.length);
        let (mut low, mut high) = (part, self.length);
        let points = self.points();
        let (x0, x1) = (points.at(low).x, points.at(high).x);
        if (x - x0) * (x - x1) > 0.0 {
            low = 0.0;
            let base = self.base.x;
            if (x - base) * (x - x0) > 0.0 {
                return None;
            }
            high = part;
        }
        // x runs one way along either part: halve until a thousandth of a millimetre is left.
        let rightward = points.at(high).x >= points.at(low).x;
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            if (points.at(middle).x < x) == rightward {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some((low + high) / 2.0)
    }

    /// How near the shoot comes to a point, mm, and how far along it that is.
    pub fn nearest(&self, to: Point) -> (f64, f64) {
        let bend_end = self.first + self.arc_length();
        let on_line = |from: f64, until: f64, heading: f64| {
            let start = self.point(from);
            let ahead = (to - start).dot(Vec2::new(libm::cos(heading), libm::sin(heading)));
            from + ahead.clamp(0.0, (until - from).max(0.0))
        };
        let in_bend = || {
            // The centre is at the turn's side of where the bend begins.
            let side = self.heading0 + self.turn.signum() * FRAC_PI_2;
            let out = Vec2::new(libm::cos(side), libm::sin(side)) * self.radius;
            let from_centre = to - (self.point(self.first) + out);
            let turned = libm::atan2((-out).cross(from_centre), (-out).dot(from_centre));
            self.first + (turned * self.turn.signum()).clamp(0.0, self.turn.abs()) * self.radius
        };
        let first = on_line(0.0, self.first.min(self.length), self.heading0);
        let last = on_line(bend_end.min(self.length), self.length, self.end_heading());
        [first, in_bend().min(self.length), last]
            .map(|s| (self.point(s).distance(to), s))
            .into_iter()
            .reduce(|least, next| if next.0 < least.0 { next } else { least })
            .unwrap_or_default()
    }

    /// The axis as a path, true to `accuracy` mm.
    pub fn path(&self, accuracy: f64) -> BezPath {
        let mut path = BezPath::new();
        path.move_to(self.base);
        if self.first > 0.0 {
            path.line_to(self.point(self.first.min(self.length)));
        }
        let arc = (self.length - self.first).min(self.arc_length());
        if arc > 0.0 {
            let side = self.turn.signum();
            let start = self.heading0 - side * FRAC_PI_2;
            let centre = self.point(self.first)
                - Vec2::new(libm::cos(start), libm::sin(start)) * self.radius;
            Arc::new(
                centre,
                (self.radius, self.radius),
                start,
                side * arc / self.radius,
                0.0,
            )
            .to_cubic_beziers(accuracy, |a, b, c| path.curve_to(a, b, c));
        }
        if self.length > self.first + self.arc_length() {
            path.line_to(self.tip());
        }
        path
    }
}

/// Within how many millimetres of the cordon wire a shoot's base counts as on it.
pub(crate) const ON_THE_WIRE: f64 = 20.0;

/// At which heading wood leaves its parent so far below the wire, `rise` mm, for its bend to `end` to be as wide as `radius`:
/// straight up where there is room, else the nearer to its end the less room there is, until it is bent where it begins.
// Compiled once: courses are made in many places.
#[inline(never)]
fn leaves_for(rise: f64, end: f64, radius: f64) -> f64 {
    // As if it ran to the right.
    let is_left = libm::cos(end) < 0.0;
    let end = if is_left { PI - end } else { end };
    let needs = |heading: f64| radius * libm::tan((heading - end) / 2.0) * libm::sin(heading);
    let (mut low, mut high) = (end.max(0.0), FRAC_PI_2);
    if needs(high) > rise {
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            match needs(middle) > rise {
                true => high = middle,
                false => low = middle,
            }
        }
    }
    if is_left { PI - high } else { high }
}

/// The course of one shoot, from that of its parent.
pub(crate) fn course_of(
    tree: &Tree,
    shoot: &Shoot,
    parent: Option<&Course>,
    g: Geometry,
) -> Course {
    let length = shoot.length();
    let radius = shoot
        .bend_radius
        .unwrap_or(g.bend_diameters * shoot.diameter);
    let end = shoot.pose.heading().map(f64::to_radians);
    let Some(parent) = parent else {
        let base = Point::new(tree.foot.f(), 0.0);
        let planted = tree.planted.heading().to_radians();
        return match end {
            Some(end) => Course::bent(base, planted, g.wire, end, radius, length),
            None => Course::straight(base, planted, length),
        };
    };
    let base = parent.point(shoot.at);
    match (shoot.pose, end) {
        // A leader that forks from below the wire goes up to it and turns there.
        (Pose::Laid { .. }, Some(end)) if base.y < g.wire - ON_THE_WIRE => {
            let is_thin = radius <= g.bend_thick * g.bend_diameters;
            let leaves = match is_thin {
                true => leaves_for(g.wire - base.y, end, radius),
                false => FRAC_PI_2,
            };
            Course::bent(base, leaves, g.wire, end, radius, length)
        }
        (_, Some(end)) => Course::straight(base, end, length),
        (Pose::Stub, None) => Course::straight(base, FRAC_PI_2, length),
        (_, None) => {
            let along = parent.heading(shoot.at);
            let rightward = libm::cos(along) >= 0.0;
            let away: f64 = match shoot.face {
                Face::Top => 65.0,
                Face::Side => 40.0,
                Face::Under => -50.0,
            };
            let heading = if rightward { away } else { 180.0 - away };
            Course::straight(base, heading.to_radians(), length)
        }
    }
}

/// In how many steps a shoot's way down to the stem is short.
const FEW_STEPS: usize = 6;

/// The course of the shoot at `index`, which the tree has.
pub(crate) fn course(tree: &Tree, index: usize, g: Geometry) -> Course {
    // From the shoot down to the stem, and up again. Where that is far, a list tells the way sooner.
    let mut list: Option<Vec<Option<usize>>> = None;
    let mut down = vec![index];
    while let Some(parent) = tree.shoots[down[down.len() - 1]].parent {
        let next = match down.len() < FEW_STEPS {
            true => tree.index(parent),
            false => list.get_or_insert_with(|| tree.parents())[down[down.len() - 1]],
        };
        match next {
            Some(next) => down.push(next),
            None => break,
        }
    }
    let (stem, up) = down.split_last().expect("it is on the way itself");
    let first = course_of(tree, &tree.shoots[*stem], None, g);
    let on = |course, at: &usize| course_of(tree, &tree.shoots[*at], Some(&course), g);
    up.iter().rev().fold(first, on)
}

/// The course of every shoot, in the order of `tree.shoots`.
pub fn layout(tree: &Tree, g: Geometry) -> Vec<Course> {
    let mut out: Vec<Course> = Vec::with_capacity(tree.shoots.len());
    for (shoot, parent) in tree.shoots.iter().zip(tree.parents()) {
        let parent = parent.and_then(|i| out.get(i));
        let course = course_of(tree, shoot, parent, g);
        out.push(course);
    }
    out
}

/// How near to the wire, in millimetres, a dragged tip is taken to it.
pub const WIRE_SNAP: f64 = 40.0;
/// Within how many degrees of the vertical a dragged shoot is taken to it.
pub const VERTICAL_SNAP: f64 = 3.0;

/// The pose that brings the tip of the shoot at `index` nearest to `target`, on the curve that its length
/// allows. With `snap`, a tip near the wire goes onto it and a shoot near the vertical goes upright.
pub fn bend_toward(on: &Posed, index: usize, target: Point, snap: bool) -> Pose {
    let (tree, g, courses) = (on.tree(), on.geometry(), on.courses());
    let Some(shoot) = tree.shoots.get(index) else {
        return Pose::Free;
    };
    let parent = shoot
        .parent
        .and_then(|p| tree.index(p))
        .and_then(|i| courses.get(i));
    // It is bent anew, as thick as it is now.
    let mut trial = Shoot {
        bend_radius: None,
        ..shoot.clone()
    };
    let mut tip = |pose: Pose| {
        trial.pose = pose;
        course_of(tree, &trial, parent, g).tip()
    };
    // Poses are a tenth of a degree apart. Every degree is looked at, and the first upright beside the laid ones,
    // where the tip's way can leap; then every tenth between two that the tip's way may come nearer between.
    let tenths = |degrees: f64| libm::round(degrees * 10.0) as i32;
    let (lowest, laid) = (tenths(Pose::MIN_RISE), tenths(Pose::MAX_RISE));
    let mut rough: Vec<i32> = (lowest..=1800 - lowest).step_by(10).collect();
    rough.extend([laid + 1, 1800 - laid - 1]);
    rough.arrange();
    let mut nearest = (f64::INFINITY, shoot.pose);
    let mut look = |tenth: i32| {
        let pose = Pose::from_heading(f64::from(tenth) / 10.0);
        let tip = tip(pose);
        let miss = (tip - target).hypot();
        if miss < nearest.0 {
            nearest = (miss, pose);
        }
        (tip, miss, nearest.0)
    };
    let seen: Vec<(Point, f64, f64)> = rough.iter().map(|t| look(*t)).collect();
    let mut least = seen.last().map_or(f64::INFINITY, |s| s.2);
    for (pair, ends) in rough.windows(2).zip(seen.windows(2)) {
        // The tip's way between them is a little longer than the chord.
        let way = 1.5 * (ends[1].0 - ends[0].0).hypot();
        if (ends[0].1 + ends[1].1 - way) / 2.0 < least {
            for tenth in pair[0] + 1..pair[1] {
                least = look(tenth).2;
            }
        }
    }
    let pose = nearest.1;
    if !snap {
        return pose;
    }
    match pose {
        Pose::Laid { toward, .. } if (tip(pose).y - g.wire).abs() <= WIRE_SNAP => Pose::Laid {
            toward,
            rise: Default::default(),
        },
        Pose::Upright { lean } if lean.degrees().abs() <= VERTICAL_SNAP => Pose::Upright {
            lean: Default::default(),
        },
        other => other,
    }
}

/// Length of unheaded stock that runs from its foot along the wire to where the next tree's wood bears:
/// `h/sin a + S + (z_b − h)/tan a`, mm. Derived; a rounded bend saves a little of it.
///
/// `angle` is the planting angle from the ground in radians (0.17 to π/2), `wire` the cordon height h,
/// `spacing` the tree spacing S and `bearing` the height z_b (at most h), in mm.
pub fn stock_length(wire: f64, angle: f64, spacing: f64, bearing: f64) -> f64 {
    wire / libm::sin(angle) + spacing + (bearing - wire) / libm::tan(angle)
}

/// What a bend of `radius` through `turn` radians saves against a sharp corner, mm: `2 r tan(turn/2) − r turn`. Derived.
pub fn bend_saving(radius: f64, turn: f64) -> f64 {
    2.0 * radius * libm::tan(turn / 2.0) - radius * turn
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_4;

    fn g() -> Geometry {
        Geometry::at(500.0, &Targets::default())
    }

    #[test]
    fn a_bend_keeps_the_length() {
        let base = Point::new(0.0, 0.0);
        for radius in [0.0, 100.0, 300.0, 2000.0] {
            for end in [0.0, 0.2, FRAC_PI_2, 2.0, PI] {
                let c = Course::bent(base, FRAC_PI_4, g().wire, end, radius, 2000.0);
                let steps = 20_000;
                let walked: f64 = (0..steps)
                    .map(|i| {
                        let s = |k: i32| 2000.0 * f64::from(k) / f64::from(steps);
                        (c.point(s(i + 1)) - c.point(s(i))).hypot()
                    })
                    .sum();
                assert!((walked - 2000.0).abs() < 0.2, "{radius} {end}: {walked}");
            }
        }
    }

    #[test]
    fn thin_wood_near_below_the_wire_leaves_its_parent_so_that_its_bend_is_wide_enough() {
        let radius = |diameter: f64| g().bend_diameters * diameter;
        for (rise, end) in [
            (0.0, 0.0),
            (3.0, 0.05),
            (30.0, 0.0),
            (60.0, 0.08),
            (149.0, 0.0),
            (30.0, -0.05),
        ] {
            for end in [end, PI - end] {
                let leaves = leaves_for(rise, end, radius(10.0));
                let base = Point::new(10.0, g().wire - rise);
                let c = Course::bent(base, leaves, g().wire, end, radius(10.0), 900.0);
                let bend = if c.turn == 0.0 {
                    radius(10.0)
                } else {
                    c.radius
                };
                assert!((bend - radius(10.0)).abs() < 0.01, "{rise} {end}: {bend}");
                // Its last part is aimed at the wire above its base, as where there is room.
                let aimed = c.corner().y;
                assert!((aimed - g().wire).abs() < 0.01, "{rise} {end}: {aimed}");
            }
        }
        // With room enough it goes straight up, as a little less makes it all but do.
        assert_eq!(leaves_for(150.0, 0.0, radius(10.0)), FRAC_PI_2);
        assert!((leaves_for(149.9, PI, radius(10.0)) - FRAC_PI_2).abs() < 0.001);
    }

    #[test]
    fn points_asked_for_together_are_those_asked_for_one_by_one() {
        for radius in [0.0, 100.0, 300.0, 2000.0] {
            for end in [0.0, 0.2, FRAC_PI_2, 2.0, PI] {
                let base = Point::new(10.0, 20.0);
                let c = Course::bent(base, FRAC_PI_4, g().wire, end, radius, 2000.0);
                let points = c.points();
                let places = (-10..=2_010).map(f64::from);
                for s in places.chain([c.first, c.first + c.arc_length(), c.length]) {
                    assert_eq!(points.at(s), c.point(s), "{radius} {end} {s}");
                }
            }
        }
    }

    #[test]
    fn the_path_ends_at_the_tip() {
        let c = Course::bent(Point::new(0.0, 0.0), FRAC_PI_4, 500.0, 0.0, 300.0, 2000.0);
        let path = c.path(0.1);
        let last = path.elements().last().and_then(|e| e.end_point()).unwrap();
        assert!((last - c.tip()).hypot() < 1e-9);
        assert!((c.tip().y - 500.0).abs() < 1e-9);
    }

    #[test]
    fn a_place_along_the_row_is_found_on_the_wood() {
        let c = Course::bent(Point::new(0.0, 0.0), FRAC_PI_4, 500.0, 0.0, 300.0, 2000.0);
        for x in [10.0, 400.0, 600.0, 1500.0] {
            let s = c.at_x(x).unwrap();
            assert!((c.point(s).x - x).abs() < 0.001, "{x}: {s}");
        }
        assert_eq!(c.at_x(-1.0), None);
        assert_eq!(c.at_x(c.tip().x + 1.0), None);
    }

    #[test]
    fn a_rounded_right_angle_saves_what_geometry_says() {
        // Derived: radius 0.3 m through 90° saves 0.129 m.
        assert!((bend_saving(300.0, FRAC_PI_2) - 129.0).abs() < 0.5);
    }
}
