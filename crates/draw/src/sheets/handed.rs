//! A pass as it is handed out, and how its trees and pieces are named on its sheets.

use super::picture;
use super::planted::side;
use crate::measure::Face;
use crate::worklist::Piece;
use cordonry::crew::{Job, Pass, Season, Side, Stop};
use cordonry::plan::Plan;
use cordonry::pose::{Called, Name, PosedRow};
use cordonry::row::{Planted, Toward, TreeId};
use cordonry::said::Arg;
use cordonry::terms::Terms;
use cordonry::work::Work;
use cordonry_words::Words;

/// Letters that are read at arm's length: class `crew-body`.
pub(super) const BODY: Face = Face {
    size: 16.0,
    strong: false,
};
pub(super) const STRONG: Face = Face {
    size: 16.0,
    strong: true,
};
/// From a line to the next, and the height of letters over their base line: pixels.
pub(super) const LINE: f64 = 20.0;
pub(super) const ASCENT: f64 = 15.0;
/// A pass that is handed out on paper.
#[derive(Clone, Copy)]
pub struct Handed<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// The pass.
    pub pass: &'a Pass,
    /// Its place among the passes of the leaf, from 1, and how many there are.
    pub number: (usize, usize),
    /// Language and units.
    pub words: &'a Words,
}

impl<'a> Handed<'a> {
    /// A pass of a leaf, by its place among its passes.
    pub fn at(plan: &'a Plan, season: &'a Season, at: usize, words: &'a Words) -> Option<Self> {
        Some(Self {
            plan,
            pass: season.passes.get(at)?,
            number: (at + 1, season.passes.len()),
            words,
        })
    }

    /// Every pass of a leaf.
    pub fn all(plan: &'a Plan, season: &'a Season, words: &'a Words) -> impl Iterator<Item = Self> {
        (0..season.passes.len()).filter_map(move |at| Self::at(plan, season, at, words))
    }
}

