//! JSON as text: how it is laid out for people, and lists that are bounded as they are read.

use serde::Serialize;
use serde::de::{Deserialize, Deserializer, Error as _, SeqAccess, Visitor};
use serde_json::Serializer;
use serde_json::ser::Formatter;
use std::cell::RefCell;
use std::marker::PhantomData;
use std::rc::Rc;
use std::{fmt, io};

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
    let mut layout = Layout::default();
    // Every key is a string and every number finite or null, so there is nothing to fail.
    let measured = write(value, &mut layout);
    debug_assert!(measured.is_ok(), "{measured:?}");
    layout.laying = Some(std::mem::take(&mut layout.sizes).into_iter());
    let laid = write(value, &mut layout);
    debug_assert!(laid.is_ok(), "{laid:?}");
    let mut out = layout.out.take();
    out.push(b'\n');
    String::from_utf8(out).unwrap_or_default()
}

/// Both passes by one serializer: what is compiled once weighs once.
fn write(value: &impl Serialize, layout: &mut Layout) -> serde_json::Result<()> {
    layout.out.take();
    let out = Out(Rc::clone(&layout.out));
    value.serialize(&mut Serializer::with_formatter(out, layout))
}

/// What was written, for the formatter to look at: a serializer hands it no more than a writer.
struct Out(Rc<RefCell<Vec<u8>>>);

impl io::Write for Out {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// A list or object as it would stand without a space.
#[derive(Clone, Copy, Default)]
struct Size {
    /// Its bytes, brackets included.
    bytes: usize,
    /// Whether it is a list whose first item is an object.
    of_objects: bool,
}

/// Widest line on which a whole list or object still stands.
const WIDTH: usize = 180;
/// Widest line on which a list of objects stands, where it is not a part of such a line.
const LIST_WIDTH: usize = 110;

/// First measures every list and object of a value, because whether one stands on a line is known only at its end; then lays
/// them out by their sizes.
#[derive(Default)]
struct Layout {
    out: Rc<RefCell<Vec<u8>>>,
    /// In order of beginning.
    sizes: Vec<Size>,
    /// While measuring: those that are open, the innermost last, and where each began.
    open: Vec<(usize, usize)>,
    /// While laying out: the sizes to come.
    laying: Option<std::vec::IntoIter<Size>>,
    /// While laying out, of each that is open, the innermost last: whether it stands on one line.
    flat: Vec<bool>,
}

impl Layout {
    fn begin(&mut self, w: &mut (impl io::Write + ?Sized), bracket: &[u8]) -> io::Result<()> {
        match &mut self.laying {
            None => {
                let written = self.out.borrow().len();
                // The first item of a list begins a byte after it.
                if bracket == b"{"
                    && let Some((n, from)) = self.open.last()
                    && written == from + 1
                {
                    self.sizes[*n].of_objects = true;
                }
                self.open.push((self.sizes.len(), written));
                self.sizes.push(Size::default());
            }
            Some(sizes) => {
                let size = sizes.next().unwrap_or_default();
                let depth = self.flat.len();
                let width = if size.of_objects { LIST_WIDTH } else { WIDTH };
                // The whole stands on lines of its own, even where it is short.
                let fits = size.bytes + 2 * depth <= width + 1 && depth > 0;
                let empty = size.bytes == 2;
                self.flat.push(fits || empty || self.is_flat());
            }
        }
        w.write_all(bracket)
    }

    fn end(&mut self, w: &mut (impl io::Write + ?Sized), bracket: &[u8]) -> io::Result<()> {
        if self.flat.pop() == Some(false) {
            self.line(w)?;
        }
        w.write_all(bracket)?;
        if let Some((n, from)) = self.open.pop() {
            self.sizes[n].bytes = self.out.borrow().len() - from;
        }
        Ok(())
    }

    fn item(&mut self, w: &mut (impl io::Write + ?Sized), first: bool) -> io::Result<()> {
        if self.laying.is_none() {
            return if first { Ok(()) } else { w.write_all(b",") };
        }
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

    fn line(&self, w: &mut (impl io::Write + ?Sized)) -> io::Result<()> {
        w.write_all(b"\n")?;
        self.flat.iter().try_for_each(|_| w.write_all(b"  "))
    }
}

impl Formatter for &mut Layout {
    fn begin_array<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.begin(w, b"[")
    }

    fn end_array<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.end(w, b"]")
    }

    fn begin_array_value<W>(&mut self, w: &mut W, first: bool) -> io::Result<()>
    where
        W: ?Sized + io::Write,
    {
        self.item(w, first)
    }

    fn begin_object<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.begin(w, b"{")
    }

    fn end_object<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        self.end(w, b"}")
    }

    fn begin_object_key<W>(&mut self, w: &mut W, first: bool) -> io::Result<()>
    where
        W: ?Sized + io::Write,
    {
        self.item(w, first)
    }

    fn begin_object_value<W: ?Sized + io::Write>(&mut self, w: &mut W) -> io::Result<()> {
        w.write_all(if self.laying.is_some() { b": " } else { b":" })
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
