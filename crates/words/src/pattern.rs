//! A compiled text with its values put in.

use crate::marks::{CASE, CHOICE, END, IS, LAST, VALUE};
use crate::{Language, Words};
use cordonry::said::Arg;

/// What is put together.
pub(crate) struct Worded<'a> {
    pub words: &'a Words,
    /// Whose text it is: its plurals are that language's.
    pub language: Language,
    pub args: &'a [(&'a str, Arg)],
    pub out: String,
    /// A value of which the text speaks and that it was not given.
    pub lacks: Option<&'static str>,
}

impl Worded<'_> {
    /// Puts in a pattern up to its end, where it is to be shown, and gives what stands from there on.
    pub fn put(&mut self, mut text: &'static str, shown: bool) -> &'static str {
        loop {
            let marked = text.bytes().position(|b| b <= LAST);
            let (plain, marked) = text.split_at(marked.unwrap_or(text.len()));
            if shown {
                self.out.push_str(plain);
            }
            if let Some(value) = marked.strip_prefix(VALUE) {
                let (name, after) = cut(value, VALUE);
                text = after;
                if shown {
                    match self.worded(name) {
                        Some(value) => self.out.push_str(&value),
                        None => self.out.extend(["{$", name, "}"]),
                    }
                }
            } else if let Some(choice) = marked.strip_prefix(CHOICE) {
                text = self.choose(choice, shown);
            } else {
                return marked;
            }
        }
    }

    fn choose(&mut self, choice: &'static str, shown: bool) -> &'static str {
        let (name, mut cases) = cut(choice, CASE);
        let by = if shown { self.worded(name) } else { None };
        let plural = match self.arg(name) {
            Some(Arg::Count(n)) => Some(self.plural(n.unsigned_abs() as usize)),
            _ => None,
        };
        let mut open = shown;
        loop {
            let (key, pattern) = cut(cases, IS);
            let taken = key.is_empty()
                || match plural {
                    // A number's key is for counts alone.
                    None => by.as_deref() == Some(key) && key.as_bytes()[0] > b'9',
                    Some(plural) => by.as_deref() == Some(key) || plural == key,
                };
            let after = self.put(pattern, open && taken);
            open &= !taken;
            match after.strip_prefix(CASE) {
                Some(next) => cases = next,
                None => return after.strip_prefix(END).unwrap_or_default(),
            }
        }
    }

    fn arg(&self, name: &str) -> Option<&Arg> {
        self.args.iter().find(|(n, _)| *n == name).map(|(_, a)| a)
    }

    fn worded(&mut self, name: &'static str) -> Option<String> {
        let value = self.arg(name).map(|arg| self.words.arg(arg));
        if value.is_none() {
            self.lacks = Some(name);
        }
        value
    }

    /// The name of the plural that goes with so many.
    fn plural(&self, n: usize) -> &'static str {
        let (letters, period) = self.language.plurals;
        let first = letters.len() - period;
        let at = if n < first {
            n
        } else {
            first + (n - first) % period
        };
        match letters.as_bytes()[at] {
            b'z' => "zero",
            b'o' => "one",
            b't' => "two",
            b'f' => "few",
            b'm' => "many",
            _ => "other",
        }
    }
}

fn cut(text: &'static str, mark: &str) -> (&'static str, &'static str) {
    text.split_once(mark).unwrap_or((text, ""))
}
