//! The text as lines of cells, and the unit that a cell's name carries.

use super::MAX_LINES;
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::said::Arg;
use crate::units::BareUnit;
use std::borrow::Cow;

/// More lines than a quoted cell may run over: the quote that opens it was never closed.
pub(super) const LONGEST_CELL: usize = 30;

/// Most cells of a line: more than a sheet has columns, and than a note can hold marks.
const MAX_CELLS: usize = 20_000;
/// Most columns that the line of names may name, and empty cells that are kept at the end of a line.
pub(super) const MAX_COLUMNS: usize = 200;

/// One line of the file.
#[derive(Debug)]
pub(super) struct Record {
    /// Its number in the file, from 1.
    pub line: usize,
    pub cells: Cells,
    /// What is wrong with the line as a whole.
    pub broken: Option<Refusal>,
}

/// The cells of a line, in one text: a long table has many.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cells {
    text: String,
    /// Where each ends.
    ends: Vec<u32>,
}

impl Cells {
    pub(super) fn len(&self) -> usize {
        self.ends.len()
    }

    /// The cell at a place; empty where there is none.
    pub(super) fn get(&self, n: usize) -> &str {
        let end = |n: usize| self.ends.get(n).map_or(self.text.len(), |e| *e as usize);
        let begin = n.checked_sub(1).map_or(0, end);
        self.text.get(begin..end(n)).unwrap_or_default()
    }

    pub(super) fn iter(&self) -> impl Iterator<Item = &str> {
        (0..self.len()).map(|n| self.get(n))
    }

    /// The cells up to the last that holds something.
    pub(super) fn filled(&self) -> usize {
        let mut cells = (0..self.len()).rev();
        cells
            .find(|n| !self.get(*n).is_empty())
            .map_or(0, |n| n + 1)
    }

    /// Whether one of them may hold more than any text of a plan.
    pub(super) fn may_be_long(&self) -> bool {
        self.text.len() > Plan::MAX_TEXT
    }

    /// The first cells with a mark between them.
    pub(super) fn joined(&self, count: usize, mark: &str) -> String {
        let cells: Vec<&str> = self.iter().take(count).collect();
        cells.join(mark)
    }
}

impl<'c> FromIterator<Cow<'c, str>> for Cells {
    fn from_iter<I: IntoIterator<Item = Cow<'c, str>>>(cells: I) -> Self {
        let mut out = Self::default();
        for cell in cells {
            out.text.push_str(&cell);
            out.ends.push(out.text.len() as u32);
        }
        let kept = out.filled().max(out.len().min(MAX_COLUMNS));
        out.ends.truncate(kept);
        out.text.shrink_to_fit();
        out.ends.shrink_to_fit();
        out
    }
}

/// Signs that begin a formula in a spreadsheet; the last four are the same as wide as an ideograph.
const LIVE: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
/// What parts cells to a spreadsheet that splits there, whatever parts them in the table at hand.
const SPLITS: [char; 5] = [',', ';', '\t', '\n', '\r'];

/// Where in a text a cell may begin.
fn starts(text: &str) -> impl Iterator<Item = usize> {
    let parted = text.match_indices(SPLITS).map(|(at, mark)| at + mark.len());
    std::iter::once(0).chain(parted)
}

/// Whether a formula begins at a place of a text, whatever quotation marks stand before it.
fn is_live(text: &str, at: usize) -> bool {
    let rest = text[at..].trim_start_matches(['\'', '"']);
    rest.starts_with(LIVE) || (at == 0 && rest.starts_with(['\t', '\r']))
}

/// Whether what begins at a place is a negative number, which is no formula.
fn is_number(text: &str, at: usize) -> bool {
    let rest = match at {
        0 => Some(text),
        _ => text[at..].split([';', '\t', '\n', '\r']).next(),
    };
    let digits = rest.and_then(|r| r.strip_prefix('-')).unwrap_or_default();
    let of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
    !digits.is_empty() && digits.chars().all(of_number)
}

/// A cell's text as it is written: what a spreadsheet would take for a formula has an apostrophe before it. Spreadsheets that
/// part the cells elsewhere are thought of too.
pub(super) fn inert(text: &str) -> Cow<'_, str> {
    let live = |at: &usize| is_live(text, *at) && !is_number(text, *at);
    spliced(text, starts(text).filter(live), 0, "'")
}

/// The text of a cell that was written so.
fn as_meant(cell: &str) -> Cow<'_, str> {
    let guarded = |at: &usize| cell[*at..].starts_with('\'') && is_live(cell, *at);
    spliced(cell, starts(cell).filter(guarded), 1, "")
}

/// A text with `put` in the place of so many bytes, at each of these places.
fn spliced<'t>(
    text: &'t str,
    places: impl Iterator<Item = usize>,
    bytes: usize,
    put: &str,
) -> Cow<'t, str> {
    let mut out = Cow::Borrowed("");
    let mut from = 0;
    for at in places {
        let out = out.to_mut();
        out.push_str(&text[from..at]);
        out.push_str(put);
        from = at + bytes;
    }
    match out {
        Cow::Borrowed(_) => Cow::Borrowed(text),
        Cow::Owned(out) => Cow::Owned(out + &text[from..]),
    }
}

/// Refuses a text with more lines that hold something than are read, before any is.
fn refuse_length(text: &str) -> Result<(), Refusal> {
    let holds = |line: &&str| !line.is_empty() && !line.starts_with('#');
    match text.lines().filter(holds).nth(MAX_LINES + 1) {
        None => Ok(()),
        Some(_) => Err(Refusal::new(
            "refusal-csv-lines",
            vec![("high", Arg::Count(MAX_LINES as i64))],
        )),
    }
}

