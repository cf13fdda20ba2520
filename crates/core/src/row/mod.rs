//! The row: trees in order along it, and the trellis they hang on.

mod bay;
mod bud;
mod ids;
mod moment;
mod returns;
mod role;
mod shoot;
mod site;
mod stretch;
mod targets;
mod tree;
mod trellis;

pub use bay::Bay;
pub use bud::notch_take;
pub use ids::{ShootId, TreeId};
pub use moment::{Moment, Phase, Window};
pub use returns::Returns;
pub use role::Role;
pub use shoot::{Face, GrowthUnit, Kind, Laterals, Origin, Pose, Shoot, Toward};
pub use site::Site;
pub(crate) use targets::refused_limit;
pub use targets::{Limit, LimitInfo, LimitUnit, Status, Targets};
pub use tree::{Planted, Tree, Vigour};
pub use trellis::{Covering, Trellis, Wire};

use crate::arrange::Arrange;
use crate::range;
use crate::units::Mm;
use std::sync::Arc;

/// One row at one moment. Trees stand in order of place, then of id.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The leaf (growing season since planting) that this moment belongs to; 1 or more.
    pub leaf: u8,
    /// Where the stretch of cordon wire that the row is to fill begins.
    pub from: Mm,
    /// Where that stretch ends; not before `from`.
    pub to: Mm,
    /// Wires, posts and height.
    pub trellis: Trellis,
    /// The trees.
    pub trees: Vec<Arc<Tree>>,
}

impl Row {
    /// Most trees in one row.
    pub const MAX_TREES: usize = 5_000;
    /// Farthest place along a row, either way.
    pub const MAX_X: Mm = Mm(range::PLACE.1 as i32);

    /// The tree of that id.
    pub fn tree(&self, id: TreeId) -> Option<&Arc<Tree>> {
        self.trees.iter().find(|t| t.id == id)
    }

    /// The tree and shoot of those ids.
    pub fn shoot(&self, tree: TreeId, shoot: ShootId) -> Option<(&Arc<Tree>, &Shoot)> {
        let tree = self.tree(tree)?;
        tree.shoot(shoot).map(|s| (tree, s))
    }

    /// Puts the trees in order of place, then of id.
    pub fn sort(&mut self) {
        self.trees.arrange_by_key(|t| (t.foot, t.id));
    }

    /// The usual distance between neighbouring trees: the median, or `None` with fewer than two.
    pub fn tree_spacing(&self) -> Option<Mm> {
        let mut gaps: Vec<Mm> = self
            .trees
            .windows(2)
            .map(|w| w[1].foot - w[0].foot)
            .collect();
        gaps.arrange();
        gaps.get(gaps.len() / 2).copied()
    }
}
