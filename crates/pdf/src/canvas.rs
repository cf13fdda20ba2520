//! What is drawn on a page, as a PDF's own operators.

use crate::file::Kept;
use crate::font::{steers, weights};
use crate::style::{Anchor, Cap, Join, Look};
use kurbo::{Affine, BezPath, PathEl, Point, Rect};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Name, Settings, Str};

/// A joint whose point is longer than so many lines' width is cut, as SVG has it where nothing else is said.
const MITER: f32 = 4.0;

/// A page that is drawn.
pub struct Canvas<'a> {
    content: Content,
    kept: &'a mut Kept,
    /// What the page is set to, and what it was in the groups around.
    set: Vec<Set>,
}

/// What lines and fillings are set to.
#[derive(Clone, PartialEq)]
struct Set {
    fill: [f32; 3],
    stroke: [f32; 3],
    width: f64,
    dashes: Vec<f64>,
    cap: Cap,
    join: Join,
    opacity: f64,
}

impl<'a> Canvas<'a> {
    pub fn new(kept: &'a mut Kept) -> Self {
        let mut content = Content::with_settings(Settings { pretty: false });
        content.set_miter_limit(MITER);
        Self {
            content,
            kept,
            set: vec![Set {
                fill: [0.0; 3],
                stroke: [0.0; 3],
                width: 1.0,
                dashes: Vec::new(),
                cap: Cap::Butt,
                join: Join::Miter,
                opacity: 1.0,
            }],
        }
    }

    pub fn finish(self) -> Vec<u8> {
        self.content.finish().into_vec()
    }

    /// Draws something in a place of its own, and of it what lies in a box.
    pub fn within<T>(
        &mut self,
        place: Affine,
        shown: Option<Rect>,
        draw: impl FnOnce(&mut Self) -> T,
    ) -> T {
        self.content.save_state();
        if place != Affine::IDENTITY {
            self.content.transform(place.as_coeffs().map(|c| c as f32));
        }
        if let Some(r) = shown {
            let [x, y, wide, high] = [r.x0, r.y0, r.width(), r.height()].map(|v| v as f32);
            self.content
                .rect(x, y, wide, high)
                .clip_nonzero()
                .end_path();
        }
        self.set.extend(self.set.last().cloned());
        let out = draw(self);
        self.set.pop();
        self.content.restore_state();
        out
    }

    /// Changes what differs from how things are set.
    fn set(&mut self, look: &Look) {
        let Some(now) = self.set.last_mut() else {
            return;
        };
        let new = Set {
            fill: look.fill.unwrap_or(now.fill),
            stroke: look.stroke.unwrap_or(now.stroke),
            width: look.width,
            dashes: look.dashes.clone(),
            cap: look.cap,
            join: look.join,
            opacity: look.opacity,
        };
        let out = &mut self.content;
        if new.fill != now.fill {
            let [r, g, b] = new.fill;
            out.set_fill_rgb(r, g, b);
        }
        if new.opacity != now.opacity {
            let name = self.kept.opacity(new.opacity);
            out.set_parameters(Name(name.as_bytes()));
        }
        if look.stroke.is_none() {
            // Nothing hangs on how lines are set.
            (now.fill, now.opacity) = (new.fill, new.opacity);
            return;
        }
        if new.stroke != now.stroke {
            let [r, g, b] = new.stroke;
            out.set_stroke_rgb(r, g, b);
        }
        if new.width != now.width {
            out.set_line_width(new.width as f32);
        }
        if new.dashes != now.dashes {
            out.set_dash_pattern(new.dashes.iter().map(|d| *d as f32), 0.0);
        }
        if new.cap != now.cap {
            out.set_line_cap(match new.cap {
                Cap::Butt => LineCapStyle::ButtCap,
                Cap::Round => LineCapStyle::RoundCap,
            });
        }
        if new.join != now.join {
            out.set_line_join(match new.join {
                Join::Miter => LineJoinStyle::MiterJoin,
                Join::Round => LineJoinStyle::RoundJoin,
            });
        }
        *now = new;
    }

    /// A path, filled and lined as it looks.
    pub fn path(&mut self, path: &BezPath, look: &Look) {
        let line = look.stroke.is_some() && look.width > 0.0;
        let nothing = look.opacity <= 0.0 || path.elements().is_empty();
        if nothing || (look.fill.is_none() && !line) {
            return;
        }
        self.set(look);
        self.trace(path);
        let out = &mut self.content;
        match (look.fill.is_some(), line) {
            (true, true) if look.line_first => {
                out.stroke();
                self.trace(path);
                self.content.fill_nonzero();
            }
            (true, true) => {
                out.fill_nonzero_and_stroke();
            }
            (true, false) => {
                out.fill_nonzero();
            }
            (false, _) => {
                out.stroke();
            }
        }
    }

    fn trace(&mut self, path: &BezPath) {
        let out = &mut self.content;
        let mut at = Point::ZERO;
        let mut start = Point::ZERO;
        for element in path.elements() {
            let end = match *element {
                PathEl::MoveTo(p) => {
                    out.move_to(short(p.x), short(p.y));
                    start = p;
                    p
                }
                PathEl::LineTo(p) => {
                    out.line_to(short(p.x), short(p.y));
                    p
                }
                PathEl::QuadTo(via, p) => {
                    let third = |end: Point| end + (via - end) * (2.0 / 3.0);
                    curve(out, third(at), third(p), p);
                    p
                }
                PathEl::CurveTo(a, b, p) => {
                    curve(out, a, b, p);
                    p
                }
                PathEl::ClosePath => {
                    out.close_path();
                    start
                }
            };
            at = end;
        }
    }

    /// A line of text whose baseline starts, is centred or ends at a place, by its anchor.
    pub fn text(&mut self, text: &str, at: Point, look: &Look) {
        let text: String = text.chars().filter(|c| !steers(*c)).collect();
        if text.trim().is_empty() || look.opacity <= 0.0 {
            return;
        }
        let which = usize::from(look.strong);
        let weight = &weights()[which];
        let wide: f64 = text.chars().map(|c| weight.advance(weight.glyph(c))).sum();
        let wide = wide * look.size / 1000.0;
        let left = at.x
            - match look.anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => wide / 2.0,
                Anchor::End => wide,
            };
        // What stands around the letters is no text of its own, or it would be found twice.
        if look.stroke.is_some() {
            let around = Affine::translate((left, at.y)) * weight.outline(&text, look.size);
            let only_line = Look {
                fill: None,
                ..look.clone()
            };
            self.path(&around, &only_line);
        }
        if look.fill.is_none() {
            return;
        }
        let only_fill = Look {
            stroke: None,
            ..look.clone()
        };
        self.set(&only_fill);
        let used = &mut self.kept.used[which];
        let codes: Vec<u8> = text
            .chars()
            .flat_map(|c| used.number(c).to_be_bytes())
            .collect();
        let out = &mut self.content;
        out.begin_text()
            .set_font(Name(crate::file::FONTS[which].as_bytes()), look.size as f32)
            .set_text_matrix([1.0, 0.0, 0.0, -1.0, short(left), short(at.y)])
            .show(Str(&codes))
            .end_text();
    }
}

/// A place without digits that nobody sees.
fn short(value: f64) -> f32 {
    ((value * 100.0).round() / 100.0) as f32
}

fn curve(out: &mut Content, a: Point, b: Point, end: Point) {
    let [ax, ay, bx, by, x, y] = [a.x, a.y, b.x, b.y, end.x, end.y].map(short);
    out.cubic_to(ax, ay, bx, by, x, y);
}
