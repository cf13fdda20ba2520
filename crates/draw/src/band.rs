//! The cordon band: a strip under the wall that says how the wire is filled and how far the uprights stand apart.
//!
//! It is drawn in pixels, so that its texts keep their shape: a place x on the wall lies at
//! `x · px_per_mm`, counted from the row's own zero, and y runs from 0 to [`BAND_HEIGHT`]. An `svg` that shows
//! the stretch from `a` to `b` therefore has the view box `a·px_per_mm 0 (b−a)·px_per_mm BAND_HEIGHT`.

use crate::element::{add, el, group, path, text};
use crate::pen::{Pen, num, scale};
use cordonry::arrange::Arrange;
use cordonry::cover::{Cover, Place, Span, Stretch};
use cordonry::row::{Limit, Targets};
use cordonry::said::Arg;
use cordonry::units::LengthStyle;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// Height of the band, pixels.
pub const BAND_HEIGHT: f64 = 80.0;

pub(crate) const TOP: f64 = 2.0;
pub(crate) const BOTTOM: f64 = 22.0;
/// Base lines of the labels: distances between uprights, then bare and doubled stretches, then the ruler.
const SPACING_LINE: f64 = 39.0;
const STRETCH_LINE: f64 = 53.0;
const RULER: f64 = 60.0;
const RULER_LINE: f64 = 76.0;
/// A stretch that is let pass and takes fewer pixels than this is not put in words.
const WORTH_TELLING: f64 = 8.0;
/// What runs along the whole row is cut into parts of this width, so that what a hand changes has only its own part drawn anew.
const PART: f64 = 192.0;
/// Uprights nearer to each other than this, mm, stand in one place.
const ONE_PLACE: f64 = 5.0;
/// Mean width of a letter of the band's 12 pixel text, plain and bold.
const LETTER: f64 = 6.6;
const BOLD_LETTER: f64 = 7.5;

/// The band between the ends of `span` (mm), each of its drawings by itself. What is bare is hatched, what is covered twice is
/// darker and doubly lined; uprights are ticks; a distance that misses its target is told and marked.
pub fn cordon_band(
    cover: &Cover,
    places: &[Place],
    span: Span,
    targets: &Targets,
    words: &Words,
    px_per_mm: f64,
) -> Vec<String> {
    let whole = element(cover, places, span, targets, words, px_per_mm);
    whole
        .get_children()
        .iter()
        .map(ToString::to_string)
        .collect()
}

/// The wire alone, without a word.
pub(crate) fn wire(
    cover: &Cover,
    span: Span,
    targets: &Targets,
    words: &Words,
    px_per_mm: f64,
) -> Element {
    let named = ("overview-wire", words);
    Band::of_wire(named, cover, span, targets, px_per_mm).0.out
}

struct Band<'a> {
    span: Span,
    scale: f64,
    words: &'a Words,
    out: Element,
}

/// A label that wants a place on a line.
struct Label {
    at: f64,
    text: String,
    wrong: bool,
}

pub(crate) fn element(
    cover: &Cover,
    places: &[Place],
    span: Span,
    targets: &Targets,
    words: &Words,
    px_per_mm: f64,
) -> Element {
    let named = ("band", words);
    let (mut band, overlaps, gaps) = Band::of_wire(named, cover, span, targets, px_per_mm);
    band.ticks(places);
    band.labels(
        "stretch",
        STRETCH_LINE,
        gaps.into_iter().chain(overlaps).collect(),
    );
    let spacings = band.spacings(cover, places, targets);
    band.off_marks(&spacings);
    band.labels("spacing", SPACING_LINE, spacings);
    band.ruler();
    band.out
}

impl<'a> Band<'a> {
    /// How the wire is filled, with the labels of what is doubled and what is bare.
    fn of_wire(
        (class, words): (&str, &'a Words),
        cover: &Cover,
        span: Span,
        targets: &Targets,
        px_per_mm: f64,
    ) -> (Self, Vec<Label>, Vec<Label>) {
        let mut band = Self {
            span,
            scale: scale(px_per_mm),
            words,
            out: group(class),
        };
        band.filled(cover);
        let overlaps = band.overlaps(cover, targets.let_pass(Limit::OverlapMax));
        let gaps = band.gaps(cover, targets.let_pass(Limit::GapMax));
        (band, overlaps, gaps)
    }
}

impl Band<'_> {
    fn x(&self, mm: f64) -> f64 {
        mm * self.scale
    }

    /// A stretch within the view, in pixels.
    fn shown(&self, s: Span) -> Option<(f64, f64)> {
        let (from, to) = (s.from.max(self.span.from), s.to.min(self.span.to));
        (to > from).then(|| (self.x(from), self.x(to)))
    }

