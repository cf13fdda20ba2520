//! How long new stock has to be for its place in a row.

use crate::pose::stock_length;
use crate::row::{Toward, Tree};

/// Feet nearer to each other than this, mm, are a pair of trees for one place; neither is the other's next.
const PAIRED: f64 = 300.0;

/// The places of a row, as far as the length of stock asks for them.
pub struct Places<'a> {
    /// How many trees there are.
    pub count: usize,
    /// Each of them, in order of place.
    pub tree: &'a dyn Fn(usize) -> &'a Tree,
    /// Whether one of them has or gets wood that way.
    pub goes: &'a dyn Fn(usize, Toward) -> bool,
    /// Where the stretch that is to be filled begins and ends, mm.
    pub ends: (f64, f64),
    /// Height of the cordon wire, mm.
    pub wire: f64,
    /// Height from which slanting stems bear, mm.
    pub bearing: f64,
}

impl Places<'_> {
    fn bearing(&self) -> f64 {
        self.bearing.min(self.wire)
    }

    /// How far along the row the wood of a tree is to reach that way, mm.
    pub fn goal(&self, i: usize, toward: Toward) -> f64 {
        let foot = (self.tree)(i).foot.f();
        let apart = |n: &usize| ((self.tree)(*n).foot.f() - foot).abs() >= PAIRED;
        let next = match toward {
            Toward::Right => (i + 1..self.count).find(apart),
            Toward::Left => (0..i).rev().find(apart),
        };
        match next {
            None if toward == Toward::Right => self.ends.1,
            None => self.ends.0,
            Some(n) if (self.goes)(n, toward.other()) => (foot + (self.tree)(n).foot.f()) / 2.0,
            Some(n) => {
                let next = (self.tree)(n);
                next.foot.f() + toward.sign() * self.bearing_reach(next)
            }
        }
    }

    /// How far from its foot a slanting stem's wood begins to bear.
    fn bearing_reach(&self, tree: &Tree) -> f64 {
        self.bearing() / libm::tan(tree.planted.angle.radians())
    }

    /// From a tree's foot along its stem and the wire to `goal`, mm. The saving of its bend is left out.
    pub fn whole_length(&self, tree: &Tree, goal: f64, toward: Toward) -> f64 {
        let ahead = (goal - tree.foot.f()) * toward.sign();
        // As if the next tree were planted at the same angle: the spacing that ends its bare wood at the goal.
        let spacing = ahead - self.bearing_reach(tree);
        let angle = tree.planted.angle.radians();
        stock_length(self.wire, angle, spacing, self.bearing())
    }

    /// Length of new stock for a place, planted as that is, mm.
    pub fn stock_for(&self, i: usize) -> f64 {
        let tree = (self.tree)(i);
        let toward = tree.planted.toward;
        self.whole_length(tree, self.goal(i, toward), toward)
    }
}
