//! A plausible row from a few figures. The same figures and seed make the same row everywhere.

use super::field::{LEAST_WALL, check_wires, read_wires, trellis, usual_wires, write_wires};
use super::wood::{bare_tree, course, fork_length, laid, length_to, shoot};
use super::{Field, Form};
use crate::cover::stem_begins;
use crate::plan::Plan;
use crate::pose::{Geometry, stock_length};
use crate::refusal::Refusal;
use crate::row::{
    Face, GrowthUnit, Laterals, Limit, Planted, Pose, Row, Shoot, Targets, Toward, Tree, TreeId,
};
use crate::said::{Arg, Said, Wording};
use crate::seed::Seeded;
use crate::units::{Deg, LengthStyle, Mm};
use crate::usual;
use std::sync::Arc;

/// How many leaders a tree has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leaders {
    /// One: the stem itself, laid one way.
    One,
    /// Two, one each way, from a fork under the wire.
    Two,
}

/// What a made row is to be like.
#[derive(Clone, Debug, PartialEq)]
pub struct RowSketch {
    /// How many trees, 1 to 1000.
    pub trees: u32,
    /// Distance between them, 0.3 to 4 m.
    pub spacing: Mm,
    /// The leaf before which the row stands, 1 to 20: in the first, unheaded stock just planted; in the second, laid
    /// with uprights of one season; later, grown on.
    pub leaf: u8,
    /// One leader or two.
    pub leaders: Leaders,
    /// Planting angle from the ground, 30 to 90°.
    pub angle: Deg,
    /// The way the trees lean, and a single leader goes.
    pub toward: Toward,
    /// Heights of the wires from the lowest up; the first is the cordon wire.
    pub wires: Vec<Mm>,
    /// How high the wall is to be.
    pub wall_height: Mm,
    /// Distance between uprights to aim at, 0.1 to 0.5 m.
    pub upright_spacing: Mm,
    /// Distance between row centres.
    pub row_spacing: Mm,
    /// How uneven the row is: 0 as drawn with a ruler, 1 badly kept.
    pub unevenness: f64,
    /// Where chance begins: another number gives another row of the same kind.
    pub seed: u32,
}

/// What a planted stem grows at its end in the first leaf, mm, at most.
const END_GROWTH: f64 = 300.0;
/// What a leader thickens in a season, mm. From memory.
const THICKENS: f64 = 2.0;
/// Lean of each of the two leaders of stock that is not laid yet, degrees from the vertical.
const FORK_LEAN: f64 = 15.0;
/// The leaf in which the first uprights are renewed, a fifth of them each year. Common practice, no source.
const RENEWAL_LEAF: u8 = 3;
/// Length of a lateral, mm.
const LATERAL: f64 = 150.0;

// How far full unevenness goes, from memory.
/// Share of the tree spacing by which a leader may be short.
const SHORT: f64 = 0.35;
/// Share of a place's width by which an upright may stand beside it.
const ASIDE: f64 = 0.45;
/// Share of the vigour by which an upright may differ.
const VIGOUR: f64 = 0.5;
/// Share of upright places that stay empty.
const MISSED: f64 = 0.12;
/// Share of the trees that are lost.
const LOST: f64 = 0.06;
/// Lean of an upright, degrees.
const LEAN: f64 = 8.0;
/// Laterals on an upright.
const LATERALS: f64 = 6.0;
/// Shoots that come off the side of the cordon, for each upright place.
const SIDE_SHOOTS: f64 = 0.15;

impl RowSketch {
    /// The row.
    ///
    /// # Errors
    /// The first value that is not accepted: the field, the value and the accepted range.
    pub fn row(&self) -> Result<Row, Refusal> {
        let none = f64::MIN;
        Field::Trees.accept(f64::from(self.trees), none)?;
        Field::Leaf.accept(f64::from(self.leaf), none)?;
        Field::Spacing.accept(self.spacing.f(), none)?;
        Field::Angle.accept(self.angle.degrees(), none)?;
        check_wires(&self.wires)?;
        Field::WallHeight.accept(self.wall_height.f(), self.wires[0].f() + LEAST_WALL)?;
        Field::UprightSpacing.accept(self.upright_spacing.f(), none)?;
        Field::RowSpacing.accept(self.row_spacing.f(), none)?;
        Field::Unevenness.accept(self.unevenness, none)?;
        Field::Seed.accept(f64::from(self.seed), none)?;
        Ok(Maker::new(self).row())
    }

