//! Words for people: every text by key and language, with numbers put in with their units.
//!
//! A language is a folder of Fluent files in `lang`; the build finds it there and compiles it. [`Words`] words what the core says
//! ([`Said`]) and everything that the drawing, the page and the command line show.
#![warn(missing_docs)]

mod language;
mod marks;
mod numbers;
mod pattern;

pub use language::Language;

use cordonry::advise::Stuck;
use cordonry::check::{Also, Finding, Matter, Remedy, Size};
use cordonry::pose::{Name, PosedRow};
use cordonry::refusal::Refusal;
use cordonry::row::{ShootId, TreeId};
use cordonry::said::{Arg, Args, Said, Wording};
use cordonry::units::LengthStyle;
use cordonry::work::Work;
use numbers::{FINEST, Numbers};
use pattern::Worded;
use std::rc::Rc;

/// The texts of one language, with lengths in one style. A copy shares the texts.
#[derive(Clone)]
pub struct Words {
    /// The language's own texts first, then those of the language that has all.
    languages: Rc<Vec<Texts>>,
    /// How lengths are shown.
    pub style: LengthStyle,
    strict: bool,
    numbers: Rc<Numbers>,
}

impl Default for Words {
    fn default() -> Self {
        Self::new(Language::default(), LengthStyle::default())
    }
}

/// A language with its texts where they are found: each key with its compiled text, in order of keys.
type Texts = (Language, Vec<(&'static str, &'static str)>);

impl Words {
    /// The texts of a language. What it lacks is worded by the language that has all.
    pub fn new(language: Language, style: LengthStyle) -> Self {
        let whole = Language::default();
        let mut languages = vec![language];
        if language.code != whole.code {
            languages.push(whole);
        }
        let texts = languages.into_iter().map(|l| (l, l.pairs().collect()));
        let mut words = Self {
            languages: Rc::new(texts.collect()),
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

    /// The same texts, and those of more files, first those of the same language.
    pub fn with(&self, more: impl IntoIterator<Item = Language>) -> Self {
        let more = more.into_iter().map(|l| (l, l.pairs().collect()));
        let all = self.languages.iter().cloned().chain(more);
        Self {
            languages: Rc::new(all.collect()),
            ..self.clone()
        }
    }

    /// The same texts, with lengths in that style.
    pub fn styled(&self, style: LengthStyle) -> Self {
        Self {
            style,
            ..self.clone()
        }
    }

    /// The language.
    pub fn language(&self) -> Language {
        self.languages[0].0
    }

    /// The compiled text of that name, and whose it is.
    fn found(&self, key: &str) -> Option<(Language, &'static str)> {
        self.languages.iter().find_map(|(language, texts)| {
            let at = texts.binary_search_by(|(k, _)| (*k).cmp(key)).ok()?;
            Some((*language, texts[at].1))
        })
    }

    /// Whether there is a text of that name.
    pub fn has(&self, key: &str) -> bool {
        self.found(key).is_some()
    }

    /// The text `key` with its values put in; without such a text the key itself.
    pub fn text(&self, key: &str, args: &[(&str, Arg)]) -> String {
        let Some((language, text)) = self.found(key) else {
            assert!(!self.strict, "there is no text {key}");
            return key.to_string();
        };
        let mut worded = Worded {
            words: self,
            language,
            args,
            out: String::new(),
            lacks: None,
        };
        worded.put(text, true);
        let lacks = worded.lacks.filter(|_| self.strict);
        assert!(lacks.is_none(), "text {key} lacks a value: {lacks:?}");
        worded.out
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

    /// A part's name in the row, with its bay; a tree's alone when the shoot is not there.
    pub fn part(&self, row: &PosedRow, tree: TreeId, shoot: Option<ShootId>) -> String {
        self.say(&row.called(tree, shoot))
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

    /// A matter's sentence: what its findings come to together, or what its first finding says. `findings` are all that were
    /// found.
    pub fn matter(&self, matter: &Matter, findings: &[&Finding]) -> String {
        self.of_matter(matter, findings, |key| key.to_string())
    }

    /// The same as what stands there, not as what is to be done.
    pub fn found_matter(&self, matter: &Matter, findings: &[&Finding]) -> String {
        self.of_matter(matter, findings, |key| {
            let own = key.split_once('-');
            let found = own.map(|(_, cause)| format!("found-{cause}"));
            found.filter(|f| self.has(f)).unwrap_or_else(|| key.into())
        })
    }

    fn of_matter(
        &self,
        matter: &Matter,
        findings: &[&Finding],
        key: impl Fn(&str) -> String,
    ) -> String {
        let Some(together) = &matter.said else {
            let first = matter.findings.first().and_then(|i| findings.get(*i));
            return first.map_or_else(String::new, |f| self.finding(f));
        };
        let said = self.text(&key(together.key), &together.args);
        match matter.light > 0.0 && matter.size != Size::Light(matter.light) {
            true => {
                let costs = [("costs", Arg::Length(matter.light))];
                said + &self.text("finding-light-cost", &costs)
            }
            false => said,
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
        self.done(&remedy.said, &remedy.also)
    }

    /// What is done, and what it does besides.
    pub fn done(&self, said: &Said, also: &[Also]) -> String {
        let mut all = vec![self.say(said)];
        all.extend(also.iter().map(|also| self.say(&(*also).into())));
        all.join(&self.plain("between-effects"))
    }

    /// Why a draft does not mend something.
    pub fn stuck(&self, why: &Stuck) -> String {
        match why {
            Stuck::Graver(Some(finding)) => self.graver(finding),
            why => self.plain(why.word()),
        }
    }

    /// Why no remedy is offered: what the first that was tried makes graver.
    pub fn graver(&self, finding: &Finding) -> String {
        let args = [("finding", Arg::Text(self.finding(finding)))];
        self.text("stuck-graver-by", &args)
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
