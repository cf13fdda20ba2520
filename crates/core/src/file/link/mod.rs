//! A plan as a link: what stands behind `#` in an address, which no browser sends anywhere.
//!
//! A link is `plan-1.`, the plan, `.end`. What is between is what version 1 makes of the plan file's values (`v1`), deflated
//! with its check sum (zlib, RFC 1950), in base64 for addresses (RFC 4648, section 5, not padded). So it tells when it was cut
//! off or changed on its way, and what it holds is read, and refused, as a plan file is: no value comes in by a link that
//! would not come in by a file. The number is that of the form alone; the plan says its own version as in a file.

mod v1;

use super::{read_plan, write_plan};
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::said::{Arg, beginning};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec_zlib;
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_zlib_with_limit};

/// Most characters of a link; a longer plan goes as a file.
pub const MAX_CHARS: usize = 32_000;
/// Most bytes that are inflated.
const MAX_INFLATED: usize = 2 << 20;

/// What a link of any form begins with, before the form's number.
const BEGINS: &str = "plan-";
/// The form's number that is written, with what parts it from the plan.
const FORM: &str = "1.";
/// What ends a link: without it, it was cut off.
const ENDS: &str = ".end";

/// The plan as a link: what stands behind the `#`.
///
/// # Errors
/// It is longer than any link.
pub fn write_link(plan: &Plan) -> Result<String, Refusal> {
    link_to(&write_plan(plan))
}

/// The same of the text of a plan file.
///
/// # Errors
/// It is longer than any link.
pub fn link_to(text: &str) -> Result<String, Refusal> {
    let values = v1::write(text);
    within(values.len(), MAX_INFLATED, "refusal-link-size")?;
    let link = link_of(&values);
    within(link.len(), MAX_CHARS, "refusal-link-long")?;
    Ok(link)
}

/// What a link holds, as the link. Whatever these bytes are: a test damages what is behind the check sum too.
pub fn link_of(values: &[u8]) -> String {
    // The best of its ten levels: a link is made once, and short.
    let packed = compress_to_vec_zlib(values, 10);
    [BEGINS, FORM, &URL_SAFE_NO_PAD.encode(packed), ENDS].concat()
}

/// The plan that a link holds, given as such or as an address with one. Spaces and line ends within it are no part of it,
/// nor is what stands behind its end.
///
/// # Errors
/// No link, cut off, damaged, too long, of a newer form; or whatever a plan file is refused for.
pub fn read_link(text: &str) -> Result<Plan, Refusal> {
    let Some(link) = link_in(text) else {
        let args = vec![("accepted", Arg::Text([BEGINS, FORM].concat()))];
        return Err(Refusal::new("refusal-link-none", args));
    };
    let link: String = link.chars().filter(|c| !c.is_whitespace()).collect();
    let (link, ended) = match link.split_once(ENDS) {
        Some((link, _)) => (link, true),
        None => (&*link, false),
    };
    let rest = &link[BEGINS.len()..];
    let Some(packed) = rest.strip_prefix(FORM) else {
        let form = rest.split('.').next().unwrap_or_default();
        let args = vec![("value", Arg::Text(beginning(form, 20)))];
        return Err(Refusal::new("refusal-link-form", args));
    };
    within(link.len(), MAX_CHARS, "refusal-link-long")?;
    if !ended {
        return Err(Refusal::new("refusal-link-cut", vec![]));
    }
    let damaged = || Refusal::new("refusal-link-damaged", vec![]);
    let packed = URL_SAFE_NO_PAD.decode(packed).map_err(|_| damaged())?;
    let values = match decompress_to_vec_zlib_with_limit(&packed, MAX_INFLATED) {
        Ok(values) => values,
        Err(e) if e.status == TINFLStatus::HasMoreOutput => {
            return Err(too_much(
                MAX_INFLATED + 1,
                MAX_INFLATED,
                "refusal-link-size",
            ));
        }
        Err(_) => return Err(damaged()),
    };
    let text = v1::read(&values).ok_or_else(damaged)?;
    read_plan(text.as_bytes())
}

/// The link in a text that is one, or an address with one; `None` where it is neither.
pub fn link_in(text: &str) -> Option<&str> {
    let text = text.trim_start();
    let end = text.find(|c: char| c == '#' || c.is_whitespace());
    let behind = end.and_then(|at| text[at..].strip_prefix('#'));
    let link = behind.unwrap_or(text);
    link.starts_with(BEGINS).then_some(link)
}

fn within(value: usize, high: usize, key: &'static str) -> Result<(), Refusal> {
    match value <= high {
        true => Ok(()),
        false => Err(too_much(value, high, key)),
    }
}

fn too_much(value: usize, high: usize, key: &'static str) -> Refusal {
    let args = vec![
        ("value", Arg::Count(value as i64)),
        ("high", Arg::Count(high as i64)),
    ];
    Refusal::new(key, args)
}

/// What a link holds of a plan.
pub fn values_of(plan: &Plan) -> Vec<u8> {
    v1::write(&write_plan(plan))
}