    fn value(&self, field: Field) -> f64 {
        match field {
            Field::Trees => f64::from(self.trees),
            Field::Leaf => f64::from(self.leaf),
            Field::Spacing => self.spacing.f(),
            Field::Angle => self.angle.degrees(),
            Field::WallHeight => self.wall_height.f(),
            Field::UprightSpacing => self.upright_spacing.f(),
            Field::RowSpacing => self.row_spacing.f(),
            Field::Unevenness => self.unevenness,
            Field::Seed => f64::from(self.seed),
            Field::Wires | Field::Length => 0.0,
        }
    }

    /// The plan of the row; its name and note say how it came about.
    ///
    /// # Errors
    /// As [`Self::row`].
    pub fn plan(&self, words: &dyn Wording) -> Result<Plan, Refusal> {
        let leaf = Arg::Count(self.leaf.into());
        let name = Said::new("made-name", vec![("leaf", leaf)]);
        let note = Said::new(
            "made-note",
            vec![("seed", Arg::Number(self.seed.into(), 0))],
        );
        let mut plan = Plan::new(words.say(&name), self.row()?).begun();
        plan.note = words.say(&note);
        Arc::make_mut(&mut plan.site).row_spacing = Some(self.row_spacing);
        Arc::make_mut(&mut plan.targets)
            .set(Limit::UprightSpacing, Some(self.upright_spacing.f()))?;
        Ok(plan)
    }
}

impl Form for RowSketch {
    const FIELDS: &'static [Field] = &[
        Field::Trees,
        Field::Spacing,
        Field::Leaf,
        Field::Angle,
        Field::Wires,
        Field::WallHeight,
        Field::UprightSpacing,
        Field::RowSpacing,
        Field::Unevenness,
        Field::Seed,
    ];

    fn usual(style: LengthStyle) -> Self {
        let wires = usual_wires(style);
        let (spacing, upright_spacing, row_spacing) = match style {
            LengthStyle::Metric => (1500, 200, 3000),
            LengthStyle::FeetInches => (1524, 203, 3048),
        };
        Self {
            trees: 10,
            spacing: Mm(spacing),
            leaf: 3,
            leaders: Leaders::One,
            angle: Deg::new(usual::ANGLE),
            toward: Toward::Right,
            wall_height: wires[wires.len() - 1],
            wires,
            upright_spacing: Mm(upright_spacing),
            row_spacing: Mm(row_spacing),
            unevenness: 0.3,
            seed: 1,
        }
    }

    fn shown(&self, field: Field) -> Vec<Arg> {
        match field {
            Field::Wires => write_wires(&self.wires),
            _ => vec![field.arg(self.value(field))],
        }
    }

    fn set(&mut self, field: Field, text: &str, style: LengthStyle) -> Result<(), Refusal> {
        if field == Field::Wires {
            self.wires = read_wires(text, style)?;
            return Ok(());
        }
        let value = field.read(text, style)?;
        match field {
            Field::Trees => self.trees = value as u32,
            Field::Leaf => self.leaf = value as u8,
            Field::Spacing => self.spacing = Mm::round(value),
            Field::Angle => self.angle = Deg::new(value),
            Field::WallHeight => {
                let cordon = self.wires.first().map_or(0.0, |w| w.f());
                self.wall_height = Mm::round(field.accept(value, cordon + LEAST_WALL)?);
            }
            Field::UprightSpacing => self.upright_spacing = Mm::round(value),
            Field::RowSpacing => self.row_spacing = Mm::round(value),
            Field::Unevenness => self.unevenness = value,
            Field::Seed => self.seed = value as u32,
            Field::Wires | Field::Length => {}
        }
        Ok(())
    }
}

/// One leader of a tree.
struct Way {
    toward: Toward,
    /// Where its wood begins on the wire.
    from: f64,
    /// Where it is to end.
    to: f64,
}

struct Maker<'s> {
    sketch: &'s RowSketch,
    g: Geometry,
    planted: Planted,
    wire: f64,
    /// How far from its foot a tree's wood begins on the wire.
    start: f64,
}

