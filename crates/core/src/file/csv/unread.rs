//! Words of another language, or of a person's own, where the table has words: each is asked about once.

use super::column::Column;
use super::pieces;
use super::table::Table;

/// Most words of a column that are asked about: with more it is rather another column.
const MOST_WORDS: usize = 12;
/// Longest word that is asked about, in characters.
const LONGEST_WORD: usize = 40;

/// A word that stands in a column and is none of those that it may hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Unread {
    /// What its cells are named by.
    pub cell: String,
    /// The column's name.
    pub column: &'static str,
    /// The word, in small letters.
    pub word: String,
    /// How many lines hold it.
    pub lines: usize,
    /// What it is read as; empty where nothing is said, and its lines are left out.
    pub now: String,
}

/// The words under `side` and `kind` that are none of those that may stand there, in order of their first lines.
pub(super) fn unread(table: &Table) -> Vec<Unread> {
    let is_read = |column, text: &str| match column {
        Column::Kind => pieces::kind(text).is_some(),
        _ => pieces::side(text).is_some(),
    };
    let of = |column: Column| {
        let mut out: Vec<Unread> = Vec::new();
        for record in &table.records {
            let text = table.written(record, column);
            let worded = !text.is_empty()
                && !text.contains(|c: char| c.is_ascii_digit())
                && text.chars().nth(LONGEST_WORD).is_none();
            if !worded || record.broken.is_some() || is_read(column, text) {
                continue;
            }
            if out.len() > MOST_WORDS {
                break;
            }
            let word = text.to_lowercase();
            match out.iter_mut().find(|u| u.word == word) {
                Some(known) => known.lines += 1,
                None => out.push(Unread {
                    cell: format!("{} {word}", column.name()),
                    column: column.name(),
                    now: table.cell(record, column).to_string(),
                    word,
                    lines: 1,
                }),
            }
        }
        for unread in &mut out {
            if !is_read(column, &unread.now) {
                unread.now.clear();
            }
        }
        if out.len() > MOST_WORDS {
            out.clear();
        }
        out
    };
    let mut out = of(Column::Kind);
    out.extend(of(Column::Side));
    out
}
