//! What a scheme brings, leaf by leaf: kept or new it is the same, later work changes nothing earlier, and every figure is a number.

use cordonry::canopy::Canopy;
use cordonry::forecast::{
    DRAWS, Doubt, Forecast, LeafFigures, SHARES, ShareCost, crop_range, kept_young_from,
    share_costs,
};
use cordonry::make::{Form, RowSketch};
use cordonry::plan::{Moment, Plan, Window, replay};
use cordonry::row::{Kind, Limit, Planted, Pose, Row, Shoot, ShootId, Toward, TreeId};
use cordonry::standing::Rule;
use cordonry::tipping::Tipping;
use cordonry::units::{Deg, LengthStyle, Mm};
use cordonry::work::Work;
use cordonry_fixture::random::{cases, plan as random_plan};
use cordonry_fixture::wood;
use cordonry_words::Words;
use proptest::prelude::*;

/// Newly planted stock of 2 m at 1.5 m, of which every window stands.
fn planted(trees: u32) -> Plan {
    let row = wood::planted(trees, 1500, 2000.0);
    Plan::new("a row", row).with_all_standing()
}

fn new(plan: &Plan, last: u8) -> Vec<LeafFigures> {
    Forecast::default().of(plan, 0, last).expect("a scheme")
}

fn end(leaf: u8) -> Moment {
    Moment {
        leaf,
        window: Window::AfterHarvest,
    }
}

#[test]
fn the_usual_work_lies_in_the_reported_bands() {
    let all = new(&planted(10), 12);
    assert!(
        all[1].cordon_fill_share > 0.99,
        "filled by the end of leaf 2"
    );
    assert_eq!(all[1].crop_t_per_ha, 0.0, "flowers are rubbed off");
    // From memory: 2 to 7 t/ha in leaf 3.
    assert!((2.0..=7.0).contains(&all[2].crop_t_per_ha), "{:?}", all[2]);
    // What the prototype of the model lands in when a fifth is renewed, leaves 8 to 12.
    let crops = || all[7..12].iter().map(|f| f.crop_t_per_ha);
    let mean = crops().sum::<f64>() / 5.0;
    assert!((11.0..=16.0).contains(&mean), "{mean}");
    for f in &all[2..] {
        assert!((1.5..=2.5).contains(&f.leaf_area_index), "{f:?}");
        // A fifth each winter: no wood grows older than five seasons.
        assert!(f.wood_age_max <= 5, "{f:?}");
    }
}

#[test]
fn a_row_made_as_just_planted_fills_by_the_second_leaf_and_crops_in_the_third() {
    let sketch = RowSketch {
        leaf: 1,
        unevenness: 0.0,
        ..RowSketch::usual(LengthStyle::Metric)
    };
    let all = new(&sketch.plan(&Words::strict()).unwrap(), 5);
    assert!(
        all[1].cordon_fill_share > 0.99,
        "filled by the end of leaf 2: {}",
        all[1].cordon_fill_share
    );
    assert!(all[0].work.contains_key("rub_out"), "{:?}", all[0].work);
    assert_eq!(all[1].crop_t_per_ha, 0.0, "flowers are rubbed off");
    // As the defaults together: 2 to 7 t/ha in leaf 3.
    assert!((2.0..=7.0).contains(&all[2].crop_t_per_ha), "{:?}", all[2]);
}

#[test]
fn work_changed_in_leaf_2_changes_leaf_5_and_nothing_before() {
    let plan = planted(4);
    let before = new(&plan, 10);
    let moment = Moment::dormant(2);
    let row = replay(&plan, 0, Moment { leaf: 1, ..end(1) }).unwrap().row;
    let tree = &row.trees[1];
    let upright = tree.shoots.iter().find(|s| s.kind() == Kind::Upright);
    let work = Work::Remove {
        tree: tree.id,
        shoot: upright.expect("it grew").id,
    };
    let changed = plan.with_work(0, moment, work).unwrap();
    let after = new(&changed, 10);
    assert_eq!(before[0], after[0]);
    for leaf in 3..=5 {
        assert_ne!(before[leaf - 1], after[leaf - 1], "leaf {leaf}");
    }
    let last = replay(&changed, 0, end(10)).unwrap();
    assert!(last.void.is_empty(), "{:?}", last.void);
}

