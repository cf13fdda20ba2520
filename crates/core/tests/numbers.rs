//! What the parts of a tree are called: counted as the crew finds them, walking away from the trunk.

use cordonry::plan::{Plan, Replayer};
use cordonry::pose::{Called, Geometry, Name, Posed, PosedRow};
use cordonry::row::*;
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use cordonry_fixture::wall::*;
use cordonry_words::Words;
use proptest::prelude::*;
use std::collections::BTreeMap;

fn posed(row: &Row) -> PosedRow {
    PosedRow::of(row, &Targets::default())
}

/// What every shoot of the first tree but its stem is called, in the order of the shoots.
fn called(tree: Grow) -> Vec<String> {
    let row = posed(&row(-3000, 3000, vec![tree]));
    let names = row.posed()[0].names().iter().skip(1);
    names.map(|n| Words::strict().say(&n.on_tree())).collect()
}

/// Makes the last shoot one that grows from the shoot of that number, 100 mm along it.
fn on(tree: Grow, parent: u32, pose: Pose, origin: Option<Origin>) -> Grow {
    tree.shoot(100.0, pose, grown(2, 600.0)).last(|s| {
        s.parent = Some(ShootId::found(parent));
        s.origin = origin;
    })
}

#[test]
fn uprights_and_stubs_are_counted_in_one() {
    let tree = upright_stem(1, 0, 2000.0).uprights(&[1200.0, 400.0, 800.0]);
    let tree = tree.last(|s| s.pose = Pose::Stub);
    assert_eq!(
        called(tree),
        ["upright 3 of 3", "upright 1 of 3", "stub 2 of 3"]
    );
}

#[test]
fn a_return_has_the_number_of_its_place_and_the_stub_is_told_by_it() {
    let tree = upright_stem(1, 0, 2000.0).uprights(&[400.0, 800.0]);
    let tree = tree.last(|s| s.pose = Pose::Stub);
    let tree = on(tree, 2, standing(0.0), Some(Origin::Return));
    let tree = on(tree, 1, Pose::Free, None);
    let expected = [
        "upright 1 of 2",
        "stub under upright 2",
        "upright 2 of 2",
        "shoot on upright 1",
    ];
    assert_eq!(called(tree), expected);
}

#[test]
fn what_is_not_tied_is_called_by_where_it_stands() {
    let tree = upright_stem(1, 0, 2000.0);
    let tree = tree.shoot(600.0, Pose::Free, grown(2, 300.0));
    let tree = tree.shoot(700.0, Pose::Free, grown(2, 300.0));
    let tree = tree.last(|s| s.face = Face::Side);
    let tree = tree.shoot(1990.0, Pose::Free, grown(2, 300.0));
    let expected = ["shoot 1 of 1", "side shoot 1 of 1", "end shoot"];
    assert_eq!(called(tree), expected);
}

#[test]
fn wood_that_goes_both_ways_is_counted_on_each_side_from_the_trunk() {
    // A shoot from near the trunk is laid back over it.
    let tree = upright_stem(1, 0, 2000.0).uprights(&[400.0, 800.0]);
    let left = Pose::Laid {
        toward: Toward::Left,
        rise: Deg::new(0.0),
    };
    let at = tree.along(150.0);
    let tree = tree.shoot(at, left, grown(1, 900.0));
    let on = |tree: Grow, at: f64| {
        tree.shoot(at, standing(0.0), grown(2, 600.0))
            .last(|s| s.parent = Some(ShootId::found(3)))
    };
    let tree = on(on(on(tree, 800.0), 400.0), 10.0);
    let expected = [
        "upright 2 of 3 to the right",
        "upright 3 of 3 to the right",
        "leader to the left",
        "upright 2 of 2 to the left",
        "upright 1 of 2 to the left",
        "upright 1 of 3 to the right",
    ];
    assert_eq!(called(tree), expected);
}

#[test]
fn posts_tell_the_bay_of_a_tree() {
    let mut row = row(
        0,
        6000,
        vec![upright_stem(7, 500, 900.0), upright_stem(8, 2000, 900.0)],
    );
    row.trellis.posts = [0, 1500, 4500].map(Mm).to_vec();
    let name = |row: &Row, shoot| Words::strict().part(&posed(row), TreeId(8), shoot);
    assert_eq!(name(&row, None), "tree 8, bay 2 tree 1");
    let stem = Some(ShootId::STEM);
    assert_eq!(name(&row, stem), "leader, tree 8, bay 2 tree 1");
    row.trellis.posts.clear();
    assert_eq!(name(&row, stem), "leader, tree 8");
}

