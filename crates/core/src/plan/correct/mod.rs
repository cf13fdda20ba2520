//! Correcting the record: the row as found, which is no work for the crew.
//!
//! A correction changes what was measured, and nothing of what is planned. Work whose subject is gone after it
//! stays in the plan and finds nothing to do.

mod leaf;
mod like;
mod measure;
mod one_tree;

pub use measure::{Measure, Pick, Picked};

use super::Plan;
use crate::arrange::Arrange;
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Face, Planted, Pose, Row, ShootId, Tree, TreeId, Wire};
use crate::said::Arg;
use crate::said::Quantity;
use crate::units::Mm;
use std::sync::Arc;

/// One correction of the row as found. Places and lengths are whole millimetres, diameters tenths of one.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)] // Fields of one name mean one thing throughout; they are told at the variants.
pub enum Correction {
    /// A shoot's length; all its seasons' growth in proportion.
    Length {
        tree: TreeId,
        shoot: ShootId,
        to_mm: Mm,
    },
    /// The lengths of a shoot's growth in successive seasons, from its first on; what was cut off each stays as it was.
    Seasons {
        tree: TreeId,
        shoot: ShootId,
        kept_mm: Vec<Mm>,
    },
    /// A shoot's diameter at its base; 0.1 to 500 mm.
    Diameter {
        tree: TreeId,
        shoot: ShootId,
        to_dmm: i32,
    },
    /// Where on its parent a shoot begins, along the parent from its base.
    At {
        tree: TreeId,
        shoot: ShootId,
        to_mm: Mm,
    },
    /// Where the base of a shoot is along the row, off the tape; what it grows from runs along it.
    Place {
        tree: TreeId,
        shoot: ShootId,
        x_mm: Mm,
    },
    /// The leaf in which a shoot first grew; before the found one.
    Season {
        tree: TreeId,
        shoot: ShootId,
        leaf: i32,
    },
    /// The side branches of a shoot, together.
    Laterals {
        tree: TreeId,
        shoot: ShootId,
        /// As it was typed: what is no count is refused by its own value.
        count: i32,
        /// Their length together, mm.
        total: f64,
    },
    /// The face of its parent that a shoot grows from.
    Face {
        tree: TreeId,
        shoot: ShootId,
        face: Face,
    },
    /// How a shoot is held.
    Pose {
        tree: TreeId,
        shoot: ShootId,
        pose: Pose,
    },
    /// Whether a shoot's side and underside buds are rubbed out already.
    Rubbed {
        tree: TreeId,
        shoot: ShootId,
        rubbed: bool,
    },
    /// A shoot that was not recorded, at a place along its parent.
    AddShoot {
        tree: TreeId,
        parent: ShootId,
        at_mm: Mm,
        face: Face,
        pose: Pose,
        leaf: i32,
        length_mm: Mm,
        diameter_dmm: i32,
    },
    /// Take a shoot out of the record, with all that grows from it; not the stem.
    DropShoot { tree: TreeId, shoot: ShootId },
    /// Place of a tree's foot along the row.
    Foot { tree: TreeId, to_mm: Mm },
    /// How a tree was planted: 10 to 90° from the ground.
    Planted { tree: TreeId, planted: Planted },
    /// What is noted of a tree, or of one of its shoots; what is noted of the stem is of the tree.
    Note {
        tree: TreeId,
        shoot: Option<ShootId>,
        note: String,
    },
    /// Whether the tree is marked as diseased.
    Diseased { tree: TreeId, diseased: bool },
    /// The tree is dead or missing.
    Lost { tree: TreeId },
    /// The tree that is recorded as lost stands: a stem of this length and thickness, as it grew.
    Standing {
        tree: TreeId,
        length_mm: Mm,
        diameter_dmm: i32,
    },
    /// A tree that was not recorded: a bare stem.
    AddTree {
        foot_mm: Mm,
        planted: Planted,
        pose: Pose,
        length_mm: Mm,
        diameter_dmm: i32,
    },
    /// Take a tree out of the record.
    DropTree { tree: TreeId },
    /// The stretch of cordon wire that the row is to fill.
    Ends { from_mm: Mm, to_mm: Mm },
    /// Places of the posts along the row.
    Posts { at_mm: Vec<Mm> },
    /// The wires, from the cordon wire up.
    Wires { wires: Vec<Wire> },
    /// How high the wall is to be.
    WallHeight { to_mm: Mm },
    /// The leaf before whose growth the row was found; after all growth and cuts that are recorded.
    Leaf { leaf: i32 },
}

