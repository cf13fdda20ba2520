//! The cases of advice, solved as the case runner solves them: the value is the one expected, and the choice that is given is allowed
//! and costs as much, by a reckoning of its own from the objective as the file words it.

use cordonry_tests::case::{deviation, expected, solve};
use serde_json::Value;
use std::path::Path;

/// The cases whose names begin so, without their answers: what is worked out can't have read them.
fn cases(beginning: &str) -> Vec<(String, Value, Value)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/advice");
    let names = std::fs::read_dir(&folder)
        .expect("the folder")
        .map(|e| e.expect("an entry").file_name());
    let mut names: Vec<String> = names.map(|n| n.to_string_lossy().into_owned()).collect();
    names.retain(|n| n.starts_with(beginning) && n.ends_with(".json"));
    names.sort();
    let read = |name: String| {
        let text = std::fs::read_to_string(folder.join(&name)).expect("a case");
        let whole: Value = serde_json::from_str(&text).expect("JSON");
        let mut asked = whole.clone();
        asked.as_object_mut().expect("an object").remove("results");
        let ours = solve(&asked).expect("it is solved");
        let apart = deviation(&ours["results"], expected(&whole));
        assert_eq!(apart.keys().collect::<Vec<_>>(), ["value"], "{name}");
        assert!(apart["value"] < 1e-6, "{name}: {apart:?}");
        (name, asked, ours["results"].clone())
    };
    names.into_iter().map(read).collect()
}

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().expect("a number")
}

#[test]
fn leaders_go_the_way_that_costs_least() {
    let cases = cases("leaders");
    assert_eq!(cases.len(), 2);
    for (name, case, ours) in cases {
        let p = &case["parameters"];
        let between = |d: f64| {
            if d > 0.0 {
                number(p, "weight_gap_per_m") * d
            } else {
                number(p, "weight_overlap_per_m") * -d
            }
        };
        let mut sum = 0.0;
        let mut reached = number(&case, "row_start_m");
        let (trees, choice) = (
            case["trees"].as_array().unwrap(),
            ours["choice"].as_array().unwrap(),
        );
        assert_eq!(trees.len(), choice.len());
        for (tree, chosen) in trees.iter().zip(choice) {
            let (left, extended) = (
                chosen["side_mask_left"].as_u64().unwrap(),
                chosen["extend_mask"].as_u64().unwrap(),
            );
            let lengths = tree["leader_lengths_m"].as_array().unwrap();
            assert!(left >> lengths.len() == 0 && extended >> lengths.len() == 0);
            let mut sides = [Vec::new(), Vec::new()];
            for (i, length) in lengths.iter().enumerate() {
                let mut length = length.as_f64().unwrap();
                if extended >> i & 1 == 1 {
                    length += number(p, "extend_m");
                    sum += number(p, "cost_extend");
                }
                sides[usize::from(left >> i & 1 == 1)].push(length);
            }
            for side in &sides {
                if let [a, b] = side[..] {
                    sum += number(p, "weight_overlap_per_m") * a.min(b);
                }
            }
            let reach = |side: &[f64]| side.iter().copied().fold(0.0, f64::max);
            let x = number(tree, "x_m");
            sum += between(x - reach(&sides[1]) - reached);
            reached = x + reach(&sides[0]);
        }
        sum += between(number(&case, "row_end_m") - reached);
        assert!(
            (sum - number(&ours, "value")).abs() < 1e-9,
            "{name}: {sum}, not {}",
            ours["value"]
        );
    }
}

#[test]
fn uprights_are_kept_that_cost_least() {
    let cases = cases("uprights");
    assert_eq!(cases.len(), 3);
    for (name, case, ours) in cases {
        let p = &case["parameters"];
        let all = case["candidates"].as_array().unwrap();
        let kept: Vec<usize> = ours["choice"]
            .as_array()
            .unwrap()
            .iter()
            .map(|k| k.as_u64().unwrap() as usize)
            .collect();
        assert!(kept.windows(2).all(|two| two[0] < two[1]));
        let x = |i: usize| number(&all[i], "x_m");
        let mut sum = 0.0;
        for (i, candidate) in all.iter().enumerate() {
            let stands = candidate["existing_diameter_mm"].as_f64();
            sum += match (stands, kept.contains(&i)) {
                (None, true) => number(p, "cost_add"),
                (Some(thick), false) => 0.3 + 0.02 * thick,
                _ => 0.0,
            };
        }
        let hair = 1e-9;
        let longest = number(p, "long_gap_limit_m") + hair;
        for two in kept.windows(2) {
            let d = x(two[1]) - x(two[0]);
            assert!(d >= number(p, "min_spacing_m") - hair, "{name}: {d}");
            assert!(d <= longest, "{name}: {d}");
            let target = number(p, "target_spacing_m");
            sum += number(p, "weight_spacing") * ((d - target) / target).powi(2);
            if d > number(p, "max_spacing_m") + hair {
                sum += number(p, "cost_long_gap");
            }
        }
        let end = number(&case, "cordon_length_m");
        for bare in [x(kept[0]), end - x(*kept.last().unwrap())] {
            assert!(bare <= longest, "{name}: {bare}");
            if bare > number(p, "end_max_m") + hair {
                sum += number(p, "cost_long_gap");
            }
        }
        assert!(
            (sum - number(&ours, "value")).abs() < 1e-9,
            "{name}: {sum}, not {}",
            ours["value"]
        );
    }
}

#[test]
fn what_cant_be_solved_says_why() {
    let solved = |text: &str| {
        let case: Value = serde_json::from_str(text).expect("JSON");
        solve(&case).expect_err("it has no answer")
    };
    let row = |candidates: &str, length: f64| {
        format!(
            r#"{{"schema": "advice-uprights-case/1", "cordon_length_m": {length}, "parameters": {{"min_spacing_m": 0.12,
            "max_spacing_m": 0.3, "target_spacing_m": 0.2, "weight_spacing": 1, "cost_add": 0.15, "cost_long_gap": 4,
            "long_gap_limit_m": 0.9, "end_max_m": 0.2}}, "candidates": [{candidates}]}}"#
        )
    };
    let two = r#"{"x_m": 0.5, "existing_diameter_mm": 9}, {"x_m": 1.5, "existing_diameter_mm": 9}"#;
    assert_eq!(
        solved(&row(two, 2.0)),
        "refusal-uprights-bare, from: 0.5 mm, to: 1.5 mm"
    );
    assert_eq!(
        solved(&row("", 2.0)),
        "refusal-uprights-bare, from: 0 mm, to: 2 mm"
    );
    let back = r#"{"x_m": 1.5}, {"x_m": 0.5}"#;
    assert_eq!(
        solved(&row(back, 2.0)),
        "refusal-uprights-order, from: 1.5 mm, to: 0.5 mm"
    );
    let leaders =
        r#"{"schema": "advice-leaders-case/1", "parameters": {}, "trees": [{"x_m": 1.0}]}"#;
    assert_eq!(
        solved(leaders),
        "\"weight_gap_per_m\" is missing or no number"
    );
}