#[test]
fn a_crop_lies_on_the_whole_rows_ground_where_trees_stand_and_where_none_do() {
    let plan = planted(4);
    let mut long = plan.clone();
    let mut found = (*plan.found).clone();
    found.to = found.from + Mm(2 * (found.to - found.from).0);
    long.found = std::sync::Arc::new(found);
    for (one, of_two) in new(&plan, 8).iter().zip(new(&long, 8)) {
        for (a, b) in [
            (one.crop_t_per_ha, of_two.crop_t_per_ha),
            (one.crop_kg_per_metre, of_two.crop_kg_per_metre),
            (one.leaf_area_index, of_two.leaf_area_index),
        ] {
            assert!((a - 2.0 * b).abs() < 1e-9, "leaf {}: {a} {b}", one.leaf);
        }
        assert_eq!(one.fruit_mass, of_two.fruit_mass);
    }
    // So many kilograms as all trees bear, on the wire times the distance between rows.
    let at = &new(&long, 8)[7];
    let length = (long.found.to - long.found.from).f() / 1000.0;
    let rows = plan.targets.get(Limit::RowSpacing) / 1000.0;
    let kg = at.crop_kg_per_metre * length;
    assert!((at.crop_t_per_ha - kg * 10.0 / (length * rows)).abs() < 1e-9);
}

#[test]
fn a_crop_that_is_told_too_high_says_why() {
    let doubts = |plan: &Plan, last| -> Vec<(u8, Doubt)> {
        let all = new(plan, last);
        let limits = plan.limits(0);
        let doubt = |f: &LeafFigures| Some((f.leaf, f.doubt(plan, 0, &limits)?));
        let doubted = all.iter().filter_map(doubt);
        doubted.collect()
    };
    let plan = planted(4);
    assert_eq!(doubts(&plan, 10), []);
    // Nobody lays or renews anything.
    let idle = plan.with_standing(0, false).unwrap();
    let told = doubts(&idle, 10);
    assert!(told.len() > 5, "{told:?}");
    assert!(told.iter().all(|(_, d)| *d == Doubt::Untrained), "{told:?}");
    // Trained, but on twice as much wire as its trees fill.
    let mut long = plan.clone();
    let mut found = (*plan.found).clone();
    found.to = found.to + Mm(6_000);
    long.found = std::sync::Arc::new(found);
    let told = doubts(&long, 6);
    assert_eq!(told, [3, 4, 5, 6].map(|leaf| (leaf, Doubt::Unfilled)));
}

#[test]
fn from_which_leaf_on_wood_is_kept_young_is_told() {
    let of = |ages: &[u8]| -> Option<u8> {
        let leaf = |(i, age): (usize, &u8)| LeafFigures {
            leaf: 4 + i as u8,
            wood_age_max: *age,
            ..LeafFigures::default()
        };
        let leaves: Vec<_> = ages.iter().enumerate().map(leaf).collect();
        kept_young_from(&leaves, 5.0)
    };
    assert_eq!(of(&[5, 4, 3]), Some(4));
    assert_eq!(of(&[7, 6, 5, 4]), Some(6));
    assert_eq!(of(&[4, 6, 5, 5]), Some(6));
    assert_eq!(of(&[4, 5, 6]), None);
    assert_eq!(of(&[]), None);
    // A row whose renewal is begun late comes down to the limit later.
    let late = planted(4).with_rule(0, Rule::RenewFrom, Some(8.0)).unwrap();
    let leaves = new(&late, 20);
    let from = kept_young_from(&leaves, 5.0).expect("it comes down");
    assert!((9..=14).contains(&from), "{from}");
    assert!(leaves[usize::from(from) - 2].wood_age_max > 5);
}

