//! The text as a table: what separates the cells, which column is which, and in which unit.

use super::block::{Block, Fact};
use super::column::{Column, sign};
use super::meant::Meant;
use super::record::{MAX_COLUMNS, Record, records, refuse_width, split_unit, too_wide};
use super::{BadLine, MAX_BAD};
use crate::arrange::{Arrange, arrange_numbers, middle_of};
use crate::file::short;
use crate::refusal::Refusal;
use crate::said::{Arg, Said};
use crate::units::{BareUnit, parse_number};
use std::borrow::Cow;

/// The columns that there must be.
const NEEDED: [Column; 4] = [Column::Tree, Column::Place, Column::Kind, Column::Length];

/// The file as lines of cells.
pub(super) struct Table {
    delimiter: u8,
    /// What a person says of single cells.
    pub meant: Meant,
    columns: Vec<(Column, usize)>,
    units: [BareUnit; Column::ALL.len()],
    pub records: Vec<Record>,
    /// What the lines above say of the row as a whole.
    pub block: Block,
    /// The first of the other lines above.
    pub title: Option<String>,
    pub said: Vec<Said>,
}

/// A typical thickness under this is rather one in centimetres.
const THIN: f64 = 2.5;

impl Table {
    pub(super) fn read(text: &str, meant: Meant) -> Result<Self, Refusal> {
        // Lines may end as they did on very old computers.
        let text = &match text.contains('\r') && !text.contains('\n') {
            true => Cow::Owned(text.replace('\r', "\n")),
            false => Cow::Borrowed(text),
        };
        let Head { start, delimiter } = head(text)?;
        refuse_width(text, delimiter)?;
        let (facts, above) = above(text, start, delimiter)?;
        let mut records = records(text, start, delimiter)?;
        if records.is_empty() {
            return Err(Refusal::new("refusal-file-empty", vec![]));
        }
        let head = records.remove(0);
        if head.cells.filled() > MAX_COLUMNS {
            return Err(too_wide(head.line, MAX_COLUMNS));
        }
        let mut table = Self {
            delimiter,
            meant,
            columns: Vec::new(),
            units: [BareUnit::Millimetre; Column::ALL.len()],
            records,
            block: Block::read(&facts, delimiter),
            title: None,
            said: Vec::new(),
        };
        // What is said to be the name is; without it the first line that says nothing else.
        table.title = table.block.name.take();
        if table.title.is_some() {
            let count = Arg::Count(above.len() as i64);
            let passed = Said::new("file-said-passed", vec![("count", count)]);
            table.said.extend((!above.is_empty()).then_some(passed));
        } else if let Some(first) = above.first() {
            table.title = Some(first.clone());
            table.said.push(Said::new(
                "file-said-above",
                vec![
                    ("count", Arg::Count(above.len() as i64)),
                    ("text", Arg::Text(first.clone())),
                ],
            ));
        }
        let written = table.take_head(&head)?;
        for record in &mut table.records {
            let extra = record.cells.filled() > head.cells.len();
            if record.broken.is_none() && extra {
                record.broken = Some(Refusal::new(
                    "refusal-csv-cells",
                    vec![
                        ("value", Arg::Count(record.cells.len() as i64)),
                        ("high", Arg::Count(head.cells.len() as i64)),
                    ],
                ));
            }
        }
        table.settle_units(&written);
        Ok(table)
    }

    /// Whether it has a column.
    pub(super) fn has(&self, column: Column) -> bool {
        self.columns.iter().any(|(c, _)| *c == column)
    }

    /// Finds the columns; gives the units that their names carry.
    fn take_head(&mut self, head: &Record) -> Result<Vec<(Column, BareUnit)>, Refusal> {
        let mut units = Vec::new();
        for (n, cell) in head.cells.iter().enumerate() {
            let (words, unit) = split_unit(cell);
            let Some(column) = Column::named(&words) else {
                if !cell.is_empty() {
                    self.said.push(Said::new(
                        "file-said-column",
                        vec![("column", Arg::short(cell))],
                    ));
                }
                continue;
            };
            if self.columns.iter().any(|(c, _)| *c == column) {
                return Err(Refusal::new(
                    "refusal-csv-column-twice",
                    vec![("column", Arg::Text(column.name().into()))],
                ));
            }
            self.columns.push((column, n));
            units.extend(unit.map(|u| (column, u)));
        }
        let missing: Vec<&str> = NEEDED
            .into_iter()
            .filter(|c| !self.columns.iter().any(|(have, _)| have == c))
            .map(Column::name)
            .collect();
        if missing.is_empty() {
            return Ok(units);
        }
        Err(Refusal::new(
            "refusal-csv-columns",
            vec![
                ("line", Arg::Count(head.line as i64)),
                ("missing", Arg::Text(missing.join(", "))),
                (
                    "found",
                    Arg::Text(short(&head.cells.joined(usize::MAX, ", "))),
                ),
            ],
        ))
    }

