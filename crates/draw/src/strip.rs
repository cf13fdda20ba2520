//! The whole wall in strips to one round scale, as it lies on paper.

use crate::band::{self, BAND_HEIGHT};
use crate::block::{Block, at};
use crate::element::{el, group};
use crate::frame;
use crate::key::Sign;
use crate::layer::{Layer, Layered};
use crate::lone::{self, RowShoot};
use crate::marks;
use crate::paper::{MARGIN, PX};
use crate::pen::num;
use crate::tree::{self, Options};
use crate::{Detail, work};
use cordonry::cover::{Cover, Place, Span, upright_places};
use cordonry::plan::{Field, Plan};
use cordonry::pose::{Posed, PosedRow};
use cordonry::row::{Moment, Row};
use cordonry::sorted::Set;
use cordonry::work::Work;
use cordonry_words::Words;
use svg::node::Node;
use svg::node::element::Element;

/// Room under the ground for the trees' numbers, pixels.
const BELOW: f64 = 24.0;
/// From the wall to its band, and from a strip to the next: pixels.
const ABOVE_BAND: f64 = 6.0;
const STRIP_GAP: f64 = 24.0;
/// Room at the left of a strip for the heights, pixels.
const GUTTER: f64 = 66.0;
/// Room over the wall for a label, mm on the wall.
const OVER: f64 = 120.0;
/// Millimetres of wall in one of paper: of the largest drawing, and of the smallest while the wall is not too high. A row too
/// long for that is cut into strips, which fill the paper's width.
const LARGEST: f64 = 10.0;
const SMALLEST: f64 = 60.0;
/// Most strips, some 3 km of a usual wall: what a drawing costs is not to grow with the emptiness between two trees.
const MOST_STRIPS: f64 = 200.0;
/// Room beside the row's ends, mm on the wall.
const BESIDE: f64 = 250.0;
/// How far twigs, leaves and signs may reach beyond a tree's axes, mm.
const ASIDE: f64 = 700.0;

/// A wall that is to be drawn.
#[derive(Clone, Copy)]
pub(crate) struct Drawing<'a> {
    pub plan: &'a Plan,
    pub row: &'a PosedRow,
    pub words: &'a Words,
    /// Leaves, as a light tone.
    pub foliage: bool,
    /// Work whose signs are drawn.
    pub work: &'a [Work],
    /// When it is done.
    pub moment: Moment,
    /// What the crew tells of it.
    pub field: Option<&'a Field>,
    /// Shoots that stand out: another scheme does not have them.
    pub lone: Option<&'a Set<RowShoot>>,
}

/// Room for the row in one strip, pixels of paper.
#[derive(Clone, Copy)]
pub(crate) struct Room {
    /// From margin to margin.
    pub width: f64,
    /// For one strip with its band and the gap under it.
    pub height: f64,
}

/// The wall as it is drawn in strips.
pub(crate) struct Strips<'a> {
    drawing: Drawing<'a>,
    places: Vec<Place>,
    extents: Vec<Span>,
    spans: Vec<Span>,
    /// Height up to which it is drawn, mm.
    top: f64,
    cover: Cover,
    /// Millimetres of wall in one of paper.
    pub ratio: f64,
    /// Whether the cordon's band lies under each strip.
    band: bool,
}

impl Drawing<'_> {
    /// The signs that stand on it.
    pub(crate) fn signs(&self) -> Vec<Sign> {
        Sign::all_on(self.row, self.work, self.moment, self.field)
    }
}

impl<'a> Strips<'a> {
    pub(crate) fn new(drawing: Drawing<'a>, cover: Cover, room: Room) -> Self {
        let row = drawing.row;
        let g = row.geometry();
        let extents: Vec<Span> = row.posed().iter().map(|t| extent(t)).collect();
        let top = frame::top_of(row, g) + OVER;
        let (ratio, spans) = cut(stretch(row, &extents), top, room);
        Self {
            drawing,
            places: upright_places(row, g),
            extents,
            spans,
            top,
            cover,
            ratio,
            band: true,
        }
    }