    fn filled(&mut self, cover: &Cover) {
        // Spans of one leader after another, joined where they touch.
        let mut spans: Vec<Span> = cover.laid.iter().map(|l| l.span).collect();
        spans.arrange_by(|a, b| a.from.total_cmp(&b.from));
        let mut run: Option<Span> = None;
        let mut runs = Vec::new();
        for s in spans {
            match &mut run {
                Some(r) if s.from <= r.to => r.to = r.to.max(s.to),
                _ => runs.extend(run.replace(s)),
            }
        }
        runs.extend(run);
        let runs: Vec<_> = runs.into_iter().filter_map(|s| self.shown(s)).collect();
        for (a, b) in runs {
            for k in part(a)..=part(b) {
                let mut pen = Pen::default();
                // A pixel over the next, so that no line shows where they meet.
                let (from, to) = (f64::from(k) * PART, f64::from(k + 1) * PART + 1.0);
                if a.max(from) < b.min(to) {
                    pen.rect(a.max(from), TOP, b.min(to), BOTTOM);
                }
                add(&mut self.out, path("filled", &pen));
            }
        }
    }

    fn stretch(&self, class: &str, s: &Stretch, wrong: bool) -> Element {
        el(
            "g",
            &[
                (
                    "class",
                    &format!("{class}{}", if wrong { " wrong" } else { "" }),
                ),
                ("data-from", &num(s.span.from)),
                ("data-to", &num(s.span.to)),
            ],
        )
    }

    fn overlaps(&mut self, cover: &Cover, limit: f64) -> Vec<Label> {
        let mut labels = Vec::new();
        for s in &cover.overlaps {
            let Some((a, b)) = self.shown(s.span) else {
                continue;
            };
            let wrong = s.span.length() > limit;
            let mut own = self.stretch("twice", s, wrong);
            let mut pen = Pen::default();
            pen.rect(a, TOP, b, BOTTOM);
            add(&mut own, path("twice-fill", &pen));
            let mut lines = Pen::default();
            for y in [TOP + 6.0, BOTTOM - 6.0] {
                lines.line(Point::new(a, y), Point::new(b, y));
            }
            add(&mut own, path("twice-line", &lines));
            self.out.append(own);
            labels.extend(self.told("draw-twice", s, (a, b), wrong));
        }
        labels
    }

    /// The label of a stretch between two places on the band; a short one within its limit is not told.
    fn told(&self, key: &str, s: &Stretch, (a, b): (f64, f64), wrong: bool) -> Option<Label> {
        (wrong || b - a >= WORTH_TELLING).then(|| Label {
            at: (a + b) / 2.0,
            text: self
                .words
                .text(key, &[("length", Arg::Length(s.span.length()))]),
            wrong,
        })
    }

    fn gaps(&mut self, cover: &Cover, limit: f64) -> Vec<Label> {
        let mut labels = Vec::new();
        for s in &cover.gaps {
            let Some((a, b)) = self.shown(s.span) else {
                continue;
            };
            let wrong = s.span.length() > limit;
            let mut own = self.stretch("bare", s, wrong);
            let mut pen = Pen::default();
            hatch(&mut pen, a, b);
            add(&mut own, path("hatch", &pen));
            let mut edge = Pen::default();
            edge.rect(a, TOP, b, BOTTOM);
            add(&mut own, path("bare-edge", &edge));
            self.out.append(own);
            labels.extend(self.told("draw-bare", s, (a, b), wrong));
        }
        labels
    }

    fn ticks(&mut self, places: &[Place]) {
        let mut pen = Pen::default();
        let mut last = f64::NEG_INFINITY;
        for x in places.iter().map(|p| p.x) {
            // Ticks that would run into each other say nothing.
            if x < self.span.from || x > self.span.to || (x - last) * self.scale < 0.75 {
                continue;
            }
            if part(self.x(x)) != part(self.x(last)) {
                add(&mut self.out, path("tick", &std::mem::take(&mut pen)));
            }
            last = x;
            pen.line(Point::new(self.x(x), TOP), Point::new(self.x(x), BOTTOM));
        }
        add(&mut self.out, path("tick", &pen));
    }

    /// Distances of uprights that miss their limits; a bare stretch between them is told by itself.
    fn spacings(&self, cover: &Cover, places: &[Place], targets: &Targets) -> Vec<Label> {
        let low = targets.let_pass(Limit::UprightSpacingMin);
        let high = targets.let_pass(Limit::UprightSpacingMax);
        places
            .windows(2)
            .filter_map(|pair| {
                let (from, to) = (pair[0].x, pair[1].x);
                let (apart, _) = cover.apart(from, to, targets.let_pass(Limit::GapMax));
                let middle = (from + to) / 2.0;
                // Several that grow back from one stub stand in one place: there is no distance to tell.
                let off = (to - from < low && to - from >= ONE_PLACE) || apart > high;
                (off && middle >= self.span.from && middle <= self.span.to).then(|| Label {
                    at: self.x(middle),
                    text: self.words.length(apart),
                    wrong: true,
                })
            })
            .collect()
    }