impl Correction {
    /// The tree that it is about; `None` for one that is new, and for the row as a whole.
    pub fn tree(&self) -> Option<TreeId> {
        match *self {
            Self::Length { tree, .. }
            | Self::Seasons { tree, .. }
            | Self::Diameter { tree, .. }
            | Self::At { tree, .. }
            | Self::Place { tree, .. }
            | Self::Season { tree, .. }
            | Self::Laterals { tree, .. }
            | Self::Face { tree, .. }
            | Self::Pose { tree, .. }
            | Self::Rubbed { tree, .. }
            | Self::AddShoot { tree, .. }
            | Self::DropShoot { tree, .. }
            | Self::Foot { tree, .. }
            | Self::Planted { tree, .. }
            | Self::Note { tree, .. }
            | Self::Diseased { tree, .. }
            | Self::Lost { tree }
            | Self::Standing { tree, .. }
            | Self::DropTree { tree } => Some(tree),
            Self::AddTree { .. }
            | Self::Ends { .. }
            | Self::Posts { .. }
            | Self::Wires { .. }
            | Self::WallHeight { .. }
            | Self::Leaf { .. } => None,
        }
    }
}

/// Where a corrected value stands, for its refusal.
enum Where {
    Row,
    Tree(TreeId),
    Part(crate::pose::Name),
}

/// Refuses a value outside `low..=high`. `what` names the measure's text.
fn within(
    place: Where,
    what: &'static str,
    unit: Quantity,
    value: f64,
    (low, high): (f64, f64),
) -> Result<f64, Refusal> {
    if value >= low && value <= high {
        return Ok(value);
    }
    let mut args = vec![
        ("what", Arg::key(what)),
        ("value", unit.arg(value)),
        ("low", unit.arg(low)),
        ("high", unit.arg(high)),
    ];
    let key = match place {
        Where::Row => "refusal-correct-row",
        Where::Tree(tree) => {
            args.push(("tree", Arg::Count(tree.0.into())));
            "refusal-correct-tree"
        }
        Where::Part(name) => {
            args.push(("part", Arg::from(name)));
            "refusal-correct-part"
        }
    };
    Err(Refusal::new(key, args))
}

fn place_on_row(place: Where, what: &'static str, at: Mm) -> Result<Mm, Refusal> {
    within(place, what, Quantity::Length, at.f(), range::PLACE).map(|_| at)
}

/// Least height of a wall above its cordon, mm.
const LEAST_ABOVE_CORDON: f64 = 100.0;
/// Nearest that a tree may be added to another, mm: a pair in one hole.
const TREES_APART: f64 = 50.0;

/// A place for one more tree: not far off the row, and not where one is.
fn free_place(row: &Row, foot: Mm) -> Result<Mm, Refusal> {
    let (low, high) = row.tree_places();
    let value = ("value", Arg::Length(foot.f()));
    if foot.f() < low || foot.f() > high {
        let range = [("low", Arg::Length(low)), ("high", Arg::Length(high))];
        return Err(Refusal::new(
            "refusal-tree-place",
            [value].into_iter().chain(range).collect(),
        ));
    }
    let near = |t: &&Arc<Tree>| (t.foot - foot).f().abs() < TREES_APART;
    match row.trees.iter().find(near) {
        None => Ok(foot),
        Some(near) => Err(Refusal::new(
            "refusal-tree-near",
            vec![
                value,
                ("low", Arg::Length(TREES_APART)),
                ("tree", Arg::Count(near.id.0.into())),
                ("near", Arg::Length(near.foot.f())),
            ],
        )),
    }
}

fn no_tree(tree: TreeId) -> Refusal {
    Refusal::new("refusal-no-tree", vec![("tree", Arg::Count(tree.0.into()))])
}

