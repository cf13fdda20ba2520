//! Counted buds: what they tell of the coming crop, and what they leave alone.

use cordonry::advise::tips;
use cordonry::forecast::{CropDraws, DRAWS, Forecast, counted_crop};
use cordonry::plan::{BudCount, Counted, Moment, Plan, SpurCount, replay};
use cordonry::row::TreeId;
use cordonry_fixture::seasons::Usual;

fn spur(buds: u8, dead: u8, flowers: Option<u8>) -> SpurCount {
    SpurCount {
        buds,
        flowers,
        dead,
    }
}

fn counted(plan: &Plan, leaf: u8, trees: &[(u32, Vec<SpurCount>)]) -> Plan {
    let one = |plan: Plan, (tree, spurs): &(u32, Vec<SpurCount>)| {
        let count = BudCount {
            leaf,
            tree: TreeId(*tree),
            spurs: spurs.clone(),
        };
        plan.with_count(&count).unwrap()
    };
    trees.iter().fold(plan.clone(), one)
}

/// A row as the model has it in its fourth leaf and later: with spurs of several ages.
fn row() -> Plan {
    let grown = Usual::default().plan(5).with_all_standing();
    let at = replay(&grown, 0, Moment::dormant(6)).unwrap();
    let row = at.row.into_row();
    assert_eq!(row.leaf, 6);
    Plan::new("a bearing row", row).with_all_standing()
}

fn crops(plan: &Plan) -> Vec<f64> {
    let leaves = Forecast::default().of(plan, 0, plan.found.leaf + 3);
    leaves.unwrap().iter().map(|l| l.crop_t_per_ha).collect()
}

#[test]
fn a_count_of_what_the_model_has_changes_nothing_and_half_of_it_about_halves() {
    let plan = row();
    let leaf = plan.found.leaf;
    assert_eq!(plan.counted(0, leaf), Ok(None));
    let bare = counted(&plan, leaf, &[(1, vec![spur(4, 0, None); 4])]);
    let (buds, flowers) = bare.counted(0, leaf).unwrap().unwrap().model;
    assert!(
        (1.0..3.0).contains(&buds),
        "first crops and old wood bear less: {buds}"
    );
    assert_eq!(flowers, 3.0);
    let of = |living: f64| {
        let c = bare.counted(0, leaf).unwrap().unwrap();
        c.factor * living / 4.0
    };
    assert!((of(buds) - 1.0).abs() < 1e-9);

    let whole = crops(&plan);
    let dead = counted(&plan, leaf, &[(1, vec![spur(4, 4, Some(2)); 4])]);
    let told = dead.counted(0, leaf).unwrap().unwrap();
    assert_eq!(
        (told.factor, told.dead, told.flowers),
        (0.0, 1.0, Some(2.0))
    );
    let frost = crops(&dead);
    assert!(frost[0] < 0.6 * whole[0], "{frost:?} {whole:?}");
    // Later leaves are the model's.
    assert_eq!(frost[1..], whole[1..]);

    let by_two = counted(&plan, leaf, &[(1, vec![spur(2, 0, None); 4])]);
    let by_one = counted(&plan, leaf, &[(1, vec![spur(2, 1, None); 4])]);
    let factor = |p: &Plan| p.counted(0, leaf).unwrap().unwrap().factor;
    assert!((factor(&by_two) - 2.0 * factor(&by_one)).abs() < 1e-9);
    assert!(crops(&by_two)[0] > crops(&by_one)[0]);
    assert_eq!(by_two.without_counts(leaf), plan);
}

#[test]
fn flowers_count_where_buds_were_opened_and_what_is_too_much_is_held() {
    let plan = row();
    let leaf = plan.found.leaf;
    let of = |spurs: Vec<SpurCount>| {
        let plan = counted(&plan, leaf, &[(1, spurs)]);
        plan.counted(0, leaf).unwrap().unwrap()
    };
    let plain = of(vec![spur(2, 0, None); 4]);
    let some = of(vec![
        spur(2, 0, None),
        spur(2, 0, Some(1)),
        spur(2, 0, Some(2)),
        spur(2, 0, None),
    ]);
    assert_eq!((plain.flowers, some.flowers), (None, Some(1.5)));
    assert!((some.factor - plain.factor / 2.0).abs() < 1e-9);
    assert!(!plain.held);
    let much = of(vec![spur(60, 0, Some(20)); 4]);
    assert_eq!((much.factor, much.held), (Counted::FACTOR.1, true));
    assert_eq!(of(vec![spur(3, 0, None)]).range, None);
}

#[test]
fn more_trees_tell_more_narrowly() {
    let plan = row();
    let leaf = plan.found.leaf;
    let two = |n: u32| (n, vec![spur(n as u8 % 2 + 1, 0, None); 4]);
    let width = |trees: &[u32]| {
        let all: Vec<_> = trees.iter().map(|n| two(*n)).collect();
        let c = counted(&plan, leaf, &all).counted(0, leaf);
        let c = c.unwrap().unwrap();
        let (low, high) = c.range.unwrap();
        assert!(low <= c.factor && c.factor <= high);
        assert_eq!((c.trees, c.spurs), (trees.len(), 4 * trees.len()));
        (high - low) / c.factor
    };
    assert!(width(&[1, 2, 3, 4, 5]) < 0.7 * width(&[1, 2]));
    // Trees that come out alike by chance are no certainty.
    let mixed = |n| (n, vec![spur(3, 0, None), spur(1, 0, None)]);
    let c = counted(&plan, leaf, &[mixed(1), mixed(2), mixed(3)]).counted(0, leaf);
    let (low, high) = c.unwrap().unwrap().range.unwrap();
    assert!(high - low > 0.1, "{low} to {high}");
    // By hand: 2 trees of 2 and 1 living buds, 3.08 times 0.5 about 1.5.
    let c = counted(&plan, leaf, &[two(1), two(2)]).counted(0, leaf);
    let c = c.unwrap().unwrap();
    let high = 1.0 + 3.08 * 0.5 / 1.5;
    assert!((c.range.unwrap().1 - (c.factor * high).min(Counted::FACTOR.1)).abs() < 1e-9);
}

