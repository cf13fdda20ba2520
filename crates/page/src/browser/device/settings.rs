//! A few settings, and the half-finished walk: what the browser keeps under a name.

use cordonry::units::LengthStyle;
use cordonry_draw::{ColourBy, Paper};
use cordonry_words::Language;
use leptos::prelude::*;

const LENGTHS: &str = "cordonry.lengths";
/// The code of the language that was chosen.
pub const LANGUAGE: &str = "cordonry.language";
/// What stands on the page until it is there. Read by start.js.
pub const HEAD: &str = "cordonry.head";
/// The paper to print on.
pub const PAPER: &str = "cordonry.paper";
/// What the wood is coloured by.
pub const COLOUR_BY: &str = "cordonry.colour-by";
/// What prices were typed for an order.
pub const PRICES: &str = "cordonry.prices";
const WALK: &str = "cordonry.walk";
const WALKING: &str = "cordonry.walking";

fn local() -> Option<web_sys::Storage> {
    window().local_storage().ok().flatten()
}

/// What is kept under a name.
pub fn kept(name: &str) -> Option<String> {
    local()?.get_item(name).ok().flatten()
}

/// Keeps a text under a name, where the device lets it.
pub fn keep(name: &str, text: &str) {
    if let Some(local) = local() {
        let _ = local.set_item(name, text);
    }
}

/// Forgets what is kept under a name.
pub fn forget(name: &str) {
    if let Some(local) = local() {
        let _ = local.remove_item(name);
    }
}

/// How lengths were shown last.
pub fn length_style() -> LengthStyle {
    match kept(LENGTHS).as_deref() {
        Some("feet") => LengthStyle::FeetInches,
        _ => LengthStyle::Metric,
    }
}

/// Remembers how lengths are shown.
pub fn set_length_style(style: LengthStyle) {
    let word = match style {
        LengthStyle::Metric => "metres",
        LengthStyle::FeetInches => "feet",
    };
    keep(LENGTHS, word);
}

/// The language that was chosen, else the first of the browser's that the page has.
pub fn language() -> String {
    kept(LANGUAGE).unwrap_or_else(|| first_read().to_string())
}

fn first_read() -> &'static str {
    let read = window().navigator().languages();
    let code_of = |tag: wasm_bindgen::JsValue| {
        let tag = tag.as_string()?;
        let named = |code: &str| tag == code || tag.split('-').next() == Some(code);
        Some(Language::names().iter().find(|(code, _)| named(code))?.0)
    };
    read.iter().find_map(code_of).unwrap_or(Language::WHOLE)
}

/// The paper that was chosen, else that of the browser's country.
pub fn paper() -> Paper {
    let chosen = kept(PAPER).and_then(|name| Paper::named(&name));
    chosen.unwrap_or_else(usual_paper)
}

/// The usual paper of the country that the browser's language names, as `en-US` does.
fn usual_paper() -> Paper {
    let language = window().navigator().language().unwrap_or_default();
    language
        .split('-')
        .skip(1)
        .find(|part| part.len() == 2)
        .map_or(Paper::A4, Paper::usual_in)
}

/// What the wood was coloured by last.
pub fn colour_by() -> ColourBy {
    let chosen = kept(COLOUR_BY).and_then(|name| ColourBy::named(&name));
    chosen.unwrap_or_default()
}

/// The half-finished walk that is kept here.
pub fn kept_walk() -> Option<cordonry::walk::Walk> {
    cordonry::file::read_walk(&kept(WALK)?).ok()
}

/// Keeps a walk, or gives up the one that is kept.
pub fn keep_walk(walk: Option<&cordonry::walk::Walk>) {
    match walk {
        Some(walk) => keep(WALK, &cordonry::file::write_walk(walk)),
        None => forget(WALK),
    }
}

/// Whether the page was last at the walk that is kept.
pub fn walk_is_open() -> bool {
    kept(WALKING).is_some() && kept_walk().is_some()
}

/// Remembers whether the page is at the walk.
pub fn set_walk_open(open: bool) {
    match open {
        true => keep(WALKING, "1"),
        false => forget(WALKING),
    }
}
