//! The list of keys.

use super::{ALL, Chord, Command, Does, Held};
use crate::document::Mode;
use cordonry::said::Arg;
use cordonry_words::Words;

/// A line of the list: the keys, and what they do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyLine {
    /// Each key with what is held with it.
    pub keys: Vec<String>,
    /// What they do.
    pub does: String,
}

/// What each key does in a mode.
pub fn keys_of(mode: Mode, words: &Words) -> Vec<KeyLine> {
    let with_keys = ALL.iter().filter(|a| a.fits(mode) && !a.keys.is_empty());
    with_keys
        .map(|action| KeyLine {
            keys: action.keys.iter().map(|k| worded(k, words)).collect(),
            does: match action.does {
                Does::Page(Command::AskClass | Command::TellClass | Command::NextMatter) => {
                    let does = Arg::Text(words.plain(action.name));
                    words.text("keys-presenting", &[("does", does)])
                }
                _ => words.plain(action.name),
            },
        })
        .collect()
}

fn worded(chord: &Chord, words: &Words) -> String {
    let key = match chord.key {
        "arrowleft" => words.plain("key-left"),
        "arrowright" => words.plain("key-right"),
        "arrowup" => words.plain("key-up"),
        "arrowdown" => words.plain("key-down"),
        "delete" => words.plain("key-delete"),
        "backspace" => words.plain("key-backspace"),
        "enter" => words.plain("key-enter"),
        "home" => words.plain("key-home"),
        "end" => words.plain("key-end"),
        "pageup" => words.plain("key-page-up"),
        "pagedown" => words.plain("key-page-down"),
        "escape" => words.plain("key-escape"),
        "-" => "−".to_string(),
        other => other.to_uppercase(),
    };
    let held = [
        (chord.ctrl, "key-ctrl"),
        (chord.shift, "key-shift"),
        (chord.alt, "key-alt"),
    ];
    let mut parts: Vec<String> = held
        .iter()
        .filter(|(held, _)| *held == Held::Yes)
        .map(|(_, name)| words.plain(name))
        .collect();
    parts.push(key);
    parts.join(" ")
}
