//! Hand-made plans and the figures on which native and browser must agree, kept in tests/reference/digest.
//!
//! Each plan is kept as a file too, so that a browser can be given the same bytes. After a wanted change:
//! `UPDATE_SNAPSHOTS=1 cargo test -p cordonry-tests --test reference_digest`, then read the difference.

use cordonry::file::{read_plan, write_plan};
use cordonry::plan::{Moment, Plan, Schedule, Scheme, Window};
use cordonry::row::{
    Face, GrowthUnit, Limit, Pose, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId, Trellis,
};
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use cordonry_digest::digest;
use cordonry_fixture::seasons::Usual;
use cordonry_fixture::wood::{self, laid, standing as upright};
use std::path::PathBuf;
use std::sync::Arc;

const LEVEL: f64 = 0.0;

/// A shoot of one season's growth, `length` mm long and `diameter` mm thick; without length a bud.
fn shoot(
    id: u32,
    parent: u32,
    at: f64,
    face: Face,
    pose: Pose,
    length: f64,
    diameter: f64,
) -> Shoot {
    let grown = GrowthUnit::whole(1, length);
    Shoot {
        face,
        pose,
        units: if length > 0.0 { vec![grown] } else { vec![] },
        diameter,
        ..Shoot::bud(
            ShootId::found(id),
            (id > 0).then(|| ShootId::found(parent)),
            at,
        )
    }
}

fn tree(id: u32, foot: i32, angle: f64, toward: Toward, shoots: Vec<Shoot>) -> Arc<Tree> {
    Arc::new(wood::tree(id, foot, angle, toward, shoots))
}

fn row(leaf: u8, from: i32, to: i32, trees: Vec<Arc<Tree>>) -> Row {
    Row {
        leaf,
        from: Mm(from),
        to: Mm(to),
        trellis: Trellis::default(),
        trees,
    }
}

fn when(leaf: u8, window: Window) -> Moment {
    Moment { leaf, window }
}

fn work(plan: Plan, moment: Moment, works: &[Work]) -> Plan {
    plan.with_works(0, moment, works.to_vec())
        .expect("work that can be done")
}

/// Single leaders, all leaning right, in their third leaf: gaps of several sizes, uprights, one end shoot laid on.
fn single_leaders() -> Plan {
    let right = Toward::Right;
    let mut trees = Vec::new();
    for (i, length) in [2207.0, 1990.0, 1700.0, 2450.0].into_iter().enumerate() {
        let n = i as u32;
        let rise = f64::from(n) * 1.3;
        let mut shoots = vec![shoot(
            0,
            0,
            0.0,
            Face::Top,
            laid(right, rise),
            length,
            17.3 + f64::from(n),
        )];
        for k in 0..6u32 {
            let at = 760.0 + f64::from(k) * 187.0;
            let lean = f64::from(k) * 2.7 - 6.1;
            let grown = 410.0 + 53.0 * f64::from(k);
            shoots.push(shoot(k + 1, 0, at, Face::Top, upright(lean), grown, 8.4));
        }
        shoots.push(shoot(
            9,
            0,
            length - 30.0,
            Face::Side,
            Pose::Free,
            640.0,
            7.7,
        ));
        trees.push(tree(n + 1, 1500 * i as i32, 45.0, right, shoots));
    }
    let plan = Plan::new("single leaders", row(3, 500, 6500, trees));
    let lay = Work::Lay {
        tree: TreeId(3),
        shoot: ShootId::found(9),
        toward: right,
        rise_deg: Deg::new(2.5),
    };
    let bud = |tree: u32, at| Work::KeepBud {
        tree: TreeId(tree),
        shoot: ShootId::STEM,
        at_mm: Mm(at),
    };
    let stub = Work::Stub {
        tree: TreeId(1),
        shoot: ShootId::found(4),
        keep_mm: Mm(150),
    };
    let plan = work(plan, when(3, Window::Dormant), &[lay, stub]);
    work(
        plan,
        when(3, Window::BudSwell),
        &[bud(1, 1850), bud(4, 2400)],
    )
}

