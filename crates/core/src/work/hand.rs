//! What a hand or a key does to one shoot: what of it can be bent, and the work that a small step is.

use super::Work;
use crate::row::{Covering, Kind, Limit, Pose, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId};
use crate::units::{Deg, Mm};

/// Farthest that a key leans an upright, degrees either way; common practice, no source.
const LEAN: f64 = 60.0;

/// Whether a shoot's tip can be taken and bent: it has grown, and is no stub.
pub fn can_bend(shoot: &Shoot) -> bool {
    shoot.pose != Pose::Stub && !shoot.units.is_empty()
}

/// Whether a shoot asks to be bent: laid wood, a shoot that hangs free, a stem that nothing grows from yet.
pub fn asks_to_bend(tree: &Tree, shoot: &Shoot) -> bool {
    matches!(shoot.kind(), Kind::Leader | Kind::Shoot)
        || (shoot.parent.is_none() && tree.shoots.len() == 1)
}

impl Work {
    /// The work that brings a shoot into a pose; `None` for a pose into which no hand can bend it.
    pub fn posing(tree: TreeId, shoot: ShootId, pose: Pose) -> Option<Self> {
        match pose {
            Pose::Laid { toward, rise } => Some(Self::Lay {
                tree,
                shoot,
                toward,
                rise_deg: rise,
            }),
            Pose::Upright { lean } => Some(Self::Stand {
                tree,
                shoot,
                lean_deg: lean,
            }),
            Pose::Stub | Pose::Free => None,
        }
    }

    /// Another wire at a height. It is stretched covered: bare wire rubs the bark, and lets canker in.
    pub fn stretching(height_mm: Mm) -> Self {
        Self::AddWire {
            height_mm,
            covering: Covering::Plastic,
        }
    }
}

/// The end of a shoot raised by so many degrees (negative: lowered), as work; a shoot that hangs free is laid. `None` where
/// it is not there or can't be bent.
pub fn raised(row: &Row, tree: TreeId, shoot: ShootId, by: f64) -> Option<Work> {
    let (_, wood) = row.shoot(tree, shoot)?;
    let pose = match wood.pose {
        Pose::Laid { toward, rise } => Pose::Laid {
            toward,
            // A step ends on the wire; from below it goes on as it did.
            rise: Deg::new(match rise.degrees() {
                now if now > 0.0 => (now + by).clamp(0.0, Pose::MAX_RISE),
                now => (now + by).clamp(Pose::MIN_RISE, Pose::MAX_RISE),
            }),
        },
        Pose::Upright { lean } => Pose::Upright {
            lean: Deg::new((lean.degrees() + by).clamp(-LEAN, LEAN)),
        },
        Pose::Free => Pose::Laid {
            toward: Toward::Right,
            rise: Deg::default(),
        },
        Pose::Stub => return None,
    };
    Work::posing(tree, shoot, pose)
}

/// A shoot cut to a stub of the length in force, as work; `None` for what is no upright.
pub fn stubbed(row: &Row, targets: &Targets, tree: TreeId, shoot: ShootId) -> Option<Work> {
    let (_, wood) = row.shoot(tree, shoot)?;
    (wood.kind() == Kind::Upright).then(|| Work::Stub {
        tree,
        shoot,
        keep_mm: Mm::round(targets.get(Limit::StubLength)),
    })
}

/// Where a kept bud would be a little farther along its parent (`by` in mm; negative is back toward the base), as work.
/// `None` where the shoot is no bud.
pub fn nudged(row: &Row, tree: TreeId, shoot: ShootId, by: i32) -> Option<Work> {
    let (_, bud) = row.shoot(tree, shoot)?;
    (bud.kind() == Kind::Bud).then(|| Work::MoveBud {
        tree,
        shoot,
        at_mm: Mm::round(bud.at) + Mm(by),
    })
}

/// A bud brought on so far along laid wood in `leaf`, as work: what older wood is notched for, last season's has.
pub fn budded(tree: TreeId, wood: &Shoot, at_mm: Mm, leaf: u8) -> Work {
    let shoot = wood.id;
    match wood.bud_wood(at_mm.f(), leaf, 0.0) {
        Some(2..) => Work::Notch { tree, shoot, at_mm },
        _ => Work::KeepBud { tree, shoot, at_mm },
    }
}
