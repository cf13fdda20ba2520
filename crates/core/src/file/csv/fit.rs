//! How what a line says fits on a tree: its place on the parent, its pose, its thickness.

use super::lines::Says;
use super::pieces::{Held, Place, PoseCell, in_range, kind_name};
use crate::pose::Course;
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Kind, Pose, Toward};
use crate::said::Arg;
use crate::units::{Deg, Mm};

/// How far beyond its parent's ends a place may be read, mm: a tape sags, and neither it nor the wood is straight. It is taken
/// to the end and said.
const SLACK: f64 = 100.0;
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

/// Where on its parent a shoot's base is.
pub(super) struct At {
    /// From the parent's base, in whole mm.
    pub at: f64,
    /// Past which of the parent's ends its place was read, and how far, mm: it was taken to that end.
    pub off: Option<(&'static str, f64)>,
}

impl At {
    /// Whether that place was read, and no other taken to it.
    pub(super) fn is_at(&self, at: f64) -> bool {
        self.off.is_none() && self.at == libm::round(at)
    }
}

/// Where on its parent a shoot's base is.
pub(super) fn at(course: &Course, kind: Kind, place: Option<Place>) -> Result<At, Refusal> {
    let length = course.length;
    let end = libm::floor(length);
    let on = |at: f64| At {
        at: libm::round(at).min(end),
        off: None,
    };
    let beyond = |off| At {
        at: end,
        off: Some(("beyond", off)),
    };
    let before = |off| At {
        at: 0.0,
        off: Some(("before", off)),
    };
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
    // A place in inches is no whole number of mm.
    let place = place.map(|place| match place {
        Place::Along(d) => Place::Along(libm::round(d)),
        place => place,
    });
    let x = match place {
        None if kind == Kind::Leader => return Ok(on(length)),
        None => return Err(no_place()),
        Some(Place::Along(d)) if d > length && d <= length + SLACK => {
            return Ok(beyond(d - length));
        }
        Some(Place::Along(d)) if (0.0..=length).contains(&d) => return Ok(on(d)),
        Some(Place::Along(d)) => return off("refusal-csv-along", d, 0.0, length),
        Some(Place::Row(x)) => x,
    };
    let steep = (x1 - x0).abs() < STEEP && (bend - x0).abs() < STEEP;
    if steep && (x - x1).abs() <= STEM_SLACK {
        // It says nothing of the height: a leader begins where its stem ends.
        return if kind == Kind::Leader {
            Ok(on(length))
        } else {
            Err(Refusal::new("refusal-csv-steep", vec![]))
        };
    }
    if let Some(at) = course.at_x(x) {
        return Ok(on(at));
    }
    if (x - x1).abs() <= SLACK {
        Ok(beyond((x - x1).abs()))
    } else if (x - x0).abs() <= SLACK {
        Ok(before((x - x0).abs()))
    } else {
        off(
            "refusal-csv-place",
            x,
            x0.min(x1).min(bend),
            x0.max(x1).max(bend),
        )
    }
}
