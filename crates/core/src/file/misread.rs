//! What a reader of JSON could not take, in plain words: where it stands, what stands there and what must.
//!
//! The reader's own words are a programmer's, and name no place but a line. The place is found by going through the text
//! again up to where it stopped.

use super::short;
use crate::refusal::Refusal;
use crate::said::{Arg, Said};
use serde_json::error::Category;

/// What is wrong with a JSON text, by line and column.
pub(super) fn refusal(error: &serde_json::Error, text: &str) -> Refusal {
    let all = error.to_string();
    let reason = all.rsplit_once(" at line ").map_or(&*all, |(r, _)| r);
    let as_it_is = || Arg::Text(short(reason));
    let (key, reason) = match error.classify() {
        Category::Eof => ("refusal-file-cut", as_it_is()),
        Category::Syntax | Category::Io => ("refusal-file-damaged", as_it_is()),
        Category::Data => {
            let line = text.split_inclusive('\n').take(error.line().max(1) - 1);
            let end = line.map(str::len).sum::<usize>() + error.column();
            let places = Places::up_to(text.as_bytes(), end);
            ("refusal-file-content", plainly(reason, &places).into())
        }
    };
    Refusal::new(
        key,
        vec![
            ("line", Arg::Count(error.line() as i64)),
            ("column", Arg::Count(error.column() as i64)),
            ("reason", reason),
        ],
    )
}

/// A reader's reason in plain words, with its place.
fn plainly(reason: &str, places: &Places) -> Said {
    let said = |key, path: &str, more: Vec<(&'static str, Arg)>| {
        let path = match path {
            "" => Arg::key("json-whole"),
            path => Arg::Text(short(path)),
        };
        Said::new(key, [vec![("path", path)], more].concat())
    };
    let (what, expected) = reason.split_once(", expected ").unwrap_or((reason, ""));
    let name = || ("name", Arg::short(between(what)));
    let names = || {
        let names = expected.strip_prefix("one of ").unwrap_or(expected);
        (
            "names",
            Arg::Text(names.replace("` or `", ", ").replace('`', "")),
        )
    };
    let wrong = what.strip_prefix("invalid type: ");
    if let Some(value) = wrong.or_else(|| what.strip_prefix("invalid value: ")) {
        let whole = match value {
            "map" => Some(Arg::key("json-is-group")),
            "sequence" => Some(Arg::key("json-is-list")),
            _ => None,
        };
        let path = match whole {
            Some(_) => places.here(),
            None => places.scalar.clone(),
        };
        let value = whole.unwrap_or_else(|| Arg::short(between(value)));
        let accepted = ("accepted", accepted(expected));
        return said("json-type", &path, vec![accepted, ("value", value)]);
    }
    match what.split_once(" `").map_or(what, |(kind, _)| kind) {
        "missing field" => said("json-missing", &places.object, vec![name()]),
        "duplicate field" => said("json-twice", &places.open(), vec![name()]),
        "unknown field" => said("json-unknown", &places.open(), vec![name(), names()]),
        "unknown variant" => {
            let value = ("value", name().1);
            said("json-word", &places.scalar, vec![names(), value])
        }
        _ => {
            let path = match reason.starts_with("angle ") {
                true => places.scalar.clone(),
                false if reason.starts_with("unknown work") || reason.contains("has no field") => {
                    places.object.clone()
                }
                false => places.here(),
            };
            said(
                "json-other",
                &path,
                vec![("reason", Arg::Text(short(reason)))],
            )
        }
    }
}

/// What stands between the first quotation mark of either kind and the last, or else the whole.
fn between(text: &str) -> &str {
    let from = text.find(['`', '"']);
    let to = text.rfind(['`', '"']);
    match (from, to) {
        // A text keeps its marks: "3" is no number.
        (Some(from), Some(to)) if from < to && text[from..].starts_with('"') => &text[from..=to],
        (Some(from), Some(to)) if from < to => &text[from + 1..to],
        _ => text,
    }
}

