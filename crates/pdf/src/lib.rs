//! Pages that are drawn as SVG, as one PDF: the same size, the same lines, and text as text.
//!
//! What is read is the SVG that this program draws – groups, paths, circles, texts and drawings within drawings, coloured by a
//! style sheet – and nothing beyond it: what it doesn't know it names ([`Foreign`]), and leaves nothing out in silence.
//! Text is set in DejaVu Sans, by whose widths the pages are laid, and of it the letters go along that a file uses.
//!
//! The same pages give the same bytes.

mod canvas;
mod file;
mod font;
mod numbers;
mod page;
mod style;

pub use font::has;

use canvas::Canvas;
use file::Kept;

/// Something in a drawing that can't be told in a PDF by what is written here.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a drawing holds {0}")]
pub struct Foreign(pub String);

/// What a file says of itself.
#[derive(Clone, Copy, Debug)]
pub struct About<'a> {
    /// What a reader shows as its name.
    pub title: &'a str,
    /// The code of the language that its text is in.
    pub language: &'a str,
}

/// Drawings as one file, a page each, each as large as its drawing says.
///
/// # Errors
/// A drawing holds what is not known here.
pub fn pdf(drawings: &[String], about: About<'_>) -> Result<Vec<u8>, Foreign> {
    let mut kept = Kept::default();
    let mut pages = Vec::new();
    for drawing in drawings {
        let mut canvas = Canvas::new(&mut kept);
        let size = page::draw(drawing, &mut canvas)?;
        pages.push((size, canvas.finish()));
    }
    Ok(file::write(&pages, &kept, about))
}
