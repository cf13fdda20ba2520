//! The two weights of the one family that text is set in.

use kurbo::{Affine, BezPath, Shape as _};
use std::collections::BTreeMap;
use std::sync::LazyLock;
use ttf_parser::{Face, GlyphId, OutlineBuilder};

/// A weight.
pub struct Weight {
    /// What a PDF calls it.
    pub name: &'static str,
    pub data: &'static [u8],
    /// None only of a file that is no font, which a test would tell.
    face: Option<Face<'static>>,
    pub bold: bool,
}

static WEIGHTS: LazyLock<[Weight; 2]> = LazyLock::new(|| {
    [
        Weight::of(
            "DejaVuSans",
            include_bytes!("../fonts/DejaVuSans.ttf"),
            false,
        ),
        Weight::of(
            "DejaVuSans-Bold",
            include_bytes!("../fonts/DejaVuSans-Bold.ttf"),
            true,
        ),
    ]
});

/// The weights: plain, then strong.
pub fn weights() -> &'static [Weight; 2] {
    &WEIGHTS
}

/// Whether there is a letter for a sign in both weights.
pub fn has(c: char) -> bool {
    weights().iter().all(|w| w.glyph(c) != 0)
}

/// Whether a sign only steers how others are set, and has no letter.
pub fn steers(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}')
}

impl Weight {
    fn of(name: &'static str, data: &'static [u8], bold: bool) -> Self {
        let face = Face::parse(data, 0).ok();
        Self {
            name,
            data,
            face,
            bold,
        }
    }

    /// The number of a sign's letter; 0, an empty box, where there is none.
    pub fn glyph(&self, c: char) -> u16 {
        let face = self.face.as_ref();
        face.and_then(|f| f.glyph_index(c)).map_or(0, |g| g.0)
    }

    fn units(&self) -> f64 {
        let units = self.face.as_ref().map(Face::units_per_em);
        f64::from(units.unwrap_or(1000))
    }

    /// How far a letter takes the pen, in thousandths of the letters' size.
    pub fn advance(&self, glyph: u16) -> f64 {
        let face = self.face.as_ref();
        let wide = face.and_then(|f| f.glyph_hor_advance(GlyphId(glyph)));
        1000.0 * f64::from(wide.unwrap_or(0)) / self.units()
    }

    /// Box around all letters, then how high capitals stand and how far lines reach up and down, all in thousandths.
    pub fn measures(&self) -> ([f64; 4], [f64; 3]) {
        let in_thousandths = |v: i16| 1000.0 * f64::from(v) / self.units();
        let Some(face) = &self.face else {
            return ([0.0; 4], [0.0; 3]);
        };
        let b = face.global_bounding_box();
        let capital = face.capital_height().unwrap_or(face.ascender());
        (
            [b.x_min, b.y_min, b.x_max, b.y_max].map(in_thousandths),
            [capital, face.ascender(), face.descender()].map(in_thousandths),
        )
    }

    /// The outline of a text that starts at the origin, y down.
    pub fn outline(&self, text: &str, size: f64) -> BezPath {
        let mut out = BezPath::new();
        let scale = size / self.units();
        let mut x = 0.0;
        for c in text.chars() {
            let glyph = self.glyph(c);
            let mut pen = Outline(BezPath::new());
            if let Some(face) = &self.face {
                face.outline_glyph(GlyphId(glyph), &mut pen);
            }
            let placed = Affine::translate((x, 0.0)) * Affine::scale_non_uniform(scale, -scale);
            out.extend((placed * pen.0).path_elements(0.1));
            x += self.advance(glyph) * size / 1000.0;
        }
        out
    }
}

struct Outline(BezPath);

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let via = (f64::from(x1), f64::from(y1));
        self.0.quad_to(via, (f64::from(x), f64::from(y)));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let via = [(x1, y1), (x2, y2)].map(|(x, y)| (f64::from(x), f64::from(y)));
        self.0
            .curve_to(via[0], via[1], (f64::from(x), f64::from(y)));
    }

    fn close(&mut self) {
        self.0.close_path();
    }
}

/// The signs of one weight that a file uses, in the order in which they come: each by a number of its own, so that it is
/// found again as what it is, even where two look alike or there is no letter for it.
#[derive(Default)]
pub struct Used {
    numbers: BTreeMap<char, u16>,
    /// The signs by their number, from 1 on.
    pub signs: Vec<char>,
}

impl Used {
    /// A sign's number.
    pub fn number(&mut self, c: char) -> u16 {
        let signs = &mut self.signs;
        *self.numbers.entry(c).or_insert_with(|| {
            signs.push(c);
            // A text of more different signs than there are numbers repeats the last.
            u16::try_from(signs.len()).unwrap_or(u16::MAX)
        })
    }
}
