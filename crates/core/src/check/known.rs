//! What was judged of stretches of a row: known again where the same trees stand there. Most remedies that come to nothing are tried
//! again once something has changed elsewhere.

use super::graver::{judged_near, judged_work};
use super::{Context, Finding};
use crate::pose::Posed;
use crate::row::{Moment, Targets, Trellis};
use crate::sorted::Map;
use crate::units::Mm;
use std::rc::Rc;
use std::sync::Arc;

/// So much of one stretch is known at most; what was asked least lately is forgotten.
const MOST: usize = 12;

/// What of a stretch is judged.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum How {
    /// All that can be said of a part.
    Near,
    /// Without openings.
    Work,
}

/// What was judged of the stretches of one plan's row, by their ends.
#[derive(Default)]
pub(crate) struct Known {
    under: Option<(Trellis, Targets, Moment)>,
    stretches: Map<(Mm, Mm), Vec<Judged>>,
    /// What remedies leave is not kept.
    once: bool,
}

/// The trees of a stretch, and what was found.
struct Judged {
    how: How,
    trees: Vec<Arc<Posed>>,
    found: Rc<Vec<Finding>>,
}

impl How {
    fn judged(self, context: &Context<'_>) -> Vec<Finding> {
        match self {
            Self::Near => judged_near(context),
            Self::Work => judged_work(context),
        }
    }
}

impl Known {
    /// For remedies that are tried once each: what they leave is not kept, or a long row's trees would be held over again as each
    /// remedy leaves them.
    pub(super) fn of_one_round() -> Self {
        Self {
            once: true,
            ..Self::default()
        }
    }

    /// The same as [`Known::judged`], of what a remedy leaves.
    pub(super) fn judged_after(&mut self, how: How, context: &Context<'_>) -> Rc<Vec<Finding>> {
        match self.once {
            true => Rc::new(how.judged(context)),
            false => self.judged(how, context),
        }
    }

    /// What the rules find on a stretch, without remedies.
    pub(super) fn judged(&mut self, how: How, context: &Context<'_>) -> Rc<Vec<Finding>> {
        let row = context.row;
        let under = (&row.trellis, context.targets, context.moment);
        if self.under.as_ref().map(|u| (&u.0, &u.1, u.2)) != Some(under) {
            self.under = Some((under.0.clone(), under.1.clone(), under.2));
            self.stretches.clear();
        }
        let known = self.stretches.entry((row.from, row.to)).or_default();
        let stand = |k: &Judged| {
            k.how == how
                && k.trees.len() == row.posed().len()
                && k.trees.iter().zip(row.posed()).all(|(a, b)| is_same(a, b))
        };
        let judged = match known.iter().rposition(stand) {
            Some(at) => known.remove(at),
            None => Judged {
                how,
                trees: row.posed().to_vec(),
                found: Rc::new(how.judged(context)),
            },
        };
        if known.len() == MOST {
            known.remove(0);
        }
        let found = Rc::clone(&judged.found);
        known.push(judged);
        found
    }
}

/// Whether nothing can be found of one tree that is not found of the other.
fn is_same(a: &Arc<Posed>, b: &Arc<Posed>) -> bool {
    let found = |p: &Posed| Arc::clone(p.before().tree());
    Arc::ptr_eq(a, b) || (a == b && (found(a) == found(b)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::read_plan;
    use crate::plan::replay;
    use crate::row::Limit;

    /// A row without work, with a draft's, and under another limit: what is known of one is told of no other.
    #[test]
    fn what_is_known_of_one_row_is_told_of_no_other() {
        let example = include_str!("../../../../examples/overdue-renewal.json");
        let plan = read_plan(example.as_bytes()).expect("a plan");
        let moment = plan.start();
        let bare = plan.without_work(0, moment, |_| true).expect("a scheme");
        let drafted = crate::advise::draft(&bare, 0, moment).expect("a draft");
        let young = bare.with_limit(Limit::WoodAgeMax, Some(3.0));
        let plans = [bare, drafted.plan, young.expect("a limit")];
        let rows = plans.map(|p| replay(&p, 0, moment).expect("a row"));
        let mut known = Known::default();
        let mut told = Vec::new();
        for i in [0, 0, 1, 0, 2, 1, 0, 2] {
            let context = Context::of(&rows[i]);
            for (how, fresh) in [
                (How::Near, judged_near(&context)),
                (How::Work, judged_work(&context)),
            ] {
                assert_eq!(*known.judged(how, &context), fresh, "row {i}");
                told.push(fresh);
            }
        }
        assert!(told[0] != told[4] && told[0] != told[8] && told[4] != told[8]);
        assert!(told[0] != told[1], "openings are told of one alone");
    }
}
