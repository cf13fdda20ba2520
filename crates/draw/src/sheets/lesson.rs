//! Trees of a pass to learn it by: one done right and wrong, one solved, some to try.

use super::handed::{ASCENT, BODY, Handed, LINE, STRONG, cell, find};
use super::page::Lines;
use super::picture::{self, after, alone};
use crate::block::{Block, at};
use crate::element::group;
use crate::frame;
use crate::key;
use crate::measure::wrap;
use crate::paper::{MARGIN, Paper};
use cordonry::crew::{Job, Stop};
use cordonry::pose::PosedRow;
use cordonry::said::Arg;
use cordonry::work::Work;
use kurbo::Point;
use svg::node::Node;

/// Pictures beside each other, and the room between them, pixels.
const ACROSS: usize = 4;
const BETWEEN: f64 = 14.0;
/// Trees to try the job on, beside the one that is solved.
const TRIED: usize = 3;

/// Trees that the pass works on, for whoever learns it.
pub(super) struct Tried {
    trees: Vec<(PosedRow, Vec<Work>)>,
}

impl Tried {
    pub(super) fn of(handed: &Handed<'_>) -> Option<Self> {
        if matches!(handed.pass.job, Job::Wires | Job::Plant | Job::GrubOut) {
            return None;
        }
        let stops = handed.pass.stops.iter();
        let tree = |s: &Stop| Some((alone(&handed.pass.row, s.tree?)?, s.work.clone()));
        let trees: Vec<_> = stops.filter_map(tree).take(1 + TRIED).collect();
        (!trees.is_empty()).then_some(Self { trees })
    }

    /// The first tree as it is found, done right and done wrong, then itself solved beside those to try.
    pub(super) fn shown(&self, handed: &Handed<'_>, paper: Paper) -> Vec<Block> {
        let (found, work) = &self.trees[0];
        let (moment, terms) = (handed.pass.moment, handed.terms());
        let plain = |key: &str| handed.words.plain(key);
        let mut first = vec![
            (plain("crew-found"), found.clone(), vec![]),
            (
                plain("crew-right"),
                after(found, work, moment, &terms),
                vec![],
            ),
        ];
        let bad: Vec<Work> = work.iter().filter_map(|w| wrong(w, found, work)).collect();
        if !bad.is_empty() {
            let told = handed.text("crew-wrong", &[handed.job()]);
            first.push((told, after(found, &bad, moment, &terms), vec![]));
        }
        let mut second = vec![(
            format!("{} {}", plain("crew-solved"), asked(handed, found, work)),
            found.clone(),
            work.clone(),
        )];
        for (n, (row, work)) in self.trees.iter().enumerate().skip(1) {
            let told = handed.text("crew-try", &[("number", Arg::Count(n as i64))]);
            second.push((
                format!("{told} {}", asked(handed, row, work)),
                row.clone(),
                vec![],
            ));
        }
        let mut out = pictures(handed, paper, &first, 1);
        // Which stroke is the cut is told where it is first drawn.
        let mut lines = Lines::new(paper);
        if matches!(handed.pass.job, Job::Stub | Job::CutBack | Job::Tip) {
            lines.text(&handed.text("crew-stroke", &[handed.job()]), STRONG);
            out.push(lines.block());
        } else {
            out.extend(key::block(work, paper.usable_width(), handed.words));
        }
        out.extend(pictures(handed, paper, &second, 1));
        out
    }

    /// Those to try, with the signs of what is done.
    pub(super) fn answers(&self, handed: &Handed<'_>, paper: Paper) -> Vec<Block> {
        let answer = |(n, (row, work)): (usize, &(PosedRow, Vec<Work>))| {
            let told = handed.text("crew-answer", &[("number", Arg::Count(n as i64))]);
            (told, row.clone(), work.clone())
        };
        let all: Vec<_> = self.trees.iter().enumerate().skip(1).map(answer).collect();
        pictures(handed, paper, &all, TRIED)
    }
}

/// What is asked on a tree, in a line.
fn asked(handed: &Handed<'_>, row: &PosedRow, work: &[Work]) -> String {
    let pieces = work.iter().map(|w| cell(handed, row, w, true));
    let pieces: Vec<String> = pieces.collect();
    format!("{}, {}", find(handed, row), pieces.join("; "))
}

/// The same cut as it must not be.
fn wrong(work: &Work, row: &PosedRow, all: &[Work]) -> Option<Work> {
    Some(match *work {
        // Flush: nothing can return.
        Work::Stub { tree, shoot, .. }
        | Work::CutBack { tree, shoot, .. }
        | Work::CutToBuds { tree, shoot, .. } => Work::Remove { tree, shoot },
        Work::TakeLaterals { tree, shoot } => Work::Tip {
            tree,
            shoot,
            percent: 60,
        },
        Work::Tip { tree, shoot, .. } | Work::HoldHeight { tree, shoot, .. } => Work::Tip {
            tree,
            shoot,
            percent: 90,
        },
        Work::Remove { tree, .. } => {
            // Another upright, one for all.
            let posed = row.of_tree(tree)?;
            let meant = |i: &&usize| {
                let id = posed.tree().shoots[**i].id;
                all.iter().all(|w| w.subject().shoot != id)
            };
            let other = posed.uprights().iter().find(meant)?;
            Work::Remove {
                tree,
                shoot: posed.tree().shoots[*other].id,
            }
        }
        _ => return None,
    })
}

/// A drawing with the words over it, and the work whose signs it bears.
type Picture = (String, PosedRow, Vec<Work>);

/// Drawings beside each other, as many as have room without a tree being cut off, the others under them; the first `numbered` bear
/// the uprights' numbers.
fn pictures(handed: &Handed<'_>, paper: Paper, all: &[Picture], numbered: usize) -> Vec<Block> {
    let usable = paper.usable_width();
    let widest = all.iter().map(|p| picture::width(&p.1));
    let widest = widest.fold(1.0, f64::max);
    let across = ((usable + BETWEEN) / (widest + BETWEEN)) as usize;
    let across = across.clamp(1, ACROSS);
    let wide = (usable - BETWEEN * (across - 1) as f64) / across as f64;
    let lines = all.chunks(across).enumerate();
    lines
        .map(|(n, line)| {
            let numbered = numbered.saturating_sub(n * across);
            beside(handed, line, numbered, wide)
        })
        .collect()
}

fn beside(handed: &Handed<'_>, all: &[Picture], numbered: usize, wide: f64) -> Block {
    let mut element = group("crew-pictures");
    let told: Vec<Vec<String>> = all.iter().map(|p| wrap(&p.0, BODY, wide)).collect();
    let lines = told.iter().map(Vec::len).max().unwrap_or(0);
    let tallest = all.iter().map(|p| frame::top_of(&p.1, p.1.geometry()));
    let tallest = tallest.fold(0.0, f64::max);
    let terms = handed.terms();
    let mut high: f64 = 0.0;
    for (i, ((_, row, signs), told)) in all.iter().zip(&told).enumerate() {
        let x = MARGIN + (wide + BETWEEN) * i as f64;
        for (n, line) in told.iter().enumerate() {
            element.append(at("crew-body", x, ASCENT + LINE * n as f64, line));
        }
        let work = (&signs[..], handed.pass.moment, &terms);
        let (drawn, height) =
            picture::picture(row, work, i < numbered, (wide, tallest), handed.words);
        let y = LINE * lines as f64 + 4.0;
        let block = Block {
            element: drawn,
            height,
        };
        element.append(block.placed(Point::new(x, y)));
        high = high.max(y + height);
    }
    Block {
        element,
        height: high + 8.0,
    }
}
