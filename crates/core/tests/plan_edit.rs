//! Planning work: what gives way to what.

use cordonry::file::read_plan;
use cordonry::plan::{Plan, Setting, replay};
use cordonry::refusal::Refusal;
use cordonry::row::{Covering, Limit, ShootId, TreeId};
use cordonry::said::Arg;
use cordonry::units::Mm;
use cordonry::work::Work;
use cordonry_fixture::random::forced;
use cordonry_words::Words;

fn plan() -> Plan {
    let text = include_str!("../../../examples/overdue-renewal.json");
    read_plan(text.as_bytes()).expect("the example is read")
}

/// An upright of the example with laterals.
fn lateralled(plan: &Plan) -> (TreeId, ShootId) {
    plan.found
        .trees
        .iter()
        .find_map(|t| {
            let shoot = t.shoots.iter().find(|s| s.laterals.count > 0)?;
            Some((t.id, shoot.id))
        })
        .expect("some have laterals")
}

#[test]
fn a_cut_takes_the_place_of_what_it_leaves_nothing_of() {
    let plan = plan();
    let at = plan.start();
    let (tree, shoot) = lateralled(&plan);
    let laterals = Work::TakeLaterals { tree, shoot };
    let tip = Work::HoldHeight {
        tree,
        shoot,
        height_mm: Mm(1500),
    };
    let cuts = [
        Work::Stub {
            tree,
            shoot,
            keep_mm: Mm(150),
        },
        Work::Remove { tree, shoot },
    ];
    for cut in cuts {
        // One after the other, and all at once.
        let first = plan
            .with_works(0, at, vec![laterals.clone(), tip.clone()])
            .and_then(|p| p.with_work(0, at, cut.clone()))
            .expect("it can be done");
        let both = vec![laterals.clone(), tip.clone(), cut.clone()];
        let at_once = plan.with_works(0, at, both).expect("it can be done");
        for planned in [first, at_once] {
            let schedule = &planned.schemes[0].schedule;
            assert!(schedule.work(at).eq([&cut]));
            assert!(schedule.is_idle(at, &laterals) && schedule.is_idle(at, &tip));
            assert!(replay(&planned, 0, at).expect("it replays").void.is_empty());
            // The other way round it is refused, with the reason.
            assert!(planned.with_work(0, at, laterals.clone()).is_err());
        }
    }
    // Laterals of another shoot, and other cuts, stay as they are.
    let other = Work::TakeLaterals {
        tree,
        shoot: ShootId::STEM,
    };
    assert!(!Work::Remove { tree, shoot }.leaves_nothing_for(&other));
    let shortened = Work::CutBack {
        tree,
        shoot,
        keep_mm: Mm(800),
    };
    assert!(!shortened.leaves_nothing_for(&laterals));
}

#[test]
fn a_tree_is_planted_on_the_row() {
    let plan = plan();
    let (tree, at) = (TreeId(900), plan.start());
    let plant = |foot: i32| Work::Plant {
        tree,
        foot_mm: Mm(foot),
        planted: plan.found.trees[0].planted,
        length_mm: Mm(1500),
        diameter_dmm: 150,
    };
    let end = plan.found.to.0;
    assert!(plan.with_work(0, at, plant(end + 6_000)).is_ok());
    for far in [end + 6_001, plan.found.from.0 - 6_001, i32::MAX, i32::MIN] {
        let why = plan.with_work(0, at, plant(far)).expect_err("off the row");
        let (low, high) = plan.found.tree_places();
        let expected = vec![
            ("tree", Arg::Count(900)),
            ("value", Arg::Length(f64::from(far))),
            ("low", Arg::Length(low)),
            ("high", Arg::Length(high)),
        ];
        assert_eq!((why.key, &why.args), ("refusal-plant-place", &expected));
        plants_nothing(&plan, plant(far), &why);
    }
    // Nor does it where the stock can't be: no empty place is left either.
    let short = Work::Plant {
        tree,
        foot_mm: Mm(end),
        planted: plan.found.trees[0].planted,
        length_mm: Mm(99),
        diameter_dmm: 150,
    };
    let why = plan.with_work(0, at, short.clone()).expect_err("too short");
    assert_eq!(why.key, "refusal-stock-length");
    plants_nothing(&plan, short, &why);
}

