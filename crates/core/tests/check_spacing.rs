//! The rules of the distances between uprights, each a millimetre either side of its limit and the 20 mm that a place may be off.

use cordonry::check::Severity;
use cordonry::plan::{Moment, VoidWork, Window};
use cordonry::refusal::Refusal;
use cordonry::row::*;
use cordonry::said::Arg;
use cordonry::units::{LengthStyle, Mm};
use cordonry::work::Work;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

/// One tree that fills 0..3000, with uprights at these places.
fn places(places: &[f64]) -> Row {
    row(0, 3000, vec![upright_stem(1, 0, 3500.0).uprights(places)])
}

#[test]
fn uprights_130_mm_apart_may_be_150_and_129_mm_are_not() {
    let fails = young(places(&[500.0, 629.0, 850.0]));
    let f = either_side(
        "uprights-too-close",
        &places(&[500.0, 630.0, 850.0]),
        &fails,
    );
    assert!((f.measured - 129.0).abs() < 1e-6 && (f.x - 500.0).abs() < 1e-6);
    assert_eq!(
        Words::strict().finding(&f),
        "129 mm apart; at least 150 mm is needed: upright 1 of 3, tree 1, and upright 2 of 3, tree 1"
    );
    // The second in the middle leaves 350 mm: a bud takes its part.
    assert_eq!(f.remedies.len(), 2);
    for remedy in 0..2 {
        let after = mended(&fails, &f, remedy);
        assert!(found(&after, "uprights-too-close").is_empty());
        assert!(found(&after, "uprights-too-far").is_empty());
    }
    let said: Vec<String> = f
        .remedies
        .iter()
        .map(|r| Words::strict().remedy(r))
        .collect();
    assert!(said.contains(
        &"Remove upright 2 of 3, tree 1, and keep a bud in the middle of its place; the wider space is then 175 mm".to_string()
    ), "{said:?}");
    // Wood of two seasons has no such bud, and one that a notch may bring on is no upright's worth: the other goes, where that leaves no
    // space that is too wide.
    let old = places(&[500.0, 629.0, 850.0]);
    let f = &found(&old, "uprights-too-close")[0];
    let first = Work::Remove {
        tree: TreeId(1),
        shoot: old.trees[0].shoots[1].id,
    };
    assert_eq!(f.remedies.len(), 1);
    assert_eq!(f.remedies[0].work, [first]);
    let old = places(&[250.0, 500.0, 629.0, 850.0]);
    let f = &found(&old, "uprights-too-close")[0];
    assert!(f.remedies.is_empty());
    assert!(
        Words::strict()
            .finding(f)
            .ends_with("; removing one would leave 350 mm, too wide a space")
    );
}

#[test]
fn the_thinner_goes_and_a_bud_before_it() {
    let crowded = |bud: bool| {
        let tree = upright_stem(1, 0, 3500.0)
            .uprights(&[500.0])
            .last(|s| s.diameter = 12.0);
        let tree = if bud {
            tree.bud(600.0)
        } else {
            tree.uprights(&[600.0]).last(|s| s.diameter = 9.0)
        };
        row(0, 3000, vec![tree.uprights(&[800.0])])
    };
    for bud in [true, false] {
        let f = &found(&crowded(bud), "uprights-too-close")[0];
        assert_eq!(
            f.remedies[0].work,
            [Work::Remove {
                tree: TreeId(1),
                shoot: ShootId::found(2)
            }]
        );
    }
    assert_eq!(
        Words::strict().remedy(&found(&crowded(true), "uprights-too-close")[0].remedies[0]),
        "Remove bud 1 of 1, tree 1; its neighbours are then 300 mm apart"
    );
}

#[test]
fn uprights_320_mm_apart_may_be_300_and_321_mm_are_not() {
    let fails = young(places(&[500.0, 821.0]));
    let f = either_side("uprights-too-far", &places(&[500.0, 820.0]), &fails);
    assert!((f.measured - 321.0).abs() < 1e-6);
    // 321 is nearest to 200 in two spaces of 160.5: a bud at 660.5, or 1160.5 along the stem, in whole
    // millimetres 1160 or 1161.
    let [Work::KeepBud { at_mm, .. }] = f.remedies[0].work[..] else {
        panic!("{:?}", f.remedies);
    };
    assert!((at_mm.f() - 1160.5).abs() < 0.6);
    let after = mended(&fails, &f, 0);
    assert!(found(&after, "uprights-too-far").is_empty());
    assert!(found(&after, "uprights-too-close").is_empty());
}