#[test]
fn a_tree_planted_in_leaf_5_changes_nothing_before() {
    let mut plan = planted(4);
    let mut found = (*plan.found).clone();
    found.to = Mm(9_500);
    plan.found = std::sync::Arc::new(found);
    let before = new(&plan, 8);
    let work = Work::Plant {
        tree: TreeId(9),
        foot_mm: Mm(7_500),
        planted: Planted {
            angle: Deg::new(45.0),
            toward: Toward::Right,
        },
        length_mm: Mm(2_000),
        diameter_dmm: 180,
    };
    let after = new(&plan.with_work(0, Moment::dormant(5), work).unwrap(), 8);
    assert_eq!(before[..4], after[..4]);
    assert!(after[7].uprights > before[7].uprights);
}

#[test]
fn a_leaf_before_the_found_one_gives_none() {
    let mut plan = planted(2);
    let mut found = (*plan.found).clone();
    found.leaf = 4;
    plan.found = std::sync::Arc::new(found);
    assert!(new(&plan, 3).is_empty());
    assert_eq!(new(&plan, 4).len(), 1);
    assert!(
        Forecast::default().of(&plan, 1, 10).is_err(),
        "no such scheme"
    );
}

#[test]
fn a_row_of_lost_trees_bears_nothing_and_has_numbers() {
    let mut plan = planted(2);
    let work = |tree| Work::RemoveTree { tree };
    for tree in [TreeId(1), TreeId(2)] {
        plan = plan.with_work(0, Moment::dormant(1), work(tree)).unwrap();
    }
    for f in new(&plan, 6) {
        assert_eq!((f.crop_t_per_ha, f.uprights), (0.0, 0));
        assert_eq!(
            (f.leaf_area_per_fruit, f.fruit_mass, f.upright_length),
            (0.0, 0.0, 0.0)
        );
    }
    let range = crop_range(&plan, 0, 6, &new(&plan, 6)).unwrap();
    assert!(range.iter().all(|r| *r == (0.0, 0.0)));
}

#[test]
fn the_range_of_a_crop_is_wide_and_the_same_each_time() {
    assert_eq!(DRAWS, 64);
    let plan = planted(3);
    let figures = new(&plan, 6);
    let range = crop_range(&plan, 0, 6, &figures).unwrap();
    assert_eq!(range, crop_range(&plan, 0, 6, &figures).unwrap());
    assert_eq!(range[0], (0.0, 0.0));
    for (f, (low, high)) in figures.iter().zip(&range).skip(2) {
        // Sixty values of which few are measured: no leaf is known to within a fifth.
        assert!(low * 1.2 < *high, "leaf {}: {low} to {high}", f.leaf);
    }
    // A longer row is worked out in part: like trees lie about where few do.
    let long = planted(60);
    let long = crop_range(&long, 0, 4, &new(&long, 4)).unwrap();
    assert!(
        (long[3].1 / range[3].1 - 1.0).abs() < 0.2,
        "{long:?} {range:?}"
    );
}

