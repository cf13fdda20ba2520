//! Corrections of the record: what each changes, and why it may be refused.

use cordonry::plan::{Correction, Plan, Setting, replay};
use cordonry::row::*;
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

const FIRST: TreeId = TreeId(1);

fn plan() -> Plan {
    let trees = vec![
        upright_stem(1, 0, 1800.0).uprights(&[400.0, 700.0]),
        lost(2, 1500),
        upright_stem(4, 3000, 2000.0),
    ];
    Plan::new("a row", row(0, 4500, trees))
}

fn check(plan: &Plan, correction: Correction, expected: Result<impl Fn(&Row) -> bool, &str>) {
    match (plan.corrected(&correction), expected) {
        (Ok(after), Ok(fits)) => assert!(fits(&after.found), "{correction:?}"),
        (Err(why), Err(said)) => assert_eq!(Words::strict().refusal(&why), said, "{correction:?}"),
        (got, _) => panic!("{correction:?}: {got:?}"),
    }
}

fn good(plan: &Plan, correction: Correction, fits: impl Fn(&Row) -> bool) {
    check(plan, correction, Ok(fits));
}

fn refused(plan: &Plan, correction: Correction, said: &str) {
    check(plan, correction, Err::<fn(&Row) -> bool, _>(said));
}

fn upright() -> ShootId {
    ShootId::found(1)
}

fn first(row: &Row) -> &Tree {
    row.tree(FIRST).expect("it is there")
}

#[test]
fn a_length_grows_and_shrinks_with_its_seasons() {
    let mut plan = plan();
    let mut row = (*plan.found).clone();
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[1].units = vec![
        GrowthUnit::whole(1, 400.0),
        GrowthUnit::new(2, 500.0, 200.0),
    ];
    plan.found = row.into();
    let to = |mm: i32| Correction::Length {
        tree: FIRST,
        shoot: upright(),
        to_mm: Mm(mm),
    };
    let units = |row: &Row| -> Vec<(f64, f64)> {
        let shoot = first(row).shoot(upright()).expect("it is there");
        shoot.units.iter().map(|u| (u.grown, u.kept)).collect()
    };
    good(&plan, to(900), |r| {
        units(r) == [(600.0, 600.0), (750.0, 300.0)]
    });
    good(&plan, to(2), |r| units(r) == [(1.0, 1.0), (2.0, 1.0)]);
    refused(
        &plan,
        to(1),
        "upright 1 of 2, tree 1: length must be between 0.00 m and 20.00 m, not 0.00 m",
    );
}

#[test]
fn a_length_is_taken_by_season() {
    let mut plan = plan();
    let mut row = (*plan.found).clone();
    row.leaf = 4;
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[1].units = vec![
        GrowthUnit::whole(1, 400.0),
        GrowthUnit::new(2, 500.0, 200.0),
    ];
    plan.found = row.into();
    let measures = first(&plan.found).measures(Some(upright()));
    let length = &measures[0];
    let to = |lengths: &[f64]| length.by_season(lengths).expect("it has seasons");
    let units = |row: &Row| -> Vec<(u8, f64, f64)> {
        let shoot = first(row).shoot(upright()).expect("it is there");
        let units = shoot.units.iter();
        units.map(|u| (u.leaf, u.grown, u.kept)).collect()
    };
    // What was cut off the second stays cut off.
    good(&plan, to(&[540.0, 480.0]), |r| {
        units(r) == [(1, 540.0, 540.0), (2, 780.0, 480.0)]
    });
    good(&plan, to(&[540.0, 0.0, 130.0]), |r| {
        units(r) == [(1, 540.0, 540.0), (3, 130.0, 130.0)]
    });
    good(&plan, to(&[900.0]), |r| units(r) == [(1, 900.0, 900.0)]);
    refused(
        &plan,
        to(&[100.0; 4]),
        "upright 1 of 2, tree 1: seasons of growth must be between 1 and 3, not 4",
    );
    refused(
        &plan,
        to(&[100.0, -50.0]),
        "upright 1 of 2, tree 1: length must be between 0.00 m and 20.00 m, not −0.05 m",
    );
    refused(
        &plan,
        to(&[15_000.0, 15_000.0]),
        "upright 1 of 2, tree 1: length must be between 0.00 m and 20.00 m, not 30.00 m",
    );
    // What grows from it keeps wood to stand on.
    let stem = first(&plan.found).measures(Some(ShootId::STEM));
    assert!(
        plan.corrected(&stem[0].by_season(&[500.0, 600.0]).unwrap())
            .is_err()
    );
    assert_eq!(measures[1].by_season(&[1.0, 2.0]), None);
}

