//! What a tree bears: fruit by its flowers, its size by the leaf that each fruit has, and what that makes on the ground.

use crate::canopy::Canopy;
use crate::model::Parameter::{Mass200, MassCv, MassExp, MassLarge, MassMax, Set};
use crate::row::Tree;
use crate::terms::{Assumptions, Terms};

/// Leaf of one fruit, cm², that a load of 1 leaves it. Published: at least so much, some five leaves of 40 cm².
pub const LEAF_OF_A_FRUIT: f64 = 200.0;

/// Fruit of the tree in a leaf. The crop is read after the early-summer work, before the second half of growth.
pub fn fruit(tree: &Tree, leaf: u8, terms: &Terms) -> f64 {
    let canopy = Canopy::of(tree, leaf, &terms.assumptions);
    of_flowers(canopy.flowers(leaf, terms), &terms.assumptions)
}

/// Fruit that flowers set.
pub fn of_flowers(flowers: f64, a: &Assumptions) -> f64 {
    flowers * a[Set]
}

/// Fruit of each shoot of the tree in a leaf, in their order: together those of the tree.
pub fn of_shoots(tree: &Tree, leaf: u8, terms: &Terms) -> Vec<f64> {
    let a = &*terms.assumptions;
    let whole = Canopy::of(tree, leaf, a);
    let borne = match whole.flowers > 0.0 {
        true => whole.flowers(leaf, terms) / whole.flowers,
        false => 0.0,
    };
    let own = tree
        .shoots
        .iter()
        .map(|s| Canopy::of_shoot(s, leaf, a).flowers);
    own.map(|flowers| of_flowers(flowers * borne, a)).collect()
}

/// Mean mass of a fruit, g, with so much leaf, cm².
pub fn mass(leaf_of_a_fruit: f64, a: &Assumptions) -> f64 {
    if leaf_of_a_fruit <= 0.0 {
        return 0.0;
    }
    let mass = a[Mass200] * libm::pow(leaf_of_a_fruit / LEAF_OF_A_FRUIT, a[MassExp]);
    mass.min(a[MassMax])
}

/// Share of a tree's fruit that is large enough, 0 to 1, at a mean mass in g.
pub fn share_large(mass: f64, a: &Assumptions) -> f64 {
    if mass <= 0.0 {
        return 0.0;
    }
    let z = (mass - a[MassLarge]) / (a[MassCv] * mass);
    1.0 / (1.0 + libm::exp(-1.702 * z))
}

/// A crop in kg on a metre of row, of a crop in t/ha, with rows so far apart, mm.
pub fn kg_per_metre(t_per_ha: f64, row_spacing: f64) -> f64 {
    t_per_ha * row_spacing / 1e4
}

/// One leaf's crop of one tree. Figures of nothing are 0.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Crop {
    /// Fruit.
    pub fruit: f64,
    /// Leaf of the season, m².
    pub leaf_area: f64,
    /// The same as an index: on a square metre of the tree's ground.
    pub leaf_area_index: f64,
    /// Leaf of a fruit, cm².
    pub leaf_of_a_fruit: f64,
    /// Mean mass of a fruit, g.
    pub mass: f64,
    /// Crop of the tree, kg.
    pub kg: f64,
    /// Crop, t/ha, were all trees alike.
    pub t_per_ha: f64,
    /// Crop on a metre of row, kg.
    pub kg_per_metre: f64,
    /// Share of the crop that is large enough, 0 to 1.
    pub share_large: f64,
}

impl Crop {
    /// Of a tree with so much [`fruit`] and `grown`, the tree after the season's growth, before the after-harvest work.
    pub fn of(fruit: f64, grown: &Tree, leaf: u8, terms: &Terms) -> Self {
        let a = &*terms.assumptions;
        let leaf_area = Canopy::of(grown, leaf, a).leaf_area(terms);
        let ground = terms.stand.ground();
        let bare = Self {
            leaf_area,
            leaf_area_index: leaf_area / ground,
            ..Self::default()
        };
        if fruit <= 0.0 {
            return bare;
        }
        let leaf_of_a_fruit = leaf_area * 1e4 / fruit;
        let mass = mass(leaf_of_a_fruit, a);
        let kg = fruit * mass / 1000.0;
        let t_per_ha = kg * 10.0 / ground;
        Self {
            fruit,
            leaf_of_a_fruit,
            mass,
            kg,
            t_per_ha,
            kg_per_metre: kg_per_metre(t_per_ha, terms.stand.row_spacing),
            share_large: share_large(mass, a),
            ..bare
        }
    }
}
