//! Version 2 of the plan file. To version 1 it adds what the record may tell of a row's past: of a season's growth when it
//! was cut, of a shoot where it came from, of what is bent the radius that it was bent with. Where a file leaves these out,
//! the record is silent. Its words are those of the next version, but for what came with that.

mod as_today;
mod from_v1;

use crate::file::misread;
use crate::file::v1::dto as v1;
use crate::file::v3;
use crate::file::v5::dto::{File, SchemeDto};
use crate::file::v5::{later_word, plan_of};
use crate::plan::Plan;
use crate::refusal::Refusal;
use as_today::as_today;

/// The plan in a text that says it is of version 1.
pub(super) fn read_v1(text: &str) -> Result<Plan, Refusal> {
    let file: v1::File = serde_json::from_str(text).map_err(|e| misread::refusal(&e, text))?;
    plan_of(as_today(file)?.into())
}

/// The plan in a text that says it is of version 2.
pub(super) fn read(text: &str) -> Result<Plan, Refusal> {
    let file: File = serde_json::from_str(text).map_err(|e| misread::refusal(&e, text))?;
    match later(&file) {
        Some(path) => Err(later_word(path, 2)),
        None => plan_of(file),
    }
}

/// The first place with a word that this version does not have.
fn later(file: &File) -> Option<String> {
    if !file.assumptions.0.is_empty() {
        return Some("assumptions".into());
    }
    if file.found.tipped.is_some() {
        return Some("found.tipped".into());
    }
    let mut trees = file.found.trees.0.iter();
    if let Some(n) = trees.position(|t| t.vigour.is_some()) {
        return Some(format!("found.trees[{n}].vigour"));
    }
    let mut schemes = file.schemes.0.iter();
    let of_a_forecast =
        |s: &SchemeDto| s.crop_from.is_some() || s.standing.is_some() || !s.planned.0.is_empty();
    let scheme = schemes.position(of_a_forecast);
    let scheme = scheme.map(|n| format!("schemes[{n}]"));
    scheme.or_else(|| v3::later(file))
}
