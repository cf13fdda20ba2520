//! Version 3 of the plan file. To version 2 it adds what a forecast goes by: values of the model that are not the usual ones, the
//! vigour of trees that grow unlike their row, whether found wood was tipped; and of a scheme from which leaf it lets bear, the
//! rules of its standing windows, and which windows are planned though nothing is done in them. Its words are those of the
//! next version, but for what came with that.

use super::misread;
use super::v4;
use super::v5::dto::File;
use super::v5::{later_word, plan_of};
use crate::plan::Plan;
use crate::refusal::Refusal;

/// The plan in a text that says it is of version 3.
pub(super) fn read(text: &str) -> Result<Plan, Refusal> {
    let file: File = serde_json::from_str(text).map_err(|e| misread::refusal(&e, text))?;
    match later(&file) {
        Some(path) => Err(later_word(path, 3)),
        None => plan_of(file),
    }
}

/// The first place with a word that neither this version has nor one before it.
pub(super) fn later(file: &File) -> Option<String> {
    if !file.left.is_empty() {
        return Some("left".into());
    }
    let mut trees = file.found.trees.0.iter();
    match trees.position(|t| t.like.is_some()) {
        Some(n) => Some(format!("found.trees[{n}].like")),
        None => v4::later(file),
    }
}
