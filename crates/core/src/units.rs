//! Lengths in whole millimetres, angles in tenths of a degree, and how people write lengths.

use crate::said::{Arg, Said};
use serde::{Deserialize, Serialize};
use std::fmt;
use std::ops::{Add, Neg, Sub};

/// A length or place in whole millimetres.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Mm(pub i32);

impl Mm {
    /// The nearest whole millimetre. A value that is not finite gives 0; one out of range the nearest end.
    pub fn round(mm: f64) -> Self {
        // A float-to-int cast saturates, and takes NaN to 0.
        Self(libm::round(mm) as i32)
    }

    /// The same length as a number of millimetres.
    pub fn f(self) -> f64 {
        f64::from(self.0)
    }
}

impl Add for Mm {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Mm {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Neg for Mm {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.saturating_neg())
    }
}

impl fmt::Display for Mm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

/// An angle in degrees, held to a tenth so that it is written and read without loss.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Deg(i32);

impl Deg {
    /// The nearest tenth of a degree; not finite gives 0.
    pub fn new(degrees: f64) -> Self {
        Self(libm::round(degrees * 10.0) as i32)
    }

    /// Degrees.
    pub fn degrees(self) -> f64 {
        f64::from(self.0) / 10.0
    }

    /// Radians.
    pub fn radians(self) -> f64 {
        self.degrees().to_radians()
    }
}

impl Serialize for Deg {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        if self.0 % 10 == 0 {
            s.serialize_i32(self.0 / 10)
        } else {
            s.serialize_f64(self.degrees())
        }
    }
}

impl<'de> Deserialize<'de> for Deg {
    fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let degrees = f64::deserialize(d)?;
        if !(-360.0..=360.0).contains(&degrees) {
            return Err(serde::de::Error::custom(format!(
                "angle {degrees} is outside -360 to 360 degrees"
            )));
        }
        Ok(Self::new(degrees))
    }
}

/// How lengths are shown and, where no unit is written, read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LengthStyle {
    /// Metres; millimetres for thickness.
    #[default]
    Metric,
    /// Feet and inches (US customary).
    FeetInches,
}

/// The unit taken for a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BareUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches of 25.4 mm.
    Inch,
    /// Feet of 304.8 mm.
    Foot,
}

impl BareUnit {
    /// Millimetres in one of the unit.
    pub fn millimetres(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Centimetre => 10.0,
            Self::Metre => 1000.0,
            Self::Inch => 25.4,
            Self::Foot => 304.8,
        }
    }

    /// The unit of that name or sign, in small letters.
    pub(crate) fn named(word: &str) -> Option<Self> {
        Some(match word {
            "mm" => Self::Millimetre,
            "cm" => Self::Centimetre,
            "m" => Self::Metre,
            "in" | "inch" | "inches" | "\"" | "″" | "”" | "''" => Self::Inch,
            "ft" | "foot" | "feet" | "'" | "′" | "’" => Self::Foot,
            _ => return None,
        })
    }
}

/// Reads a length as people write it, in millimetres: `1.5 m`, `1,5 m`, `150 cm`, `5 ft 6 in`,
/// `5'6"`, `66 in`, `5 1/2 in`; a bare number is in `bare`. A comma between digits is a decimal comma.
///
/// # Errors
/// What about the text could not be read. Lengths beyond ±10 km are refused, and millimetres of which a mark may stand for
/// thousands as well as for decimals: `1,500 mm`.
pub fn parse_length(text: &str, bare: BareUnit) -> Result<f64, Said> {
    read_length(text, bare, true)
}

/// As [`parse_length`], for a thickness, of which nobody writes thousands of millimetres: `14.500` is 14.5 mm.
///
/// # Errors
/// As [`parse_length`].
pub fn parse_thickness(text: &str, bare: BareUnit) -> Result<f64, Said> {
    read_length(text, bare, false)
}

