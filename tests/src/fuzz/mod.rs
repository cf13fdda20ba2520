//! What must hold whatever is given: bodies that take any bytes and panic where it does not. Tests run them on damaged seeds,
//! `cargo xtask fuzz` for as long as it is told, and libFuzzer where there is a nightly compiler.

mod damage;
mod run;

pub use damage::{Dice, damage};
pub use run::{Figures, Report, run};

use cordonry::check::{Context, check};
use cordonry::file::link::{link_of, read_link, values_of, write_link};
use cordonry::file::{csv, read_plan, write_archive, write_plan};
use cordonry::plan::{History, Moment, Plan, Window, replay};
use cordonry::refusal::Refusal;
use cordonry::work::choices;
use cordonry_fixture::archive_holds;
use cordonry_words::Words;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A body with its name and where its seeds come from.
#[derive(Clone, Copy)]
pub struct Target {
    /// Its name, and that of its folder of kept inputs.
    pub name: &'static str,
    /// What must not panic.
    pub body: fn(&[u8]),
    /// Inputs to begin with, beside those that are kept.
    pub seeds: fn() -> Vec<Vec<u8>>,
}

/// Every body.
pub const TARGETS: &[Target] = &[
    Target {
        name: "plan",
        body: plan,
        seeds: plan_files,
    },
    Target {
        name: "table",
        body: table,
        seeds: || examples("csv"),
    },
    Target {
        name: "link",
        body: link,
        seeds: links,
    },
    Target {
        name: "archive",
        body: archive,
        seeds: archives,
    },
    Target {
        name: "work",
        body: work,
        seeds: || Vec::from([b"0123456789".repeat(8)]),
    },
];

impl Target {
    /// Inputs to begin with: in order, so that a run can be done again.
    pub fn all_seeds(&self) -> Vec<Vec<u8>> {
        let mut all = (self.seeds)();
        all.extend(files(&self.corpus(), None));
        all
    }

    /// The folder of inputs that once failed, or that reach what no other does.
    pub fn corpus(&self) -> PathBuf {
        home().join("fuzz").join(self.name)
    }
}

fn home() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The bytes of a folder's files of an ending, of all for none, by name.
fn files(folder: &Path, ending: Option<&str>) -> Vec<Vec<u8>> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let wanted = |path: &PathBuf| {
        let own = path.extension().and_then(|e| e.to_str());
        path.is_file() && (ending.is_none() || own == ending)
    };
    let mut paths: Vec<PathBuf> = entries.map(|e| e.path()).filter(wanted).collect();
    paths.sort();
    paths.iter().filter_map(|p| fs::read(p).ok()).collect()
}

fn examples(ending: &str) -> Vec<Vec<u8>> {
    files(&home().join("../examples"), Some(ending))
}

fn plan_files() -> Vec<Vec<u8>> {
    let versions = files(&home().join("data/versions"), Some("json"));
    [examples("json"), versions].concat()
}

/// Links behind a nought, and what links hold behind a one: the check sum keeps most damage of the first from going far.
fn links() -> Vec<Vec<u8>> {
    let plans = plan_files();
    let plans: Vec<Plan> = plans.iter().filter_map(|p| read_plan(p).ok()).collect();
    let links = plans.iter().filter_map(|p| write_link(p).ok());
    let links = links.map(|l| [b"0", l.as_bytes()].concat());
    let values = plans.iter().map(|p| [b"1", &*values_of(p)].concat());
    links.chain(values).collect()
}

/// Files of three short rows: as the program lays them out, and with all on one line.
pub fn archives() -> Vec<Vec<u8>> {
    let short = |bytes: &Vec<u8>| {
        let mut plan = read_plan(bytes).ok()?;
        Arc::make_mut(&mut plan.found).trees.truncate(1);
        plan.schemes.truncate(1);
        Some(write_plan(&plan))
    };
    let plans: Vec<String> = examples("json").iter().filter_map(short).collect();
    let own = write_archive(&plans[..3]).concat();
    let tight = serde_json::from_slice::<serde_json::Value>(&own).expect("it is JSON");
    vec![own, tight.to_string().into_bytes()]
}

