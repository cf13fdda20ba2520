//! File formats: plans as versioned JSON, measured rows as CSV. Nothing else knows either.
//!
//! A plan file says its format and version first. Every version ever written stays readable: it has its reader
//! in a table without a gap. What can't be read is refused with the place, the value and what would be accepted.
//!
//! Each version has its own words (`v1`, `v5`; those of versions 2 to 4 are those of 5 but for what came later), which never change once it has been written by anybody: a new one takes
//! over the words that stay, has its own of what changes, and says how the words of the version before become its own
//! (`v2/from_v1`). So a file of any version is read by way of all versions after it, and only the newest knows the model.
//! Stored samples of every version (`tests/data/versions`) are read by the tests for ever.
//! A version keeps the ranges that it was written under (`v1/limits`, `v1/ranges`): what the model no longer holds is
//! brought as near as it can come, or refused with its place (`v2/as_today` tells which).
//!
//! - *1*: rows with their trees, shoots, wires and posts, schemes of work, limits, marks.
//! - *2*: when a season's growth was cut, where a shoot came from, the radius that it was bent with, what was
//!   noted of it; notches.
//! - *3*: values of the model, the vigour of trees, whether found wood was tipped; from which leaf a scheme lets bear, the rules
//!   of its standing windows, and windows that are planned and empty.
//! - *4*: what is left for a year, and which trees were filled in from a sample.
//! - *5*: what is told from the row (trees that are diseased; what of a scheme's work is done, left, noted, looked at again; counts of
//!   buds), the crew's rates and people; arrows, distances and stretches among the marks, what marks ride along with, and which copies were
//!   sent.

#[macro_use]
mod same;

mod archive;
pub mod csv;
mod foreign;
mod json;
pub mod link;
mod misread;
mod text;
mod v1;
mod v2;
mod v3;
mod v4;
mod v5;
mod walk;

pub use archive::{MAX_PLANS, is_archive, name_in, read_archive, write_archive};
pub use walk::{read_walk, write_walk};

use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::said::{Arg, beginning};
use crate::work::Work;
use serde::Deserialize;
use serde_json::Value;
use text::Text;

/// Largest file that is read.
pub const MAX_BYTES: usize = 32 << 20;
/// What a plan file says that it is.
pub const FORMAT: &str = "cordonry-plan";

/// Reads the text of a file of one version.
type Reader = fn(&str) -> Result<Plan, Refusal>;

/// What reads each version, the first version first.
const READERS: &[Reader] = &[v2::read_v1, v2::read, v3::read, v4::read, v5::read];

/// The version that is written: the newest that can be read.
pub const VERSION: u32 = READERS.len() as u32;

/// A file's first words, which every version shares.
#[derive(Deserialize)]
struct Header {
    #[serde(default)]
    format: Value,
    #[serde(default)]
    version: Value,
}

/// Reads a plan file of any version up to [`VERSION`].
///
/// # Errors
/// Too large, cut, damaged, of another format or too new; a value out of its range, named by its place.
pub fn read_plan(bytes: &[u8]) -> Result<Plan, Refusal> {
    let text = Text::read(bytes, foreign::PLAN)?.text;
    let text = &*text;
    match foreign::marked_up(text) {
        Some(foreign::PLAN) => {}
        Some(kind) => return Err(foreign::refusal(foreign::PLAN, kind)),
        None if csv::has_columns(text) => {
            return Err(foreign::refusal(foreign::PLAN, foreign::TABLE));
        }
        None => {}
    }
    let header: Header = serde_json::from_str(text).map_err(|e| misread::refusal(&e, text))?;
    if header.format.as_str() != Some(FORMAT) {
        return Err(Refusal::new(
            "refusal-file-format",
            vec![
                ("value", shown(&header.format)),
                ("accepted", Arg::Text(FORMAT.into())),
            ],
        ));
    }
    let too_new = header
        .version
        .as_f64()
        .is_some_and(|v| v > f64::from(VERSION));
    let reader = header
        .version
        .as_u64()
        .and_then(|v| READERS.get(usize::try_from(v.checked_sub(1)?).ok()?));
    match reader {
        Some(read) => read(text),
        None => Err(Refusal::new(
            if too_new {
                "refusal-file-too-new"
            } else {
                "refusal-file-version"
            },
            vec![
                // A text keeps its quotation marks: "3" is no number.
                ("value", Arg::short(&header.version.to_string())),
                ("text", Arg::yes(header.version.is_string())),
                ("high", Arg::Count(VERSION.into())),
            ],
        )),
    }
}

/// What a plan is known by: the same for the same plan, whichever copies of it were sent. It keeps nobody from making another
/// plan with the same one (Fowler, Noll and Vo's 64-bit sum over the plan's file).
pub fn fingerprint(plan: &Plan) -> u64 {
    let mut file = v5::write(plan);
    file.sent.0.clear();
    sum_of(&json::lay_out(&file))
}

fn sum_of(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |sum, byte| {
        (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// The copy of a plan that is sent, and its file: it knows its own fingerprint, and so does what comes back.
pub fn sent_copy(plan: &Plan) -> (Plan, String) {
    let mut file = v5::write(plan);
    file.sent.0.clear();
    let own = sum_of(&json::lay_out(&file));
    let mut copy = plan.clone();
    copy.sent.retain(|f| *f != own);
    copy.sent.push(own);
    let most = copy.sent.len().saturating_sub(Plan::MAX_SENT);
    copy.sent.drain(..most);
    file.sent = v5::sent(&copy);
    (copy, json::lay_out(&file))
}

/// Whether a file begins as a plan does; what doesn't may be a table.
pub fn is_plan(bytes: &[u8]) -> bool {
    // What can't be read as text is no plan; it is refused by name where it is read as a table.
    Text::read(bytes, foreign::PLAN)
        .is_ok_and(|t| foreign::marked_up(&t.text) == Some(foreign::PLAN))
}

/// A plan as a file of version [`VERSION`]: keys in a fixed order, a line end at the end. Reading it and writing
/// it again gives the same bytes.
pub fn write_plan(plan: &Plan) -> String {
    json::lay_out(&v5::write(plan))
}

/// A piece of work as it stands in a plan file of version [`VERSION`].
pub fn work_value(work: &Work) -> Value {
    // A list of named numbers and words: there is nothing to fail.
    serde_json::to_value(v1::Work::from(work.clone())).unwrap_or_default()
}

/// A value from a file as it is shown in a refusal: cut short, for it may be anything.
fn shown(value: &Value) -> Arg {
    match value {
        Value::Null => Arg::Text("nothing".into()),
        Value::String(text) => Arg::short(text),
        other => Arg::short(&other.to_string()),
    }
}

/// The refusal of a file of more bytes than are read.
pub fn too_large(bytes: u64) -> Refusal {
    // Rounded up: what is a little too large is not told to be as large as may be.
    let tenths = libm::ceil(bytes as f64 / 1048576.0 * 10.0);
    Refusal::new(
        "refusal-file-size",
        vec![
            ("value", Arg::Number(tenths / 10.0, 1)),
            ("high", Arg::Count((MAX_BYTES >> 20) as i64)),
        ],
    )
}

/// A line from a file, or what stands in one, as it is shown beside what is said of it.
fn short(text: &str) -> String {
    beginning(text, 120)
}
