//! Neighbouring trees of one leader each that go away from each other, so that the wire between stays bare.

use super::seen::{Seen, SeenTree, over};
use super::{Finding, Severity, fill};
use crate::cover::Span;
use crate::row::{Limit, Toward};
use crate::said::Arg;

pub(super) const RULE: &str = "leans-opposed";

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let single =
        |t: &SeenTree<'_>, way: Toward| !t.tree.is_lost() && t.goes(way) && !t.goes(way.other());
    c.trees
        .windows(2)
        .filter(|w| c.is_near(w[0].tree.foot.f(), w[1].tree.foot.f()))
        .filter(|w| single(&w[0], Toward::Left) && single(&w[1], Toward::Right))
        .filter_map(|w| {
            let (left, right) = (w[0].tree.foot.f(), w[1].tree.foot.f());
            let feet = Span {
                from: left,
                to: right,
            };
            let most = c.limit(Limit::GapMax);
            let gap = c
                .flagged_gaps()
                .find(|g| over(g.span.within(feet).length(), c.let_pass(Limit::GapMax)))?;
            let bare = gap.span.within(feet);
            Some(Finding {
                rule: RULE,
                severity: Severity::Soon,
                x: bare.from,
                z: 0.0,
                width: bare.length(),
                subjects: w
                    .iter()
                    .map(|t| super::Part {
                        tree: t.tree.id,
                        shoot: None,
                    })
                    .collect(),
                measured: bare.length(),
                allowed: most,
                limit: Limit::GapMax,
                args: vec![
                    ("left", w[0].number()),
                    ("right", w[1].number()),
                    ("length", Arg::Length(bare.length())),
                ],
                remedies: fill::remedies(c, gap),
            })
        })
        .collect()
}
