//! A measured row as CSV: what a person with a tape writes down, one line a shoot.
//!
//! | column | what it says |
//! | --- | --- |
//! | tree | number of the tree |
//! | place | place along the row, read off one tape along the whole row: of the first line of a tree where its foot stands, of every other where the shoot's base is. `along 0.30 m` instead is the distance along the parent from the parent's base |
//! | kind | `stem`, `leader`, `upright`, `shoot`, `bud`, `stub`, or `lost` for a dead or missing tree |
//! | parent | what it grows from: `stem`, `leader`, `leader 2`, `upright 3` (counted down the tree's lines), or a number: the how-manieth line of its tree. Empty: the laid wood at that place |
//! | length | from base to tip along the wood; `0.60 + 0.45` says what successive seasons brought, from `season` on |
//! | diameter | at the base; empty: estimated from the length; `none`: no thickness is taken, and bends are sharp |
//! | side | `left` or `right`: the way a stem leans or a leader goes; `side` or `under` for the face of the parent it grows from, where that is not the top |
//! | pose | in the first line of a tree the angle from the ground it was planted at (`45`, `45 laid 3`); `laid`, `upright`, `free` or `stub`; after `laid` the rise of the end, after `upright` its lean, right positive, in degrees; `free` and `stub` have none |
//! | season | the leaf in which it first grew; 0: before planting. Without several lengths the whole length counts as of that leaf |
//! | laterals | how many side branches, or `5/1.20 m` with their lengths together; the count alone leaves their length at 0 |
//! | rubbed | `yes` where its side and underside buds have been rubbed out |
//! | cut | what was cut off each of the lengths: `0 + 0.15` |
//! | when cut | when each of the lengths was last cut, by leaf and window, `none` where nothing tells: `none + 4 dormant`. The windows are `dormant`, `bud swell`, `early summer` and `after harvest` |
//! | origin | where the shoot came from: `kept bud`, `return` (of a stub), `end growth` (of laid wood), `cut-back bud` or `wild bud` |
//! | bend radius | of laid wood and of an upright stem, the radius that it was bent with; empty: that of its thickness |
//! | diseased | `yes` in any line of a tree that is marked as diseased |
//! | note | anything |
//!
//! A tree's first shoot is its `stem`, or in a tree without a `stem` line its `leader`: the stem itself, laid along
//! the wire. A `stem` that no leader grows from and that reaches the wire is taken as laid, unless `pose` says otherwise.
//! Columns come in any order under these names or their like, with a unit if wanted (`length (cm)`, `place_mm`). A cell
//! may have its own unit; where neither has one, it is guessed from the column and said.
//!
//! A line that stands twice is a slip; of two shoots that are alike in all, the second has its parent's number written with
//! zeros before it. What a spreadsheet would take for a formula, at the beginning of a cell or behind what parts cells elsewhere, is
//! written behind an apostrophe, and read without it.
//!
//! Lines above the names say what the row is as a whole (see `block.rs`); the first that is none of them is its name, where none says it.

mod asks;
mod block;
mod column;
mod counts;
mod fit;
mod lines;
mod meant;
mod order;
mod pieces;
mod record;
mod spanish;
mod table;
mod trees;
mod unread;
mod write;

pub use asks::{Answers, Asked, Question};
pub use meant::{Slip, meanings};
pub(super) use table::has_columns;
pub use unread::Unread;
pub use write::{Style, put_line, write};

use super::foreign;
use super::text::{Encoding, Text};
use crate::arrange::middle_of;
use crate::make::Field;
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::row::{Row, Site, Tree, Trellis};
use crate::said::{Arg, Said, Wording};
use crate::units::{BareUnit, Deg, Mm};
use column::Column;
use counts::counted;
use meant::Meant;
use std::sync::Arc;
use table::Table;

/// What is said of a measured row beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// The leaf before whose growth the row was found, 1 to [`Plan::MAX_LEAF`], whatever the table says. `None`: the
    /// table's, or one more than the last season in it.
    pub leaf: Option<u8>,
    /// Planting angle of stems whose pose does not say it; 90° for a stem with several leaders.
    pub planted: Deg,
    /// Wires, posts and wall height, whatever the table says. `None`: the table's, or [`Trellis::default`]. The cordon
    /// wire's height decides where along its leader a place is.
    pub trellis: Option<Trellis>,
    /// What is answered of what the table leaves open.
    pub answers: Answers,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            leaf: None,
            planted: Deg::new(45.0),
            trellis: None,
            answers: Answers::default(),
        }
    }
}

