//! Words for people: every text by key and language, with numbers put in with their units.

use crate::check::{Finding, Remedy};
use crate::refusal::Refusal;
use crate::row::{Name, Row, ShootId, TreeId};
use crate::said::{Arg, Args, Said};
use crate::units::{LengthStyle, fixed, show_length, show_thickness};
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use unic_langid::{LanguageIdentifier, langid};

/// Most digits beyond the usual with which two values are told apart.
const FINEST: usize = 3;

/// The languages there are texts in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Language {
    /// English.
    #[default]
    English,
}

impl Language {
    fn id(self) -> LanguageIdentifier {
        match self {
            Self::English => langid!("en"),
        }
    }

    fn files(self) -> [&'static str; 3] {
        match self {
            Self::English => [
                include_str!("../../../www/lang/en/row.ftl"),
                include_str!("../../../www/lang/en/page.ftl"),
                include_str!("../../../www/lang/en/draw.ftl"),
            ],
        }
    }
}

/// The texts of one language, with lengths in one style.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    /// How lengths are shown.
    pub style: LengthStyle,
}

impl Default for Words {
    fn default() -> Self {
        Self::new(Language::default(), LengthStyle::default())
    }
}

impl Words {
    /// The texts of a language.
    pub fn new(language: Language, style: LengthStyle) -> Self {
        let mut bundle = FluentBundle::new(vec![language.id()]);
        bundle.set_use_isolating(false);
        for file in language.files() {
            // A broken line in a language file costs that text alone; a test reads every file whole.
            let resource = FluentResource::try_new(file.to_string()).unwrap_or_else(|(r, _)| r);
            bundle.add_resource_overriding(resource);
        }
        Self { bundle, style }
    }

    /// Whether there is a text of that name.
    pub fn has(&self, key: &str) -> bool {
        self.bundle
            .get_message(key)
            .is_some_and(|m| m.value().is_some())
    }

    /// The text `key` with its values put in; without such a text the key itself.
    pub fn text(&self, key: &str, args: &[(&str, Arg)]) -> String {
        let Some(pattern) = self.bundle.get_message(key).and_then(|m| m.value()) else {
            return key.to_string();
        };
        let mut values = FluentArgs::new();
        for (name, arg) in args {
            values.set(*name, self.value(arg));
        }
        let mut errors = Vec::new();
        self.bundle
            .format_pattern(pattern, Some(&values), &mut errors)
            .into_owned()
    }

    /// Something said, worded.
    pub fn say(&self, said: &Said) -> String {
        self.text(said.key, &said.args)
    }

    /// The text `key` that speaks of nothing.
    pub fn plain(&self, key: &str) -> String {
        self.text(key, &[])
    }

    fn value(&self, arg: &Arg) -> FluentValue<'static> {
        match arg {
            Arg::Length(_)
            | Arg::Thickness(_)
            | Arg::Angle(_)
            | Arg::Share(_)
            | Arg::Number(..) => self.shown(arg, 0).unwrap_or_default().into(),
            Arg::Count(n) => FluentValue::from(*n),
            Arg::Text(text) => text.clone().into(),
            Arg::Said(said) => self.say(said).into(),
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
    pub fn work(&self, work: &crate::work::Work) -> String {
        self.say(&work.said())
    }

    /// A finding's sentence. What was measured and what is allowed are told finely enough to differ.
    pub fn finding(&self, finding: &Finding) -> String {
        let key = format!("finding-{}", finding.rule);
        match self.told_apart(finding) {
            Some(args) => self.text(&key, &args),
            None => self.text(&key, &finding.args),
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

    /// A value with its unit, to so many digits more than is usual.
    fn shown(&self, arg: &Arg, finer: usize) -> Option<String> {
        Some(match arg {
            Arg::Length(mm) if finer == 0 => show_length(*mm, self.style),
            Arg::Thickness(mm) if finer == 0 => show_thickness(*mm, self.style),
            Arg::Length(mm) | Arg::Thickness(mm) => match self.style {
                LengthStyle::Metric => format!("{} mm", fixed(*mm, finer - 1)),
                LengthStyle::FeetInches => format!("{} in", fixed(mm / 25.4, 1 + finer)),
            },
            Arg::Angle(deg) => format!("{}°", fixed(*deg, finer)),
            Arg::Share(share) => format!("{} %", fixed(share * 100.0, finer)),
            Arg::Number(n, places) => fixed(*n, places + finer),
            _ => return None,
        })
    }

    /// What a remedy would do.
    pub fn remedy(&self, remedy: &Remedy) -> String {
        self.say(&remedy.said)
    }

    /// A refusal's sentence.
    pub fn refusal(&self, refusal: &Refusal) -> String {
        self.say(refusal)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_language_file_reads_whole() {
        for file in Language::English.files() {
            if let Err((_, errors)) = FluentResource::try_new(file.to_string()) {
                panic!("{errors:?}");
            }
        }
    }

    #[test]
    fn values_carry_their_units() {
        let words = Words::default();
        let text = words.text(
            "refusal-limit",
            &[
                ("limit", Arg::Text("gap_max_mm".into())),
                ("value", Arg::Number(-1.0, 0)),
                ("low", Arg::Number(0.0, 0)),
                ("high", Arg::Number(1000.0, 0)),
            ],
        );
        assert_eq!(
            text,
            "Limit gap_max_mm: −1 is refused; 0 to 1000 is accepted"
        );
    }
}
