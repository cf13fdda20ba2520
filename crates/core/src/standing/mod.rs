//! Standing work: what a window does of itself where nobody has planned it. It is the usual training of one tree, told from that
//! tree and the constants of its row alone, and is worked out anew wherever it is asked for: so when an early season changes,
//! the later ones follow.
//!
//! It is ordinary work, in the order in which a window's work is done, and all of it can be done. Leaves are those of the
//! tree: one that was planted later is trained from its own first leaf on.
//!
//! - *Dormant*: from the second leaf on the end is cut at the next tree, and side and underside shoots come off; before the second
//!   few uprights are cut back to buds; stubs by [`crate::renewal`]; laterals; tips, or the height is held.
//! - *Bud swell*: buds are rubbed out, and kept where the wall has room for uprights.
//! - *Early summer*: stock is laid, of stock that forks both leaders, headed or short stock a leaf later; of a stub's returns one is kept, and what came beside a held
//!   upright goes where the tree has enough.
//! - *After harvest*: nothing.

mod buds;
mod cordon;
mod renew;
mod rules;
mod summer;
mod winter;

pub use rules::{Rule, RuleInfo, RuleUnit, Rules};
pub use winter::have_height;

use crate::arrange::Arrange;
use crate::row::{Limit, Moment, Targets, Tree, Trellis, Window};
use crate::terms::Terms;
use crate::units::Mm;
use crate::work::{Work, work_on};
use std::borrow::Cow;
use std::sync::Arc;

/// What standing work goes by besides the tree and the terms.
#[derive(Clone, Debug, PartialEq)]
pub struct Standard {
    /// The rules of the scheme.
    pub rules: Rules,
    /// The limits of the scheme ([`Rules::limits`]).
    pub targets: Arc<Targets>,
}

/// The standing work of a moment on a tree, in the order in which it is done. `rules` say what is done.
pub fn work(tree: &Tree, moment: Moment, terms: &Terms, rules: &Standard) -> Vec<Work> {
    done(tree, moment, terms, rules).map_or_else(Vec::new, |(_, work)| work)
}

/// The tree after the standing work of a moment, and that work; `None` where there is none to do.
pub fn done(
    tree: &Tree,
    moment: Moment,
    terms: &Terms,
    rules: &Standard,
) -> Option<(Tree, Vec<Work>)> {
    if moment.window == Window::AfterHarvest {
        return None;
    }
    let planted = tree.shoots.first()?.born()?;
    let mut job = Job {
        leaf: moment.leaf.saturating_sub(planted),
        tree: Cow::Borrowed(tree),
        moment,
        terms,
        rules: &rules.rules,
        targets: &rules.targets,
        work: Vec::new(),
    };
    match moment.window {
        Window::Dormant => winter::work(&mut job),
        Window::BudSwell => buds::work(&mut job),
        Window::EarlySummer => summer::work(&mut job),
        Window::AfterHarvest => {}
    }
    (!job.work.is_empty()).then(|| (job.tree.into_owned(), job.work))
}

/// The standing work of a moment on the trellis: each winter one more wire as far above the top one as wires are to stand, of
/// its kind, until they reach the wall's height. `leaf` is the row's.
pub fn wires(trellis: &Trellis, moment: Moment, rules: &Standard) -> Option<Work> {
    let is_time = moment.window == Window::Dormant && moment.leaf >= 2;
    if !is_time || !rules.rules.does(Rule::Wires) || trellis.wires.len() >= Trellis::MAX_WIRES {
        return None;
    }
    let top = trellis.wires.last()?;
    let height = Mm::round(top.height.f() + rules.targets.get(Limit::WireSpacing));
    (height <= trellis.wall_height).then_some(Work::AddWire {
        height_mm: height,
        covering: top.covering,
    })
}

/// One window's standing work on one tree, on the way.
struct Job<'a> {
    /// As it is by now.
    tree: Cow<'a, Tree>,
    /// The tree's own leaf.
    leaf: u8,
    moment: Moment,
    terms: &'a Terms,
    rules: &'a Rules,
    targets: &'a Targets,
    work: Vec<Work>,
}

impl Job<'_> {
    /// Does work of one or more stages, which none before belongs to, in the order in which a window has it. What can't be done
    /// is left out: what another piece took away with it.
    fn carry_out(&mut self, mut works: Vec<Work>) {
        if works.is_empty() {
            return;
        }
        works.arrange_by_key(Work::subject);
        works.dedup_by_key(|w| w.subject());
        for work in works {
            if work_on(self.tree.to_mut(), self.moment, self.terms, &work).is_ok() {
                self.work.push(work);
            }
        }
    }

    fn limit(&self, limit: Limit) -> f64 {
        self.targets.get(limit)
    }
}
