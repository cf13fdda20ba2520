//! Lines read one by one: each says what it says, or why it can't be taken.

use super::Tell;
use super::column::Column;
use super::pieces::{self, LineKind, Parent, Place, PoseCell, in_range};
use super::record::{Cells, Record};
use super::table::Table;
use crate::plan::Plan;
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row::{Face, Kind, Laterals, Moment, Origin, Toward};
use crate::said::{Arg, Said};
use crate::sorted::Set;
use std::collections::BTreeMap;

/// One line.
#[derive(Debug)]
pub(super) struct Line {
    /// Its number in the file.
    pub number: usize,
    /// The tree that it names, where that much can be read.
    pub tree: Option<u32>,
    /// The kind that it names, where that much can be read.
    pub kind: Option<LineKind>,
    /// What it says, or why it is bad.
    pub says: Result<Says, Refusal>,
}

/// What a good line says. Lengths are in mm.
#[derive(Clone, Debug)]
pub(super) struct Says {
    pub kind: LineKind,
    pub place: Option<Place>,
    pub parent: Parent,
    pub lengths: Vec<f64>,
    pub diameter: Option<f64>,
    pub toward: Option<Toward>,
    pub face: Option<Face>,
    pub pose: PoseCell,
    pub season: Option<u8>,
    pub laterals: Laterals,
    pub rubbed: bool,
    /// What was cut off each of the lengths; of those behind the last, nothing.
    pub cuts: Vec<f64>,
    /// When each of the lengths was last cut; of those behind the last, nothing is told.
    pub when: Vec<Option<Moment>>,
    pub origin: Option<Origin>,
    pub bend_radius: Option<f64>,
    /// Its tree is marked as diseased.
    pub diseased: bool,
    pub note: String,
}

/// Of so many lines one is told of.
const TOLD_OF: usize = 256;

pub(super) fn parse(table: &Table, tell: Tell<'_>) -> Vec<Line> {
    let mut first: BTreeMap<&Cells, usize> = BTreeMap::new();
    let count = table.records.len();
    let records = table.records.iter().enumerate();
    records
        .map(|(n, record)| {
            if n % TOLD_OF == 0 {
                tell(n / 2, count);
            }
            let cell = |c| table.cell(record, c);
            let earlier = *first.entry(&record.cells).or_insert(record.line);
            let says = match earlier == record.line || record.broken.is_some() {
                true => says(table, record),
                // A line that was pasted twice, not a second shoot that is like the first to the millimetre.
                false => Err(Refusal::new(
                    "refusal-csv-line-twice",
                    vec![("line", Arg::Count(earlier as i64))],
                )),
            };
            Line {
                number: record.line,
                tree: cell(Column::Tree).parse().ok(),
                kind: pieces::kind(cell(Column::Kind)),
                says,
            }
        })
        .collect()
}