type Group = (Called, Option<&'static str>, u16);

/// The names of each group of a tree, each with its place along the row.
fn by_group(posed: &Posed) -> BTreeMap<Group, Vec<(f64, Name)>> {
    let mut out: BTreeMap<_, Vec<(f64, Name)>> = BTreeMap::new();
    for ((shoot, course), name) in posed.pairs().zip(posed.names()) {
        let called = match name.called {
            Called::Stub => Called::Upright,
            other => other,
        };
        let side = name
            .side
            .map(|s| if s == Toward::Left { "left" } else { "right" });
        let root = posed
            .tree()
            .rooted(shoot)
            .and_then(|r| posed.tree().index(r.id));
        let x = root.map_or(course.base.x, |at| posed.courses()[at].base.x);
        out.entry((called, side, name.on))
            .or_default()
            .push((x, *name));
    }
    out
}

proptest! {
    #![proptest_config(cordonry_fixture::random::cases(64))]

    /// From 1 on without a hole, in order from the trunk.
    #[test]
    fn numbers_run_from_the_trunk_on(row in cordonry_fixture::random::row()) {
        let row = posed(&row);
        for tree in row.posed() {
            for ((called, _, _), mut all) in by_group(tree) {
                all.sort_by_key(|(_, n)| n.number);
                let numbers: Vec<u16> = all.iter().map(|(_, n)| n.number).collect();
                if called == Called::Under {
                    continue;
                }
                prop_assert_eq!(&numbers, &(1..=all.len() as u16).collect::<Vec<_>>());
                prop_assert!(all.iter().all(|(_, n)| usize::from(n.of) == all.len()));
                if called != Called::Upright {
                    continue;
                }
                let xs: Vec<f64> = all.iter().map(|(x, _)| *x).collect();
                let down = xs.windows(2).all(|w| w[0] >= w[1] - 1e-9);
                let up = xs.windows(2).all(|w| w[0] <= w[1] + 1e-9);
                prop_assert!(match all[0].1.side {
                    Some(Toward::Left) => down,
                    Some(Toward::Right) => up,
                    None => down || up,
                }, "{xs:?}");
            }
        }
    }

    /// A moment's work changes no number of what stands there before it, and gives none twice.
    #[test]
    fn work_changes_no_number(row in cordonry_fixture::random::row(), picks in any::<u64>()) {
        let plan = Plan::new("Random", row);
        let moment = plan.start();
        let mut now = plan.clone();
        let g = Geometry::of(&plan.found, &plan.targets);
        let mut pick = picks;
        for tree in &plan.found.trees {
            for shoot in tree.shoots.iter().skip(1) {
                pick = pick.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
                let (tree, shoot) = (tree.id, shoot.id);
                let work = match pick >> 61 {
                    0 => Work::Remove { tree, shoot },
                    1 => Work::Stub { tree, shoot, keep_mm: Mm(150) },
                    2 => Work::KeepBud { tree, shoot, at_mm: Mm(420) },
                    _ => continue,
                };
                now = now.with_work(0, moment, work).unwrap_or(now);
            }
        }
        let mut replayer = Replayer::default();
        let mut at = |phase| replayer.at(&now, 0, moment, phase).expect("its own scheme").row;
        let (before, after) = (at(Phase::Before), at(Phase::After));
        for tree in after.posed() {
            let found = before.of_tree(tree.tree().id).expect("it was there");
            prop_assert_eq!(found.before().tree(), found.tree());
            let mut seen = Vec::new();
            for (shoot, name) in tree.tree().shoots.iter().zip(tree.names()) {
                if let Some(was) = found.name(shoot.id) {
                    prop_assert_eq!(was, Name { called: was.called, ..*name });
                    prop_assert_eq!(Some(was), Name::of(found.tree(), g, shoot.id));
                }
                if matches!(name.called, Called::Upright | Called::Stub | Called::Bud) {
                    let own = (name.called == Called::Bud, name.number, name.side);
                    prop_assert!(!seen.contains(&own), "{own:?} twice");
                    seen.push(own);
                }
            }
        }
    }
}
