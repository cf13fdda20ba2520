//! Numbers as people of a language write, read and type them.

use crate::Words;
use cordonry::said::{Arg, Quantity, Said};
use cordonry::units::{BareUnit, LengthStyle, fixed, parse_length, parse_number};

/// Most digits beyond the usual with which two values are told apart.
pub(crate) const FINEST: usize = 3;

/// A text with a number in it, cut where the number stands.
#[derive(Default)]
struct Around(String, String);

impl Around {
    fn put(&self, number: &str) -> String {
        format!("{}{number}{}", self.0, self.1)
    }
}

/// How a language writes numbers: read from its texts once.
#[derive(Default)]
pub(crate) struct Numbers {
    decimal: String,
    thousands: String,
    minus: String,
    none: String,
    metres: Around,
    centimetres: Around,
    millimetres: Around,
    feet: Around,
    inches: Around,
    degrees: Around,
    per_cent: Around,
    /// Marks taken for the decimal mark.
    marks: Vec<char>,
    /// Words for units, in small letters, with the sign that the core reads.
    units: Vec<(String, &'static str)>,
}

impl Numbers {
    pub(crate) fn of(words: &Words) -> Self {
        // A sign that stands in no text, so that the number's place is found.
        const HERE: &str = "\u{fffc}";
        let around = |key: &'static str| {
            let text = words.text(key, &[("n", Arg::Text(HERE.into()))]);
            match text.split_once(HERE) {
                Some((before, after)) => Around(before.into(), after.into()),
                None => Around(String::new(), text),
            }
        };
        let listed = |key: &'static str, sign: &'static str| -> Vec<(String, &'static str)> {
            let text = words.plain(key).to_lowercase();
            text.split_whitespace()
                .map(|w| (w.to_string(), sign))
                .collect()
        };
        let marks = words.plain("decimal-marks-typed");
        Self {
            decimal: words.plain("decimal-mark"),
            thousands: words.plain("thousands-mark"),
            minus: words.plain("minus-sign"),
            none: words.plain("no-number"),
            metres: around("measured-metres"),
            centimetres: around("measured-centimetres"),
            millimetres: around("measured-millimetres"),
            feet: around("measured-feet"),
            inches: around("measured-inches"),
            degrees: around("measured-degrees"),
            per_cent: around("measured-per-cent"),
            marks: marks.chars().filter(|c| !c.is_whitespace()).collect(),
            units: [listed("feet-typed", "ft"), listed("inches-typed", "in")].concat(),
        }
    }

    /// `value` with so many decimals; with as few as it has, but `least`, where that is said.
    fn number(&self, value: f64, places: usize, least: Option<usize>) -> String {
        if !value.is_finite() {
            return self.none.clone();
        }
        let plain = fixed(value, places);
        let (sign, digits) = match plain.strip_prefix('−') {
            Some(digits) => (self.minus.as_str(), digits),
            None => ("", plain.as_str()),
        };
        let (whole, mut decimals) = digits.split_once('.').unwrap_or((digits, ""));
        if let Some(least) = least {
            while decimals.len() > least && decimals.ends_with('0') {
                decimals = &decimals[..decimals.len() - 1];
            }
        }
        let whole = self.grouped(whole);
        match decimals {
            "" => format!("{sign}{whole}"),
            _ => format!("{sign}{whole}{}{decimals}", self.decimal),
        }
    }

    /// Whether it is a space that the language writes between groups of digits.
    fn parts(&self, c: char) -> bool {
        c.is_whitespace() && self.thousands.contains(c)
    }

    fn grouped(&self, digits: &str) -> String {
        if self.thousands.is_empty() || digits.len() < 5 {
            return digits.to_string();
        }
        let mut out = String::new();
        for (i, digit) in digits.chars().enumerate() {
            if i > 0 && (digits.len() - i).is_multiple_of(3) {
                out.push_str(&self.thousands);
            }
            out.push(digit);
        }
        out
    }
}

impl Words {
    /// A length for people: metres to the centimetre (`0.42 m`) or feet and inches to half an inch (`1 ft 4½ in`).
    pub fn length(&self, mm: f64) -> String {
        let n = &self.numbers;
        match self.style {
            LengthStyle::Metric => n.metres.put(&n.number(mm / 1000.0, 2, None)),
            LengthStyle::FeetInches => {
                let halves = libm::round(mm.abs() / 12.7) as i64;
                let inches = match (halves % 24 / 2, halves % 2) {
                    (0, 1) => "½".to_string(),
                    (whole, 1) => format!("{whole}½"),
                    (whole, _) => whole.to_string(),
                };
                self.feet_inches(mm < 0.0 && halves > 0, halves / 24, &inches)
            }
        }
    }

