//! The rules of the uprights of one tree, each a step either side of its limit.

use cordonry::check::Severity;
use cordonry::row::*;
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

/// One tree whose cordon is `length` mm long, from 0 on, with `count` uprights at even spaces.
fn even(length: i32, count: usize) -> Row {
    let step = f64::from(length) / count as f64;
    let places: Vec<f64> = (0..count).map(|i| step * (i as f64 + 0.5)).collect();
    row(
        0,
        length,
        vec![upright_stem(1, 0, f64::from(length) + 500.0).uprights(&places)],
    )
}

#[test]
fn five_uprights_are_enough_for_1500_mm_and_40_mm_of_measuring() {
    let fails = young(even(1541, 5));
    let f = either_side("uprights-too-few", &even(1540, 5), &fails);
    assert!((f.measured - 308.2).abs() < 1e-6);
    assert_eq!(
        Words::strict().finding(&f),
        "Tree 1: 5 uprights, buds and stubs on 1.54 m of cordon; at least 6 are needed"
    );
    assert!(found(&mended(&fails, &f, 0), "uprights-too-few").is_empty());
}

#[test]
fn a_bare_leader_gets_buds_along_it() {
    // 1500 of cordon: 7 or 8 spaces of about 200, the outer ones half a space from its ends.
    let bare = young(row(0, 1500, vec![upright_stem(1, 0, 2000.0)]));
    let f = &found(&bare, "uprights-too-few")[0];
    assert_eq!(
        Words::strict().finding(f),
        "Tree 1: no upright on 1.50 m of cordon; at least 5 are needed"
    );
    let after = mended(&bare, f, 0);
    for rule in ["uprights-too-few", "uprights-too-close", "uprights-too-far"] {
        assert!(found(&after, rule).is_empty(), "{rule}");
    }
    assert_eq!(f.remedies[0].work.len(), 8);

    // Where the row ends at 1000, what lies beyond it gets none: 5 for 1000.
    let mut beyond = bare.clone();
    beyond.to = Mm(1000);
    let f = &found(&beyond, "uprights-too-few")[0];
    assert_eq!(f.remedies[0].work.len(), 5);
}

#[test]
fn on_old_wood_a_bare_leader_is_notched_and_that_is_no_sure_cure() {
    // The stem grew in leaf 1, and leaf 3 is about to grow: wood of two seasons.
    let bare = row(0, 1500, vec![upright_stem(1, 0, 2000.0)]);
    let f = &found(&bare, "uprights-too-few")[0];
    let notch = |w: &Work| matches!(w, Work::Notch { .. });
    assert!(f.remedies[0].work.len() == 8 && f.remedies[0].work.iter().all(notch));
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Keep 8 buds along the cordon of tree 1; each then has 188 mm if all grow. By a notch in older wood: 8, of which about 50 % grow"
    );
    let left = &found(&mended(&bare, f, 0), "uprights-too-few")[0];
    assert_eq!((left.severity, left.remedies.len()), (Severity::Note, 0));
    assert_eq!(
        Words::strict().finding(left),
        "Tree 1: no upright on 1.50 m of cordon; at least 5 are needed. Notched there: 8, of which about 50 % grow"
    );
    // A leaf later its wood is of three seasons.
    let older = Row { leaf: 4, ..bare };
    let f = &found(&older, "uprights-too-few")[0];
    let text = Words::strict().remedy(&f.remedies[0]);
    assert!(text.ends_with("of which about 25 % grow"), "{text}");
}

#[test]
fn ten_uprights_are_not_too_many_for_1500_mm_less_40_mm_of_measuring() {
    let fails = even(1459, 10);
    let f = either_side("uprights-too-many", &even(1460, 10), &fails);
    assert_eq!(
        Words::strict().finding(&f),
        "Tree 1: 10 uprights, buds and stubs on 1.46 m of cordon; it has room for 9"
    );
    assert!(found(&mended(&fails, &f, 0), "uprights-too-many").is_empty());
}