#[test]
fn the_coming_crop_is_told_beside_the_models_and_as_the_forecast_has_it() {
    let plan = row();
    let leaf = plan.found.leaf;
    assert_eq!(counted_crop(&plan, 0, leaf), Ok(None));
    let now = counted(
        &plan,
        leaf,
        &[
            (1, vec![spur(3, 1, Some(3)), spur(2, 1, None)]),
            (3, vec![spur(2, 2, Some(2)), spur(2, 0, None)]),
        ],
    );
    let told = counted_crop(&now, 0, leaf).unwrap().unwrap();
    assert!((told.model - crops(&plan)[0]).abs() < 1e-9);
    assert!((told.crop - crops(&now)[0]).abs() < 1e-9);
    let (low, high) = told.range.unwrap();
    assert!(low < told.crop && told.crop < high, "{told:?}");
    assert!(told.said().iter().all(|s| s.key.starts_with("counted-")));
    // The whole range lies around it too, and the same each time.
    let range = |p: &Plan| {
        let figures = Forecast::default().of(p, 0, leaf).unwrap();
        let mut draws = CropDraws::new(p, 0, leaf).unwrap();
        draws.go_on(DRAWS).unwrap();
        draws.range(&figures)[0]
    };
    let (low, high) = range(&now);
    assert!(low < told.crop && told.crop < high);
    assert_eq!(range(&now), (low, high));
}

#[test]
fn tips_say_which_harvest_a_count_is_of() {
    let plan = row();
    let leaf = plan.found.leaf;
    let shares = |p: &Plan| tips(p, 0, leaf).unwrap();
    let none = shares(&plan);
    assert_eq!(none.counted.said(), None);
    let coming = shares(&counted(&plan, leaf, &[(1, vec![spur(9, 0, None); 4])]));
    assert_eq!(coming.trees, none.trees);
    assert_eq!(coming.counted.said().unwrap().key, "counted-no-tips");
    let after = shares(&counted(&plan, leaf + 1, &[(1, vec![spur(5, 5, None); 4])]));
    assert_eq!(after.counted.said().unwrap().key, "counted-tips");
    assert_ne!(after.trees, none.trees);
}

#[test]
fn a_later_leafs_count_is_of_the_wood_that_stands_then() {
    let plan = row();
    let leaf = plan.found.leaf + 2;
    let now = counted(&plan, leaf, &[(2, vec![spur(1, 0, None); 4])]);
    let told = now.counted(0, leaf).unwrap().unwrap();
    let (was, is) = (crops(&plan), crops(&now));
    assert_eq!(was[..2], is[..2]);
    assert_ne!(was[2], is[2]);
    assert_eq!(was[3], is[3]);
    let crop = counted_crop(&now, 0, leaf).unwrap().unwrap();
    assert!((crop.crop - is[2]).abs() < 1e-9 && (crop.model - was[2]).abs() < 1e-9);
    assert_eq!(told, crop.counted);
}

#[test]
fn what_was_worked_out_before_a_count_does_not_stay() {
    let plan = row();
    let leaf = plan.found.leaf;
    let mut kept = Forecast::default();
    let last = leaf + 2;
    for plan in [
        plan.clone(),
        counted(&plan, leaf, &[(1, vec![spur(1, 0, None); 4])]),
        counted(&plan, leaf, &[(1, vec![spur(1, 1, None); 4])]),
        plan.clone(),
    ] {
        let new = Forecast::default().of(&plan, 0, last).unwrap();
        assert_eq!(kept.of(&plan, 0, last).unwrap(), new);
    }
}

#[test]
fn counts_on_trees_that_are_gone_and_of_leaves_past_tell_nothing() {
    let plan = row();
    let leaf = plan.found.leaf;
    let mut now = counted(&plan, leaf, &[(1, vec![spur(1, 0, None); 4])]);
    now.counts[0].leaf = leaf - 1;
    assert_eq!(now.counted(0, leaf - 1), Ok(None));
    assert_eq!(crops(&now), crops(&plan));
    let mut gone = counted(&plan, leaf, &[(1, vec![spur(1, 0, None); 4])]);
    let found = std::sync::Arc::make_mut(&mut gone.found);
    std::sync::Arc::make_mut(&mut found.trees[0]).shoots.clear();
    assert_eq!(gone.counted(0, leaf), Ok(None));
}

#[test]
fn trees_to_count_lie_evenly_along_the_row() {
    let plan = row();
    let all = plan.found.trees.len();
    let five: Vec<u32> = plan.trees_to_count(5).iter().map(|t| t.0).collect();
    assert_eq!(five.len(), 5.min(all));
    assert!(five.windows(2).all(|w| w[0] < w[1]));
    assert_eq!(plan.trees_to_count(500).len(), all);
}
