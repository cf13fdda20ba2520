//! The stretch of cordon wire that a row is to fill, where nobody has said it.

use super::{Pose, Row, Toward, Tree};
use crate::range::{self, Range};
use crate::units::Mm;

/// The usual distance between single-leader trees, for a row that has but one.
const SINGLE: f64 = 1500.0;
/// The usual distance between two-leader trees.
const DOUBLE: f64 = 3000.0;

impl Row {
    /// The stretch that the trees are to fill between them: a tree that goes one way reaches from where its
    /// slanting stem meets the wire over one tree spacing, one with two opposed leaders over half a spacing either
    /// way. Lost trees count by how they were planted; a row without trees is to fill nothing.
    pub fn default_stretch(&self) -> (Mm, Mm) {
        let spacing = self.tree_spacing().map(Mm::f).filter(|s| *s > 0.0);
        let wire = self.trellis.cordon_height().f();
        let mut ends: Option<(f64, f64)> = None;
        for tree in &self.trees {
            let ways = Ways::of(tree);
            let on_wire = wire_point(tree, wire);
            let usual = if ways.left && ways.right {
                DOUBLE
            } else {
                SINGLE
            };
            let spacing = spacing.unwrap_or(usual);
            let (left, right) = match (ways.left, ways.right) {
                (true, true) => (spacing / 2.0, spacing / 2.0),
                (true, false) => (spacing, 0.0),
                _ => (0.0, spacing),
            };
            let (from, to) = ends.unwrap_or((f64::INFINITY, f64::NEG_INFINITY));
            ends = Some((from.min(on_wire - left), to.max(on_wire + right)));
        }
        let max = Row::MAX_X.f();
        let place = |x: f64| Mm::round(x.clamp(-max, max));
        ends.map_or((Mm(0), Mm(0)), |(from, to)| (place(from), place(to)))
    }

    /// Where along the row one more tree may stand, mm: not far beyond the stretch that is to be filled.
    pub fn tree_places(&self) -> Range {
        let (low, high) = range::PLACE;
        (
            (self.from.f() - range::BEYOND).max(low),
            (self.to.f() + range::BEYOND).min(high),
        )
    }
}

/// Where the stem as it was planted meets a wire at the height `wire`, mm.
fn wire_point(tree: &Tree, wire: f64) -> f64 {
    let angle = tree.planted.angle.radians();
    let reach = wire * libm::cos(angle) / libm::sin(angle).max(0.1);
    tree.foot.f() + tree.planted.toward.sign() * reach
}

/// Which ways the leaders of a tree go.
#[derive(Default)]
struct Ways {
    left: bool,
    right: bool,
}

impl Ways {
    fn of(tree: &Tree) -> Self {
        let mut ways = Self::default();
        let stem = tree.shoots.first();
        let leaders = tree.shoots.iter().filter(|s| match stem {
            // A stem that is laid is the leader; what is laid from it fills gaps.
            Some(stem) if stem.pose.is_laid() => s.parent.is_none(),
            Some(stem) => s.parent == Some(stem.id),
            None => false,
        });
        for leader in leaders {
            if let Pose::Laid { toward, .. } = leader.pose {
                ways.add(toward);
            }
        }
        if !ways.left && !ways.right {
            ways.add(tree.planted.toward);
        }
        ways
    }

    fn add(&mut self, toward: Toward) {
        match toward {
            Toward::Left => self.left = true,
            Toward::Right => self.right = true,
        }
    }
}
