//! The numbers in work, and what of them is accepted on any row.

use super::Work;
use crate::range::{self, Range};
use crate::row::Planted;
use crate::units::Mm;

/// A number in a piece of work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// The name of its field.
    pub name: &'static str,
    /// In the unit of its field: mm, tenths of a mm, degrees, per cent or a count.
    pub value: f64,
    /// What is accepted on any row; a row may accept less.
    pub range: Range,
}

impl Work {
    /// Its numbers.
    pub fn numbers(&self) -> Vec<Number> {
        let number = |name, value, range| Number { name, value, range };
        let mm = |name, mm: Mm, range| number(name, mm.f(), range);
        let stock = |planted: Planted, length: Mm, dmm: u16| {
            let (thin, thick) = range::STOCK_DIAMETER;
            let thickness = (10.0 * thin, 10.0 * thick);
            let angle = planted.angle.degrees();
            vec![
                number("planted.angle_deg", angle, range::PLANTING_ANGLE),
                mm("length_mm", length, range::STOCK_LENGTH),
                number("diameter_dmm", dmm.into(), thickness),
            ]
        };
        match *self {
            Self::Plant {
                foot_mm,
                planted,
                length_mm,
                diameter_dmm,
                ..
            } => {
                let mut all = stock(planted, length_mm, diameter_dmm);
                all.push(mm("foot_mm", foot_mm, range::PLACE));
                all
            }
            Self::ReplaceTree {
                planted,
                length_mm,
                diameter_dmm,
                ..
            } => stock(planted, length_mm, diameter_dmm),
            Self::Lay { rise_deg, .. } => {
                vec![number("rise_deg", rise_deg.degrees(), range::RISE)]
            }
            Self::Stand { lean_deg, .. } => {
                vec![number("lean_deg", lean_deg.degrees(), range::STAND_LEAN)]
            }
            Self::CutBack { keep_mm, .. } => vec![mm("keep_mm", keep_mm, range::KEPT)],
            Self::CutToBuds { buds, .. } => vec![number("buds", buds.into(), range::BUDS)],
            Self::Stub { keep_mm, .. } => vec![mm("keep_mm", keep_mm, range::STUB)],
            Self::KeepBud { at_mm, .. }
            | Self::Notch { at_mm, .. }
            | Self::MoveBud { at_mm, .. } => {
                vec![mm("at_mm", at_mm, range::BUD_PLACE)]
            }
            Self::Tip { percent, .. } => vec![number("percent", percent.into(), range::TIPPED)],
            Self::HoldHeight { height_mm, .. } => {
                vec![mm("height_mm", height_mm, range::HELD_HEIGHT)]
            }
            Self::MoveWire { height_mm, to_mm } => vec![
                mm("height_mm", height_mm, range::WIRE_HEIGHT),
                mm("to_mm", to_mm, range::WIRE_HEIGHT),
            ],
            Self::AddWire { height_mm, .. }
            | Self::RemoveWire { height_mm }
            | Self::CoverWire { height_mm, .. } => {
                vec![mm("height_mm", height_mm, range::WIRE_HEIGHT)]
            }
            Self::RemoveTree { .. }
            | Self::Remove { .. }
            | Self::Thin { .. }
            | Self::RubOut { .. }
            | Self::TakeLaterals { .. } => Vec::new(),
        }
    }
}
