//! A half-finished walk as text, so that it outlives the page.

use crate::refusal::Refusal;
use crate::said::Arg;
use crate::walk::{Answer, Walk, WalkSetup};
use serde::{Deserialize, Serialize};

const FORMAT: &str = "cordonry-walk";
/// The first version, and the one in which heights and side branches may be asked for.
const VERSIONS: [u32; 2] = [1, 2];

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    format: String,
    version: u32,
    setup: WalkSetup,
    answers: Vec<Answer>,
}

/// The first version that can say what a walk asks for: what an older program can go on with it is to find.
fn version_of(setup: &WalkSetup) -> u32 {
    VERSIONS[usize::from(setup.heights || setup.laterals)]
}

/// A walk as text.
pub fn write_walk(walk: &Walk) -> String {
    let file = File {
        format: FORMAT.into(),
        version: version_of(walk.setup()),
        setup: walk.setup().clone(),
        answers: walk.answers().to_vec(),
    };
    serde_json::to_string(&file).unwrap_or_default()
}

/// Reads a walk. Answers from the first that is not accepted on are left out.
///
/// # Errors
/// No walk of this version, or a setup that is not accepted.
pub fn read_walk(text: &str) -> Result<Walk, Refusal> {
    let file: File = serde_json::from_str(text).map_err(|e| super::misread::refusal(&e, text))?;
    if file.format != FORMAT || !VERSIONS.contains(&file.version) {
        return Err(Refusal::new(
            "refusal-file-format",
            vec![
                ("value", Arg::short(&file.format)),
                ("accepted", Arg::Text(FORMAT.into())),
            ],
        ));
    }
    let mut walk = Walk::new(file.setup)?;
    for answer in file.answers {
        if walk.answer(answer).is_err() {
            break;
        }
    }
    Ok(walk)
}
