//! Writes the invented examples anew: `cargo run -p cordonry-tests --bin make-examples [FOLDER]`.

use std::path::PathBuf;

fn main() -> std::io::Result<()> {
    let usual = concat!(env!("CARGO_MANIFEST_DIR"), "/../examples");
    let folder = PathBuf::from(std::env::args().nth(1).unwrap_or_else(|| usual.into()));
    for within in ["lessons", "told"] {
        std::fs::create_dir_all(folder.join(within))?;
    }
    let all = cordonry_tests::examples::all().into_iter();
    for (name, text) in all.chain(cordonry_tests::examples::told()) {
        std::fs::write(folder.join(&name), text)?;
        println!("{name}");
    }
    Ok(())
}