    fn feet_inches(&self, negative: bool, feet: i64, inches: &str) -> String {
        let n = &self.numbers;
        let sign = if negative { n.minus.as_str() } else { "" };
        match (feet, inches) {
            (0, _) => n.inches.put(&format!("{sign}{inches}")),
            (_, "0") => n.feet.put(&format!("{sign}{feet}")),
            _ => self.text(
                "feet-and-inches",
                &[
                    ("feet", Arg::Text(n.feet.put(&format!("{sign}{feet}")))),
                    ("inches", Arg::Text(n.inches.put(inches))),
                ],
            ),
        }
    }

    /// A thickness for people: whole millimetres, or inches to a tenth.
    pub fn thickness(&self, mm: f64) -> String {
        self.small(mm, 0)
    }

    /// Millimetres or inches, so many digits finer than is usual.
    fn small(&self, mm: f64, finer: usize) -> String {
        let n = &self.numbers;
        match self.style {
            LengthStyle::Metric => n.millimetres.put(&n.number(mm, finer, None)),
            LengthStyle::FeetInches => n.inches.put(&n.number(mm / 25.4, 1 + finer, None)),
        }
    }

    /// A number without a unit, to so many decimals.
    pub fn number(&self, value: f64, places: usize) -> String {
        self.numbers.number(value, places, None)
    }

    /// A length in whole or broken metres, without trailing zeros: a mark of a scale.
    pub fn metres(&self, mm: f64, places: usize) -> String {
        let n = &self.numbers;
        n.metres.put(&n.number(mm / 1000.0, places, None))
    }

    /// A measured value with its unit, to so many digits more than is usual; `None` for what is no measured value.
    pub(crate) fn shown(&self, arg: &Arg, finer: usize) -> Option<String> {
        let n = &self.numbers;
        Some(match arg {
            Arg::Length(mm) if finer == 0 => self.length(*mm),
            Arg::Length(mm) | Arg::Thickness(mm) if finer > 0 => self.small(*mm, finer - 1),
            Arg::Thickness(mm) => self.thickness(*mm),
            Arg::Angle(deg) => n.degrees.put(&n.number(*deg, finer, None)),
            Arg::Share(share) => n.per_cent.put(&n.number(share * 100.0, finer, None)),
            Arg::Number(value, places) => n.number(*value, places + finer, None),
            Arg::Field(quantity, value) => self.field(*quantity, *value),
            _ => return None,
        })
    }

    /// The value as a field holds it, with its unit and fine enough that reading it gives the value again: lengths to
    /// the millimetre, thicknesses to a tenth of one.
    pub fn field(&self, quantity: Quantity, value: f64) -> String {
        let n = &self.numbers;
        match (quantity, self.style) {
            (Quantity::Length, LengthStyle::Metric) => {
                n.metres.put(&n.number(value / 1000.0, 3, Some(2)))
            }
            (Quantity::Length, LengthStyle::FeetInches) => {
                let inches = libm::round(value.abs() / 25.4 * 100.0) / 100.0;
                let feet = libm::floor(inches / 12.0);
                let rest = n.number(inches - feet * 12.0, 2, Some(0));
                self.feet_inches(value < 0.0 && inches > 0.0, feet as i64, &rest)
            }
            (Quantity::Thickness, LengthStyle::Metric) => {
                n.millimetres.put(&n.number(value, 1, Some(0)))
            }
            (Quantity::Thickness, LengthStyle::FeetInches) => {
                n.inches.put(&n.number(value / 25.4, 3, Some(0)))
            }
            (Quantity::Angle, _) => n.degrees.put(&n.number(value, 4, Some(0))),
            (Quantity::Share, _) => n.per_cent.put(&n.number(value * 100.0, 1, Some(0))),
            (Quantity::Count, _) => n.number(value, 0, None),
            (Quantity::Number, _) => n.number(value, 3, Some(0)),
        }
    }

