//! The text as lines of cells, and the unit that a cell's name carries.

use super::MAX_LINES;
use crate::refusal::Refusal;
use crate::said::Arg;
use crate::units::BareUnit;

/// More lines than a quoted cell may run over: the quote that opens it was never closed.
pub(super) const LONGEST_CELL: usize = 30;

/// One line of the file.
#[derive(Debug)]
pub(super) struct Record {
    /// Its number in the file, from 1.
    pub line: usize,
    pub cells: Vec<String>,
    /// What is wrong with the line as a whole.
    pub broken: Option<Refusal>,
}

/// The lines from `start` on. A quote that is never closed spoils its own line alone.
pub(super) fn records(text: &str, start: usize, delimiter: u8) -> Result<Vec<Record>, Refusal> {
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
            if out.len() >= MAX_LINES {
                return Err(Refusal::new(
                    "refusal-csv-lines",
                    vec![("high", Arg::Count(MAX_LINES as i64))],
                ));
            }
            let end = start + reader.position().byte() as usize;
            let from = counted + blank(&text[counted..end]);
            line += newlines(&text[counted..from]);
            let here = text[from..].split_inclusive('\n').next().unwrap_or("");
            if newlines(&text[from..end]) > LONGEST_CELL {
                out.push(Record {
                    line,
                    cells: vec![here.trim().to_string()],
                    broken: Some(Refusal::new("refusal-csv-quote", vec![])),
                });
                start = from + here.len();
                line += 1;
                continue 'again;
            }
            let cells: Vec<String> = record.iter().map(|c| c.trim().to_string()).collect();
            if cells.iter().any(|c| !c.is_empty()) {
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