/// Two opposed leaders forking from a headed stem below the wire, 3 m apart.
fn two_leaders() -> Plan {
    let trees = (0..3)
        .map(|i| {
            let more = f64::from(i) * 61.0;
            let mut shoots = vec![
                shoot(0, 0, 0.0, Face::Top, Pose::Free, 330.0, 24.0),
                shoot(
                    1,
                    0,
                    330.0,
                    Face::Top,
                    laid(Toward::Left, 3.2),
                    1590.0 + more,
                    14.1,
                ),
                shoot(
                    2,
                    0,
                    318.0,
                    Face::Top,
                    laid(Toward::Right, LEVEL),
                    1720.0 - more,
                    15.6,
                ),
            ];
            for k in 0..5u32 {
                let at = 420.0 + f64::from(k) * 211.0;
                shoots.push(shoot(
                    10 + k,
                    1,
                    at,
                    Face::Top,
                    upright(-1.4),
                    900.0 + more,
                    10.2,
                ));
                shoots.push(shoot(
                    20 + k,
                    2,
                    at,
                    Face::Top,
                    upright(0.9),
                    870.0 - more,
                    9.8,
                ));
            }
            tree(i as u32 + 1, 1400 + 3000 * i, 90.0, Toward::Right, shoots)
        })
        .collect();
    let plan = Plan::new("two leaders", row(4, 0, 9000, trees));
    let stand = Work::Stand {
        tree: TreeId(2),
        shoot: ShootId::found(1),
        lean_deg: Deg::new(-20.0),
    };
    let cut = Work::CutBack {
        tree: TreeId(3),
        shoot: ShootId::found(2),
        keep_mm: Mm(1000),
    };
    work(plan, when(5, Window::EarlySummer), &[stand, cut])
}

/// Everything out of the ordinary: a lost tree, opposed and steep leans, stock too short to reach the wire, drooping and
/// high wood, under and side shoots, a found bud, other limits.
fn irregular() -> Plan {
    let (left, right) = (Toward::Left, Toward::Right);
    let trees = vec![
        tree(
            11,
            -340,
            60.0,
            right,
            vec![
                shoot(0, 0, 0.0, Face::Top, laid(right, -4.5), 1903.0, 21.7),
                shoot(5, 0, 1903.0, Face::Top, laid(right, -10.0), 511.0, 9.1),
                shoot(6, 0, 1100.0, Face::Under, Pose::Free, 380.0, 6.0),
                shoot(3, 0, 900.0, Face::Top, upright(0.0), 0.0, 0.0),
            ],
        ),
        tree(7, 1184, 45.0, right, vec![]),
        tree(
            9,
            2711,
            38.5,
            left,
            vec![
                shoot(0, 0, 0.0, Face::Top, laid(left, 29.9), 2604.0, 18.8),
                shoot(2, 0, 2000.0, Face::Top, laid(left, 4.0), 700.0, 8.0),
                shoot(1, 2, 350.0, Face::Side, upright(33.3), 421.0, 5.5),
            ],
        ),
        tree(
            8,
            4003,
            90.0,
            right,
            vec![shoot(0, 0, 0.0, Face::Top, laid(right, LEVEL), 444.0, 12.0)],
        ),
        tree(
            4,
            5566,
            45.0,
            left,
            vec![
                // Planted to the left, laid to the right: a bend through more than a right angle.
                shoot(0, 0, 0.0, Face::Top, laid(right, 7.7), 2345.0, 13.1),
                shoot(8, 0, 1400.0, Face::Top, Pose::Stub, 120.0, 11.0),
            ],
        ),
    ];
    let mut plan = Plan::new("irregular", row(2, -100, 7300, trees));
    let mut targets = Targets::default();
    for (limit, value) in [
        (Limit::BendDiameters, 22.5),
        (Limit::BearingHeight, 310.0),
        (Limit::CordonBand, 240.0),
    ] {
        targets.set(limit, Some(value)).expect("a value in range");
    }
    plan.targets = Arc::new(targets);
    plan
}

