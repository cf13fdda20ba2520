//! The usual work of a window as pieces: what rules do there of themselves, or would.

use super::{Piece, Why};
use crate::arrange::Arrange;
use crate::check::Stage;
use crate::plan::{Plan, Replayed};
use crate::row::Row;
use crate::said::{Arg, Said};
use crate::standing::{Standard, work};
use crate::work::Work;

/// Work of one kind on one tree as a piece.
fn piece(row: &Row, work: Vec<Work>) -> Option<Piece> {
    let first = work.first()?;
    let kind = Arg::Text(first.kind().into());
    let tree = first.tree().and_then(|id| row.tree(id));
    let (stage, count) = (Stage::of_usual(first), Arg::Count(work.len() as i64));
    let number = Arg::Count(tree.map_or(0, |t| t.id.0.into()));
    let args = vec![("kind", kind.clone()), ("count", count), ("tree", number)];
    Some(Piece {
        said: Said::new("advice-usual", args),
        why: Why::Usual(Said::new("advice-why-usual", vec![("kind", kind)])),
        also: Vec::new(),
        each: Vec::new(),
        x: tree.map_or(row.from.f(), |t| t.foot.f()),
        stage,
        work,
        next: None,
        round: 0,
    })
}

/// Work as pieces, by tree and kind.
pub(super) fn pieces(row: &Row, works: Vec<Work>) -> Vec<Piece> {
    let mut groups: Vec<Vec<Work>> = Vec::new();
    let alike = |a: &Work, b: &Work| (a.tree(), a.kind()) == (b.tree(), b.kind());
    for work in works {
        match groups.iter_mut().rfind(|g| alike(&g[0], &work)) {
            Some(group) => group.push(work),
            None => groups.push(vec![work]),
        }
    }
    let made = groups.into_iter().filter_map(|g| piece(row, g));
    made.collect()
}

/// Whether a tree's rule sees no more than the tree, where the row should be seen.
pub(super) fn is_blind(work: &Work) -> bool {
    matches!(work, Work::Stub { .. })
}

/// What rules would do to young trees in a window that is planned, as far as no check asks for it: buds, laying, cutting back to
/// buds, thinning.
pub(super) fn young(plan: &Plan, scheme: usize, at: &Replayed) -> Vec<Piece> {
    let rules = plan.scheme(scheme).ok().and_then(|s| s.standing.as_ref());
    let standard = Standard {
        rules: rules.map(|s| s.rules.clone()).unwrap_or_default(),
        targets: at.targets.clone(),
    };
    let mut all: Vec<Work> = Vec::new();
    for tree in &at.row.trees {
        all.extend(work(tree, at.moment, &at.terms, &standard));
    }
    all.retain(|w| {
        matches!(
            w,
            Work::RubOut { .. }
                | Work::KeepBud { .. }
                | Work::Notch { .. }
                | Work::Lay { .. }
                | Work::CutToBuds { .. }
                | Work::Thin { .. }
        )
    });
    all.arrange_by_key(Work::subject);
    pieces(&at.row, all)
}