    /// Several values as a field holds them.
    pub fn field_list(&self, quantity: Quantity, values: impl IntoIterator<Item = f64>) -> String {
        let parts: Vec<String> = values
            .into_iter()
            .map(|v| self.field(quantity, v))
            .collect();
        parts.join(&self.plain("between-entries"))
    }

    /// Centimetres, with as many decimals as there are up to three.
    pub fn centimetres(&self, mm: f64) -> String {
        let n = &self.numbers;
        n.centimetres.put(&n.number(mm / 10.0, 3, Some(0)))
    }

    /// What the core wrote to be typed again (`2.5`), with the language's decimal mark.
    pub fn to_type(&self, text: &str) -> String {
        text.replace('.', &self.numbers.decimal)
    }

    /// What was typed, as the core reads it: with a decimal point and the units' signs.
    ///
    /// # Errors
    /// A mark before decimals that the language does not take for one.
    pub fn typed(&self, text: &str) -> Result<String, Said> {
        let n = &self.numbers;
        let mut out = String::new();
        let mut word = String::new();
        let mut chars = text.chars().peekable();
        while let Some(c) = chars.next() {
            if c.is_alphabetic() {
                word.push(c);
                if chars.peek().is_some_and(|next| next.is_alphabetic()) {
                    continue;
                }
                let small = word.to_lowercase();
                let unit = n.units.iter().find(|(w, _)| *w == small);
                out.push_str(unit.map_or(word.as_str(), |(_, sign)| sign));
                word.clear();
                continue;
            }
            let before_digit = chars.peek().is_some_and(|next| next.is_ascii_digit());
            // A space between groups of digits says nothing, where the language writes one there.
            if before_digit && n.parts(c) && out.ends_with(|last: char| last.is_ascii_digit()) {
                continue;
            }
            if before_digit && n.marks.contains(&c) {
                out.push('.');
            } else if before_digit && matches!(c, '.' | ',') {
                return Err(Said::new(
                    "field-decimal-mark",
                    vec![
                        ("text", Arg::Text(text.trim().to_string())),
                        ("mark", Arg::Text(n.decimal.clone())),
                    ],
                ));
            } else {
                out.push(c);
            }
        }
        Ok(out)
    }

    /// The value of a typed text. A bare number is in the unit in which the value is shown: metres or inches,
    /// millimetres or inches, per cent.
    ///
    /// # Errors
    /// Why the text is no value, and what is accepted.
    pub fn read(&self, quantity: Quantity, text: &str) -> Result<f64, Said> {
        let typed = self.typed(text)?;
        read(quantity, &typed, self.style).ok_or_else(|| {
            let key = match quantity {
                Quantity::Length => "field-no-length",
                Quantity::Thickness => "field-no-thickness",
                Quantity::Count => "field-no-count",
                Quantity::Angle | Quantity::Share | Quantity::Number => "field-no-number",
            };
            Said::new(key, vec![("text", Arg::Text(text.to_string()))])
        })
    }

    /// Several values with a semicolon between them. An empty text is an empty list.
    ///
    /// # Errors
    /// One of them is no value.
    pub fn read_list(&self, quantity: Quantity, text: &str) -> Result<Vec<f64>, Said> {
        text.split(';')
            .map(str::trim)
            .filter(|part| !part.is_empty())
            .map(|part| self.read(quantity, part))
            .collect()
    }
}

fn read(quantity: Quantity, text: &str, style: LengthStyle) -> Option<f64> {
    let text = text.trim().replace('½', " 1/2").replace('−', "-");
    let plain = |sign: &str| {
        let body = text.trim_end_matches(sign).trim();
        // A sign is taken before the number, so that "- 1/2" is no slip.
        match body.strip_prefix('-') {
            Some(rest) => parse_number(rest).ok().map(|n| -n),
            None => parse_number(body).ok(),
        }
    };
    let bare = match (quantity, style) {
        (_, LengthStyle::FeetInches) => BareUnit::Inch,
        (Quantity::Thickness, LengthStyle::Metric) => BareUnit::Millimetre,
        (_, LengthStyle::Metric) => BareUnit::Metre,
    };
    match quantity {
        Quantity::Length | Quantity::Thickness => parse_length(&text, bare).ok(),
        Quantity::Angle => plain("°"),
        Quantity::Share => plain("%").map(|n| n / 100.0),
        Quantity::Count => plain("").filter(|n| libm::trunc(*n) == *n),
        Quantity::Number => plain(""),
    }
}
