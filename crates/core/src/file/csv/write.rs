//! A row written as CSV, such that reading it gives the same row.

use super::column::Column;
use super::order::as_written;
use super::pieces::{self, Place, kind_name};
use super::{block, fit, record};
use crate::plan::Plan;
use crate::pose::{Course, Geometry, layout};
use crate::row::{
    Face, GrowthUnit, Moment, Pose, Row, Shoot, ShootId, Site, Targets, Toward, Tree,
};
use crate::said::is_obeyed;
use crate::units::{BareUnit, Deg, LengthStyle};
use std::borrow::Cow;
use std::collections::BTreeMap;

/// How a row is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Style {
    /// Metres and millimetres, or feet and inches.
    pub lengths: LengthStyle,
    /// A decimal comma, and semicolons between the cells.
    pub decimal_comma: bool,
}

/// The row of that name as CSV: what it is as a whole, with whether last year's growth had been `tipped`, a line of names, then one line a shoot, tree by tree. Lengths are in whole
/// millimetres, thicknesses in tenths. Read and written again, it is the same to the byte: it does not tell how its
/// trees came about. Limits, work and marks are not in it.
pub fn write(row: &Row, name: &str, site: &Site, tipped: Option<bool>, style: Style) -> String {
    let mark = if style.decimal_comma { ';' } else { ',' };
    let mut text = String::new();
    let trees: Vec<Tree> = row.trees.iter().map(|t| as_written(t)).collect();
    let columns = columns(&trees);
    for line in block::lines(row, name, leaf(row, &trees), site, tipped, style) {
        put_line(&mut text, mark, &line);
    }
    let metric = style.lengths == LengthStyle::Metric;
    let names: Vec<String> = columns
        .iter()
        .map(|c| match c {
            Column::Place | Column::Length | Column::Cut if metric => format!("{} (m)", c.name()),
            Column::Diameter | Column::BendRadius if metric => format!("{} (mm)", c.name()),
            c => c.name().to_string(),
        })
        .collect();
    put_line(&mut text, mark, &names);
    let g = Geometry::of(row, &Targets::default());
    for tree in &trees {
        for mut line in Lines::new(tree, g, style).all() {
            let cells = columns
                .iter()
                .map(|c| std::mem::take(&mut line[*c as usize]));
            put_line(&mut text, mark, &cells.collect::<Vec<String>>());
        }
    }
    // By this mark a spreadsheet knows that letters beyond ASCII are in UTF-8.
    match text.is_ascii() {
        true => text,
        false => format!("\u{feff}{text}"),
    }
}

/// Writes a line of cells, with quotation marks where a cell holds what separates cells or lines. Written here, for a
/// general writer's size is felt in the page.
pub fn put_line(out: &mut String, mark: char, cells: &[String]) {
    let start = out.len();
    for (i, cell) in cells.iter().enumerate() {
        if i > 0 {
            out.push(mark);
        }
        let cell = seen(cell);
        let cell = record::inert(&cell);
        if cell.contains([mark, '"', '\n', '\r']) {
            out.extend(["\"", &cell.replace('"', "\"\""), "\""]);
        } else {
            out.push_str(&cell);
        }
    }
    // An empty line would be no line.
    if out.len() == start {
        out.push_str("\"\"");
    }
    out.push('\n');
}

/// A cell's text with a sign of its own for what a terminal would obey, but for tabs and the ends of lines.
fn seen(cell: &str) -> Cow<'_, str> {
    let obeyed = |c: char| is_obeyed(c) && !matches!(c, '\t' | '\n' | '\r');
    match cell.contains(obeyed) {
        true => Cow::Owned(cell.replace(obeyed, "\u{fffd}")),
        false => Cow::Borrowed(cell),
    }
}

