//! `cordonry archive`: many rows as one file and back, what of them is damaged, and what is there already.

use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn run(args: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_cordonry"));
    command.arg("archive").args(args).output().unwrap()
}

/// Runs it, and gives how it ended, what it tells programs and what stands on standard error.
fn told(args: &[&str]) -> (i32, Value, String) {
    let ran = run(&[args, &["--json"]].concat());
    let err = String::from_utf8(ran.stderr).unwrap();
    let out = serde_json::from_slice(&ran.stdout).unwrap_or_else(|e| panic!("{e}: {err}"));
    (ran.status.code().unwrap(), out, err)
}

/// A folder of this test's own.
fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).unwrap();
    path
}

fn text(path: &Path) -> String {
    path.to_string_lossy().into_owned()
}

const EXAMPLES: [&str; 3] = ["lost-tree", "third-leaf", "two-cordons"];

fn example(name: &str) -> Vec<u8> {
    let home = env!("CARGO_MANIFEST_DIR");
    fs::read(format!("{home}/../../examples/{name}.json")).unwrap()
}

/// Three plans in a folder `rows`.
fn three(at: &Path) -> String {
    let rows = at.join("rows");
    fs::create_dir_all(&rows).unwrap();
    for name in EXAMPLES {
        fs::write(rows.join(name).with_extension("json"), example(name)).unwrap();
    }
    text(&rows)
}

/// What lies in a folder, by name.
fn listed(folder: &Path) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path())
        .collect();
    all.sort();
    all
}

#[test]
fn rows_go_into_one_file_and_come_back_byte_for_byte_in_their_order() {
    let at = folder("archive");
    let (all, again) = (text(&at.join("all.json")), text(&at.join("again.json")));
    let out = text(&at.join("deep/out"));
    let (status, row, _) = told(&[&three(&at), "-o", &all]);
    assert_eq!((status, &row["rows"][0]["rows"]), (0, &json!(3)));
    assert_eq!(row["rows"][0]["output"], json!([all]));
    let (status, rows, err) = told(&["--open", &all, "-o", &out]);
    assert_eq!(status, 0, "{err}");
    for (n, name) in EXAMPLES.iter().enumerate() {
        let row = &rows["rows"][n];
        let file = row["output"].as_str().unwrap();
        assert!(file.contains(&format!("{}-", n + 1)), "{file}");
        assert_eq!(fs::read(file).unwrap(), example(name), "{name}");
        assert_eq!(row["place"], n + 1);
    }
    assert_eq!(listed(Path::new(&out)).len(), 3);
    // The numbers keep the order.
    assert_eq!(run(&[&out, "-o", &again]).status.code(), Some(0));
    assert_eq!(fs::read(&all).unwrap(), fs::read(&again).unwrap());
    // People are told each file.
    let ran = run(&["--open", &all, "-o", &out, "--replace"]);
    let said = String::from_utf8(ran.stdout).unwrap();
    assert_eq!(said.lines().count(), 3, "{said}");
}

#[test]
fn what_is_damaged_is_named_and_set_aside_and_the_others_are_done() {
    let at = folder("archive-damaged");
    let rows = three(&at);
    let all = at.join("all.json");
    assert_eq!(run(&[&rows, "-o", &text(&all)]).status.code(), Some(0));
    // The second row's leaf is none.
    let bytes = fs::read_to_string(&all).unwrap();
    let plan = String::from_utf8(example("third-leaf")).unwrap();
    let bad = plan.replacen("\"leaf\": 3", "\"leaf\": -3", 1);
    assert!(bytes.contains(&plan) && bad != plan);
    fs::write(&all, bytes.replacen(&plan, &bad, 1)).unwrap();
    let out = at.join("out");
    let (status, told_of, err) = told(&["--open", &text(&all), "-o", &text(&out)]);
    assert_eq!(status, 2);
    assert_eq!(told_of["rows"].as_array().unwrap().len(), 2);
    let name = serde_json::from_str::<Value>(&plan).unwrap()["name"].clone();
    let reason = told_of["unreadable"][0]["reason"].as_str().unwrap();
    for says in ["row 2", name.as_str().unwrap(), "leaf", ".damaged"] {
        assert!(reason.contains(says) && err.contains(says), "{reason}");
    }
    let files = listed(&out);
    assert_eq!(files.len(), 3);
    assert_eq!(fs::read(&files[0]).unwrap(), example(EXAMPLES[0]));
    assert_eq!(files[1].extension().unwrap(), "damaged");
    assert_eq!(fs::read_to_string(&files[1]).unwrap(), bad);
    assert_eq!(fs::read(&files[2]).unwrap(), example(EXAMPLES[2]));
    // One among plan files: the others are put together.
    fs::write(Path::new(&rows).join("third-leaf.json"), &bad).unwrap();
    let two = at.join("two.json");
    let (status, told_of, err) = told(&[&rows, "-o", &text(&two)]);
    assert_eq!((status, &told_of["rows"][0]["rows"]), (2, &json!(2)));
    assert!(err.contains("third-leaf.json"), "{err}");
    let (status, told_of, _) = told(&["--open", &text(&two), "-o", &text(&at.join("of-two"))]);
    assert_eq!((status, told_of["rows"].as_array().unwrap().len()), (0, 2));
    // With none left nothing is written.
    let none = at.join("none.json");
    let third = text(&Path::new(&rows).join("third-leaf.json"));
    assert_eq!(run(&[&third, "-o", &text(&none)]).status.code(), Some(2));
    assert!(!none.exists());
}

