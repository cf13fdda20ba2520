//! Paper: its sizes, and how it is measured.

/// Pixels in a millimetre of paper, at CSS's 96 to the inch.
pub const PX: f64 = 96.0 / 25.4;
/// Margin on every side, pixels: 10 mm, which common printers reach.
pub(crate) const MARGIN: f64 = 38.0;

/// A paper size, lying on its side.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// A4 (ISO 216).
    #[default]
    A4,
    /// Letter (ANSI Y14.1, size A).
    Letter,
}

impl Paper {
    /// Every size.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// The usual size in a country, by its ISO 3166 code in either case: Letter in the countries of the Americas that
    /// have it and in the Philippines (from memory, after the territories that the Unicode CLDR lists), else A4.
    pub fn usual_in(country: &str) -> Self {
        const LETTER: [&str; 14] = [
            "BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE",
        ];
        match LETTER.iter().any(|l| l.eq_ignore_ascii_case(country)) {
            true => Self::Letter,
            false => Self::A4,
        }
    }

    /// Its name where a setting is kept or a text is chosen.
    pub fn name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// The size of that name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|paper| paper.name() == name)
    }

    /// Width and height, mm of paper.
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (297.0, 210.0),
            Self::Letter => (279.4, 215.9),
        }
    }

    /// Width, pixels.
    pub(crate) fn width(self) -> f64 {
        self.size().0 * PX
    }

    /// Height, pixels.
    pub(crate) fn height(self) -> f64 {
        self.size().1 * PX
    }

    /// Width between the margins, pixels.
    pub(crate) fn usable_width(self) -> f64 {
        self.width() - 2.0 * MARGIN
    }

    /// Height between the margins, pixels.
    pub(crate) fn usable_height(self) -> f64 {
        self.height() - 2.0 * MARGIN
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_country_has_its_usual_paper_and_a_name_its_size() {
        for (country, paper) in [
            ("US", Paper::Letter),
            ("ca", Paper::Letter),
            ("GB", Paper::A4),
            ("", Paper::A4),
            ("USA", Paper::A4),
        ] {
            assert_eq!(Paper::usual_in(country), paper, "{country}");
        }
        for paper in Paper::ALL {
            assert_eq!(Paper::named(paper.name()), Some(paper));
        }
        assert_eq!(Paper::named("a3"), None);
    }
}