/// What holds for every tree of a table.
struct Given {
    /// As [`Options::leaf`], with what the table says.
    leaf: Option<u8>,
    /// As [`Options::planted`].
    planted: Deg,
    /// Height of the cordon wire, mm.
    wire: f64,
    /// Whether a single length is that of all seasons together.
    in_all: bool,
}

/// A row read from CSV.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The row that the good lines make.
    pub row: Row,
    /// Where it stands, as far as the table says.
    pub site: Site,
    /// Its name: the first line above the names of the columns that says nothing else.
    pub title: Option<String>,
    /// How many lines were taken, without those above the names of the columns.
    pub taken: usize,
    /// The lines that were not, in order; those above the names among them.
    pub bad: Vec<BadLine>,
    /// What was assumed.
    pub said: Vec<Said>,
    /// What makes the whole unlikely, and is to be asked before anything else.
    pub doubt: Option<Said>,
    /// Whether last year's growth had been tipped, as far as that is said.
    pub tipped: Option<bool>,
    /// What the table leaves open.
    pub asks: Vec<Asked>,
    /// The lines that look like a slip of which it is known what was likely meant.
    pub slips: Vec<Slip>,
    /// Words that are none that may stand there, whether or not something is said of them.
    pub unread: Vec<Unread>,
    /// Whether it is a row without a tree, told by the lines above the names and with nothing left out.
    pub treeless: bool,
}

/// Most lines that are left out, and most assumptions, that the plan's note names.
const MOST_NOTED: usize = 8;

/// So many lines may be slips even where they are more than a quarter.
const FEW: usize = 10;

fn is_mostly_bad(taken: usize, left: usize) -> bool {
    let all = taken + left;
    left * 2 > all || (left > FEW && left * 4 > all)
}

impl Measured {
    /// Whether more lines are left out than a few slips: more than a half, or in a longer table than a handful of lines more than
    /// a quarter. Then what was asked, the units or the table itself, is rather wrong than the lines.
    pub fn is_mostly_bad(&self) -> bool {
        is_mostly_bad(self.taken, self.bad.len())
    }

    /// Whether it is open if last year's growth had been tipped.
    pub fn asks_tipped(&self) -> bool {
        let mut asks = self.asks.iter();
        asks.any(|a| a.question == Question::Tipped)
    }

    /// What stays to be known of the plan that it makes: the lines that are left out and what was assumed, a sentence each.
    pub fn remains(&self, words: &impl Wording) -> String {
        let lines = self.bad.iter().take(MOST_NOTED).map(|bad| {
            let line = ("line", Arg::Count(bad.line as i64));
            Said::new("measured-line", vec![line, ("why", bad.reason().into())])
        });
        let left = self.bad.len();
        let mut out = String::new();
        let all = counted("measured-left-out", left)
            .into_iter()
            .chain(lines)
            .chain(counted("measured-more", left.saturating_sub(MOST_NOTED)))
            .chain(self.said.iter().take(MOST_NOTED).cloned());
        for said in all {
            let sentence = words.say(&said);
            if out.chars().count() + sentence.chars().count() + 2 > Plan::MAX_TEXT {
                break;
            }
            let end = if sentence.ends_with(['.', '?']) {
                ""
            } else {
                "."
            };
            let gap = if out.is_empty() { "" } else { " " };
            out += &[gap, &sentence, end].concat();
        }
        out
    }

    /// A plan of what was measured, begun, of that name where the table has none.
    pub fn plan(self, name: impl Into<String>) -> Plan {
        let name = self.title.unwrap_or_else(|| name.into());
        Plan {
            site: Arc::new(self.site),
            tipped: self.tipped,
            ..Plan::new(name, self.row).begun()
        }
    }
}

