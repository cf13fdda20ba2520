//! From the page's program to a wasm module and the JavaScript that loads it.

use crate::packing::{self, Pair};
use crate::{lock, process, setup, workspace};
use anyhow::{Context, Result, anyhow, bail};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use wasm_bindgen_cli_support::Bindgen;

/// The name of the glue, with `.js`, and of the module, with `_bg.wasm`.
pub const NAME: &str = "cordonry_page";

/// Panels behind pointers instead of a type each: a fifth less code. Only here, because it is joined to the flags of
/// .cargo/config.toml, and checks of the crate say the same without.
const ERASED: &str = "target.wasm32-unknown-unknown.rustflags=[\"--cfg\",\"erase_components\"]";

/// Compiles the page and gives the path of the bare module: for a module with parts, with what tells where it can be
/// parted.
pub fn compile(form: Form) -> Result<PathBuf> {
    match form {
        Form::Script => compiled("cordonry-module", "", ""),
        Form::Module => compiled(
            "cordonry-module",
            "--features parts",
            "-C link-arg=--emit-relocs -C strip=none",
        ),
    }
}

/// Compiles the digest of plans, with which the browser tests compare the core, into a module and glue of its own, and
/// gives their folder.
pub fn digest() -> Result<PathBuf> {
    let module = compiled("cordonry-digest", "", "")?;
    let folder = workspace::target().join("glue").join("digest");
    Bindgen::new()
        .web(true)?
        .input_path(module)
        .out_name("digest")
        .typescript(false)
        .generate(&folder)
        .context("the glue of the digest could not be written")?;
    Ok(folder)
}

fn compiled(package: &str, features: &str, flags: &str) -> Result<PathBuf> {
    lock::check_agreement()?;
    setup::wasm_target()?;
    process::run(&mut process::cargo(&format!(
        "rustc --package {package} --profile web --target {} --config {ERASED} {features} -- {flags}",
        setup::WASM_TARGET
    )))?;
    Ok(workspace::target()
        .join(setup::WASM_TARGET)
        .join("web")
        .join(package.replace('-', "_"))
        .with_extension("wasm"))
}

/// How the glue is written.
#[derive(Clone, Copy)]
pub enum Form {
    /// A module that other modules import.
    Module,
    /// A classic script that sets the global `wasm_bindgen`.
    Script,
}

/// The script that loads parts of the module.
const PARTS: &str = "parts.js";

/// Writes glue and module, and the parts that stand beside it, and gives the folder in which they stand.
pub fn write(module: &Path, form: Form) -> Result<PathBuf> {
    let folder = workspace::target().join("glue").join(match form {
        Form::Module => "module",
        Form::Script => "script",
    });
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    let whole = match form {
        Form::Module => parted(module, &folder)?,
        Form::Script => module.to_path_buf(),
    };
    let mut bindgen = Bindgen::new();
    match form {
        // The module is found beside the glue; the script is given its bytes.
        Form::Module => bindgen.web(true)?.omit_default_module_path(false),
        Form::Script => bindgen.no_modules(true)?,
    };
    bindgen
        .input_path(&whole)
        .out_name(NAME)
        .typescript(false)
        .keep_lld_exports(matches!(form, Form::Module))
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(&folder)
        .context("the glue between wasm and the page could not be written")?;
    let glue = folder.join(NAME).with_extension("js");
    let module = folder.join(format!("{NAME}_bg.wasm"));
    let packed = packing::pack(&Pair {
        module: fs::read(&module)?,
        glue: fs::read_to_string(&glue)?,
    })?;
    fs::write(module, packed.module)?;
    fs::write(glue, packed.glue)?;
    Ok(folder)
}

/// Writes the parts of the module into a folder, with the script that loads them, and gives the path of what is left of it.
fn parted(module: &Path, folder: &Path) -> Result<PathBuf> {
    let bytes = fs::read(module)?;
    let left = module.with_extension("left.wasm");
    let main = format!("./{NAME}.js");
    let link = format!("./{PARTS}");
    let mut options = wasm_split_cli_support::Options::new(&bytes);
    options.output_dir = folder;
    options.main_out_path = &left;
    options.main_module = &main;
    options.link_name = &link;
    let parted = wasm_split_cli_support::transform(options)
        .map_err(|why| anyhow!("{why:#}"))
        .context("the module could not be parted")?;
    for part in &parted.split_modules {
        fs::write(part, packing::in_order(&fs::read(part)?, &BTreeMap::new())?)?;
    }
    let script = folder.join(PARTS);
    fs::write(&script, told_later(&fs::read_to_string(&script)?)?)?;
    Ok(left)
}

/// The script that loads parts, but that it tells the console of one that does not come when a page that is being left is gone: its files
/// are cut off, and that is no fault. The page itself says at once which part is missing.
fn told_later(script: &str) -> Result<String> {
    let told = "console.error(e);";
    match script.matches(told).count() {
        1 => Ok(script.replace(told, "setTimeout(() => console.error(e), 200);")),
        n => bail!("the script that loads parts tells of a fault {n} times, not once"),
    }
}