fn says(table: &Table, record: &Record) -> Result<Says, Refusal> {
    if let Some(broken) = &record.broken {
        return Err(broken.clone());
    }
    let cell = |c| table.cell(record, c);
    let named = |c: Column| ("column", Arg::Text(c.name().into()));
    // A cell that holds none of the words or forms that it may hold.
    let word = |c: Column, accepted: &'static str| {
        let args = |value: &str| {
            vec![
                named(c),
                ("value", Arg::short(value)),
                ("accepted", Arg::key(accepted)),
            ]
        };
        match cell(c) {
            "" => Refusal::new("refusal-csv-empty", args("")),
            value => Refusal::new("refusal-csv-word", args(value)),
        }
    };
    let unread = |c: Column, reason: Said| {
        let accepted = match c {
            Column::Place => "accepted-place-cell",
            Column::Laterals => "accepted-laterals",
            Column::Diameter => "accepted-thickness",
            Column::BendRadius => "accepted-radius",
            _ => "accepted-lengths",
        };
        Refusal::new(
            "refusal-csv-unread",
            vec![
                named(c),
                ("reason", reason.into()),
                ("accepted", Arg::key(accepted)),
            ],
        )
    };
    let range = |c: Column, arg: fn(f64) -> Arg, value: f64, range: Range| {
        in_range(c.name(), arg, value, range).map(|()| value)
    };
    let plain = |n: f64| Arg::Number(n, 0);

    for column in Column::ALL
        .into_iter()
        .filter(|_| record.cells.may_be_long())
    {
        pieces::not_too_long(column.name(), cell(column))?;
    }
    for column in [Column::Length, Column::Cut, Column::WhenCut] {
        pieces::not_too_many(column.name(), cell(column))?;
    }
    if cell(Column::Tree).parse::<u32>().is_err() {
        return Err(word(Column::Tree, "accepted-whole"));
    }
    let kind = pieces::kind(cell(Column::Kind)).ok_or_else(|| word(Column::Kind, pieces::KINDS))?;

    let unit = |c| table.unit(c);
    let place = pieces::place(cell(Column::Place), unit(Column::Place))
        .map_err(|e| unread(Column::Place, e))?;
    if let Some(Place::Row(x) | Place::Along(x)) = place {
        range(Column::Place, Arg::Length, x, range::PLACE)?;
    }
    let parent = pieces::parent(cell(Column::Parent))
        .ok_or_else(|| word(Column::Parent, pieces::PARENTS))?;

    let lengths = pieces::lengths(cell(Column::Length), unit(Column::Length))
        .map_err(|e| unread(Column::Length, e))?;
    let long = |mm: f64, least: f64| {
        let longest = range::LENGTH.1;
        if range::has((least, longest), mm) {
            return Ok(());
        }
        Err(Refusal::new(
            "refusal-csv-length",
            vec![("value", Arg::Length(mm)), ("high", Arg::Length(longest))],
        ))
    };
    for length in &lengths {
        // A season that brought nothing stands between two that did.
        long(*length, 0.0)?;
    }
    let grown = !matches!(kind, LineKind::Lost | LineKind::Part(Kind::Bud));
    let total: f64 = lengths.iter().sum();
    match (grown, lengths.is_empty()) {
        (true, true) => return Err(word(Column::Length, "accepted-length")),
        (true, false) => long(total, 1.0)?,
        (false, _) if total > 0.0 => {
            return Err(word(Column::Length, "accepted-no-length"));
        }
        _ => {}
    }

    let diameter = pieces::diameter(cell(Column::Diameter), unit(Column::Diameter))
        .map_err(|e| unread(Column::Diameter, e))?;
    if let Some(mm) = diameter {
        range(Column::Diameter, Arg::Thickness, mm, range::DIAMETER)?;
    }
    let (toward, face) =
        pieces::side(cell(Column::Side)).ok_or_else(|| word(Column::Side, "accepted-sides"))?;
    let pose = pieces::pose(cell(Column::Pose)).ok_or_else(|| word(Column::Pose, pieces::POSES))?;

    let season = match cell(Column::Season) {
        "" => None,
        text => {
            let n: i64 = text
                .parse()
                .map_err(|_| word(Column::Season, "accepted-season"))?;
            let last = f64::from(Plan::MAX_LEAF - 1);
            Some(range(Column::Season, plain, n as f64, (0.0, last))? as u8)
        }
    };
    let laterals = pieces::laterals(cell(Column::Laterals), unit(Column::Length))
        .map_err(|e| unread(Column::Laterals, e))?;
    let count = f64::from(laterals.count);
    range(Column::Laterals, plain, count, range::LATERALS)?;
    let (together, most) = (laterals.total, range::LATERALS_LENGTH);
    range(Column::Laterals, Arg::Length, together, most)?;
    let ticked = |column| pieces::ticked(cell(column)).ok_or_else(|| word(column, pieces::TICKS));
    let rubbed = ticked(Column::Rubbed)?;
    let diseased = ticked(Column::Diseased)?;
    let cuts = pieces::lengths(cell(Column::Cut), unit(Column::Cut))
        .map_err(|e| unread(Column::Cut, e))?;
    for (n, cut) in cuts.iter().enumerate() {
        let kept = lengths.get(n).copied().unwrap_or(0.0);
        let most = match kept > 0.0 {
            true => range::LENGTH.1 - kept,
            false => 0.0,
        };
        range(Column::Cut, Arg::Length, *cut, (0.0, most))?;
    }
    let when =
        pieces::when(cell(Column::WhenCut)).ok_or_else(|| word(Column::WhenCut, pieces::WHEN))?;
    let untold = |(n, at): (usize, &Option<Moment>)| {
        at.is_some() && lengths.get(n).copied().unwrap_or(0.0) <= 0.0
    };
    if when.iter().enumerate().any(untold) {
        return Err(word(Column::WhenCut, "accepted-cut-length"));
    }
    let origin = pieces::origin(cell(Column::Origin))
        .ok_or_else(|| word(Column::Origin, pieces::ORIGINS))?;
    let bend_radius = pieces::radius(cell(Column::BendRadius), unit(Column::BendRadius))
        .map_err(|e| unread(Column::BendRadius, e))?;
    if let Some(mm) = bend_radius {
        range(Column::BendRadius, Arg::Thickness, mm, range::BEND_RADIUS)?;
    }
    Ok(Says {
        kind,
        place,
        parent,
        lengths,
        diameter,
        toward,
        face,
        pose,
        season,
        laterals,
        rubbed,
        cuts,
        when,
        origin,
        bend_radius,
        diseased,
        note: cell(Column::Note).to_string(),
    })
}

/// One more than the last season of any line but those that are left out; not before the last cut.
pub(super) fn found_leaf(lines: &[Line], left_out: &Set<usize>) -> u8 {
    let mut last = 0;
    let mut written = false;
    let mut shoots = false;
    let taken = lines.iter().enumerate();
    let taken = taken.filter(|(n, _)| !left_out.contains(n));
    let says = taken.filter_map(|(_, l)| l.says.as_ref().ok());
    // Nothing of a lost tree has grown.
    for says in says.filter(|s| s.kind != LineKind::Lost) {
        let more = says.lengths.len().saturating_sub(1);
        written |= says.season.is_some();
        shoots |= matches!(
            says.kind,
            LineKind::Part(Kind::Upright | Kind::Shoot | Kind::Stub)
        );
        last = last.max(usize::from(says.season.unwrap_or(0)) + more);
        let cut = says.when.iter().flatten().map(|cut| cut.leaf).max();
        last = last.max(usize::from(cut.unwrap_or(0)).saturating_sub(1));
    }
    if shoots && !written {
        // What grew on the planted stock grew in the first season at the earliest.
        last = last.max(1);
    }
    u8::try_from(last + 1).map_or(Plan::MAX_LEAF, |l| l.min(Plan::MAX_LEAF))
}
