//! Plans as links: every one comes back as it was; what can't be one says why; a link that was made once is read for ever.

use cordonry::file::link::{MAX_CHARS, link_in, link_of, read_link, values_of, write_link};
use cordonry::file::{csv, read_plan, write_plan};
use cordonry::plan::Plan;
use cordonry::row::TreeId;
use cordonry::seed::Seeded;
use cordonry_fixture::random;
use cordonry_words::Words;
use proptest::prelude::*;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

fn home() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn plans(folder: &str) -> Vec<(String, String)> {
    let entries = fs::read_dir(home().join(folder)).unwrap();
    let mut paths: Vec<PathBuf> = entries.map(|e| e.unwrap().path()).collect();
    paths.retain(|p| p.extension().is_some_and(|e| e == "json"));
    paths.sort();
    let named = |p: &PathBuf| p.file_stem().unwrap().to_string_lossy().into_owned();
    paths
        .iter()
        .map(|p| (named(p), fs::read_to_string(p).unwrap()))
        .collect()
}

fn plan(text: &str) -> Plan {
    read_plan(text.as_bytes()).unwrap()
}

#[test]
fn every_example_comes_back_with_the_same_bytes() {
    let mut table = String::from("characters of each example as a link\n\n");
    let mut all = [plans("../examples"), plans("../examples/lessons")].concat();
    let measured = fs::read(home().join("../examples/measured-40.csv")).unwrap();
    let measured = csv::read(&measured, &csv::Options::default()).unwrap();
    all.push((
        "measured-40".into(),
        write_plan(&measured.plan("measured-40")),
    ));
    assert!(all.len() >= 20, "{}", all.len());
    for (name, text) in &all {
        let link = write_link(&plan(text)).unwrap();
        assert_eq!(&write_plan(&read_link(&link).unwrap()), text, "{name}");
        let _ = writeln!(table, "{:>6} {name}", link.len());
    }
    let kept = home().join("snapshots/links.txt");
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        fs::write(&kept, &table).unwrap();
    }
    assert_eq!(fs::read_to_string(&kept).unwrap_or_default(), table);
}

proptest! {
    #![proptest_config(random::cases(200))]

    #[test]
    fn any_plan_comes_back(plan in random::plan()) {
        let saved = write_plan(&plan);
        let back = read_link(&write_link(&plan).unwrap()).unwrap();
        prop_assert_eq!(write_plan(&back), saved);
    }
}

/// Links of `data/links`, each beside the plan that it was made of.
#[test]
fn links_that_were_made_once_are_read_for_ever() {
    let all = plans("data/links");
    assert!(!all.is_empty());
    for (name, text) in all {
        let link = home().join(format!("data/links/{name}.txt"));
        let link = fs::read_to_string(link).unwrap();
        let read = read_link(&link).unwrap_or_else(|why| panic!("{name}: {why:?}"));
        assert_eq!(write_plan(&read), write_plan(&plan(&text)), "{name}");
    }
}

#[test]
fn a_link_is_found_in_an_address_and_with_broken_lines() {
    let (_, text) = &plans("../examples")[0];
    let link = write_link(&plan(text)).unwrap();
    let address = format!(" https://cordonry.example/page/#{link}\r\n");
    let lines: Vec<String> = link
        .as_bytes()
        .chunks(76)
        .map(|c| String::from_utf8_lossy(c).into_owned())
        .collect();
    let behind = format!("{link} is the row");
    for given in [link.clone(), address, lines.join("\n"), behind] {
        assert_eq!(&write_plan(&read_link(&given).unwrap()), text, "{given}");
    }
    for none in ["", "#", "#wall", "https://cordonry.example/", "{}"] {
        assert_eq!(link_in(none), None);
        assert_eq!(read_link(none).unwrap_err().key, "refusal-link-none");
    }
}

#[test]
fn what_is_no_sound_link_is_refused_by_name() {
    let (_, text) = &plans("../examples")[0];
    let made = plan(text);
    let link = write_link(&made).unwrap();
    let (head, tail) = link.split_at(link.len() / 2);
    let swapped = format!(
        "{head}{}{}",
        if tail.starts_with('A') { 'B' } else { 'A' },
        &tail[1..]
    );
    let values = values_of(&made);
    let nested = [7u8, 1].repeat(40);
    let cases = [
        (head.to_string(), "refusal-link-cut"),
        (link.replace("plan-1.", "plan-2."), "refusal-link-form"),
        (link.replace("plan-1.", "plan-."), "refusal-link-form"),
        (swapped, "refusal-link-damaged"),
        (format!("plan-1.{}.end", "ä"), "refusal-link-damaged"),
        ("plan-1..end".into(), "refusal-link-damaged"),
        // Behind the check sum: cut, more than one value, no value, nested without end, another thing than a plan.
        (link_of(&values[..values.len() - 1]), "refusal-link-damaged"),
        (
            link_of(&[&values[..], &[0]].concat()),
            "refusal-link-damaged",
        ),
        (link_of(&[]), "refusal-link-damaged"),
        (link_of(&[99]), "refusal-link-damaged"),
        (link_of(&nested), "refusal-link-damaged"),
        (link_of(&[0]), "refusal-file-content"),
        (
            format!("plan-1.{}.end", "A".repeat(MAX_CHARS)),
            "refusal-link-long",
        ),
        // Three megabytes of nothing.
        (link_of(&vec![0; 3 << 20]), "refusal-link-size"),
    ];
    for (given, key) in cases {
        let why = read_link(&given).map(|p| p.name).unwrap_err();
        assert_eq!(why.key, key, "{}", &given[..given.len().min(80)]);
        assert!(Words::strict().refusal(&why).len() > 10);
    }
}

#[test]
fn a_plan_too_long_for_a_link_says_so() {
    let (_, text) = &plans("../examples")[0];
    let mut long = plan(text);
    // Of notes that are drawn at random little packs.
    let mut dice = Seeded::new(1);
    let mut row = (*long.found).clone();
    for tree in &mut row.trees {
        let note: String = (0..120).map(|_| format!("{:016x}", dice.bits())).collect();
        Arc::make_mut(tree).note = note;
    }
    for n in 1..=20 {
        let mut tree = (*row.trees[0]).clone();
        tree.id = TreeId(100 + n);
        tree.note = (0..120).map(|_| format!("{:016x}", dice.bits())).collect();
        row.trees.push(Arc::new(tree));
    }
    long.found = row.into();
    let chars = link_of(&values_of(&long)).len();
    assert!(chars > MAX_CHARS, "{chars} characters");
    let why = write_link(&long).unwrap_err();
    assert_eq!(why.key, "refusal-link-long");
}