/// The leaf before whose growth such a row is found: what has grown or was cut in the row's own leaf is told.
fn leaf(row: &Row, trees: &[Tree]) -> u8 {
    let units = trees.iter().flat_map(|t| &t.shoots).flat_map(|s| &s.units);
    let told = units.map(|u| {
        let cut = u.cut.map_or(0, |cut| cut.leaf);
        u.leaf.saturating_add(1).max(cut)
    });
    told.fold(row.leaf, u8::max).min(Plan::MAX_LEAF)
}

/// The columns that the trees need: what hardly a row has is left out where none does.
fn columns(trees: &[Tree]) -> Vec<Column> {
    let shoots = || trees.iter().flat_map(|t| &t.shoots);
    let mut out = Column::ALL.to_vec();
    out.retain(|c| match c {
        Column::Rubbed => shoots().any(|s| s.rubbed),
        Column::Cut => shoots().flat_map(|s| &s.units).any(|u| u.kept < u.grown),
        Column::WhenCut => shoots().flat_map(|s| &s.units).any(|u| u.cut.is_some()),
        Column::Origin => shoots().any(|s| s.origin.is_some()),
        Column::BendRadius => shoots().any(|s| s.bend_radius.is_some()),
        Column::Diseased => trees.iter().any(|t| t.diseased),
        _ => true,
    });
    out
}

type Line = [String; Column::ALL.len()];

fn set(line: &mut Line, column: Column, text: impl Into<String>) {
    line[column as usize] = text.into();
}

/// One tree's lines in the making.
struct Lines<'a> {
    tree: &'a Tree,
    courses: Vec<Course>,
    style: Style,
    /// Where each shoot stands in the tree, and how it is named as a parent.
    names: BTreeMap<ShootId, (usize, Name)>,
}

/// A shoot named as a parent: the how-manieth of its kind on its tree.
struct Name {
    kind: &'static str,
    number: usize,
}

impl Name {
    fn text(&self) -> String {
        match self.number {
            1 => self.kind.to_string(),
            number => format!("{} {number}", self.kind),
        }
    }

    /// Said as it never is the first time: the number behind so many zeros.
    fn in_other_words(&self, zeros: usize) -> String {
        format!("{} {}{}", self.kind, "0".repeat(zeros), self.number)
    }
}

impl<'a> Lines<'a> {
    fn new(tree: &'a Tree, g: Geometry, style: Style) -> Self {
        let mut seen: BTreeMap<&str, usize> = BTreeMap::new();
        let mut names = BTreeMap::new();
        for (n, shoot) in tree.shoots.iter().enumerate() {
            let kind = kind_name(shoot.kind());
            let count = seen.entry(kind).or_default();
            *count += 1;
            let number = *count;
            names.insert(shoot.id, (n, Name { kind, number }));
        }
        Self {
            tree,
            courses: layout(tree, g),
            style,
            names,
        }
    }

    fn all(&self) -> Vec<Line> {
        if self.tree.is_lost() {
            let mut line = Line::default();
            self.whole(&mut line, "");
            set(&mut line, Column::Kind, "lost");
            return vec![line];
        }
        let mut seen: BTreeMap<Line, usize> = BTreeMap::new();
        let mut out = Vec::with_capacity(self.tree.shoots.len());
        for (n, shoot) in self.tree.shoots.iter().enumerate() {
            let mut line = self.shoot(n, shoot);
            let before = seen.entry(line.clone()).or_default();
            if *before > 0 {
                // Another just like it: its parent is named in other words, for a line that stands twice is a slip.
                let again = shoot.parent.and_then(|p| self.names.get(&p));
                let again = again.map(|(_, name)| name.in_other_words(*before));
                set(&mut line, Column::Parent, again.unwrap_or_default());
            }
            *before += 1;
            out.push(line);
        }
        out
    }

    /// What the first line of a tree says of the tree.
    fn whole(&self, line: &mut Line, held: &str) {
        let tree = self.tree;
        set(line, Column::Tree, tree.id.to_string());
        set(line, Column::Place, self.style.length(tree.foot.f(), 3));
        set(line, Column::Side, way(tree.planted.toward));
        let planted = self.style.angle(tree.planted.angle);
        let pose = format!("planted {planted} {held}");
        set(line, Column::Pose, pose.trim_end());
        if tree.diseased {
            set(line, Column::Diseased, "yes");
        }
        set(line, Column::Note, tree.note.clone());
    }