#[test]
fn what_a_renewal_share_costs_is_a_forecast_under_that_rule() {
    let plan = planted(6);
    let costs = share_costs(&plan, 0, 10).unwrap();
    assert!(costs.iter().map(|c| c.share).eq(SHARES));
    // A fifth is the default: the figures are those of the forecast.
    let leaves = new(&plan, 10);
    let usual = costs.iter().find(|c| c.share == Some(0.2)).unwrap();
    let mean =
        |of: &[LeafFigures]| of.iter().map(|f| f.crop_t_per_ha).sum::<f64>() / of.len() as f64;
    assert!((usual.crop_t_per_ha - mean(&leaves[2..])).abs() < 1e-9);
    assert!((usual.late_t_per_ha - mean(&leaves[7..])).abs() < 1e-9);
    let uprights: usize = leaves[7..].iter().map(|f| f.uprights).sum();
    assert_eq!(usual.uprights, (uprights as f64 / 3.0).round() as u32);
    let stubs: u32 = leaves.iter().filter_map(|f| f.work.get("stub")).sum();
    assert_eq!(usual.stubs, stubs);
    assert_eq!(usual.wood_age_max, 5);
    // The more is cut, the younger the wood and the more stubs there are to make.
    for two in costs.windows(2) {
        assert!(two[0].stubs < two[1].stubs, "{two:?}");
        assert!(two[0].wood_age_max >= two[1].wood_age_max, "{two:?}");
    }
    assert_eq!((costs[0].stubs, costs[0].wood_age_max), (0, 9));
    // A quarter costs crop against a fifth, as the prototype of the model has it too.
    assert!(costs[5].late_t_per_ha < usual.late_t_per_ha, "{costs:?}");

    // A scheme that never renews is told of shares all the same, and so is one without rules.
    let never = plan.with_rule(0, Rule::RenewFrom, Some(0.0)).unwrap();
    assert_eq!(share_costs(&never, 0, 10).unwrap(), costs);
    let bare = plan.with_standing(0, false).unwrap();
    assert!(share_costs(&bare, 0, 10).unwrap()[4].stubs > 0);
    // Of a long row some trees stand for all.
    let [few, many] =
        [24, 96].map(|trees| ShareCost::of(&planted(trees), 0, 10, Some(0.2)).unwrap());
    assert!((many.crop_t_per_ha / few.crop_t_per_ha - 1.0).abs() < 0.1);
    assert!((f64::from(many.stubs) / f64::from(few.stubs) / 4.0 - 1.0).abs() < 0.1);
    // Leaves before the found one give nothing, and numbers.
    let none = ShareCost::of(&plan, 0, 2, None).unwrap();
    assert_eq!(
        (none.crop_t_per_ha, none.stubs, none.wood_age_max),
        (0.0, 0, 0)
    );
    assert!(share_costs(&plan, 1, 10).is_err());
    assert!(ShareCost::of(&plan, 0, 10, Some(0.5)).is_err());
}

/// As many shoots as a tree may have, each on the one before it: what is worked out for each must not ask of all, or this would
/// take an hour.
#[test]
fn the_longest_chain_of_shoots_is_trained_and_told_of() {
    let mut row = wood::planted(1, 1500, 2000.0);
    row.leaf = 3;
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[0].pose = wood::laid(Toward::Right, 0.0);
    for i in 1..1_900 {
        let mut up = wood::shoot(i, wood::standing(0.0), wood::grown(2, 20.0));
        up.parent = Some(ShootId::found(i - 1));
        up.at = if i == 1 { 1_000.0 } else { 15.0 };
        tree.shoots.push(up);
    }
    let told = new(&Plan::new("a row", row).with_all_standing(), 5);
    assert!(
        told.iter()
            .all(|f| f.crop_t_per_ha.is_finite() && f.uprights > 0),
        "{told:?}"
    );
}

#[test]
fn a_limit_by_which_wood_counts_is_seen_by_what_is_kept() {
    let laid = |_| {
        let pose = Pose::Laid {
            toward: Toward::Right,
            rise: Deg::new(3.0),
        };
        vec![wood::shoot(0, pose, wood::grown(0, 1500.0))]
    };
    let row = Row {
        trees: wood::slanting(3, 1500, laid),
        ..(*planted(3).found).clone()
    };
    let mut plan = Plan::new("a row", row);
    let mut kept = Forecast::default();
    let before = kept.of(&plan, 0, 2).unwrap();
    let mut targets = (*plan.targets).clone();
    targets.set(Limit::BearingHeight, Some(100.0)).unwrap();
    plan.targets = std::sync::Arc::new(targets);
    let after = kept.of(&plan, 0, 2).unwrap();
    assert_eq!(after, new(&plan, 2));
    assert_ne!(before, after);
}

/// Of a row of many trees what is kept of the others is right too, wherever the edited one stands.
#[test]
fn what_is_kept_of_a_long_row_is_right() {
    let mut plan = planted(50).with_all_standing();
    let mut kept = Forecast::default();
    assert_eq!(kept.of(&plan, 0, 6).unwrap(), new(&plan, 6));
    for at in [0, 15, 16, 31, 49] {
        let moment = Moment::dormant(2);
        let tree = plan.found.trees[at].id;
        let before = kept.of(&plan, 0, 6).unwrap();
        plan = plan
            .with_work(0, moment, Work::RemoveTree { tree })
            .unwrap();
        let after = kept.of(&plan, 0, 6).unwrap();
        assert_eq!(after, new(&plan, 6));
        assert!(after[5].uprights < before[5].uprights, "{at}");
    }
}