/// How far apart trees usually stand, mm. Published: extension growers' guides to planar cherry.
const USUAL_SPACING: (f64, f64) = (1_200.0, 2_000.0);

/// What is asked of trees that stand nearer to each other than any are planted: their places are rather in another unit.
fn crowded(trees: &[Arc<Tree>], table: &Table) -> Option<Said> {
    // Feet may be planted in pairs: what stands one further on tells.
    let step = trees.len().saturating_sub(1).min(2);
    if step == 0 {
        return None;
    }
    let on = |w: &[Arc<Tree>]| (w[step].foot - w[0].foot).f() / step as f64;
    let spacing = middle_of(trees.windows(step + 1).map(on).collect())?;
    let (least, most) = Field::Spacing.range();
    if spacing >= least {
        return None;
    }
    let taken = table.unit(Column::Place);
    let units = [BareUnit::Millimetre, BareUnit::Centimetre, BareUnit::Metre];
    let likely = units.into_iter().find(|unit| {
        let apart = spacing / taken.millimetres() * unit.millimetres();
        apart >= least && apart <= most
    });
    let named = |unit| Arg::Text(column::sign(unit).into());
    Some(
        match likely.filter(|_| !table.bare(Column::Place).is_empty()) {
            Some(likely) => Said::new(
                "file-said-unit-doubt",
                vec![
                    ("column", Arg::Text(Column::Place.name().into())),
                    ("unit", named(taken)),
                    ("likely", named(likely)),
                ],
            ),
            None => Said::new(
                "file-said-crowded",
                vec![
                    ("spacing", Arg::Thickness(spacing)),
                    ("low", Arg::Length(USUAL_SPACING.0)),
                    ("high", Arg::Length(USUAL_SPACING.1)),
                ],
            ),
        },
    )
}

/// A line that could not be taken.
#[derive(Clone, Debug, PartialEq)]
pub struct BadLine {
    /// Its number in the file, from 1.
    pub line: usize,
    /// The tree that it names, where that much can be read.
    pub tree: Option<u32>,
    /// What stands there.
    pub text: String,
    /// Why it was not taken.
    pub why: Refusal,
}

impl BadLine {
    /// Why it was not taken, with the tree that it is of.
    pub fn reason(&self) -> Said {
        let named = |arg| self.why.arg(arg).is_some();
        let names_tree = named("tree") || named("part");
        match self.tree.filter(|_| !names_tree) {
            None => self.why.0.clone(),
            Some(tree) => Said::new(
                "csv-of-tree",
                vec![
                    ("tree", Arg::Count(tree.into())),
                    ("why", self.why.clone().into()),
                ],
            ),
        }
    }
}

/// Most lines that are read.
pub const MAX_LINES: usize = 500_000;
/// Most bad lines that are named; a file with more is no measured row.
pub const MAX_BAD: usize = 10_000;

/// Reads a measured row. Bad lines are named and left out; the rest is taken.
///
/// # Errors
/// The file as a whole can't be read: too large, no text, a file of another kind, empty, without the columns that there must be,
/// or with more lines, trees or bad lines than accepted.
pub fn read(bytes: &[u8], options: &Options) -> Result<Measured, Refusal> {
    read_telling(bytes, options, &mut |_, _| {})
}

/// Hears how many lines have been read, of about how many.
pub type Tell<'a> = &'a mut dyn FnMut(usize, usize);

