//! What a row remembers of its past: when growth was cut, where a shoot came from, how wide it was bent.

use cordonry::plan::{Correction, Plan};
use cordonry::pose::{Geometry, layout};
use cordonry::row::*;
use cordonry::terms::{Assumptions, Terms};
use cordonry::units::{Deg, Mm};
use cordonry::work::{Work, apply};
use cordonry_fixture::wall::*;
use cordonry_fixture::wood;
use kurbo::Point;

const FIRST: TreeId = TreeId(1);

fn upright() -> ShootId {
    ShootId::found(1)
}

/// A tree whose upright grew 600 mm in leaf 1 and 400 mm in leaf 2.
fn two_seasons() -> Row {
    let tree = upright_stem(1, 0, 2000.0).uprights(&[700.0]).last(|s| {
        s.units = vec![GrowthUnit::whole(1, 600.0), GrowthUnit::whole(2, 400.0)];
    });
    row(0, 1500, vec![tree])
}

fn worked(row: &Row, moment: Moment, work: &Work) -> Row {
    let terms = Terms::of(row, &Targets::default());
    apply(row, moment, &terms, work).unwrap_or_else(|why| panic!("{work:?}: {why}"))
}

fn shoot(row: &Row, id: ShootId) -> &Shoot {
    row.shoot(FIRST, id).expect("it is there").1
}

/// After the work, done after harvest of leaf 3, the growth that is left: length kept and whether the cut is told there.
fn check_cut(work: Work, expected: &[(f64, bool)]) {
    let now = Moment {
        leaf: 3,
        window: Window::AfterHarvest,
    };
    let row = worked(&two_seasons(), now, &work);
    let units = &shoot(&row, upright()).units;
    let got: Vec<(f64, bool)> = units.iter().map(|u| (u.kept, u.cut == Some(now))).collect();
    assert_eq!(got.len(), expected.len(), "{work:?}: {got:?}");
    for (got, expected) in got.iter().zip(expected) {
        assert!((got.0 - expected.0).abs() < 1e-6, "{work:?}: {got:?}");
        assert_eq!(got.1, expected.1, "{work:?}: {got:?}");
    }
    assert_eq!(shoot(&row, upright()).last_cut(), Some(now));
    assert_eq!(shoot(&row, ShootId::STEM).last_cut(), None);
}

#[test]
fn a_cut_is_told_of_the_growth_that_it_ends_in() {
    let (tree, shoot) = (FIRST, upright());
    let back = |keep: i32| Work::CutBack {
        tree,
        shoot,
        keep_mm: Mm(keep),
    };
    check_cut(back(850), &[(600.0, false), (250.0, true)]);
    check_cut(back(300), &[(300.0, true)]);
    // A whole season off and no more: told of the season before it.
    check_cut(back(600), &[(600.0, true)]);
    let keep_mm = Mm(150);
    check_cut(
        Work::Stub {
            tree,
            shoot,
            keep_mm,
        },
        &[(150.0, true)],
    );
    let percent = 25;
    check_cut(
        Work::Tip {
            tree,
            shoot,
            percent,
        },
        &[(600.0, false), (300.0, true)],
    );
    // The wire is at 500 mm, the upright's base on it.
    let height_mm = Mm(1300);
    check_cut(
        Work::HoldHeight {
            tree,
            shoot,
            height_mm,
        },
        &[(600.0, false), (200.0, true)],
    );
    let three = cordonry::nodes::length_of_buds(&Assumptions::default(), 600.0, 3);
    check_cut(
        Work::CutToBuds {
            tree,
            shoot,
            buds: 3,
        },
        &[(three, true)],
    );
}

#[test]
fn of_two_cuts_the_later_is_told() {
    let (tree, shoot_id) = (FIRST, upright());
    let tip = |percent: i32| Work::Tip {
        tree,
        shoot: shoot_id,
        percent,
    };
    let (winter, swell) = (
        Moment::dormant(3),
        Moment {
            leaf: 3,
            window: Window::BudSwell,
        },
    );
    let row = worked(&two_seasons(), winter, &tip(10));
    assert_eq!(shoot(&row, shoot_id).last_cut(), Some(winter));
    let row = worked(&row, swell, &tip(30));
    assert_eq!(shoot(&row, shoot_id).last_cut(), Some(swell));
}

#[test]
fn a_kept_bud_says_what_it_is() {
    let row = worked(
        &two_seasons(),
        Moment::dormant(3),
        &Work::KeepBud {
            tree: FIRST,
            shoot: ShootId::STEM,
            at_mm: Mm(1500),
        },
    );
    let bud = row.trees[0].shoots.last().expect("it is there");
    assert_eq!(bud.origin, Some(Origin::KeptBud));
    assert_eq!(shoot(&row, upright()).origin, None);
}

