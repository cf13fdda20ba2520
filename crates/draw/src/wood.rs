//! The outline of a shoot's wood: its course with the thickness that it has at each place.

use crate::pen::Pen;
use cordonry::pose::Course;
use cordonry::row::{Pose, Shoot};
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

/// Least radius of a shoot's unbroken tip, mm.
const TIP_RADIUS: f64 = 2.0;
/// Radius of the tip as a share of the base's. Only the base is measured; laid wood, which
/// feeds uprights all along, stays thicker.
const TIP_SHARE: f64 = 0.25;
const LAID_TIP_SHARE: f64 = 0.5;

/// A place on the wall as a point of the drawing.
pub fn on_page(p: Point) -> Point {
    Point::new(p.x, -p.y)
}

/// The unit vector of a heading, z up.
pub fn along(heading: f64) -> Vec2 {
    Vec2::new(libm::cos(heading), libm::sin(heading))
}

/// A shoot's wood.
#[derive(Clone, Copy)]
pub struct Wood {
    course: Course,
    base_radius: f64,
    /// Change of radius per millimetre; 0 or less.
    taper: f64,
    /// Whether the shoot stands in the ground.
    planted: bool,
    /// Whether its end was cut.
    pub cut: bool,
}

impl Wood {
    /// The wood of a shoot on its course. It thins evenly to what its tip had when it was whole.
    pub fn of(shoot: &Shoot, course: Course) -> Self {
        let base_radius = (shoot.diameter / 2.0).max(TIP_RADIUS);
        let grown: f64 = shoot.units.iter().map(|u| u.grown).sum();
        let whole = if shoot.pose == Pose::Stub {
            grown.max(1500.0)
        } else {
            grown.max(course.length)
        };
        let share = if shoot.pose.is_laid() {
            LAID_TIP_SHARE
        } else {
            TIP_SHARE
        };
        let tip_radius = (base_radius * share).max(TIP_RADIUS);
        Self {
            course,
            base_radius,
            taper: if whole > 0.0 {
                (tip_radius - base_radius) / whole
            } else {
                0.0
            },
            planted: shoot.parent.is_none(),
            cut: shoot.pose == Pose::Stub
                || shoot.units.last().is_some_and(|u| u.kept < u.grown - 0.5),
        }
    }

    /// The bare axis.
    pub fn axis(course: Course) -> Self {
        Self {
            course,
            base_radius: 0.0,
            taper: 0.0,
            planted: false,
            cut: false,
        }
    }

    /// Half the thickness at `s` mm from the base.
    pub fn radius(&self, s: f64) -> f64 {
        (self.base_radius + self.taper * s.max(0.0)).max(0.0)
    }

    /// The place on the left (1) or right (−1) face at `s`; on the axis with 0.
    fn face(&self, s: f64, heading: f64, side: f64) -> Point {
        self.course.point(s) + along(heading + FRAC_PI_2) * (side * self.radius(s))
    }

    /// A line across the wood at `s`, longer than it is thick by `beyond`, slanted by `slant` of its half width.
    pub fn across(&self, pen: &mut Pen, s: f64, beyond: f64, slant: f64) {
        let h = self.course.heading(s);
        let half = along(h + FRAC_PI_2) * (self.radius(s) + beyond)
            + along(h) * (slant * (self.radius(s) + beyond));
        let p = self.course.point(s);
        pen.line(on_page(p + half), on_page(p - half));
    }

