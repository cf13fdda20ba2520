//! What is printed: row by row, for programs or for people, and nothing in it that a terminal would obey.

use crate::Status;
use crate::args::Output;
use cordonry::said::{Arg, is_obeyed};
use cordonry_words::Words;
use serde::ser::SerializeMap as _;
use serde::{Serialize, Serializer};
use serde_json::Value;
use std::cell::RefCell;
use std::io::{self, BufWriter, ErrorKind, Write};
use std::path::Path;

/// A line that shows what a terminal would obey as a sign of its own: names and notes may hold anything.
pub fn clean(line: &str) -> String {
    line.replace(is_obeyed, "\u{fffd}")
}

/// A line on standard error. Where that takes nothing, there is nobody to tell.
pub fn tell(line: &str) {
    let _ = writeln!(io::stderr().lock(), "{}", clean(line));
}

/// A file that could not be read or worked on.
#[derive(Serialize)]
pub struct Unreadable {
    pub file: String,
    pub reason: String,
}

impl Unreadable {
    /// Names the file on standard error too.
    pub fn said(path: &Path, error: &anyhow::Error) -> Self {
        let out = Self {
            file: path.display().to_string(),
            reason: format!("{error:#}"),
        };
        tell(&format!("{}: {}", out.file, out.reason));
        out
    }
}

/// The nearest multiple of one part in `per_one`.
pub fn rounded(value: f64, per_one: f64) -> f64 {
    // Adding nothing takes the sign off a zero.
    (value * per_one).round() / per_one + 0.0
}

/// Prints rows as the asker wants them, each as soon as it is there; `people` words one for people. What can't be printed
/// ends the run as failed.
pub fn print<R: Serialize>(
    output: &Output,
    words: &Words,
    mut rows: impl Iterator<Item = R>,
    unreadable: &RefCell<Vec<Unreadable>>,
    people: impl Fn(&R) -> String,
) -> Status {
    let mut out = Escaped(BufWriter::new(io::stdout().lock()));
    let printed = if output.json {
        let document = Document {
            rows: RefCell::new(rows),
            unreadable,
        };
        serde_json::to_writer_pretty(&mut out, &document)
            .map_err(io::Error::from)
            .and_then(|()| writeln!(out))
    } else if output.json_lines {
        rows.try_for_each(|row| {
            serde_json::to_writer(&mut out, &row)?;
            writeln!(out)
        })
    } else {
        rows.try_for_each(|row| {
            let told = people(&row);
            let mut lines = told.lines();
            lines.try_for_each(|line| writeln!(out, "{}", clean(line)))
        })
    };
    match printed.and_then(|()| out.flush()) {
        Ok(()) => Status::Fine,
        // Whoever reads has seen enough and closed the pipe.
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Status::Fine,
        Err(error) => {
            let reason = Arg::Text(error.to_string());
            tell(&words.text("command-standard-output", &[("reason", reason)]));
            Status::Failed
        }
    }
}

/// What is told of a file's row, to programs and to people.
#[derive(Serialize)]
#[serde(transparent)]
pub struct Row {
    pub row: Value,
    #[serde(skip)]
    pub people: String,
}

/// One JSON document whose rows are worked out while it is written, so that no more than one is held.
struct Document<'u, I> {
    rows: RefCell<I>,
    /// Known once all rows are.
    unreadable: &'u RefCell<Vec<Unreadable>>,
}

impl<R: Serialize, I: Iterator<Item = R>> Serialize for Document<'_, I> {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let mut map = s.serialize_map(Some(2))?;
        map.serialize_entry("rows", &Rows(&self.rows))?;
        map.serialize_entry("unreadable", &*self.unreadable.borrow())?;
        map.end()
    }
}

struct Rows<'r, I>(&'r RefCell<I>);

impl<R: Serialize, I: Iterator<Item = R>> Serialize for Rows<'_, I> {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_seq(self.0.borrow_mut().by_ref())
    }
}

/// Writes JSON with those signs escaped that JSON lets stand and a terminal obeys.
struct Escaped<W>(W);

impl<W: Write> Write for Escaped<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        // A text is handed over in whole signs; JSON itself lays out its lines, and escapes the other signs of ASCII.
        let text = str::from_utf8(bytes).map_err(io::Error::other)?;
        let mut plain = 0;
        for (at, sign) in text.match_indices(|c| c > '~' && is_obeyed(c)) {
            self.0.write_all(&bytes[plain..at])?;
            for c in sign.chars() {
                write!(self.0, "\\u{:04x}", u32::from(c))?;
            }
            plain = at + sign.len();
        }
        self.0.write_all(&bytes[plain..])?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.0.flush()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_signs_are_escaped_and_nothing_else() {
        let text =
            "plain\u{1b}[31m \u{7f}\u{80}\u{9b}2J\u{a0}\u{c2}größer 樹\n\u{202e}a\u{2066}\u{200f}";
        let mut out = Escaped(Vec::new());
        serde_json::to_writer(&mut out, text).unwrap();
        let written = String::from_utf8(out.0).unwrap();
        assert!(!written.contains(is_obeyed), "{written:?}");
        assert_eq!(serde_json::from_str::<String>(&written).unwrap(), text);
        assert!(written.contains("größer 樹"), "{written}");
        assert_eq!(clean("a\u{9b}b\tc\u{1b}"), "a\u{fffd}b\u{fffd}c\u{fffd}");
        assert_eq!(clean("a\u{202e}b\u{2066}ü"), "a\u{fffd}b\u{fffd}ü");
    }
}