impl Handed<'_> {
    pub(super) fn text(&self, key: &str, args: &[(&'static str, Arg)]) -> String {
        self.words.text(key, args)
    }

    pub(super) fn job(&self) -> (&'static str, Arg) {
        ("job", Arg::Text(self.pass.job.name().into()))
    }

    /// The pass with its number.
    pub fn name(&self) -> String {
        let job = self.text("crew-job", &[self.job()]);
        let job = match self.pass.diseased {
            true => self.text("crew-job-diseased", &[("job", Arg::Text(job))]),
            false => job,
        };
        format!("{}. {job}", self.number.0)
    }

    /// What a stop is called: the tree by its bay and number, or the trellis.
    pub fn called(&self, stop: &Stop) -> String {
        match stop.tree {
            Some(tree) => tree_name(self, tree),
            None => self.words.plain("crew-trellis"),
        }
    }

    /// What the pass takes: tools, people with their minutes, ties.
    pub fn takes(&self) -> String {
        let pass = self.pass;
        let minutes = pass.minutes_each().ceil();
        let args = [
            ("tools", Arg::Text(self.text("crew-tool", &[self.job()]))),
            ("people", Arg::Count(pass.people as i64)),
            ("minutes", Arg::Number(minutes, 0)),
            ("ties", Arg::Count(pass.ties as i64)),
            ("sleeves", Arg::Count(pass.sleeves as i64)),
        ];
        self.text("crew-with", &args)
    }

    /// How many pieces it has, on how many trees.
    pub fn counts(&self) -> [(&'static str, Arg); 2] {
        let count = |n: usize| Arg::Count(n as i64);
        let (pieces, trees) = (self.pass.count(), self.pass.trees());
        [("count", count(pieces)), ("trees", count(trees))]
    }

    /// A stop's tree as markup, as the pass finds it: its uprights numbered, a sign at each piece. None of the trellis.
    pub fn picture(&self, stop: &Stop) -> Option<String> {
        let alone = picture::alone(&self.pass.row, stop.tree?)?;
        let pictured = picture::Pictured {
            alone: &alone,
            among: &self.pass.row,
            signs: &stop.work,
            moment: self.pass.moment,
            terms: &self.terms(),
            numbers: true,
            words: self.words,
        };
        Some(pictured.on_screen())
    }

    /// How many uprights a stop's tree is found with, to know it by; and what laterals.
    pub fn found(&self, stop: &Stop) -> Option<String> {
        let posed = self.pass.row.of_tree(stop.tree?)?;
        let found = found_in(self, posed.names());
        Some(match laterals_of(self, stop.work.iter()) {
            Some(laterals) => format!("{found}. {laterals}"),
            None => found,
        })
    }

    /// What is done at one place: which shoot, how far from the trunk and how thick, and what, where that is not the same on all.
    pub fn piece(&self, work: &Work) -> String {
        cell(self, &self.pass.row, work, false)
    }

    pub(super) fn terms(&self) -> Terms {
        self.plan.terms(&self.pass.row.trellis)
    }

    /// What is done on each piece, where that is the same on all.
    pub fn common(&self) -> Option<String> {
        let mut all = self.pass.work().map(|w| self.words.work(w));
        let first = all.next()?;
        all.all(|w| w == first).then_some(first)
    }
}

/// How many uprights and stubs are found, on each side of the trunk where wood goes both ways.
pub(super) fn find(handed: &Handed<'_>, row: &PosedRow) -> String {
    let names = row.posed().first().map_or(&[][..], |p| p.names());
    found_in(handed, names)
}

pub(super) fn found_in(handed: &Handed<'_>, names: &[Name]) -> String {
    let counted = |n: &&Name| matches!(n.called, Called::Upright | Called::Stub);
    let of = |side: Option<Toward>| {
        names
            .iter()
            .filter(counted)
            .filter(|n| n.side == side)
            .count()
    };
    let count = |n: usize| Arg::Count(n as i64);
    let (left, right) = (of(Some(Toward::Left)), of(Some(Toward::Right)));
    match left + right {
        0 => handed.text("crew-find", &[("count", count(of(None)))]),
        _ => handed.text(
            "crew-find-sides",
            &[("left", count(left)), ("right", count(right))],
        ),
    }
}

/// What one box says. `short` leaves out by what else the place is known.
pub(super) fn cell(handed: &Handed<'_>, row: &PosedRow, work: &Work, short: bool) -> String {
    said(
        handed,
        row,
        work,
        if short { Says::Short } else { Says::All },
    )
}

/// The place of a piece of work by its number alone, and what is done there where that is not the same on all.
pub(super) fn numbered(handed: &Handed<'_>, row: &PosedRow, work: &Work) -> String {
    said(handed, row, work, Says::Number)
}

/// How much is said of a piece.
#[derive(Clone, Copy, PartialEq)]
enum Says {
    Number,
    Short,
    All,
}

fn said(handed: &Handed<'_>, row: &PosedRow, work: &Work, says: Says) -> String {
    let words = handed.words;
    if let Some((planted, foot, length)) = planted_by(work, row) {
        let args = [
            ("foot", Arg::Length(foot)),
            ("angle", Arg::Angle(planted.angle.degrees())),
            ("side", side(planted.toward)),
            ("length", Arg::Length(length)),
        ];
        return words.text("crew-plant", &args);
    }
    let piece = Piece::of(work, row, words);
    let posed = piece.tree.and_then(|t| row.of_tree(t));
    let mut out = match piece.name {
        Some(name) if matches!(name.called, Called::Upright | Called::Stub) => {
            let side = match name.side {
                Some(Toward::Left) => "left",
                Some(Toward::Right) => "right",
                None => "",
            };
            let args = [
                ("number", Arg::Count(name.number.into())),
                ("side", Arg::Text(side.into())),
            ];
            words.text("crew-number", &args)
        }
        Some(name) => words.say(&name.on_tree()),
        None => words.work(work),
    };
    let cut = handed.pass.shortened(work, &handed.terms());
    // What is measured tells by itself what is done.
    let same = cut.is_some() || handed.common().is_some();
    if !same && piece.name.is_some() {
        out = format!("{out}: {}", words.work(work));
    }
    if says == Says::Number {
        return out;
    }
    if let Some(side) = handed.pass.laterals(work) {
        let count = ("count", Arg::Count(side.count.into()));
        out = words.text("crew-laterals-of", &[("piece", Arg::Text(out)), count]);
    }
    if says == Says::Short {
        return out;
    }
    if let Some(cut) = cut {
        let args = [
            ("piece", Arg::Text(out)),
            ("off", Arg::Length(cut.off)),
            ("height", Arg::Length(cut.height)),
        ];
        return words.text("crew-cut-of", &args);
    }
    if let (Some(posed), Some(x)) = (posed, piece.x) {
        let off = (x - posed.tree().foot.f()).abs();
        out = format!("{out} · {}", words.length(off));
    }
    let thick = posed.and_then(|p| p.tree().shoot(work.subject().shoot));
    let thick = thick.map_or(0.0, |s| s.diameter);
    if thick > 0.0 && matches!(handed.pass.job, Job::Stub | Job::CutBack | Job::TakeOff) {
        out = format!("{out} · {}", words.thickness(thick));
    }
    out
}

/// How a piece of work plants a tree, where its foot comes along the row, and how long its stock is, mm; nothing of other work.
pub(super) fn planted_by(work: &Work, row: &PosedRow) -> Option<(Planted, f64, f64)> {
    match *work {
        Work::Plant {
            planted,
            foot_mm,
            length_mm,
            ..
        } => Some((planted, foot_mm.f(), length_mm.f())),
        Work::ReplaceTree {
            tree,
            planted,
            length_mm,
            ..
        } => Some((planted, row.of_tree(tree)?.tree().foot.f(), length_mm.f())),
        _ => None,
    }
}

/// What is to be known of the laterals that some work takes off: how many in all, how long and thick, up to where.
pub(super) fn laterals_of<'w, I>(handed: &Handed<'_>, work: I) -> Option<String>
where
    I: Iterator<Item = &'w Work> + Clone,
{
    let all = || work.clone().filter_map(|work| handed.pass.laterals(work));
    all().next()?;
    let count: u32 = all().map(|s| u32::from(s.count)).sum();
    let mean = |of: fn(&Side) -> f64| {
        let sum: f64 = all().map(|s| of(&s) * f64::from(s.count)).sum();
        sum / f64::from(count)
    };
    let high = all().map(|s| s.up_to).fold(0.0, f64::max);
    let length = mean(|s| s.length);
    let args = [
        ("count", Arg::Count(count.into())),
        ("measured", Arg::yes(length > 0.0)),
        ("length", Arg::Length(length)),
        ("thick", Arg::Thickness(mean(|s| s.thickness))),
        ("high", Arg::Length(high)),
    ];
    Some(handed.text("crew-laterals-all", &args))
}

/// What a tree is called on the sheet: its bay and place there, and its number.
pub(super) fn tree_name(handed: &Handed<'_>, tree: TreeId) -> String {
    let row = &handed.pass.row;
    let number = ("tree", Arg::Count(tree.0.into()));
    match row.of_tree(tree).and_then(|p| row.bay(p.tree())) {
        Some(bay) => {
            let count = |n: usize| Arg::Count(n as i64);
            let args = [
                number,
                ("bay", count(bay.number)),
                ("place", count(bay.place)),
            ];
            handed.text("crew-in-bay", &args)
        }
        None => handed.text("crew-tree", &[number]),
    }
}
