//! Version 1 of what a link holds: the values of a plan file one after the other, each a [`Token`] in postcard's form, words that plans
//! have by their place in [`WORDS`]. Nothing here may change once a link has been made by anybody: what a plan file has new
//! goes as text.
//!
//! It is read back into the text of a plan file, token by token, without a value in memory that could nest.

use serde::{Deserialize, Serialize};
use serde_json::Value;

/// A value, or the beginning of a list or group of so many.
#[derive(Serialize, Deserialize)]
enum Token<'a> {
    Nothing,
    No,
    Yes,
    Whole(i64),
    /// A number over so many places of ten.
    Part(i64, u8),
    Word(u16),
    Text(&'a str),
    List(u32),
    /// Each of its values stands behind its name.
    Group(u32),
}

/// Most decimal places of a number: those of the plan file.
const PLACES: u8 = 6;
/// Deepest nesting; a plan has eight.
const DEEPEST: usize = 16;

/// The values of a plan file's text.
pub(super) fn write(text: &str) -> Vec<u8> {
    let mut out = Vec::new();
    // What has just been written as a plan is JSON.
    let value: Value = serde_json::from_str(text).unwrap_or_default();
    put(&value, &mut out);
    out
}

fn put(value: &Value, out: &mut Vec<u8>) {
    match value {
        Value::Null => push(&Token::Nothing, out),
        Value::Bool(false) => push(&Token::No, out),
        Value::Bool(true) => push(&Token::Yes, out),
        Value::Number(n) => push(&number(n), out),
        Value::String(text) => push(&word(text), out),
        Value::Array(list) => {
            push(&Token::List(list.len() as u32), out);
            list.iter().for_each(|v| put(v, out));
        }
        Value::Object(group) => {
            push(&Token::Group(group.len() as u32), out);
            for (name, v) in group {
                push(&word(name), out);
                put(v, out);
            }
        }
    }
}

fn push(token: &Token<'_>, out: &mut Vec<u8>) {
    // It is written into memory: there is nothing to fail.
    let bytes = postcard::to_allocvec(token).unwrap_or_default();
    out.extend_from_slice(&bytes);
}

fn word(text: &str) -> Token<'_> {
    let place = WORDS.iter().position(|w| *w == text);
    place.map_or(Token::Text(text), |place| Token::Word(place as u16))
}

fn number(n: &serde_json::Number) -> Token<'static> {
    if let Some(whole) = n.as_i64() {
        return Token::Whole(whole);
    }
    let value = n.as_f64().unwrap_or_default();
    let tens = |places: u8| libm::pow(10.0, places.into());
    let exact = |places: &u8| libm::round(value * tens(*places)) / tens(*places) == value;
    let places = (0..PLACES).find(exact).unwrap_or(PLACES);
    Token::Part(libm::round(value * tens(places)) as i64, places)
}

/// A list or group that is open.
struct Open {
    /// How many values are still to come.
    left: u32,
    group: bool,
    first: bool,
    /// Whether the next token is a name.
    names: bool,
}

/// The text of a plan file; `None` where these are no values of this version.
pub(super) fn read(mut bytes: &[u8]) -> Option<String> {
    let mut out = String::new();
    let mut open: Vec<Open> = Vec::new();
    loop {
        let (token, rest) = postcard::take_from_bytes::<Token<'_>>(bytes).ok()?;
        bytes = rest;
        if let Some(within) = open.last_mut() {
            if !within.first && (within.names || !within.group) {
                out.push(',');
            }
            within.first = false;
            if within.names {
                out.push_str(&quoted(text(&token)?));
                out.push(':');
                within.names = false;
                continue;
            }
        }
        match token {
            Token::Nothing => out.push_str("null"),
            Token::No => out.push_str("false"),
            Token::Yes => out.push_str("true"),
            Token::Whole(whole) => out.push_str(&whole.to_string()),
            Token::Part(value, places) if places <= PLACES => {
                let value = value as f64 / libm::pow(10.0, places.into());
                out.push_str(&value.to_string());
            }
            Token::Part(..) => return None,
            Token::Word(_) | Token::Text(_) => out.push_str(&quoted(text(&token)?)),
            Token::List(left) | Token::Group(left) => {
                let group = matches!(token, Token::Group(_));
                out.push(if group { '{' } else { '[' });
                open.push(Open {
                    left,
                    group,
                    first: true,
                    names: group,
                });
                if open.len() > DEEPEST {
                    return None;
                }
                if left > 0 {
                    continue;
                }
            }
        }
        // A value has ended, and with it what it was the last of.
        loop {
            let Some(within) = open.last_mut() else {
                return bytes.is_empty().then_some(out);
            };
            within.left = within.left.saturating_sub(1);
            within.names = within.group;
            if within.left > 0 {
                break;
            }
            out.push(if within.group { '}' } else { ']' });
            open.pop();
        }
    }
}

