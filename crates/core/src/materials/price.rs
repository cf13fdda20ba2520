//! What materials cost, where somebody says what one of them does.

use super::Needs;
use crate::range::Range;
use crate::row::Covering;

/// What can have a price.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// A tree, be it for a place or to spare.
    Tree,
    /// A metre of bare wire.
    BareWire,
    /// A metre of covered wire.
    CoveredWire,
    /// A post.
    Post,
    /// A tie.
    Tie,
    /// A sleeve.
    Sleeve,
}

/// What each costs, in whatever currency; what nobody has a price for costs nothing that is known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Prices([Option<f64>; Item::ALL.len()]);

impl Item {
    /// All of them, as they are listed.
    pub const ALL: [Self; 6] = [
        Self::Tree,
        Self::BareWire,
        Self::CoveredWire,
        Self::Post,
        Self::Tie,
        Self::Sleeve,
    ];

    /// Its name at the command line and in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Tree => "tree",
            Self::BareWire => "wire_m",
            Self::CoveredWire => "covered_wire_m",
            Self::Post => "post",
            Self::Tie => "tie",
            Self::Sleeve => "sleeve",
        }
    }

    /// The wire of that kind, by the metre.
    pub fn wire(covering: Covering) -> Self {
        match covering {
            Covering::Bare => Self::BareWire,
            Covering::Plastic => Self::CoveredWire,
        }
    }

    /// How much of it a row takes: pieces, or metres of wire.
    pub fn amount(self, needs: &Needs) -> f64 {
        let metres = |covering| needs.wire(covering, false) / 1000.0;
        match self {
            Self::Tree => needs.trees() as f64,
            Self::BareWire => metres(Covering::Bare),
            Self::CoveredWire => metres(Covering::Plastic),
            Self::Post => needs.posts as f64,
            Self::Tie => needs.ties as f64,
            Self::Sleeve => needs.sleeves as f64,
        }
    }
}

impl Prices {
    /// What one may cost.
    pub const RANGE: Range = (0.0, 1_000_000.0);

    /// The price of one; `None` where nobody said.
    pub fn of(&self, item: Item) -> Option<f64> {
        self.0[item as usize]
    }

    /// Says it, or takes it back.
    pub fn set(&mut self, item: Item, price: Option<f64>) {
        self.0[item as usize] = price;
    }

    /// What all of one costs; `None` where it has no price.
    pub fn cost(&self, item: Item, needs: &Needs) -> Option<f64> {
        Some(self.of(item)? * item.amount(needs))
    }

    /// What all costs that has a price; `None` where nothing has.
    pub fn sum(&self, needs: &Needs) -> Option<f64> {
        let mut costs = Item::ALL.into_iter().filter_map(|i| self.cost(i, needs));
        let first = costs.next()?;
        Some(costs.fold(first, |all, cost| all + cost))
    }
}
