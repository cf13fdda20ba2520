//! A row without trees: wires, and the stretch that is to be filled.

use super::field::{LEAST_WALL, check_wires, read_wires, trellis, usual_wires, write_wires};
use super::{Field, Form};
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::row::Row;
use crate::said::{Arg, Said, Wording};
use crate::units::{LengthStyle, Mm};

/// What is asked for an empty row.
#[derive(Clone, Debug, PartialEq)]
pub struct EmptyRow {
    /// Length of the row, 1 m to 5 km.
    pub length: Mm,
    /// The leaf before which the row stands, 1 to 20.
    pub leaf: u8,
    /// Heights of the wires from the lowest up; the first is the cordon wire.
    pub wires: Vec<Mm>,
    /// How high the wall is to be.
    pub wall_height: Mm,
}

impl EmptyRow {
    /// The row.
    ///
    /// # Errors
    /// The first value that is not accepted: the field, the value and the accepted range.
    pub fn row(&self) -> Result<Row, Refusal> {
        Field::Length.accept(self.length.f(), f64::MIN)?;
        Field::Leaf.accept(f64::from(self.leaf), f64::MIN)?;
        check_wires(&self.wires)?;
        Field::WallHeight.accept(self.wall_height.f(), self.wires[0].f() + LEAST_WALL)?;
        Ok(Row {
            leaf: self.leaf,
            from: Mm(0),
            to: self.length,
            trellis: trellis(&self.wires, self.wall_height, Mm(0), self.length),
            trees: Vec::new(),
        })
    }

    /// The plan of the row; its name and note say how it came about.
    ///
    /// # Errors
    /// As [`Self::row`].
    pub fn plan(&self, words: &dyn Wording) -> Result<Plan, Refusal> {
        let name = words.say(&Said::plain("empty-name"));
        Ok(Plan::new(name, self.row()?).begun())
    }
}

impl Form for EmptyRow {
    const FIELDS: &'static [Field] = &[Field::Length, Field::Leaf, Field::Wires, Field::WallHeight];

    fn usual(style: LengthStyle) -> Self {
        let wires = usual_wires(style);
        Self {
            length: match style {
                LengthStyle::Metric => Mm(30_000),
                LengthStyle::FeetInches => Mm(30_480),
            },
            leaf: 1,
            wall_height: wires[wires.len() - 1],
            wires,
        }
    }

    fn shown(&self, field: Field) -> Vec<Arg> {
        let value = match field {
            Field::Wires => return write_wires(&self.wires),
            Field::Leaf => f64::from(self.leaf),
            Field::WallHeight => self.wall_height.f(),
            _ => self.length.f(),
        };
        vec![field.arg(value)]
    }

    fn set(&mut self, field: Field, text: &str, style: LengthStyle) -> Result<(), Refusal> {
        match field {
            Field::Wires => self.wires = read_wires(text, style)?,
            Field::Leaf => self.leaf = field.read(text, style)? as u8,
            Field::WallHeight => {
                let height = Mm::round(field.read(text, style)?);
                let cordon = self.wires.first().map_or(0.0, |w| w.f());
                field.accept(height.f(), cordon + LEAST_WALL)?;
                self.wall_height = height;
            }
            _ => self.length = Mm::round(field.read(text, style)?),
        }
        Ok(())
    }
}
