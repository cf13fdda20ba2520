//! Numbers as people type them: read and written in the units in use.

use crate::said::Arg;
use crate::units::{BareUnit, LengthStyle, fixed, parse_length, parse_number};

/// What a typed number measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
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

/// Digits without the zeros at the end, but `least` of them.
fn trimmed(value: f64, most: usize, least: usize) -> String {
    let mut text = fixed(value, most);
    if let Some(point) = text.find('.') {
        while text.ends_with('0') && text.len() > point + 1 + least {
            text.pop();
        }
        if text.ends_with('.') {
            text.pop();
        }
    }
    text
}

impl Unit {
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

    /// The value as a field holds it, with its unit and fine enough that reading it gives the value again: lengths
    /// to the millimetre, thicknesses to a tenth of one.
    pub fn write(self, value: f64, style: LengthStyle) -> String {
        match (self, style) {
            (Self::Length, LengthStyle::Metric) => format!("{} m", trimmed(value / 1000.0, 3, 2)),
            (Self::Length, LengthStyle::FeetInches) => {
                let inches = libm::round(value.abs() / 25.4 * 100.0) / 100.0;
                let feet = libm::floor(inches / 12.0);
                let sign = if value < 0.0 && inches > 0.0 {
                    "−"
                } else {
                    ""
                };
                let rest = trimmed(inches - feet * 12.0, 2, 0);
                match (feet > 0.0, rest.as_str()) {
                    (false, _) => format!("{sign}{rest} in"),
                    (true, "0") => format!("{sign}{feet} ft"),
                    (true, _) => format!("{sign}{feet} ft {rest} in"),
                }
            }
            (Self::Thickness, LengthStyle::Metric) => format!("{} mm", trimmed(value, 1, 0)),
            (Self::Thickness, LengthStyle::FeetInches) => {
                format!("{} in", trimmed(value / 25.4, 3, 0))
            }
            (Self::Angle, _) => format!("{}°", trimmed(value, 4, 0)),
            (Self::Share, _) => format!("{} %", trimmed(value * 100.0, 1, 0)),
            (Self::Count, _) => fixed(value, 0),
            (Self::Number, _) => trimmed(value, 3, 0),
        }
    }

    /// The value of a typed text, or `None` where it is none. A bare number is in the unit in which the value is
    /// shown: metres or inches, millimetres or inches, per cent.
    pub fn read(self, text: &str, style: LengthStyle) -> Option<f64> {
        let text = text.trim().replace('½', " 1/2").replace('−', "-");
        let metric = style == LengthStyle::Metric;
        let plain = |sign: &str| {
            let body = text.trim_end_matches(sign).trim();
            // A sign is taken before the number, so that "- 1/2" is no slip.
            match body.strip_prefix('-') {
                Some(rest) => parse_number(rest).ok().map(|n| -n),
                None => parse_number(body).ok(),
            }
        };
        match self {
            Self::Length => {
                let bare = if metric {
                    BareUnit::Metre
                } else {
                    BareUnit::Inch
                };
                parse_length(&text, bare).ok()
            }
            Self::Thickness => {
                let bare = if metric {
                    BareUnit::Millimetre
                } else {
                    BareUnit::Inch
                };
                parse_length(&text, bare).ok()
            }
            Self::Angle => plain("°"),
            Self::Share => plain("%").map(|n| n / 100.0),
            Self::Count => plain("").filter(|n| libm::trunc(*n) == *n),
            Self::Number => plain(""),
        }
    }

    /// Several values with a semicolon between them; `None` where one is none. An empty text is an empty list.
    pub fn read_list(self, text: &str, style: LengthStyle) -> Option<Vec<f64>> {
        text.split(';')
            .map(str::trim)
            .filter(|part| !part.is_empty())
            .map(|part| self.read(part, style))
            .collect()
    }

    /// Several values as a field holds them.
    pub fn write_list(self, values: impl IntoIterator<Item = f64>, style: LengthStyle) -> String {
        let parts: Vec<String> = values.into_iter().map(|v| self.write(v, style)).collect();
        parts.join("; ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use LengthStyle::{FeetInches, Metric};

    #[test]
    fn what_is_written_is_read_again() {
        for style in [Metric, FeetInches] {
            for mm in (-4000..30_000).step_by(7) {
                let mm = f64::from(mm);
                let text = Unit::Length.write(mm, style);
                let back = Unit::Length.read(&text, style).map(libm::round);
                assert_eq!(back, Some(mm), "{text}");
            }
            for tenth in 0..5000 {
                let mm = f64::from(tenth) / 10.0;
                let text = Unit::Thickness.write(mm, style);
                let back = Unit::Thickness.read(&text, style);
                let back = back.map(|v| libm::round(v * 10.0) / 10.0);
                assert_eq!(back, Some(mm), "{text}");
            }
        }
    }

    #[test]
    fn numbers_as_people_type_them() {
        assert_eq!(Unit::Length.read("1,2", Metric), Some(1200.0));
        assert_eq!(Unit::Length.read("80 cm", Metric), Some(800.0));
        let read = Unit::Length.read("1 ft 4½ in", FeetInches);
        assert!(read.is_some_and(|v| (v - 419.1).abs() < 1e-9));
        assert_eq!(Unit::Thickness.read("12", Metric), Some(12.0));
        assert_eq!(Unit::Share.read("20 %", Metric), Some(0.2));
        assert_eq!(Unit::Share.read("20", Metric), Some(0.2));
        assert_eq!(Unit::Angle.read("−33.9°", Metric), Some(-33.9));
        assert_eq!(Unit::Count.read("3", Metric), Some(3.0));
        assert_eq!(Unit::Count.read("2.5", Metric), None);
        assert_eq!(Unit::Number.read("1,1", Metric), Some(1.1));
        for unit in [Unit::Length, Unit::Thickness, Unit::Share, Unit::Count] {
            assert_eq!(unit.read("", Metric), None);
            assert_eq!(unit.read("much", Metric), None);
        }
    }

    #[test]
    fn fields_are_short() {
        assert_eq!(Unit::Length.write(1500.0, Metric), "1.50 m");
        assert_eq!(Unit::Length.write(1234.0, Metric), "1.234 m");
        assert_eq!(Unit::Length.write(1524.0, FeetInches), "5 ft");
        assert_eq!(Unit::Thickness.write(12.0, Metric), "12 mm");
        assert_eq!(Unit::Share.write(0.95, Metric), "95 %");
        assert_eq!(Unit::Angle.write(-33.9, Metric), "−33.9°");
        assert_eq!(Unit::Number.write(1.1, Metric), "1.1");
        assert_eq!(
            Unit::Length.read_list("0; 7 m;14,5", Metric),
            Some(vec![0.0, 7000.0, 14500.0])
        );
        assert_eq!(Unit::Length.read_list(" ", Metric), Some(vec![]));
        assert_eq!(Unit::Length.read_list("0; x", Metric), None);
    }
}
