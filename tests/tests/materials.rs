//! What a row takes and what its wires bear, held to reference figures.

use cordonry::crew::season;
use cordonry::file::read_plan;
use cordonry::fruit::kg_per_metre;
use cordonry::materials::wire::{SETTING, Wire, sag, tension_by_deflection};
use cordonry::materials::{Ask, Delivered, needs, place, stocks};
use cordonry::plan::Plan;
use cordonry::row::{Covering, Limit, Targets, Toward};
use cordonry::units::Mm;
use cordonry_fixture::wall::{lost, row, stem};
use serde_json::Value;
use std::fs;
use std::path::Path;

fn cases(file: &str) -> Vec<Value> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("reference")
        .join(file);
    let file: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    file["cases"].as_array().unwrap().clone()
}

fn near(ours: f64, theirs: f64, off: f64, what: &str) {
    assert!((ours - theirs).abs() <= off, "{what}: {ours}, not {theirs}");
}

#[test]
fn a_loaded_wire_has_the_references_tension_and_sag() {
    let all = cases("wire/tension.json");
    assert!(all.len() >= 60, "{}", all.len());
    for case in &all {
        let n = |key: &str| case[key].as_f64().unwrap_or_else(|| panic!("{key}"));
        let wire = Wire::of(n("d_mm")).unwrap();
        let loaded = wire.loaded(n("t0_n"), n("span_m"), n("load_n_m"));
        let id = case["id"].as_str().unwrap();
        near(loaded.tension, n("t_n"), 1e-6, id);
        near(loaded.sag, n("sag_m"), 1e-9, id);
        let unmoved = sag(n("t0_n"), n("span_m"), n("load_n_m"));
        near(unmoved, n("sag_at_fixed_t0_m"), 1e-9, id);
        // The parabola beside the exact catenary: never more than a third of a per cent off.
        let at_post = case["catenary"]["t_post_n"].as_f64().unwrap();
        assert!((loaded.tension - at_post).abs() < 0.0035 * at_post, "{id}");
    }
    for case in cases("wire/temperature.json") {
        let n = |key: &str| case[key].as_f64().unwrap();
        let wire = Wire::of(n("d_mm")).unwrap();
        let setting = n("t0_ref_n") - wire.per_kelvin() * n("dt_k");
        near(setting, n("t0_n"), 1e-6, "set");
        let loaded = wire.loaded(setting, n("span_m"), n("load_n_m"));
        near(loaded.tension, n("t_n"), 1e-6, "tension");
        near(loaded.sag, n("sag_m"), 1e-9, "sag");
    }
}

#[test]
fn the_wires_constants_are_the_references_and_those_of_the_trade() {
    for case in cases("wire/constants.json") {
        let n = |key: &str| case[key].as_f64().unwrap();
        let wire = Wire::of(n("d_mm")).unwrap();
        for (ours, key) in [
            (wire.area(), "area_mm2"),
            (wire.stiffness(), "ea_n"),
            (wire.stretch(), "elongation_mm_per_kn_per_100m"),
            (wire.kg_per_metre(), "mass_kg_per_m"),
            (wire.kg_per_metre() * 9.81, "own_weight_n_per_m"),
            (wire.coil(25.0), "m_per_25kg_coil"),
            (wire.per_kelvin(), "temperature_n_per_k"),
        ] {
            near(ours, n(key), 1e-8 * n(key), key);
        }
    }
    let wire = Wire::default();
    assert_eq!(wire.stretch().round(), 102.0, "mm a kN a 100 m");
    // 25 kg = 648 m: a trade notice of 1980.
    assert!((648.0..=649.0).contains(&wire.coil(25.0)));
    // 10 lbf over 40 in, half an inch aside: 200 lbf (a tool's leaflet).
    assert_eq!(tension_by_deflection(10.0, 40.0, 0.5), 200.0);
    // 20 t/ha in rows 3 m apart.
    near(kg_per_metre(20.0, 3000.0), 6.0, 1e-12, "kg on a metre");
    let anchor = wire.loaded(1000.0, 6.0, 20.0);
    near(anchor.tension, 1330.0, 5.0, "N");
    near(anchor.sag, 0.068, 0.0005, "m");
    assert_eq!(Wire::of(0.5), None);
    // Without load nothing hangs down, and a slack wire still bears.
    assert_eq!(wire.loaded(SETTING, 6.0, 0.0).tension, SETTING);
    assert!(wire.loaded(0.0, 6.0, 20.0).tension > 500.0);
}

