//! Drawn pages as files: an SVG each, or one PDF of them all.

use crate::convert::{named, put};
use crate::out::clean;
use anyhow::{Result, anyhow};
use cordonry::said::Arg;
use cordonry_pdf::{About, pdf};
use cordonry_words::Words;
use std::path::{Path, PathBuf};

/// Whether a file that is to be written is a PDF; what it is called says so, and else that it is an SVG (`what`: the text that
/// names what is in it).
pub fn is_pdf(output: &Path, what: &'static str, words: &Words) -> Result<bool> {
    named(output, what, &["svg", "pdf"], words)?;
    Ok(output
        .extension()
        .is_some_and(|e| e.eq_ignore_ascii_case("pdf")))
}

/// Writes pages of what `title` names, as the file's name says, and gives the files that there are then.
pub fn write(
    output: &Path,
    from: &Path,
    (title, pages): (&str, &[String]),
    as_pdf: bool,
    words: &Words,
) -> Result<Vec<PathBuf>> {
    if as_pdf {
        let about = About {
            title: &clean(title),
            language: words.language().code,
        };
        let made = pdf(pages, about).map_err(|why| {
            let reason = [("reason", Arg::Text(why.to_string()))];
            anyhow!(words.text("command-no-pdf", &reason))
        })?;
        put(output, from, &made, words)?;
        return Ok(vec![output.to_path_buf()]);
    }
    let mut written = Vec::new();
    for (i, page) in pages.iter().enumerate() {
        let name = numbered(output, i + 1);
        put(&name, from, cordonry_draw::file(page).as_bytes(), words)?;
        written.push(name);
    }
    Ok(written)
}

/// `row.svg` with a page's number: `row-2.svg`.
fn numbered(path: &Path, page: usize) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!("{stem}-{page}.{ending}"))
}
