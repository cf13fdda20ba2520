//! Languages: each a folder in `lang`, and nothing else.

use crate::marks::{CASE, CHOICE, IS, NEXT, VALUE};
use std::collections::{BTreeMap, BTreeSet};

// What the build found, apart, so that a program that reaches the one needs none of the others.

/// The language that has every text.
static WHOLE: Language = include!(concat!(env!("OUT_DIR"), "/whole.rs"));
/// The other folders, by name.
static OTHERS: &[Language] = include!(concat!(env!("OUT_DIR"), "/others.rs"));
/// Of every language what is said where work is handed out, and nothing else.
static CREW: &[Language] = include!(concat!(env!("OUT_DIR"), "/crew.rs"));
/// Of every language what is said where a plan is passed on, and nothing else.
static PASS_ON: &[Language] = include!(concat!(env!("OUT_DIR"), "/pass_on.rs"));
/// Every language's code with its own name, by code.
static NAMES: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/names.rs"));

/// A language as the build made it of its folder's files (`build/compile.rs`).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Language {
    /// The code, a language tag such as `en`.
    pub code: &'static str,
    /// Its texts by key, compiled.
    pub texts: &'static str,
    /// Its plural rule: a letter for each number from nought on, and how many of the last are repeated for ever.
    pub plurals: (&'static str, usize),
}

impl Language {
    /// The language that has every text: what another lacks is taken from it.
    pub const WHOLE: &'static str = "en";

    /// Every language that has a folder, first the one that has every text.
    pub fn all() -> impl Iterator<Item = &'static Self> {
        [&WHOLE].into_iter().chain(OTHERS)
    }

    /// Every language's code with its own name, by code.
    pub fn names() -> &'static [(&'static str, &'static str)] {
        NAMES
    }

    /// What is said where work is handed out, in that language and then in the one that has every text; a page's languages
    /// lack it.
    pub fn crew(code: &str) -> impl Iterator<Item = Self> {
        Self::and_whole(CREW, code)
    }

    /// What is said where a plan is passed on, likewise.
    pub fn pass_on(code: &str) -> impl Iterator<Item = Self> {
        Self::and_whole(PASS_ON, code)
    }

    fn and_whole(all: &'static [Self], code: &str) -> impl Iterator<Item = Self> {
        let of = |code| all.iter().find(move |l| l.code == code).copied();
        let whole = Some(Self::WHOLE).filter(|w| *w != code);
        of(code).into_iter().chain(whole.and_then(of))
    }

    /// Each key with its compiled text, in order of keys.
    pub(crate) fn pairs(self) -> impl Iterator<Item = (&'static str, &'static str)> {
        self.texts.split(NEXT).filter_map(|t| t.split_once(IS))
    }

    /// Its texts by key, each with the names of the values that it speaks of.
    pub fn texts(self) -> BTreeMap<&'static str, BTreeSet<&'static str>> {
        self.pairs()
            .map(|(key, text)| {
                let shown = text.split(VALUE).skip(1).step_by(2);
                let choosing = text.split(CHOICE).skip(1);
                let choosing = choosing.filter_map(|t| Some(t.split_once(CASE)?.0));
                (key, shown.chain(choosing).collect())
            })
            .collect()
    }

    /// The keys of the texts that it lacks.
    pub fn missing(self) -> BTreeSet<&'static str> {
        let mine = self.texts();
        let whole = Self::default().texts().into_keys();
        whole.filter(|key| !mine.contains_key(key)).collect()
    }

    /// The language of that code; `None` where it has no folder.
    pub fn of(code: &str) -> Option<Self> {
        Self::all().find(|l| l.code == code).copied()
    }
}

impl Default for Language {
    fn default() -> Self {
        WHOLE
    }
}
