//! What part of the wall is on the screen, and how large. To scale: one scale for both directions.

use cordonry::cover::Span;
use cordonry::row::Row;
use kurbo::Point;

/// The window on the wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Place along the row at the left edge, mm.
    pub x: f64,
    /// Height at the top edge, mm.
    pub top: f64,
    /// Screen pixels to a millimetre.
    pub scale: f64,
    /// Width on the screen, px.
    pub width: f64,
    /// Height on the screen, px.
    pub height: f64,
}

/// Room kept under the ground for the tree numbers, mm at the fitting scale.
const BELOW: f64 = 260.0;
/// Room that the tree numbers need, px.
const NUMBERS: f64 = 30.0;
/// Room kept above the wall, mm.
const ABOVE: f64 = 350.0;
/// Room kept beside the row, px.
const BESIDE: f64 = 56.0;

impl View {
    /// Least and largest scale, px per mm.
    pub const SCALES: (f64, f64) = (0.004, 3.0);

    /// A view of nothing yet.
    pub fn empty() -> Self {
        Self {
            x: 0.0,
            top: 3000.0,
            scale: 0.15,
            width: 1.0,
            height: 1.0,
        }
    }

    /// On the screen, in px from the top left corner.
    pub fn to_px(self, p: Point) -> Point {
        Point::new((p.x - self.x) * self.scale, (self.top - p.y) * self.scale)
    }

    /// On the wall, in mm.
    pub fn to_mm(self, p: Point) -> Point {
        Point::new(self.x + p.x / self.scale, self.top - p.y / self.scale)
    }

    /// The stretch of the row that is seen.
    pub fn span(self) -> Span {
        Span {
            from: self.x,
            to: self.x + self.width / self.scale,
        }
    }

    /// Larger or smaller by `factor`, with the point at `px` held where it is.
    pub fn zoomed(self, factor: f64, px: Point) -> Self {
        let held = self.to_mm(px);
        let scale = (self.scale * factor).clamp(Self::SCALES.0, Self::SCALES.1);
        Self {
            x: held.x - px.x / scale,
            top: held.y + px.y / scale,
            scale,
            ..self
        }
    }

    /// Moved by so many px.
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        Self {
            x: self.x - dx / self.scale,
            top: self.top + dy / self.scale,
            ..self
        }
    }

    /// Held so that the row can't be lost from sight.
    pub fn held_to(self, row: &Row) -> Self {
        let reach = extent(row);
        let wide = self.width / self.scale;
        let high = self.height / self.scale;
        let wall = row.trellis.wall_height.f();
        Self {
            x: self.x.clamp(
                reach.from - wide * 0.8,
                (reach.to - wide * 0.2).max(reach.from - wide * 0.8),
            ),
            top: self.top.clamp(wall * 0.3, (wall + high).max(high)),
            ..self
        }
    }

    /// The wall's whole height fills the screen, from the row's left end on.
    pub fn fit_height(self, row: &Row) -> Self {
        let tall = row.trellis.wall_height.f() + ABOVE + BELOW;
        let scale = (self.height / tall).clamp(Self::SCALES.0, Self::SCALES.1);
        self.settled(row, scale, extent(row).from - BESIDE / scale)
    }

    /// The whole row fills the screen's width.
    pub fn fit_row(self, row: &Row) -> Self {
        let reach = extent(row);
        let by_width = (self.width - 2.0 * BESIDE).max(100.0) / reach.length().max(1000.0);
        let scale = by_width
            .min(self.fit_height(row).scale)
            .clamp(Self::SCALES.0, Self::SCALES.1);
        let x = reach.middle() - self.width / scale / 2.0;
        self.settled(row, scale, x)
    }

    fn settled(self, row: &Row, scale: f64, x: f64) -> Self {
        let tall = self.height / scale;
        let needed = row.trellis.wall_height.f() + ABOVE + BELOW;
        // The ground a little above the lower edge, with room for the numbers; of spare height a third goes below.
        let spare = (tall - needed).max(0.0);
        let below = (BELOW + spare / 3.0).max(NUMBERS / scale);
        Self {
            x,
            top: tall - below,
            scale,
            ..self
        }
    }

    /// Moved just so far that `x` is well in sight.
    pub fn showing(self, x: f64) -> Self {
        let span = self.span();
        let edge = span.length() * 0.12;
        if x < span.from + edge {
            Self {
                x: x - span.length() * 0.3,
                ..self
            }
        } else if x > span.to - edge {
            Self {
                x: x - span.length() * 0.7,
                ..self
            }
        } else {
            self
        }
    }
}

/// From the first to the last thing that stands on the row.
pub fn extent(row: &Row) -> Span {
    let feet = row.trees.iter().map(|t| t.foot.f());
    let posts = row.trellis.posts.iter().map(|p| p.f());
    let ends = [row.from.f(), row.to.f()];
    let low = feet
        .clone()
        .chain(posts.clone())
        .chain(ends)
        .fold(f64::INFINITY, f64::min);
    let high = feet
        .chain(posts)
        .chain(ends)
        .fold(f64::NEG_INFINITY, f64::max);
    Span {
        from: low,
        to: high,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zooming_holds_the_point_under_the_hand() {
        let view = View {
            width: 800.0,
            height: 400.0,
            ..View::empty()
        };
        let px = Point::new(123.0, 77.0);
        let before = view.to_mm(px);
        let after = view.zoomed(1.7, px).to_mm(px);
        assert!((before - after).hypot() < 1e-9);
    }

    #[test]
    fn screen_and_wall_agree() {
        let view = View {
            x: 500.0,
            top: 2800.0,
            scale: 0.2,
            width: 800.0,
            height: 400.0,
        };
        let p = Point::new(1234.0, 567.0);
        assert!((view.to_mm(view.to_px(p)) - p).hypot() < 1e-9);
    }
}
