//! Random rows, plans and work for the property tests.
#![allow(dead_code)]

use cordonry::file::write_plan;
use cordonry::plan::{Moment, Plan, Replayed, Window, replay};
use cordonry::row::{
    Covering, Face, GrowthUnit, Laterals, Limit, Planted, Pose, Row, Shoot, ShootId, Targets,
    Toward, Tree, TreeId, Trellis, Wire,
};
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use proptest::prelude::*;
use proptest::sample::Index;
use std::sync::Arc;

/// How many random cases a property gets; nothing is written beside the tests.
pub fn cases(n: u32) -> ProptestConfig {
    ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::with_cases(n)
    }
}

/// All that a plan holds, for comparing to the last bit: its file, and what it is in memory.
pub fn bytes(plan: &Plan) -> String {
    write_plan(plan) + &format!("{plan:?}")
}

pub fn toward() -> impl Strategy<Value = Toward> {
    prop_oneof![Just(Toward::Left), Just(Toward::Right)]
}

fn face() -> impl Strategy<Value = Face> {
    prop_oneof![Just(Face::Top), Just(Face::Side), Just(Face::Under)]
}

fn tenths(from: i32, to: i32) -> impl Strategy<Value = Deg> {
    (from * 10..=to * 10).prop_map(|t| Deg::new(f64::from(t) / 10.0))
}

fn laid() -> impl Strategy<Value = Pose> {
    let rise = prop_oneof![Just(Deg::new(0.0)), tenths(-10, 30)];
    (toward(), rise).prop_map(|(toward, rise)| Pose::Laid { toward, rise })
}

fn upright() -> impl Strategy<Value = Pose> {
    prop_oneof![Just(Deg::new(0.0)), tenths(-90, 90)].prop_map(|lean| Pose::Upright { lean })
}

fn pose() -> impl Strategy<Value = Pose> {
    prop_oneof![
        3 => upright(),
        2 => laid(),
        1 => Just(Pose::Stub),
        2 => Just(Pose::Free),
    ]
}

/// One to three seasons' growth, the last parts of which may have been cut: whole millimetres.
fn units() -> impl Strategy<Value = Vec<GrowthUnit>> {
    prop::collection::vec((1i32..2500, 0i32..400), 1..=3).prop_map(|parts| {
        parts
            .into_iter()
            .enumerate()
            .map(|(i, (kept, cut))| {
                GrowthUnit::new(i as u8, f64::from(kept + cut), f64::from(kept))
            })
            .collect()
    })
}

/// A shoot but for its id and parent: the parent by choice, the place as a share of the parent.
#[derive(Clone, Debug)]
struct Child {
    parent: Index,
    share: f64,
    face: Face,
    pose: Pose,
    units: Vec<GrowthUnit>,
    diameter: u16,
    laterals: u16,
}

fn child() -> impl Strategy<Value = Child> {
    (
        any::<Index>(),
        prop_oneof![Just(0.0), Just(1.0), 0.0..=1.0],
        face(),
        pose(),
        prop::option::weighted(0.9, units()),
        0u16..400,
        0u16..6,
    )
        .prop_map(
            |(parent, share, face, pose, units, diameter, laterals)| Child {
                parent,
                share,
                face,
                // Without growth it is a found bud, which stands.
                pose: match units {
                    Some(_) => pose,
                    None => Pose::Upright {
                        lean: Deg::default(),
                    },
                },
                units: units.unwrap_or_default(),
                diameter,
                laterals,
            },
        )
}

/// How a tree is built.
#[derive(Clone, Debug)]
enum Build {
    Lost,
    /// The stem itself is laid, stood up or free.
    Single(Pose),
    /// Two leaders fork from the top of the stem.
    Two(Deg, Vec<GrowthUnit>, Vec<GrowthUnit>),
}

fn build() -> impl Strategy<Value = Build> {
    prop_oneof![
        1 => Just(Build::Lost),
        5 => laid().prop_map(Build::Single),
        1 => prop_oneof![upright(), Just(Pose::Free)].prop_map(Build::Single),
        3 => (tenths(-10, 30), units(), units()).prop_map(|(r, a, b)| Build::Two(r, a, b)),
    ]
}

fn shoot(i: usize, parent: Option<ShootId>, at: f64, child: &Child, leaf: u8) -> Shoot {
    let mut units = child.units.clone();
    let last = units.len() as u8;
    for unit in &mut units {
        // The newest growth is of the leaf before the found one, as far as there are so many.
        unit.leaf = (leaf + unit.leaf).saturating_sub(last);
    }
    Shoot {
        // Ids that do not grow with the place in the tree.
        id: ShootId::found((i as u32 * 37) % 997),
        parent,
        at,
        face: child.face,
        pose: child.pose,
        units,
        diameter: f64::from(child.diameter) / 10.0,
        laterals: Laterals {
            count: child.laterals,
            total: f64::from(child.laterals) * 120.0,
        },
        rubbed: false,
        origin: None,
        bend_radius: None,
    }
}

