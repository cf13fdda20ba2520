//! What is laid down before the walk.

use super::usual_tape;
use crate::make::field::{LEAST_WALL, check_wires, read_wires, usual_wires, write_wires};
use crate::make::{Field, Form};
use crate::refusal::Refusal;
use crate::said::Arg;
use crate::units::{BareUnit, Deg, LengthStyle, Mm, fixed};
use serde::{Deserialize, Serialize};

/// The unit of numbers that are typed without one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tape {
    /// Metres; thickness in millimetres.
    Metres,
    /// Centimetres; thickness in millimetres.
    Centimetres,
    /// Feet and decimals of them; thickness in inches.
    Feet,
    /// Inches; thickness in inches.
    Inches,
}

impl Tape {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Metres, Self::Centimetres, Self::Feet, Self::Inches];

    /// The name of its sign's text.
    pub fn sign(self) -> &'static str {
        match self {
            Self::Metres => "unit-m",
            Self::Centimetres => "unit-cm",
            Self::Feet => "unit-ft",
            Self::Inches => "unit-in",
        }
    }

    /// The name of the text for the sign of the unit of thickness.
    pub fn thickness_sign(self) -> &'static str {
        match self {
            Self::Metres | Self::Centimetres => "unit-mm",
            Self::Feet | Self::Inches => "unit-in",
        }
    }

    /// The style of lengths that goes with it.
    pub fn style(self) -> LengthStyle {
        match self {
            Self::Metres | Self::Centimetres => LengthStyle::Metric,
            Self::Feet | Self::Inches => LengthStyle::FeetInches,
        }
    }

    pub(super) fn bare(self) -> BareUnit {
        match self {
            Self::Metres => BareUnit::Metre,
            Self::Centimetres => BareUnit::Centimetre,
            Self::Feet => BareUnit::Foot,
            Self::Inches => BareUnit::Inch,
        }
    }

    pub(super) fn thickness(self) -> BareUnit {
        match self {
            Self::Metres | Self::Centimetres => BareUnit::Millimetre,
            Self::Feet | Self::Inches => BareUnit::Inch,
        }
    }

    /// A place as it is typed.
    pub fn typed(self, mm: f64) -> String {
        typed(mm / self.bare().millimetres())
    }

    /// A thickness as it is typed.
    pub fn typed_thickness(self, mm: f64) -> String {
        typed(mm / self.thickness().millimetres())
    }
}

/// A number as it is typed: no more digits than it has, up to three.
fn typed(number: f64) -> String {
    let text = fixed(number, 3).replace('−', "-");
    text.trim_end_matches('0').trim_end_matches('.').to_string()
}

/// What is laid down before the walk.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WalkSetup {
    /// The leaf before which the row is found, 1 to 20.
    pub leaf: u8,
    /// Usual distance between trees: where the next one is expected.
    #[serde(rename = "spacing_mm")]
    pub spacing: Mm,
    /// Planting angle from the ground of trees with one leader; with two it is taken as upright.
    #[serde(rename = "angle_deg")]
    pub angle: Deg,
    /// Heights of the wires from the lowest up; the first is the cordon wire.
    #[serde(rename = "wires_mm")]
    pub wires: Vec<Mm>,
    /// How high the wall is to be.
    #[serde(rename = "wall_height_mm")]
    pub wall_height: Mm,
    /// Number of trees in the row, where but a sample of them is walked to; `None`: every tree is.
    pub sample: Option<u32>,
    /// The tape's unit.
    pub tape: Tape,
    /// Whether it is asked how high each upright stands.
    #[serde(default, skip_serializing_if = "is_no")]
    pub heights: bool,
    /// Whether it is asked how many side branches each upright has.
    #[serde(default, skip_serializing_if = "is_no")]
    pub laterals: bool,
}

fn is_no(asked: &bool) -> bool {
    !asked
}

impl WalkSetup {
    /// How many trees are a sample.
    pub const SAMPLED: u32 = 10;
    /// Trees in the row of a sample, where nobody has said it.
    const USUAL_TREES: u32 = 40;

    /// Every tree is walked to, or a sample.
    pub fn set_sample(&mut self, sample: bool) {
        self.sample = match (sample, self.sample) {
            (false, _) => None,
            (true, Some(n)) => Some(n),
            (true, None) => Some(Self::USUAL_TREES),
        };
    }

    pub(super) fn check(&self) -> Result<(), Refusal> {
        let none = f64::MIN;
        if let Some(trees) = self.sample {
            Field::Trees.accept(f64::from(trees), none)?;
        }
        Field::Leaf.accept(f64::from(self.leaf), none)?;
        Field::Spacing.accept(self.spacing.f(), none)?;
        Field::Angle.accept(self.angle.degrees(), none)?;
        check_wires(&self.wires)?;
        Field::WallHeight.accept(self.wall_height.f(), self.wires[0].f() + LEAST_WALL)?;
        Ok(())
    }

    /// The numbers of the trees that are a sample: the first, the last, and others evenly between.
    pub(super) fn visits(&self) -> Vec<u32> {
        let Some(trees) = self.sample else {
            return Vec::new();
        };
        let last = Self::SAMPLED.min(trees).saturating_sub(1);
        (0..=last)
            .map(|i| match last {
                0 => 1,
                // Rounded to the nearest.
                _ => 1 + (2 * i * (trees - 1) + last) / (2 * last),
            })
            .collect()
    }
}

impl Form for WalkSetup {
    const FIELDS: &'static [Field] = &[
        Field::Trees,
        Field::Spacing,
        Field::Leaf,
        Field::Angle,
        Field::Wires,
        Field::WallHeight,
    ];

    fn usual(style: LengthStyle) -> Self {
        let wires = usual_wires(style);
        Self {
            leaf: 3,
            spacing: match style {
                LengthStyle::Metric => Mm(1500),
                LengthStyle::FeetInches => Mm(1524),
            },
            angle: Deg::new(45.0),
            wall_height: wires[wires.len() - 1],
            wires,
            sample: None,
            tape: usual_tape(style),
            heights: false,
            laterals: false,
        }
    }

    fn asks(&self, field: Field) -> bool {
        field != Field::Trees || self.sample.is_some()
    }

    fn shown(&self, field: Field) -> Vec<Arg> {
        let value = match field {
            Field::Wires => return write_wires(&self.wires),
            Field::Trees => f64::from(self.sample.unwrap_or(Self::USUAL_TREES)),
            Field::Spacing => self.spacing.f(),
            Field::Angle => self.angle.degrees(),
            Field::WallHeight => self.wall_height.f(),
            _ => f64::from(self.leaf),
        };
        vec![field.arg(value)]
    }

    fn set(&mut self, field: Field, text: &str, style: LengthStyle) -> Result<(), Refusal> {
        if field == Field::Wires {
            self.wires = read_wires(text, style)?;
            return Ok(());
        }
        let value = field.read(text, style)?;
        match field {
            Field::Trees => self.sample = self.sample.map(|_| value as u32),
            Field::Spacing => self.spacing = Mm::round(value),
            Field::Angle => self.angle = Deg::new(value),
            Field::WallHeight => {
                let cordon = self.wires.first().map_or(0.0, |w| w.f());
                self.wall_height = Mm::round(field.accept(value, cordon + LEAST_WALL)?);
            }
            _ => self.leaf = value as u8,
        }
        Ok(())
    }
}