#[test]
fn a_notch_is_for_wood_that_is_old_enough_and_leaves_a_bud_that_may_not_grow() {
    // The stem grew 600 in leaf 1 and 600 in leaf 2.
    let stem = upright_stem(1, 0, 1200.0);
    let stem = stem.with_stem(|s| s.units = [grown(1, 600.0), grown(2, 600.0)].concat());
    let row = row(0, 700, vec![stem]);
    let notch = |at: i32| Work::Notch {
        tree: FIRST,
        shoot: ShootId::STEM,
        at_mm: Mm(at),
    };
    let notched = worked(&row, Moment::dormant(3), &notch(600));
    let bud = notched.trees[0].shoots.last().expect("it is there");
    assert_eq!((bud.origin, bud.is_notched()), (Some(Origin::Notch), true));
    assert_eq!(notch_take(2), 0.5);
    assert_eq!(notch_take(3), 0.25);
    let terms = Terms::of(&row, &Targets::default());
    let refused = apply(&row, Moment::dormant(3), &terms, &notch(601));
    assert_eq!(refused.unwrap_err().key, "refusal-notch");
    // A leaf later the rest of it is old enough.
    worked(&row, Moment::dormant(4), &notch(601));
}

#[test]
fn a_notch_that_is_moved_to_last_seasons_wood_is_a_kept_bud() {
    let stem = upright_stem(1, 0, 1200.0);
    let stem = stem.with_stem(|s| s.units = [grown(1, 700.0), grown(2, 500.0)].concat());
    let row = row(0, 700, vec![stem]);
    let notch = Work::Notch {
        tree: FIRST,
        shoot: ShootId::STEM,
        at_mm: Mm(600),
    };
    let notched = worked(&row, Moment::dormant(3), &notch);
    let bud = notched.trees[0].shoots.last().expect("it is there").id;
    for (at, origin) in [(650, Origin::Notch), (900, Origin::KeptBud)] {
        let moved = Work::MoveBud {
            tree: FIRST,
            shoot: bud,
            at_mm: Mm(at),
        };
        let after = worked(&notched, Moment::dormant(3), &moved);
        assert_eq!(shoot(&after, bud).origin, Some(origin), "at {at}");
    }
}

/// A slanting leader 20 mm thick, laid right, with an upright and a shoot laid on from its end.
fn bent() -> Row {
    let tree = stem(1, 0, 45.0, Toward::Right, 2000.0)
        .with_stem(|s| s.diameter = 20.0)
        .uprights(&[900.0])
        .shoot(1990.0, laid(Toward::Right, 4.0), grown(2, 500.0))
        .last(|s| s.diameter = 8.0);
    row(0, 2500, vec![tree])
}

fn tips(row: &Row) -> Vec<Point> {
    let g = Geometry::of(row, &Targets::default());
    let courses = layout(&row.trees[0], g);
    courses.iter().map(|c| c.tip()).collect()
}

#[test]
fn a_corrected_thickness_moves_no_tip() {
    let plan = Plan::new("bent", bent());
    let thicker = |plan: &Plan, shoot: ShootId, to_dmm: i32| {
        plan.corrected(&Correction::Diameter {
            tree: FIRST,
            shoot,
            to_dmm,
        })
        .unwrap_or_else(|why| panic!("{why}"))
    };
    let before = tips(&plan.found);
    let mut now = plan.clone();
    for dmm in [310, 45, 2000, 200] {
        now = thicker(&now, ShootId::STEM, dmm);
        assert_eq!(shoot(&now.found, ShootId::STEM).bend_radius, Some(300.0));
        assert_eq!(tips(&now.found), before, "{dmm}");
    }
    // Where the record has no thickness there is nothing to keep: the first that is measured tells the bend.
    let mut row = bent();
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[0].diameter = 0.0;
    let unmeasured = Plan::new("bent", row);
    let measured = thicker(&unmeasured, ShootId::STEM, 200);
    assert_eq!(tips(&measured.found), before);
}

#[test]
fn what_is_bent_keeps_the_radius_of_its_thickness_then() {
    let lay = Work::Lay {
        tree: FIRST,
        shoot: ShootId::STEM,
        toward: Toward::Right,
        rise_deg: Deg::new(3.0),
    };
    let mut row = bent();
    row = worked(&row, Moment::dormant(3), &lay);
    assert_eq!(shoot(&row, ShootId::STEM).bend_radius, Some(300.0));
    let before = tips(&row);
    let diameters = Targets::default().get(Limit::BendDiameters);
    let thicken = |row: &mut Row, to: f64| {
        let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
        for shoot in &mut tree.shoots {
            shoot.set_thickness(to, diameters);
        }
    };
    thicken(&mut row, 28.0);
    assert_eq!(tips(&row), before);
    // Found wood, of whose bend the record is silent, holds just so.
    let mut grown = bent();
    let found = tips(&grown);
    thicken(&mut grown, 28.0);
    assert_eq!(tips(&grown), found);
    // Laid anew it is bent as thick as it is by then.
    let again = worked(&row, Moment::dormant(4), &lay);
    assert_eq!(shoot(&again, ShootId::STEM).bend_radius, Some(420.0));
    // What stands, and is no stem, does not bend.
    assert_eq!(shoot(&grown, upright()).bend_radius, None);
}

