//! A thousand damaged plans and tables, and ten thousand damaged files of many plans: each is read or refused with a reason, and what is read can be replayed,
//! checked, drawn and saved. Nothing panics.

use cordonry::file::{csv, read_plan};
use cordonry::seed::Seeded;
use cordonry_fixture::archive_holds;
use cordonry_tests::fuzz::{Dice, archives, damage, use_plan};
use cordonry_words::Words;
use std::path::{Path, PathBuf};

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

/// Ten thousand damaged files of many short rows.
#[test]
fn ten_thousand_damaged_archives() {
    let texts = archives();
    let mut dice = Dice(Seeded::new(4));
    let (mut whole, mut part, mut none, mut refused) = (0, 0, 0, 0);
    for n in 0..10_000 {
        // All come as the program lays them out but for one in five.
        let damaged = damage(&texts[usize::from(n % 5 == 0)], &mut dice);
        match archive_holds(&damaged) {
            Ok((read, all)) if read == all => whole += 1,
            Ok((0, _)) => none += 1,
            Ok(_) => part += 1,
            Err(why) => {
                refused += 1;
                assert!(Words::strict().refusal(&why).len() > 10, "{why:?}");
            }
        }
    }
    // The damage is real. Most of it leaves the other rows; what leaves none is a cut, or lines that have changed places in all
    // three. What was refused whole was laid out by another.
    assert!(
        whole > 500 && part > 5_000 && none < 2_000 && refused > 500,
        "{whole} whole, {part} in part, {none} none, {refused} refused"
    );
}