fn read_length(text: &str, bare: BareUnit, thousands: bool) -> Result<f64, Said> {
    let text = plain_fractions(text.trim());
    let text = text.as_str();
    let (negative, body) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text),
    };
    if body.is_empty() {
        return Err(Said::plain("number-none"));
    }
    let mut total = 0.0;
    let mut held: Option<f64> = None;
    let mut doubtful = None;
    let in_one_way = |unit, doubtful: Option<&str>| match doubtful {
        Some(word) if unit == BareUnit::Millimetre => Err(about("number-thousands", word)),
        _ => Ok(()),
    };
    let mut unit_before: Option<BareUnit> = None;
    for token in tokens(body) {
        match token {
            Token::Number(word) => {
                let n = parse_number(word)?;
                doubtful = Some(word).filter(|w| thousands && may_be_thousands(w));
                held = match (held, word.contains('/')) {
                    (None, _) => Some(n),
                    // A whole number and a fraction: 5 1/2.
                    (Some(whole), true) => Some(whole + n),
                    (Some(_), false) => {
                        return Err(about("number-two", text));
                    }
                };
            }
            Token::Word(word) => {
                let unit = BareUnit::named(&word.to_lowercase()).ok_or_else(|| {
                    // Of a text without a number nobody asks for the unit.
                    match body.contains(|c: char| c.is_ascii_digit()) {
                        true => about("number-unit", word),
                        false => about("number-word", text),
                    }
                })?;
                let n = held.take().ok_or_else(|| about("number-before", word))?;
                in_one_way(unit, doubtful.take())?;
                less_than_a_foot(unit_before, unit, n, text)?;
                total += n * unit.millimetres();
                unit_before = Some(unit);
            }
        }
    }
    if let Some(n) = held {
        // 5'6 means five feet six inches; elsewhere a number after a unit is unclear.
        let unit = match unit_before {
            None => bare,
            Some(BareUnit::Foot) => BareUnit::Inch,
            Some(_) => return Err(about("number-bare", text)),
        };
        in_one_way(unit, doubtful)?;
        less_than_a_foot(unit_before, unit, n, text)?;
        total += n * unit.millimetres();
    }
    if !total.is_finite() || total > 1e7 {
        return Err(about("number-long", text));
    }
    Ok(if negative { -total } else { total })
}

/// Refuses inches behind feet that make a foot or more: of 5'13" nobody knows which of the two is the slip.
fn less_than_a_foot(
    before: Option<BareUnit>,
    unit: BareUnit,
    n: f64,
    text: &str,
) -> Result<(), Said> {
    match (before, unit) {
        (Some(BareUnit::Foot), BareUnit::Inch) if n >= 12.0 => Err(about("number-inches", text)),
        _ => Ok(()),
    }
}

/// What is wrong about a text.
fn about(key: &'static str, text: &str) -> Said {
    Said::new(key, vec![("text", Arg::short(text))])
}

/// Fractions of one sign as they are printed, `½`, as they are typed.
fn plain_fractions(text: &str) -> String {
    let typed = [("½", " 1/2"), ("¼", " 1/4"), ("¾", " 3/4")];
    typed
        .iter()
        .fold(text.to_string(), |t, (sign, word)| t.replace(sign, word))
}

enum Token<'a> {
    Number(&'a str),
    Word(&'a str),
}

fn tokens(text: &str) -> Vec<Token<'_>> {
    let numeric = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '/');
    let mut out = Vec::new();
    let mut rest = text.trim_start();
    while let Some(first) = rest.chars().next() {
        let number = numeric(first);
        let end = rest
            .find(|c: char| c.is_whitespace() || numeric(c) != number)
            .unwrap_or(rest.len());
        let (head, tail) = rest.split_at(end);
        out.push(if number {
            Token::Number(head)
        } else {
            Token::Word(head)
        });
        rest = tail.trim_start();
    }
    out
}

/// Whether a number has one mark that may stand for thousands as well as for decimals: `1,500`.
fn may_be_thousands(word: &str) -> bool {
    let parts: Vec<&str> = word.split([',', '.']).collect();
    matches!(parts[..], [whole, rest] if leads(whole) && rest.len() == 3)
}

/// Whether digits may stand before a mark of thousands.
fn leads(digits: &str) -> bool {
    (1..=3).contains(&digits.len()) && !digits.starts_with('0')
}

