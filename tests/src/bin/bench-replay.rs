//! Times replay, and weighs what it keeps: 300 trees of 12 uprights through ten leaves under two schemes, ten works a leaf and
//! tree. Prints one object a line. The anchor of a time is the same asked of a replayer that knows nothing; that of a
//! weight is the bound it is to keep.

use cordonry::plan::{Moment, Phase, Plan, Replayer, Schedule, Scheme, Window, replay};
use cordonry::row::{Face, Laterals, Pose, Row, Shoot, ShootId, Toward, TreeId, Trellis};
use cordonry::seed::Seeded;
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use cordonry_fixture::wood;
use cordonry_tests::timing::{best, say};
use peak_alloc::PeakAlloc;
use std::hint::black_box;
use std::sync::Arc;

#[global_allocator]
static HELD: PeakAlloc = PeakAlloc;

const TREES: u32 = 300;
const LEAVES: u8 = 10;
const UPRIGHTS: u32 = 12;
const FIRST: u8 = 5;
const SCHEMES: usize = 2;

fn shoot(id: u32, at: f64, pose: Pose, units: u8, length: f64, diameter: f64) -> Shoot {
    let grown = length / f64::from(units);
    Shoot {
        diameter,
        laterals: Laterals {
            count: 4,
            total: 1000.0,
        },
        at,
        ..wood::shoot(
            id,
            pose,
            (0..units).map(|n| wood::cut(n, grown, grown)).collect(),
        )
    }
}

/// Trees as they are when they fill their place: a laid stem, uprights of four years, and as many loose shoots.
fn row() -> Row {
    let shoots = |_| {
        let laid = wood::laid(Toward::Right, 2.0);
        let up = wood::standing(0.0);
        let mut shoots = vec![shoot(0, 0.0, laid, 5, 3200.0, 40.0)];
        for u in 0..UPRIGHTS {
            let at = 760.0 + 190.0 * f64::from(u);
            shoots.push(shoot(2 * u + 1, at, up, 4, 1900.0, 15.0));
            let mut loose = shoot(2 * u + 2, at + 60.0, Pose::Free, 2, 500.0, 6.0);
            loose.face = Face::Side;
            shoots.push(loose);
        }
        shoots
    };
    Row {
        leaf: FIRST,
        from: Mm(500),
        to: Mm(2400 * TREES as i32 + 2000),
        trellis: Trellis::default(),
        trees: wood::slanting(TREES, 2400, shoots),
    }
}

/// One leaf's work on a tree: some in each window, none of which takes away what later work is about.
fn works(tree: TreeId, leaf: u8, chance: &mut Seeded) -> Vec<(Moment, Work)> {
    let mut out = Vec::new();
    let turn = u32::from(leaf - FIRST);
    let mut pick = |n: u32| (chance.share() * f64::from(n)) as u32;
    for i in 0..4 {
        let shoot = ShootId::found(2 * ((turn + 3 * i) % UPRIGHTS) + 1);
        let lean_deg = Deg::new(f64::from(pick(40)) - 20.0);
        let stand = Work::Stand {
            tree,
            shoot,
            lean_deg,
        };
        out.push((Window::Dormant, stand));
    }
    for i in 0..2 {
        let keep_mm = Mm(1850 - 20 * turn as i32 - pick(10) as i32);
        let shoot = ShootId::found(2 * ((turn + 5 * i + 1) % UPRIGHTS) + 1);
        out.push((
            Window::Dormant,
            Work::CutBack {
                tree,
                shoot,
                keep_mm,
            },
        ));
    }
    // Buds in the gaps that are left, each at a place of its own.
    let at_mm = Mm(700 + 190 * turn as i32 + 30);
    let shoot = ShootId::STEM;
    out.push((Window::BudSwell, Work::KeepBud { tree, shoot, at_mm }));
    for i in 0..3 {
        let shoot = ShootId::found(2 * ((turn + 4 * i) % UPRIGHTS) + 2);
        let lean_deg = Deg::new(f64::from(pick(60)) - 30.0);
        let stand = Work::Stand {
            tree,
            shoot,
            lean_deg,
        };
        out.push((
            [Window::EarlySummer, Window::AfterHarvest][i as usize % 2],
            stand,
        ));
    }
    out.into_iter()
        .map(|(window, work)| (Moment { leaf, window }, work))
        .collect()
}

fn scheme(seed: u64) -> Scheme {
    let mut chance = Seeded::new(seed);
    let mut all = Vec::new();
    for leaf in FIRST..FIRST + LEAVES {
        for tree in 1..=TREES {
            all.extend(works(TreeId(tree), leaf, &mut chance));
        }
    }
    Scheme {
        name: format!("{seed}"),
        schedule: all.into_iter().collect::<Schedule>(),
        ..Scheme::default()
    }
}

