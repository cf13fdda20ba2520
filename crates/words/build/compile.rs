//! Fluent files made into what `src/pattern.rs` puts values into: messages with values, selections by a value, and
//! other messages or terms within, which are put in here. What goes beyond that is named as broken.

use fluent_syntax::ast::{
    Entry, Expression, InlineExpression, Pattern, PatternElement, VariantKey,
};
use fluent_syntax::parser;
use fluent_syntax::unicode::unescape_unicode_to_string;
use intl_pluralrules::{PluralCategory, PluralRuleType, PluralRules};
use std::collections::BTreeMap;
use unic_langid::LanguageIdentifier;

#[path = "../src/marks.rs"]
mod marks;

/// How deep texts stand within each other at most: a circle is deeper.
const DEEPEST: usize = 8;

/// The texts of a language's files, by key, and what is broken in them. Of two with one key the later one holds.
pub fn texts<'a>(files: impl Iterator<Item = &'a str>) -> (String, Vec<String>) {
    let mut broken = Vec::new();
    let mut all = BTreeMap::new();
    for file in files {
        let resource = parser::parse(file).unwrap_or_else(|(resource, errors)| {
            broken.extend(errors.iter().map(|e| {
                let line = file[..e.pos.start].matches('\n').count() + 1;
                format!("line {line}: {e}")
            }));
            resource
        });
        for entry in resource.body {
            match entry {
                Entry::Message(message) => {
                    if !message.attributes.is_empty() {
                        broken.push(format!("{}: attributes are not read", message.id.name));
                    }
                    if let Some(value) = message.value {
                        all.insert(message.id.name.to_string(), value);
                    }
                }
                Entry::Term(term) => {
                    all.insert(format!("-{}", term.id.name), term.value);
                }
                _ => {}
            }
        }
    }
    let mut out = String::new();
    for (key, value) in all.iter().filter(|(key, _)| !key.starts_with('-')) {
        let mut text = String::new();
        match (Texts {
            all: &all,
            depth: 0,
            term: false,
        })
        .pattern(value, &mut text)
        {
            Ok(()) => out.extend([key.as_str(), marks::IS, &text, marks::NEXT]),
            Err(why) => broken.push(format!("{key}: {why}")),
        }
    }
    (out, broken)
}

/// The compiled text of a key.
#[cfg_attr(test, expect(dead_code, reason = "the build's alone"))]
pub fn text<'a>(texts: &'a str, key: &str) -> Option<&'a str> {
    let mut all = texts.split(marks::NEXT);
    all.find_map(|text| text.strip_prefix(key)?.strip_prefix(marks::IS))
}

struct Texts<'a> {
    all: &'a BTreeMap<String, Pattern<&'a str>>,
    depth: usize,
    /// Within a term: it is given no values.
    term: bool,
}

impl Texts<'_> {
    fn pattern(&self, pattern: &Pattern<&str>, out: &mut String) -> Result<(), String> {
        for element in &pattern.elements {
            match element {
                PatternElement::TextElement { value } => plain(value, out)?,
                PatternElement::Placeable { expression } => self.expression(expression, out)?,
            }
        }
        Ok(())
    }

    fn expression(&self, expression: &Expression<&str>, out: &mut String) -> Result<(), String> {
        let (selector, variants) = match expression {
            Expression::Inline(inline) => return self.inline(inline, out),
            Expression::Select { selector, variants } => (selector, variants),
        };
        let InlineExpression::VariableReference { id } = selector else {
            return Err("only a value can choose".into());
        };
        self.speaks_of(id.name)?;
        out.extend([marks::CHOICE, id.name]);
        // The usual one comes last and has no key: it is taken where none before it is.
        let (usual, others): (Vec<_>, Vec<_>) = variants.iter().partition(|v| v.default);
        for variant in others.into_iter().chain(usual) {
            let key = match &variant.key {
                _ if variant.default => "",
                VariantKey::Identifier { name } => name,
                // A count is compared as it is written.
                VariantKey::NumberLiteral { value } if value.contains('.') => {
                    return Err(format!("[{value}] is no whole number"));
                }
                VariantKey::NumberLiteral { value } => value,
            };
            out.extend([marks::CASE, key, marks::IS]);
            self.pattern(&variant.value, out)?;
        }
        out.push_str(marks::END);
        Ok(())
    }

    fn speaks_of(&self, value: &str) -> Result<(), String> {
        match self.term {
            true => Err(format!("a term is given no {value}")),
            false => Ok(()),
        }
    }

    fn inline(&self, inline: &InlineExpression<&str>, out: &mut String) -> Result<(), String> {
        let within = match inline {
            InlineExpression::StringLiteral { value } => {
                return plain(&unescape_unicode_to_string(value), out);
            }
            InlineExpression::NumberLiteral { value } => return plain(value, out),
            InlineExpression::VariableReference { id } => {
                self.speaks_of(id.name)?;
                out.extend([marks::VALUE, id.name, marks::VALUE]);
                return Ok(());
            }
            InlineExpression::Placeable { expression } => return self.expression(expression, out),
            InlineExpression::MessageReference {
                id,
                attribute: None,
            } => id.name.to_string(),
            InlineExpression::TermReference {
                id,
                attribute: None,
                arguments: None,
            } => format!("-{}", id.name),
            _ => return Err("functions, attributes and arguments are not read".into()),
        };
        let text = self.all.get(&within);
        let text = text.ok_or_else(|| format!("there is no {within}"))?;
        if self.depth == DEEPEST {
            return Err(format!("{within} stands within itself"));
        }
        let deeper = Texts {
            all: self.all,
            depth: self.depth + 1,
            term: self.term || within.starts_with('-'),
        };
        deeper.pattern(text, out)
    }
}

fn plain(text: &str, out: &mut String) -> Result<(), String> {
    if text.bytes().any(|b| b <= marks::LAST) {
        return Err("a control character stands in it".into());
    }
    out.push_str(text);
    Ok(())
}

/// A language's plural rule for whole numbers: a letter for each number from nought on, and how many of the last are
/// repeated for ever. A language without rules has those of English.
pub fn plurals(code: &str) -> (String, usize) {
    let letter = |rules: &PluralRules, n: usize| match rules.select(n) {
        Ok(PluralCategory::ZERO) => 'z',
        Ok(PluralCategory::ONE) => 'o',
        Ok(PluralCategory::TWO) => 't',
        Ok(PluralCategory::FEW) => 'f',
        Ok(PluralCategory::MANY) => 'm',
        _ => 'x',
    };
    let rules = |tag: &str| {
        let tag: LanguageIdentifier = tag.parse().ok()?;
        PluralRules::create(tag, PluralRuleType::CARDINAL).ok()
    };
    let language = code.split('-').next().unwrap_or_default();
    let Some(rules) = [code, language, "en"].into_iter().find_map(rules) else {
        return ("x".into(), 1);
    };
    let all: Vec<char> = (0..HIGHEST).map(|n| letter(&rules, n)).collect();
    for period in [1, 10, 100, 1000] {
        // The first number from which all repeats.
        let first = (0..HIGHEST - period)
            .rev()
            .find(|n| all[*n] != all[n + period])
            .map_or(0, |n| n + 1);
        if first <= period.max(10) {
            return (all[..first + period].iter().collect(), period);
        }
    }
    (all.iter().collect(), 1)
}

/// Numbers below it are looked at for the plural rule: no count on a plan is as high.
const HIGHEST: usize = 10_000;
