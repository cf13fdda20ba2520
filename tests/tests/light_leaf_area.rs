//! The leaf that the light lays: the growth model's, beside the plain values by the metre that it took the place of.

use cordonry::forecast::Forecast;
use cordonry::light::filled::BEFORE_GROWTH;
use cordonry::light::{Change, Foliage};
use cordonry::model::Parameter;
use cordonry::plan::{Moment, Phase, Plan, Replayed, Replayer, Window};
use cordonry::row::{Kind, Targets, Tree};
use cordonry_fixture::seasons::Usual;
use cordonry_tests::textbook::{HEIGHTS, found, in_winter, worked};
use std::sync::Arc;

/// Leaf of a tree by plain values, m², all from memory: 0.20 on a metre of this season's wood, of laid wood and of laterals,
/// 0.50 on a metre of one-year wood, 0.65 on a metre of older wood.
fn by_the_metre(tree: &Tree, leaf: u8) -> f64 {
    let mut area = 0.0;
    for shoot in &tree.shoots {
        if shoot.kind() == Kind::Stem {
            continue;
        }
        area += 0.20 * shoot.laterals.total / 1000.0;
        for unit in &shoot.units {
            let per_metre = match (shoot.kind(), leaf.saturating_sub(unit.leaf)) {
                (Kind::Leader, _) | (_, 0) => 0.20,
                (_, 1) => 0.50,
                _ => 0.65,
            };
            area += per_metre * unit.kept / 1000.0;
        }
    }
    area
}

fn leaves_of(at: &Replayed, targets: &Targets) -> Foliage {
    Foliage::new(&at.row, &at.terms, targets, 1.0)
}

/// Index that the light lays, and by plain values.
fn both(at: &Replayed, targets: &Targets) -> (f64, f64) {
    let ground = at.terms.stand.ground() * at.row.trees.len() as f64;
    let plain = at.row.trees.iter().map(|t| by_the_metre(t, at.row.leaf));
    (
        leaves_of(at, targets).leaf_area_index(),
        plain.sum::<f64>() / ground,
    )
}

/// A row after a season's growth, before the after-harvest work, when its leaf area is read.
fn grown(plan: &Plan, leaf: u8, kept: &mut Replayer) -> Replayed {
    let harvest = Moment {
        leaf,
        window: Window::AfterHarvest,
    };
    kept.at(plan, 0, harvest, Phase::Before).expect("a scheme")
}

/// Rows worked in the usual way to leaf 10: never renewed, and a fifth from leaf 4 on. All are clean, tipped and of medium
/// vigour.
fn rows() -> [Plan; 2] {
    let never = Usual {
        renew_from: u8::MAX,
        ..Usual::default()
    };
    [never.plan(10), Usual::default().plan(10)]
}

#[test]
fn to_leaf_3_the_index_is_that_of_plain_values_by_the_metre() {
    let mut table = Vec::new();
    for plan in rows() {
        let mut kept = Replayer::default();
        for leaf in 1..=10 {
            let (laid, plain) = both(&grown(&plan, leaf, &mut kept), &plan.targets);
            if leaf <= 3 {
                assert!((laid - plain).abs() <= 0.15, "leaf {leaf}: {laid}, {plain}");
            }
            table.push(format!("{laid:.2} {plain:.2}"));
        }
    }
    for height in HEIGHTS {
        let plan = worked(&found(height));
        let (laid, plain) = both(&in_winter(&plan, Phase::After), &plan.targets);
        table.push(format!("{laid:.2} {plain:.2}"));
    }
    // Where they part: the model lets old wood go thin, of which plain values know nothing. Each line a row leaf by leaf, the
    // last one walls of the textbook after their winter's work. These stand in DEVELOPERS.md.
    assert_eq!(
        table.join(", "),
        "0.35 0.34, 1.11 1.02, 1.85 1.80, 2.41 2.44, 2.40 2.63, 2.12 2.65, 1.78 2.67, 1.54 2.68, 1.44 2.69, 1.43 2.69, \
         0.35 0.34, 1.11 1.02, 1.85 1.80, 2.16 2.18, 1.96 2.00, 2.13 2.16, 1.96 1.99, 1.97 1.87, 2.21 2.15, 2.05 2.04, \
         1.21 1.35, 1.39 1.52"
    );
}