    fn shoot(&self, n: usize, shoot: &Shoot) -> Line {
        let mut line = Line::default();
        let kind = shoot.kind();
        let held = self.held(shoot);
        match shoot.parent {
            None => self.whole(&mut line, &held),
            Some(parent) => {
                set(&mut line, Column::Tree, self.tree.id.to_string());
                if let Some((p, name)) = self.names.get(&parent) {
                    set(&mut line, Column::Parent, name.text());
                    set(&mut line, Column::Place, self.place(n, *p, shoot));
                }
                set(&mut line, Column::Pose, held);
                let toward = match shoot.pose {
                    Pose::Laid { toward, .. } => way(toward),
                    _ => "",
                };
                let face = match shoot.face {
                    Face::Top => "",
                    Face::Side => "side",
                    Face::Under => "under",
                };
                set(&mut line, Column::Side, format!("{toward} {face}").trim());
                set(&mut line, Column::Note, shoot.note.clone());
            }
        }
        set(&mut line, Column::Kind, kind_name(kind));
        if let (Some(first), Some(last)) = (shoot.units.first(), shoot.units.last()) {
            let leaves = first.leaf..=last.leaf;
            let unit = |leaf| shoot.units.iter().find(|u| u.leaf == leaf);
            let seasons = |of: fn(&GrowthUnit) -> f64| -> Vec<f64> {
                leaves.clone().map(|l| unit(l).map_or(0.0, of)).collect()
            };
            let joined = |lengths: &[f64]| -> String {
                let lengths: Vec<String> =
                    lengths.iter().map(|l| self.style.length(*l, 3)).collect();
                lengths.join(" + ")
            };
            set(&mut line, Column::Length, joined(&seasons(|u| u.kept)));
            let cuts = seasons(|u| u.grown - u.kept);
            let count = cuts.iter().rposition(|c| *c > 0.0).map_or(0, |n| n + 1);
            set(&mut line, Column::Cut, joined(&cuts[..count]));
            let when = leaves.clone().map(|l| unit(l).and_then(|u| u.cut));
            let when: Vec<Option<Moment>> = when.collect();
            set(&mut line, Column::WhenCut, pieces::when_text(&when));
            set(&mut line, Column::Season, first.leaf.to_string());
        }
        if shoot.diameter > 0.0 {
            set(
                &mut line,
                Column::Diameter,
                self.style.thickness(shoot.diameter),
            );
        } else if !shoot.units.is_empty() {
            set(&mut line, Column::Diameter, pieces::NONE);
        }
        if let Some(origin) = shoot.origin {
            set(&mut line, Column::Origin, pieces::origin_name(origin));
        }
        if let Some(radius) = shoot.bend_radius {
            let text = self.style.thickness(radius);
            set(&mut line, Column::BendRadius, text);
        }
        if shoot.rubbed {
            set(&mut line, Column::Rubbed, "yes");
        }
        let laterals = shoot.laterals;
        if laterals.count > 0 {
            let mut text = laterals.count.to_string();
            if laterals.total > 0.0 {
                text = format!("{text}/{}", self.style.length(laterals.total, 3));
            }
            set(&mut line, Column::Laterals, text);
        }
        line
    }

    /// What the pose column says, but for the planting angle.
    fn held(&self, shoot: &Shoot) -> String {
        let stem = shoot.parent.is_none();
        let angled = |word: &str, angle: Deg| match angle == Deg::default() {
            true => word.to_string(),
            false => format!("{word} {}", self.style.angle(angle)),
        };
        match shoot.pose {
            Pose::Laid { toward, rise } if stem && toward != self.tree.planted.toward => {
                angled(&format!("laid {}", way(toward)), rise)
            }
            Pose::Laid { rise, .. } => angled("laid", rise),
            Pose::Upright { lean } if stem || lean != Deg::default() => angled("upright", lean),
            Pose::Upright { .. } => String::new(),
            Pose::Stub => "stub".into(),
            Pose::Free => "free".into(),
        }
    }

