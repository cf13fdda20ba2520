//! What single cells mean, as a person who was asked says: the table reads as if they said that.
//!
//! A cell is named by its column and its line, `length 5`; a word that stands in many cells of a column by the word, `side rechts`.

use super::column::Column;
use super::record::Record;
use crate::said::{Arg, Quantity};
use crate::walk::season_by_season;

/// A cell that is more likely a slip, and what was likely meant.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// Its line in the file.
    pub line: usize,
    /// What it is named by.
    pub cell: String,
    /// What it measures.
    pub unit: Quantity,
    /// What was likely meant, mm: a thickness, or a length, of one that was told season by season each of them.
    pub meant: Vec<f64>,
    /// The cell that would say that.
    pub reads: String,
}

impl Slip {
    pub(super) fn new(line: usize, unit: Quantity, meant: &[f64]) -> Self {
        let meant: Vec<f64> = meant
            .iter()
            .map(|mm| libm::round(mm * 10.0) / 10.0)
            .collect();
        let (column, reads): (_, Vec<String>) = match unit {
            Quantity::Thickness => (
                Column::Diameter,
                meant.iter().map(|mm| format!("{mm} mm")).collect(),
            ),
            _ => (
                Column::Length,
                meant
                    .iter()
                    .map(|mm| format!("{} m", mm / 1000.0))
                    .collect(),
            ),
        };
        Self {
            line,
            cell: cell(column, line),
            unit,
            meant,
            reads: reads.join(" + "),
        }
    }

    /// What was likely meant, as it is told.
    pub fn told(&self) -> Arg {
        match self.meant[..] {
            [mm] => self.unit.arg(mm),
            _ => season_by_season(&self.meant),
        }
    }
}

/// What a person says of cells: each by its name, with what it is to be read as.
pub(super) struct Meant(Vec<(Column, Which, String)>);

#[derive(PartialEq)]
enum Which {
    Line(usize),
    Word(String),
}

impl Meant {
    /// What is said, as far as it names cells that may be asked about.
    pub(super) fn of(said: &[(String, String)]) -> Self {
        let one = |(cell, text): &(String, String)| {
            let (name, which) = cell.split_once(' ')?;
            let column = Column::ALL.into_iter().find(|c| c.name() == name)?;
            let which = match column {
                Column::Length | Column::Diameter => Which::Line(which.parse().ok()?),
                Column::Side | Column::Kind => Which::Word(which.into()),
                _ => return None,
            };
            (!text.is_empty()).then(|| (column, which, text.clone()))
        };
        Self(said.iter().filter_map(one).collect())
    }

    /// What a cell is read as, where something is said of it.
    pub(super) fn reading(&self, record: &Record, column: Column, cell: &str) -> Option<&str> {
        let mut of = self.0.iter().filter(|(c, ..)| *c == column).peekable();
        // The words are looked at only where one is said.
        of.peek()?;
        let word = cell.to_lowercase();
        let found = of.find(|(_, which, _)| match which {
            Which::Line(line) => *line == record.line,
            Which::Word(said) => *said == word,
        });
        found.map(|(.., text)| text.as_str())
    }

    /// The cells by line that are read otherwise, each with its column and what it is read as.
    pub(super) fn lines(&self) -> impl Iterator<Item = (usize, Column, &str)> {
        self.0
            .iter()
            .filter_map(|(column, which, text)| match which {
                Which::Line(line) => Some((*line, *column, text.as_str())),
                Which::Word(_) => None,
            })
    }
}

/// The name of a cell.
pub(super) fn cell(column: Column, line: usize) -> String {
    format!("{} {line}", column.name())
}

/// What a cell that holds a word may mean, each a word of the table with the name of its text.
pub fn meanings(cell: &str) -> &'static [(&'static str, &'static str)] {
    match cell.split(' ').next() {
        Some("side") => &[
            ("", "import-word-open"),
            ("left", "import-word-left"),
            ("right", "import-word-right"),
            ("side", "import-word-side"),
            ("under", "import-word-under"),
            ("top", "import-word-top"),
        ],
        Some("kind") => &[
            ("", "import-word-open"),
            ("stem", "import-word-stem"),
            ("leader", "import-word-leader"),
            ("upright", "import-word-upright"),
            ("shoot", "import-word-shoot"),
            ("bud", "import-word-bud"),
            ("stub", "import-word-stub"),
            ("lost", "import-word-lost"),
        ],
        _ => &[],
    }
}