fn tree() -> impl Strategy<Value = (u16, Tree)> {
    (
        prop_oneof![Just(1500u16), 0u16..3500],
        prop_oneof![Just(Deg::new(45.0)), Just(Deg::new(90.0)), tenths(10, 90)],
        toward(),
        build(),
        child(),
        units(),
        prop::collection::vec(child(), 0..7),
        1u8..5,
    )
        .prop_map(
            |(gap, angle, toward, build, mut stem, stem_units, children, leaf)| {
                stem.units = stem_units;
                let mut shoots: Vec<Shoot> = Vec::new();
                match &build {
                    Build::Lost => {}
                    Build::Single(pose) => {
                        stem.pose = *pose;
                        shoots.push(shoot(0, None, 0.0, &stem, leaf));
                    }
                    Build::Two(rise, left, right) => {
                        stem.pose = Pose::Free;
                        shoots.push(shoot(0, None, 0.0, &stem, leaf));
                        let top = shoots[0].length();
                        for (toward, units) in [(Toward::Left, left), (Toward::Right, right)] {
                            let leader = Child {
                                units: units.clone(),
                                pose: Pose::Laid {
                                    toward,
                                    rise: *rise,
                                },
                                ..stem.clone()
                            };
                            let i = shoots.len();
                            shoots.push(shoot(i, Some(ShootId::STEM), top, &leader, leaf));
                        }
                    }
                }
                if !shoots.is_empty() {
                    for c in &children {
                        let parent = &shoots[c.parent.index(shoots.len())];
                        let at = (parent.length() * c.share).floor().max(0.0);
                        let id = parent.id;
                        let i = shoots.len();
                        shoots.push(shoot(i, Some(id), at, c, leaf));
                    }
                }
                let tree = Tree {
                    id: TreeId(0),
                    foot: Mm(0),
                    planted: Planted { angle, toward },
                    shoots,
                    note: String::new(),
                };
                (gap, tree)
            },
        )
}

/// A row of one to eight trees, any of them lost; every place a whole millimetre.
pub fn row() -> impl Strategy<Value = Row> {
    (
        prop::collection::vec(tree(), 1..=8),
        -5000i32..5000,
        (0i32..1000, 0i32..3000),
        prop_oneof![Just(500i32), 200i32..1500],
        1u8..5,
        any::<bool>(),
    )
        .prop_map(|(trees, begin, (before, after), wire, leaf, down)| {
            let count = trees.len() as u32;
            let mut foot = begin;
            let mut out = Vec::new();
            for (i, (gap, mut tree)) in trees.into_iter().enumerate() {
                foot += i32::from(gap);
                // Numbers may run against the row, and leave some out.
                let n = i as u32;
                tree.id = TreeId(if down { 3 * (count - n) } else { n + 1 });
                tree.foot = Mm(foot);
                out.push(Arc::new(tree));
            }
            let first = out.first().map_or(0, |t| t.foot.0);
            let mut row = Row {
                leaf,
                from: Mm(first - before),
                to: Mm(foot + after),
                trellis: Trellis {
                    wires: vec![
                        Wire {
                            height: Mm(wire),
                            covering: Covering::Bare,
                        },
                        Wire {
                            height: Mm(wire + 600),
                            covering: Covering::Plastic,
                        },
                    ],
                    ..Trellis::default()
                },
                trees: out,
            };
            row.sort();
            row
        })
}

/// Limits of which those that bend and cover are free in their range.
pub fn targets() -> impl Strategy<Value = Targets> {
    let of = |limit: Limit| {
        let info = limit.info();
        prop_oneof![Just(info.default), info.min..=info.max]
            // As fine as a file holds it.
            .prop_map(move |v| (limit, (v * 1e3).round() / 1e3))
    };
    (
        of(Limit::BendDiameters),
        of(Limit::BearingHeight),
        of(Limit::CordonBand),
    )
        .prop_map(|(a, b, c)| {
            let mut out = Targets::default();
            for (limit, value) in [a, b, c] {
                out.set(limit, Some(value)).expect("a value in range");
            }
            out
        })
}

/// A plan of a random row, with no work yet.
pub fn plan() -> impl Strategy<Value = Plan> {
    (row(), targets()).prop_map(|(row, targets)| {
        let mut plan = Plan::new("a row", row);
        plan.targets = Arc::new(targets);
        plan
    })
}

/// Work before it is known on which row: a choice among what is there, or what is not.
#[derive(Clone, Debug)]
pub struct Draft {
    kind: u8,
    tree: Index,
    shoot: Index,
    share: f64,
    toward: Toward,
    angle: f64,
    /// `Some`: this number in place of a sensible one.
    number: Option<i32>,
    stray: Option<u8>,
    at: (u8, Index),
}

