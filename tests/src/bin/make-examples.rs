//! Writes the invented examples anew: `cargo run -p cordonry-tests --bin make-examples [FOLDER]`.

use std::path::PathBuf;

fn main() -> std::io::Result<()> {
    let usual = concat!(env!("CARGO_MANIFEST_DIR"), "/../examples");
    let folder = PathBuf::from(std::env::args().nth(1).unwrap_or_else(|| usual.into()));
    std::fs::create_dir_all(folder.join("lessons"))?;
    for (name, text) in cordonry_tests::examples::all() {
        std::fs::write(folder.join(&name), text)?;
        println!("{name}");
    }
    Ok(())
}