#[test]
fn a_likely_slip_in_the_record_is_told() {
    let plan = plan();
    let told = |correction: &Correction| {
        let plan = plan.corrected(correction).expect("it is taken");
        let said = cordonry::walk::unlikely_in(&plan, FIRST, upright(), &[]);
        said.map(|said| Words::strict().say(&said))
    };
    let measures = first(&plan.found).measures(Some(upright()));
    assert_eq!(
        told(&measures[0].to(11_250.0)).as_deref(),
        Some("A length of 11.25 m is unusual; 0.02 m to 4.00 m is usual. Did you mean 1.125 m?")
    );
    assert_eq!(
        told(&measures[1].to(1.4)).as_deref(),
        Some(
            "An upright 1.4 mm thick at its base is unusual; 4 mm to 60 mm is usual. Did you mean 14 mm (1.4 cm)?"
        )
    );
    assert_eq!(told(&measures[0].to(1_125.0)), None);
}

#[test]
fn a_parent_is_not_shortened_under_what_grows_from_it() {
    let plan = plan();
    let to = |mm: i32| Correction::Length {
        tree: FIRST,
        shoot: ShootId::STEM,
        to_mm: Mm(mm),
    };
    // The second upright stands 1200 mm along the leader.
    good(&plan, to(1200), |r| first(r).shoots.len() == 3);
    refused(
        &plan,
        to(1199),
        "leader, tree 1: length must be between 1.20 m and 20.00 m, not 1.20 m, \
         for upright 2 of 2, tree 1, grows from it",
    );
}

#[test]
fn a_place_on_laid_wood_is_corrected_off_the_tape() {
    let plan = plan();
    let shoot = upright();
    let measure = |plan: &Plan, key: &str| {
        let mut all = plan.measures(FIRST, Some(shoot)).into_iter();
        all.find(|m| m.key == key)
    };
    let place = measure(&plan, "measure-place").expect("it grows from laid wood");
    assert_eq!(measure(&plan, "measure-at"), None);
    let at = first(&plan.found).shoots[1].at;
    good(&plan, place.to(place.value + 100.0), |r| {
        (first(r).shoots[1].at - at - 100.0).abs() < 2.0
    });
    // What is shown there and typed again changes nothing.
    good(&plan, place.to(place.value), |r| {
        first(r).shoots[1].at == at
    });
    let why = plan.corrected(&place.to(9_000.0)).expect_err("too far");
    let why = Words::strict().refusal(&why);
    assert!(
        why.starts_with("upright 1 of 2, tree 1: place on the tape must be between 0.00 m and ")
            && why.ends_with(", not 9.00 m"),
        "{why}"
    );
    // What grows from an upright has no place of its own on the tape.
    let on_upright = plan.corrected(&Correction::AddShoot {
        tree: FIRST,
        parent: shoot,
        at_mm: Mm(100),
        face: Face::Top,
        pose: Pose::Free,
        leaf: 2,
        length_mm: Mm(200),
        diameter_dmm: 50,
    });
    let on_upright = on_upright.expect("it fits");
    let new = first(&on_upright.found).shoots.last().expect("it").id;
    let keys = on_upright.measures(FIRST, Some(new));
    assert!(keys.iter().any(|m| m.key == "measure-at"));
    let x = Correction::Place {
        tree: FIRST,
        shoot: new,
        x_mm: Mm(500),
    };
    let why = on_upright.corrected(&x).expect_err("no tape there");
    assert_eq!(why.key, "refusal-no-tape");
}