#[test]
fn a_spread_of_30_per_cent_and_50_mm_passes() {
    // Lengths 700, 700, b, b: spread (b − 700) / (b + 700), the deviation (b − 700) / 2. Beyond 0.3 of
    // the mean it is 50 mm at b = 505 / 0.35 = 1442.9.
    let lengths = |b: f64| {
        let mut tree = upright_stem(1, 0, 2000.0);
        for (i, length) in [700.0, 700.0, b, b].into_iter().enumerate() {
            tree = tree.shoot(600.0 + 200.0 * i as f64, standing(0.0), grown(2, length));
        }
        row(0, 1500, vec![tree])
    };
    let f = either_side("uprights-uneven", &lengths(1442.0), &lengths(1443.0));
    assert!((f.measured - 743.0 / 2143.0).abs() < 1e-9);
    // Shoots of other years are not compared with them.
    let mut mixed = lengths(1442.0);
    let mut tree = (*mixed.trees[0]).clone();
    tree.shoots[4].units[0].leaf = 1;
    tree.shoots[4].units[0].kept = 200.0;
    mixed.trees[0] = tree.into();
    assert!(found(&mixed, "uprights-uneven").len() == 1);
    let mut tree = (*mixed.trees[0]).clone();
    tree.shoots[3].units[0].leaf = 1;
    mixed.trees[0] = tree.into();
    assert!(found(&mixed, "uprights-uneven").is_empty());
}

/// Uprights at 400 or so and farther on, the first of them `thick`, the others 10 mm.
fn vigorous(first: f64, thick: f64) -> Row {
    let mut tree = upright_stem(1, 0, 2000.0)
        .uprights(&[first])
        .last(|s| s.diameter = thick);
    for x in [700.0, 900.0, 1100.0, 1300.0] {
        tree = tree.uprights(&[x]).last(|s| s.diameter = 10.0);
    }
    row(0, 1500, vec![tree])
}

#[test]
fn near_the_trunk_1_4_times_the_median_and_2_mm_pass() {
    // The median of 10, 10, 10, 10 and 16 is 10.
    let fails = vigorous(400.0, 16.1);
    let f = either_side("upright-over-vigorous", &vigorous(400.0, 16.0), &fails);
    assert!((f.measured - 1.61).abs() < 1e-9);
    assert_eq!(
        f.remedies[0].work,
        [Work::Stub {
            tree: TreeId(1),
            shoot: ShootId::found(1),
            keep_mm: Mm(150)
        }]
    );
    assert!(found(&mended(&fails, &f, 0), "upright-over-vigorous").is_empty());
    // 400 from where the cordon begins is near; 401 is not.
    either_side(
        "upright-over-vigorous",
        &vigorous(401.0, 20.0),
        &vigorous(400.0, 20.0),
    );
}

#[test]
fn what_is_over_vigorous_goes_in_the_winter_s_share_or_waits() {
    let said = |row: &Row| {
        let f = found(row, "upright-over-vigorous").remove(0);
        (Words::strict().finding(&f), f.severity, f.remedies.len())
    };
    let thick = "Over-vigorous near the trunk: upright 1 of 5, tree 1. \
                 20 mm thick, 2.0 times the 10 mm that is usual on its tree";
    let mut row = vigorous(400.0, 20.0);
    assert_eq!(said(&row), (thick.into(), Severity::Soon, 1));
    // A ratio is told with what it was taken of.
    let mut tree = (*row.trees[0]).clone();
    for shoot in &mut tree.shoots[2..] {
        shoot.diameter = 9.5;
    }
    let mut broken = row.clone();
    broken.trees[0] = tree.into();
    assert!(said(&broken).0.contains("2.1 times the 9.5 mm that"));
    let waits = format!("{thick}; it waits for its turn in the winters' renewal");
    // No renewal in leaf 1.
    row.leaf = 1;
    assert_eq!(said(&row), (waits.clone(), Severity::Note, 0));
    // Grown again from a cut of the winter before, while another is of five seasons.
    row.leaf = 7;
    let mut one = (*row.trees[0]).clone();
    for upright in &mut one.shoots[1..] {
        upright.units[0].leaf = 5;
    }
    one.shoots[1].units[0].leaf = 6;
    one.shoots[4].units[0].leaf = 2;
    row.trees[0] = one.into();
    assert_eq!(found(&row, "renewal-due")[0].subjects.len(), 1);
    assert_eq!(said(&row), (waits, Severity::Note, 0));
}