    /// Takes the units that are written over the columns, guesses the others and says so.
    fn settle_units(&mut self, written: &[(Column, BareUnit)]) {
        for column in Column::ALL.into_iter().filter(|c| c.has_unit()) {
            let unit = written.iter().find(|(c, _)| *c == column).map(|(_, u)| *u);
            let unit = unit.unwrap_or_else(|| {
                let bare = self.bare(column);
                let unit = guess(column, &bare);
                if !bare.is_empty() {
                    self.said.push(Said::new(
                        "file-said-unit",
                        vec![
                            ("column", Arg::Text(column.name().into())),
                            ("unit", Arg::Text(sign(unit).into())),
                        ],
                    ));
                }
                unit
            });
            self.doubt_unit(column, unit);
            self.units[column as usize] = unit;
        }
        // What was cut off is measured as what is left and a bend as a thickness, unless their columns say otherwise.
        for (column, like) in [
            (Column::Cut, Column::Length),
            (Column::BendRadius, Column::Diameter),
        ] {
            let own = written.iter().find(|(c, _)| *c == column);
            self.units[column as usize] = own.map_or(self.unit(like), |(_, u)| *u);
        }
    }

    /// Asks whether a column's numbers are in another unit than they are taken in: one question for what would else
    /// be a refusal of every line, or a row ten times too thin.
    fn doubt_unit(&mut self, column: Column, taken: BareUnit) {
        let bare = self.bare(column);
        let metric = [BareUnit::Millimetre, BareUnit::Centimetre, BareUnit::Metre];
        let likely = match column {
            // Trees may stand far apart; only what is surely a shoot's measure tells.
            Column::Length if !bare.is_empty() => guess(column, &bare),
            Column::Diameter => {
                let typical = middle_of(bare.iter().map(|(_, n)| *n).collect());
                match typical {
                    Some(n) if n > 0.0 && n < THIN => BareUnit::Centimetre,
                    _ => taken,
                }
            }
            _ => taken,
        };
        let smaller = likely.millimetres() < taken.millimetres();
        if likely == taken || !metric.contains(&taken) || (column == Column::Diameter && smaller) {
            return;
        }
        self.said.push(Said::new(
            "file-said-unit-doubt",
            vec![
                ("column", Arg::Text(column.name().into())),
                ("unit", Arg::Text(sign(taken).into())),
                ("likely", Arg::Text(sign(likely).into())),
            ],
        ));
    }

    /// The numbers without a unit in a column, each with whether its line is of a whole tree.
    pub(super) fn bare(&self, column: Column) -> Vec<(bool, f64)> {
        let number = |r: &Record| {
            let cell = self.cell(r, column);
            let first = cell.split('+').next().unwrap_or_default().trim();
            let n = parse_number(first).ok()?;
            let kind = self.cell(r, Column::Kind).to_lowercase();
            Some((matches!(&*kind, "stem" | "leader" | "lost"), n))
        };
        self.records.iter().filter_map(number).collect()
    }

    /// The cell of a column as it is read, empty where there is none.
    pub(super) fn cell<'a>(&'a self, record: &'a Record, column: Column) -> &'a str {
        let written = self.written(record, column);
        let meant = self.meant.reading(record, column, written);
        meant.unwrap_or(written)
    }

    /// The cell of a column as it stands there.
    pub(super) fn written<'a>(&self, record: &'a Record, column: Column) -> &'a str {
        let place = self.columns.iter().find(|(c, _)| *c == column);
        place.map_or("", |(_, n)| record.cells.get(*n))
    }

    /// The unit of a number in that column that has none of its own.
    pub(super) fn unit(&self, column: Column) -> BareUnit {
        self.units[column as usize]
    }

    /// Bad lines with what stands in them, after those of the block above.
    pub(super) fn name_bad(
        mut self,
        mut bad: Vec<(usize, Refusal)>,
    ) -> Result<Vec<BadLine>, Refusal> {
        let mut out = std::mem::take(&mut self.block.bad);
        bad.arrange_by_key(|(n, _)| *n);
        if out.len() + bad.len() > MAX_BAD {
            let below = bad
                .first()
                .and_then(|(n, why)| Some((self.records.get(*n)?.line, why)));
            let first = out.first().map(|b| (b.line, &b.why)).or(below);
            let mut args = vec![
                ("value", Arg::Count((out.len() + bad.len()) as i64)),
                ("high", Arg::Count(MAX_BAD as i64)),
            ];
            if let Some((line, why)) = first {
                args.extend([
                    ("line", Arg::Count(line as i64)),
                    ("reason", why.clone().into()),
                ]);
            }
            return Err(Refusal::new("refusal-csv-bad-lines", args));
        }
        let delimiter = char::from(self.delimiter).to_string();
        out.extend(bad.into_iter().filter_map(|(n, mut why)| {
            let record = self.records.get(n)?;
            // What a line said is known here alone: lines are held as what they mean.
            let cell = |c| ("value", Arg::short(self.written(record, c)));
            let said = match why.key {
                "refusal-csv-pose" => Some(Column::Pose),
                "refusal-csv-parent" => Some(Column::Parent),
                "refusal-csv-bend" => Some(Column::BendRadius),
                "refusal-csv-steep" => Some(Column::Place),
                _ => None,
            };
            why.args.extend(said.map(cell));
            Some(BadLine {
                line: record.line,
                tree: self.cell(record, Column::Tree).parse().ok(),
                text: short(&record.cells.joined(usize::MAX, &delimiter)),
                why,
            })
        }));
        Ok(out)
    }
}

