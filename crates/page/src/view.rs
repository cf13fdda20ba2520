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
/// Room that the words at the top of the wall need, px.
const WORDS: f64 = 16.0;
/// How far above that one can look where the wall is larger than the screen: shoots grow beyond it.
const OVERGROWN: f64 = 1000.0;
/// Room kept beside the row, px.
const BESIDE: f64 = 64.0;
/// What lies nearer to the screen's edge than this is not well in sight, px or share of the width.
const EDGE: (f64, f64) = (48.0, 0.12);
/// Up to so many times as long as the wall is high a row stands side by side with another.
const ABREAST: f64 = 12.0;

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

    /// Whether it has no place on the screen yet: one that is hidden measures nothing.
    pub fn is_hidden(self) -> bool {
        self.width <= 1.0 || self.height <= 1.0
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

    /// The same on a row, but no smaller than that the whole of it is in sight.
    pub fn zoomed_on(self, factor: f64, px: Point, row: &Row) -> Self {
        let least = (self.fit_row(row).scale / self.scale).min(1.0);
        self.zoomed(factor.max(least), px).held_to(row)
    }

    /// The height on the screen that the wall takes at its scale, with the numbers under it, px.
    pub fn needed(self, row: &Row) -> f64 {
        let wall = row.trellis.wall_height.f() * self.scale + (ABOVE * self.scale).max(WORDS);
        wall + (BELOW * self.scale).max(NUMBERS)
    }

    /// The wall's whole height fills the screen, where one is along the row.
    pub fn full_height(self, row: &Row) -> Self {
        let middle = self.span().middle();
        self.fit_height(row).centred(middle, row)
    }

    /// No larger than that what reaches up to `top`, mm, is in sight, with the ground where it is.
    pub fn reaching(self, top: f64) -> Self {
        let ground = self.top * self.scale;
        let scale = self.scale.min((ground - WORDS / 2.0).max(1.0) / top);
        let middle = self.span().middle();
        Self {
            x: middle - self.width / scale / 2.0,
            top: ground / scale,
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

    /// Held so that the row can't be lost from sight: a wall that fits the screen's height stays wholly in it, of a
    /// larger one nothing but the wall and what stands out above it is shown.
    pub fn held_to(self, row: &Row) -> Self {
        let reach = extent(row);
        let wide = self.width / self.scale;
        let above = row.trellis.wall_height.f() + ABOVE.max(WORDS / self.scale);
        let ground = self.height / self.scale - BELOW.max(NUMBERS / self.scale);
        // Less than a pixel that lacks is no larger wall.
        let (low, high) = if above <= ground + 1.0 / self.scale {
            (above.min(ground), ground)
        } else {
            (ground, above + OVERGROWN)
        };
        Self {
            x: self.x.clamp(
                reach.from - wide * 0.8,
                (reach.to - wide * 0.2).max(reach.from - wide * 0.8),
            ),
            top: self.top.clamp(low, high),
            ..self
        }
    }

    /// The wall's whole height fills the screen, from the row's left end on.
    pub fn fit_height(self, row: &Row) -> Self {
        let high = row.trellis.wall_height.f();
        // On a low screen the numbers take more than what is seen of the ground, and the words more than what is above.
        let scale = (self.height / (high + ABOVE + BELOW))
            .min((self.height - NUMBERS) / (high + ABOVE))
            .min((self.height - NUMBERS - WORDS) / high);
        let scale = scale.clamp(Self::SCALES.0, Self::SCALES.1);
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

    /// Whether two walls of a row stand better side by side than one under the other: each is drawn larger so.
    pub fn stands_abreast(row: &Row) -> bool {
        extent(row).length() < ABREAST * row.trellis.wall_height.f()
    }

    /// This view of another size on the screen than `before`: the same stretch of the row stays in sight. What filled the
    /// height fills it, and what was wholly in sight, up and down or along the row, stays so.
    pub fn resized(self, before: Self, row: &Row) -> Self {
        let fit = self.fit_height(row);
        if before.is_hidden() || self.is_hidden() {
            return if before.is_hidden() { fit } else { self };
        }
        let filled = (before.fit_height(row).scale - before.scale).abs() < 1e-9;
        let stood = before.needed(row) <= before.height + 1.0;
        let first = extent(row).from - BESIDE / before.scale;
        let kept = match filled || (stood && self.needed(row) > self.height + 1.0) {
            // What begins at the row's end begins there.
            true if (before.x - first).abs() < 1.0 => fit,
            true => Self { x: before.x, ..fit }.held_to(row),
            false if stood => self.held_to(row),
            false => self,
        };
        match before.shows_all(row) && !kept.shows_all(row) {
            true => self.fit_row(row),
            false => kept,
        }
    }

    /// Whether the row is in sight from end to end.
    fn shows_all(self, row: &Row) -> bool {
        let (seen, reach) = (self.span(), extent(row));
        seen.from <= reach.from && reach.to <= seen.to
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

    /// Moved along the row just so far that `x` is well in sight, and not beyond the row's ends.
    pub fn showing(self, x: f64, row: &Row) -> Self {
        let span = self.span();
        let edge = (EDGE.0 / self.scale).min(span.length() * EDGE.1);
        let wanted = if x < span.from + edge {
            x - span.length() * 0.3
        } else if x > span.to - edge {
            x - span.length() * 0.7
        } else {
            return self;
        };
        self.beginning(wanted, row)
    }

    /// Moved along the row so that a row shorter than the screen stands in its middle, and `x` does on a longer one.
    pub fn amid(self, x: f64, row: &Row) -> Self {
        let reach = extent(row);
        let spare = self.span().length() - reach.length();
        if spare < 2.0 * BESIDE / self.scale {
            return self.centred(x, row);
        }
        Self {
            x: reach.from - spare / 2.0,
            ..self
        }
    }

    /// Moved along the row so that `x` is in its middle, and not beyond the row's ends.
    pub fn centred(self, x: f64, row: &Row) -> Self {
        self.beginning(x - self.span().length() / 2.0, row)
    }

    fn beginning(self, wanted: f64, row: &Row) -> Self {
        let reach = extent(row);
        let beside = BESIDE / self.scale;
        let (first, last) = (
            reach.from - beside,
            reach.to + beside - self.span().length(),
        );
        Self {
            // A row that is shorter than the screen is shown from its beginning.
            x: wanted.min(last).max(first),
            ..self
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

    fn row() -> Row {
        crate::bench_row::plan(10, 5).found.as_ref().clone()
    }

    fn on(row: &Row) -> View {
        View {
            width: 800.0,
            height: 400.0,
            ..View::empty()
        }
        .fit_height(row)
    }

    #[test]
    fn a_short_row_stands_in_the_middle_and_a_long_one_does_not_leave_its_ends() {
        let row = row();
        let middle = |view: View| view.to_px(Point::new(extent(&row).middle(), 0.0)).x;
        let wide = View {
            width: 9000.0,
            ..on(&row)
        };
        assert!((middle(wide.amid(0.0, &row)) - 4500.0).abs() < 1e-6);
        let narrow = on(&row);
        assert!(narrow.span().length() < extent(&row).length());
        for x in [0.0, extent(&row).middle(), 1e6] {
            assert_eq!(narrow.amid(x, &row), narrow.centred(x, &row));
        }
    }

    #[test]
    fn a_wall_that_fits_stays_in_its_frame() {
        let row = row();
        let fit = on(&row);
        for dy in [-300.0, 300.0] {
            assert_eq!(fit.moved(0.0, dy).held_to(&row).top, fit.top);
            let small = fit.zoomed(0.5, Point::new(400.0, 200.0)).moved(0.0, dy);
            let held = small.held_to(&row);
            let (top, ground) = (
                held.to_px(Point::new(0.0, row.trellis.wall_height.f())).y,
                held.to_px(Point::ORIGIN).y,
            );
            assert!(top >= 0.0 && ground <= 400.0 - NUMBERS, "{top} {ground}");
        }
        // Of a larger one, ground and top can each be brought into sight, but no more.
        let large = fit.zoomed(2.0, Point::new(400.0, 200.0));
        let low = large.moved(0.0, -9000.0).held_to(&row);
        assert!((low.to_px(Point::ORIGIN).y - (400.0 - BELOW * low.scale)).abs() < 1e-9);
        let high = large.moved(0.0, 9000.0).held_to(&row);
        let above = row.trellis.wall_height.f() + ABOVE + OVERGROWN;
        assert!((high.top - above).abs() < 1e-9);
    }

    #[test]
    fn on_a_low_screen_the_whole_wall_is_seen_above_its_numbers() {
        let row = row();
        let top = Point::new(0.0, row.trellis.wall_height.f());
        for height in [136.0, 208.0, 400.0, 700.0] {
            let low = View {
                width: 1200.0,
                height,
                ..View::empty()
            };
            let fit = low.fit_height(&row);
            assert!(fit.to_px(top).y >= 15.9, "{height}: {:?}", fit.to_px(top));
            assert!(fit.to_px(Point::ORIGIN).y <= height - NUMBERS + 1e-9);
        }
    }

    #[test]
    fn showing_a_place_leaves_a_view_that_shows_it_and_keeps_to_the_row() {
        let row = row();
        let reach = extent(&row);
        let whole = on(&row).fit_row(&row);
        for x in [reach.from, reach.middle(), reach.to] {
            assert_eq!(whole.showing(x, &row), whole);
        }
        let near = on(&row).zoomed(2.0, Point::ORIGIN);
        let shown = near.showing(reach.to, &row);
        assert!((shown.span().to - (reach.to + BESIDE / shown.scale)).abs() < 1e-6);
        let back = shown.showing(reach.from, &row);
        assert!((back.x - (reach.from - BESIDE / back.scale)).abs() < 1e-6);
        let middle = near.showing(reach.middle(), &row);
        assert!((middle.span().from..middle.span().to).contains(&reach.middle()));
    }

    #[test]
    fn of_another_size_no_wall_is_cut_that_was_whole() {
        let row = row();
        let top = Point::new(0.0, row.trellis.wall_height.f());
        let of = |view: View, width, height| View {
            width,
            height,
            ..view
        };
        let whole = on(&row).fit_row(&row);
        for (width, height) in [(800.0, 90.0), (390.0, 400.0), (500.0, 60.0)] {
            let now = of(whole, width, height).resized(whole, &row);
            assert!(now.to_px(top).y >= 0.0, "{width} x {height}: {now:?}");
            assert!(now.shows_all(&row), "{width} x {height}: {now:?}");
        }
        // What filled the height goes on from where it was.
        let full = on(&row).centred(extent(&row).middle(), &row);
        let low = of(full, 800.0, 200.0).resized(full, &row);
        assert_eq!(low.x, full.x);
        assert!(low.to_px(top).y >= 0.0);
        // What was drawn larger than the screen stays as it is.
        let near = full.zoomed(3.0, Point::ORIGIN);
        let as_it_is = of(near, 700.0, 300.0);
        assert_eq!(as_it_is.resized(near, &row), as_it_is);
    }

    #[test]
    fn the_numbers_under_a_wall_that_fits_are_in_sight_whatever_the_height() {
        let row = row();
        let numbers = |view: View| view.to_px(Point::ORIGIN).y + NUMBERS - view.height;
        let whole = on(&row).fit_row(&row).zoomed(0.8, Point::ORIGIN);
        let needed = whole.needed(&row);
        // A place on the screen has whole pixels: some part of one may lack.
        for lacks in [-0.6, -0.2, 0.2, 0.6] {
            let held = View {
                height: needed - lacks,
                ..whole
            }
            .held_to(&row);
            assert!(numbers(held) < 1.0, "{lacks}: {}", numbers(held));
        }
        // Of the height that is left over some goes.
        let low = |view: View| View {
            top: f64::INFINITY,
            ..view
        };
        let tall = low(View {
            height: needed + 60.0,
            ..whole
        })
        .held_to(&row);
        let now = View {
            height: needed + 20.0,
            ..tall
        };
        let now = now.resized(tall, &row);
        assert_eq!(now.scale, whole.scale);
        assert!(numbers(now) < 1.0, "{}", numbers(now));
    }

    #[test]
    fn what_grows_beyond_the_wall_is_brought_into_sight() {
        let fit = on(&row());
        let ground = fit.to_px(Point::ORIGIN).y;
        let high = fit.reaching(3_600.0);
        assert!(high.to_px(Point::new(0.0, 3_600.0)).y >= 0.0);
        assert!((high.to_px(Point::ORIGIN).y - ground).abs() < 1e-6);
        assert!((high.span().middle() - fit.span().middle()).abs() < 1e-6);
        assert_eq!(fit.reaching(2_000.0).scale, fit.scale);
    }

    #[test]
    fn short_rows_stand_side_by_side() {
        let of = |trees| crate::bench_row::plan(trees, 5).found.as_ref().clone();
        assert!(View::stands_abreast(&of(4)));
        assert!(!View::stands_abreast(&of(40)));
    }

    #[test]
    fn full_height_keeps_the_place() {
        let row = row();
        let near = on(&row)
            .zoomed(2.5, Point::ORIGIN)
            .centred(extent(&row).middle(), &row);
        let full = near.full_height(&row);
        assert_eq!(full.scale, on(&row).scale);
        assert!((full.span().middle() - near.span().middle()).abs() < 1.0);
    }

    #[test]
    fn smaller_ends_where_the_whole_row_is_in_sight() {
        let row = row();
        let reach = extent(&row);
        let mut view = on(&row).zoomed(3.0, Point::ORIGIN);
        for _ in 0..40 {
            view = view.zoomed_on(0.8, Point::new(400.0, 200.0), &row);
        }
        let whole = view.fit_row(&row);
        assert!((view.scale - whole.scale).abs() < 1e-9);
        assert!(view.span().length() >= reach.length());
        assert!(view.span().length() < 1.5 * reach.length());
        // From there it can be made larger at once.
        assert!(view.zoomed_on(1.25, Point::ORIGIN, &row).scale > view.scale * 1.2);
    }

    #[test]
    fn a_wall_needs_the_height_at_which_it_fits() {
        let row = row();
        for height in [140.0, 300.0, 700.0] {
            let fit = View { height, ..on(&row) }.fit_height(&row);
            assert!((fit.needed(&row) - height).abs() < 1e-6, "{height}");
        }
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