/// What a value must be, by the reader's name of it.
fn accepted(expected: &str) -> Arg {
    let between = |low: f64, high: f64| {
        let range = vec![("low", Arg::Number(low, 0)), ("high", Arg::Number(high, 0))];
        Said::new("json-whole-between", range).into()
    };
    match expected {
        "u8" => between(0.0, u8::MAX.into()),
        "u16" => between(0.0, u16::MAX.into()),
        "u32" => between(0.0, u32::MAX.into()),
        "i32" => between(i32::MIN.into(), i32::MAX.into()),
        "i64" => Arg::key("accepted-whole"),
        "u64" | "usize" => Arg::key("json-whole-from-0"),
        "f64" => Arg::key("json-number"),
        "a string" => Arg::key("json-text"),
        "a boolean" => Arg::key("json-truth"),
        "a sequence" => Arg::key("json-is-list"),
        _ if expected.starts_with("a list") => Arg::key("json-is-list"),
        "a map" | "limits by name" => Arg::key("json-is-group"),
        _ if expected.starts_with("struct ") => Arg::key("json-is-group"),
        other => Arg::Text(short(other)),
    }
}

/// A list or group that is open, and what of it is at hand.
enum Open {
    /// The item's number.
    List(usize),
    /// The item's name, and whether a name comes next.
    Group(String, bool),
}

/// Places in a JSON text where a reader stopped.
#[derive(Default)]
struct Places {
    open: Vec<Open>,
    /// Of the last number, text or word.
    scalar: String,
    /// Of the last group that was closed.
    object: String,
}

impl Places {
    fn up_to(text: &[u8], end: usize) -> Self {
        let mut out = Self::default();
        let text = &text[..end.min(text.len())];
        // A reader may have gone on to what parts the items.
        let parts = |b: &u8| b.is_ascii_whitespace() || *b == b',';
        let kept = text.iter().rposition(|b| !parts(b)).map_or(0, |n| n + 1);
        let mut rest = &text[..kept];
        while let Some((byte, tail)) = rest.split_first() {
            rest = tail;
            match byte {
                b'{' => out.open.push(Open::Group(String::new(), true)),
                b'[' => out.open.push(Open::List(0)),
                b'}' | b']' => {
                    out.open.pop();
                    if *byte == b'}' {
                        out.object = out.here();
                    }
                }
                b',' => match out.open.last_mut() {
                    Some(Open::List(n)) => *n += 1,
                    Some(Open::Group(_, comes)) => *comes = true,
                    None => {}
                },
                b'"' => {
                    let mut escaped = false;
                    let closes = |b: &u8| {
                        let closes = *b == b'"' && !escaped;
                        escaped = *b == b'\\' && !escaped;
                        closes
                    };
                    let length = rest.iter().position(closes).unwrap_or(rest.len());
                    let word = String::from_utf8_lossy(&rest[..length]).into_owned();
                    rest = rest.get(length + 1..).unwrap_or_default();
                    match out.open.last_mut() {
                        Some(Open::Group(name, comes)) if *comes => (*name, *comes) = (word, false),
                        _ => out.scalar = out.here(),
                    }
                }
                b if b.is_ascii_whitespace() || *b == b':' => {}
                _ => {
                    let ends = |b: &u8| b.is_ascii_whitespace() || b",:]}".contains(b);
                    rest = &rest[rest.iter().position(ends).unwrap_or(rest.len())..];
                    out.scalar = out.here();
                }
            }
        }
        out
    }

    /// Where the next value stands.
    fn here(&self) -> String {
        path(&self.open)
    }

    /// The list or group that is open.
    fn open(&self) -> String {
        path(self.open.split_last().map_or(&[][..], |(_, outer)| outer))
    }
}

fn path(open: &[Open]) -> String {
    let mut out = String::new();
    for step in open {
        match step {
            Open::List(n) => out += &format!("[{n}]"),
            Open::Group(name, _) if out.is_empty() => out += name,
            Open::Group(name, _) => out += &format!(".{name}"),
        }
    }
    out
}
