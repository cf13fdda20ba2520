//! What the wood of the wall is coloured by: its bark, or a figure of each shoot, which is also told on it. The tones go from light
//! to dark, so that black and white tell them apart too.

use crate::element::{el, path};
use crate::pen::Pen;
use cordonry::fruit;
use cordonry::pose::{Course, Posed};
use cordonry::row::{Kind, Moment, Shoot, Window};
use cordonry::said::Arg;
use cordonry::terms::Terms;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;

/// What the wood is coloured by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ColourBy {
    /// As it is.
    #[default]
    Bark,
    /// The mean light along the shoot.
    Light,
    /// The seasons that it has grown.
    Age,
    /// The fruit that it bears at the next harvest.
    Crop,
}

/// From which value on each tone but the first is taken.
type Edges = [f64; 4];

/// The lower limits stand at what wood wants: for renewal and for flowers, and for good fruit.
const LIGHT: Edges = [0.10, 0.20, 0.30, 0.50];
const AGE: Edges = [2.0, 3.0, 4.0, 5.0];
const FRUIT: Edges = [1.0, 20.0, 40.0, 80.0];

impl ColourBy {
    /// Every choice.
    pub const ALL: [Self; 4] = [Self::Bark, Self::Light, Self::Age, Self::Crop];

    /// Its name where the choice is kept.
    pub fn name(self) -> &'static str {
        match self {
            Self::Bark => "bark",
            Self::Light => "light",
            Self::Age => "age",
            Self::Crop => "crop",
        }
    }

    /// The choice of that name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|by| by.name() == name)
    }

    /// The text that names it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Bark => "colour-bark",
            Self::Light => "colour-light",
            Self::Age => "colour-age",
            Self::Crop => "colour-crop",
        }
    }

    /// The text that says what the numbers on the shoots are; none for bark.
    pub fn told(self) -> Option<&'static str> {
        match self {
            Self::Bark => None,
            Self::Light => Some("colour-told-light"),
            Self::Age => Some("colour-told-age"),
            Self::Crop => Some("colour-told-crop"),
        }
    }

    fn edges(self) -> Option<Edges> {
        match self {
            Self::Bark => None,
            Self::Light => Some(LIGHT),
            Self::Age => Some(AGE),
            Self::Crop => Some(FRUIT),
        }
    }

    /// The tone of a value: of light the most is the lightest, of years and fruit the least.
    fn tone(self, value: f64) -> usize {
        let past = self
            .edges()
            .map_or(0, |e| e.partition_point(|from| *from <= value));
        match self {
            Self::Light => LIGHT.len() - past,
            _ => past,
        }
    }

    fn arg(self, value: f64) -> Arg {
        match self {
            Self::Light => Arg::Share(value),
            _ => Arg::Number(value, 0),
        }
    }

    /// Each tone as a small drawing, with the values that it stands for, from the least on.
    pub fn key(self, words: &Words) -> Vec<(String, String)> {
        let Some(edges) = self.edges() else {
            return Vec::new();
        };
        let whole = self != Self::Light;
        let one = |i: usize| {
            let from = i.checked_sub(1).map(|i| edges[i]);
            let to = edges.get(i).map(|to| if whole { to - 1.0 } else { *to });
            let text = match (from, to) {
                (Some(from), None) => words.text("tone-from", &[("from", self.arg(from))]),
                (from, Some(to)) if from == Some(to) || to == 0.0 => words.arg(&self.arg(to)),
                (from, Some(to)) => {
                    let from = from.unwrap_or(0.0);
                    words.text("tone-to", &[("from", self.arg(from)), ("to", self.arg(to))])
                }
                (None, None) => String::new(),
            };
            (swatch(self.tone(from.unwrap_or(0.0))), text)
        };
        (0..=edges.len()).map(one).collect()
    }
}

/// A piece of wood of a tone.
fn swatch(tone: usize) -> String {
    let mut out = el(
        "svg",
        &[
            ("class", "wall tone-key"),
            ("viewBox", "0 0 16 12"),
            ("width", "16"),
            ("height", "12"),
            ("aria-hidden", "true"),
            ("style", "--px:1"),
        ],
    );
    let mut own = el("g", &[("class", &class(tone))]);
    let mut pen = Pen::default();
    pen.rect(1.0, 1.0, 15.0, 11.0);
    crate::element::add(&mut own, path("wood", &pen));
    out.append(own);
    out.to_string()
}

pub(crate) fn class(tone: usize) -> String {
    format!("tone tone-{tone}")
}

/// The light at a place of the wall, 0 to 1, where it is known.
pub type LightAt<'a> = &'a dyn Fn(Point) -> Option<f64>;

/// The wall's wood in colours.
#[derive(Clone, Copy)]
pub struct Paint<'a> {
    /// By what.
    pub by: ColourBy,
    /// When the row is as it is drawn.
    pub moment: Moment,
    /// What growth and fruit read besides its trees.
    pub terms: &'a Terms,
    /// The light, where it has been worked out.
    pub light: LightAt<'a>,
    /// At which scale, pixels a millimetre: from far away nothing is told on the shoots.
    pub px_per_mm: f64,
}

/// From which scale on figures stand on the shoots, pixels a millimetre: neighbours, at two heights, leave room for them.
const TOLD: f64 = 0.05;

