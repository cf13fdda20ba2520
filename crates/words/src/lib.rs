//! Words for people: every text by key and language, with numbers put in with their units.
//!
//! A language is a folder of Fluent files in `lang`; the build finds it there. [`Words`] words what the core says
//! ([`Said`]) and everything that the drawing, the page and the command line show.
#![warn(missing_docs)]

mod language;
mod numbers;

pub use language::Language;

use cordonry::check::{Finding, Remedy};
use cordonry::refusal::Refusal;
use cordonry::row::{Name, Row, ShootId, TreeId};
use cordonry::said::{Arg, Args, Said, Wording};
use cordonry::units::LengthStyle;
use cordonry::work::Work;
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use numbers::{FINEST, Numbers};
use std::borrow::Cow;
use std::rc::Rc;
use unic_langid::LanguageIdentifier;

/// The texts of one language, with lengths in one style. A copy shares the texts.
#[derive(Clone)]
pub struct Words {
    language: Cow<'static, str>,
    /// The language's own texts first, then those of the language that has all.
    bundles: Rc<Vec<FluentBundle<FluentResource>>>,
    /// How lengths are shown.
    pub style: LengthStyle,
    strict: bool,
    numbers: Rc<Numbers>,
}

impl Default for Words {
    fn default() -> Self {
        Self::new(&Language::default(), LengthStyle::default())
    }
}

fn bundle(language: &Language) -> FluentBundle<FluentResource> {
    // What is no language tag has no plural rules of its own.
    let tag: LanguageIdentifier = language.code.parse().unwrap_or_default();
    let mut bundle = FluentBundle::new(vec![tag]);
    bundle.set_use_isolating(false);
    for file in &language.files {
        // A broken line in a language file costs that text alone; a test reads every file whole.
        let resource = FluentResource::try_new(file.to_string()).unwrap_or_else(|(r, _)| r);
        bundle.add_resource_overriding(resource);
    }
    bundle
}

impl Words {
    /// The texts of a language. What it lacks is worded by the language that has all.
    pub fn new(language: &Language, style: LengthStyle) -> Self {
        let mut bundles = vec![bundle(language)];
        if language.code != Language::WHOLE {
            bundles.push(bundle(&Language::default()));
        }
        let mut words = Self {
            language: language.code.clone(),
            bundles: Rc::new(bundles),
            style,
            strict: false,
            numbers: Rc::default(),
        };
        words.numbers = Rc::new(Numbers::of(&words));
        words
    }

    /// The texts in English and metric, for tests: a key without a text or a value that a text misses panics, where
    /// people would be shown the key or the value's name.
    pub fn strict() -> Self {
        Self::default().made_strict()
    }

    /// The same texts, which panic as [`Self::strict`] does.
    pub fn made_strict(self) -> Self {
        Self {
            strict: true,
            ..self
        }
    }

    /// The same texts, with lengths in that style.
    pub fn styled(&self, style: LengthStyle) -> Self {
        Self {
            style,
            ..self.clone()
        }
    }

    /// The code of the language.
    pub fn language(&self) -> &str {
        &self.language
    }

    /// Whether there is a text of that name.
    pub fn has(&self, key: &str) -> bool {
        self.bundles
            .iter()
            .any(|b| b.get_message(key).is_some_and(|m| m.value().is_some()))
    }

    /// The text `key` with its values put in; without such a text the key itself.
    pub fn text(&self, key: &str, args: &[(&str, Arg)]) -> String {
        let found = self
            .bundles
            .iter()
            .find_map(|b| Some((b, b.get_message(key)?.value()?)));
        let Some((bundle, pattern)) = found else {
            assert!(!self.strict, "there is no text {key}");
            return key.to_string();
        };
        let mut values = FluentArgs::new();
        for (name, arg) in args {
            values.set(*name, self.value(arg));
        }
        let mut errors = Vec::new();
        let text = bundle
            .format_pattern(pattern, Some(&values), &mut errors)
            .into_owned();
        assert!(
            !self.strict || errors.is_empty(),
            "text {key} with {args:?}: {errors:?}"
        );
        text
    }

