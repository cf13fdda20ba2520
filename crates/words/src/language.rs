//! Languages: each a folder in `lang`, and nothing else.

use cordonry::arrange::Gather;
use fluent_bundle::FluentResource;
use fluent_syntax::ast::{
    CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement,
};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

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

    /// Its texts by key, each with the names of the values that it speaks of.
    pub fn texts(&self) -> BTreeMap<String, BTreeSet<String>> {
        let mut out = BTreeMap::new();
        for file in &self.files {
            let read = FluentResource::try_new(file.to_string()).unwrap_or_else(|(r, _)| r);
            for entry in read.entries() {
                if let Entry::Message(message) = entry
                    && let Some(pattern) = &message.value
                {
                    let mut values = BTreeSet::new();
                    of_pattern(pattern, &mut values);
                    out.insert(message.id.name.to_string(), values);
                }
            }
        }
        out
    }

    /// The keys of the texts that it lacks.
    pub fn missing(&self) -> BTreeSet<String> {
        let mine = self.texts();
        let whole = Self::default().texts().into_keys();
        whole.filter(|key| !mine.contains_key(key)).gathered_set()
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

/// The values that a text speaks of.
fn of_pattern(pattern: &Pattern<&str>, out: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            of_expression(expression, out);
        }
    }
}

fn of_expression(expression: &Expression<&str>, out: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(inline) => of_inline(inline, out),
        Expression::Select { selector, variants } => {
            of_inline(selector, out);
            variants.iter().for_each(|v| of_pattern(&v.value, out));
        }
    }
}

fn of_inline(inline: &InlineExpression<&str>, out: &mut BTreeSet<String>) {
    let of_arguments = |arguments: &CallArguments<&str>, out: &mut BTreeSet<String>| {
        arguments.positional.iter().for_each(|a| of_inline(a, out));
        arguments
            .named
            .iter()
            .for_each(|a| of_inline(&a.value, out));
    };
    match inline {
        InlineExpression::VariableReference { id } => drop(out.insert(id.name.to_string())),
        InlineExpression::Placeable { expression } => of_expression(expression, out),
        InlineExpression::FunctionReference { arguments, .. } => of_arguments(arguments, out),
        InlineExpression::TermReference {
            arguments: Some(arguments),
            ..
        } => of_arguments(arguments, out),
        _ => {}
    }
}
