//! Every key that the sources use has a text, and every text is used.

use cordonry::check::{light_rules, rules};
use cordonry::model::Parameter;
use cordonry::row::Limit;
use cordonry::standing::Rule;
use cordonry_words::Language;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The crates whose sources word something.
const CRATES: [&str; 5] = ["core", "words", "draw", "page", "cli"];

/// What stands before a key where a text is asked for.
const CALLS: [&str; 14] = [
    ".t(",
    ".plain(",
    "Arg::key(",
    "Said::plain(",
    "Said::new(",
    "Refusal::new(",
    "Remedy::new(",
    "app.text(",
    "words.text(",
    "w.text(",
    "title=",
    "label=",
    "Choice::ready(",
    "Choice::asking(",
];

/// What begins a key wherever it stands.
const BEGINNINGS: [&str; 13] = [
    "command-",
    "refusal-",
    "remedy-",
    "matter-",
    "accepted-",
    "number-",
    "rule-",
    "file-said-",
    "act-",
    "step-",
    "sweep-",
    "figure-",
    "measure-",
];

fn sources(folder: &Path, out: &mut Vec<String>) {
    let mut entries: Vec<PathBuf> = fs::read_dir(folder)
        .expect("a folder")
        .map(|e| e.expect("an entry").path())
        .collect();
    entries.sort();
    for path in entries {
        if path.is_dir() {
            sources(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push(fs::read_to_string(&path).expect("a source"));
        }
    }
}

/// The words in quotation marks that could be keys, each with whether a text is surely asked for by it.
fn quoted(source: &str) -> impl Iterator<Item = (&str, bool)> {
    source.match_indices('"').filter_map(|(at, _)| {
        let rest = &source[at + 1..];
        let key = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_');
        let (word, after) = rest.split_at(rest.find(|c| !key(c))?);
        let starts = word.starts_with(|c: char| c.is_ascii_lowercase());
        let before = source[..at].trim_end();
        let asked = CALLS.iter().any(|c| before.ends_with(c))
            // A beginning by itself is no key.
            || BEGINNINGS.iter().any(|b| word.len() > b.len() && word.starts_with(b));
        (starts && after.starts_with('"')).then_some((word, asked))
    })
}

/// Keys that are put together, by what they are put together from.
fn put_together() -> BTreeSet<String> {
    let mut out = BTreeSet::new();
    out.extend(rules().chain(light_rules()).map(|r| format!("finding-{r}")));
    let limits = Limit::ALL.iter().map(|l| l.info());
    out.extend(limits.flat_map(|i| {
        [Some(i.text), i.source]
            .into_iter()
            .flatten()
            .map(String::from)
    }));
    let parameters = Parameter::ALL.iter().map(|p| p.info().texts);
    out.extend(parameters.flat_map(|(name, source)| [name.into(), source.into()]));
    out.extend(Rule::ALL.iter().map(|r| r.info().text.into()));
    out.extend(["bare", "twice"].map(|s| format!("stretch-{s}")));
    let asked = [
        "foot",
        "way",
        "end",
        "leader",
        "upright",
        "thickness",
        "height",
        "laterals",
        "nothing",
    ];
    out.extend(asked.map(|a| format!("walk-ask-{a}")));
    out.extend(["walk", "make", "empty"].map(|w| format!("way-{w}-go")));
    out
}

#[test]
fn every_key_has_a_text_and_every_text_is_used() {
    let texts = Language::default().texts();
    let mut all = Vec::new();
    let home = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    for name in CRATES {
        sources(&home.join(name).join("src"), &mut all);
    }
    let mut used = put_together();
    // What was found is a matter, told otherwise.
    for key in texts.keys() {
        if let Some(cause) = key.strip_prefix("found-") {
            assert!(texts.contains_key(&*format!("matter-{cause}")), "{key}");
            used.insert(key.to_string());
        }
    }
    let mut without: BTreeSet<String> = used.clone();
    for source in &all {
        for (word, asked) in quoted(source) {
            used.insert(word.to_string());
            if asked {
                without.insert(word.to_string());
            }
        }
    }
    // A report tells a matter as what was found, by a key that is made of the matter's.
    let found = used
        .iter()
        .filter_map(|key| key.strip_prefix("matter-"))
        .map(|key| format!("found-{key}"));
    let found: Vec<String> = found.collect();
    used.extend(found);
    assert!(without.len() > 300, "{} keys are found", without.len());
    without.retain(|key| !texts.contains_key(key.as_str()));
    assert_eq!(without, BTreeSet::new(), "keys without a text");

    // A text may stand within another; a language's name is for those who choose one.
    let folder = home.join("words/lang").join(Language::WHOLE);
    let read = |e: fs::DirEntry| fs::read_to_string(e.path()).expect("a file");
    let files: String = fs::read_dir(folder)
        .expect("a folder")
        .map(|e| read(e.expect("an entry")))
        .collect();
    let within = |key: &str| {
        files.contains(&format!("{{{key}}}")) || files.contains(&format!("{{ {key} }}"))
    };
    let idle: BTreeSet<&&str> = texts
        .keys()
        .filter(|key| !used.contains(**key) && !within(key) && **key != "language-name")
        .collect();
    assert_eq!(idle, BTreeSet::new(), "texts that nothing uses");
}