#[test]
fn places_and_seasons_are_held_to_what_can_be() {
    let plan = plan();
    let shoot = upright();
    let at = |to_mm| Correction::At {
        tree: FIRST,
        shoot,
        to_mm: Mm(to_mm),
    };
    good(&plan, at(1800), |r| first(r).shoots[1].at == 1800.0);
    refused(
        &plan,
        at(1801),
        "upright 1 of 2, tree 1: place along its parent must be between 0.00 m and 1.80 m, not 1.80 m",
    );
    let season = |leaf| Correction::Season {
        tree: FIRST,
        shoot,
        leaf,
    };
    good(&plan, season(1), |r| first(r).shoots[1].born() == Some(1));
    refused(
        &plan,
        season(3),
        "upright 1 of 2, tree 1: leaf in which it grew must be between 0 and 2, not 3",
    );
    let ends = |from: i32, to: i32| Correction::Ends {
        from_mm: Mm(from),
        to_mm: Mm(to),
    };
    good(&plan, ends(-200, 5000), |r| r.from == Mm(-200));
    refused(
        &plan,
        ends(100, 0),
        "end of the row must be between 0.10 m and 5000.00 m, not 0.00 m",
    );
    good(
        &plan,
        Correction::Posts {
            at_mm: vec![Mm(4500), Mm(0), Mm(0)],
        },
        |r| r.trellis.posts == [Mm(0), Mm(4500)],
    );
}

#[test]
fn a_count_of_laterals_is_refused_by_what_was_typed() {
    let plan = plan();
    let measures = first(&plan.found).measures(Some(upright()));
    let laterals = measures.iter().find(|m| m.key == "measure-laterals");
    let to = |count: f64| laterals.unwrap().to(count);
    good(&plan, to(7.0), |row| {
        first(row).shoot(upright()).unwrap().laterals.count == 7
    });
    for (typed, told) in [(-2.0, "−2"), (10_001.0, "10001"), (70_000.0, "70000")] {
        let says =
            format!("upright 1 of 2, tree 1: laterals must be between 0 and 10000, not {told}");
        refused(&plan, to(typed), &says);
    }
}

#[test]
fn trees_come_and_go() {
    let plan = plan();
    good(&plan, Correction::Lost { tree: FIRST }, |r| {
        first(r).is_lost()
    });
    refused(
        &plan,
        Correction::Lost { tree: TreeId(2) },
        "Tree 2 is not there; choose one that stands",
    );
    good(&plan, plan.standing_like_others(TreeId(2)), |r| {
        r.tree(TreeId(2)).is_some_and(|t| t.shoots.len() == 1)
    });
    assert_eq!(plan.next_tree(), TreeId(5));
    good(&plan, plan.tree_like_others(700.0), |r| {
        r.trees[1].id == TreeId(5) && r.trees[1].foot == Mm(700)
    });
    refused(
        &plan,
        plan.tree_like_others(-6010.0),
        "A tree must be between −6.00 m and 10.50 m, not at −6.01 m",
    );
    refused(
        &plan,
        plan.tree_like_others(30.0),
        "A tree at 0.03 m must be 0.05 m or more from tree 1 at 0.00 m",
    );
    good(&plan, Correction::DropTree { tree: FIRST }, |r| {
        r.tree(FIRST).is_none() && r.trees.len() == 2
    });
    refused(
        &plan,
        Correction::DropShoot {
            tree: FIRST,
            shoot: ShootId::STEM,
        },
        "leader, tree 1: the stem stays in the record as long as its tree does; mark the tree as lost, \
         or remove it from the record",
    );
}

