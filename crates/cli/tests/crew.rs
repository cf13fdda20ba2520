//! Work that is handed out by the program as it is called.

use serde_json::Value;
use std::process::Command;

fn run(args: &[&str]) -> (i32, String, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_cordonry"))
        .args(args)
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    let status = out.status.code().unwrap();
    (status, text(out.stdout), text(out.stderr))
}

const EXAMPLE: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../../examples/third-leaf.json"
);

fn passes(args: &[&str]) -> (Value, Vec<Value>) {
    let all = [&["crew", EXAMPLE, "--json"], args].concat();
    let (status, out, err) = run(&all);
    assert_eq!(status, 0, "{err}");
    let document: Value = serde_json::from_str(&out).unwrap();
    let row = document["rows"][0].clone();
    let passes = row["passes"].as_array().unwrap().clone();
    (row, passes)
}

#[test]
fn passes_are_listed_with_their_counts_by_tree() {
    let (row, all) = passes(&["--leaf", "3"]);
    assert_eq!(row["leaf"], 3);
    assert_eq!(row["usual"], false);
    // The example's work: four stubs, twelve uprights freed of laterals, and a bud at bud swell.
    let told: Vec<(&str, u64, &str)> = all
        .iter()
        .map(|p| {
            let text = |key| p[key].as_str().unwrap();
            (text("pass"), p["count"].as_u64().unwrap(), text("window"))
        })
        .collect();
    let expected = [
        ("stub", 4, "dormant"),
        ("laterals", 12, "dormant"),
        ("buds", 1, "bud_swell"),
    ];
    assert_eq!(told, expected);
    for pass in &all {
        let trees = pass["trees"].as_array().unwrap();
        let sum: u64 = trees.iter().map(|t| t["count"].as_u64().unwrap()).sum();
        assert_eq!(Some(sum), pass["count"].as_u64());
        for tree in trees {
            let work = tree["work"].as_array().unwrap();
            assert_eq!(Some(work.len() as u64), tree["count"].as_u64());
            assert!(work.iter().all(|w| w["tree"] == tree["tree"]));
        }
        assert!(!pass["cautions"].as_array().unwrap().is_empty());
    }
    // 4 × 18 s, and the way to four trees.
    assert_eq!(all[0]["minutes"], 1.4);
    assert_eq!(all[0]["trees"][0]["bay"], 1);
}

#[test]
fn rates_people_and_diseased_trees_can_be_said() {
    let (row, all) = passes(&["--rate", "stub=60", "--people", "stub=2", "--diseased", "1"]);
    assert_eq!(row["rates"]["stub"], 60.0);
    let stubs: Vec<&Value> = all.iter().filter(|p| p["pass"] == "stub").collect();
    assert_eq!(stubs.len(), 2, "{all:?}");
    // Three at 60 s and three ways of 3.2 s, shared by two.
    assert_eq!(stubs[0]["minutes"], 3.2);
    assert_eq!(stubs[0]["minutes_each"], 1.6);
    assert_eq!(stubs[1]["diseased"], true);
    assert_eq!(stubs[1]["trees"][0]["tree"], 1);
    assert_eq!(all.iter().filter(|p| p["diseased"] == true).count(), 2);
    for wrong in [
        ["--rate", "saw=3"],
        ["--rate", "stub=-1"],
        ["--rate", "stub"],
        ["--people", "stub=0"],
        ["--people", "cook=1"],
        ["--scheme", "None such"],
    ] {
        let (status, _, err) = run(&[&["crew", EXAMPLE], &wrong[..]].concat());
        assert_eq!(status, 2, "{wrong:?}");
        assert!(err.contains("third-leaf.json"), "{err}");
    }
}

#[test]
fn a_leaf_without_work_says_that_it_gets_the_usual_work() {
    let bare = std::fs::read_to_string(EXAMPLE).unwrap();
    let mut plan: Value = serde_json::from_str(&bare).unwrap();
    let scheme = &mut plan["schemes"][0];
    let scheme = scheme.as_object_mut().unwrap();
    scheme.remove("standing");
    scheme.remove("planned");
    scheme.remove("seasons");
    let at = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("usual.json");
    std::fs::write(&at, plan.to_string()).unwrap();
    let at = at.to_str().unwrap();
    let (status, out, err) = run(&["crew", at, "--leaf", "3", "--json"]);
    assert_eq!(status, 0, "{err}");
    let document: Value = serde_json::from_str(&out).unwrap();
    let row = &document["rows"][0];
    assert_eq!(row["usual"], true);
    assert!(!row["passes"].as_array().unwrap().is_empty());
    let (_, out, _) = run(&["crew", at, "--leaf", "3"]);
    assert!(out.contains("leaf 3 has no work in this scheme"), "{out}");
}