/// As [`read`], telling now and then how far it is: a line that is understood and not yet part of its tree counts for half.
///
/// # Errors
/// As [`read`].
pub fn read_telling(bytes: &[u8], options: &Options, tell: Tell<'_>) -> Result<Measured, Refusal> {
    if let Some(leaf) = options.leaf
        && !(1..=Plan::MAX_LEAF).contains(&leaf)
    {
        return Err(Refusal::new(
            "refusal-csv-leaf",
            vec![
                ("value", Arg::Count(leaf.into())),
                ("high", Arg::Count(Plan::MAX_LEAF.into())),
            ],
        ));
    }
    let text = Text::read(bytes, foreign::TABLE)?;
    let meant = Meant::of(&options.answers.meant);
    let mut table = Table::read(&text.text, meant).map_err(|why| {
        // Without the columns of a table it may be anything else.
        match foreign::marked_up(&text.text) {
            Some(kind) if why.key == "refusal-csv-columns" => {
                foreign::refusal(foreign::TABLE, kind)
            }
            _ => why,
        }
    })?;
    let mut said = Vec::new();
    if text.encoding != Encoding::Utf8 {
        said.push(Said::new(
            "file-said-encoding",
            vec![("encoding", Arg::Text(text.encoding.name().into()))],
        ));
    }
    said.extend(table.said.iter().cloned());
    said.extend(table.meant.lines().map(|(line, column, text)| {
        let args = vec![
            ("line", Arg::Count(line as i64)),
            ("column", Arg::Text(column.name().into())),
            ("value", column.measured(text)),
            ("cell", Arg::Text(meant::cell(column, line))),
        ];
        Said::new("file-said-meant", args)
    }));
    let told = table.block.leaf.is_some();
    let open = options.answers.put(&mut table.block);
    let block = &table.block;
    let trellis = match &options.trellis {
        Some(trellis) => trellis.clone(),
        None => block.trellis(&Trellis::default()),
    };
    let given = Given {
        leaf: options.leaf.or(block.leaf),
        planted: options.planted,
        wire: trellis.cordon_height().f(),
        in_all: block.in_all,
    };
    let lines = lines::parse(&table, tell);
    let built = trees::build(lines, &given, &mut said, tell);
    if built.trees.len() > Row::MAX_TREES {
        return Err(Refusal::new(
            "refusal-csv-trees",
            vec![
                ("value", Arg::Count(built.trees.len() as i64)),
                ("high", Arg::Count(Row::MAX_TREES as i64)),
            ],
        ));
    }
    let (from, to) = (block.from, block.to);
    let site = block.site.clone();
    let mut row = Row {
        leaf: built.leaf,
        from: Mm(0),
        to: Mm(0),
        trellis,
        trees: built.trees,
    };
    row.sort();
    let usual = row.default_stretch();
    // An end that is not said gives way to the one that is.
    row.from = from.unwrap_or(to.map_or(usual.0, |to| usual.0.min(to)));
    row.to = to.unwrap_or(usual.1.max(row.from));
    if built.taken > 0 && options.trellis.is_none() {
        block.assumed(&row.trellis, &mut said);
    }
    let assumed = from.is_none() || to.is_none();
    if built.taken > 0 && assumed {
        said.push(Said::new(
            "file-said-stretch",
            vec![
                ("from", Arg::Length(row.from.f())),
                ("to", Arg::Length(row.to.f())),
            ],
        ));
    }
    let title = table.title.clone();
    let doubt = crowded(&row.trees, &table);
    let untold = !table.has(Column::Cut) && row.has_untold_tips();
    let asked = |question| match question {
        _ if built.taken == 0 => false,
        Question::Leaf => options.leaf.is_none(),
        Question::Wires | Question::Covering | Question::WallHeight => options.trellis.is_none(),
        Question::Lengths => built.in_all > 0,
        Question::Tipped => untold,
    };
    let open = open.into_iter().filter(|(question, _)| asked(*question));
    let asks = open.map(|open| Asked::of(open, block, &row.trellis, row.leaf));
    let asks = asks.collect();
    let tipped = block.tipped;
    let unread = unread::unread(&table);
    let bad = table.name_bad(built.bad)?;
    Ok(Measured {
        slips: built.slips,
        unread,
        tipped,
        asks,
        row,
        site,
        title,
        taken: built.taken,
        treeless: told && built.taken == 0 && bad.is_empty(),
        bad,
        said,
        doubt,
    })
}

#[cfg(test)]
mod tests {
    use super::is_mostly_bad;

    #[test]
    fn a_few_slips_are_few_up_to_a_quarter_of_a_table_or_half_of_a_short_one() {
        for (taken, left) in [(5, 0), (1, 1), (10, 10), (75, 25), (0, 0)] {
            assert!(!is_mostly_bad(taken, left), "{taken} {left}");
        }
        for (taken, left) in [(1, 2), (11, 11), (74, 26), (1, 99), (0, 1)] {
            assert!(is_mostly_bad(taken, left), "{taken} {left}");
        }
    }
}