impl<'s> Maker<'s> {
    fn new(sketch: &'s RowSketch) -> Self {
        let targets = Targets::default();
        let wire = sketch.wires[0].f();
        let planted = Planted {
            angle: sketch.angle,
            toward: sketch.toward,
        };
        let tan = libm::tan(planted.angle.radians());
        let start = match sketch.leaders {
            Leaders::One => targets.get(Limit::BearingHeight).min(wire) / tan,
            Leaders::Two => fork_length(planted, wire) * libm::cos(planted.angle.radians()),
        };
        let mut maker = Self {
            sketch,
            g: Geometry::at(wire, &targets),
            planted,
            wire,
            start: planted.toward.sign() * start,
        };
        if sketch.leaders == Leaders::One {
            // A steep stem's bend brings its wood to the wire a little later.
            let tree = bare_tree(TreeId(1), Mm(0), planted);
            let leader = maker.leader(&tree, &maker.ways(0.0)[0], 0);
            let laid = course(&tree, &leader, Shoot::MAX_LENGTH, maker.g);
            maker.start = stem_begins(&laid, maker.g, &targets).unwrap_or(maker.start);
        }
        maker
    }

    fn row(&self) -> Row {
        let s = self.sketch;
        let trees: Vec<Arc<Tree>> = (0..s.trees).map(|n| Arc::new(self.tree(n))).collect();
        let spacing = s.spacing.f();
        let first = self.start;
        let last = self.start + spacing * f64::from(s.trees - 1);
        let (from, to) = match (s.leaders, s.toward) {
            (Leaders::Two, _) => (first - spacing / 2.0, last + spacing / 2.0),
            (Leaders::One, Toward::Right) => (first, last + spacing),
            (Leaders::One, Toward::Left) => (first - spacing, last),
        };
        // Whole millimetres inward, so that what is to be filled can be.
        let (from, to) = (Mm(libm::ceil(from) as i32), Mm(libm::floor(to) as i32));
        let mut row = Row {
            leaf: s.leaf,
            from,
            to,
            trellis: trellis(&s.wires, s.wall_height, from, to),
            trees,
        };
        row.sort();
        row
    }

    /// The ways of a tree that stands in its place.
    fn ways(&self, foot: f64) -> Vec<Way> {
        let spacing = self.sketch.spacing.f();
        let from = foot + self.start;
        let way = |toward: Toward, reach: f64| Way {
            toward,
            from,
            to: from + toward.sign() * reach,
        };
        match self.sketch.leaders {
            Leaders::One => vec![way(self.sketch.toward, spacing)],
            Leaders::Two => vec![
                way(Toward::Left, spacing / 2.0),
                way(Toward::Right, spacing / 2.0),
            ],
        }
    }

    fn tree(&self, n: u32) -> Tree {
        let s = self.sketch;
        let mut chance = Seeded::of_pair(s.seed, n + 1);
        let u = s.unevenness;
        let foot = s.spacing.f() * f64::from(n);
        let mut tree = bare_tree(TreeId(n + 1), Mm::round(foot), self.planted);
        let lost = chance.share() < LOST * u;
        let short = |chance: &mut Seeded| {
            let r = chance.share();
            SHORT * u * s.spacing.f() * r * r
        };
        if lost {
            return tree;
        }
        let ways = self.ways(foot);
        let mut next = 0;
        let mut id = || {
            next += 1;
            next - 1
        };
        if s.leaders == Leaders::Two {
            let length = fork_length(self.planted, self.wire);
            let thick = usual::diameter(2.0 * s.spacing.f());
            let stem = shoot(id(), None, Pose::Free, whole(length), self.aged(thick));
            tree.shoots.push(stem);
        }
        let mut leaders = Vec::new();
        for way in &ways {
            let mut leader = self.leader(&tree, way, id());
            let to = way.to - way.toward.sign() * short(&mut chance);
            let length = match (s.leaders, s.leaf) {
                (Leaders::One, 1) => self.stock(way, to),
                _ => length_to(&tree, &leader, to, self.g),
            };
            leader.units = self.leader_units(length);
            if s.leaf == 1 {
                leader.pose = match s.leaders {
                    Leaders::One => Pose::Free,
                    Leaders::Two => Pose::Upright {
                        lean: Deg::new(FORK_LEAN * way.toward.sign()),
                    },
                };
            } else {
                leader.rubbed = true;
            }
            leaders.push(leader.clone());
            tree.shoots.push(leader);
        }
        if s.leaf > 1 {
            for (way, leader) in ways.iter().zip(&leaders) {
                self.uprights(&mut tree, way, leader, &mut id, &mut chance);
            }
        }
        tree
    }

    /// Thickness of what has stood since planting.
    fn aged(&self, planted: f64) -> f64 {
        planted + THICKENS * f64::from((self.sketch.leaf - 1).min(10))
    }