/// Refuses a text with a line of more cells than any table's, before it is parted.
pub(super) fn refuse_width(text: &str, delimiter: u8) -> Result<(), Refusal> {
    let cells = |line: &str| line.bytes().filter(|b| *b == delimiter).count() + 1;
    let wide = text.split('\n').position(|line| cells(line) > MAX_CELLS);
    wide.map_or(Ok(()), |n| Err(too_wide(n + 1, MAX_CELLS)))
}

pub(super) fn too_wide(line: usize, high: usize) -> Refusal {
    Refusal::new(
        "refusal-csv-wide",
        vec![
            ("line", Arg::Count(line as i64)),
            ("high", Arg::Count(high as i64)),
        ],
    )
}

/// The lines from `start` on. A quote that is never closed spoils its own line alone.
pub(super) fn records(text: &str, start: usize, delimiter: u8) -> Result<Vec<Record>, Refusal> {
    refuse_length(&text[start..])?;
    let mut out: Vec<Record> = Vec::new();
    let mut start = start;
    let mut line = 1 + newlines(&text[..start]);
    'again: loop {
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .delimiter(delimiter)
            .comment(Some(b'#'))
            .from_reader(&text.as_bytes()[start..]);
        let mut record = csv::StringRecord::new();
        let mut counted = start;
        // The text is UTF-8 and lines may be uneven, so there is nothing for the reader to fail at.
        while reader.read_record(&mut record).unwrap_or(false) {
            let end = start + reader.position().byte() as usize;
            let from = counted + blank(&text[counted..end]);
            line += newlines(&text[counted..from]);
            let here = text[from..].split_inclusive('\n').next().unwrap_or("");
            if newlines(&text[from..end]) > LONGEST_CELL {
                out.push(Record {
                    line,
                    cells: std::iter::once(Cow::Borrowed(here.trim())).collect(),
                    broken: Some(Refusal::new("refusal-csv-quote", vec![])),
                });
                start = from + here.len();
                line += 1;
                continue 'again;
            }
            let cells: Cells = record.iter().map(|c| as_meant(c.trim())).collect();
            if cells.filled() > 0 {
                out.push(Record {
                    line,
                    cells,
                    broken: None,
                });
            }
            line += newlines(&text[from..end]);
            counted = end;
        }
        return Ok(out);
    }
}

fn newlines(text: &str) -> usize {
    text.bytes().filter(|b| *b == b'\n').count()
}

/// How much of a text comes before its first line that holds cells: line ends and remarks.
fn blank(text: &str) -> usize {
    let lines = text.split_inclusive('\n');
    lines
        .take_while(|l| l.starts_with('#') || l.trim_end_matches(['\r', '\n']).is_empty())
        .map(str::len)
        .sum()
}

/// The words of a column's name, in small letters, and the unit that it carries.
pub(super) fn split_unit(name: &str) -> (String, Option<BareUnit>) {
    let plain: String = name
        .to_lowercase()
        .chars()
        .map(|c| {
            if matches!(c, '(' | ')' | '[' | ']' | '_' | ',' | '.') {
                ' '
            } else {
                c
            }
        })
        .collect();
    let mut words: Vec<&str> = plain.split_whitespace().collect();
    let unit = match words.last() {
        Some(last) if words.len() > 1 => BareUnit::named(last),
        _ => None,
    };
    if unit.is_some() {
        words.pop();
        // "length in cm"
        if words.len() > 1 && words.last() == Some(&"in") {
            words.pop();
        }
    }
    (words.join(" "), unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_cell_is_a_formula_and_each_comes_back() {
        for text in [
            "", "=1+1", "+1", "-1+1", "@a", "\t=1", "'=1", "''-2", "'-2.5", "it's", "'quoted'",
            "-2.5 m", "＝1", "- dash",
        ] {
            let written = inert(text);
            assert!(!written.starts_with(LIVE), "{text}: {written}");
            assert_eq!(as_meant(&written), text, "{written}");
        }
        // Wherever cells are parted: each begins as text, and the whole comes back.
        for text in [
            "a;=1",
            "a\t+1",
            "a\n@sum",
            "a\r\n-x",
            "a,=1",
            ";=1",
            "a;'=1",
            "a;''=1,=2",
            "a;\"=1\"",
            "a;'\"=1",
            "a;＝1",
            "\t;=1",
            "a;-2.5",
            "-2.5;=1",
            "a;-2,5;=1",
            "a, b; c",
            "a;'b'",
            "'",
            ";",
            "",
        ] {
            let written = inert(text);
            for cell in written.split(SPLITS) {
                let number = cell
                    .strip_prefix('-')
                    .is_some_and(|n| n.parse::<f64>().is_ok());
                let shown = cell.trim_start_matches('"');
                assert!(number || !shown.starts_with(LIVE), "{text}: {written}");
            }
            assert_eq!(as_meant(&written), text, "{written}");
        }
        assert_eq!(inert("a;=1,b;-2.5"), "a;'=1,b;-2.5");
        for number in ["-2.5", "-0,020", "-3"] {
            assert_eq!(inert(number), number);
            assert_eq!(as_meant(number), number);
        }
    }

    #[test]
    fn names_carry_units() {
        for (name, words, unit) in [
            ("Length (cm)", "length", Some(BareUnit::Centimetre)),
            ("place_mm", "place", Some(BareUnit::Millimetre)),
            ("PLACE [m]", "place", Some(BareUnit::Metre)),
            ("length in cm", "length", Some(BareUnit::Centimetre)),
            ("Diameter in", "diameter", Some(BareUnit::Inch)),
            ("tree", "tree", None),
            ("m", "m", None),
        ] {
            assert_eq!(split_unit(name), (words.to_string(), unit), "{name}");
        }
    }
}
