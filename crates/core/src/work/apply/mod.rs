//! Doing a piece of work: a pure step from a row to a row.

mod tree;
mod trellis;

pub(super) use tree::LEAST_KEPT;
pub use tree::apply_to_tree;
pub(crate) use tree::work_on;
pub use trellis::apply_to_trellis;

use super::{Effect, Work};
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Moment, Row, Tree, TreeId};
use crate::said::Arg;
use crate::terms::Terms;
use crate::units::Mm;
use std::sync::Arc;

/// One more tree on a row, which work plants at a place; `None` for work that plants none. As long as it is not planted
/// its place is empty.
///
/// # Errors
/// A place off the row, or stock that can't be.
pub fn one_more(row: &Row, leaf: u8, work: &Work) -> Option<Result<Tree, Refusal>> {
    let Effect::Plants {
        tree,
        foot,
        planted,
    } = work.effect()
    else {
        return None;
    };
    let bare = Tree::lost(tree, foot, planted);
    Some(refuse_place(row, tree, foot).and_then(|()| tree::whole_tree(&bare, leaf, work)))
}

/// Refuses a place for one more tree that lies off the row.
fn refuse_place(row: &Row, tree: TreeId, foot: Mm) -> Result<(), Refusal> {
    let places = row.tree_places();
    if range::has(places, foot.f()) {
        return Ok(());
    }
    Err(Refusal::new(
        "refusal-plant-place",
        vec![
            ("tree", Arg::Count(tree.0.into())),
            ("value", Arg::Length(foot.f())),
            ("low", Arg::Length(places.0)),
            ("high", Arg::Length(places.1)),
        ],
    ))
}

/// The row after the work at a moment, under the terms of the row as it is; every other tree is shared with `row`.
///
/// # Errors
/// A [`Refusal`] that names the place, the value and what is accepted.
pub fn apply(row: &Row, moment: Moment, terms: &Terms, work: &Work) -> Result<Row, Refusal> {
    let mut out = row.clone();
    let Some(id) = work.tree() else {
        out.trellis = apply_to_trellis(&row.trellis, work)?;
        return Ok(out);
    };
    let place = row.trees.iter().position(|t| t.id == id);
    if place.is_none()
        && let Some(planted) = one_more(row, moment.leaf, work)
    {
        if row.trees.len() >= Row::MAX_TREES {
            return Err(Refusal::new(
                "refusal-trees",
                vec![("high", Arg::Count(Row::MAX_TREES as i64))],
            ));
        }
        out.trees.push(Arc::new(planted?));
        out.sort();
        return Ok(out);
    }
    let place = place
        .ok_or_else(|| Refusal::new("refusal-no-tree", vec![("tree", Arg::Count(id.0.into()))]))?;
    out.trees[place] = Arc::new(apply_to_tree(&row.trees[place], moment, terms, work)?);
    Ok(out)
}