    /// Draws one face from `from` to `to` (either way) onto a pen that stands at its beginning.
    fn trace(&self, pen: &mut Pen, side: f64, from: f64, to: f64) {
        let c = &self.course;
        let bend = c.radius * c.turn.abs();
        let (bend_from, bend_to) = (c.first.min(c.length), (c.first + bend).min(c.length));
        let (low, high) = (from.min(to), from.max(to));
        let mut stops = vec![low];
        if bend > 0.0 && bend_to > bend_from {
            let arc = bend_to - bend_from;
            let pieces = (arc / c.radius / FRAC_PI_4).ceil().max(1.0) as u32;
            let stop = |i: u32| bend_from + arc * f64::from(i) / f64::from(pieces);
            stops.extend((0..=pieces).map(stop));
        } else {
            stops.push(bend_from);
        }
        stops.retain(|s| *s >= low && *s < high);
        stops.push(high);
        if from > to {
            stops.reverse();
        }
        let sharp = bend == 0.0 && c.turn != 0.0;
        for pair in stops.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            if a == b {
                continue;
            }
            let middle = (a + b) / 2.0;
            if bend > 0.0 && middle > bend_from && middle < bend_to {
                self.bend_piece(pen, side, a, b);
                continue;
            }
            let h = c.heading(middle);
            if sharp {
                pen.line_to(on_page(self.face(a, h, side)));
            }
            pen.line_to(on_page(self.face(b, h, side)));
        }
    }

    fn bend_piece(&self, pen: &mut Pen, side: f64, a: f64, b: f64) {
        let c = &self.course;
        let curvature = c.turn.signum() / c.radius;
        let angle = (b - a).abs() / c.radius;
        // The handle of a cubic that follows a circular arc of this angle, per length.
        let handle = (b - a) * 4.0 / 3.0 * libm::tan(angle / 4.0) / angle;
        let heading = |s: f64| c.heading0 + curvature * (s - c.first);
        let speed = |s: f64| {
            along(heading(s)) * (1.0 - side * curvature * self.radius(s)).max(0.0)
                + along(heading(s) + FRAC_PI_2) * (side * self.taper)
        };
        let (p, q) = (
            self.face(a, heading(a), side),
            self.face(b, heading(b), side),
        );
        pen.curve_to(
            on_page(p + speed(a) * handle),
            on_page(q - speed(b) * handle),
            on_page(q),
        );
    }

    /// The closed outline.
    pub fn outline(&self, pen: &mut Pen) {
        let c = &self.course;
        let length = c.length;
        // Where a face comes out of the ground; elsewhere the base is square.
        let start = |side: f64| {
            if self.planted && libm::sin(c.heading0) > 0.1 {
                (-side / libm::tan(c.heading0) * self.base_radius)
                    .clamp(-length, c.first.min(length) / 2.0)
            } else {
                0.0
            }
        };
        let foot = |side: f64| {
            let s = start(side);
            c.base + along(c.heading0) * s + along(c.heading0 + FRAC_PI_2) * (side * self.radius(s))
        };
        let end = c.heading(length);
        let r = self.radius(length);
        let back = |by: f64| (length - by).max(length / 2.0);
        let (left, right) = if self.cut {
            (length, back(1.1 * r))
        } else {
            (back(r), back(r))
        };
        pen.move_to(on_page(foot(1.0)));
        self.trace(pen, 1.0, start(1.0).max(0.0), left);
        let over = self.face(right, end, -1.0);
        if self.cut {
            pen.line_to(on_page(over));
        } else {
            // A round end, no farther than the tip.
            let ahead = along(end) * ((length - left) * 4.0 / 3.0);
            let near = self.face(left, end, 1.0);
            pen.curve_to(on_page(near + ahead), on_page(over + ahead), on_page(over));
        }
        self.trace(pen, -1.0, right, start(-1.0).max(0.0));
        pen.line_to(on_page(foot(-1.0))).close();
    }

    /// The cut at the end, as a line a little longer than the wood is thick.
    pub fn cut_face(&self, pen: &mut Pen) {
        let length = self.course.length;
        let r = self.radius(length);
        let h = self.course.heading(length);
        let left = self.face(length, h, 1.0);
        let right = self.face((length - 1.1 * r).max(length / 2.0), h, -1.0);
        let over = (left - right) * 0.22;
        pen.line(on_page(left + over), on_page(right - over));
    }

    /// The course itself from `from` to the tip.
    pub fn spine(&self, pen: &mut Pen, from: f64) {
        let from = from.clamp(0.0, self.course.length);
        pen.move_to(on_page(self.course.point(from)));
        Self::axis(self.course).trace(pen, 0.0, from, self.course.length);
    }
}