proptest! {
    #![proptest_config(cases(24))]

    /// What is kept after edits is what a new one works out, and every figure is a number.
    #[test]
    fn kept_and_new_are_the_same(first in random_plan(), picks in prop::collection::vec(any::<u32>(), 1..6)) {
        let mut plan = first.begun();
        let last = plan.found.leaf.saturating_add(5);
        let mut kept = Forecast::default();
        kept.of(&plan, 0, last).unwrap();
        for pick in picks {
            let leaf = plan.found.leaf + (pick % 4) as u8;
            let moment = Moment::dormant(leaf);
            let row = replay(&plan, 0, moment).unwrap().row;
            let Some(tree) = row.trees.get(pick as usize % row.trees.len().max(1)) else { continue };
            let Some(shoot) = tree.shoots.get(pick as usize % tree.shoots.len().max(1)) else { continue };
            let work = match shoot.id == ShootId::found(0) {
                true => Work::RubOut { tree: tree.id, shoot: shoot.id },
                false => Work::Remove { tree: tree.id, shoot: shoot.id },
            };
            if let Ok(changed) = plan.with_work(0, moment, work) {
                plan = changed;
            }
            let (a, b) = (kept.of(&plan, 0, last).unwrap(), new(&plan, last));
            prop_assert_eq!(&a, &b);
            for f in a {
                for value in [f.cordon_fill_share, f.crop_t_per_ha, f.leaf_area_index, f.leaf_area_per_fruit, f.fruit_mass, f.upright_length] {
                    prop_assert!(value.is_finite() && value >= 0.0, "{:?}", f);
                }
                prop_assert!(f.cordon_fill_share <= 1.0 + 1e-9);
            }
        }
    }
}

#[test]
fn what_a_tip_takes_is_what_the_shoot_bears_less_in_the_harvest_after_the_coming_one() {
    let plan = planted(4);
    let moment = Moment::dormant(4);
    let row = |plan: &Plan| replay(plan, 0, moment).unwrap().row;
    let whole = row(&plan.without_work(0, moment, |_| true).unwrap());
    let on = &whole.trees[1];
    let grew = |s: &&Shoot| s.units.last().is_some_and(|u| u.leaf == 3);
    let mut uprights = on.shoots.iter().filter(|s| s.kind() == Kind::Upright);
    let shoot = uprights.find(grew).expect("it grew");
    let terms = plan.terms(&whole.trellis);
    let told = Tipping::of(shoot, &terms).unwrap();
    assert_eq!(told.harvest, 5);
    let flowers = |s: &Shoot, leaf| Canopy::of_shoot(s, leaf, &terms.assumptions).flowers;
    for percent in [5, 20, 50] {
        let tip = Work::Tip {
            tree: on.id,
            shoot: shoot.id,
            percent,
        };
        let only = plan.without_work(0, moment, |_| true).unwrap();
        let tipped = row(&only.with_work(0, moment, tip).unwrap());
        let tipped = tipped.trees[1].shoot(shoot.id).unwrap();
        let lacks = |leaf| 1.0 - flowers(tipped, leaf) / flowers(shoot, leaf);
        let share = told.crop_removed(f64::from(percent) / 100.0).unwrap();
        assert!((share - lacks(5)).abs() < 1e-9, "{percent}: {share}");
        assert!(share > 0.0 && lacks(4).abs() < 1e-9, "{percent}");
        // Nor does the cut that is there already change the curve.
        assert_eq!(Tipping::of(tipped, &terms).unwrap().harvest, 5);
        let again = Tipping::of(tipped, &terms).unwrap().crop_removed(0.2);
        assert!((again.unwrap() - told.crop_removed(0.2).unwrap()).abs() < 1e-9);
    }
    assert_eq!(told.crop_removed(0.0), Some(0.0));
}