    /// The place along the row that is read back as the same place on the parent; where there is none, as beside an
    /// upright stem, the distance along the parent.
    fn place(&self, n: usize, parent: usize, shoot: &Shoot) -> String {
        let x = self.courses[n].base.x;
        let parent = &self.courses[parent];
        let kind = shoot.kind();
        for places in 3..=5 {
            let text = self.style.length(x, places);
            let read = pieces::place(&text, BareUnit::Metre).ok().flatten();
            if let Some(place @ Place::Row(_)) = read
                && fit::at(parent, kind, Some(place)).is_ok_and(|at| at.is_at(shoot.at))
            {
                return text;
            }
        }
        format!("along {}", self.style.length(shoot.at, 3))
    }
}

impl Style {
    /// A length with so many decimals of a metre, or feet and inches as fine.
    pub(super) fn length(self, mm: f64, places: usize) -> String {
        let text = match self.lengths {
            LengthStyle::Metric => format!("{:.places$}", mm / 1000.0),
            LengthStyle::FeetInches => {
                let digits = places - 1;
                let scale = libm::pow(10.0, digits as f64);
                let inches = libm::round(mm.abs() / 25.4 * scale) / scale;
                let feet = libm::floor(inches / 12.0);
                let rest = libm::round((inches - feet * 12.0) * scale) / scale;
                let sign = if mm < 0.0 { "-" } else { "" };
                match feet > 0.0 {
                    true => format!("{sign}{feet} ft {rest} in"),
                    false => format!("{sign}{rest} in"),
                }
            }
        };
        self.marked(text)
    }

    /// A length to the millimetre with its unit.
    pub(super) fn length_with_unit(self, mm: f64) -> String {
        match self.lengths {
            LengthStyle::Metric => self.length(mm, 3) + " m",
            LengthStyle::FeetInches => self.length(mm, 3),
        }
    }

    fn thickness(self, mm: f64) -> String {
        self.marked(match self.lengths {
            LengthStyle::Metric => format!("{mm:.1}"),
            LengthStyle::FeetInches => format!("{:.3} in", mm / 25.4),
        })
    }

    fn angle(self, angle: Deg) -> String {
        self.marked(angle.degrees().to_string())
    }

    pub(super) fn marked(self, text: String) -> String {
        match self.decimal_comma {
            true => text.replace('.', ","),
            false => text,
        }
    }
}

fn way(toward: Toward) -> &'static str {
    match toward {
        Toward::Left => "left",
        Toward::Right => "right",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_as_a_general_writer_has_it() {
        let cells = [
            "",
            "a",
            " a ",
            "a b",
            "1.5",
            "1,5",
            "1;5",
            "\"",
            "a \"b\" c",
            "a\nb",
            "a\r\nb",
            "\r",
            "'a",
            "é",
            "#a",
            "a\tb",
        ];
        for mark in [',', ';'] {
            for first in cells {
                for rest in [&[][..], &[""], &["", ""], &["b", ","], &cells] {
                    let line: Vec<String> = [&[first], rest]
                        .concat()
                        .iter()
                        .map(|c| c.to_string())
                        .collect();
                    let mut writer = csv::WriterBuilder::new()
                        .delimiter(mark as u8)
                        .from_writer(Vec::new());
                    let inert = line.iter().map(|c| record::inert(c).into_owned());
                    writer.write_record(inert).expect("memory");
                    let bytes = writer.into_inner().expect("memory");
                    let mut out = String::new();
                    put_line(&mut out, mark, &line);
                    assert_eq!(out.as_bytes(), bytes, "{line:?}");
                }
            }
        }
    }
}
