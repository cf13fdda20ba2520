//! Trees that were delivered, laid out over the places that they are for.

use super::Stock;
use crate::plan::{Correction, Moment, Plan, Window};
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Row, ShootId};
use crate::said::{Arg, Quantity, Said};
use crate::solve::assign::assign;
use crate::units::Mm;
use std::sync::Arc;

/// What headed stock costs where unheaded stock is needed, mm of length that lacks (judged).
const HEADED: i64 = 150;

/// Share of headed stock that was cut off, as far as growth asks for it (assumed: who plants does not know).
const CUT_OFF: f64 = 0.25;

/// A tree as it was delivered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Delivered {
    /// Length above the ground, mm.
    pub length: i64,
    /// Its end was cut off in the nursery.
    pub headed: bool,
}

/// What one place gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placed {
    /// Which of the delivered trees, from 0; `None` where there are too few.
    pub tree: Option<usize>,
    /// By how much it is too short, mm.
    pub short: i64,
    /// It is headed, and unheaded stock is needed.
    pub headed: bool,
}

/// What each place gets so that all together lack the least, and how much that is: mm that are too short, and 150 for each headed
/// tree where an unheaded one is needed. `needs` are lengths in mm, each with whether it has to be unheaded.
pub fn place(needs: &[(i64, bool)], trees: &[Delivered]) -> (Vec<Placed>, i64) {
    let short = |place: usize, tree: usize| (needs[place].0 - trees[tree].length).max(0);
    let headed = |place: usize, tree: usize| needs[place].1 && trees[tree].headed;
    let cost = |place: usize, tree: usize| {
        short(place, tree) + if headed(place, tree) { HEADED } else { 0 }
    };
    let (pairs, total) = assign(needs.len(), trees.len(), &cost);
    let placed = pairs.iter().enumerate().map(|(place, tree)| Placed {
        tree: *tree,
        short: tree.map_or(0, |t| short(place, t)),
        headed: tree.is_some_and(|t| headed(place, t)),
    });
    (placed.collect(), total)
}

impl Stock {
    /// What it needs, as [`place`] asks for it: rounded up to whole millimetres.
    pub fn need(&self) -> (i64, bool) {
        (libm::ceil(self.length) as i64, self.unheaded())
    }

    /// Where the wire stays bare until the end has grown, along the row, mm: of stock with one leader that is too short.
    pub fn gap(&self, short: i64) -> Option<(f64, f64)> {
        let goal = self.goal.filter(|_| short > 0)?;
        let end = goal - self.toward.sign() * short as f64;
        Some((end.min(goal), end.max(goal)))
    }
}

/// A list of delivered trees: a length a line, in whatever way `read` knows, and behind it a word for headed, if it is. Empty lines
/// and a line of names on top are passed over; of each other line that is no tree it is said why.
pub fn listed(
    text: &str,
    is_headed: &dyn Fn(&str) -> bool,
    read: &dyn Fn(&str) -> Result<f64, Said>,
) -> (Vec<Delivered>, Vec<Said>) {
    let (mut trees, mut bad) = (Vec::new(), Vec::new());
    for (n, line) in text.lines().enumerate() {
        let line = line.trim();
        // A word stands behind the length's own sign or unit, or apart from it.
        let word = line.rsplit([' ', ',', ';', '\t']).next().unwrap_or("");
        let headed = is_headed(word);
        let length = match headed {
            true => &line[..line.len() - word.len()],
            false => line,
        };
        let length = length.trim_end_matches([' ', ',', ';', '\t']);
        let names = n == 0 && !line.contains(|c: char| c.is_ascii_digit());
        if length.is_empty() && !headed || names {
            continue;
        }
        let at = ("line", Arg::Count(n as i64 + 1));
        match read(length) {
            Ok(mm) if range::has(range::STOCK_LENGTH, mm) => trees.push(Delivered {
                length: libm::round(mm) as i64,
                headed,
            }),
            Ok(mm) => {
                let (low, high) = range::STOCK_LENGTH;
                let arg = |mm| Quantity::Length.arg(mm);
                let args = vec![
                    at,
                    ("value", arg(mm)),
                    ("low", arg(low)),
                    ("high", arg(high)),
                ];
                bad.push(Said::new("refusal-delivered-range", args));
            }
            Err(why) => {
                let args = vec![at, ("reason", why.into())];
                bad.push(Said::new("refusal-delivered", args));
            }
        }
        if trees.len() + bad.len() > Row::MAX_TREES {
            let most = ("high", Arg::Count(Row::MAX_TREES as i64));
            return (trees, vec![Said::new("refusal-trees", vec![most])]);
        }
    }
    (trees, bad)
}

/// Whether a row is just planted: stems alone, none of which has grown here.
pub fn just_planted(row: &Row) -> bool {
    row.leaf == 1 && row.trees.iter().all(|t| t.shoots.len() <= 1)
}

/// The plan with its row, just planted, found as it was delivered: each stem as long as its tree, headed or not; a place that gets
/// none without its tree.
///
/// # Errors
/// A length that no stem has.
pub fn recorded(
    plan: &Plan,
    stocks: &[Stock],
    placed: &[Placed],
    trees: &[Delivered],
) -> Result<Plan, Refusal> {
    let mut plan = plan.clone();
    for (stock, place) in stocks.iter().zip(placed) {
        let id = stock.tree;
        let stands = plan.found.tree(id).is_some_and(|t| !t.is_lost());
        let Some(got) = place.tree.and_then(|t| trees.get(t)) else {
            if stands {
                plan = plan.corrected(&Correction::Lost { tree: id })?;
            }
            continue;
        };
        if !stands {
            plan = plan.corrected(&plan.standing_like_others(id))?;
        }
        plan = plan.corrected(&Correction::Length {
            tree: id,
            shoot: ShootId::STEM,
            to_mm: Mm(got.length as i32),
        })?;
        let mut row = (*plan.found).clone();
        let own = row.trees.iter_mut().find(|t| t.id == id);
        let unit = own.and_then(|t| Arc::make_mut(t).shoots.first_mut()?.units.last_mut());
        if let Some(unit) = unit {
            let whole = if got.headed { 1.0 - CUT_OFF } else { 1.0 };
            unit.grown = libm::round(unit.kept / whole);
            unit.cut = got.headed.then_some(Moment {
                leaf: 1,
                window: Window::Dormant,
            });
        }
        plan.found = Arc::new(row);
    }
    Ok(plan)
}
