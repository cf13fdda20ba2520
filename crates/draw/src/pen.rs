//! Numbers and path data: tenths of a unit, always finite, written short.

use kurbo::Point;
use std::fmt::Write;

/// Farthest that any number is written, in units: well beyond the longest row.
const LIMIT: f64 = 1e8;

/// The nearest tenth, as a count of tenths; what is not finite gives 0.
fn tenths(value: f64) -> i64 {
    if value.is_finite() {
        (value.clamp(-LIMIT, LIMIT) * 10.0).round() as i64
    } else {
        0
    }
}

fn push(out: &mut String, tenths: i64) {
    // Writing to a string never fails.
    let sign = if tenths < 0 { "-" } else { "" };
    let (whole, rest) = (tenths.abs() / 10, tenths.abs() % 10);
    let _ = match (whole, rest) {
        (w, 0) => write!(out, "{sign}{w}"),
        (0, r) => write!(out, "{sign}.{r}"),
        (w, r) => write!(out, "{sign}{w}.{r}"),
    };
}

/// A number to a tenth.
pub fn num(value: f64) -> String {
    let mut out = String::new();
    push(&mut out, tenths(value));
    out
}

/// A scale that can be drawn to, pixels per millimetre; what is none gives the least.
pub fn scale(px_per_mm: f64) -> f64 {
    // A comparison with NaN is false.
    if px_per_mm > 1e-6 {
        px_per_mm.min(1e3)
    } else {
        1e-6
    }
}

/// `translate(x y)`.
pub fn translate(at: Point) -> String {
    format!("translate({} {})", num(at.x), num(at.y))
}

/// Writes path data in steps from the last rounded point, so that rounding never adds up.
#[derive(Default)]
pub struct Pen {
    d: String,
    at: (i64, i64),
    start: (i64, i64),
}

impl Pen {
    fn step(&mut self, to: Point, gap: bool) -> (i64, i64) {
        let to = (tenths(to.x), tenths(to.y));
        for (i, n) in [to.0 - self.at.0, to.1 - self.at.1].into_iter().enumerate() {
            if n >= 0 && (gap || i > 0) {
                self.d.push(' ');
            }
            push(&mut self.d, n);
        }
        to
    }

    /// Goes to a point without drawing.
    pub fn move_to(&mut self, to: Point) -> &mut Self {
        self.d.push(if self.d.is_empty() { 'M' } else { 'm' });
        self.at = self.step(to, false);
        self.start = self.at;
        self
    }

    /// Draws straight to a point.
    pub fn line_to(&mut self, to: Point) -> &mut Self {
        self.d.push('l');
        self.at = self.step(to, false);
        self
    }

    /// Draws a quadratic curve.
    pub fn quad_to(&mut self, a: Point, to: Point) -> &mut Self {
        self.d.push('q');
        self.step(a, false);
        self.at = self.step(to, true);
        self
    }

    /// Draws a cubic curve.
    pub fn curve_to(&mut self, a: Point, b: Point, to: Point) -> &mut Self {
        self.d.push('c');
        self.step(a, false);
        self.step(b, true);
        self.at = self.step(to, true);
        self
    }

    /// Closes the outline.
    pub fn close(&mut self) -> &mut Self {
        self.d.push('z');
        self.at = self.start;
        self
    }

    /// An upright rectangle.
    pub fn rect(&mut self, x0: f64, y0: f64, x1: f64, y1: f64) -> &mut Self {
        self.move_to(Point::new(x0, y0))
            .line_to(Point::new(x1, y0))
            .line_to(Point::new(x1, y1))
            .line_to(Point::new(x0, y1))
            .close()
    }

    /// A straight line between two points.
    pub fn line(&mut self, from: Point, to: Point) -> &mut Self {
        self.move_to(from).line_to(to)
    }

    /// Whether nothing has been drawn.
    pub fn is_empty(&self) -> bool {
        self.d.is_empty()
    }

    /// The path data.
    pub fn data(&self) -> &str {
        &self.d
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(value: f64, expected: &str) {
        assert_eq!(num(value), expected, "{value}");
    }

    #[test]
    fn numbers_are_short_and_finite() {
        check(0.0, "0");
        check(-0.01, "0");
        check(0.25, ".3");
        check(-0.5, "-.5");
        check(1234.04, "1234");
        check(-12.34, "-12.3");
        check(f64::NAN, "0");
        check(f64::INFINITY, "0");
        check(1e300, "100000000");
    }

    #[test]
    fn steps_do_not_drift() {
        let mut pen = Pen::default();
        pen.move_to(Point::ZERO);
        for i in 1..=1000 {
            pen.line_to(Point::new(f64::from(i) * 0.34, 0.0));
        }
        assert_eq!(pen.at, (3400, 0));
    }

    #[test]
    fn data_is_compact() {
        let mut pen = Pen::default();
        pen.rect(-1.0, -2.0, 3.0, 4.5);
        assert_eq!(pen.data(), "M-1-2l4 0l0 6.5l-4 0z");
    }
}