/// A file of many plans.
pub fn archive(bytes: &[u8]) {
    if let Err(why) = archive_holds(bytes) {
        assert!(Words::strict().refusal(&why).len() > 5, "{why:?}");
    }
}

/// A plan file.
pub fn plan(bytes: &[u8]) {
    judge(read_plan(bytes));
}

/// A table of a measured row.
pub fn table(bytes: &[u8]) {
    judge(csv::read(bytes, &csv::Options::default()).map(|measured| measured.plan("table")));
}

/// A link, or what stands in one: the first byte tells which.
pub fn link(bytes: &[u8]) {
    let Some((kind, rest)) = bytes.split_first() else {
        return;
    };
    judge(match kind & 1 {
        0 => read_link(&String::from_utf8_lossy(rest)),
        _ => read_link(&link_of(rest)),
    });
}

fn judge(read: Result<Plan, Refusal>) {
    match read {
        Ok(plan) => use_plan(&plan),
        Err(why) => assert!(Words::strict().refusal(&why).len() > 5, "{why:?}"),
    }
}

/// A sequence of work, its undoing and its times, on a short row: four bytes a step.
pub fn work(bytes: &[u8]) {
    let short = include_bytes!("../../../examples/short-stock.json");
    let plan = read_plan(short).expect("an example is read");
    let mut history = History::new(plan);
    let mut moment = history.plan().start();
    for step in bytes.chunks_exact(4).take(24) {
        let [what, which, part, number] = [step[0], step[1], step[2], step[3]].map(usize::from);
        let plan = history.plan().clone();
        match what % 8 {
            0 => moment = later(moment, number),
            1 => {
                history.undo();
            }
            2 => {
                history.redo();
            }
            _ => {
                let at = replay(&plan, 0, moment).expect("a plan has a scheme");
                let trees = &at.row.trees;
                let Some(tree) = trees.get(part % trees.len().max(1)) else {
                    continue;
                };
                let shoots = &tree.shoots;
                let shoot = shoots.get(number % (shoots.len() + 1)).map(|s| s.id);
                let offered = choices(&at.row, moment, &at.terms, &at.targets, tree.id, shoot);
                let Some(choice) = offered.get(which % offered.len().max(1)) else {
                    continue;
                };
                // From what is usual to far beyond it.
                let by = [1.0, 0.1, 3.0, -1.0, 1e9, f64::NAN][what / 8 % 6];
                let numbers: Vec<f64> = choice.asked.iter().map(|a| a.usual * by).collect();
                match plan.with_work(0, moment, choice.work(&numbers)) {
                    Ok(plan) => history.set("work", plan),
                    Err(why) => assert!(Words::strict().refusal(&why).len() > 5, "{why:?}"),
                }
            }
        }
    }
    use_plan(history.plan());
}

fn later(moment: Moment, by: usize) -> Moment {
    let windows = Window::ALL.len();
    let now = usize::from(moment.leaf) * windows + moment.window as usize + by % 9;
    Moment {
        leaf: (now / windows).min(12) as u8,
        window: Window::ALL[now % windows],
    }
}

/// Most shoots of a row that is not only read and written, but replayed, checked and drawn.
const USED: usize = 3_000;

/// All that the program does with a plan.
pub fn use_plan(plan: &Plan) {
    let saved = write_plan(plan);
    let again = read_plan(saved.as_bytes()).expect("what is saved is read");
    assert_eq!(write_plan(&again), saved);
    if let Ok(link) = write_link(plan) {
        let again = read_link(&link).expect("a link that is made is read");
        assert_eq!(write_plan(&again), saved);
    }
    if plan
        .found
        .trees
        .iter()
        .map(|t| t.shoots.len() + 1)
        .sum::<usize>()
        > USED
    {
        return;
    }
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
}