/// A shoot's tone, and what is told on it.
pub(crate) struct Tone {
    pub tone: usize,
    pub label: String,
}

/// How far apart along a shoot its light is looked at, mm.
const STEP: f64 = 100.0;

impl Paint<'_> {
    /// The tone of each shoot of a tree, in their order: of uprights and untied shoots.
    pub(crate) fn tones(&self, posed: &Posed) -> Vec<Option<Tone>> {
        if self.by == ColourBy::Bark {
            return Vec::new();
        }
        let fruit = match self.by {
            ColourBy::Crop => fruit::of_shoots(posed.tree(), self.harvest(), self.terms),
            _ => Vec::new(),
        };
        let one = |(i, (shoot, course)): (usize, (&Shoot, &Course))| {
            if !matches!(shoot.kind(), Kind::Upright | Kind::Shoot) {
                return None;
            }
            let value = match self.by {
                ColourBy::Bark => None,
                ColourBy::Light => self.mean_light(course),
                ColourBy::Age => shoot
                    .born()
                    .map(|b| f64::from(self.moment.leaf.saturating_sub(b))),
                ColourBy::Crop => fruit.get(i).map(|n| n.round()),
            }?;
            let shown = if self.by == ColourBy::Light {
                100.0 * value
            } else {
                value
            };
            let label = match self.px_per_mm >= TOLD {
                true => format!("{shown:.0}"),
                false => String::new(),
            };
            Some(Tone {
                tone: self.by.tone(value),
                label,
            })
        };
        posed.pairs().enumerate().map(one).collect()
    }

    /// The leaf of the next harvest.
    fn harvest(&self) -> u8 {
        let past = self.moment.window == Window::AfterHarvest;
        self.moment.leaf.saturating_add(past.into())
    }

    fn mean_light(&self, course: &Course) -> Option<f64> {
        let count = (course.length / STEP).ceil().max(1.0);
        let place = |i: u32| course.point(course.length * (f64::from(i) + 0.5) / count);
        let all: Vec<f64> = (0..count as u32)
            .filter_map(|i| (self.light)(place(i)))
            .collect();
        (!all.is_empty()).then(|| all.iter().sum::<f64>() / all.len() as f64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Detail;
    use crate::tree::painted_group;
    use cordonry::pose::PosedRow;
    use cordonry::row::Targets;
    use cordonry_fixture::wall::{row, upright_stem};

    #[test]
    fn a_tone_is_taken_from_its_edge_on_and_the_key_tells_all() {
        for (by, value, tone) in [
            (ColourBy::Age, 1.0, 0),
            (ColourBy::Age, 2.0, 1),
            (ColourBy::Age, 9.0, 4),
            (ColourBy::Light, 0.05, 4),
            (ColourBy::Light, 0.30, 1),
            (ColourBy::Light, 0.29, 2),
            (ColourBy::Crop, 0.0, 0),
            (ColourBy::Crop, 1.0, 1),
        ] {
            assert_eq!(by.tone(value), tone, "{by:?} {value}");
        }
        let words = Words::strict();
        let texts = |by: ColourBy| {
            by.key(&words)
                .into_iter()
                .map(|(_, t)| t)
                .collect::<Vec<_>>()
        };
        assert_eq!(texts(ColourBy::Age), ["0–1", "2", "3", "4", "5 or more"]);
        assert_eq!(
            texts(ColourBy::Crop),
            ["0", "1–19", "20–39", "40–79", "80 or more"]
        );
        assert_eq!(texts(ColourBy::Light)[4], "50 % or more");
        assert!(texts(ColourBy::Bark).is_empty());
        for by in ColourBy::ALL {
            assert_eq!(ColourBy::named(by.name()), Some(by));
        }
    }

    #[test]
    fn the_number_stands_on_the_shoot_and_bark_is_the_tree_as_it_is() {
        let wall = row(
            0,
            3000,
            vec![upright_stem(1, 0, 2000.0).uprights(&[600.0, 900.0])],
        );
        let (targets, terms) = (Targets::default(), Terms::of(&wall, &Targets::default()));
        let posed = PosedRow::of(&wall, &targets);
        let tree = &posed.posed()[0];
        let drawn = |by, light: LightAt<'_>| {
            let paint = Paint {
                by,
                moment: Moment::dormant(4),
                terms: &terms,
                light,
                px_per_mm: 0.1,
            };
            painted_group(tree, Detail::Full, &paint)
        };
        let none = |_: Point| None;
        assert_eq!(
            drawn(ColourBy::Bark, &none),
            crate::posed_group(tree, Detail::Full)
        );
        let age = drawn(ColourBy::Age, &none);
        assert_eq!(age.matches("tone-label").count(), 2);
        // Where the light is not known, nothing is told of it.
        assert_eq!(drawn(ColourBy::Light, &none).matches("tone").count(), 0);
        let lit = drawn(ColourBy::Light, &|p| {
            Some(if p.x < 750.0 { 0.42 } else { 0.07 })
        });
        assert_eq!(
            (lit.matches("tone-1").count(), lit.matches("tone-4").count()),
            (1, 1)
        );
        assert!(lit.contains("42") && lit.contains('7'));
    }
}