fn plan() -> Plan {
    let mut plan = Plan::new("Made for measuring", row());
    plan.schemes = (1..=SCHEMES).map(|n| Arc::new(scheme(n as u64))).collect();
    plan
}

fn bend(n: usize) -> Work {
    Work::Stand {
        tree: TreeId(150),
        shoot: ShootId::found(1),
        lean_deg: Deg::new((n % 40) as f64 - 20.0),
    }
}

/// What stays allocated by what `make` gives, bytes.
fn weight<T>(make: impl FnOnce() -> T) -> (T, usize) {
    let before = HELD.current_usage();
    let made = make();
    (made, HELD.current_usage().saturating_sub(before))
}

fn main() {
    let plan = plan();
    let last = Moment {
        leaf: FIRST + LEAVES - 1,
        window: Window::AfterHarvest,
    };
    let middle = Moment {
        leaf: FIRST + 4,
        window: Window::Dormant,
    };
    let done = replay(&plan, 0, last).expect("it replays");
    assert!(done.void.is_empty(), "{:?}", done.void.first());
    let whole = best(5, || {
        black_box(replay(&plan, 0, last).expect("it replays"));
    });
    let pass = best(3, || {
        for state in plan.timeline(0, last).expect("there is the scheme") {
            black_box(state.void.len());
        }
    });
    let each = best(1, || {
        let mut all = plan.start().until(last).step_by(4).collect::<Vec<_>>();
        all.reverse();
        for moment in all {
            black_box(replay(&plan, 0, moment).expect("it replays"));
        }
    });
    say(
        "every state of ten leaves in one pass; ten leaves' ends each from nothing",
        "ms",
        pass,
        each,
    );
    let mut replayer = Replayer::default();
    let mut at = |plan: &Plan, moment| {
        let seen = replayer.at(plan, 0, moment, Phase::After);
        black_box(seen.expect("it replays"));
    };
    at(&plan, last);
    let again = best(20, || at(&plan, last));
    say(
        "replay of 300 trees, 10 leaves: known; from nothing",
        "ms",
        again,
        whole,
    );
    // As a hand does it: every move is an edit of the plan as it was, and the row anew.
    for (words, when) in [("first", plan.start()), ("fifth", middle), ("last", last)] {
        let mut n = 0;
        let edit = best(40, || {
            n += 1;
            let moved = plan.with_work(0, when, bend(n)).expect("it can be done");
            at(&moved, when);
        });
        let anew = best(3, || {
            n += 1;
            let moved = plan.with_work(0, when, bend(n)).expect("it can be done");
            black_box(replay(&moved, 0, when).expect("it replays"));
        });
        say(
            &format!("an edit in the {words} leaf and its row; the row from nothing"),
            "ms",
            edit,
            anew,
        );
    }
    let steps = 200;
    let (snapshots, bytes) = weight(|| {
        let mut plans = vec![plan.clone()];
        for n in 0..steps {
            let last = plans.last().unwrap_or(&plan);
            let tree = TreeId(1 + (n as u32 * 7) % TREES);
            let work = match bend(n) {
                Work::Stand {
                    shoot, lean_deg, ..
                } => Work::Stand {
                    tree,
                    shoot,
                    lean_deg,
                },
                other => other,
            };
            let next = last.with_work(0, middle, work).expect("it can be done");
            plans.push(next);
        }
        plans
    });
    let (_copy, whole_plan) = weight(self::plan);
    say(
        "bytes a step of undo; bytes of the whole plan",
        "B",
        (bytes / snapshots.len()) as f64,
        whole_plan as f64,
    );
    // All that an instance keeps once both schemes were looked at from end to end, before and after, the shoots laid out.
    let (_kept, bytes) = weight(|| {
        let mut replayer = Replayer::default();
        let mut rows = Vec::new();
        for scheme in 0..SCHEMES {
            rows.clear();
            for moment in plan.start().until(last) {
                for phase in [Phase::Before, Phase::After] {
                    let seen = replayer
                        .at(&plan, scheme, moment, phase)
                        .expect("it replays");
                    for tree in seen.row.posed() {
                        black_box(tree.courses().len());
                    }
                    rows = vec![seen];
                }
            }
        }
        (replayer, rows)
    });
    say(
        "cache of both schemes, all looked at; bound",
        "MB",
        bytes as f64 / 1e6,
        32.0,
    );
}
