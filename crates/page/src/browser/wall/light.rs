//! The elements that show light: the map under the drawing, the beam, the sky band, the place that is told.

use super::layers::{Layers, drawing, group};
use crate::layers::Layer;
use crate::light::{RowLight, colour};
use crate::view::View;
use cordonry::light::Direction;
use cordonry::said::Arg;
use cordonry_words::Words;
use kurbo::Point;
use leptos::prelude::*;
use std::fmt::Write;
use wasm_bindgen::prelude::*;
use web_sys::{CanvasRenderingContext2d, Element, HtmlCanvasElement, ImageData};

/// The elements that show light.
pub struct LightLayer {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    over: Element,
    band: Element,
    marks: Element,
    band_mark: Element,
    /// Whether the map's picture is out of date.
    pub stale: bool,
    dark: bool,
    shown: bool,
}

/// Height of the sky band, px.
const BAND: f64 = 56.0;
/// Room in it above the full light's line, px.
const BAND_TOP: f64 = 6.0;
/// Room in it under the ground's line, px.
const BAND_FOOT: f64 = 2.0;

/// Whether the page is on a dark ground.
pub fn dark_ground() -> bool {
    window()
        .match_media("(prefers-color-scheme: dark)")
        .ok()
        .flatten()
        .is_some_and(|m| m.matches())
}

impl LightLayer {
    pub fn new(layers: &Layers, band_host: &Element) -> Option<Self> {
        let document = band_host.owner_document()?;
        let canvas = layers.map();
        let context = canvas.get_context("2d").ok()??.dyn_into().ok()?;
        let over = layers.get(Layer::Light)?;
        let marks = layers.get(Layer::Probe)?;
        let band_svg = drawing(&document)?;
        band_svg.set_attribute("class", "sky-drawing").ok()?;
        let band = group(&document, "sky")?;
        let band_mark = group(&document, "probe-mark")?;
        band_svg.append_child(&band).ok()?;
        band_svg.append_child(&band_mark).ok()?;
        band_host.append_child(&band_svg).ok()?;
        Some(Self {
            canvas,
            context,
            over,
            band,
            marks,
            band_mark,
            stale: true,
            dark: false,
            shown: false,
        })
    }

    pub fn draw(
        &mut self,
        light: Option<&RowLight>,
        view: View,
        probe: Option<(f64, f64)>,
        words: &Words,
    ) {
        let Some(light) = light else {
            if self.shown {
                self.shown = false;
                let _ = web_sys::HtmlElement::style(&self.canvas).set_property("display", "none");
                self.over.set_inner_html("");
                self.band.set_inner_html("");
                self.draw_probe(view, None);
            }
            return;
        };
        self.shown = true;
        let dark = dark_ground();
        if self.stale || dark != self.dark {
            self.paint(light, dark);
            self.stale = false;
            self.dark = dark;
        }
        self.place(light, view);
        self.over
            .set_inner_html(&light.sun().map_or_else(String::new, |s| beam(s, view)));
        self.band.set_inner_html(&sky_band(light, view, words));
        self.draw_probe(view, probe);
    }

    /// One picture element a cell; the browser stretches it over the wall.
    fn paint(&self, light: &RowLight, dark: bool) {
        let width = light.map.columns.len();
        let levels = light.shown_levels();
        if width == 0 || levels == 0 {
            return;
        }
        let table: Vec<[u8; 3]> = (0..=255)
            .map(|i| colour(f64::from(i) / 255.0, dark))
            .collect();
        let mut pixels = Vec::with_capacity(4 * width * levels);
        for level in (0..levels).rev() {
            for share in &light.map.light[level * width..(level + 1) * width] {
                let [r, g, b] = table[(share * 255.0) as usize & 255];
                pixels.extend_from_slice(&[r, g, b, 255]);
            }
        }
        let (w, h) = (width as u32, levels as u32);
        if (self.canvas.width(), self.canvas.height()) != (w, h) {
            self.canvas.set_width(w);
            self.canvas.set_height(h);
        }
        if let Ok(image) =
            ImageData::new_with_u8_clamped_array_and_sh(wasm_bindgen::Clamped(&pixels), w, h)
        {
            let _ = self.context.put_image_data(&image, 0.0, 0.0);
        }
    }

    fn place(&self, light: &RowLight, view: View) {
        let style = web_sys::HtmlElement::style(&self.canvas);
        let columns = &light.map.columns;
        let levels = light.shown_levels();
        if columns.is_empty() || levels == 0 {
            let _ = style.set_property("display", "none");
            return;
        }
        let (low, high) = (light.map.z[0], light.map.z[levels]);
        let (x0, dx) = light.columns_mm();
        let corner = view.to_px(Point::new(x0 + dx * columns.start as f64, high * 1000.0));
        let width = dx * columns.len() as f64 * view.scale;
        let height = (high - low) * 1000.0 * view.scale;
        for (name, value) in [
            ("left", corner.x),
            ("top", corner.y),
            ("width", width),
            ("height", height),
        ] {
            let _ = style.set_property(name, &format!("{value:.2}px"));
        }
        let _ = style.set_property("display", "block");
    }

