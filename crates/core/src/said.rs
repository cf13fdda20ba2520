//! What is said to people: a key with its values. How it is worded, in which language and units, is not core's.

use std::fmt;

/// The values that a text speaks of, each by its name in the text.
pub type Args = Vec<(&'static str, Arg)>;

/// Something said: the name of its text, and what that speaks of.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// Name of the text in the language files.
    pub key: &'static str,
    /// What the text speaks of.
    pub args: Args,
}

impl Said {
    /// The text `key` with its values.
    pub fn new(key: &'static str, args: Args) -> Self {
        Self { key, args }
    }

    /// The text `key`, which speaks of nothing.
    pub fn plain(key: &'static str) -> Self {
        Self::new(key, Vec::new())
    }

    /// Has it speak of another number of parts, where it speaks of one.
    pub fn count(&mut self, parts: usize) {
        for (name, arg) in &mut self.args {
            if let ("count" | "buds", Arg::Count(count)) = (*name, arg) {
                *count = parts as i64;
            }
        }
    }

    /// Has it speak of something else under a name, where it has that.
    pub fn tell(&mut self, name: &str, other: Arg) {
        if let Some((_, arg)) = self.args.iter_mut().find(|(n, _)| *n == name) {
            *arg = other;
        }
    }

    /// The value of that name.
    pub fn arg(&self, name: &str) -> Option<&Arg> {
        self.args.iter().find(|(n, _)| *n == name).map(|(_, a)| a)
    }
}

impl fmt::Display for Said {
    /// Key and values, plainly: for tests and logs. Who shows it to people words it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.key)?;
        for (name, arg) in &self.args {
            write!(f, ", {name}: {arg}")?;
        }
        Ok(())
    }
}

/// Words what is said, in a language and its units. Core itself has no words; what it writes into a plan (a name, a
/// note) it is given by this.
pub trait Wording {
    /// The text with its values.
    fn say(&self, said: &Said) -> String;
}

/// What a number measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// A length or place in mm, typed in metres or feet and inches.
    Length,
    /// A thickness or short length in mm, typed in millimetres or inches.
    Thickness,
    /// Degrees.
    Angle,
    /// A share of 1, typed in per cent.
    Share,
    /// A whole number.
    Count,
    /// Any other number.
    Number,
}

impl Quantity {
    /// The value in a text for people.
    pub fn arg(self, value: f64) -> Arg {
        match self {
            Self::Length => Arg::Length(value),
            Self::Thickness => Arg::Thickness(value),
            Self::Angle => Arg::Angle(value),
            Self::Share => Arg::Share(value),
            Self::Count => Arg::Number(value, 0),
            Self::Number => Arg::Number(value, if libm::trunc(value) == value { 0 } else { 2 }),
        }
    }
}

/// Whether a sign is one that a terminal obeys, or that shows a line in another direction than it has. Tabs and line ends
/// are such signs too.
pub fn is_obeyed(c: char) -> bool {
    let turns = matches!(c, '\u{200e}' | '\u{200f}' | '\u{061c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || c.is_control()
}

/// The beginning of a text that may be long and may hold anything.
pub fn beginning(text: &str, longest: usize) -> String {
    let clean = |c: char| if is_obeyed(c) { ' ' } else { c };
    let mut out: String = text.chars().take(longest).map(clean).collect();
    if text.chars().nth(longest).is_some() {
        out.push('…');
    }
    out
}

/// A value in a text; its unit is put on when it is worded.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg {
    /// A length in mm.
    Length(f64),
    /// A thickness in mm.
    Thickness(f64),
    /// An angle in degrees.
    Angle(f64),
    /// A share of 1, shown as per cent.
    Share(f64),
    /// A count, a leaf or a tree's number; a text may choose its plural by it.
    Count(i64),
    /// Any other number, to so many decimals.
    Number(f64, usize),
    /// A value as a field holds it: with its unit, and fine enough that reading it gives the value again.
    Field(Quantity, f64),
    /// A text as it is.
    Text(String),
    /// Several values, one after the other.
    List(Vec<Arg>),
    /// Something said within it: a part's name, the name of a measure, why something was refused.
    Said(Box<Said>),
}

impl Arg {
    /// Whether something is so, for a text to choose by.
    pub fn yes(so: bool) -> Self {
        Self::Text(if so { "yes" } else { "no" }.into())
    }

    /// The text `key`, which speaks of nothing, within another.
    pub fn key(key: &'static str) -> Self {
        Said::plain(key).into()
    }

    /// A value from a file: where it is long, its beginning and how long it is.
    pub fn short(text: &str) -> Self {
        const LONGEST: usize = 60;
        let shown = Self::Text(beginning(text, LONGEST));
        if text.chars().nth(LONGEST).is_none() {
            return shown;
        }
        let count = Self::Count(text.chars().count() as i64);
        Said::new("shortened", vec![("text", shown), ("count", count)]).into()
    }

    /// What was typed and could not be read, cut short.
    pub fn quoted(text: &str) -> Self {
        match text.trim() {
            "" => Self::key("no-number"),
            other => Said::new("quoted", vec![("text", Self::short(other))]).into(),
        }
    }

    /// The value of a measure; `None` for counts and texts.
    pub fn number(&self) -> Option<f64> {
        match self {
            Self::Length(n)
            | Self::Thickness(n)
            | Self::Angle(n)
            | Self::Share(n)
            | Self::Number(n, _)
            | Self::Field(_, n) => Some(*n),
            Self::Count(_) | Self::Text(_) | Self::List(_) | Self::Said(_) => None,
        }
    }
}

impl From<Said> for Arg {
    fn from(said: Said) -> Self {
        Self::Said(Box::new(said))
    }
}

impl fmt::Display for Arg {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(n) | Self::Thickness(n) => write!(f, "{n} mm"),
            Self::Angle(n) => write!(f, "{n}°"),
            Self::Share(n) | Self::Number(n, _) | Self::Field(_, n) => write!(f, "{n}"),
            Self::Count(n) => write!(f, "{n}"),
            Self::Text(text) => f.write_str(text),
            Self::List(args) => args.iter().try_for_each(|a| write!(f, "{a}; ")),
            Self::Said(said) => write!(f, "({said})"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_long_is_cut_and_says_how_long_it_was() {
        assert_eq!(Arg::short("0.8x"), Arg::Text("0.8x".into()));
        assert_eq!(
            Arg::short("a\u{1b}b\u{202e}\nc"),
            Arg::Text("a b  c".into())
        );
        let ends = |n: usize| Arg::short(&"ü".repeat(n)).to_string();
        assert_eq!(ends(60), "ü".repeat(60));
        assert_eq!(
            ends(61),
            format!("(shortened, text: {}…, count: 61)", "ü".repeat(60))
        );
    }

    #[test]
    fn said_plainly() {
        let part = Said::new("name-tree", vec![("tree", Arg::Count(3))]);
        let said = Said::new(
            "refusal-rise",
            vec![("part", part.into()), ("value", Arg::Angle(95.0))],
        );
        assert_eq!(
            said.to_string(),
            "refusal-rise, part: (name-tree, tree: 3), value: 95°"
        );
        assert_eq!(said.arg("value"), Some(&Arg::Angle(95.0)));
        assert_eq!(said.arg("low"), None);
    }
}