/// Two schemes of one row; in the second, work whose subjects are gone.
fn schemes() -> Plan {
    let right = Toward::Right;
    let trees = (0..2)
        .map(|i| {
            tree(
                i as u32 + 1,
                1829 * i,
                52.5,
                right,
                vec![
                    shoot(0, 0, 0.0, Face::Top, laid(right, 2.0), 2050.0, 16.0),
                    shoot(1, 0, 800.0, Face::Top, upright(0.0), 613.0, 7.9),
                    shoot(2, 0, 1210.0, Face::Top, Pose::Free, 744.0, 8.8),
                ],
            )
        })
        .collect();
    let mut plan = Plan::new("schemes", row(2, 300, 4000, trees));
    let (tree, stem) = (TreeId(1), ShootId::STEM);
    let remove = |n: u32| Work::Remove {
        tree,
        shoot: ShootId::found(n),
    };
    plan = work(plan, when(2, Window::Dormant), &[remove(2)]);
    let bud = Work::KeepBud {
        tree,
        shoot: stem,
        at_mm: Mm(1500),
    };
    let kept = bud.kept_bud(2).expect("a bud");
    let mut schedule = Schedule::default();
    schedule.put(when(2, Window::Dormant), remove(1));
    schedule.put(when(2, Window::BudSwell), bud.clone());
    schedule.put(
        when(2, Window::AfterHarvest),
        Work::CutBack {
            tree,
            shoot: stem,
            keep_mm: Mm(1400),
        },
    );
    schedule.put(when(3, Window::Dormant), remove(1));
    schedule.put(when(3, Window::Dormant), Work::Remove { tree, shoot: kept });
    schedule.put(when(3, Window::BudSwell), bud);
    schedule.put(
        when(3, Window::EarlySummer),
        Work::Stand {
            tree: TreeId(77),
            shoot: stem,
            lean_deg: Deg::new(5.0),
        },
    );
    plan.schemes.push(Arc::new(Scheme {
        name: "B".into(),
        schedule,
        ..Scheme::default()
    }));
    plan
}

/// Planted stock worked in the usual way through six leaves, and the same with its buds left on in the first.
fn seasons() -> Plan {
    let usual = Usual {
        trees: 2,
        ..Usual::default()
    };
    let mut plan = usual.plan(6);
    let wild = Usual {
        rub: false,
        ..usual
    }
    .plan(6);
    plan.schemes.push(Arc::new(Scheme {
        name: "B".into(),
        ..(*wild.schemes[0]).clone()
    }));
    plan
}

fn plans() -> [(&'static str, Plan); 5] {
    [
        ("single-leaders", single_leaders()),
        ("two-leaders", two_leaders()),
        ("irregular", irregular()),
        ("schemes", schemes()),
        ("seasons", seasons()),
    ]
}

fn path(name: &str, ending: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("reference/digest/{name}.{ending}"))
}

fn check(name: &str, plan: &Plan) {
    let file = std::fs::read(path(name, "json")).expect("the kept plan");
    let kept = read_plan(&file).expect("a plan");
    assert_eq!(kept, *plan, "{name}: the kept plan is another one");
    let expected = std::fs::read_to_string(path(name, "txt")).expect("the kept figures");
    let got = digest(&kept);
    let differing = got
        .lines()
        .zip(expected.lines())
        .position(|(a, b)| a != b)
        .unwrap_or(got.lines().count().min(expected.lines().count()));
    let line = |text: &str| text.lines().nth(differing).unwrap_or("the end").to_string();
    assert!(
        got == expected,
        "{name}, line {}: '{}', kept '{}'",
        differing + 1,
        line(&got),
        line(&expected)
    );
}

#[test]
fn every_hand_made_tree_keeps_the_rules() {
    for (name, plan) in plans() {
        for tree in &plan.found.trees {
            assert_eq!(tree.broken_rule(), None, "{name}");
        }
        let mut sorted = (*plan.found).clone();
        sorted.sort();
        assert_eq!(sorted, *plan.found, "{name}");
    }
}

#[test]
fn digests_are_as_kept() {
    for (name, plan) in plans() {
        if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
            std::fs::write(path(name, "json"), write_plan(&plan)).expect("written");
            std::fs::write(path(name, "txt"), digest(&plan)).expect("written");
        }
        check(name, &plan);
    }
}
