//! JSON as text: how it is laid out for people, and what a reader's error says to them.

use super::short;
use crate::refusal::Refusal;
use crate::said::Arg;
use serde::Serialize;
use serde::de::{Deserialize, Deserializer, Error as _, SeqAccess, Visitor};
use serde_json::Serializer;
use serde_json::error::Category;
use serde_json::ser::Formatter;
use std::cell::Cell;
use std::marker::PhantomData;
use std::rc::Rc;
use std::{fmt, io};

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
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
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

/// Lays out a value as JSON for people: what fits on a line stays on it, so that a shoot and its growth are one line to read.
pub(super) fn lay_out(value: &impl Serialize) -> String {
    let mut sizes = Sizes::default();
    let mut out = Vec::new();
    let laid = sizes.measure(value).and_then(|()| {
        let lines = Lines::over(sizes.all);
        value.serialize(&mut Serializer::with_formatter(&mut out, lines))
    });
    // Every key is a string and every number finite or null, so there is nothing to fail.
    debug_assert!(laid.is_ok(), "{laid:?}");
    out.push(b'\n');
    String::from_utf8(out).unwrap_or_default()
}

/// A list or object as it would stand without a space.
#[derive(Clone, Copy, Default)]
struct Size {
    /// Its bytes, brackets included.
    bytes: usize,
    /// Whether it is a list whose first item is an object.
    of_objects: bool,
}

/// The size of every list and object of a value, in order of beginning: measured before any is laid out, because whether
/// one stands on a line is known only at its end.
#[derive(Default)]
struct Sizes {
    all: Vec<Size>,
    /// Those that are open, the innermost last, and where each began.
    open: Vec<(usize, usize)>,
    written: Rc<Cell<usize>>,
}

impl Sizes {
    fn measure(&mut self, value: &impl Serialize) -> serde_json::Result<()> {
        let count = Count(Rc::clone(&self.written));
        value.serialize(&mut Serializer::with_formatter(count, self))
    }

    fn begin(&mut self) {
        self.open.push((self.all.len(), self.written.get()));
        self.all.push(Size::default());
    }

    fn end(&mut self) {
        if let Some((n, from)) = self.open.pop() {
            self.all[n].bytes = self.written.get() - from;
        }
    }
}

/// Counts what is written to it.
struct Count(Rc<Cell<usize>>);

impl io::Write for Count {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.set(self.0.get() + bytes.len());
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Formatter for &mut Sizes {
    fn begin_array<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.begin();
        w.write_all(b"[")
    }

    fn end_array<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        w.write_all(b"]")?;
        self.end();
        Ok(())
    }

    fn begin_object<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        // The first item of a list begins a byte after it.
        if let Some((n, from)) = self.open.last()
            && self.written.get() == from + 1
        {
            self.all[*n].of_objects = true;
        }
        self.begin();
        w.write_all(b"{")
    }

    fn end_object<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        w.write_all(b"}")?;
        self.end();
        Ok(())
    }
}

/// Widest line on which a whole list or object still stands.
const WIDTH: usize = 180;
/// Widest line on which a list of objects stands, where it is not a part of such a line.
const LIST_WIDTH: usize = 110;

/// Lays lists and objects out by their sizes.
struct Lines {
    sizes: std::vec::IntoIter<Size>,
    /// Of each that is open, the innermost last: whether it stands on one line.
    flat: Vec<bool>,
}

impl Lines {
    fn over(sizes: Vec<Size>) -> Self {
        Self {
            sizes: sizes.into_iter(),
            flat: Vec::new(),
        }
    }

    fn begin<W: ?Sized + io::Write>(&mut self, w: &mut W, bracket: &[u8]) -> io::Result<()> {
        let size = self.sizes.next().unwrap_or_default();
        let depth = self.flat.len();
        let width = if size.of_objects { LIST_WIDTH } else { WIDTH };
        // The whole stands on lines of its own, even where it is short.
        let fits = size.bytes + 2 * depth <= width + 1 && depth > 0;
        let empty = size.bytes == 2;
        self.flat.push(fits || empty || self.is_flat());
        w.write_all(bracket)
    }

    fn end<W: ?Sized + io::Write>(&mut self, w: &mut W, bracket: &[u8]) -> io::Result<()> {
        if self.flat.pop() == Some(false) {
            self.line(w)?;
        }
        w.write_all(bracket)
    }

    fn item<W: ?Sized + io::Write>(&mut self, w: &mut W, first: bool) -> io::Result<()> {
        match (self.is_flat(), first) {
            (true, true) => Ok(()),
            (true, false) => w.write_all(b", "),
            (false, true) => self.line(w),
            (false, false) => w.write_all(b",").and_then(|()| self.line(w)),
        }
    }

    fn is_flat(&self) -> bool {
        self.flat.last() == Some(&true)
    }

    fn line<W: ?Sized + io::Write>(&self, w: &mut W) -> io::Result<()> {
        w.write_all(b"\n")?;
        self.flat.iter().try_for_each(|_| w.write_all(b"  "))
    }
}

impl Formatter for Lines {
    fn begin_array<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.begin(w, b"[")
    }

    fn end_array<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.end(w, b"]")
    }

    fn begin_array_value<W: ?Sized + io::Write>(
        &mut self,
        w: &mut W,
        first: bool,
    ) -> io::Result<()> {
        self.item(w, first)
    }

    fn begin_object<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.begin(w, b"{")
    }

    fn end_object<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.end(w, b"}")
    }

    fn begin_object_key<W: ?Sized + io::Write>(
        &mut self,
        w: &mut W,
        first: bool,
    ) -> io::Result<()> {
        self.item(w, first)
    }

    fn begin_object_value<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        w.write_all(b": ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_fits_stays_on_a_line() {
        let long = "x".repeat(190);
        let value = serde_json::json!({
            "a": {"b": [1, 2], "c": "q,:\"{"},
            "d": [],
            "e": [long, {}],
        });
        let expected = format!(
            "{{\n  \"a\": {{\"b\": [1, 2], \"c\": \"q,:\\\"{{\"}},\n  \"d\": [],\n  \"e\": [\n    \"{long}\",\n    {{}}\n  ]\n}}\n"
        );
        assert_eq!(lay_out(&value), expected);
        let same: serde_json::Value = serde_json::from_str(&expected).unwrap();
        assert_eq!(same, value);
    }

    #[test]
    fn a_list_of_objects_has_a_narrower_line() {
        let list = |n: usize| serde_json::json!({"a": [{"b": "x".repeat(n)}]});
        // With brackets and two spaces before it the list is a byte over its text.
        let narrow = LIST_WIDTH + 1 - 2 - r#"[{"b":""}]"#.len();
        assert_eq!(lay_out(&list(narrow)).lines().count(), 3);
        assert_eq!(lay_out(&list(narrow + 1)).lines().count(), 5);
    }
}
