//! The stock that each place for a tree takes.

use crate::row::{Limit, Pose, Row, Targets, Toward, Tree, TreeId};
use crate::stock::Places;
use crate::units::{Deg, Mm};

/// What one place takes, and how it is planted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// The tree that stands there, or stood.
    pub tree: TreeId,
    /// Where its foot is set.
    pub foot: Mm,
    /// The angle from the ground at which it is set.
    pub angle: Deg,
    /// The way it leans.
    pub toward: Toward,
    /// It has two leaders: its length is that of each, above their fork.
    pub forks: bool,
    /// Length above the ground that it is to have, mm.
    pub length: f64,
    /// How much of it is laid along the wire, mm.
    pub laid: f64,
    /// Where along the row its end is to come, mm; `None` where it forks.
    pub goal: Option<f64>,
    /// To the nearest post, mm; `None` where the row has none.
    pub post: Option<f64>,
    /// It has no next tree on the way that it goes: it ends with the row.
    pub at_end: bool,
}

impl Stock {
    /// Whether it has to come unheaded, its buds intact: what is headed has no end that fills its stretch.
    pub fn unheaded(&self) -> bool {
        !self.forks
    }
}

/// The two leaders of a tree that forks, laid or still standing.
fn forks(tree: &Tree) -> bool {
    let Some(stem) = tree.shoots.first().filter(|s| !s.pose.is_laid()) else {
        return false;
    };
    let laid = |toward: Toward| {
        let mut shoots = tree.shoots.iter().filter(|s| s.parent == Some(stem.id));
        shoots.any(|s| matches!(s.pose, Pose::Laid { toward: t, .. } if t == toward))
    };
    tree.standing_leaders().is_some() || (laid(Toward::Left) && laid(Toward::Right))
}

/// What each place of a row takes, from one end to the other. A lost tree's place is planted as that was.
pub fn stocks(row: &Row, targets: &Targets) -> Vec<Stock> {
    let goes = |i: usize, toward: Toward| {
        let tree = &row.trees[i];
        forks(tree) || tree.planted.toward == toward
    };
    let wire = row.trellis.cordon_height().f();
    let places = Places {
        count: row.trees.len(),
        tree: &|i| &row.trees[i],
        goes: &goes,
        ends: (row.from.f(), row.to.f()),
        wire,
        bearing: targets.get(Limit::BearingHeight),
    };
    (0..row.trees.len())
        .map(|i| {
            let tree = &row.trees[i];
            let toward = tree.planted.toward;
            let foot = tree.foot.f();
            let reach = |toward: Toward| ((places.goal(i, toward) - foot) * toward.sign()).max(0.0);
            let forks = forks(tree);
            let (length, laid) = if forks {
                let sides = [Toward::Left, Toward::Right].map(reach);
                // The fork stands where the stem ends.
                let fork = tree.shoots[0].length().min(wire);
                (wire - fork + sides[0].max(sides[1]), sides[0] + sides[1])
            } else {
                let run = wire / libm::tan(tree.planted.angle.radians());
                (places.stock_for(i), (reach(toward) - run).max(0.0))
            };
            let off = |post: &Mm| (post.f() - foot).abs();
            let post = row.trellis.posts.iter().map(off).min_by(f64::total_cmp);
            Stock {
                tree: tree.id,
                foot: tree.foot,
                angle: tree.planted.angle,
                toward,
                forks,
                length,
                laid,
                goal: (!forks).then(|| places.goal(i, toward)),
                post,
                at_end: match toward {
                    Toward::Right => i + 1 == row.trees.len(),
                    Toward::Left => i == 0,
                },
            }
        })
        .collect()
}