#[test]
fn a_tip_100_mm_and_20_mm_of_measuring_beyond_its_cordon_passes() {
    // Leaning 30°, 400 long: its tip stands 200 to the right of its base. The cordon ends at 3000.
    let leaning = |x: f64| {
        row(
            0,
            3000,
            vec![upright_stem(1, 0, 3500.0).uprights(&[x]).last(|s| {
                s.pose = standing(30.0);
                s.units = grown(2, 400.0);
            })],
        )
    };
    let fails = leaning(2921.0);
    let f = either_side("upright-outside", &leaning(2920.0), &fails);
    assert!((f.measured - 121.0).abs() < 1e-6);
    assert_eq!(
        f.remedies[0].work,
        [Work::Stand {
            tree: TreeId(1),
            shoot: ShootId::found(1),
            lean_deg: Deg::new(0.0)
        }]
    );
    assert!(found(&mended(&fails, &f, 0), "upright-outside").is_empty());
}

#[test]
fn an_upright_that_crosses_its_neighbour_is_found() {
    // Leaning 30°, 1000 long from 500: its tip stands at 1000, 866 above the wire. A neighbour of 1000 is crossed when it
    // stands more than the 20 mm of measuring before that.
    let neighbours = |x: f64| {
        row(
            0,
            3000,
            vec![
                upright_stem(1, 0, 3500.0)
                    .uprights(&[500.0])
                    .last(|s| {
                        s.pose = standing(30.0);
                        s.units = grown(2, 1000.0);
                    })
                    .uprights(&[x])
                    .last(|s| s.units = grown(2, 1000.0)),
            ],
        )
    };
    let fails = neighbours(979.0);
    let f = either_side("uprights-crossing", &neighbours(981.0), &fails);
    assert_eq!(
        Words::strict().finding(&f),
        "Leans across its neighbour: upright 1 of 2, tree 1 crosses upright 2 of 2, tree 1"
    );
    assert!(found(&mended(&fails, &f, 0), "uprights-crossing").is_empty());
}

#[test]
fn side_and_underside_shoots_come_off() {
    let faces = |face: Face| {
        row(
            0,
            1500,
            vec![
                upright_stem(1, 0, 2000.0)
                    .shoot(900.0, Pose::Free, grown(2, 300.0))
                    .last(|s| s.face = face),
            ],
        )
    };
    for face in [Face::Side, Face::Under] {
        let fails = faces(face);
        let f = either_side("side-shoots", &faces(Face::Top), &fails);
        assert!(found(&mended(&fails, &f, 0), "side-shoots").is_empty());
        assert_eq!(
            Words::strict().finding(&f),
            "Tree 1: one bud or shoot left on the sides or underneath the cordon"
        );
    }
}

#[test]
fn laterals_come_off_from_leaf_3() {
    let laterals = |count: u16, leaf: u8| {
        let mut row = row(
            0,
            1500,
            vec![upright_stem(1, 0, 2000.0).uprights(&[900.0]).last(|s| {
                s.laterals = Laterals {
                    count,
                    total: 100.0 * f64::from(count),
                }
            })],
        );
        row.leaf = leaf;
        row
    };
    let f = either_side("laterals-due", &laterals(0, 3), &laterals(1, 3));
    assert_eq!(
        Words::strict().finding(&f),
        "Tree 1: one lateral on one upright; from leaf 3 on they are removed"
    );
    assert!(found(&mended(&laterals(1, 3), &f, 0), "laterals-due").is_empty());
    either_side("laterals-due", &laterals(4, 2), &laterals(4, 3));
}

#[test]
fn growth_of_last_year_that_is_whole_is_to_be_tipped() {
    let cut = |kept: f64, leaf: u8| {
        let mut row = row(
            0,
            1500,
            vec![
                upright_stem(1, 0, 2000.0)
                    .uprights(&[900.0])
                    .last(|s| s.units = vec![GrowthUnit::new(leaf, 600.0, kept)]),
            ],
        );
        row.leaf = 2;
        row
    };
    // The row is in leaf 2: last year is leaf 1.
    let f = either_side("tipping-due", &cut(599.0, 1), &cut(600.0, 1));
    let after = mended(&cut(600.0, 1), &f, 0);
    // 20 % of 600 comes off.
    assert_eq!(after.trees[0].shoots[1].length(), 480.0);
    assert!(found(&after, "tipping-due").is_empty());
    either_side("tipping-due", &cut(600.0, 0), &cut(600.0, 1));
    // From leaf 3 on renewal has begun, and ends it.
    let mut renewed = cut(600.0, 2);
    renewed.leaf = 3;
    assert!(found(&renewed, "tipping-due").is_empty());
}

