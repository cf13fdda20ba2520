//! The rules of the wall and its wires, each a step either side of its limit.

use cordonry::check::{Finding, Severity};
use cordonry::row::*;
use cordonry::units::Mm;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

/// A cordon from 0 to 3000 with uprights of 2000 mm every 200 mm up to `left` and from `right` on.
fn wall(left: f64, right: f64) -> Grow {
    let mut tree = upright_stem(1, 0, 3500.0);
    let (mut x, mut places) = (100.0, Vec::new());
    while x <= left {
        places.push(x);
        x += 200.0;
    }
    x = right;
    while x < 3000.0 {
        places.push(x);
        x += 200.0;
    }
    for x in places {
        tree = tree.uprights(&[x]).last(|s| s.units = grown(2, 2000.0));
    }
    tree
}

fn standing_wall(tree: Grow) -> Row {
    row(0, 3000, vec![tree])
}

#[test]
fn an_opening_of_300_mm_and_20_mm_of_measuring_passes() {
    // 1.5 times the 200 aimed at. The last upright before it stands at 1100.
    let f = either_side(
        "see-through",
        &standing_wall(wall(1100.0, 1420.0)),
        &standing_wall(wall(1100.0, 1421.0)),
    );
    assert!((f.x - 1100.0).abs() < 1e-6 && (f.width - 321.0).abs() < 1e-6);
    assert!((f.measured - 1.605).abs() < 1e-9);
    assert_eq!(
        Words::strict().finding(&f),
        "Opening 321 mm wide from 1.10 m along the row, from low to high; the limit is 300 mm"
    );
}

#[test]
fn an_opening_over_half_the_height_passes_and_over_more_does_not() {
    // The wall of 2000 has 12 levels of 166.7; the sixth is looked at 916.7 above the wire. An upright of 917 between
    // 1100 and 1500 closes six of them, one of 916 five.
    let short = |length: f64| {
        standing_wall(
            wall(1100.0, 1500.0)
                .uprights(&[1300.0])
                .last(|s| s.units = grown(2, length)),
        )
    };
    let f = either_side("see-through", &short(917.0), &short(916.0));
    assert!((f.width - 400.0).abs() < 1e-6);
    // Levels 6 to 12 are open: three of the four in the middle, all four high.
    assert_eq!(
        Words::strict().finding(&f),
        "Opening 400 mm wide from 1.10 m along the row, in the middle and high parts of the wall; the limit is 300 mm"
    );
}

#[test]
fn an_upright_between_two_openings_parts_them() {
    let tree = wall(1100.0, 1900.0)
        .uprights(&[1500.0])
        .last(|s| s.units = grown(2, 2000.0));
    let f = found(&standing_wall(tree), "see-through");
    let spans: Vec<(i64, i64)> = f
        .iter()
        .map(|f| (f.x.round() as i64, f.width.round() as i64))
        .collect();
    assert_eq!(spans, [(1100, 400), (1500, 400)]);
}

#[test]
fn a_tip_100_mm_and_50_mm_of_measuring_above_the_wall_passes() {
    // The wall is 2500 high and the wire at 500: 2100 of upright, and 50 that a length may be off.
    let tall = |length: f64| {
        standing_wall(
            upright_stem(1, 0, 3500.0)
                .uprights(&[900.0])
                .last(|s| s.units = grown(2, length)),
        )
    };
    let fails = tall(2151.0);
    let f = either_side("above-wall", &tall(2150.0), &fails);
    assert!((f.measured - 151.0).abs() < 1e-6);
    let after = mended(&fails, &f, 0);
    assert_eq!(after.trees[0].shoots[1].length(), 2000.0);
}

#[test]
fn uprights_too_tall_to_be_held_are_counted_apart() {
    // 2000 of an upright is below the wall's height: of 3000 that leaves two thirds, of 3100 less than 65 %.
    let tall = |lengths: &[f64]| {
        let mut tree = upright_stem(1, 0, 3500.0);
        for (i, length) in lengths.iter().enumerate() {
            tree = tree
                .uprights(&[500.0 * (i + 1) as f64])
                .last(|s| s.units = grown(2, *length));
        }
        found(&standing_wall(tree), "above-wall").remove(0)
    };
    let said = |f: &Finding| Words::strict().finding(f);
    let some = tall(&[3000.0, 3000.0, 3100.0, 3200.0, 3300.0]);
    assert_eq!(
        said(&some),
        "Tree 1: 5 uprights stand up to 1.30 m above the wall's height of 2.50 m; cut there 3 would lose more than a third of their length: they wait to be renewed"
    );
    assert_eq!(
        Words::strict().remedy(&some.remedies[0]),
        "Cut 2 uprights of tree 1 at 2.50 m from the ground"
    );
    let one = tall(&[3000.0, 3100.0]);
    assert!(said(&one).ends_with(
        "; cut there one would lose more than a third of its length: it waits to be renewed"
    ));
    assert_eq!(
        Words::strict().remedy(&one.remedies[0]),
        "Cut one upright of tree 1 at 2.50 m from the ground"
    );
    let none = tall(&[3100.0]);
    assert_eq!(
        said(&none),
        "Tree 1: one upright stands up to 1.10 m above the wall's height of 2.50 m; cut there it would lose more than a third of its length: it waits to be renewed"
    );
    assert!(none.remedies.is_empty());
    let all = tall(&[3000.0, 3000.0]);
    assert!(said(&all).ends_with("above the wall's height of 2.50 m"));
    assert_eq!(
        Words::strict().remedy(&all.remedies[0]),
        "Cut all 2 uprights of tree 1 at 2.50 m from the ground"
    );
}

