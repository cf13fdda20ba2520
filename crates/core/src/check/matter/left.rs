//! What is known again of what a plan leaves.

use crate::check::Finding;
use crate::plan::{Left, LeftSpot};
use crate::row::{ShootId, TreeId};
use crate::sorted::Map;

/// What a finding is known again by.
pub(super) fn spot(f: &Finding) -> LeftSpot {
    let first = f.subjects.first();
    LeftSpot::new(
        f.rule,
        (f.x, f.measured),
        first.map(|p| (p.tree, p.shoot)),
        f.subjects.len(),
    )
}

/// The findings that are not left in a leaf.
pub fn open<'f>(
    findings: impl IntoIterator<Item = &'f Finding>,
    left: &[Left],
    leaf: u8,
) -> Vec<&'f Finding> {
    let here = LeftHere::of(left, leaf);
    let mut open: Vec<&Finding> = findings.into_iter().collect();
    open.retain(|f| here.place(f).is_none());
    open
}

/// What is left in this leaf, by what is known again of it.
pub(super) struct LeftHere<'l>(Map<Known<'l>, Vec<(usize, &'l LeftSpot)>>);

/// By which a left place is looked up: its rule and its first part.
type Known<'l> = (&'l str, Option<(TreeId, Option<ShootId>)>);

impl<'l> LeftHere<'l> {
    pub fn of(left: &'l [Left], leaf: u8) -> Self {
        let mut out: Map<Known<'l>, Vec<(usize, &LeftSpot)>> = Map::new();
        for (n, left) in left.iter().enumerate().filter(|(_, l)| l.leaf == leaf) {
            for spot in &left.spots {
                let known = out.entry((&spot.rule, spot.part)).or_default();
                known.push((n, spot));
            }
        }
        Self(out)
    }

    /// Where among all that is left a finding is: as it was when it was left.
    pub fn place(&self, f: &Finding) -> Option<usize> {
        if self.0.is_empty() {
            return None;
        }
        let now = spot(f);
        let known = self.0.get(&(f.rule, now.part))?;
        let same = known.iter().find(|(_, then)| then.is_still(&now));
        same.map(|(n, _)| *n)
    }
}