    /// The whole row in one strip, without its band, at a round scale at which it has room.
    pub(crate) fn whole(drawing: Drawing<'a>, cover: Cover, room: Room) -> Self {
        let mut out = Self::new(drawing, cover, room);
        let whole = stretch(drawing.row, &out.extents);
        let usable = [(room.width - GUTTER) / PX, (room.height - BELOW) / PX];
        let least = (whole.length() / usable[0]).max(out.top / usable[1]);
        out.ratio = whole_ratio(least);
        out.spans = vec![whole];
        out.band = false;
        out
    }

    /// Brings two rows to the same scale, stretches and height, as long as both together.
    pub(crate) fn alike(&mut self, other: &mut Self, room: Room) {
        let stretch = |of: &Self| stretch(of.drawing.row, &of.extents);
        let (a, b) = (stretch(self), stretch(other));
        let whole = Span {
            from: a.from.min(b.from),
            to: a.to.max(b.to),
        };
        let top = self.top.max(other.top);
        let (ratio, spans) = cut(whole, top, room);
        for own in [self, other] {
            (own.ratio, own.top) = (ratio, top);
            own.spans.clone_from(&spans);
        }
    }

    /// Brings two rows that are each in one strip to the same scale, stretch and height, each with its band where that has room too.
    pub(crate) fn match_with(&mut self, other: &mut Self, room: f64) {
        let both = self.spans.iter().chain(&other.spans);
        let whole = both.copied().reduce(|a, b| Span {
            from: a.from.min(b.from),
            to: a.to.max(b.to),
        });
        let (ratio, top) = (self.ratio.max(other.ratio), self.top.max(other.top));
        for own in [self, other] {
            own.spans = whole.into_iter().collect();
            (own.ratio, own.top) = (ratio, top);
            let wall = top * own.px_per_mm() + BELOW;
            own.band = wall + ABOVE_BAND + BAND_HEIGHT <= room;
        }
    }

    fn px_per_mm(&self) -> f64 {
        PX / self.ratio
    }

    /// Millimetres of wall in a pixel.
    pub(crate) fn px(&self) -> f64 {
        1.0 / self.px_per_mm()
    }

    /// Every strip, from the row's left end to its right.
    pub(crate) fn blocks(&self) -> impl Iterator<Item = Block> {
        self.spans.iter().map(|span| self.strip(*span))
    }

    /// A stretch of the wall with its labels, its work and its cordon band.
    fn strip(&self, span: Span) -> Block {
        let Drawing { plan, words, .. } = self.drawing;
        let (px_per_mm, px) = (self.px_per_mm(), self.px());
        let left = MARGIN + GUTTER;
        let (up, high) = (-self.top, self.top + BELOW * px);
        // The labels stand beside the strip, over nothing.
        let wide = Span {
            from: span.from - GUTTER * px,
            to: span.to,
        };
        let layers = self.layers(span, wide);
        let mut element = group("sheet-strip");
        let mut wall = window("wall", span, up, high, px_per_mm, left);
        layers.lay(&mut wall, |layer| !layer.is_told());
        element.append(wall);
        let mut labels = window("wall", wide, up, high, px_per_mm, MARGIN);
        labels.assign("overflow", "visible");
        layers.lay(&mut labels, Layer::is_told);
        element.append(labels);

        let y = high * px_per_mm + ABOVE_BAND;
        if !self.band {
            return Block { element, height: y };
        }
        element.append(at(
            "sheet-text",
            MARGIN,
            y + 16.0,
            &words.plain("draw-cordon"),
        ));
        let band_span = Span {
            from: span.from * px_per_mm,
            to: span.to * px_per_mm,
        };
        let mut band = window("", band_span, 0.0, BAND_HEIGHT, 1.0, left);
        band.assign("y", num(y));
        band.append(band::element(
            &self.cover,
            &self.places,
            span,
            &plan.targets,
            words,
            px_per_mm,
        ));
        element.append(band);
        Block {
            element,
            height: y + BAND_HEIGHT + STRIP_GAP,
        }
    }

