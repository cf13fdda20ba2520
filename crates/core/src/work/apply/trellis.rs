//! Work on the wires.

use crate::arrange::Arrange;
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Trellis, Wire};
use crate::said::Arg;
use crate::units::Mm;
use crate::work::Work;

/// Least distance between wires.
const LEAST: Mm = Mm(50);
/// Lowest wire.
const LOWEST: Mm = Mm(range::WIRE_HEIGHT.0 as i32);

/// The trellis after work on it; other work leaves it as it is.
///
/// # Errors
/// A wire that is not there, or a height too near another wire, the ground or out of range.
pub fn apply_to_trellis(trellis: &Trellis, work: &Work) -> Result<Trellis, Refusal> {
    let mut out = trellis.clone();
    match *work {
        Work::AddWire {
            height_mm,
            covering,
        } => {
            if out.wires.len() >= Trellis::MAX_WIRES {
                return Err(Refusal::new(
                    "refusal-wires",
                    vec![("high", Arg::Count(Trellis::MAX_WIRES as i64))],
                ));
            }
            free(&out, height_mm)?;
            if height_mm < trellis.cordon_height() {
                return Err(out_of_range(height_mm, trellis.cordon_height()));
            }
            out.wires.push(Wire {
                height: height_mm,
                covering,
            });
        }
        Work::MoveWire { height_mm, to_mm } => {
            let i = index(&out, height_mm)?;
            let wire = out.wires.remove(i);
            free(&out, to_mm)?;
            if i > 0 && to_mm < trellis.cordon_height() {
                return Err(out_of_range(to_mm, trellis.cordon_height()));
            }
            if i == 0 && out.wires.first().is_some_and(|w| to_mm > w.height) {
                return Err(Refusal::new(
                    "refusal-cordon-wire",
                    vec![("height", Arg::Length(height_mm.f()))],
                ));
            }
            out.wires.push(Wire {
                height: to_mm,
                ..wire
            });
        }
        Work::RemoveWire { height_mm } => {
            let i = index(&out, height_mm)?;
            if i == 0 {
                return Err(Refusal::new(
                    "refusal-cordon-wire",
                    vec![("height", Arg::Length(height_mm.f()))],
                ));
            }
            out.wires.remove(i);
        }
        Work::CoverWire {
            height_mm,
            covering,
        } => {
            let i = index(&out, height_mm)?;
            out.wires[i].covering = covering;
        }
        Work::Plant { .. }
        | Work::RemoveTree { .. }
        | Work::ReplaceTree { .. }
        | Work::Lay { .. }
        | Work::Stand { .. }
        | Work::CutBack { .. }
        | Work::CutToBuds { .. }
        | Work::Stub { .. }
        | Work::Remove { .. }
        | Work::Thin { .. }
        | Work::RubOut { .. }
        | Work::KeepBud { .. }
        | Work::Notch { .. }
        | Work::MoveBud { .. }
        | Work::TakeLaterals { .. }
        | Work::Tip { .. }
        | Work::HoldHeight { .. } => {}
    }
    out.wires.arrange_by_key(|w| w.height);
    Ok(out)
}

fn index(trellis: &Trellis, height: Mm) -> Result<usize, Refusal> {
    trellis
        .wires
        .iter()
        .position(|w| w.height == height)
        .ok_or_else(|| Refusal::new("refusal-no-wire", vec![("height", Arg::Length(height.f()))]))
}

fn out_of_range(height: Mm, low: Mm) -> Refusal {
    Refusal::new(
        "refusal-wire-height",
        vec![
            ("value", Arg::Length(height.f())),
            ("low", Arg::Length(low.f())),
            ("high", Arg::Length(Trellis::MAX_HEIGHT.f())),
        ],
    )
}

fn free(trellis: &Trellis, height: Mm) -> Result<(), Refusal> {
    if !range::has(range::WIRE_HEIGHT, height.f()) {
        return Err(out_of_range(height, LOWEST));
    }
    match trellis
        .wires
        .iter()
        .find(|w| (w.height.f() - height.f()).abs() < LEAST.f())
    {
        None => Ok(()),
        Some(near) => Err(Refusal::new(
            "refusal-wire-near",
            vec![
                ("value", Arg::Length(height.f())),
                ("low", Arg::Length(LEAST.f())),
                ("near", Arg::Length(near.height.f())),
            ],
        )),
    }
}
