//! Version 4 of the plan file. To version 3 it adds what is left for a year, with the reason, and which trees were filled in
//! from a sample. Its words are those of the next version, but for what came with that.

use super::misread;
use super::v5::dto::File;
use super::v5::{later_word, plan_of};
use crate::plan::Plan;
use crate::refusal::Refusal;

/// The plan in a text that says it is of version 4.
pub(super) fn read(text: &str) -> Result<Plan, Refusal> {
    let file: File = serde_json::from_str(text).map_err(|e| misread::refusal(&e, text))?;
    match later(&file) {
        Some(path) => Err(later_word(path, 4)),
        None => plan_of(file),
    }
}

/// The first place with a word that neither this version has nor one before it.
pub(super) fn later(file: &File) -> Option<String> {
    if !file.counts.is_empty() {
        return Some("counts".into());
    }
    if file.crew.is_some() {
        return Some("crew".into());
    }
    if !file.sent.is_empty() {
        return Some("sent".into());
    }
    let mut marks = file.marks.0.iter();
    if let Some(n) = marks.position(|m| m.kind.is_some() || m.on.is_some() || m.to.is_some()) {
        return Some(format!("marks[{n}]"));
    }
    let mut schemes = file.schemes.0.iter();
    if let Some(n) = schemes.position(|s| s.field.is_some()) {
        return Some(format!("schemes[{n}].field"));
    }
    let mut trees = file.found.trees.0.iter();
    let n = trees.position(|t| t.diseased)?;
    Some(format!("found.trees[{n}].diseased"))
}
