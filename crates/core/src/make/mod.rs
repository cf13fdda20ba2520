//! Rows that are made, not measured: a plausible one from a few figures, an empty one, and one more tree.

mod empty;
pub(crate) mod field;
mod seed;
mod sketch;
pub(crate) mod usual;
pub(crate) mod wood;

pub use empty::EmptyRow;
pub use field::Field;
pub use sketch::{Leaders, RowSketch};

use crate::pose::stock_length;
use crate::refusal::Refusal;
use crate::row::{GrowthUnit, Limit, Planted, Pose, Row, Targets, Toward, Tree, TreeId};
use crate::units::{Deg, LengthStyle, Mm};
use crate::words::Arg;

/// A short form: fields that are written and read as people write them.
pub trait Form: Clone + PartialEq {
    /// Its fields, in the order in which they are asked for and set.
    const FIELDS: &'static [Field];

    /// What it holds before anybody has written in it, in round figures of the style.
    fn usual(style: LengthStyle) -> Self;

    /// A field's value as it is written.
    fn shown(&self, field: Field, style: LengthStyle) -> String;

    /// Takes a field as it was written.
    ///
    /// # Errors
    /// What can't be read or accepted: the field, the value and the accepted range. The form is as it was.
    fn set(&mut self, field: Field, text: &str, style: LengthStyle) -> Result<(), Refusal>;

    /// Whether a field is asked for, as the form is filled in so far.
    fn asks(&self, _field: Field) -> bool {
        true
    }
}

/// Planting angle of a tree of which nothing is known.
const USUAL_ANGLE: f64 = 45.0;
/// Distance to the next tree, mm, where there is none.
const USUAL_SPACING: f64 = 1500.0;

/// A new found tree with its foot at `x`: with the wood of `like`, or else of its nearest living neighbour; in a row
/// without any, unheaded stock as long as its place asks, not yet laid. It has the next free number and no note.
/// `x` is held to the row's reach. The row is left as it is.
pub fn tree_at(row: &Row, x: Mm, like: Option<&Tree>) -> Tree {
    let foot = x.clamp(-Row::MAX_X, Row::MAX_X);
    let id = TreeId(
        row.trees
            .iter()
            .map(|t| t.id.0)
            .max()
            .map_or(1, |last| last.saturating_add(1)),
    );
    let living = like.filter(|t| !t.is_lost()).or_else(|| {
        row.trees
            .iter()
            .filter(|t| !t.is_lost())
            .min_by_key(|t| (t.foot.0.abs_diff(foot.0), t.id))
            .map(AsRef::as_ref)
    });
    if let Some(like) = living {
        return Tree {
            id,
            foot,
            note: String::new(),
            ..like.clone()
        };
    }
    let planted = like
        .or_else(|| row.trees.first().map(AsRef::as_ref))
        .map_or(
            Planted {
                angle: Deg::new(USUAL_ANGLE),
                toward: Toward::Right,
            },
            |t| t.planted,
        );
    let spacing = row
        .tree_spacing()
        .map(Mm::f)
        .filter(|s| *s > 0.0)
        .unwrap_or(USUAL_SPACING);
    let wire = row.trellis.cordon_height().f();
    let bearing = Targets::default().get(Limit::BearingHeight).min(wire);
    let length = libm::ceil(stock_length(
        wire,
        planted.angle.radians().max(0.17),
        spacing,
        bearing,
    ));
    Tree {
        id,
        foot,
        planted,
        shoots: vec![wood::shoot(
            0,
            None,
            Pose::Free,
            vec![GrowthUnit {
                leaf: 0,
                grown: length,
                kept: length,
            }],
            usual::diameter(length),
        )],
        note: String::new(),
    }
}

/// How far beyond the stretch that is to be filled a tree may stand, mm.
const BEYOND: f64 = 6000.0;
/// Nearest that two trees may stand, mm: a pair in one hole.
const TREES_APART: f64 = 50.0;

/// The row with one more found tree, as [`tree_at`] makes it, and that tree's number.
///
/// # Errors
/// A place too far from the row or too near to another tree; a row that is full.
pub fn with_tree_at(row: &Row, x: Mm) -> Result<(Row, TreeId), Refusal> {
    if row.trees.len() >= Row::MAX_TREES {
        return Err(Refusal::new(
            "refusal-trees",
            vec![("high", Arg::Count(Row::MAX_TREES as i64))],
        ));
    }
    let max = Row::MAX_X.f();
    let low = (row.from.f() - BEYOND).max(-max);
    let high = (row.to.f() + BEYOND).min(max);
    if x.f() < low || x.f() > high {
        return Err(Refusal::new(
            "refusal-tree-place",
            vec![
                ("value", Arg::Length(x.f())),
                ("low", Arg::Length(low)),
                ("high", Arg::Length(high)),
            ],
        ));
    }
    let near = |t: &&std::sync::Arc<Tree>| (t.foot - x).f().abs() < TREES_APART;
    if let Some(near) = row.trees.iter().find(near) {
        return Err(Refusal::new(
            "refusal-tree-near",
            vec![
                ("value", Arg::Length(x.f())),
                ("low", Arg::Length(TREES_APART)),
                ("tree", Arg::Count(near.id.0.into())),
                ("near", Arg::Length(near.foot.f())),
            ],
        ));
    }
    let tree = tree_at(row, x, None);
    let id = tree.id;
    let mut out = row.clone();
    out.trees.push(tree.into());
    out.sort();
    Ok((out, id))
}