    /// Unheaded stock that, once laid, ends at `to`.
    fn stock(&self, way: &Way, to: f64) -> f64 {
        let reach = (to - way.from).abs();
        let bearing = Targets::default().get(Limit::BearingHeight).min(self.wire);
        libm::ceil(stock_length(
            self.wire,
            self.planted.angle.radians(),
            reach,
            bearing,
        ))
    }

    fn leader(&self, tree: &Tree, way: &Way, id: u32) -> Shoot {
        let reach = (way.to - way.from).abs();
        let thick = usual::diameter(reach + self.wire);
        let parent = tree.shoots.first().map(|s| s.id);
        let mut leader = shoot(
            id,
            parent,
            laid(way.toward, reach),
            Vec::new(),
            self.aged(thick),
        );
        leader.at = tree.shoots.first().map_or(0.0, Shoot::length);
        leader
    }

    /// A leader's seasons: what was planted, and what its end grew in the first leaf.
    fn leader_units(&self, length: f64) -> Vec<GrowthUnit> {
        let grown = match self.sketch.leaf {
            1 => 0.0,
            _ => libm::round(END_GROWTH.min(length * 0.15)),
        };
        [(0, length - grown), (1, grown)]
            .into_iter()
            .filter(|(_, length)| *length >= 1.0)
            .map(|(leaf, length)| GrowthUnit::whole(leaf, length))
            .collect()
    }

    fn uprights(
        &self,
        tree: &mut Tree,
        way: &Way,
        leader: &Shoot,
        id: &mut impl FnMut() -> u32,
        chance: &mut Seeded,
    ) {
        let s = self.sketch;
        let u = s.unevenness;
        let course = course(tree, leader, leader.length(), self.g);
        let reach = (way.to - way.from).abs();
        let places = libm::round(reach / s.upright_spacing.f()).max(1.0);
        let width = reach / places;
        let places = places as u32;
        for place in 0..places {
            // Drawn whether they are used or not, so that one tree's chance is one stream.
            let [missed, side] = [chance.share(), chance.share()];
            let [aside, lean, vigour] = [chance.swing(), chance.swing(), chance.swing()];
            let laterals = libm::floor(LATERALS * u * chance.share());
            let along = (f64::from(place) + 0.5 + ASIDE * u * aside) * width;
            let x = way.from + way.toward.sign() * along;
            let Some(at) = course.at_x(x).map(libm::round) else {
                continue;
            };
            let at = at.min(libm::floor(leader.length()));
            if side < SIDE_SHOOTS * u && s.leaf > 1 {
                let length = libm::round(200.0 + 200.0 * missed);
                let mut wild = shoot(
                    id(),
                    Some(leader.id),
                    Pose::Free,
                    usual::seasons_of(length, s.leaf - 1, s.leaf),
                    usual::diameter(length),
                );
                wild.at = at;
                wild.face = Face::Side;
                tree.shoots.push(wild);
            }
            if missed < MISSED * u {
                continue;
            }
            let born = born(place, places, s.leaf);
            let room = s.wall_height.f() - course.point(at).y;
            let units = usual::seasons(born, s.leaf, 1.0 + VIGOUR * u * vigour, room);
            let grown: f64 = units.iter().map(|u| u.grown).sum();
            if units.is_empty() {
                continue;
            }
            let pose = Pose::Upright {
                lean: Deg::new(LEAN * u * lean),
            };
            let mut up = shoot(id(), Some(leader.id), pose, units, usual::diameter(grown));
            up.at = at;
            if s.leaf > 2 && laterals > 0.0 {
                up.laterals = Laterals {
                    count: laterals as u16,
                    total: laterals * LATERAL,
                };
            }
            tree.shoots.push(up);
        }
    }
}

fn whole(length: f64) -> Vec<GrowthUnit> {
    vec![GrowthUnit::whole(0, length)]
}

/// The leaf in which the upright at a place last came: in the first, or again after its latest renewal. A fifth are
/// renewed each year, neighbours in different years.
fn born(place: u32, places: u32, leaf: u8) -> u8 {
    let each = places.div_ceil(5).max(1);
    let turns = places.div_ceil(each);
    let turn = place % turns;
    (RENEWAL_LEAF..leaf)
        .rev()
        .find(|year| u32::from(year - RENEWAL_LEAF) % turns == turn)
        .unwrap_or(1)
}