fn text<'a>(token: &Token<'a>) -> Option<&'a str> {
    match token {
        Token::Text(text) => Some(text),
        Token::Word(place) => WORDS.get(usize::from(*place)).copied(),
        _ => None,
    }
}

fn quoted(text: &str) -> String {
    serde_json::to_string(text).unwrap_or_default()
}

/// What plans say again and again. A word's place is its number in every link that there is: the list never changes, not at
/// its end either, for whoever reads an old version of it would find no word there.
const WORDS: &[&str] = &[
    "leaf",
    "grown_mm",
    "id",
    "pose",
    "diameter_dmm",
    "units",
    "at_mm",
    "parent",
    "upright",
    "lean_deg",
    "toward",
    "right",
    "left",
    "tree",
    "do",
    "shoot",
    "planted",
    "angle_deg",
    "foot_mm",
    "shoots",
    "height_mm",
    "free",
    "rise_deg",
    "laid",
    "keep_mm",
    "name",
    "laterals",
    "count",
    "total_mm",
    "face",
    "stub",
    "tip",
    "percent",
    "window",
    "standing",
    "under",
    "side",
    "top",
    "note",
    "found",
    "from_mm",
    "to_mm",
    "format",
    "cordonry-plan",
    "version",
    "site",
    "latitude_deg",
    "longitude_deg",
    "row_bearing_deg",
    "row_spacing_mm",
    "trellis",
    "wires",
    "wall_height_mm",
    "trees",
    "schemes",
    "rubbed",
    "dormant",
    "bud_swell",
    "early_summer",
    "after_harvest",
    "take_laterals",
    "cut_back",
    "posts_mm",
    "seasons",
    "lay",
    "buds_from",
    "x_mm",
    "z_mm",
    "covering",
    "plastic",
    "bare",
    "origin",
    "kept_bud",
    "notch",
    "return",
    "end_growth",
    "cut_back_bud",
    "wild_bud",
    "work",
    "text",
    "remove",
    "buds",
    "reason",
    "renew_from",
    "renew_share",
    "bend_radius_dmm",
    "kept_mm",
    "cut",
    "is",
    "cause",
    "rule",
    "marks",
    "crop_from",
    "keep_bud",
    "length_mm",
    "parts",
    "measured",
    "tipped",
    "targets",
    "assumptions",
    "vigour",
    "weak",
    "medium",
    "strong",
    "like",
    "diseased",
    "rub_out",
    "stand",
    "move_bud",
    "cut_to_buds",
    "plant",
    "replace_tree",
    "remove_tree",
    "add_wire",
    "move_wire",
    "remove_wire",
    "cover_wire",
    "thin",
    "keep",
    "hold_height",
    "field",
    "done",
    "skipped",
    "seen",
    "missed",
    "wrong",
    "extra",
    "job",
    "cuts",
    "notes",
    "counts",
    "spurs",
    "flowers",
    "dead",
    "crew",
    "rates",
    "people",
    "kind",
    "on",
    "to",
    "along_mm",
    "arrow",
    "distance",
    "stretch",
    "sent",
    "lay_short",
    "tip_share",
    "tip_until",
];