#[test]
fn a_pose_that_does_not_bend_keeps_no_radius() {
    let plan = Plan::new("bent", bent());
    let pose = |plan: &Plan, pose: Pose| {
        plan.corrected(&Correction::Pose {
            tree: FIRST,
            shoot: ShootId::STEM,
            pose,
        })
        .unwrap_or_else(|why| panic!("{why}"))
    };
    let kept = plan
        .corrected(&Correction::Diameter {
            tree: FIRST,
            shoot: ShootId::STEM,
            to_dmm: 250,
        })
        .unwrap_or_else(|why| panic!("{why}"));
    let radius = |plan: &Plan| shoot(&plan.found, ShootId::STEM).bend_radius;
    assert_eq!(radius(&pose(&kept, laid(Toward::Right, 5.0))), Some(300.0));
    assert_eq!(radius(&pose(&kept, standing(2.0))), Some(300.0));
    assert_eq!(radius(&pose(&kept, Pose::Free)), None);
}

#[test]
fn growth_is_not_cut_before_its_season() {
    let mut row = two_seasons();
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[1].units.truncate(1);
    tree.shoots[1].units[0].cut = Some(Moment::dormant(2));
    let plan = Plan::new("cut", row);
    let season = |leaf: i32| {
        let to = plan.corrected(&Correction::Season {
            tree: FIRST,
            shoot: upright(),
            leaf,
        });
        let to = to.unwrap_or_else(|why| panic!("{why}"));
        shoot(&to.found, upright()).last_cut()
    };
    assert_eq!(season(1), Some(Moment::dormant(2)));
    assert_eq!(season(2), Some(Moment::dormant(2)));
    let later = plan.corrected(&Correction::Season {
        tree: FIRST,
        shoot: upright(),
        leaf: 3,
    });
    assert!(later.is_err(), "after the row was found");
    let mut earlier = (*plan.found).clone();
    let tree = std::sync::Arc::make_mut(&mut earlier.trees[0]);
    tree.shoots[1].units[0].cut = Some(Moment::dormant(1));
    let plan = Plan::new("cut", earlier);
    let to = plan.corrected(&Correction::Season {
        tree: FIRST,
        shoot: upright(),
        leaf: 2,
    });
    let to = to.unwrap_or_else(|why| panic!("{why}"));
    assert_eq!(shoot(&to.found, upright()).last_cut(), None);
}

#[test]
fn buds_are_kept_and_rubbed_out_before_the_stem_is_laid() {
    let planted = wood::slanting(1, 1500, |_| {
        vec![wood::shoot(0, Pose::Free, wood::grown(0, 2000.0))]
    });
    let row = Row {
        leaf: 1,
        trees: planted,
        ..two_seasons()
    };
    let (tree, shoot) = (FIRST, ShootId::STEM);
    let rub = Work::RubOut { tree, shoot };
    let at_mm = Mm(1000);
    let keep = Work::KeepBud { tree, shoot, at_mm };
    let now = Moment::dormant(1);
    let done = worked(&worked(&row, now, &rub), now, &keep);
    let stem = &done.trees[0].shoots[0];
    assert!(stem.rubbed);
    assert_eq!(done.trees[0].shoots[1].kind(), Kind::Bud);
    // A trunk whose leaders are laid takes none.
    let terms = Terms::of(&row, &Targets::default());
    let fork = Shoot {
        pose: wood::laid(Toward::Left, 0.0),
        ..Shoot::bud(ShootId::found(7), Some(shoot), 1900.0)
    };
    let mut trunk = row.clone();
    trunk.trees[0] = wood::changed(&row.trees[0], |t| t.shoots.push(fork));
    for work in [rub, keep] {
        assert!(apply(&trunk, now, &terms, &work).is_err());
    }
}

#[test]
fn laterals_come_off_before_they_are_counted() {
    let (tree, shoot) = (FIRST, upright());
    let mut grown = two_seasons();
    grown.trees[0] = wood::changed(&grown.trees[0], |t| {
        let at = t.index(shoot).unwrap();
        t.shoots[at].laterals = Laterals {
            count: 0,
            total: 300.0,
        };
    });
    let work = Work::TakeLaterals { tree, shoot };
    let off = worked(&grown, Moment::dormant(3), &work);
    assert_eq!(self::shoot(&off, shoot).laterals, Laterals::default());
}