    /// Puts labels on a line, those that are wrong first, and leaves out what finds no room.
    fn labels(&mut self, class: &str, y: f64, mut labels: Vec<Label>) {
        labels.arrange_by(|a, b| b.wrong.cmp(&a.wrong).then(a.at.total_cmp(&b.at)));
        let (left, right) = (self.x(self.span.from), self.x(self.span.to));
        let mut taken: Vec<(f64, f64)> = Vec::new();
        for label in labels {
            let letter = if label.wrong { BOLD_LETTER } else { LETTER };
            let half = label.text.chars().count() as f64 * letter / 2.0;
            let at = label.at.clamp(left + half, (right - half).max(left + half));
            let i = taken.partition_point(|t| t.0 < at);
            let clear = taken.get(i).is_none_or(|t| t.0 >= at + half + 6.0)
                && (i == 0 || taken[i - 1].1 <= at - half - 6.0);
            if !clear {
                continue;
            }
            taken.insert(i, (at - half, at + half));
            let class = format!("{class}{}", if label.wrong { " wrong" } else { "" });
            self.out.append(text(
                "text",
                &[("class", &class), ("x", &num(at)), ("y", &num(y))],
                &label.text,
            ));
        }
    }

    /// A pointer under the strip at each distance that misses its target, told or not.
    fn off_marks(&mut self, labels: &[Label]) {
        let mut pen = Pen::default();
        let mut last = f64::NEG_INFINITY;
        for x in labels.iter().map(|l| l.at) {
            if x - last < 3.0 {
                continue;
            }
            last = x;
            pen.move_to(Point::new(x, BOTTOM))
                .line_to(Point::new(x + 3.5, BOTTOM + 5.0))
                .line_to(Point::new(x - 3.5, BOTTOM + 5.0))
                .close();
        }
        add(&mut self.out, path("off-mark", &pen));
    }

    fn ruler(&mut self) {
        let (unit, steps): (f64, &[f64]) = match self.words.style {
            LengthStyle::Metric => (
                1000.0,
                &[0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 500.0],
            ),
            LengthStyle::FeetInches => (
                304.8,
                &[0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 500.0, 2000.0],
            ),
        };
        let fits = |s: &&f64| **s * unit * self.scale >= 80.0;
        let step = steps.iter().find(fits).unwrap_or(&5000.0) * unit;
        let first = (self.span.from / step).ceil();
        let count = (self.span.length() / step).clamp(0.0, 500.0) as u32;
        let mut pen = Pen::default();
        let mut own = group("ruler");
        for i in 0..=count {
            let mm = (first + f64::from(i)) * step;
            if mm > self.span.to {
                break;
            }
            let x = self.x(mm);
            pen.line(Point::new(x, RULER), Point::new(x, RULER + 4.0));
            let label = match self.words.style {
                LengthStyle::Metric => {
                    let places = usize::from(step < unit);
                    self.words.metres(mm, places)
                }
                LengthStyle::FeetInches => self.words.length(mm),
            };
            // Labels at the ends stay within the band.
            let (class, x) = if mm - self.span.from < 20.0 / self.scale {
                ("start", x - 2.0)
            } else if self.span.to - mm < 20.0 / self.scale {
                ("end", x + 2.0)
            } else {
                ("", x)
            };
            own.append(text(
                "text",
                &[("class", class), ("x", &num(x)), ("y", &num(RULER_LINE))],
                &label,
            ));
        }
        add(&mut own, path("ruler-tick", &pen));
        self.out.append(own);
    }
}

/// The part in which a place lies, px.
fn part(x: f64) -> i32 {
    (x / PART).floor() as i32
}

/// Slanted lines from edge to edge of a stretch.
fn hatch(pen: &mut Pen, a: f64, b: f64) {
    const STEP: f64 = 7.0;
    let height = BOTTOM - TOP;
    // Lines x + y = k·STEP, so that neighbouring stretches share one pattern.
    let first = ((a + TOP) / STEP).ceil();
    let count = ((b - a + height) / STEP).clamp(0.0, 2000.0) as u32;
    for i in 0..=count {
        let k = (first + f64::from(i)) * STEP;
        let (x0, x1) = ((k - BOTTOM).max(a), (k - TOP).min(b));
        if x1 - x0 > 0.5 {
            pen.line(Point::new(x0, k - x0), Point::new(x1, k - x1));
        }
    }
}
