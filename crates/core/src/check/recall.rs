//! What an earlier survey already worked out.

use super::{Before, Finding, Remedy};
use crate::arrange::Arrange;
use crate::cover::Span;
use crate::row::{Row, Shoot, Tree};
use std::sync::Arc;

/// Remedies of bare stretches that nothing near has changed since.
#[derive(Default)]
pub(super) struct Recalled<'a> {
    /// In order of place.
    gaps: Vec<&'a Finding>,
    /// Stretches that a changed tree may reach.
    touched: Vec<Span>,
}

/// Room beyond what a tree can reach, mm.
const MARGIN: f64 = 1_000.0;

/// How far from its foot a tree's wood can be laid, mm: no remedy lays more than three lengths end to end.
fn reach(tree: &Tree) -> Span {
    let mut lengths: Vec<f64> = tree.shoots.iter().map(Shoot::length).collect();
    lengths.arrange_by(|a, b| b.total_cmp(a));
    let far = lengths.iter().take(3).sum::<f64>() + MARGIN;
    Span {
        from: tree.foot.f() - far,
        to: tree.foot.f() + far,
    }
}

fn same_frame(a: &Row, b: &Row) -> bool {
    a.leaf == b.leaf
        && (a.from, a.to) == (b.from, b.to)
        && a.trellis == b.trellis
        && a.trees.len() == b.trees.len()
        && a.trees
            .iter()
            .zip(&b.trees)
            .all(|(x, y)| Arc::ptr_eq(x, y) || (x.id == y.id && x.foot == y.foot))
}

impl<'a> Recalled<'a> {
    /// What `before` found of `rule`, the rule about bare stretches.
    pub fn new(now: &Row, before: Before<'a>, rule: &str) -> Self {
        if !same_frame(now, before.row) {
            return Self::default();
        }
        let mut gaps: Vec<&Finding> = before.findings.iter().filter(|f| f.rule == rule).collect();
        gaps.arrange_by(|a, b| a.x.total_cmp(&b.x));
        let changed = now.trees.iter().zip(&before.row.trees);
        let touched = changed
            .filter(|(a, b)| !Arc::ptr_eq(a, b))
            .flat_map(|(a, b)| [reach(a), reach(b)])
            .collect();
        Self { gaps, touched }
    }

    /// The remedies of that same bare stretch, if nothing that could reach it has changed.
    pub fn remedies(&self, gap: Span) -> Option<&'a [Remedy]> {
        let at = self.gaps.binary_search_by(|f| f.x.total_cmp(&gap.from));
        let old = *self.gaps.get(at.ok()?)?;
        let near = |t: &Span| gap.to >= t.from && gap.from <= t.to;
        (old.width == gap.length() && !self.touched.iter().any(near)).then_some(&old.remedies)
    }
}