/// A number without its marks of thousands and with a point for its decimals: `1.060,3`, `1,234,567`. `None` where the marks
/// are not those of such a number.
fn without_thousands(text: &str) -> Option<String> {
    let marks: Vec<&str> = text.matches([',', '.']).collect();
    let parts: Vec<&str> = text.split([',', '.']).collect();
    let (last, others) = marks.split_last()?;
    let (first, before) = others.split_first()?;
    if before.iter().any(|mark| mark != first) {
        return None;
    }
    let whole = match last == first {
        true => parts.len(),
        false => parts.len() - 1,
    };
    let (whole, decimals) = parts.split_at(whole);
    let (head, groups) = whole.split_first()?;
    let sound = leads(head) && groups.iter().all(|g| g.len() == 3);
    let point = if decimals.is_empty() { "" } else { "." };
    sound.then(|| whole.concat() + point + &decimals.concat())
}

/// Reads a plain number with a decimal point or comma, and thousands marked where that is plain (`1.060,3`); or a fraction
/// such as `3/4`.
///
/// # Errors
/// The text that is no number.
pub fn parse_number(text: &str) -> Result<f64, Said> {
    let no = || about("number-no", text);
    let text = text.trim();
    if let Some((top, bottom)) = text.split_once('/') {
        // 0.5/0.6 is rather two numbers, or one of a slip.
        if text.contains([',', '.']) {
            return Err(about("number-fraction", text));
        }
        let (top, bottom) = (
            decimal(top).ok_or_else(no)?,
            decimal(bottom).ok_or_else(no)?,
        );
        if bottom == 0.0 {
            return Err(no());
        }
        return Ok(top / bottom);
    }
    let plain = match text.matches([',', '.']).count() {
        0 | 1 => text.replace(',', "."),
        _ => without_thousands(text).ok_or_else(|| about("number-marks", text))?,
    };
    decimal(&plain).ok_or_else(no)
}

/// A number as programs write it, `-1.5e3`: as the standard library reads it, but for what is not finite, and to the
/// digit for numbers of fifteen digits. JSON's reader is in the program already; the standard library's carries large tables.
pub fn decimal(text: &str) -> Option<f64> {
    let (sign, body) = match text.strip_prefix(['-', '+']) {
        Some(body) => (&text[..1], body),
        None => ("", text),
    };
    let (digits, power) = body.split_once(['e', 'E']).unwrap_or((body, "0"));
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let all_digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
    if whole.len() + part.len() == 0 || !all_digits(whole) || !all_digits(part) {
        return None;
    }
    let mut json = String::from(match whole.trim_start_matches('0') {
        "" => "0",
        whole => whole,
    });
    if !part.is_empty() {
        json.extend([".", part]);
    }
    let power: i32 = power.parse().ok()?;
    if power != 0 {
        json.extend(["e", &power.to_string()]);
    }
    let value: f64 = serde_json::from_str(&json).ok()?;
    Some(if sign == "-" { -value } else { value })
}