    /// What stands on the wall within `span`, with the labels of `wide`.
    fn layers(&self, span: Span, wide: Span) -> Layered {
        let Drawing {
            plan, row, words, ..
        } = self.drawing;
        let (px_per_mm, px) = (self.px_per_mm(), self.px());
        let mut out = Layered::default();
        out.put(Layer::Frame, frame::backdrop_element(row, span));
        let near = |i: &usize| {
            let own = self.extents[*i];
            own.to >= span.from - ASIDE && own.from <= span.to + ASIDE
        };
        let shown: Vec<usize> = (0..row.trees.len()).filter(near).collect();
        let options = Options {
            foliage: self.drawing.foliage,
            px: Some(px),
        };
        for i in &shown {
            let tree = tree::element(&row.posed()[*i], Detail::Full, options, &[]);
            out.put(Layer::Trees, tree);
        }
        let on_shown = |w: &&Work| shown.iter().any(|i| Some(row.trees[*i].id) == w.tree());
        let work: Vec<Work> = self.drawing.work.iter().filter(on_shown).cloned().collect();
        let terms = plan.terms(&row.trellis);
        let Drawing { moment, field, .. } = self.drawing;
        for sign in work::elements(row, &work, moment, &terms, field, options) {
            out.put(Layer::Work, sign);
        }
        for sign in work::diseased(row, options) {
            out.put(Layer::Work, sign);
        }
        let lone = self.drawing.lone.and_then(|l| lone::element(row, l));
        if let Some(lone) = lone {
            out.put(Layer::Work, lone);
        }
        let reach = Span {
            from: span.from - ASIDE,
            to: span.to + ASIDE,
        };
        for mark in marks::elements_in(reach, &plan.marks, row, words, px) {
            out.put(Layer::Notes, mark);
        }
        out.put(
            Layer::Ground,
            frame::foreground_element(row, wide, px_per_mm, words),
        );
        let mut numbers = group("upright-numbers");
        for number in frame::of_uprights(row, span, px_per_mm) {
            numbers.append(number);
        }
        out.put(Layer::Numbers, numbers);
        out.put(Layer::Numbers, frame::numbers(row, span, px_per_mm, words));
        out
    }
}

/// The stretch that a tree's axes take up.
pub(crate) fn extent(posed: &Posed) -> Span {
    let foot = posed.tree().foot.f();
    let foot = Span::between(foot, foot);
    posed.courses().iter().fold(foot, |out, c| {
        let (base, tip) = (c.base.x, c.tip().x);
        Span {
            from: out.from.min(base).min(tip),
            to: out.to.max(base).max(tip),
        }
    })
}

/// The stretch that is drawn, mm: the row, its posts and all wood.
fn stretch(row: &Row, extents: &[Span]) -> Span {
    let all = extents.iter().fold(frame::reach(row), |out, own| Span {
        from: out.from.min(own.from),
        to: out.to.max(own.to),
    });
    Span {
        from: all.from - BESIDE,
        to: all.to + BESIDE,
    }
}

/// The scale at which one of paper is so many of wall, or as little more as makes a whole number.
fn whole_ratio(least: f64) -> f64 {
    // What is a hair over a whole number by rounding is that number.
    (least - 1e-9).ceil().max(LARGEST)
}

/// The scale's ratio, and the stretches that it fills the paper's width with: as few as can be read, all as long.
fn cut(whole: Span, top: f64, room: Room) -> (f64, Vec<Span>) {
    let usable = (room.width - GUTTER) / PX;
    let usable_height = (room.height - BELOW - ABOVE_BAND - BAND_HEIGHT - STRIP_GAP) / PX;
    let length = whole.length().max(1000.0);
    let by_height = top / usable_height;
    let smallest = SMALLEST.max(by_height).max(length / usable / MOST_STRIPS);
    let count = (length / smallest / usable - 1e-9).ceil().max(1.0);
    let ratio = whole_ratio((length / count / usable).max(by_height));
    let each = length / count;
    let span = |i: u32| Span {
        from: whole.from + each * f64::from(i),
        to: whole.from + each * f64::from(i + 1),
    };
    (ratio, (0..count as u32).map(span).collect())
}

/// An inner drawing that shows a stretch of the wall and cuts off what lies beside it.
pub(crate) fn window(class: &str, span: Span, y0: f64, high: f64, scale: f64, x: f64) -> Element {
    el(
        "svg",
        &[
            ("class", class),
            ("height", &num(high * scale)),
            (
                "viewBox",
                &format!(
                    "{} {} {} {}",
                    num(span.from),
                    num(y0),
                    num(span.length()),
                    num(high)
                ),
            ),
            ("width", &num(span.length() * scale)),
            ("x", &num(x)),
        ],
    )
}