#[test]
fn several_buds_are_kept_evenly() {
    // 1000 apart: five spaces of 200, buds at 700, 900, 1100, 1300 and so 1200, 1400, 1600, 1800 along the stem.
    let wide = young(places(&[500.0, 1500.0]));
    let f = &found(&wide, "uprights-too-far")[0];
    let at: Vec<i32> = f.remedies[0]
        .work
        .iter()
        .map(|w| match w {
            Work::KeepBud { at_mm, .. } => at_mm.0,
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(at, [1200, 1400, 1600, 1800]);
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Keep 4 buds between upright 1 of 2, tree 1 and upright 2 of 2, tree 1; the widest space is then 200 mm"
    );
    assert!(found(&mended(&wide, f, 0), "uprights-too-far").is_empty());
}

#[test]
fn a_notch_tells_what_may_be_expected_and_what_it_leaves() {
    // The stem grew in leaf 1, and leaf 3 is about to grow: wood of two seasons.
    let wide = places(&[500.0, 1500.0]);
    let f = &found(&wide, "uprights-too-far")[0];
    let notch = |at: i32| Work::Notch {
        tree: TreeId(1),
        shoot: ShootId::STEM,
        at_mm: Mm(at),
    };
    assert_eq!(f.remedies[0].work, [1200, 1400, 1600, 1800].map(notch));
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Keep 4 buds between upright 1 of 2, tree 1 and upright 2 of 2, tree 1; the widest space is then 200 mm if all grow. By a notch in older wood: 4, of which about 50 % grow"
    );
    let after = mended(&wide, f, 0);
    let [left] = &found(&after, "uprights-too-far")[..] else {
        panic!("one space, as wide as it was");
    };
    assert_eq!((left.severity, left.measured), (Severity::Note, 1000.0));
    assert!(left.remedies.is_empty());
    assert_eq!(
        Words::strict().finding(left),
        "1.00 m of cordon without an upright; at most 300 mm: from upright 1 of 2, tree 1 to upright 2 of 2, tree 1. Notched there: 4, of which about 50 % grow"
    );
}

#[test]
fn no_bud_is_kept_on_the_blind_base_of_a_seasons_growth() {
    // The stem grew to 1150 along it, 650 along the row, before last season's growth. The middle of 821 is at 660.5.
    let blind = |from: f64| {
        let units = [grown(1, from), grown(2, 3500.0 - from)].concat();
        let tree = upright_stem(1, 0, 3500.0).with_stem(|s| s.units = units);
        row(0, 3000, vec![tree.uprights(&[500.0, 821.0])])
    };
    // Where the middle is blind a bud stands a little beside, off the base, by less than a millimetre at 1011.
    for (from, beside) in [(1150.0, true), (1011.0, false), (1010.0, false)] {
        let f = &found(&blind(from), "uprights-too-far")[0];
        assert_eq!(f.remedies.len(), 1, "{from}");
        let (Work::KeepBud { at_mm, .. } | Work::Notch { at_mm, .. }) = f.remedies[0].work[0]
        else {
            panic!("{:?}", f.remedies[0].work);
        };
        let (at, blind) = (at_mm.f(), Targets::default().get(Limit::BlindBase));
        assert!(at <= from || at >= from + blind, "{from}: {at}");
        assert_eq!((at - 1160.5).abs() > 1.0, beside, "{from}: {at}");
    }
    let mut limits = Targets::default();
    limits.set(Limit::BlindBase, Some(0.0)).unwrap();
    let f = &found_with(&blind(1150.0), &limits, "uprights-too-far")[0];
    assert!(matches!(f.remedies[0].work[..], [Work::KeepBud { .. }]));
}

#[test]
fn a_bare_stretch_between_two_uprights_is_not_reported_twice() {
    // Tree 1 covers 0..1000, tree 2 1400..2500: 400 are bare. The last upright of tree 1 stands at 900, the first of
    // tree 2 at 1620 or 1621: 720 − 400 = 320 of cordon passes, 321 does not.
    let across = |first: f64| {
        row(
            0,
            2500,
            vec![
                upright_stem(1, 0, 1500.0).uprights(&[900.0]),
                upright_stem(2, 1400, 1600.0).uprights(&[first]),
            ],
        )
    };
    let fails = young(across(1621.0));
    let f = either_side("uprights-too-far", &across(1620.0), &fails);
    assert!((f.measured - 321.0).abs() < 1e-6);
    // Half of 321 from 900 on is beyond tree 1's end at 1000: 60.5 into tree 2's wood.
    assert_eq!(
        f.remedies[0].work,
        [Work::KeepBud {
            tree: TreeId(2),
            shoot: ShootId::STEM,
            at_mm: Mm(560)
        }]
    );
    assert!(found(&mended(&fails, &f, 0), "uprights-too-far").is_empty());
    assert_eq!(found(&fails, "cordon-gap").len(), 1);
}

#[test]
fn a_shoot_that_has_grown_is_stood_up_before_a_bud_is_kept() {
    let tree = upright_stem(1, 0, 3500.0).uprights(&[500.0, 950.0]);
    let at = tree.along(730.0);
    let wide = row(0, 3000, vec![tree.shoot(at, Pose::Free, grown(2, 500.0))]);
    let f = &found(&wide, "uprights-too-far")[0];
    assert_eq!(f.remedies[0].said.key, "remedy-stand-free");
    assert_eq!(f.remedies[1].said.key, "remedy-keep-buds");
    assert!(found(&mended(&wide, f, 0), "uprights-too-far").is_empty());
}

