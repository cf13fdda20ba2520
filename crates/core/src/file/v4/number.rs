//! A number of a plan file in its range, or refused by its place.

use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::said::Arg;

pub fn out_of_range(path: String, value: f64, low: f64, high: f64) -> Refusal {
    let places = |v: f64| if libm::trunc(v) == v { 0 } else { 3 };
    let number = |v: f64| Arg::Number(v, places(v));
    Refusal::new(
        "refusal-file-value",
        vec![
            ("path", Arg::Text(path)),
            ("value", number(value)),
            ("low", number(low)),
            ("high", number(high)),
        ],
    )
}

pub fn within(value: f64, range: Range, path: &dyn Fn() -> String) -> Result<f64, Refusal> {
    match range::has(range, value) {
        true => Ok(value),
        false => Err(out_of_range(path(), value, range.0, range.1)),
    }
}

pub fn number(value: i64, range: Range, path: &dyn Fn() -> String) -> Result<i64, Refusal> {
    within(value as f64, range, path).map(|_| value)
}
