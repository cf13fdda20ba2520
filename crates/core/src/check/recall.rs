//! What an earlier survey already worked out.

use super::near::MARGIN;
use super::{Finding, Remedy};
use crate::arrange::Arrange;
use crate::cover::Span;
use crate::row::{Shoot, Tree};

/// Remedies of bare stretches that nothing near has changed since.
#[derive(Default)]
pub(super) struct Recalled<'a> {
    /// In order of place.
    gaps: Vec<&'a Finding>,
    /// Stretches that a changed tree may reach.
    touched: Vec<Span>,
}

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

impl<'a> Recalled<'a> {
    /// What `findings`, those of the rule about bare stretches among them, say of them; of the trees that changed, as they
    /// were and as they are.
    pub fn new(findings: impl Iterator<Item = &'a Finding>, changed: &[(&Tree, &Tree)]) -> Self {
        let mut gaps: Vec<&Finding> = findings.collect();
        gaps.arrange_by(|a, b| a.x.total_cmp(&b.x));
        let touched = changed.iter().flat_map(|(a, b)| [reach(a), reach(b)]);
        Self {
            gaps,
            touched: touched.collect(),
        }
    }

    /// The remedies of that same bare stretch, if nothing that could reach it has changed.
    pub fn remedies(&self, gap: Span) -> Option<&'a [Remedy]> {
        let at = self.gaps.binary_search_by(|f| f.x.total_cmp(&gap.from));
        let old = *self.gaps.get(at.ok()?)?;
        let near = |t: &Span| gap.to >= t.from && gap.from <= t.to;
        (old.width == gap.length() && !self.touched.iter().any(near)).then_some(&old.remedies)
    }
}