#[test]
fn delivered_trees_are_laid_out_at_the_least_cost() {
    let all = cases("assignment/instances.json");
    assert_eq!(all.len(), 6);
    for case in &all {
        let ints = |key: &str| -> Vec<i64> {
            let list = case[key].as_array().unwrap();
            list.iter().map(|v| v.as_i64().unwrap()).collect()
        };
        let bools = |key: &str| -> Vec<bool> {
            let list = case[key].as_array().unwrap();
            list.iter().map(|v| v.as_bool().unwrap()).collect()
        };
        let needs: Vec<(i64, bool)> = ints("place_need_mm")
            .into_iter()
            .zip(bools("place_needs_unheaded"))
            .collect();
        let trees: Vec<Delivered> = ints("tree_length_mm")
            .into_iter()
            .zip(bools("tree_headed"))
            .map(|(length, headed)| Delivered { length, headed })
            .collect();
        let (placed, total) = place(&needs, &trees);
        let id = case["id"].as_str().unwrap();
        assert_eq!(total, case["optimal_total"].as_i64().unwrap(), "{id}");
        // As many pairs as can be, no tree twice, and the total is that of the pairs.
        let mut used: Vec<usize> = placed.iter().filter_map(|p| p.tree).collect();
        assert_eq!(used.len(), needs.len().min(trees.len()), "{id}");
        used.sort_unstable();
        used.dedup();
        assert_eq!(used.len(), needs.len().min(trees.len()), "{id}");
        let sum: i64 = placed
            .iter()
            .map(|p| p.short + if p.headed { 150 } else { 0 })
            .sum();
        assert_eq!(sum, total, "{id}");
    }
    assert_eq!(place(&[], &[]), (vec![], 0));
    assert!(place(&[(900, true)], &[]).0[0].tree.is_none());
}

/// Ten places 1.5 m apart at 45°, the cordon at 0.50 m; the fifth tree is lost.
fn ten() -> Plan {
    let trees = (0..10).map(|i| match i {
        4 => lost(5, 6000),
        _ => stem(i as u32 + 1, i * 1500, 45.0, Toward::Right, 2000.0),
    });
    let mut row = row(500, 15_500, trees.collect());
    let planted = row.trees[0].planted;
    std::sync::Arc::make_mut(&mut row.trees[4]).planted = planted;
    row.trellis.posts = [-100, 6900, 13_900, 15_600].map(Mm).to_vec();
    row.trellis.wires.truncate(2);
    row.trellis.wires[0].covering = Covering::Plastic;
    Plan::new("Ten", row)
}

#[test]
fn stock_is_as_long_as_its_place_asks() {
    let mut plan = ten();
    let of = |plan: &Plan| stocks(&plan.found, &plan.targets);
    // Facts: S 1.5 m, 45°, h 0.5 m: bearing from the wire 2.207 m, from the foot 1.707 m.
    let lengths: Vec<f64> = of(&plan).iter().map(|s| s.length.round()).collect();
    assert_eq!(lengths[..9], [2207.0; 9]);
    // The last ends with the row: 15.5 m − 13.5 m along, bearing as if a tree stood there.
    assert_eq!(lengths[9], 2207.0);
    let mut targets = Targets::default();
    targets.set(Limit::BearingHeight, Some(0.0)).unwrap();
    plan.targets = targets.into();
    let all = of(&plan);
    assert_eq!(all[0].length.round(), 1707.0);
    assert!(
        all.iter()
            .all(|s| s.unheaded() && s.toward == Toward::Right)
    );
    let at_end: Vec<bool> = all.iter().map(|s| s.at_end).collect();
    assert_eq!(
        at_end,
        [
            false, false, false, false, false, false, false, false, false, true
        ]
    );
    // The first foot stands 0.10 m from a post.
    assert_eq!(all[0].post, Some(100.0));
}