#[test]
fn taking_out_a_tree_that_is_to_be_planted_takes_that_back() {
    let plan = plan();
    let (tree, at) = (TreeId(900), plan.start());
    let plant = Work::Plant {
        tree,
        foot_mm: plan.found.to,
        planted: plan.found.trees[0].planted,
        length_mm: Mm(1500),
        diameter_dmm: 150,
    };
    let planted = plan.with_work(0, at, plant).expect("it is planted");
    let out = planted.with_work(0, at, Work::RemoveTree { tree });
    assert_eq!(out.expect("it is taken back"), plan);
    let why = plan.with_work(0, at, Work::RemoveTree { tree });
    assert_eq!(why.expect_err("no such tree").key, "refusal-no-tree");
}

/// Where the work stands in a plan all the same, nothing is planted, and it says why.
fn plants_nothing(plan: &Plan, plant: Work, why: &Refusal) {
    let at = plan.start();
    let forced = forced(plan, at, plant);
    let row = replay(&forced, 0, at).expect("it replays");
    assert_eq!(row.row.trees.len(), plan.found.trees.len());
    assert_eq!(row.void.len(), 1);
    assert_eq!(row.void[0].why, *why);
}

#[test]
fn on_a_stub_there_is_neither_a_lateral_to_take_nor_a_tip() {
    let plan = plan();
    let at = plan.start();
    let (tree, shoot) = lateralled(&plan);
    let keep_mm = Mm(150);
    let stub = Work::Stub {
        tree,
        shoot,
        keep_mm,
    };
    let after = [
        (Work::TakeLaterals { tree, shoot }, "refusal-no-laterals"),
        (
            Work::Tip {
                tree,
                shoot,
                percent: 90,
            },
            "refusal-tip-stub",
        ),
    ];
    for (work, key) in after {
        let works = vec![stub.clone(), work];
        let why = plan.with_works(0, at, works).expect_err("on a stub");
        assert_eq!(why.key, key);
    }
}

#[test]
fn limits_of_one_measure_keep_their_order() {
    let plan = plan();
    let words = Words::strict();
    let refused = |limit, value| {
        let why = plan
            .with_limit(limit, Some(value))
            .expect_err("out of order");
        words.refusal(&why)
    };
    // 150, 200 and 300 mm are usual.
    let said = refused(Limit::UprightSpacingMin, 250.0);
    assert!(
        said.contains("250 mm") && said.contains("between 50 mm and 200 mm"),
        "{said}"
    );
    refused(Limit::UprightSpacing, 120.0);
    refused(Limit::UprightSpacing, 350.0);
    refused(Limit::HeightRatio, 1.2);
    let wider = plan
        .with_limit(Limit::UprightSpacingMax, Some(400.0))
        .expect("in order");
    assert!(wider.with_limit(Limit::UprightSpacing, Some(350.0)).is_ok());
    // The default too must fit beside what is set.
    let apart = wider
        .with_limit(Limit::UprightSpacing, Some(350.0))
        .expect("in order");
    let least = apart
        .with_limit(Limit::UprightSpacingMin, Some(320.0))
        .expect("in order");
    assert!(least.with_limit(Limit::UprightSpacing, None).is_err());
}

#[test]
fn a_wall_is_higher_than_its_cordon() {
    let plan = plan();
    let cordon = plan.found.trellis.cordon_height().f();
    let set = |height: f64| plan.with_setting(Setting::WallHeight, Some(height));
    assert!(set(cordon + 100.0).is_ok());
    let why = set(cordon + 99.0).expect_err("too low");
    assert!(Words::strict().refusal(&why).contains("0.60 m"), "{why:?}");
}

#[test]
fn a_wire_where_one_is_taken_off_or_moved_away_leaves_that_one() {
    let plan = plan();
    let heights = |plan: &Plan| -> Vec<Mm> {
        let after = replay(plan, 0, plan.start()).expect("there is a scheme");
        assert!(after.void.is_empty());
        after.row.trellis.wires.iter().map(|w| w.height).collect()
    };
    let found = heights(&plan);
    let (height_mm, covering) = (found[1], Covering::Plastic);
    let add = Work::AddWire {
        height_mm,
        covering,
    };
    let done = |plan: &Plan, work: &Work| {
        let done = plan.with_work(0, plan.start(), work.clone());
        done.expect("it can be done")
    };
    let gone = done(&plan, &Work::RemoveWire { height_mm });
    assert_eq!(heights(&gone).len(), found.len() - 1);
    assert_eq!(heights(&done(&gone, &add)), found);
    let to_mm = height_mm + Mm(100);
    let moved = done(&plan, &Work::MoveWire { height_mm, to_mm });
    assert!(!heights(&moved).contains(&height_mm));
    let both = heights(&done(&moved, &add));
    assert_eq!(both.len(), found.len() + 1);
    assert!(both.contains(&height_mm) && both.contains(&to_mm));
}
