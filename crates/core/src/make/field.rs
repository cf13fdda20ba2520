//! The fields of a short form: how each is written, read and held to its range.

use crate::arrange::Arrange;
use crate::refusal::Refusal;
use crate::row::{Covering, Row, Trellis, Wire};
use crate::said::Arg;
use crate::units::{BareUnit, LengthStyle, Mm, parse_length, parse_number};

/// One field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// How many trees.
    Trees,
    /// The leaf before which the row stands.
    Leaf,
    /// Distance between trees.
    Spacing,
    /// Planting angle from the ground.
    Angle,
    /// Heights of the wires, the cordon wire first.
    Wires,
    /// How high the wall is to be.
    WallHeight,
    /// Distance between uprights.
    UprightSpacing,
    /// Distance between row centres.
    RowSpacing,
    /// How uneven the row is, 0 to 1.
    Unevenness,
    /// The number that chance begins from.
    Seed,
    /// Length of the row.
    Length,
}

/// How a field is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unit {
    Count,
    Length,
    Heights,
    Angle,
    Share,
}

/// Lowest cordon wire.
const LOWEST_WIRE: f64 = 200.0;
/// Highest cordon wire.
const HIGHEST_CORDON: f64 = 2000.0;
/// Wires nearer to each other than this are one.
const WIRES_APART: f64 = 50.0;
/// The wall stands at least so far above the cordon wire.
pub(crate) const LEAST_WALL: f64 = 300.0;

impl Field {
    /// Its name in language files, behind `made-`, and in a refusal.
    pub fn key(self) -> &'static str {
        match self {
            Self::Trees => "trees",
            Self::Leaf => "leaf",
            Self::Spacing => "spacing",
            Self::Angle => "angle",
            Self::Wires => "wires",
            Self::WallHeight => "wall-height",
            Self::UprightSpacing => "upright-spacing",
            Self::RowSpacing => "row-spacing",
            Self::Unevenness => "unevenness",
            Self::Seed => "seed",
            Self::Length => "length",
        }
    }

    /// Whether it holds one number, for which digits and a point are enough.
    pub fn is_number(self) -> bool {
        matches!(self.unit(), Unit::Count | Unit::Angle | Unit::Share)
    }

    fn unit(self) -> Unit {
        match self {
            Self::Trees | Self::Leaf | Self::Seed => Unit::Count,
            Self::Spacing
            | Self::WallHeight
            | Self::UprightSpacing
            | Self::RowSpacing
            | Self::Length => Unit::Length,
            Self::Wires => Unit::Heights,
            Self::Angle => Unit::Angle,
            Self::Unevenness => Unit::Share,
        }
    }

    /// Least and largest accepted value: mm, degrees, a share of 1 or a count.
    pub fn range(self) -> (f64, f64) {
        match self {
            Self::Trees => (1.0, 1000.0),
            Self::Leaf => (1.0, 20.0),
            Self::Spacing => (300.0, 4000.0),
            Self::Angle => (30.0, 90.0),
            Self::Wires => (LOWEST_WIRE, Trellis::MAX_HEIGHT.f()),
            Self::WallHeight => (LOWEST_WIRE + LEAST_WALL, Trellis::MAX_HEIGHT.f()),
            Self::UprightSpacing => (100.0, 500.0),
            Self::RowSpacing => (1000.0, 10_000.0),
            Self::Unevenness => (0.0, 1.0),
            Self::Seed => (0.0, 999_999.0),
            Self::Length => (1000.0, Row::MAX_X.f()),
        }
    }

    /// A value as it is written.
    pub(crate) fn arg(self, value: f64) -> Arg {
        match self.unit() {
            Unit::Length | Unit::Heights => Arg::Length(value),
            Unit::Angle => Arg::Angle(value),
            Unit::Share => Arg::Share(value),
            Unit::Count => Arg::Number(value, 0),
        }
    }

    fn refusal(self, value: Arg, low: f64, high: f64) -> Refusal {
        Refusal::new(
            "refusal-made",
            vec![
                ("field", Arg::Text(self.key().into())),
                ("value", value),
                ("low", self.arg(low)),
                ("high", self.arg(high)),
            ],
        )
    }

    fn unread(self, text: &str) -> Refusal {
        let (low, high) = self.range();
        self.refusal(Arg::quoted(text), low, high)
    }

    /// The value, where it is in the field's range, or in a narrower one that begins at `least`.
    pub(crate) fn accept(self, value: f64, least: f64) -> Result<f64, Refusal> {
        let (low, high) = self.range();
        let low = low.max(least);
        if value >= low && value <= high {
            return Ok(value);
        }
        let shown = if value.is_finite() {
            self.arg(value)
        } else {
            Arg::key("no-number")
        };
        Err(self.refusal(shown, low, high))
    }

    /// Reads one value as it was written.
    pub(crate) fn read(self, text: &str, style: LengthStyle) -> Result<f64, Refusal> {
        let value = match self.unit() {
            Unit::Length | Unit::Heights => parse_length(text, bare(style)).ok(),
            Unit::Count => parse_number(text).ok().filter(|n| n.fract() == 0.0),
            Unit::Angle => parse_number(text.trim().trim_end_matches('°')).ok(),
            Unit::Share => parse_number(text.trim().trim_end_matches('%'))
                .ok()
                .map(|n| n / 100.0),
        };
        self.accept(value.ok_or_else(|| self.unread(text))?, f64::MIN)
    }
}

