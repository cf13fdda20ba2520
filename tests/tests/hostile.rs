//! A thousand damaged plans and tables: each is read or refused with a reason, and what is read can be replayed,
//! checked, drawn and saved. Nothing panics.

use cordonry::check::{Context, check};
use cordonry::file::{csv, read_plan, write_plan};
use cordonry::plan::{Moment, Plan, Window, replay};
use cordonry::seed::Seeded;
use cordonry_words::Words;
use std::path::{Path, PathBuf};

/// The same damage on every machine.
struct Dice(Seeded);

impl Dice {
    fn roll(&mut self, below: usize) -> usize {
        (self.0.bits() % below.max(1) as u64) as usize
    }
}

/// Values put where others stood.
const STRANGE: &[&str] = &[
    "NaN",
    "-1",
    "1e999",
    "1000000000",
    "99999999999999999999",
    "null",
    "[]",
    "{}",
    "true",
    "\"x\"",
    "0",
    "0.5",
    "-2147483648",
    "\"\\u0000\"",
    "",
];

fn damage(text: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut out = text.to_vec();
    match dice.roll(7) {
        0 => out.truncate(dice.roll(text.len())),
        1 => {
            for _ in 0..=dice.roll(8) {
                let at = dice.roll(out.len());
                out[at] ^= 1 << dice.roll(8);
            }
        }
        2 => {
            // A number becomes something else.
            let digits: Vec<usize> = (1..out.len())
                .filter(|i| out[*i].is_ascii_digit() && !out[i - 1].is_ascii_digit())
                .collect();
            if !digits.is_empty() {
                let from = digits[dice.roll(digits.len())];
                let to = (from..out.len())
                    .find(|i| !out[*i].is_ascii_digit())
                    .unwrap_or(out.len());
                let strange = STRANGE[dice.roll(STRANGE.len())];
                out.splice(from..to, strange.bytes());
            }
        }
        6 => {
            // A digit becomes another.
            let digits: Vec<usize> = (0..out.len())
                .filter(|i| out[*i].is_ascii_digit())
                .collect();
            let at = digits[dice.roll(digits.len())];
            out[at] = b'0' + dice.roll(10) as u8;
        }
        3 => {
            // A stretch stands twice.
            let from = dice.roll(out.len());
            let to = (from + dice.roll(400)).min(out.len());
            let again = out[from..to].to_vec();
            out.splice(from..from, again);
        }
        4 => {
            // A stretch is gone.
            let from = dice.roll(out.len());
            let to = (from + dice.roll(400)).min(out.len());
            out.drain(from..to);
        }
        _ => {
            // Lines change places.
            let mut lines: Vec<&[u8]> = text.split(|b| *b == b'\n').collect();
            for _ in 0..3 {
                let (a, b) = (dice.roll(lines.len()), dice.roll(lines.len()));
                lines.swap(a, b);
            }
            out = lines.join(&b'\n');
        }
    }
    out
}

/// All that the program does with a plan.
fn use_plan(plan: &Plan) {
    let leaf = plan.found.leaf;
    let last = Moment {
        leaf: leaf.saturating_add(1).min(Plan::MAX_LEAF),
        window: Window::AfterHarvest,
    };
    let words = Words::strict();
    for moment in [plan.start(), last] {
        let replayed = replay(plan, 0, moment).expect("a plan has a scheme");
        for tree in &replayed.row.trees {
            assert_eq!(tree.broken_rule(), None);
        }
        let findings = check(&Context::of(&replayed));
        for finding in findings.iter().take(50) {
            assert!(!words.finding(finding).is_empty());
        }
        assert!(cordonry_draw::document(plan, &replayed.row).starts_with('<'));
    }
    let saved = write_plan(plan);
    let again = read_plan(saved.as_bytes()).expect("what is saved is read");
    assert_eq!(write_plan(&again), saved);
}

fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut out: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the files are there")
        .map(|entry| entry.expect("readable").path())
        .filter(|path| path.extension().is_some_and(|e| e == ending))
        .collect();
    out.sort();
    assert!(!out.is_empty());
    out
}

#[test]
fn six_hundred_damaged_plans() {
    let texts: Vec<Vec<u8>> = files("../examples", "json")
        .iter()
        .chain(&files("data/versions", "json"))
        .map(|p| std::fs::read(p).expect("readable"))
        .collect();
    let mut dice = Dice(Seeded::new(1));
    let words = Words::strict();
    let (mut read, mut refused) = (0, 0);
    for n in 0..600 {
        match read_plan(&damage(&texts[n % texts.len()], &mut dice)) {
            Ok(plan) => {
                read += 1;
                use_plan(&plan);
            }
            Err(why) => {
                refused += 1;
                assert!(words.refusal(&why).len() > 10, "{why:?}");
            }
        }
    }
    // The damage is real, and not all of it is fatal.
    assert!(refused > 300 && read > 20, "{read} read, {refused} refused");
}

/// Four hundred damages to a table: how many were read, were refused, and lines that were not taken.
fn damaged_tables(text: &[u8], seed: u64) -> (usize, usize, usize) {
    let mut dice = Dice(Seeded::new(seed));
    let words = Words::strict();
    let (mut read, mut refused, mut bad) = (0, 0, 0);
    for _ in 0..400 {
        match csv::read(&damage(text, &mut dice), &csv::Options::default()) {
            Ok(measured) => {
                read += 1;
                bad += measured.bad.len();
                for line in &measured.bad {
                    assert!(words.refusal(&line.why).len() > 5, "{:?}", line.why);
                }
                use_plan(&measured.plan("damaged"));
            }
            Err(why) => {
                refused += 1;
                assert!(words.refusal(&why).len() > 10, "{why:?}");
            }
        }
    }
    (read, refused, bad)
}

#[test]
fn four_hundred_damaged_tables() {
    let text = std::fs::read(&files("../examples", "csv")[0]).expect("readable");
    let (read, refused, bad) = damaged_tables(&text, 2);
    assert!(
        read > 200 && refused > 5 && bad > 1000,
        "{read} read, {refused} refused, {bad} bad lines"
    );
}

#[test]
fn four_hundred_damaged_tables_with_a_block() {
    // A short row, so that the lines above the names of its columns are a good part of it.
    let plan = read_plan(include_bytes!("../../examples/two-cordons.json")).expect("readable");
    let mut row = (*plan.found).clone();
    row.trees.truncate(1);
    let text = csv::write(&row, &plan.name, &plan.site, None, csv::Style::default());
    let block = text.lines().take_while(|l| !l.starts_with("tree")).count();
    assert!(
        block >= 10 && text.lines().count() < 60,
        "{block} lines above the names"
    );
    let (read, refused, bad) = damaged_tables(text.as_bytes(), 3);
    assert!(
        read > 200 && refused > 5 && bad > 100,
        "{read} read, {refused} refused, {bad} bad lines"
    );
}

#[test]
fn a_billion_trees_are_refused() {
    let tree = r#"{"id":1,"foot_mm":0,"planted":{"angle_deg":45,"toward":"right"}},"#;
    let mut text = String::from(
        r#"{"format":"cordonry-plan","version":1,"found":{"leaf":1,"from_mm":0,"to_mm":9,"trellis":{"wires":[{"height_mm":500}],"wall_height_mm":2500},"trees":["#,
    );
    text += &tree.repeat(200_000);
    assert!(read_plan(text.as_bytes()).is_err());
    // A table that names tree 1,000,000,000.
    let table = "tree,place,kind,length\n1000000000,1 m,stem,2 m\n1000000001,3 m,stem,2 m\n";
    if let Ok(measured) = csv::read(table.as_bytes(), &csv::Options::default()) {
        assert!(measured.row.trees.len() <= 2);
    }
}