impl Plan {
    /// The plan with its found row corrected. All schemes' work stays as it is.
    ///
    /// # Errors
    /// A part that is not in the record; a value out of range, or one that would leave what grows from the shoot
    /// without wood to stand on.
    pub fn corrected(&self, correction: &Correction) -> Result<Plan, Refusal> {
        let mut row = (*self.found).clone();
        match correction {
            Correction::AddTree {
                foot_mm,
                planted,
                pose,
                length_mm,
                diameter_dmm,
            } => {
                if row.trees.len() >= Row::MAX_TREES {
                    return Err(Refusal::new(
                        "refusal-trees",
                        vec![("high", Arg::Count(Row::MAX_TREES as i64))],
                    ));
                }
                let id = self.next_tree();
                let foot = free_place(&row, *foot_mm)?;
                let planted = one_tree::planted(id, *planted)?;
                let mut tree = Tree::lost(id, foot, planted);
                one_tree::stand(&mut tree, row.leaf, *pose, *length_mm, *diameter_dmm)?;
                row.trees.push(Arc::new(tree));
                row.sort();
            }
            Correction::DropTree { tree } => {
                let place = place_of(&row, *tree)?;
                row.trees.remove(place);
            }
            Correction::Ends { from_mm, to_mm } => {
                let from = place_on_row(Where::Row, "measure-row-from", *from_mm)?;
                let range = (from.f(), range::PLACE.1);
                within(
                    Where::Row,
                    "measure-row-to",
                    Quantity::Length,
                    to_mm.f(),
                    range,
                )?;
                (row.from, row.to) = (from, *to_mm);
            }
            Correction::Posts { at_mm } => {
                let count = at_mm.len() as f64;
                within(
                    Where::Row,
                    "measure-post-count",
                    Quantity::Count,
                    count,
                    range::POSTS,
                )?;
                for at in at_mm {
                    place_on_row(Where::Row, "measure-post", *at)?;
                }
                row.trellis.posts = at_mm.clone();
                row.trellis.posts.arrange();
                row.trellis.posts.dedup();
            }
            Correction::Leaf { leaf } => return self.found_before(*leaf),
            Correction::Wires { wires } => row.trellis.wires = checked_wires(wires)?,
            Correction::WallHeight { to_mm } => {
                let low = row.trellis.cordon_height().f() + LEAST_ABOVE_CORDON;
                let range = (low, range::WALL_HEIGHT.1);
                let what = "measure-wall-height";
                within(Where::Row, what, Quantity::Length, to_mm.f(), range)?;
                row.trellis.wall_height = *to_mm;
            }
            about_a_tree => {
                // All others are about one tree.
                let Some(id) = about_a_tree.tree() else {
                    return Ok(self.clone());
                };
                let place = place_of(&row, id)?;
                let tree = one_tree::corrected(self, &row.trees[place], about_a_tree)?;
                row.trees[place] = Arc::new(tree);
                row.sort();
            }
        }
        Ok(Plan {
            found: Arc::new(row),
            ..self.clone()
        })
    }

    /// The number that the next tree in the record gets: one that no tree has, and nothing in the plan speaks of.
    pub fn next_tree(&self) -> TreeId {
        let found = self.found.trees.iter().map(|t| t.id.0);
        let planned = self.works().filter_map(|w| w.tree()).map(|t| t.0);
        let told = self.schemes.iter().flat_map(|s| s.field.trees());
        let counted = self.counts.iter().map(|c| c.tree);
        let spoken = told.chain(counted).map(|t| t.0);
        TreeId(free_number(found.chain(planned).chain(spoken).collect()))
    }

    /// The id that the next shoot in the record of a tree gets: one that no shoot of it has, and no work speaks of.
    pub fn next_shoot(&self, tree: TreeId) -> ShootId {
        let found = self.found.tree(tree);
        let held = found.iter().flat_map(|t| t.shoots.iter().map(|s| s.id));
        let planned = self
            .works()
            .filter(|w| w.tree() == Some(tree))
            .map(|w| w.subject().shoot);
        let numbers = held.chain(planned).chain([ShootId::STEM]);
        let found_ones = numbers.filter_map(|id| u32::try_from(id.number()).ok());
        ShootId::found(free_number(found_ones.collect()))
    }

    fn works(&self) -> impl Iterator<Item = &crate::work::Work> {
        let schemes = self.schemes.iter();
        schemes.flat_map(|scheme| scheme.schedule.all().map(|(_, work)| work))
    }
}

/// One above the highest; where there is none, the lowest that is free.
fn free_number(mut taken: Vec<u32>) -> u32 {
    taken.arrange();
    taken.dedup();
    match taken.last().copied() {
        None => 1,
        Some(u32::MAX) => (1..u32::MAX)
            .zip(taken.iter().filter(|n| **n > 0))
            .find(|(free, n)| free != *n)
            .map_or(1, |(free, _)| free),
        Some(last) => last + 1,
    }
}

fn place_of(row: &Row, tree: TreeId) -> Result<usize, Refusal> {
    row.trees
        .iter()
        .position(|t| t.id == tree)
        .ok_or_else(|| no_tree(tree))
}

/// Wires in order of height; at least one, each at a height of its own.
fn checked_wires(wires: &[Wire]) -> Result<Vec<Wire>, Refusal> {
    let count = wires.len() as f64;
    within(
        Where::Row,
        "measure-wire-count",
        Quantity::Count,
        count,
        range::WIRES,
    )?;
    let mut out = wires.to_vec();
    out.arrange_by_key(|w| w.height);
    let (mut low, high) = range::WIRE_HEIGHT;
    for wire in &out {
        let range = (low, high);
        let what = "measure-wire";
        within(Where::Row, what, Quantity::Length, wire.height.f(), range)?;
        low = wire.height.f() + 1.0;
    }
    Ok(out)
}