    /// Something said, worded.
    pub fn say(&self, said: &Said) -> String {
        self.text(said.key, &said.args)
    }

    /// Values as a field holds a list of them.
    pub fn entries(&self, args: &[Arg]) -> String {
        let all: Vec<String> = args.iter().map(|a| self.arg(a)).collect();
        all.join(&self.plain("between-entries"))
    }

    /// The text `key` that speaks of nothing.
    pub fn plain(&self, key: &str) -> String {
        self.text(key, &[])
    }

    fn value(&self, arg: &Arg) -> FluentValue<'static> {
        match arg {
            Arg::Count(n) => FluentValue::from(*n),
            other => self.arg(other).into(),
        }
    }

    /// A value by itself, with its unit.
    pub fn arg(&self, arg: &Arg) -> String {
        match arg {
            Arg::Length(_)
            | Arg::Thickness(_)
            | Arg::Angle(_)
            | Arg::Share(_)
            | Arg::Number(..)
            | Arg::Field(..) => self.shown(arg, 0).unwrap_or_default(),
            Arg::Count(n) => n.to_string(),
            Arg::Text(text) => text.clone(),
            Arg::List(args) => {
                // A number and its unit stay on one line.
                let one = |arg: &Arg| self.arg(arg).replace(' ', "\u{a0}");
                let all: Vec<String> = args.iter().map(one).collect();
                all.join(&self.plain("between-values"))
            }
            Arg::Said(said) => self.say(said),
        }
    }

    /// A part's name: "upright 2 of 6, tree 3".
    pub fn name(&self, name: Name) -> String {
        self.say(&name.into())
    }

    /// A shoot's name in the row as it stands; a tree's alone when the shoot is not there.
    pub fn part(&self, row: &Row, tree: TreeId, shoot: Option<ShootId>) -> String {
        match shoot.and_then(|s| row.tree(tree).and_then(|t| t.name(s))) {
            Some(name) => self.name(name),
            None => self.text("name-tree", &[("tree", Arg::Count(tree.0.into()))]),
        }
    }

    /// What a piece of work does, without its subject.
    pub fn work(&self, work: &Work) -> String {
        self.say(&work.said())
    }

    /// A finding's sentence. What was measured and what is allowed are told finely enough to differ.
    pub fn finding(&self, finding: &Finding) -> String {
        let key = format!("finding-{}", finding.rule);
        let said = match self.told_apart(finding) {
            Some(args) => self.text(&key, &args),
            None => self.text(&key, &finding.args),
        };
        match finding.light_cost() {
            Some(_) => said + &self.text("finding-light-cost", &finding.args),
            None => said,
        }
    }

    /// The finding's values with more digits, where it speaks of measured and allowed and both would be worded alike.
    fn told_apart(&self, finding: &Finding) -> Option<Args> {
        let place = |value: f64| {
            let holds = |arg: &Arg| arg.number().is_some_and(|n| (n - value).abs() < 1e-9);
            finding.args.iter().position(|(_, arg)| holds(arg))
        };
        let (measured, allowed) = (place(finding.measured)?, place(finding.allowed)?);
        let shown = |i: usize, finer: usize| self.shown(&finding.args[i].1, finer);
        if measured == allowed || shown(measured, 0)? != shown(allowed, 0)? {
            return None;
        }
        let finer = (1..=FINEST)
            .find(|n| shown(measured, *n) != shown(allowed, *n))
            .unwrap_or(FINEST);
        let mut args = finding.args.clone();
        for i in [measured, allowed] {
            args[i].1 = Arg::Text(shown(i, finer)?);
        }
        Some(args)
    }

    /// What a remedy would do.
    pub fn remedy(&self, remedy: &Remedy) -> String {
        let mut all = vec![self.say(&remedy.said)];
        all.extend(remedy.also.iter().map(|also| self.say(&(*also).into())));
        all.join(&self.plain("between-effects"))
    }

    /// A refusal's sentence.
    pub fn refusal(&self, refusal: &Refusal) -> String {
        self.say(refusal)
    }
}

impl Wording for Words {
    fn say(&self, said: &Said) -> String {
        Self::say(self, said)
    }
}
