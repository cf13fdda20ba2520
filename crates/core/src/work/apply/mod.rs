//! Doing a piece of work: a pure step from a row to a row.

mod tree;
mod trellis;

pub(super) use tree::LEAST_KEPT;
pub use tree::apply_to_tree;
pub use trellis::apply_to_trellis;

use super::Work;
use crate::refusal::Refusal;
use crate::row::{Moment, Row, Tree};
use crate::said::Arg;
use crate::terms::Terms;
use std::sync::Arc;

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
    if let Work::Plant {
        foot_mm, planted, ..
    } = *work
        && place.is_none()
    {
        if row.trees.len() >= Row::MAX_TREES {
            return Err(Refusal::new(
                "refusal-trees",
                vec![("high", Arg::Count(Row::MAX_TREES as i64))],
            ));
        }
        let bare = Tree::lost(id, foot_mm, planted);
        out.trees
            .push(Arc::new(apply_to_tree(&bare, moment, terms, work)?));
        out.sort();
        return Ok(out);
    }
    let place = place
        .ok_or_else(|| Refusal::new("refusal-no-tree", vec![("tree", Arg::Count(id.0.into()))]))?;
    out.trees[place] = Arc::new(apply_to_tree(&row.trees[place], moment, terms, work)?);
    Ok(out)
}
