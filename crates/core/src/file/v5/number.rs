//! A number, name or text of a plan file in its range, or refused by its place.

use crate::plan::Plan;
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row::ShootId;
use crate::said::{Arg, Said};
use crate::units::Mm;
use std::fmt;

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

pub fn whole(value: i64, range: Range, path: &dyn Fn() -> String) -> Result<Mm, Refusal> {
    let value = number(value, range, path)?;
    Ok(Mm(i32::try_from(value).unwrap_or(0)))
}

pub fn leaf(value: i64, low: u8, high: u8, path: &dyn Fn() -> String) -> Result<u8, Refusal> {
    let value = number(value, (low.into(), high.into()), path)?;
    Ok(u8::try_from(value).unwrap_or(0))
}

/// A text of at most so many characters.
pub fn text_of(text: String, most: usize, path: &dyn Fn() -> String) -> Result<String, Refusal> {
    // A text is counted only where it could be too long.
    if text.len() > most && text.chars().count() > most {
        return Err(Refusal::new(
            "refusal-file-long-text",
            vec![
                ("path", Arg::Text(path())),
                ("value", Arg::Count(text.chars().count() as i64)),
                ("high", Arg::Count(most as i64)),
            ],
        ));
    }
    Ok(text)
}

/// A name, note or mark.
pub fn words(text: String, path: &dyn Fn() -> String) -> Result<String, Refusal> {
    text_of(text, Plan::MAX_TEXT, path)
}

pub fn id_of(number: u64, path: &dyn Fn() -> String) -> Result<ShootId, Refusal> {
    ShootId::from_number(number)
        .ok_or_else(&|| out_of_range(path(), number as f64, 0.0, f64::from(u32::MAX)))
}

pub fn twice(path: String, value: impl fmt::Display) -> Refusal {
    Refusal::new(
        "refusal-file-twice",
        vec![
            ("path", Arg::Text(path)),
            ("value", Arg::Text(value.to_string())),
        ],
    )
}

pub fn rule(path: String, rule: &'static str) -> Refusal {
    breaks(path, Said::plain(rule))
}

/// A word that came with a later version than the file says.
pub fn later_word(path: String, version: i64) -> Refusal {
    let args = vec![("version", Arg::Count(version))];
    breaks(path, Said::new("rule-later-word", args))
}

pub fn breaks(path: String, rule: Said) -> Refusal {
    Refusal::new(
        "refusal-file-rule",
        vec![("path", Arg::Text(path)), ("rule", rule.into())],
    )
}