/// Most lines above the names of the columns, such as a title, that say nothing of the row.
const MOST_ABOVE: usize = 100;
/// Most lines above the names of the columns that say something of the row: a post a line, and a long row has hundreds.
const MOST_FACTS: usize = 1_000;

/// Where the table begins.
struct Head {
    start: usize,
    /// What separates its cells.
    delimiter: u8,
}

/// A line that says nothing at all, and not even how cells are separated.
fn is_silent(line: &str) -> bool {
    line.is_empty() || line.starts_with('#')
}

fn separator(line: &str) -> Option<Option<u8>> {
    let line = line.to_ascii_lowercase();
    let mark = line.strip_prefix("sep=")?;
    Some(mark.bytes().next().filter(|b| matches!(b, b',' | b';')))
}

/// Finds the first line that names all the columns that there must be, or else the first that names some, or that looks as
/// if it did; where none does, the first line is taken for it. What separates the cells is told by that line, or before it, as spreadsheets do: `sep=;`.
fn head(text: &str) -> Result<Head, Refusal> {
    let mut at = 0;
    let mut said = None;
    let mut first = None;
    let mut named = None;
    let mut like_names = None;
    let (mut above, mut facts) = (0, 0);
    for line in text.split_inclusive('\n') {
        let start = at;
        at += line.len();
        let bare = line.trim();
        if let Some(mark) = separator(bare) {
            said = mark.or(said);
            continue;
        }
        if is_silent(bare) {
            continue;
        }
        let has = |b: &u8| line.as_bytes().contains(b);
        let found = || [b'\t', b';'].into_iter().find(has).unwrap_or(b',');
        let delimiter = said.unwrap_or_else(found);
        let fact = fact_in(bare);
        // The row's name may read like the names of columns.
        let needed = match fact {
            Some(Fact::Name) => 0,
            _ => needed_in(bare, delimiter),
        };
        match needed {
            n if n == NEEDED.len() => return Ok(Head { start, delimiter }),
            0 | 1 if fact.is_some() && facts < MOST_FACTS => {
                facts += 1;
                continue;
            }
            0 | 1 if fact.is_some() => {
                let high = Arg::Count(MOST_FACTS as i64);
                return Err(Refusal::new("refusal-csv-above", vec![("high", high)]));
            }
            // As many words as columns that there must be, in a language that is not known: no title has them.
            0 | 1 if wordy(bare, delimiter) < NEEDED.len() => {
                first.get_or_insert(Head { start, delimiter });
            }
            0 | 1 => _ = like_names.get_or_insert(Head { start, delimiter }),
            _ => _ = named.get_or_insert(Head { start, delimiter }),
        }
        if above >= MOST_ABOVE {
            break;
        }
        above += 1;
    }
    Ok(named.or(like_names).or(first).unwrap_or(Head {
        start: at,
        delimiter: said.unwrap_or(b','),
    }))
}

/// What a line says of the row as a whole, whatever separates its cells.
fn fact_in(line: &str) -> Option<Fact> {
    let first = line.split([',', ';', '\t']).next().unwrap_or_default();
    Fact::named(first.trim_matches('"')).map(|(fact, _)| fact)
}

/// The lines above the table that say something of the row as a whole, and what else stands there.
fn above(text: &str, start: usize, delimiter: u8) -> Result<(Vec<Record>, Vec<String>), Refusal> {
    let (mut facts, mut others) = (Vec::new(), Vec::new());
    for (n, line) in text[..start].lines().enumerate() {
        let bare = line.trim();
        if is_silent(bare) || separator(bare).is_some() {
            continue;
        }
        if fact_in(bare).is_none() {
            others.push(short(bare.trim_matches(['"', ',', ';', '\t'])));
            continue;
        }
        let mut record = records(line, 0, delimiter)?;
        facts.extend(
            record
                .drain(..)
                .take(1)
                .map(|r| Record { line: n + 1, ..r }),
        );
    }
    Ok((facts, others))
}