#[test]
fn side_and_underside_buds_are_rubbed_out_in_leaf_1() {
    let with = |leaf: u8, rubbed: bool| {
        let mut row = row(
            0,
            1500,
            vec![upright_stem(1, 0, 2000.0).with_stem(|s| s.rubbed = rubbed)],
        );
        row.leaf = leaf;
        row
    };
    let f = either_side("rub-out-due", &with(2, false), &with(1, false));
    assert!(found(&mended(&with(1, false), &f, 0), "rub-out-due").is_empty());
    assert!(found(&with(1, true), "rub-out-due").is_empty());
}

#[test]
fn uneven_shoots_of_the_first_leaf_are_cut_to_buds_before_the_second() {
    // Three shoots on 1500 of cordon, which asks for 8: 3 buds each. That of 300 is less than half the median of 900; the
    // others are well placed and stay.
    let mut tree = upright_stem(1, 0, 2000.0);
    for (i, length) in [300.0, 900.0, 1500.0].into_iter().enumerate() {
        tree = tree.shoot(700.0 + 400.0 * i as f64, standing(0.0), grown(1, length));
    }
    let mut early = row(0, 1500, vec![tree]);
    early.leaf = 2;
    let f = &found(&early, "uprights-uneven")[0];
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Cut the odd upright of tree 1 back to 3 buds before leaf 2 grows: it then brings 3 even shoots"
    );
    mended(&early, f, 0);
    early.leaf = 3;
    assert!(found(&early, "uprights-uneven")[0].remedies.is_empty());
}

#[test]
fn younger_uprights_make_no_older_one_over_vigorous() {
    // The older ones are 12, 14 and 18 mm thick; with four young ones the tree's median is 8.
    let mut row = vigorous(400.0, 18.0);
    let mut tree = (*row.trees[0]).clone();
    for (upright, (diameter, born)) in
        tree.shoots[1..]
            .iter_mut()
            .zip([(18.0, 1), (12.0, 1), (14.0, 1), (7.0, 2), (8.0, 2)])
    {
        upright.diameter = diameter;
        upright.units[0].leaf = born;
    }
    row.trees[0] = tree.clone().into();
    assert!(found(&row, "upright-over-vigorous").is_empty());
    tree.shoots[1].diameter = 22.1;
    row.trees[0] = tree.into();
    let f = found(&row, "upright-over-vigorous").remove(0);
    assert!((f.measured - 22.1 / 14.0).abs() < 1e-9, "{}", f.measured);
}

#[test]
fn two_that_lean_across_each_other_are_both_tied_straight() {
    // Straight alone, either would still be crossed by the other.
    let fails = row(
        0,
        3000,
        vec![
            upright_stem(1, 0, 3500.0)
                .uprights(&[700.0])
                .last(|s| {
                    s.pose = standing(35.0);
                    s.units = grown(2, 1200.0);
                })
                .uprights(&[1000.0])
                .last(|s| {
                    s.pose = standing(-34.0);
                    s.units = grown(2, 1200.0);
                }),
        ],
    );
    let f = found(&fails, "uprights-crossing").remove(0);
    assert_eq!(f.remedies[0].work.len(), 2);
    assert!(found(&mended(&fails, &f, 0), "uprights-crossing").is_empty());
}

#[test]
fn what_is_due_for_a_stub_is_neither_tipped_nor_held_nor_cleared() {
    let mut row = vigorous(400.0, 20.0);
    let mut tree = (*row.trees[0]).clone();
    for upright in &mut tree.shoots[1..] {
        upright.units = grown(2, 2500.0);
        upright.laterals.count = 5;
    }
    row.trees[0] = tree.into();
    let due = found(&row, "renewal-due").remove(0).subjects;
    assert_eq!(due.len(), 1);
    // Under rules that tip every winter, renewal or not.
    let mut targets = Targets::default();
    targets.rule_tip_until(40.0);
    for (rule, others) in [("tipping-due", 4), ("above-wall", 4), ("laterals-due", 4)] {
        let f = found_with(&row, &targets, rule).remove(0);
        assert_eq!(f.subjects.len(), others, "{rule}");
        assert!(!f.subjects.contains(&due[0]), "{rule}");
    }
}
