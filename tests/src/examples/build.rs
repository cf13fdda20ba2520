//! What the examples are built of: a seeded choice of numbers, trees, and uprights set along the wire.

use cordonry::cover::Span;
use cordonry::pose::{Course, Geometry, layout};
use cordonry::row::{
    GrowthUnit, Planted, Pose, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId, Trellis,
};
use cordonry::seed::Seeded;
use cordonry::units::{Deg, Mm};
use std::sync::Arc;

/// The same numbers for the same seed.
pub struct Chance(Seeded);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(Seeded::new(seed))
    }

    /// Between `low` and `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.0.share()
    }

    /// Mostly near `middle`, never farther from it than `spread`.
    pub fn around(&mut self, middle: f64, spread: f64) -> f64 {
        let third = spread / 3.0;
        middle + (0..3).map(|_| self.between(-third, third)).sum::<f64>()
    }

    pub fn one_in(&mut self, n: u32) -> bool {
        self.between(0.0, f64::from(n)) < 1.0
    }
}

/// Thickness of a shoot of that length: 9 mm at 0.6 m, 13.5 mm at 1.2 m, and a little chance.
pub fn thickness(chance: &mut Chance, length: f64) -> f64 {
    let usual = 9.0 * (length / 600.0).powf(0.585);
    (usual * chance.around(1.0, 0.12) * 10.0).round() / 10.0
}

/// Growth by leaf, whole millimetres, nothing cut.
pub fn grown(by_leaf: &[(u8, f64)]) -> Vec<GrowthUnit> {
    by_leaf
        .iter()
        .filter(|(_, length)| length.round() > 0.0)
        .map(|(leaf, length)| GrowthUnit::whole(*leaf, length.round()))
        .collect()
}

/// A shoot that grows from the top of its parent.
pub fn shoot(parent: Option<u64>, at: f64, pose: Pose, units: Vec<GrowthUnit>) -> Shoot {
    Shoot {
        pose,
        units,
        ..Shoot::bud(
            ShootId::STEM,
            parent.map(|p| ShootId::found(p as u32)),
            at.round(),
        )
    }
}

pub fn laid(toward: Toward, rise: f64) -> Pose {
    Pose::Laid {
        toward,
        rise: Deg::new(rise),
    }
}

pub fn upright(lean: f64) -> Pose {
    Pose::Upright {
        lean: Deg::new(lean),
    }
}

/// A row in the making.
pub struct Rows {
    pub row: Row,
    pub chance: Chance,
}

impl Rows {
    pub fn new(seed: u64, leaf: u8) -> Self {
        Self {
            row: Row {
                leaf,
                from: Mm(0),
                to: Mm(0),
                trellis: Trellis::default(),
                trees: Vec::new(),
            },
            chance: Chance::new(seed),
        }
    }

    fn geometry(&self) -> Geometry {
        Geometry::of(&self.row, &Targets::default())
    }

    /// A tree whose first shoot is `stem`; an empty place without one.
    pub fn plant(&mut self, id: u32, foot: f64, angle: f64, toward: Toward, stem: Option<Shoot>) {
        self.row.trees.push(Arc::new(Tree {
            id: TreeId(id),
            foot: Mm::round(foot),
            planted: Planted {
                angle: Deg::new(angle),
                toward,
            },
            shoots: Vec::new(),
            vigour: None,
            like: None,
            diseased: false,
            note: String::new(),
        }));
        if let Some(stem) = stem {
            self.add(id, stem);
        }
    }

    pub fn tree(&mut self, id: u32) -> &mut Tree {
        let trees = &mut self.row.trees;
        let tree = trees.iter_mut().find(|t| t.id.0 == id);
        Arc::make_mut(tree.expect("the example has that tree"))
    }

    /// Puts a shoot on a tree under the next number, which it gives.
    pub fn add(&mut self, id: u32, mut shoot: Shoot) -> u64 {
        let tree = self.tree(id);
        let number = tree.shoots.len() as u64;
        shoot.id = ShootId::found(number as u32);
        tree.shoots.push(shoot);
        number
    }

