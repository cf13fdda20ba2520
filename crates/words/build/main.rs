//! Lists the language folders: `lang/xx/` with its `.ftl` files is all that a language takes. They are read here and
//! stand in the program as what [`compile`] makes of them, so that it needs no reader of such files.

mod compile;

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

/// The language that has every text.
const WHOLE: &str = "en";
/// Files that the page's languages lack, for what is said there comes with a part of the page: each with the name of what it becomes.
const PARTS: [(&str, &str); 2] = [("crew.ftl", "crew.rs"), ("pass_on.ftl", "pass_on.rs")];

/// What is in a folder, by name.
fn entries(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let mut out = fs::read_dir(folder)?
        .map(|entry| entry.map(|e| e.path()))
        .collect::<io::Result<Vec<_>>>()?;
    out.sort();
    Ok(out)
}

/// The compiled texts of those of a folder's files that are wanted.
fn texts_of(folder: &Path, wanted: &dyn Fn(&Path) -> bool) -> io::Result<String> {
    let files = entries(folder)?
        .into_iter()
        .filter(|f| f.extension().is_some_and(|e| e == "ftl") && wanted(f))
        .map(fs::read_to_string)
        .collect::<io::Result<Vec<_>>>()?;
    let (texts, broken) = compile::texts(files.iter().map(String::as_str));
    for what in broken {
        // It costs that text alone; a test finds it.
        println!("cargo::warning={}: {what}", folder.display());
    }
    Ok(texts)
}

fn main() -> io::Result<()> {
    let home = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").unwrap_or_default());
    let lang = home.join("lang");
    println!("cargo::rerun-if-changed=lang");
    println!("cargo::rerun-if-changed=build");
    let (mut whole, mut others, mut names) = (String::new(), String::new(), String::new());
    let mut parts = PARTS.map(|(file, into)| (file, into, String::new()));
    // The page has no command line.
    let page = env::var("CARGO_CFG_TARGET_ARCH").is_ok_and(|a| a == "wasm32");
    let lacking = PARTS.map(|(file, _)| file);
    let lacking: Vec<&str> = lacking.into_iter().chain(["commands.ftl"]).collect();
    let stays = |file: &Path| !page || !lacking.iter().any(|name| file.ends_with(name));
    for folder in entries(&lang)?.iter().filter(|p| p.is_dir()) {
        let code = folder.file_name().unwrap_or_default().to_string_lossy();
        let texts = texts_of(folder, &stays)?;
        let plurals = compile::plurals(&code);
        let name = compile::text(&texts, "language-name").unwrap_or(&code);
        let _ = writeln!(names, "({code:?}, {name:?}),");
        let written = |texts: &str| {
            format!("Language {{ code: {code:?}, texts: {texts:?}, plurals: {plurals:?} }},\n")
        };
        // A language by itself: the program may leave all but the first behind.
        let into = if code == WHOLE {
            &mut whole
        } else {
            &mut others
        };
        into.push_str(&written(&texts));
        for (file, _, into) in &mut parts {
            let file: &str = file;
            into.push_str(&written(&texts_of(folder, &|f| f.ends_with(file))?));
        }
    }
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::write(out.join("whole.rs"), whole.trim_end().trim_end_matches(','))?;
    fs::write(out.join("others.rs"), format!("&[\n{others}]"))?;
    for (_, into, all) in parts {
        fs::write(out.join(into), format!("&[\n{all}]"))?;
    }
    fs::write(out.join("names.rs"), format!("&[\n{names}]"))
}