/// `value` with `places` digits after the point; never "-0", and "–" for what is not finite.
pub fn fixed(value: f64, places: usize) -> String {
    if !value.is_finite() {
        return "–".into();
    }
    let text = format!("{value:.places$}");
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|b| matches!(b, b'0' | b'.')) => digits.to_string(),
        Some(digits) => format!("−{digits}"),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, bare: BareUnit, expected: Result<f64, ()>) {
        let got = parse_length(text, bare);
        match expected {
            Ok(mm) => assert!(
                got.as_ref().is_ok_and(|g| (g - mm).abs() < 1e-9),
                "{text}: {got:?}, not {mm}"
            ),
            Err(()) => assert!(got.is_err(), "{text}: {got:?}, not refused"),
        }
    }

    #[test]
    fn decimals_are_those_of_the_standard_library() {
        let check = |text: &str| {
            let expected = text.parse::<f64>().ok().filter(|n| n.is_finite());
            assert_eq!(decimal(text), expected, "{text}");
        };
        for text in [
            "",
            "-",
            "+",
            ".",
            "-.",
            "1",
            "+1",
            "-1",
            "--1",
            "+-1",
            "0",
            "-0",
            "007",
            "1.",
            ".5",
            "-.5",
            "1.2.3",
            "1,2",
            " 1",
            "1 ",
            "1e3",
            "1E3",
            "1e+3",
            "1e-3",
            "1e",
            "e3",
            "1e3.5",
            "1e 3",
            "1e3 ",
            "inf",
            "-inf",
            "nan",
            "infinity",
            "0x10",
            "1_0",
            "½",
            "1e400",
            "-1e400",
            "1e99999999999",
            "9007199254740991",
            "-33.9",
            "000.10",
            "1e22",
            "1e-22",
            "0.1e-5",
            "0.000000000000001",
            "123456789.012345",
        ] {
            check(text);
        }
        for n in (0..2_000_000_u64)
            .step_by(37)
            .chain((0..50).map(|i| i * 19_999_999_999_993))
        {
            for places in [0, 1, 2, 3, 4, 6, 9] {
                let (ten, width) = (10_u64.pow(places), places as usize);
                check(&format!("{}.{:0width$}", n / ten, n % ten));
                check(&format!("-{}.{:0width$}", n / ten, n % ten));
            }
        }
    }

    #[test]
    fn lengths_as_people_write_them() {
        use BareUnit::*;
        check("1500", Millimetre, Ok(1500.0));
        check("1.5 m", Millimetre, Ok(1500.0));
        check("1,5m", Millimetre, Ok(1500.0));
        check("150 cm", Metre, Ok(1500.0));
        check("5 ft 6 in", Metre, Ok(1676.4));
        check("5'6\"", Metre, Ok(1676.4));
        check("5'6", Metre, Ok(1676.4));
        check("5 1/2 in", Metre, Ok(139.7));
        check("3/4 in", Metre, Ok(19.05));
        check("1 ft 4½ in", Metre, Ok(419.1));
        check("½ in", Metre, Ok(12.7));
        check("-0,25", Metre, Ok(-250.0));
        check("", Metre, Err(()));
        check("abc", Metre, Err(()));
        check("1.5.2", Metre, Err(()));
        check("1 2", Metre, Err(()));
        check("1e9 m", Metre, Err(()));
        check("99999999 m", Metre, Err(()));
        check("NaN", Metre, Err(()));
        check("5 furlongs", Metre, Err(()));
        check("5'11.5\"", Metre, Ok(1816.1));
        check("13 in", Metre, Ok(330.2));
        let refused = |text| parse_length(text, Metre).unwrap_err().key;
        for text in ["5'13\"", "5'12", "5 ft 12 in"] {
            assert_eq!(refused(text), "number-inches", "{text}");
        }
        for text in ["0.5/0.6", "1/2.5 in", "1,5/2"] {
            assert_eq!(refused(text), "number-fraction", "{text}");
        }
    }

    #[test]
    fn thousands_are_understood_where_they_are_plain() {
        use BareUnit::*;
        check("1.060,3", Millimetre, Ok(1060.3));
        check("1,060.3 mm", Metre, Ok(1060.3));
        check("1,234,567 mm", Metre, Ok(1_234_567.0));
        check("1.234.567,8 mm", Metre, Ok(1_234_567.8));
        for bad in [
            "1.06,3",
            "0.060,3",
            "1.060,3.2",
            "1,234.567,8",
            "1.2345,6",
            "1234,567,8",
        ] {
            check(bad, Millimetre, Err(()));
        }
        // One mark in millimetres says nothing for sure.
        check("1,500 mm", Metre, Err(()));
        check("1.500", Millimetre, Err(()));
        let why = parse_length("20,500 mm", Metre).unwrap_err();
        assert_eq!(why.key, "number-thousands");
        check("1,500 m", Metre, Ok(1500.0));
        check("1,500", Metre, Ok(1500.0));
        check("0,500 mm", Metre, Ok(0.5));
        check("1500,000 mm", Metre, Ok(1500.0));
        check("1,50 mm", Metre, Ok(1.5));
        assert_eq!(parse_thickness("14.500", Millimetre), Ok(14.5));
    }

    #[test]
    fn angles_keep_a_tenth() {
        assert_eq!(Deg::new(2.5).degrees(), 2.5);
        assert_eq!(serde_json::to_string(&Deg::new(45.0)).unwrap(), "45");
        assert_eq!(serde_json::to_string(&Deg::new(2.5)).unwrap(), "2.5");
        assert!(serde_json::from_str::<Deg>("1e5").is_err());
    }
}
