//! `cargo xtask build`.

use crate::glue::Form;
use crate::site::Site;
use crate::{glue, one_file, workspace};
use anyhow::Result;
use std::fs;
use std::path::PathBuf;

/// Builds the page into dist/, and on demand the page in one file beside it.
pub fn build(with_one_file: bool) -> Result<()> {
    let mut site = Site::default();
    site.add_folder(&workspace::root().join("www"), "")?;
    let in_one = with_one_file
        .then(|| one_file::make(&site, &made(Form::Script)?))
        .transpose()?;

    site.add_folder(&made(Form::Module)?, "")?;
    let examples = workspace::root().join("examples");
    if examples.exists() {
        site.add_folder(&examples, "examples/")?;
        // The readme's picture and what the examples say in other languages stand there too, and are no examples.
        let is_none = |path: &str| path.ends_with(".png") || path.ends_with(".tsv");
        site.files
            .retain(|path, _| !(path.starts_with("examples/") && is_none(path)));
    }
    site.finish()?;
    let dist = workspace::dist();
    site.write(&dist)?;
    let bytes: usize = site.files.values().map(Vec::len).sum();
    println!(
        "Built dist/: {} files, {} kB",
        site.files.len(),
        bytes / 1000
    );

    if let Some(html) = in_one {
        fs::write(dist.join(one_file::NAME), &html)?;
        println!("Built dist/{}: {} kB", one_file::NAME, html.len() / 1000);
    }
    Ok(())
}

/// The folder of the module in a form, with its glue.
fn made(form: Form) -> Result<PathBuf> {
    glue::write(&glue::compile(form)?, form)
}
