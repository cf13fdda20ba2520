//! Small helpers over the `svg` crate.

use crate::pen::Pen;
use svg::node::element::Element;
use svg::node::{Node, Text};

/// An element with its attributes.
pub fn el(name: &str, attributes: &[(&str, &str)]) -> Element {
    let mut out = Element::new(name);
    for (key, value) in attributes {
        out.assign(*key, clean(value));
    }
    out
}

/// A group.
pub fn group(class: &str) -> Element {
    el("g", &[("class", class)])
}

/// A path; `None` where nothing was drawn.
pub fn path(class: &str, pen: &Pen) -> Option<Element> {
    (!pen.is_empty()).then(|| el("path", &[("class", class), ("d", pen.data())]))
}

/// Puts a child in, if there is one.
pub fn add(parent: &mut Element, child: impl Into<Option<Element>>) {
    if let Some(child) = child.into() {
        parent.append(child);
    }
}

/// An element that holds a text.
pub fn text(name: &str, attributes: &[(&str, &str)], content: &str) -> Element {
    let mut out = el(name, attributes);
    out.append(Text::new(clean(content)));
    out
}

/// The text without characters that no XML document may hold, and without those that turn the text behind them around.
pub fn clean(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => ' ',
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => ' ',
            c => c,
        })
        .collect()
}

/// The children's markup, without a group around them.
pub fn markup(parts: impl IntoIterator<Item = Element>) -> String {
    parts
        .into_iter()
        .map(|p| p.to_string())
        .collect::<Vec<_>>()
        .join("\n")
}
