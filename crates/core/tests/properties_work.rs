//! Properties of single pieces of work on a row.

use cordonry::plan::{Moment, Window};
use cordonry::pose::{Geometry, layout};
use cordonry::row::{Covering, Planted, ShootId, Toward, TreeId};
use cordonry::units::{Deg, Mm};
use cordonry::work::{Work, apply};
use cordonry_fixture::random::*;
use cordonry_words::Words;
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;
use std::collections::BTreeMap;

const NUMBERS: [i32; 9] = [
    i32::MIN,
    i32::MIN + 1,
    -1,
    0,
    1,
    10,
    20_001,
    i32::MAX - 1,
    i32::MAX,
];
const ANGLES: [f64; 8] = [
    f64::NEG_INFINITY,
    f64::MIN,
    -0.0,
    1e-300,
    30.05,
    f64::MAX,
    f64::INFINITY,
    f64::NAN,
];

const BENDS: &[Kind] = &[Kind::Lay, Kind::Stand];
const CUTS: &[Kind] = &[Kind::CutBack, Kind::Stub];

/// Every kind of work on one subject, with every extreme number.
fn extremes(tree: TreeId, shoot: ShootId) -> Vec<Work> {
    let mut out = vec![
        Work::RemoveTree { tree },
        Work::Remove { tree, shoot },
        Work::Thin {
            tree,
            shoot,
            keep: shoot,
        },
        Work::RubOut { tree, shoot },
        Work::TakeLaterals { tree, shoot },
    ];
    for n in NUMBERS {
        let mm = Mm(n);
        let covering = Covering::Bare;
        let planted = Planted {
            angle: Deg::new(f64::from(n)),
            toward: Toward::Left,
        };
        let dmm = n as u16;
        out.push(Work::Plant {
            tree,
            foot_mm: mm,
            planted,
            length_mm: mm,
            diameter_dmm: dmm,
        });
        out.push(Work::ReplaceTree {
            tree,
            planted,
            length_mm: mm,
            diameter_dmm: dmm,
        });
        out.push(Work::CutToBuds {
            tree,
            shoot,
            buds: n,
        });
        out.push(Work::Tip {
            tree,
            shoot,
            percent: n,
        });
        out.push(Work::MoveBud {
            tree,
            shoot,
            at_mm: mm,
        });
        out.push(Work::HoldHeight {
            tree,
            shoot,
            height_mm: mm,
        });
        out.push(Work::AddWire {
            height_mm: mm,
            covering,
        });
        out.push(Work::MoveWire {
            height_mm: mm,
            to_mm: mm,
        });
        out.push(Work::RemoveWire { height_mm: mm });
        out.push(Work::CoverWire {
            height_mm: mm,
            covering,
        });
        out.push(Work::CutBack {
            tree,
            shoot,
            keep_mm: mm,
        });
        out.push(Work::Stub {
            tree,
            shoot,
            keep_mm: mm,
        });
        out.push(Work::KeepBud {
            tree,
            shoot,
            at_mm: mm,
        });
    }
    for angle in ANGLES {
        let deg = Deg::new(angle);
        out.push(Work::Stand {
            tree,
            shoot,
            lean_deg: deg,
        });
        for toward in [Toward::Left, Toward::Right] {
            out.push(Work::Lay {
                tree,
                shoot,
                toward,
                rise_deg: deg,
            });
        }
    }
    out
}