/// The unit of a number without one.
fn bare(style: LengthStyle) -> BareUnit {
    match style {
        LengthStyle::Metric => BareUnit::Metre,
        LengthStyle::FeetInches => BareUnit::Foot,
    }
}

/// Reads wire heights: `0.50 m; 1.00 m`. They may come in any order.
pub(crate) fn read_wires(text: &str, style: LengthStyle) -> Result<Vec<Mm>, Refusal> {
    // A comma with a space behind it parts two heights; without one it is a decimal comma.
    let mut heights: Vec<Mm> = text
        .replace(", ", ";")
        .split([';', '\n'])
        .map(str::trim)
        .filter(|t| !t.is_empty())
        .map(|t| Field::Wires.read(t, style).map(Mm::round))
        .collect::<Result<_, _>>()?;
    heights.arrange();
    check_wires(&heights)?;
    Ok(heights)
}

/// Whether the heights make a trellis.
pub(crate) fn check_wires(heights: &[Mm]) -> Result<(), Refusal> {
    let Some(cordon) = heights.first() else {
        return Err(Field::Wires.unread(""));
    };
    if cordon.f() > HIGHEST_CORDON || cordon.f() < LOWEST_WIRE {
        return Err(Refusal::new(
            "refusal-made-cordon",
            vec![
                ("value", Arg::Length(cordon.f())),
                ("low", Arg::Length(LOWEST_WIRE)),
                ("high", Arg::Length(HIGHEST_CORDON)),
            ],
        ));
    }
    for height in heights {
        Field::Wires.accept(height.f(), LOWEST_WIRE)?;
    }
    if let Some(w) = heights.windows(2).find(|w| (w[1] - w[0]).f() < WIRES_APART) {
        return Err(Refusal::new(
            "refusal-wire-near",
            vec![
                ("value", Arg::Length(w[1].f())),
                ("low", Arg::Length(WIRES_APART)),
                ("near", Arg::Length(w[0].f())),
            ],
        ));
    }
    if heights.len() > Trellis::MAX_WIRES {
        return Err(Refusal::new(
            "refusal-wires",
            vec![("high", Arg::Count(Trellis::MAX_WIRES as i64))],
        ));
    }
    Ok(())
}

/// Wire heights as they are written.
pub(crate) fn write_wires(heights: &[Mm]) -> Vec<Arg> {
    heights.iter().map(|h| Arg::Length(h.f())).collect()
}

/// The usual wires: the cordon wire, then one at the same distance each time.
pub(crate) fn usual_wires(style: LengthStyle) -> Vec<Mm> {
    let step = match style {
        LengthStyle::Metric => 500.0,
        LengthStyle::FeetInches => 508.0,
    };
    (1..=5).map(|n| Mm::round(step * f64::from(n))).collect()
}

/// Distance between posts that is aimed at, mm. Extension trellis notes, partly from memory: 6 to 12 m.
const POSTS_APART: f64 = 7000.0;

/// A trellis with those wires and posts from one end of the stretch to the other.
pub(crate) fn trellis(wires: &[Mm], wall_height: Mm, from: Mm, to: Mm) -> Trellis {
    let length = (to - from).f();
    let spans = libm::ceil(length / POSTS_APART - 1e-9).max(1.0);
    let posts = (0..=spans as u32)
        .map(|n| Mm::round(from.f() + length * f64::from(n) / spans))
        .collect();
    Trellis {
        wires: wires
            .iter()
            .map(|height| Wire {
                height: *height,
                covering: Covering::Bare,
            })
            .collect(),
        posts,
        wall_height,
    }
}
