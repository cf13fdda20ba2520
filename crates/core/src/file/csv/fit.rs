//! How what a line says fits on a tree: its place on the parent, its pose, its thickness.

use super::lines::Says;
use super::pieces::{Held, Place, PoseCell, in_range, kind_name};
use crate::pose::Course;
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Kind, Pose, Toward};
use crate::said::Arg;
use crate::units::{Deg, Mm};

/// How far beyond its parent's ends a place may be read, mm: a tape is read to the centimetre, and wood is not straight.
pub(super) const SLACK: f64 = 30.0;
/// How far along the row a parent must reach, mm, that a place along the row says where on it.
const STEEP: f64 = 20.0;
/// How far from an upright stem the place of a leader may be read, mm.
const STEM_SLACK: f64 = 150.0;

pub(super) fn no_place() -> Refusal {
    Refusal::new(
        "refusal-csv-empty",
        vec![
            ("column", Arg::Text("place".into())),
            ("accepted", Arg::key("accepted-place")),
        ],
    )
}

pub(super) fn foot(says: &Says) -> Result<Mm, Refusal> {
    match says.place {
        Some(Place::Row(x)) => Ok(Mm::round(x)),
        Some(Place::Along(_)) | None => Err(no_place()),
    }
}

/// How a shoot of that kind is held; `way` is where laid wood goes when nothing says it.
pub(super) fn pose(
    kind: Kind,
    cell: &PoseCell,
    side: Option<Toward>,
    way: Toward,
) -> Result<Pose, Refusal> {
    let usual = match kind {
        Kind::Leader => Held::Laid,
        Kind::Upright | Kind::Bud => Held::Upright,
        Kind::Stub => Held::Stub,
        Kind::Stem | Kind::Shoot => Held::Free,
    };
    let accepted = match kind {
        Kind::Leader => "accepted-pose-leader",
        Kind::Upright | Kind::Bud => "accepted-pose-upright",
        Kind::Stub => "accepted-pose-stub",
        Kind::Stem | Kind::Shoot => "accepted-pose-stem",
    };
    let held = cell.held.unwrap_or(usual);
    let fits = held == usual || matches!(kind, Kind::Stem | Kind::Shoot);
    let bare = matches!(held, Held::Free | Held::Stub);
    if !fits || (bare && cell.angle.is_some()) || (held != Held::Laid && cell.toward.is_some()) {
        return Err(Refusal::new(
            "refusal-csv-pose",
            vec![
                ("kind", Arg::Text(kind_name(kind).into())),
                ("accepted", Arg::key(accepted)),
            ],
        ));
    }
    let angle = cell.angle.unwrap_or(0.0);
    Ok(match held {
        Held::Laid => {
            in_range("pose", Arg::Angle, angle, range::RISE)?;
            Pose::Laid {
                toward: cell.toward.or(side).unwrap_or(way),
                rise: Deg::new(angle),
            }
        }
        Held::Upright => {
            in_range("pose", Arg::Angle, angle, range::LEAN)?;
            let left = side == Some(Toward::Left) && angle > 0.0;
            Pose::Upright {
                lean: Deg::new(if left { -angle } else { angle }),
            }
        }
        Held::Stub => Pose::Stub,
        Held::Free => Pose::Free,
    })
}

/// Where on its parent a shoot's base is, in whole mm, and whether a place just beyond the parent's end was taken to it.
pub(super) fn at(
    course: &Course,
    kind: Kind,
    place: Option<Place>,
) -> Result<(f64, bool), Refusal> {
    let length = course.length;
    let (x0, x1) = (course.base.x, course.tip().x);
    let bend = course.point(course.first).x;
    let off = |key: &'static str, value: f64, low: f64, high: f64| {
        let side = if value < low { "before" } else { "beyond" };
        Err(Refusal::new(
            key,
            vec![
                ("side", Arg::Text(side.into())),
                ("value", Arg::Length(value)),
                ("low", Arg::Length(low)),
                ("high", Arg::Length(high)),
            ],
        ))
    };
    let x = match place {
        None if kind == Kind::Leader => return Ok((libm::floor(length), false)),
        None => return Err(no_place()),
        Some(Place::Along(d)) if (0.0..=length + SLACK).contains(&d) => {
            // A place in inches is no whole number of mm.
            let d = libm::round(d);
            return Ok((d.min(libm::floor(length)), d > length));
        }
        Some(Place::Along(d)) => return off("refusal-csv-along", d, 0.0, length),
        Some(Place::Row(x)) => x,
    };
    let steep = (x1 - x0).abs() < STEEP && (bend - x0).abs() < STEEP;
    if steep && (x - x1).abs() <= STEM_SLACK {
        // It says nothing of the height: a leader begins where its stem ends.
        return if kind == Kind::Leader {
            Ok((libm::floor(length), false))
        } else {
            Err(Refusal::new("refusal-csv-steep", vec![]))
        };
    }
    if let Some(at) = course.at_x(x) {
        return Ok((libm::round(at).min(libm::floor(length)), false));
    }
    if (x - x1).abs() <= SLACK {
        Ok((libm::floor(length), true))
    } else if (x - x0).abs() <= SLACK {
        Ok((0.0, true))
    } else {
        off(
            "refusal-csv-place",
            x,
            x0.min(x1).min(bend),
            x0.max(x1).max(bend),
        )
    }
}