#[test]
fn nothing_that_is_there_is_replaced_unasked() {
    let at = folder("archive-there");
    let rows = three(&at);
    let (all, out) = (at.join("all.json"), at.join("out"));
    fs::write(&all, "mine").unwrap();
    let (status, _, err) = told(&[&rows, "-o", &text(&all)]);
    assert!(status == 2 && err.contains("--replace"), "{err}");
    assert_eq!(fs::read_to_string(&all).unwrap(), "mine");
    let put = run(&[&rows, "-o", &text(&all), "--replace"]);
    assert_eq!(put.status.code(), Some(0), "{put:?}");
    let apart = ["--open", &text(&all), "-o", &text(&out)];
    assert_eq!(told(&apart).0, 0);
    let first = &listed(&out)[0];
    fs::write(first, "mine").unwrap();
    fs::remove_file(&listed(&out)[2]).unwrap();
    let (status, told_of, err) = told(&apart);
    assert!(status == 2 && err.contains(&text(first)), "{err}");
    assert_eq!(fs::read_to_string(first).unwrap(), "mine");
    let done = told_of["rows"].as_array().unwrap();
    assert_eq!(done.len(), 1, "the one that was gone is written");
    assert_eq!(listed(&out).len(), 3);
    assert_eq!(told(&[&apart[..], &["--replace"]].concat()).0, 0);
    assert_eq!(fs::read(first).unwrap(), example(EXAMPLES[0]));
    // Of what it is made from nothing is replaced at all.
    let source = text(&Path::new(&rows).join("lost-tree.json"));
    let (status, _, err) = told(&[&rows, "-o", &source, "--replace"]);
    assert!(status == 2 && err.contains("made from"), "{err}");
    assert_eq!(fs::read(&source).unwrap(), example("lost-tree"));
}

#[test]
fn no_name_of_a_row_leads_out_of_the_folder() {
    let at = folder("archive-names");
    let names = [
        "../../up",
        "/etc/x",
        "CON",
        ".",
        "",
        "a\u{0}\n\u{202e}b",
        "樹",
    ];
    let long = "x".repeat(120);
    let mut plans = Vec::new();
    for (n, name) in names.iter().chain([&&*long, &"樹"]).enumerate() {
        let mut plan: Value = serde_json::from_slice(&example("two-cordons")).unwrap();
        plan["name"] = json!(name);
        let path = at.join(format!("{n}.json"));
        fs::write(&path, plan.to_string()).unwrap();
        plans.push(text(&path));
    }
    let all = at.join("all.json");
    let mut args: Vec<&str> = plans.iter().map(String::as_str).collect();
    let output = text(&all);
    args.extend(["-o", &*output]);
    let (_, told_of, err) = told(&args);
    let read = told_of["rows"][0]["rows"].as_u64().unwrap() as usize;
    assert!(read >= names.len(), "{err}");
    let before = listed(&at).len();
    let out = at.join("out");
    let (status, _, err) = told(&["--open", &output, "-o", &text(&out)]);
    assert_eq!(status, 0, "{err}");
    assert_eq!(listed(&at).len(), before + 1, "all are in the folder");
    let files = listed(&out);
    assert_eq!(files.len(), read);
    for file in files {
        let name = file.file_name().unwrap().to_str().unwrap();
        let stem = name.strip_suffix(".json").unwrap();
        assert!(stem.starts_with(|c: char| c.is_ascii_digit()), "{name}");
        assert!(
            stem.chars().all(|c| c.is_alphanumeric() || c == '-'),
            "{name}"
        );
    }
}
