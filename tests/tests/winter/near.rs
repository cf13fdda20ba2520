//! A survey that judges only what a change can reach finds what one of the whole row finds.

use super::rows;
use cordonry::check::{Before, Context, Finding, Survey, check, survey};
use cordonry::plan::Plan;
use cordonry::pose::{Geometry, PosedRow};
use cordonry::row::{Pose, Row, Targets, TreeId};
use cordonry::seed::Seeded;
use cordonry::terms::Terms;
use cordonry::units::Deg;
use cordonry_fixture::wall;
use std::sync::Arc;

/// Changes one tree in one way or another.
fn change(row: &mut Row, chance: &mut Seeded) {
    let mut below = |n: usize| ((chance.share() * n as f64) as usize).min(n - 1);
    let at = below(row.trees.len());
    let way = below(7);
    let tree = Arc::make_mut(&mut row.trees[at]);
    if tree.shoots.is_empty() {
        return;
    }
    let at = below(tree.shoots.len());
    let shoot = &mut tree.shoots[at];
    match way {
        0 => {
            let last = shoot.units.last_mut();
            last.into_iter().for_each(|unit| unit.kept *= 0.6);
        }
        1 => shoot.diameter = 40.0 - shoot.diameter,
        2 => shoot.laterals.count = 3 - shoot.laterals.count.min(3),
        3 if shoot.units.len() > 1 => drop(shoot.units.pop()),
        4 if matches!(shoot.pose, Pose::Upright { .. }) => {
            let lean = Deg::new(15.0);
            shoot.pose = Pose::Upright { lean };
        }
        5 if matches!(shoot.pose, Pose::Upright { .. }) => shoot.pose = Pose::Stub,
        6 if at > 0 => {
            let id = shoot.id;
            tree.remove_with_descendants(|s| s.id == id);
        }
        _ => shoot.at *= 0.9,
    }
    let stem = tree.shoots.first().map_or(0.0, |s| s.length());
    // What stood on what is gone stands at its end.
    let lengths: Vec<_> = tree.shoots.iter().map(|s| (s.id, s.length())).collect();
    for shoot in &mut tree.shoots {
        let on = lengths.iter().find(|(id, _)| Some(*id) == shoot.parent);
        shoot.at = shoot.at.min(on.map_or(stem, |(_, length)| *length));
    }
}

/// A survey after another one.
fn after(context: &Context<'_>, row: &PosedRow, found: &Survey) -> Survey {
    let before = Before {
        row,
        moment: context.moment,
        findings: found.findings.clone(),
        kept: found.kept.clone(),
    };
    survey(context, Some(before))
}

/// How many findings stood, of how many, over all changes.
fn hold(name: &str, plan: &Plan, chance: &mut Seeded) -> (usize, usize) {
    let mut row = (*plan.found).clone();
    let geometry = Geometry::of(&row, &plan.targets);
    let mut posed = PosedRow::new(row.clone(), geometry);
    let terms = Terms::of(&row, &plan.targets);
    let mut found = survey(&Context::found(&posed, &terms, &plan.targets), None);
    let (mut stood, mut all) = (0, 0);
    for n in 0..12 {
        for _ in 0..=(n % 3) / 2 {
            change(&mut row, chance);
        }
        let next = PosedRow::after(row.clone(), geometry, &posed);
        let now = Context::found(&next, &terms, &plan.targets);
        let near = after(&now, &posed, &found);
        let whole = survey(&now, None);
        let pairs = near.findings.iter().zip(&whole.findings);
        let differ = pairs.clone().find(|(a, b)| a != b);
        assert!(differ.is_none(), "{name}, change {n}: {differ:#?}");
        let len = whole.findings.len();
        assert_eq!(near.findings.len(), len, "{name}, change {n}");
        assert_eq!(near.cover, whole.cover, "{name}, change {n}");
        assert_eq!(near.places, whole.places, "{name}, change {n}");
        assert_eq!(near.figures, whole.figures, "{name}, change {n}");
        let stands = |f: &&Finding| found.findings.contains(f);
        stood += near.findings.iter().filter(stands).count();
        all += len;
        (posed, found) = (next, near);
    }
    (stood, all)
}

#[test]
fn what_is_judged_near_a_change_is_what_is_judged_of_the_whole_row() {
    let mut chance = Seeded::new(5);
    let (mut stood, mut all) = (0, 0);
    for seed in 0..40 {
        let plan = rows::long(seed, 40);
        let (s, a) = hold(&format!("row {seed}"), &plan, &mut chance);
        (stood, all) = (stood + s, all + a);
    }
    println!("{stood} of {all} findings stood");
    assert!(2 * stood > all);
    for count in [8, 12, 16] {
        hold(&format!("{count} rows"), &rows::chained(count), &mut chance);
    }
}

/// Trees of five uprights, of which the first and the last are longer than a stub, one of them due this winter: the thicker,
/// unless the one beside it goes.
fn chain(first: f64) -> Row {
    let tree = |n: i32| {
        let places: Vec<f64> = (0..5).map(|i| f64::from(1000 * n + 200 * i)).collect();
        let mut tree = wall::upright_stem(n as u32 + 1, 1000 * n, 1500.0).uprights(&places);
        for (i, shoot) in tree.0.shoots.iter_mut().skip(1).enumerate() {
            let length = if i % 4 == 0 { 1500.0 } else { 100.0 };
            let thick = if n == 2 { first } else { 12.0 };
            shoot.units = wall::grown(2, length);
            shoot.diameter = if i == 0 { thick } else { 11.0 };
        }
        tree
    };
    let mut row = wall::row(0, 60_000, (0..60).map(tree).collect());
    row.leaf = 5;
    row
}

#[test]
fn a_turn_that_passes_from_tree_to_tree_is_followed_along_the_row() {
    let row = chain(12.0);
    let targets = Targets::default();
    let geometry = Geometry::of(&row, &targets);
    let terms = Terms::of(&row, &targets);
    let posed = PosedRow::new(row.clone(), geometry);
    let found = survey(&Context::found(&posed, &terms, &targets), None);
    // The third tree's first upright alone is another.
    let mut other = row.clone();
    other.trees[2] = Arc::clone(&chain(10.0).trees[2]);
    let next = PosedRow::after(other, geometry, &posed);
    let now = Context::found(&next, &terms, &targets);
    let near = after(&now, &posed, &found).findings;
    let last = |found: &[Finding]| {
        let due = |f: &&Finding| f.rule == "renewal-due" && f.subjects[0].tree == TreeId(60);
        found.iter().find(due).map(|f| f.subjects.clone())
    };
    assert_ne!(
        last(&found.findings),
        last(&near),
        "it passes on to the last tree"
    );
    assert_eq!(near, check(&now));
}
