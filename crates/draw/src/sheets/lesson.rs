//! Trees of a pass to learn it by: one done right and wrong, one solved, some to try.

use super::flow::Flow;
use super::handed::{ASCENT, BODY, Handed, LINE, STRONG, cell, find, numbered};
use super::page::Lines;
use super::picture::{self, Pictured, after, alone};
use crate::block::{Block, at};
use crate::element::group;
use crate::key::{self, Sign};
use crate::measure::wrap;
use crate::paper::{MARGIN, Paper};
use cordonry::crew::{Job, Stop};
use cordonry::pose::PosedRow;
use cordonry::said::Arg;
use cordonry::terms::Terms;
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
    laid: Laid,
}

impl Tried {
    pub(super) fn of(handed: &Handed<'_>, paper: Paper) -> Option<Self> {
        if matches!(handed.pass.job, Job::Wires | Job::Plant | Job::GrubOut) {
            return None;
        }
        let stops = handed.pass.stops.iter();
        let tree = |s: &Stop| Some((alone(&handed.pass.row, s.tree?)?, s.work.clone()));
        let trees: Vec<_> = stops.filter_map(tree).take(1 + TRIED).collect();
        (!trees.is_empty()).then(|| Self {
            laid: Laid::of(handed, &trees, paper),
            trees,
        })
    }

    /// Millimetres of wall in a pixel of its drawings.
    pub(super) fn px(&self) -> f64 {
        self.laid.px
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
            format!(
                "{} {}",
                plain("crew-solved"),
                found_and_done(handed, found, work)
            ),
            found.clone(),
            work.clone(),
        )];
        for (n, (row, work)) in self.trees.iter().enumerate().skip(1) {
            let pieces = work.iter().map(|w| numbered(handed, row, w));
            let pieces: Vec<String> = pieces.collect();
            let args = [
                ("number", Arg::Count(n as i64)),
                ("pieces", Arg::Text(pieces.join("; "))),
            ];
            second.push((handed.text("crew-try", &args), row.clone(), vec![]));
        }
        let mut out = pictures(handed, paper, self.laid, &first, 1);
        // Which stroke is the cut is told where it is first drawn.
        let mut lines = Lines::new(paper);
        if matches!(handed.pass.job, Job::Stub | Job::CutBack | Job::Tip) {
            lines.text(&handed.text("crew-stroke", &[handed.job()]), STRONG);
            out.push(lines.block());
        } else {
            out.extend(key::block(
                &Sign::all_of(work),
                paper.usable_width(),
                handed.words,
            ));
        }
        out.extend(pictures(handed, paper, self.laid, &second, 1));
        out
    }

    /// Those to try, with the signs of what is done.
    pub(super) fn answers(&self, handed: &Handed<'_>, paper: Paper) -> Vec<Block> {
        let answer = |(n, (row, work)): (usize, &(PosedRow, Vec<Work>))| {
            let told = handed.text("crew-answer", &[("number", Arg::Count(n as i64))]);
            (
                format!("{told} {}", find(handed, row)),
                row.clone(),
                work.clone(),
            )
        };
        let all: Vec<_> = self.trees.iter().enumerate().skip(1).map(answer).collect();
        pictures(handed, paper, self.laid, &all, TRIED)
    }
}

/// What is found on a tree and done there, in a line.
fn found_and_done(handed: &Handed<'_>, row: &PosedRow, work: &[Work]) -> String {
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

/// How the drawings of a pass lie on paper: as many beside each other, mm of wall in a pixel, and how tall the tallest is.
#[derive(Clone, Copy)]
struct Laid {
    across: usize,
    px: f64,
    tallest: f64,
}

impl Laid {
    /// Four beside each other and two lines of them on a page, as far as trees are not drawn too small for that; else as many as have
    /// room without a tree being cut off.
    fn of(handed: &Handed<'_>, trees: &[(PosedRow, Vec<Work>)], paper: Paper) -> Self {
        let terms = handed.terms();
        let all = || {
            trees
                .iter()
                .map(|t| pictured(handed, &terms, &t.0, &[], false))
        };
        let tallest = all().map(|p| p.tallest()).fold(0.0, f64::max);
        let usable = paper.usable_width();
        let room = |across: usize| (usable - BETWEEN * (across - 1) as f64) / across as f64;
        let widest = |px: f64| all().map(|p| p.wide(px)).fold(1.0, f64::max) / px;
        let fits = |px: &f64| {
            let high = picture::high(tallest) / px + LINE * TOLD + 12.0;
            widest(*px) <= room(ACROSS) && 2.0 * high + KEY <= Flow::page_room(paper)
        };
        let smaller = |n: u32| picture::SCALE + f64::from(n) / 2.0;
        let tried = (0..).map(smaller).take_while(|px| *px <= picture::SMALLEST);
        let px = { tried }.find(fits).unwrap_or(picture::SCALE);
        let across = ((usable + BETWEEN) / (widest(px) + BETWEEN)) as usize;
        let across = across.clamp(1, ACROSS);
        Self {
            across,
            px,
            tallest,
        }
    }
}

/// Lines of words over a drawing that there is room for where two of them lie over each other, and height of what lies between.
const TOLD: f64 = 2.0;
const KEY: f64 = 30.0;

fn pictured<'a>(
    handed: &'a Handed<'_>,
    terms: &'a Terms,
    alone: &'a PosedRow,
    signs: &'a [Work],
    numbers: bool,
) -> Pictured<'a> {
    Pictured {
        alone,
        among: &handed.pass.row,
        signs,
        moment: handed.pass.moment,
        terms,
        numbers,
        words: handed.words,
    }
}

/// Drawings beside each other, the others under them; the first `numbered` bear the uprights' numbers.
fn pictures(
    handed: &Handed<'_>,
    paper: Paper,
    laid: Laid,
    all: &[Picture],
    numbered: usize,
) -> Vec<Block> {
    let usable = paper.usable_width();
    let wide = (usable - BETWEEN * (laid.across - 1) as f64) / laid.across as f64;
    let lines = all.chunks(laid.across).enumerate();
    lines
        .map(|(n, line)| {
            let numbered = numbered.saturating_sub(n * laid.across);
            beside(handed, laid, line, numbered, wide)
        })
        .collect()
}

fn beside(handed: &Handed<'_>, laid: Laid, all: &[Picture], numbered: usize, wide: f64) -> Block {
    let mut element = group("crew-pictures");
    let told: Vec<Vec<String>> = all.iter().map(|p| wrap(&p.0, BODY, wide)).collect();
    let lines = told.iter().map(Vec::len).max().unwrap_or(0);
    let terms = handed.terms();
    let mut high: f64 = 0.0;
    for (i, ((_, row, signs), told)) in all.iter().zip(&told).enumerate() {
        let x = MARGIN + (wide + BETWEEN) * i as f64;
        for (n, line) in told.iter().enumerate() {
            element.append(at("crew-body", x, ASCENT + LINE * n as f64, line));
        }
        let picture = pictured(handed, &terms, row, signs, i < numbered);
        let (drawn, height) = picture.drawn((wide, laid.tallest), laid.px);
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
