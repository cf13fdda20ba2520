//! What was given in place of a plan or a table, named for what it is.

use crate::refusal::Refusal;
use crate::said::Arg;

/// What is wanted, by the name that texts have for it.
pub(super) const PLAN: &str = "plan";
/// See [`PLAN`].
pub(super) const TABLE: &str = "table";

pub(super) fn refusal(wanted: &'static str, kind: &'static str) -> Refusal {
    Refusal::new(
        "refusal-file-kind",
        vec![
            ("wanted", Arg::Text(wanted.into())),
            ("kind", Arg::Text(kind.into())),
        ],
    )
}

/// A file that is no text, by how its kind begins.
pub(super) fn packed(bytes: &[u8]) -> Option<&'static str> {
    const BEGINNINGS: [(&[u8], &str); 7] = [
        (b"PK\x03\x04", "workbook"),
        (b"\xd0\xcf\x11\xe0", "workbook"),
        (b"%PDF-", "print"),
        (b"\x89PNG", "picture"),
        (b"\xff\xd8\xff", "picture"),
        (b"GIF8", "picture"),
        (b"RIFF", "picture"),
    ];
    let found = BEGINNINGS.iter().find(|(b, _)| bytes.starts_with(b));
    found.map(|(_, kind)| *kind)
}

/// A text that is written in one of the languages of machines, by how it begins.
pub(super) fn marked_up(text: &str) -> Option<&'static str> {
    let start: String = text.trim_start().chars().take(200).collect();
    let start = start.to_lowercase();
    match start.chars().next()? {
        '{' => Some("plan"),
        '[' => Some("list"),
        '<' if start.contains("<svg") => Some("drawing"),
        '<' => Some("page"),
        _ => None,
    }
}