#[test]
fn void_work_says_why() {
    let row = places(&[500.0]);
    let work = Work::Remove {
        tree: TreeId(1),
        shoot: ShootId::found(9),
    };
    let void = [VoidWork {
        moment: Moment {
            leaf: 3,
            window: Window::Dormant,
        },
        work,
        why: Refusal::new("refusal-no-shoot", vec![("tree", Arg::Count(1))]),
    }];
    let found = found_in(
        &row,
        &Site::default(),
        &Targets::default(),
        &void,
        "work-void",
    );
    assert_eq!(
        Words::strict().finding(&found[0]),
        "Planned work of leaf 3 does nothing. Tree 1: the shoot is not there at this time; choose one that stands on the tree"
    );
}

#[test]
fn as_much_void_work_as_is_let_pass_is_no_finding_and_one_more_is() {
    let row = places(&[500.0]);
    let item = |shoot: u32| VoidWork {
        moment: Moment {
            leaf: 3,
            window: Window::Dormant,
        },
        work: Work::Remove {
            tree: TreeId(1),
            shoot: ShootId::found(shoot),
        },
        why: Refusal::new("refusal-no-shoot", vec![("tree", Arg::Count(1))]),
    };
    let count = |most: f64, void: &[VoidWork]| {
        let mut targets = Targets::default();
        targets
            .set(Limit::VoidWorkMax, Some(most))
            .expect("the limit can be set");
        found_in(&row, &Site::default(), &targets, void, "work-void").len()
    };
    // By the limit's own words: 0 lets none pass, 1 lets one; beyond it every piece is told.
    assert_eq!(count(0.0, &[]), 0);
    assert_eq!(count(0.0, &[item(8)]), 1);
    assert_eq!(count(1.0, &[item(8)]), 0);
    assert_eq!(count(1.0, &[item(8), item(9)]), 2);
}

#[test]
fn buds_go_on_the_wood_between_two_bare_stretches() {
    // Wood on the wire at 0–200, 400–900 and 1100–2100: no upright from 10 to 1300.
    let gappy = young(row(
        0,
        2100,
        vec![
            upright_stem(1, 0, 700.0).uprights(&[10.0]),
            upright_stem(2, 400, 1000.0),
            upright_stem(3, 1100, 1500.0).uprights(&[1300.0, 1500.0, 1700.0, 1900.0]),
        ],
    ));
    let far = &found(&gappy, "uprights-too-far")[0];
    assert!((far.measured - 890.0).abs() < 1e-6, "{}", far.measured);
    let on: Vec<u32> = far.remedies[0]
        .work
        .iter()
        .map(|w| w.tree().expect("a tree's").0)
        .collect();
    assert_eq!(on, [2, 2, 2]);
    let after = mended(&gappy, far, 0);
    assert!(found(&after, "uprights-too-close").is_empty());
    assert!(found(&after, "uprights-too-far").is_empty());
}

#[test]
fn what_is_measured_and_what_is_allowed_are_told_apart() {
    let said = |apart: f64, style: LengthStyle| {
        let mut exact = Targets::default();
        exact.set(Limit::PlaceTolerance, Some(0.0)).unwrap();
        let row = places(&[500.0, 500.0 + apart, 850.0]);
        let f = &found_with(&row, &exact, "uprights-too-close")[0];
        let words = Words::new(Default::default(), style).finding(f);
        words.split(':').next().map(str::to_string).expect("words")
    };
    let metric = LengthStyle::Metric;
    assert_eq!(
        said(149.0, metric),
        "149 mm apart; at least 150 mm is needed"
    );
    assert_eq!(
        said(149.6, metric),
        "149.6 mm apart; at least 150.0 mm is needed"
    );
    let inches = LengthStyle::FeetInches;
    assert_eq!(
        said(149.0, inches),
        "5.87 in apart; at least 5.91 in is needed"
    );
}

#[test]
fn no_upright_goes_for_a_stub_beside_it() {
    let beside = |length: f64| {
        row(
            0,
            1500,
            vec![
                upright_stem(1, 0, 2000.0)
                    .uprights(&[700.0])
                    .last(|s| {
                        // Neither thick nor long for its age: nobody would call it well placed.
                        s.pose = standing(35.0);
                        s.units = match length > 0.0 {
                            true => grown(2, length),
                            false => Vec::new(),
                        };
                    })
                    .uprights(&[810.0])
                    .last(|s| s.pose = Pose::Stub),
            ],
        )
    };
    let f = found(&beside(400.0), "uprights-too-close").remove(0);
    assert!(f.remedies.is_empty(), "{:?}", f.remedies);
    // A bud does.
    let f = found(&beside(0.0), "uprights-too-close").remove(0);
    assert!(!f.remedies.is_empty());
}
