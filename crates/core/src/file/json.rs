//! JSON as text: how it is laid out for people, and what a reader's error says to them.

use super::short;
use crate::refusal::Refusal;
use crate::said::Arg;
use serde::de::{Deserialize, Deserializer, Error as _, SeqAccess, Visitor};
use serde::{Serialize, Serializer};
use serde_json::error::Category;
use std::fmt;
use std::marker::PhantomData;

/// What is wrong with a JSON text, by line and column.
pub(super) fn refusal(error: &serde_json::Error) -> Refusal {
    let all = error.to_string();
    let reason = all.rsplit_once(" at line ").map_or(&*all, |(r, _)| r);
    let key = match error.classify() {
        Category::Eof => "refusal-file-cut",
        Category::Syntax | Category::Io => "refusal-file-damaged",
        Category::Data => "refusal-file-content",
    };
    Refusal::new(
        key,
        vec![
            ("line", Arg::Count(error.line() as i64)),
            ("column", Arg::Count(error.column() as i64)),
            ("reason", Arg::Text(short(reason))),
        ],
    )
}

/// A list of at most `N` items: a longer one is refused at its first item too many, not when all is read.
#[derive(Debug)]
pub(super) struct UpTo<T, const N: usize>(pub Vec<T>);

impl<T, const N: usize> Default for UpTo<T, N> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T, const N: usize> UpTo<T, N> {
    pub(super) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<T: Serialize, const N: usize> Serialize for UpTo<T, N> {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        self.0.serialize(s)
    }
}

impl<'de, T: Deserialize<'de>, const N: usize> Deserialize<'de> for UpTo<T, N> {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct List<T, const N: usize>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>, const N: usize> Visitor<'de> for List<T, N> {
            type Value = UpTo<T, N>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "a list of up to {N} items")
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Self::Value, A::Error> {
                let mut out = Vec::new();
                while let Some(item) = seq.next_element()? {
                    if out.len() >= N {
                        return Err(A::Error::custom(format!("more than {N} items")));
                    }
                    out.push(item);
                }
                Ok(UpTo(out))
            }
        }
        d.deserialize_seq(List(PhantomData))
    }
}

/// Widest line on which a whole list or object still stands.
const WIDTH: usize = 180;
/// Widest line on which a list of objects stands, where it is not a part of such a line.
const LIST_WIDTH: usize = 110;

/// Lays out compact JSON: what fits on a line stays on it, so that a shoot and its growth are one line to read.
pub(super) fn lay_out(compact: &str) -> String {
    let pairs = pairs(compact);
    let mut out = String::with_capacity(compact.len() * 2);
    let mut layout = Layout {
        text: compact,
        pairs: &pairs,
        next: 0,
        out: &mut out,
    };
    layout.part(0, compact.len(), 0);
    out.push('\n');
    out
}

/// Where each list and object begins and ends, in order of beginning.
fn pairs(text: &str) -> Vec<(usize, usize)> {
    let mut out: Vec<(usize, usize)> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    let mut quoted = false;
    let mut escaped = false;
    for (i, b) in text.bytes().enumerate() {
        if quoted {
            match b {
                _ if escaped => escaped = false,
                b'\\' => escaped = true,
                b'"' => quoted = false,
                _ => {}
            }
            continue;
        }
        match b {
            b'"' => quoted = true,
            b'[' | b'{' => {
                open.push(out.len());
                out.push((i, i));
            }
            b']' | b'}' => {
                if let Some(n) = open.pop() {
                    out[n].1 = i;
                }
            }
            _ => {}
        }
    }
    out
}

struct Layout<'a> {
    text: &'a str,
    pairs: &'a [(usize, usize)],
    next: usize,
    out: &'a mut String,
}

impl Layout<'_> {
    /// Writes `text[from..to]`, which stands `depth` deep.
    fn part(&mut self, from: usize, to: usize, depth: usize) {
        let bytes = self.text.as_bytes();
        let mut at = from;
        let mut written = from;
        let mut quoted = false;
        let mut escaped = false;
        while at < to {
            let b = bytes[at];
            if quoted {
                match b {
                    _ if escaped => escaped = false,
                    b'\\' => escaped = true,
                    b'"' => quoted = false,
                    _ => {}
                }
                at += 1;
                continue;
            }
            match b {
                b'"' => quoted = true,
                b'[' | b'{' => {
                    self.out.push_str(&self.text[written..at]);
                    let (_, end) = self.pairs[self.next];
                    self.next += 1;
                    self.container(at, end, depth);
                    at = end;
                    written = end + 1;
                }
                b',' => {
                    self.out.push_str(&self.text[written..=at]);
                    self.line(depth);
                    written = at + 1;
                }
                b':' => {
                    self.out.push_str(&self.text[written..=at]);
                    self.out.push(' ');
                    written = at + 1;
                }
                _ => {}
            }
            at += 1;
        }
        self.out.push_str(&self.text[written.min(to)..to]);
    }

    fn container(&mut self, from: usize, end: usize, depth: usize) {
        let list = self.text[from..].starts_with("[{");
        let width = if list { LIST_WIDTH } else { WIDTH };
        let fits = end - from + 2 * depth <= width && depth > 0;
        if end == from + 1 {
            self.out.push_str(&self.text[from..=end]);
        } else if fits {
            self.flat(&self.text[from..=end]);
            while self.pairs.get(self.next).is_some_and(|p| p.0 < end) {
                self.next += 1;
            }
        } else {
            self.out.push_str(&self.text[from..=from]);
            self.line(depth + 1);
            self.part(from + 1, end, depth + 1);
            self.line(depth);
            self.out.push_str(&self.text[end..=end]);
        }
    }

    /// Writes a part on one line, with a space after every comma and colon.
    fn flat(&mut self, part: &str) {
        let mut quoted = false;
        let mut escaped = false;
        for c in part.chars() {
            self.out.push(c);
            if quoted {
                match c {
                    _ if escaped => escaped = false,
                    '\\' => escaped = true,
                    '"' => quoted = false,
                    _ => {}
                }
            } else if c == '"' {
                quoted = true;
            } else if matches!(c, ',' | ':') {
                self.out.push(' ');
            }
        }
    }

    fn line(&mut self, depth: usize) {
        self.out.push('\n');
        for _ in 0..depth {
            self.out.push_str("  ");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fits_stays_on_a_line() {
        let long = "x".repeat(190);
        let compact = format!(r#"{{"a":{{"b":[1,2],"c":"q,:\"{{"}},"d":[],"e":["{long}",{{}}]}}"#);
        let expected = format!(
            "{{\n  \"a\": {{\"b\": [1, 2], \"c\": \"q,:\\\"{{\"}},\n  \"d\": [],\n  \"e\": [\n    \"{long}\",\n    {{}}\n  ]\n}}\n"
        );
        assert_eq!(lay_out(&compact), expected);
        let same: serde_json::Value = serde_json::from_str(&compact).unwrap();
        assert_eq!(
            serde_json::from_str::<serde_json::Value>(&expected).unwrap(),
            same
        );
    }
}