#[test]
fn what_is_added_takes_no_number_that_work_speaks_of() {
    let plan = plan();
    let start = plan.start();
    let shoot = plan.next_shoot(FIRST);
    assert_eq!(shoot, ShootId::found(3));
    let with = plan
        .with_work(
            0,
            start,
            Work::Stub {
                tree: FIRST,
                shoot: ShootId::found(2),
                keep_mm: Mm(150),
            },
        )
        .expect("it can be stubbed");
    let without = with
        .corrected(&Correction::DropShoot {
            tree: FIRST,
            shoot: ShootId::found(2),
        })
        .expect("it can be taken out");
    // The work stays and finds nothing; a shoot recorded later is another one.
    let replayed = replay(&without, 0, start).expect("a scheme");
    assert_eq!(replayed.void.len(), 1);
    assert_eq!(without.next_shoot(FIRST), ShootId::found(3));
    let added = without
        .corrected(&without.upright_like_others(FIRST, ShootId::STEM, 900.0))
        .expect("it can be recorded");
    let replayed = replay(&added, 0, start).expect("a scheme");
    assert_eq!(replayed.void.len(), 1);
    let new = first(&replayed.row).shoot(ShootId::found(3));
    assert_eq!(new.map(Shoot::length), Some(600.0));
}

#[test]
fn a_bud_that_has_a_length_is_an_upright() {
    let bud = row(0, 1500, vec![upright_stem(1, 0, 2000.0).bud(600.0)]);
    let plan = Plan::new("a row", bud);
    let measured = plan
        .corrected(&Correction::Length {
            tree: FIRST,
            shoot: upright(),
            to_mm: Mm(600),
        })
        .expect("it can be measured");
    let shoot = first(&measured.found)
        .shoot(upright())
        .expect("it is there");
    assert_eq!((shoot.kind(), shoot.born()), (Kind::Upright, Some(2)));
    assert_eq!(shoot.diameter, 9.0);
}

#[test]
fn settings_are_held_to_their_ranges() {
    let plan = plan();
    for setting in Setting::ALL {
        let (mut low, high) = setting.range();
        if setting == Setting::WallHeight {
            // A wall is higher than its cordon, which is at 0.50 m here.
            low = 600.0;
        }
        for value in [low, high] {
            let set = plan.with_setting(setting, Some(value)).expect("an end");
            assert_eq!(setting.of(&set), Some(value), "{setting:?}");
        }
        for value in [low - 1.0, high + 1.0, f64::NAN] {
            let why = plan.with_setting(setting, Some(value)).expect_err("beyond");
            assert!(!Words::strict().refusal(&why).contains("refusal-"), "{why}");
        }
        assert_eq!(plan.with_setting(setting, None).is_ok(), setting.optional());
    }
    let posts = plan.with_posts_every(2000.0).expect("a distance");
    assert_eq!(
        posts.found.trellis.posts,
        [Mm(0), Mm(2000), Mm(4000), Mm(4500)]
    );
}

#[test]
fn limits_are_held_to_their_ranges_and_reset() {
    let plan = plan();
    for limit in Limit::ALL {
        let info = limit.info();
        // Beside the usual values of the other limits.
        let (low, high) = plan.targets.range_beside_others(*limit);
        assert!(low >= info.min && high <= info.max);
        let set = plan.with_limit(*limit, Some(low)).expect("an end");
        assert_eq!(set.targets.get(*limit), low);
        assert!(plan.with_limit(*limit, Some(high)).is_ok());
        if low > info.min {
            assert!(plan.with_limit(*limit, Some(info.min)).is_err());
        }
        let why = plan
            .with_limit(*limit, Some(info.max + 1.0))
            .expect_err("beyond");
        assert!(!Words::strict().refusal(&why).contains(info.key), "{why}");
        assert_eq!(set.with_limit(*limit, None).expect("a reset"), plan);
        assert_eq!(set.with_default_limits(), plan);
    }
}