#[test]
fn light_and_forecast_have_one_leaf_area() {
    for plan in rows() {
        let figures = Forecast::default().of(&plan, 0, 10).expect("a scheme");
        let mut kept = Replayer::default();
        for f in figures {
            let laid = leaves_of(&grown(&plan, f.leaf, &mut kept), &plan.targets);
            let told = f.leaf_area_index;
            assert!(told > 0.3 && (laid.leaf_area_index() - told).abs() < 1e-12);
            // The wall has all of it but what hangs on the trunks below the cordon.
            let on_the_wall = laid.wall().leaf_area_index();
            assert!(
                (told - 0.05..told - 0.01).contains(&on_the_wall),
                "leaf {}: {told}, {on_the_wall}",
                f.leaf
            );
        }
    }
}

#[test]
fn what_a_filled_wall_has_before_it_grows_is_what_renewed_rows_have() {
    let [_, plan] = rows();
    let mut kept = Replayer::default();
    for leaf in 4..=10 {
        let season = leaves_of(&grown(&plan, leaf, &mut kept), &plan.targets);
        let winter = kept
            .at(&plan, 0, Moment::dormant(leaf), Phase::After)
            .expect("a scheme");
        let before = leaves_of(&winter, &plan.targets);
        assert!(season.has_grown() && !before.has_grown());
        let share = before.leaf_area_index() / season.leaf_area_index();
        assert!((share - BEFORE_GROWTH).abs() < 0.03, "leaf {leaf}: {share}");
    }
}

#[test]
fn what_is_assumed_of_leaf_is_so_in_the_light() {
    // Every assumption about leaf is one of the light, too, and a row that follows takes it up.
    let [plan, _] = rows();
    let at = grown(&plan, 3, &mut Replayer::default());
    let mut follows = leaves_of(&at, &plan.targets);
    let usual = follows.leaf_area_index();
    for (parameter, factor) in [
        (Parameter::LeafSpur, 0.8),
        (Parameter::LeafShoot, 1.2),
        (Parameter::LeafLaid, 1.5),
        (Parameter::LeafLateral, 0.6),
        (Parameter::LaiMost, 0.5),
    ] {
        let mut terms = at.terms.clone();
        let value = terms.assumptions[parameter] * factor;
        Arc::make_mut(&mut terms.assumptions).set(parameter, value);
        assert_eq!(follows.follow(&at.row, &terms, &plan.targets), Change::All);
        let anew = Foliage::new(&at.row, &terms, &plan.targets, 1.0);
        assert_eq!(follows.wall(), anew.wall());
        assert_ne!(anew.leaf_area_index(), usual, "{parameter:?}");
        follows.follow(&at.row, &at.terms, &plan.targets);
        assert_eq!(follows.leaf_area_index(), usual);
    }
}

#[test]
fn a_tip_that_is_cut_takes_its_own_leaves_alone() {
    let [plan, _] = rows();
    let winter = Replayer::default().at(&plan, 0, Moment::dormant(2), Phase::Before);
    let at = winter.expect("a scheme");
    let whole = leaves_of(&at, &plan.targets);
    let mut row = at.row.row().clone();
    let tree = Arc::make_mut(&mut row.trees[4]);
    let upright = tree.shoots.iter_mut().find(|s| s.kind() == Kind::Upright);
    let unit = upright.expect("an upright").units.last_mut().expect("wood");
    unit.kept -= 0.2 * unit.grown;
    let cut_at = 0.5 + unit.kept / 1000.0 - 0.1;
    let cut = Foliage::new(&row, &at.terms, &plan.targets, 1.0);
    let all = 0..whole.columns();
    let (before, after) = (whole.density(all.clone()), cut.density(all));
    let n = whole.columns();
    let changed: Vec<usize> = (0..after.len())
        .filter(|i| (before[*i] - after[*i]).abs() > 1e-5)
        .collect();
    assert!(!changed.is_empty());
    // No lower than the cut, but for the height that a piece of wood spreads its leaves over; and everywhere less.
    let wall = whole.wall();
    let lowest = changed.iter().map(|i| i / n).min().expect("some");
    assert!(wall.z()[lowest + 1] > cut_at, "{}", wall.z()[lowest]);
    assert!(changed.iter().all(|i| after[*i] < before[*i]));
}
