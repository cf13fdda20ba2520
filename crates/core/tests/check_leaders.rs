//! The rules of stock, leans and bends, each a step either side of its limit.

use cordonry::check::{Context, Finding, Severity, matters, survey};
use cordonry::pose::PosedRow;
use cordonry::row::*;
use cordonry::terms::Terms;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

/// Trees at 0 and at `spacing`, planted at `angle` to the right; the second has stock enough.
fn planted(angle: f64, spacing: i32, length: f64) -> Row {
    let mut row = row(
        0,
        2 * spacing,
        vec![
            stem(1, 0, angle, Toward::Right, length),
            stem(2, spacing, angle, Toward::Right, 6000.0),
        ],
    );
    row.leaf = 1;
    row
}

#[test]
fn stock_reaches_to_where_the_next_tree_bears() {
    // h/sin a + S + (z_b − h)/tan a with h 500: derived by hand, in mm.
    for (angle, spacing, bearing, needed) in [
        (45.0, 1500, 0.0, 1707.107),
        (45.0, 1500, 300.0, 2007.107),
        (45.0, 1500, 500.0, 2207.107),
        (45.0, 1800, 0.0, 2007.107),
        (60.0, 1500, 0.0, 1788.675),
        (90.0, 1500, 500.0, 2000.0),
    ] {
        let mut targets = Targets::default();
        targets.set(Limit::EndGrowth, Some(0.0)).unwrap();
        targets.set(Limit::BearingHeight, Some(bearing)).unwrap();
        // Less by the 50 mm that a length may be off.
        let least = f64::ceil(needed - 50.0);
        let short = |length: f64| {
            found_with(
                &planted(angle, spacing, length),
                &targets,
                "stock-too-short",
            )
        };
        assert!(short(least).is_empty(), "{angle} {spacing} {bearing}");
        let f = &short(least - 1.0)[0];
        assert!((f.allowed - needed).abs() < 0.001, "{}", f.allowed);
        assert_eq!(f.subjects[0].tree, TreeId(1));
    }
}

#[test]
fn growth_until_the_cordon_is_due_counts() {
    // 2207.1 less 600 for each of leaf 1 and 2, and less 50 of measuring: 958 passes, 957 does not.
    let f = either_side(
        "stock-too-short",
        &planted(45.0, 1500, 958.0),
        &planted(45.0, 1500, 957.0),
    );
    assert!((f.measured - 2157.0).abs() < 1e-6);
    assert_eq!(
        Words::strict().finding(&f),
        "Stock too short for its place, by 0.05 m: leader, tree 1. It has 0.96 m, may grow 1.20 m by the end of leaf 2, and needs 2.21 m"
    );
    // In leaf 2 one season is left; from leaf 3 on what is bare is a finding of its own.
    let mut later = planted(45.0, 1500, 1557.0);
    later.leaf = 2;
    assert_eq!(found(&later, "stock-too-short").len(), 1);
    later.leaf = 3;
    assert!(found(&later, "stock-too-short").is_empty());
}

#[test]
fn the_last_tree_is_judged_to_the_row_s_end() {
    // From a vertical stem at 1500 to the end at 3000: 500 + 1500, less 1200 and less 50 of measuring.
    let last = |length: f64| {
        let mut row = row(
            0,
            3000,
            vec![upright_stem(1, 0, 2000.0), upright_stem(2, 1500, length)],
        );
        row.leaf = 1;
        row
    };
    either_side("stock-too-short", &last(750.0), &last(749.0));
}

#[test]
fn each_of_two_leaders_reaches_half_way() {
    // Headed at 300, wire at 500, trees 3000 apart: 200 up and 1500 along, less 1200 and less 50 of measuring.
    let tree = |id: u32, foot: i32, right: f64| {
        upright_stem(id, foot, 300.0)
            .with_stem(|s| s.pose = standing(0.0))
            .shoot(300.0, laid(Toward::Left, 0.0), grown(1, 500.0))
            .shoot(300.0, laid(Toward::Right, 0.0), grown(1, right))
    };
    let pair = |right: f64| {
        let mut row = row(-1500, 4500, vec![tree(1, 0, right), tree(2, 3000, 500.0)]);
        row.leaf = 1;
        row
    };
    let f = either_side("stock-too-short", &pair(450.0), &pair(449.0));
    assert!((f.allowed - 1700.0).abs() < 1e-6);
}

#[test]
fn opposed_leans_leave_the_wire_between_their_feet_bare() {
    // The left tree goes left from 0, the right one right from 170 or 171.
    let away = |right: i32| {
        row(
            -1500,
            right + 1500,
            vec![
                stem(1, 0, 90.0, Toward::Left, 2000.0),
                upright_stem(2, right, 2000.0),
            ],
        )
    };
    let f = either_side("leans-opposed", &away(170), &away(171));
    assert!((f.measured - 171.0).abs() < 1e-6);
    // Toward each other, or with a second leader back, they leave none.
    let second = row(
        -1500,
        3000,
        vec![
            stem(1, 0, 90.0, Toward::Left, 2000.0).shoot(
                500.0,
                laid(Toward::Right, 0.0),
                grown(1, 800.0),
            ),
            upright_stem(2, 1500, 2000.0),
        ],
    );
    assert!(found(&second, "leans-opposed").is_empty());
}

#[test]
fn what_two_pairs_that_lean_away_leave_bare_is_told_between_their_feet() {
    // Their slanting stems bear from 500 beside the foot on: most of what is bare lies outside the feet and is a gap by itself.
    let pair = |id: u32, at: i32| {
        [
            stem(id, at, 45.0, Toward::Left, 1700.0),
            stem(id + 1, at + 300, 45.0, Toward::Right, 1700.0),
        ]
    };
    let trees = pair(1, 1500).into_iter().chain(pair(3, 5300)).collect();
    let mut row = row(0, 7000, trees);
    row.leaf = 3;
    let targets = Targets::default();
    let terms = Terms::on(&row, &targets, &Site::default());
    let posed = PosedRow::of(&row, &targets);
    let seen = survey(&Context::found(&posed, &terms, &targets), None);
    let all: Vec<&Finding> = seen.findings.iter().collect();
    let matters = matters(&row, &seen.cover, &targets, &all, &[]);
    let leans = matters.iter().find(|m| m.cause.name == "leans-opposed");
    assert_eq!(
        Words::strict().matter(leans.unwrap(), &all),
        "2 pairs of trees lean away from each other: 0.60 m of cordon between them stays bare"
    );
}

#[test]
fn a_bend_of_10_diameters_as_thin_as_it_may_be_passes() {
    // A fork of 20 mm from a vertical stem turns square onto the wire 180 or 179 above it: that is all the room
    // its bend has. Measuring may be off by 2 mm: 10 diameters of 18 mm are 180.
    let fork = |height: f64| {
        row(
            0,
            1500,
            vec![
                upright_stem(1, 0, height)
                    .with_stem(|s| s.pose = standing(0.0))
                    .shoot(height, laid(Toward::Right, 0.0), grown(1, 1700.0))
                    .last(|s| s.diameter = 20.0),
            ],
        )
    };
    let f = either_side("bend-too-tight", &fork(320.0), &fork(321.0));
    assert!((f.measured - 8.95).abs() < 1e-6);
    assert_eq!(f.severity, Severity::Note);
    assert_eq!(
        Words::strict().finding(&f),
        "Bent too tight: leader, tree 1. Radius 179 mm; for its 20 mm at least 200 mm is safe"
    );
}