    /// A single-leader tree: stock as planted, then the growth of its end, laid along the wire.
    pub fn leader(&mut self, id: u32, foot: f64, angle: f64, toward: Toward, growth: &[(u8, f64)]) {
        let length: f64 = growth.iter().map(|g| g.1).sum();
        let rise = self.chance.around(2.0, 2.0);
        let mut stem = shoot(None, 0.0, laid(toward, rise.round()), grown(growth));
        let leaf = f64::from(self.row.leaf);
        let thick = 18.0 + 4.5 * leaf.min(6.0) + length / 1000.0;
        stem.diameter = (self.chance.around(thick, 2.5) * 10.0).round() / 10.0;
        self.plant(id, foot, angle, toward, Some(stem));
    }

    /// The laid shoots of a tree, each with the stretch of wire that it lies on.
    fn on_wire(&self, tree: &Tree) -> Vec<(u64, Course, Span)> {
        let g = self.geometry();
        let courses = layout(tree, g);
        let shoots = tree.shoots.iter().zip(courses);
        shoots
            .filter(|(s, _)| s.pose.is_laid())
            .map(|(s, c)| {
                // Where the slanting part would meet the wire if there were no bend.
                let below = g.wire - c.base.y;
                let slant = if below > 20.0 {
                    below / c.heading0.tan()
                } else {
                    0.0
                };
                (s.id.number(), c, Span::between(c.base.x + slant, c.tip().x))
            })
            .collect()
    }

    /// Which laid shoot bears the place `x` on the wire, and where along it.
    pub fn bearer(&self, x: f64) -> Option<(u32, u64, f64)> {
        self.row.trees.iter().find_map(|tree| {
            self.on_wire(tree).into_iter().find_map(|(shoot, c, span)| {
                let inside = x >= span.from + 25.0 && x <= span.to - 5.0;
                let at = c.at_x(x).filter(|_| inside)?;
                Some((tree.id.0, shoot, at))
            })
        })
    }

    /// Sets what `make` makes along the whole wire, `apart` from each other by more or less `give`.
    pub fn along_the_wire(
        &mut self,
        apart: f64,
        give: f64,
        make: impl Fn(&mut Chance, f64) -> Option<Shoot>,
    ) {
        let mut x = self.row.from.f() + apart / 2.0;
        while x < self.row.to.f() {
            let place = self.chance.around(x, give);
            // Where no wood can bear it, a little to the side.
            let beside = [0.0, -30.0, 30.0, -60.0, 60.0, -90.0, 90.0];
            let bearer = beside.iter().find_map(|b| self.bearer(place + b));
            if let Some((tree, parent, at)) = bearer
                && let Some(mut made) = make(&mut self.chance, place)
            {
                made.parent = Some(ShootId::found(parent as u32));
                made.at = at.round();
                self.add(tree, made);
            }
            x += apart;
        }
    }

    /// Settles the stretch that is to be filled, and posts every 7 m.
    pub fn stretch(&mut self) {
        (self.row.from, self.row.to) = self.row.default_stretch();
        let first = self.row.from - Mm(600);
        let last = self.row.to + Mm(600);
        let spans = ((last - first).f() / 7000.0).round().max(1.0) as i32;
        let step = (last - first).0 / spans;
        self.row.trellis.posts = (0..=spans).map(|n| Mm(first.0 + n * step)).collect();
    }
}

/// An upright as a row of that age has it: what grew since `born`, and its thickness.
pub fn fence(chance: &mut Chance, leaf: u8, born: u8, strength: f64) -> Shoot {
    let mut growth = Vec::new();
    let mut height = 0.0;
    for season in born..leaf {
        let usual = if season == born { 780.0 } else { 560.0 };
        // Held at the wall's height once it is there.
        let most = (1900.0_f64 - height).max(0.0);
        let length = chance.around(usual * strength, 130.0).max(60.0).min(most);
        if length >= 30.0 {
            growth.push((season, length));
            height += length;
        }
    }
    let lean = chance.around(0.0, 5.0).round();
    let mut out = shoot(Some(0), 0.0, upright(lean), grown(&growth));
    out.diameter = thickness(chance, height);
    out
}
