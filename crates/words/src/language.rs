//! Languages: each a folder in `lang`, and nothing else.

use std::borrow::Cow;

/// The folders that the build found, by name: code, and the texts of its files.
const FOLDERS: &[(&str, &[&str])] = include!(concat!(env!("OUT_DIR"), "/languages.rs"));

/// A language: its code, such as `en`, and the texts of its files.
#[derive(Clone, Debug, PartialEq)]
pub struct Language {
    /// The code, a language tag.
    pub code: Cow<'static, str>,
    /// Fluent files, as text.
    pub files: Vec<Cow<'static, str>>,
}

impl Language {
    /// The language that has every text: what another lacks is taken from it.
    pub const WHOLE: &'static str = "en";

    /// Every language that has a folder, by code.
    pub fn all() -> Vec<Self> {
        let read = |(code, files): &(&'static str, &[&'static str])| Self {
            code: Cow::Borrowed(*code),
            files: files.iter().map(|f| Cow::Borrowed(*f)).collect(),
        };
        FOLDERS.iter().map(read).collect()
    }

    /// The language of that code; `None` where it has no folder.
    pub fn of(code: &str) -> Option<Self> {
        Self::all().into_iter().find(|l| l.code == code)
    }
}

impl Default for Language {
    fn default() -> Self {
        Self::of(Self::WHOLE).unwrap_or(Self {
            code: Cow::Borrowed(Self::WHOLE),
            files: Vec::new(),
        })
    }
}