#[test]
fn a_row_takes_its_trees_wires_posts_and_ties() {
    let plan = ten();
    let ask = Ask::default();
    let needs = needs(&plan, 0, &ask);
    // Ten places and 5 % to spare.
    assert_eq!(
        (needs.stocks.len(), needs.spares, needs.trees()),
        (10, 1, 11)
    );
    // Wires at 0.5 and 1.0 m are there, those at 1.5, 2.0 and 2.5 m are to come, of the top one's kind.
    let wires: Vec<(i32, Covering, bool)> = needs
        .wires
        .iter()
        .map(|w| (w.height.0, w.covering, w.is_new))
        .collect();
    let bare = Covering::Bare;
    let expected = [
        (500, Covering::Plastic, false),
        (1000, bare, false),
        (1500, bare, true),
        (2000, bare, true),
        (2500, bare, true),
    ];
    assert_eq!(wires, expected);
    // 15.7 m from end post to end post, a metre at each end.
    assert_eq!(needs.wire(bare, false), 4.0 * 17_700.0);
    assert_eq!(needs.wire(bare, true), 3.0 * 17_700.0);
    assert_eq!(needs.wire(Covering::Plastic, false), 17_700.0);
    assert_eq!(
        (needs.posts, needs.posts_assumed, needs.span),
        (4, false, 7000.0)
    );
    // All of the crop hangs somewhere; the top and bottom wires have half a bay of the wall.
    let crop: f64 = needs.wires.iter().map(|w| w.crop_per_metre).sum();
    near(crop, 6.0, 1e-9, "kg on a metre");
    near(needs.wires[0].crop_per_metre, 0.75, 1e-9, "cordon");
    near(needs.wires[1].crop_per_metre, 1.5, 1e-9, "second");
    let own = Wire::default().kg_per_metre();
    let by_hand = Wire::default().loaded(1000.0, 7.0, (6.0 + own) * 9.81);
    assert_eq!(needs.worst, by_hand);
    // 1.5 m laid a tree: five ties and seven uprights at four wires; the cordon is covered.
    let laid = needs.stocks[0].laid;
    near(laid, 1500.0, 1.0, "laid");
    assert_eq!((needs.ties, needs.sleeves), (10 * (5 + 7 * 4), 10 * 7 * 4));

    let mut bare = plan.clone();
    std::sync::Arc::make_mut(&mut bare.found)
        .trellis
        .posts
        .clear();
    let needs = cordonry::materials::needs(&bare, 0, &ask);
    // 15 m of row: three spans of 5 m.
    assert_eq!(
        (needs.posts, needs.posts_assumed, needs.span),
        (4, true, 5000.0)
    );
}

#[test]
fn every_example_has_its_needs() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples");
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|e| e != "json") {
            continue;
        }
        let plan = read_plan(&fs::read(&path).unwrap()).unwrap();
        let needs = needs(&plan, 0, &Ask::default());
        let name = path.display();
        assert_eq!(needs.stocks.len(), plan.found.trees.len(), "{name}");
        for stock in &needs.stocks {
            assert!((300.0..4000.0).contains(&stock.length), "{name}: {stock:?}");
            assert!(stock.laid > 0.0, "{name}: {stock:?}");
        }
        // Two leaders make the opposed cordons of that example, and of no other.
        let forked = needs.stocks.iter().filter(|s| s.forks).count();
        assert_eq!(
            forked > 0,
            name.to_string().ends_with("two-cordons.json"),
            "{name}"
        );
        assert!(
            needs
                .wires
                .iter()
                .all(|w| w.loaded.tension >= SETTING && w.loaded.sag > 0.0)
        );
        assert!(season(&plan, 0, plan.found.leaf).is_ok());
    }
}