/// How many of the columns that there must be a line names.
fn needed_in(line: &str, delimiter: u8) -> usize {
    let cells = line.split(char::from(delimiter)).take(MAX_COLUMNS);
    let named = cells.filter_map(|c| Column::named(&split_unit(c.trim().trim_matches('"')).0));
    let mut found: Vec<Column> = named.filter(|c| NEEDED.contains(c)).collect();
    found.arrange();
    found.dedup();
    found.len()
}

/// How many cells of a line hold words without a number.
fn wordy(line: &str, delimiter: u8) -> usize {
    let cells = line.split(char::from(delimiter)).take(MAX_COLUMNS);
    let words =
        |c: &&str| !c.contains(|c: char| c.is_ascii_digit()) && c.contains(char::is_alphabetic);
    cells.filter(words).count()
}

/// Whether a text begins as a table of a measured row does.
pub(in crate::file) fn has_columns(text: &str) -> bool {
    // With more lines above than are read it is a table none the less.
    let Ok(head) = head(text) else { return true };
    let line = text[head.start..].lines().next().unwrap_or_default();
    needed_in(line, head.delimiter) >= 2
}

/// The unit that makes a column's numbers most like a row's: trees stand metres apart, a shoot is a part of a metre
/// to a few metres long. Thickness is always in millimetres.
fn guess(column: Column, bare: &[(bool, f64)]) -> BareUnit {
    let of_trees: Vec<f64> = bare.iter().filter(|(t, _)| *t).map(|(_, n)| *n).collect();
    let all: Vec<f64> = bare.iter().map(|(_, n)| n.abs()).collect();
    let unit = |typical: f64, metres: f64, centimetres: f64| {
        if typical < metres {
            BareUnit::Metre
        } else if typical < centimetres {
            BareUnit::Centimetre
        } else {
            BareUnit::Millimetre
        }
    };
    match column {
        Column::Place => {
            let mut feet = of_trees;
            arrange_numbers(&mut feet);
            let apart = feet.windows(2).map(|w| w[1] - w[0]).filter(|d| *d > 0.0);
            match middle_of(apart.collect()) {
                Some(spacing) => unit(spacing, 20.0, 600.0),
                None => {
                    let broken = all.iter().any(|n| libm::trunc(*n) != *n);
                    let farthest = all.iter().copied().fold(0.0, f64::max);
                    if broken || farthest < 50.0 {
                        BareUnit::Metre
                    } else {
                        BareUnit::Millimetre
                    }
                }
            }
        }
        Column::Length => match (middle_of(of_trees), middle_of(all)) {
            (Some(stem), _) => unit(stem, 12.0, 500.0),
            (None, Some(shoot)) => unit(shoot, 5.0, 200.0),
            (None, None) => BareUnit::Metre,
        },
        _ => BareUnit::Millimetre,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_open_quote_spoils_its_own_line() {
        let mut text = String::from("tree,place,kind,length\n1,\"0,stem,2\n");
        for n in 2..100 {
            text.push_str(&format!("{n},{n},stem,2\n"));
        }
        let table = Table::read(&text, Meant::of(&[])).unwrap();
        assert_eq!(table.records.len(), 99);
        assert!(table.records[0].broken.is_some());
        assert_eq!(table.records[0].line, 2);
        assert_eq!(table.records[1].line, 3);
        assert!(table.records[1].broken.is_none());
    }

    #[test]
    fn units_are_guessed_from_the_column() {
        let check = |column, bare: &[f64], expected| {
            let bare: Vec<_> = bare.iter().map(|n| (true, *n)).collect();
            assert_eq!(guess(column, &bare), expected, "{bare:?}");
        };
        check(Column::Place, &[0.0, 1.5, 3.0], BareUnit::Metre);
        check(Column::Place, &[0.0, 3.0, 6.0, 300.0], BareUnit::Metre);
        check(Column::Place, &[0.0, 150.0, 300.0], BareUnit::Centimetre);
        check(Column::Place, &[0.0, 1500.0, 3000.0], BareUnit::Millimetre);
        check(Column::Place, &[30.0], BareUnit::Metre);
        check(Column::Length, &[1.9, 2.1], BareUnit::Metre);
        check(Column::Length, &[190.0, 210.0], BareUnit::Centimetre);
        check(Column::Length, &[1900.0, 2100.0], BareUnit::Millimetre);
        check(Column::Diameter, &[2.0], BareUnit::Millimetre);
    }
}