    pub fn draw_probe(&self, view: View, probe: Option<(f64, f64)>) {
        let Some((x, z)) = probe else {
            self.marks.set_inner_html("");
            self.band_mark.set_inner_html("");
            return;
        };
        let p = view.to_px(Point::new(x, z));
        self.marks.set_inner_html(&format!(
            r#"<path d="M{:.1} {y:.1}h9M{:.1} {y:.1}h-9M{x:.1} {:.1}v9M{x:.1} {:.1}v-9"/>"#,
            p.x + 4.0,
            p.x - 4.0,
            p.y + 4.0,
            p.y - 4.0,
            x = p.x,
            y = p.y,
        ));
        self.band_mark
            .set_inner_html(&format!(r#"<path d="M{:.1} 0v{BAND}"/>"#, p.x));
    }
}

/// What falls through, place by place, as a curve over the wall: the higher, the more.
fn sky_band(light: &RowLight, view: View, words: &Words) -> String {
    let (x0, dx) = light.columns_mm();
    let falls = &light.fall_through;
    let at = |x: f64| ((x - x0) / dx).clamp(0.0, falls.len() as f64) as usize;
    let span = view.span();
    let (first, last) = (at(span.from), (at(span.to) + 1).min(falls.len()));
    // Several columns to a step where they are narrower than two pixels.
    let step = (2.0 / (dx * view.scale)).ceil().max(1.0) as usize;
    let ground = BAND - BAND_FOOT;
    let height = |share: f64| ground - share * (ground - BAND_TOP);
    let px = |c: usize| (x0 + dx * c as f64 - view.x) * view.scale;
    let mut line = String::new();
    for c in (first / step * step..last).step_by(step) {
        let part = &falls[c..(c + step).min(falls.len())];
        let mean = part.iter().map(|v| f64::from(*v)).sum::<f64>() / part.len() as f64;
        let from = px(c);
        let end = px(c + part.len());
        let y = height(mean);
        let _ = match line.is_empty() {
            true => write!(line, "M{from:.1} {y:.1}H{end:.1}"),
            false => write!(line, "V{y:.1}H{end:.1}"),
        };
    }
    let mut out = String::new();
    if !line.is_empty() {
        let start = px(first / step * step);
        let _ = write!(
            out,
            r#"<path class="sky-fill" d="{line}V{ground}H{start:.1}Z"/><path class="sky-line" d="{line}"/>"#
        );
    }
    for share in [0.0, 0.5, 1.0] {
        let y = height(share);
        let text = words.text("value", &[("value", Arg::Share(share))]);
        let _ = write!(
            out,
            r#"<path class="sky-rule" d="M0 {y:.1}H{:.1}"/><text x="4" y="{:.1}">{}</text>"#,
            view.width,
            (y + 4.0).clamp(10.0, BAND - 2.0),
            crate::overlay::escape(&text),
        );
    }
    out
}

/// The sun's beam as it falls on the wall's plane.
fn beam(sun: Direction, view: View) -> String {
    let flat = sun.x.hypot(sun.z).max(1e-6);
    let (dx, dy) = (-sun.x / flat, sun.z / flat);
    let mut out = String::new();
    // From the picture's upper edge to the ground.
    let ground = view.top * view.scale;
    let long = (ground / dy.max(0.05)).min(4.0 * view.width);
    let apart = 150.0;
    let slope = dx / dy.max(0.05) * ground;
    let (from, to) = (slope.max(0.0), view.width + (-slope).max(0.0));
    let mut x = -from + apart / 2.0;
    while x < to {
        let _ = write!(
            out,
            r#"<path class="ray" d="M{x:.1} 0l{:.1} {:.1}"/>"#,
            dx * long,
            dy * long
        );
        x += apart;
    }
    // The sun itself, at the upper edge, with an arrow the way its light goes.
    let (cx, cy) = (view.width / 2.0, 22.0);
    let (tx, ty) = (cx + dx * 52.0, cy + dy * 52.0);
    let _ = write!(
        out,
        r#"<circle class="sun" cx="{cx:.1}" cy="{cy:.1}" r="9"/><path class="arrow" d="M{:.1} {:.1}L{tx:.1} {ty:.1}M{:.1} {:.1}L{tx:.1} {ty:.1}L{:.1} {:.1}"/>"#,
        cx + dx * 13.0,
        cy + dy * 13.0,
        tx - dx * 9.0 - dy * 5.0,
        ty - dy * 9.0 + dx * 5.0,
        tx - dx * 9.0 + dy * 5.0,
        ty - dy * 9.0 - dx * 5.0,
    );
    out
}