#[test]
fn every_kind_of_work_is_drawn_and_done() {
    let (mut drawn, mut done) = (BTreeMap::new(), BTreeMap::new());
    let mut runner = TestRunner::deterministic();
    for _ in 0..300 {
        let mut plan = plan().new_tree(&mut runner).unwrap().current();
        for draft in drafts(14).new_tree(&mut runner).unwrap().current() {
            let (moment, work) = draft.for_plan(&plan);
            let kind = Kind::of(&work);
            *drawn.entry(kind).or_insert(0) += 1;
            if let Ok(next) = plan.with_work(0, moment, work) {
                *done.entry(kind).or_insert(0) += 1;
                plan = next;
            }
        }
    }
    println!("drawn {drawn:?}, done {done:?}");
    for (_, kind) in Kind::ALL {
        let of = |all: &BTreeMap<Kind, usize>| all.get(kind).copied().unwrap_or(0);
        // Of each some is refused, and enough is done to tell something.
        let (drawn, done) = (of(&drawn), of(&done));
        assert!(done > 5, "{kind:?}: {drawn} drawn, {done} done");
    }
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn extreme_numbers_are_refused_or_done_and_never_panic(
        plan in plan(), tree in any::<Index>(), shoot in any::<Index>(),
    ) {
        let words = Words::strict();
        let tree = &plan.found.trees[tree.index(plan.found.trees.len())];
        let mut subjects = vec![
            (tree.id, ShootId::from_number((1 << 53) - 1).unwrap()),
            (TreeId(u32::MAX), ShootId::STEM),
            (tree.id, ShootId::found(u32::MAX)),
        ];
        if !tree.is_lost() {
            subjects.push((tree.id, tree.shoots[shoot.index(tree.shoots.len())].id));
        }
        for (tree, shoot) in subjects {
            for work in extremes(tree, shoot) {
                match apply(&plan.found, plan.start(), &plan.terms(&plan.found.trellis), &work) {
                    Ok(row) => {
                        for tree in &row.trees {
                            prop_assert_eq!(tree.broken_rule(), None, "after {:?}", work);
                        }
                    }
                    Err(refusal) => {
                        let text = words.refusal(&refusal);
                        prop_assert!(words.has(refusal.key), "no text {}", refusal.key);
                        prop_assert!(
                            !text.contains(['{', '$']) && !text.contains("refusal-"),
                            "{:?}: {}", work, text
                        );
                    }
                }
                for leaf in [0, plan.found.leaf, 41, u8::MAX] {
                    for scheme in [0, 1, usize::MAX] {
                        let moment = Moment { leaf, window: Window::BudSwell };
                        let done = plan.with_work(scheme, moment, work.clone());
                        prop_assert!(done.is_err() || (scheme == 0 && leaf == plan.found.leaf));
                        if let Err(refusal) = done {
                            prop_assert!(words.has(refusal.key), "no text {}", refusal.key);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn bending_keeps_every_length(plan in plan(), before in drafts(4), draft in draft_of(BENDS)) {
        let plan = worked(&plan, &before);
        let moment = draft.moment(&plan);
        let row = at(&plan, moment).row;
        let work = draft.on(&row);
        let Ok(next) = apply(&row, Moment::dormant(row.leaf), &plan.terms(&row.trellis), &work) else { return Ok(()); };
        let g = Geometry::of(&row, &plan.targets);
        for (a, b) in row.trees.iter().zip(&next.trees) {
            prop_assert_eq!(a.shoots.len(), b.shoots.len());
            let (there, here) = (layout(a, g), layout(b, g));
            for (i, (s, t)) in a.shoots.iter().zip(&b.shoots).enumerate() {
                let mut expected = s.clone();
                if work.subject().tree == Some(a.id) && work.subject().shoot == s.id {
                    // It keeps the radius that it is bent with.
                    let radius = g.bend_diameters * s.diameter;
                    expected.pose = t.pose;
                    expected.bend_radius = (t.bends() && radius > 0.0).then_some(radius);
                }
                prop_assert_eq!(&expected, t);
                prop_assert_eq!(there[i].length, s.length());
                prop_assert_eq!(here[i].length, t.length());
            }
        }
    }

    #[test]
    fn cutting_leaves_what_it_says(plan in plan(), draft in draft_of(CUTS)) {
        let row = &plan.found;
        let work = draft.on(row);
        let (Work::CutBack { keep_mm, .. } | Work::Stub { keep_mm, .. }) = work else {
            return Ok(());
        };
        let Ok(next) = apply(row, Moment::dormant(row.leaf), &plan.terms(&row.trellis), &work) else { return Ok(()); };
        let subject = work.subject();
        let (before, _) = row.shoot(subject.tree.unwrap(), subject.shoot).unwrap();
        let (after, shoot) = next.shoot(subject.tree.unwrap(), subject.shoot).unwrap();
        prop_assert!((shoot.length() - keep_mm.f()).abs() < 1e-9);
        // What stays is as it was; what goes stood on the part that was cut off.
        for old in &before.shoots {
            match after.shoot(old.id) {
                Some(new) => prop_assert!(old.id == subject.shoot || new == old),
                None => {
                    let mut up = old;
                    while up.parent != Some(subject.shoot) {
                        up = before.shoot(up.parent.unwrap()).unwrap();
                    }
                    prop_assert!(up.at > keep_mm.f());
                }
            }
        }
    }

    #[test]
    fn the_same_bending_twice_is_the_same_as_once(plan in plan(), draft in draft_of(BENDS)) {
        let row = &plan.found;
        let work = draft.on(row);
        if let Ok(once) = apply(row, Moment::dormant(row.leaf), &plan.terms(&row.trellis), &work) {
            prop_assert_eq!(apply(&once, Moment::dormant(once.leaf), &plan.terms(&once.trellis), &work).unwrap(), once);
        }
    }
}