#[test]
fn the_planting_is_corrected() {
    let plan = plan();
    let planted = |angle: f64| Correction::Planted {
        tree: FIRST,
        planted: Planted {
            angle: Deg::new(angle),
            toward: Toward::Left,
        },
    };
    good(&plan, planted(45.0), |r| {
        first(r).planted.toward == Toward::Left
    });
    refused(
        &plan,
        planted(5.0),
        "Tree 1: planting angle must be between 10° and 90°, not 5°",
    );
}

#[test]
fn the_coming_leaf_is_after_all_recorded_growth_and_cuts() {
    let mut plan = plan();
    let mut row = (*plan.found).clone();
    row.leaf = 6;
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[1].units = vec![GrowthUnit::whole(1, 400.0), GrowthUnit::whole(3, 200.0)];
    plan.found = row.into();
    let to = |leaf: i32| Correction::Leaf { leaf };
    for leaf in [4, 5, 40] {
        good(&plan, to(leaf), move |row| i32::from(row.leaf) == leaf);
    }
    let says =
        "The coming leaf must be between 4 and 40, not 3: upright 1 of 2, tree 1 grew in leaf 3";
    refused(&plan, to(3), says);
    refused(&plan, to(-1), &says.replace("not 3:", "not −1:"));
    refused(
        &plan,
        to(41),
        "coming leaf must be between 1 and 40, not 41",
    );
    let mut row = (*plan.found).clone();
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[1].units[0].cut = Some(Moment::dormant(5));
    plan.found = row.into();
    let says =
        "The coming leaf must be between 5 and 40, not 4: upright 1 of 2, tree 1 was cut in leaf 5";
    refused(&plan, to(4), says);
    // As it is read and typed with the row's other measures.
    let measures = plan.found.measures();
    let leaf = measures
        .iter()
        .find(|m| m.key == "measure-leaf")
        .expect("it is there");
    assert_eq!((leaf.value, leaf.to(7.0)), (6.0, to(7)));
}

#[test]
fn work_of_a_leaf_that_is_no_more_stays_and_is_found_void() {
    let plan = plan().begun();
    let was = plan.found.leaf;
    let moment = plan.start();
    let tip = Work::Stub {
        tree: FIRST,
        shoot: upright(),
        keep_mm: Mm(150),
    };
    let wire = Work::CoverWire {
        height_mm: plan.found.trellis.cordon_height(),
        covering: Covering::Plastic,
    };
    let worked = plan
        .with_works(0, moment, vec![tip.clone(), wire.clone()])
        .expect("it can be done");
    let later = worked
        .corrected(&Correction::Leaf {
            leaf: i32::from(was) + 1,
        })
        .expect("nothing grew since");
    assert_eq!(later.schemes[0].work(moment).count(), 2, "nothing is lost");
    let seen = replay(&later, 0, later.start()).expect("a scheme");
    let void: Vec<&Work> = seen.void.iter().map(|v| &v.work).collect();
    assert_eq!(void.len(), 2);
    assert!(void.contains(&&tip) && void.contains(&&wire));
    for void in &seen.void {
        let why = Words::strict().refusal(&void.why);
        assert!(
            why.contains("the leaf in which the row was found, or later"),
            "{why}"
        );
    }
    // In the leaf in which the row was found nothing is done but by hand, and in the one after it what is usual.
    let stands = |plan: &Plan, leaf: u8| plan.schemes[0].stands(Moment::dormant(leaf));
    assert!(!stands(&plan, was) && stands(&plan, was + 1));
    assert!(!stands(&later, was + 1) && stands(&later, was + 2));
    // And back: the work is done again, as if nothing had been.
    let back = later
        .corrected(&Correction::Leaf { leaf: was.into() })
        .expect("as it was");
    assert_eq!(back, worked);
}
