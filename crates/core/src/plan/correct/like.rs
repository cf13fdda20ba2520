//! What is added to the record begins as its like on the row is, and is then measured.

use super::Correction;
use crate::arrange::middle_of;
use crate::plan::Plan;
use crate::row::{Face, Kind, Planted, Pose, Row, Shoot, ShootId, Toward, Tree, TreeId};
use crate::units::{Deg, Mm};
use crate::usual;

/// Length of an upright on a row that has no other, mm: a year's usual growth.
const UPRIGHT: f64 = 600.0;

fn dmm(mm: f64) -> i32 {
    libm::round(mm * 10.0).max(1.0) as i32
}

impl Row {
    /// Length and diameter of the usual stem, mm: the middle of those that stand; unheaded stock as its place
    /// asks for where none does.
    pub fn usual_stem(&self) -> (f64, f64) {
        let stems = || self.trees.iter().filter_map(|t| t.shoots.first());
        let length = middle_of(stems().map(Shoot::length).collect());
        let diameter = middle_of(stems().map(|s| s.diameter).filter(|d| *d > 0.0).collect());
        let length = length
            .filter(|l| *l >= 1.0)
            .unwrap_or_else(|| usual::stock(self, Deg::new(usual::ANGLE)));
        let diameter = diameter.unwrap_or_else(|| usual::diameter(length));
        (libm::round(length), diameter)
    }

    /// Length and diameter of the usual upright, mm.
    fn usual_upright(&self) -> (f64, f64) {
        let uprights = || {
            let all = self.trees.iter().flat_map(|t| &t.shoots);
            all.filter(|s| s.kind() == Kind::Upright)
        };
        let length = middle_of(uprights().map(Shoot::length).collect());
        let diameter = middle_of(
            uprights()
                .map(|s| s.diameter)
                .filter(|d| *d > 0.0)
                .collect(),
        );
        let length = length.filter(|l| *l >= 1.0).unwrap_or(UPRIGHT);
        let diameter = diameter.unwrap_or_else(|| usual::diameter(length));
        (libm::round(length), diameter)
    }

    fn nearest_standing(&self, x: f64) -> Option<&Tree> {
        let standing = self.trees.iter().filter(|t| !t.is_lost());
        standing
            .min_by(|a, b| (a.foot.f() - x).abs().total_cmp(&(b.foot.f() - x).abs()))
            .map(|t| &**t)
    }
}

impl Plan {
    /// A tree at `x` along the row, planted and held as the nearest one is and as long as is usual.
    pub fn tree_like_others(&self, x: f64) -> Correction {
        let (length, diameter) = self.found.usual_stem();
        let like = self.found.nearest_standing(x);
        Correction::AddTree {
            foot_mm: Mm::round(x),
            planted: like.map_or(
                Planted {
                    angle: Deg::new(usual::ANGLE),
                    toward: Toward::Right,
                },
                |t| t.planted,
            ),
            pose: like
                .and_then(|t| t.shoots.first())
                .map_or(Pose::Free, |s| match s.pose {
                    Pose::Laid { toward, .. } => Pose::Laid {
                        toward,
                        rise: Deg::default(),
                    },
                    _ => Pose::Free,
                }),
            length_mm: Mm::round(length),
            diameter_dmm: dmm(diameter),
        }
    }

    /// The lost tree stands: a stem as long and thick as is usual.
    pub fn standing_like_others(&self, tree: TreeId) -> Correction {
        let (length, diameter) = self.found.usual_stem();
        Correction::Standing {
            tree,
            length_mm: Mm::round(length),
            diameter_dmm: dmm(diameter),
        }
    }

    /// An upright of last season so far along a shoot, as long and thick as is usual.
    pub fn upright_like_others(&self, tree: TreeId, parent: ShootId, at: f64) -> Correction {
        let (length, diameter) = self.found.usual_upright();
        Correction::AddShoot {
            tree,
            parent,
            at_mm: Mm::round(at),
            face: Face::Top,
            pose: Pose::Upright {
                lean: Deg::default(),
            },
            leaf: i32::from(self.found.leaf) - 1,
            length_mm: Mm::round(length),
            diameter_dmm: dmm(diameter),
        }
    }
}
