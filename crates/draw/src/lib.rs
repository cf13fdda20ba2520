//! From a row to SVG: an elevation of the wall, to scale.
//!
//! On the wall one unit of the drawing is one millimetre and y points down, so that y = −z and the
//! ground lies at 0. What should keep its size on the screen takes it from the custom property
//! `--px`, the millimetres in one pixel, which whoever shows the drawing sets on the wall's `svg`.
//! The cordon band is drawn in pixels instead ([`band`]).
//!
//! Numbers are rounded to a tenth and made finite before they are written; texts of the user go into text
//! nodes and attribute values alone.

pub mod band;
mod block;
mod candidates;
mod chart;
mod document;
mod element;
mod figures;
pub mod frame;
pub mod key;
mod layer;
mod lone;
mod marks;
mod measure;
mod overview;
mod paint;
mod paper;
mod pen;
mod qr;
mod sheets;
mod stretch;
mod strip;
mod style;
mod subjects;
mod time;
mod tip_curve;
pub mod tree;
mod tried;
mod two;
mod wood;
pub mod work;
mod worklist;

pub use band::{BAND_HEIGHT, cordon_band};
pub use block::file;
pub use candidates::{Candidate, candidate_marks, letter};
pub use chart::{Chart, Series, charts, leaf_figures};
pub use document::{DocumentOptions, document, document_with};
pub use figures::{FigureLine, FigureTable, row_figures, row_figures_title};
pub use frame::{backdrop, foreground, frame, top_of, tree_numbers, upright_numbers};
pub use key::Sign;
pub use layer::Layer;
pub use lone::{RowShoot, lone_marks, lone_shoots};
pub use marks::{mark_line, marks};
pub use overview::{OVERVIEW_HEIGHT, Sighted, overview};
pub use paint::{ColourBy, LightAt, Paint};
pub use paper::Paper;
pub use qr::{MAX_QR, qr};
pub use sheets::{
    Both, ClientReport, Handed, Laid, Order, OrderLine, Side, Told, changes_on, is_headed,
    marking_sheets, pass_sheets, placed_line, sheet_beside, sheets,
};
pub use stretch::{ToldStretch, Window, stretch_marks};
pub use style::STYLE;
pub use time::{Time, window_key};
pub use tip_curve::tip_curve;

pub use subjects::subjects_line;
pub use tree::{Options, painted_group, posed_group, tree_group, tree_group_with};
pub use tried::tried_wood;
pub use two::{Pair, Under, two_figures, two_totals};
pub use work::{diseased_marks, work_marks};
pub use worklist::{caution, cautions, work_line, work_place};

/// How much of a tree is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Detail {
    /// One path a tree, without parts to press.
    Sketch,
    /// Each shoot a group of its own with its wood, buds and cuts.
    Plain,
    /// Also twigs, rings between years, and wide invisible paths to press.
    #[default]
    Full,
}

impl Detail {
    /// The level that suits a scale, in pixels per millimetre of wall: full from 0.06 (20 m on 1200 pixels),
    /// plain from 0.025 (48 m).
    pub fn for_scale(px_per_mm: f64) -> Self {
        if px_per_mm >= 0.06 {
            Self::Full
        } else if px_per_mm >= 0.025 {
            Self::Plain
        } else {
            Self::Sketch
        }
    }
}