fn number() -> impl Strategy<Value = i32> {
    prop_oneof![
        Just(i32::MIN),
        Just(i32::MAX),
        Just(0),
        Just(-1),
        any::<i32>(),
        -50..4000i32
    ]
}

/// Work of any kind, sensible most of the time.
pub fn draft() -> impl Strategy<Value = Draft> {
    (
        (0u8..8, any::<Index>(), any::<Index>()),
        (
            0.0..=1.0,
            toward(),
            prop_oneof![8 => -30.0..60.0, 1 => Just(f64::NAN), 1 => any::<f64>()],
        ),
        prop::option::weighted(0.15, number()),
        prop::option::weighted(0.1, 0u8..3),
        (0u8..3, any::<Index>()),
    )
        .prop_map(
            |((kind, tree, shoot), (share, toward, angle), number, stray, at)| Draft {
                kind,
                tree,
                shoot,
                share,
                toward,
                angle,
                number,
                stray,
                at,
            },
        )
}

pub fn drafts(most: usize) -> impl Strategy<Value = Vec<Draft>> {
    prop::collection::vec(draft(), 1..=most)
}

impl Draft {
    /// When it is to be done: in the plan's first three leaves.
    pub fn moment(&self, plan: &Plan) -> Moment {
        let window = Window::ALL[self.at.1.index(4)];
        Moment {
            leaf: plan.found.leaf + self.at.0,
            window,
        }
    }

    /// The work itself, on a row as it stands.
    pub fn on(&self, row: &Row) -> Work {
        let at = &row.trees[self.tree.index(row.trees.len())];
        let picked = (!at.shoots.is_empty()).then(|| &at.shoots[self.shoot.index(at.shoots.len())]);
        let length = picked.map_or(1000.0, Shoot::length);
        let sensible = Mm::round(length * self.share);
        let mut tree = at.id;
        let mut shoot = picked.map_or(ShootId::STEM, |s| s.id);
        match self.stray {
            // A tree that is not there; another tree with this one's shoot; a shoot that is not there.
            Some(0) => tree = TreeId(4_000_000_000),
            Some(1) => tree = row.trees[self.shoot.index(row.trees.len())].id,
            Some(_) => shoot = ShootId::grown(tree, 9, shoot, 77),
            None => {}
        }
        let mm = self.number.map_or(sensible, Mm);
        let deg = match self.number {
            Some(n) => Deg::new(f64::from(n)),
            None => Deg::new(self.angle),
        };
        match self.kind {
            0 => Work::Lay {
                tree,
                shoot,
                toward: self.toward,
                rise_deg: deg,
            },
            1 => Work::Stand {
                tree,
                shoot,
                lean_deg: deg,
            },
            2 => Work::CutBack {
                tree,
                shoot,
                keep_mm: mm,
            },
            3 => Work::Stub {
                tree,
                shoot,
                keep_mm: if self.number.is_some() {
                    mm
                } else {
                    Mm(mm.0.min(500))
                },
            },
            4 => Work::Remove { tree, shoot },
            // Buds more often than the rest: work on what they bring is the interesting part.
            _ => Work::KeepBud {
                tree,
                shoot,
                at_mm: mm,
            },
        }
    }

    /// The work on the plan's first scheme as it stands at the draft's moment.
    pub fn for_plan(&self, plan: &Plan) -> (Moment, Work) {
        let moment = self.moment(plan);
        (moment, self.on(&at(plan, moment).row))
    }
}

/// The first scheme at a moment.
pub fn at(plan: &Plan, moment: Moment) -> Replayed {
    replay(plan, 0, moment).expect("there is a first scheme")
}

/// The plan after all drafts that are not refused.
pub fn worked(plan: &Plan, drafts: &[Draft]) -> Plan {
    let mut plan = plan.clone();
    for draft in drafts {
        let (moment, work) = draft.for_plan(&plan);
        if let Ok(next) = plan.with_work(0, moment, work) {
            plan = next;
        }
    }
    plan
}

/// The plan with work put in whether it can be done or not, as a file or an older plan may bring it.
pub fn forced(plan: &Plan, moment: Moment, work: Work) -> Plan {
    let mut out = plan.clone();
    let mut scheme = (*out.schemes[0]).clone();
    scheme.schedule.put(moment, work);
    out.schemes[0] = Arc::new(scheme);
    out
}

/// Every moment of a plan's first leaves, from one leaf before the row was found.
pub fn moments(plan: &Plan) -> Vec<Moment> {
    let leaf = plan.found.leaf;
    (leaf.saturating_sub(1)..=leaf + 3)
        .flat_map(|leaf| Window::ALL.map(|window| Moment { leaf, window }))
        .collect()
}

/// All work of the first scheme, in order of time and then of subject.
pub fn all_work(plan: &Plan) -> Vec<(Moment, Work)> {
    let scheme = &plan.schemes[0];
    let moments = scheme.schedule.moments().into_iter();
    moments
        .flat_map(|m| scheme.work(m).map(move |w| (m, w.clone())))
        .collect()
}
