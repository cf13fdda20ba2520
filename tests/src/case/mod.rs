//! Cases: a file states a task by its `schema`; the answer is worked out with the settings that the program uses when
//! a gesture ends, without a look at the answers that may stand in the file.

mod advice;
mod compare;
mod fao56;
mod growth;
mod light;
mod sun;

use serde_json::{Value, json};

pub use advice::Advice;
pub use compare::deviation;

/// Solves a case: `settings` and `results`, the latter with the keys, lengths and order of the case's own.
/// An unknown schema or a field that is missing or of another kind is refused with the reason.
pub fn solve(case: &Value) -> Result<Value, String> {
    let (settings, results) = match schema(case)? {
        "wall-light-case/1" => light::solve(case)?,
        "sun-case/1" => sun::solve(case)?,
        "fao56-case/1" => fao56::solve(case)?,
        "advice-leaders-case/1" | "advice-uprights-case/1" => advice::solve(case)?,
        "growth-step-case/1" => growth::solve(case)?,
        other => return Err(format!("schema \"{other}\" is none that is known here")),
    };
    Ok(json!({ "settings": settings, "results": results }))
}

/// The case's schema.
pub fn schema(case: &Value) -> Result<&str, String> {
    case["schema"]
        .as_str()
        .ok_or_else(|| "the case names no schema".to_string())
}

/// The answers that a case is compared with: its `results`, or the whole file where the figures stand among the
/// questions.
pub fn expected(case: &Value) -> &Value {
    case.get("results").unwrap_or(case)
}

/// A number of a case, or the reason why there is none.
fn number(value: &Value, key: &str) -> Result<f64, String> {
    value[key]
        .as_f64()
        .ok_or_else(|| format!("\"{key}\" is missing or no number"))
}

/// A list of a case; a missing one is empty.
fn list<'a>(value: &'a Value, key: &str) -> Result<&'a [Value], String> {
    match &value[key] {
        Value::Null => Ok(&[]),
        Value::Array(items) => Ok(items),
        _ => Err(format!("\"{key}\" is no list")),
    }
}