#[test]
fn the_wall_is_no_taller_than_the_rows_are_apart() {
    let high = |height: i32| {
        let mut row = standing_wall(upright_stem(1, 0, 3500.0));
        row.trellis.wall_height = Mm(height);
        row
    };
    // Without a row spacing 3000 is taken.
    let f = either_side("wall-too-tall", &high(3000), &high(3001));
    assert_eq!(f.severity, Severity::Note);
    assert_eq!(
        Words::strict().finding(&f),
        "The wall is 3.00 m high and the rows are 3.00 m apart (taken, since none is given): 1.0003 times; up to 1.0000 lets enough light to its foot"
    );
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Have the wall 3.00 m high"
    );
    // An upright up to 3.2 m is cut with it: it stands on the wire at 0.5 m.
    let mut grown_out = standing_wall(
        upright_stem(1, 0, 3500.0)
            .uprights(&[900.0])
            .last(|s| s.units = grown(2, 2700.0)),
    );
    grown_out.trellis.wall_height = Mm(3200);
    let tall = &found(&grown_out, "wall-too-tall")[0];
    assert_eq!(
        Words::strict().remedy(&tall.remedies[0]),
        "Have the wall 3.00 m high, and cut one upright there"
    );
    let after = mended(&grown_out, tall, 0);
    assert_eq!(after.trees[0].shoots[1].length(), 2500.0);
    assert!(found(&after, "wall-too-tall").is_empty());
    assert!(found(&after, "above-wall").is_empty());
    let soon = |height: i32| found(&high(height), "wall-too-tall")[0].severity;
    assert_eq!((soon(3300), soon(3301)), (Severity::Note, Severity::Soon));

    let given = |spacing: i32| -> Vec<Finding> {
        let site = Site {
            row_spacing: Some(Mm(spacing)),
            ..Site::default()
        };
        found_in(
            &high(2500),
            &site,
            &Targets::default(),
            &[],
            "wall-too-tall",
        )
    };
    assert!(given(2500).is_empty());
    assert_eq!(
        Words::strict().finding(&given(2499)[0]),
        "The wall is 2.50 m high and the rows are 2.50 m apart: 1.0004 times; up to 1.0000 lets enough light to its foot"
    );
}

fn wires(heights: &[i32], covering: Covering, upright: f64) -> Row {
    let mut row = standing_wall(
        upright_stem(1, 0, 3500.0)
            .uprights(&[900.0])
            .last(|s| s.units = grown(2, upright)),
    );
    row.trellis.wires = heights
        .iter()
        .map(|h| Wire {
            height: Mm(*h),
            covering,
        })
        .collect();
    row
}

#[test]
fn the_next_wire_is_due_400_mm_and_50_mm_of_measuring_above_the_top_one() {
    // From the cordon at 500, 900 of upright stands 400 above the wire at 1000; 950 may.
    let with = |length: f64| wires(&[500, 1000], Covering::Plastic, length);
    let f = either_side("next-wire-due", &with(950.0), &with(951.0));
    assert_eq!(
        Words::strict().finding(&f),
        "The next wire is due, at 1.50 m: one upright stands up to 451 mm above the top wire"
    );
    // 1500 of upright, its tip at 2000: wires at 1500 and 2000 are asked for.
    let tall = with(1500.0);
    let after = mended(&tall, &found(&tall, "next-wire-due")[0], 0);
    let heights: Vec<i32> = after.trellis.wires.iter().map(|w| w.height.0).collect();
    assert_eq!(heights, [500, 1000, 1500, 2000]);
    // At the wall's height no further one is due.
    let full = wires(&[500, 1000, 1500, 2000, 2500], Covering::Plastic, 2900.0);
    assert!(found(&full, "next-wire-due").is_empty());
}

#[test]
fn wires_600_mm_and_20_mm_of_measuring_apart_pass() {
    let with = |second: i32| wires(&[500, second], Covering::Plastic, 600.0);
    let f = either_side("wires-too-far", &with(1120), &with(1121));
    assert_eq!((f.measured, f.allowed), (621.0, 600.0));
    let after = mended(&with(1121), &f, 0);
    assert!(found(&after, "wires-too-far").is_empty());
    assert_eq!(after.trellis.wires.len(), 3);
}

#[test]
fn bare_steel_is_noted_where_wood_is_tied() {
    let with = |covering| wires(&[500, 1000], covering, 600.0);
    let f = either_side("bare-wire", &with(Covering::Plastic), &with(Covering::Bare));
    assert_eq!(f.severity, Severity::Note);
    let after = mended(&with(Covering::Bare), &f, 0);
    assert!(found(&after, "bare-wire").is_empty());
    let mut untied = with(Covering::Bare);
    untied.trees.clear();
    assert!(found(&untied, "bare-wire").is_empty());
}
