//! From bytes to text: as spreadsheets save it, and by name what is no text at all.
//!
//! The few encodings are read here: a library of all of them brings tables of 128 kB compressed into the page's module,
//! whichever of them are asked for.

use super::{MAX_BYTES, foreign, too_large};
use crate::refusal::Refusal;
use crate::said::Arg;
use std::borrow::Cow;

/// How a text was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Encoding {
    Utf8,
    Utf16,
    Windows1252,
}

impl Encoding {
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Utf8 => "UTF-8",
            Self::Utf16 => "UTF-16",
            Self::Windows1252 => "Windows-1252",
        }
    }
}

/// The text of a file, without a byte order mark.
pub(super) struct Text<'a> {
    pub text: Cow<'a, str>,
    pub encoding: Encoding,
}

impl<'a> Text<'a> {
    /// UTF-8, or UTF-16 as its marks or its every other byte say; what is neither may be taken as Windows-1252, in
    /// which western spreadsheets save.
    pub(super) fn read(bytes: &'a [u8], wanted: &'static str) -> Result<Self, Refusal> {
        if bytes.len() > MAX_BYTES {
            return Err(too_large(bytes.len() as u64));
        }
        if let Some(kind) = foreign::packed(bytes) {
            return Err(foreign::refusal(wanted, kind));
        }
        let out = match utf16(bytes) {
            Some(order) => Self {
                text: Cow::Owned(from_utf16(bytes, order)?),
                encoding: Encoding::Utf16,
            },
            None => Self::narrow(bytes, wanted == foreign::TABLE)?,
        };
        if out.text.trim().is_empty() {
            return Err(Refusal::new("refusal-file-empty", vec![]));
        }
        Ok(out)
    }

    fn narrow(bytes: &'a [u8], western: bool) -> Result<Self, Refusal> {
        match std::str::from_utf8(bytes) {
            Ok(text) => Ok(Self {
                text: Cow::Borrowed(text.strip_prefix('\u{feff}').unwrap_or(text)),
                encoding: Encoding::Utf8,
            }),
            Err(_) if western => Ok(Self {
                text: Cow::Owned(from_windows_1252(bytes)?),
                encoding: Encoding::Windows1252,
            }),
            Err(e) => Err(no_text(&bytes[..e.valid_up_to()])),
        }
    }
}

/// The refusal of what is no text from here on.
fn no_text(before: &[u8]) -> Refusal {
    let line = before.iter().filter(|b| **b == b'\n').count();
    Refusal::new(
        "refusal-file-text",
        vec![("line", Arg::Count(line as i64 + 1))],
    )
}

/// Which byte of two comes first.
#[derive(Clone, Copy)]
enum Order {
    Little,
    Big,
}

/// Whether a text is UTF-16: by its mark, or where that is missing by the empty half of the first letters.
fn utf16(bytes: &[u8]) -> Option<Order> {
    match bytes {
        [0xff, 0xfe, ..] => Some(Order::Little),
        [0xfe, 0xff, ..] => Some(Order::Big),
        [a, 0, b, 0, ..] if *a != 0 && *b != 0 => Some(Order::Little),
        [0, a, 0, b, ..] if *a != 0 && *b != 0 => Some(Order::Big),
        _ => None,
    }
}

fn from_utf16(bytes: &[u8], order: Order) -> Result<String, Refusal> {
    let pairs = bytes.chunks_exact(2);
    let cut = !pairs.remainder().is_empty();
    let units = pairs.map(|pair| match order {
        Order::Little => u16::from_le_bytes([pair[0], pair[1]]),
        Order::Big => u16::from_be_bytes([pair[0], pair[1]]),
    });
    let mut out = String::with_capacity(bytes.len() / 2);
    for c in char::decode_utf16(units) {
        match c {
            Ok('\u{feff}') if out.is_empty() => {}
            Ok('\0') | Err(_) => return Err(no_text(out.as_bytes())),
            Ok(c) => out.push(c),
        }
    }
    match cut {
        true => Err(no_text(out.as_bytes())),
        false => Ok(out),
    }
}

/// What Windows-1252 has at 0x80 to 0x9f; all else stands where Unicode has it. Published: the WHATWG's Encoding
/// Standard. Its five empty places are no text.
const HIGH: [char; 32] = [
    '€', '\0', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\0', 'Ž', '\0', '\0', '‘',
    '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\0', 'ž', 'Ÿ',
];

fn from_windows_1252(bytes: &[u8]) -> Result<String, Refusal> {
    let mut out = String::with_capacity(bytes.len() + bytes.len() / 8);
    for (n, b) in bytes.iter().enumerate() {
        let c = match b {
            0x80..=0x9f => HIGH[usize::from(b - 0x80)],
            _ => char::from(*b),
        };
        if c.is_control() && !matches!(c, '\t' | '\n' | '\r') {
            return Err(no_text(&bytes[..n]));
        }
        out.push(c);
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(bytes: &[u8]) -> Result<(String, Encoding), Refusal> {
        Text::read(bytes, foreign::TABLE).map(|t| (t.text.into_owned(), t.encoding))
    }

    #[test]
    fn text_is_read_as_it_was_saved() {
        let text = "tree;Bäume größer „12 €“\r\n";
        let units: Vec<u16> = text.encode_utf16().collect();
        let little: Vec<u8> = units.iter().flat_map(|u| u.to_le_bytes()).collect();
        let big: Vec<u8> = units.iter().flat_map(|u| u.to_be_bytes()).collect();
        let marked = |mark: &[u8], body: &[u8]| [mark, body].concat();
        let western = b"tree;B\xe4ume gr\xf6\xdfer \x8412 \x80\x93\r\n";
        for (bytes, encoding) in [
            (text.as_bytes().to_vec(), Encoding::Utf8),
            (marked(b"\xef\xbb\xbf", text.as_bytes()), Encoding::Utf8),
            (marked(b"\xff\xfe", &little), Encoding::Utf16),
            (marked(b"\xfe\xff", &big), Encoding::Utf16),
            (little, Encoding::Utf16),
            (big, Encoding::Utf16),
            (western.to_vec(), Encoding::Windows1252),
        ] {
            assert_eq!(read(&bytes), Ok((text.to_string(), encoding)), "{bytes:x?}");
        }
    }

    #[test]
    fn what_is_no_text_is_refused_with_its_line() {
        for (bytes, line) in [
            (&b"a\nb\xe9\x81"[..], 2),
            (b"\xe9\n\n\x07", 3),
            (b"\xff\xfea\0\n\0\0\0", 2),
            (b"\xff\xfea\0\n\0b", 2),
            (b"\xff\xfe\0\xd8\0\xd8", 1),
        ] {
            let why = read(bytes).map(|_| ()).unwrap_err();
            assert_eq!(why.key, "refusal-file-text");
            assert_eq!(why.args[0].1, Arg::Count(line), "{bytes:x?}");
        }
        // A plan is UTF-8 or UTF-16: what is not was damaged.
        assert!(Text::read(b"{\"name\": \"B\xe4ume\"}", foreign::PLAN).is_err());
    }
}
