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
