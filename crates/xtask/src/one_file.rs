//! The page as one HTML file that opens from a disk, where browsers load no modules and fetch nothing.

use crate::site::Site;
use crate::{glue, html, mime, policy};
use anyhow::{Context, Result, bail};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD as BASE64;
use sha2::{Digest, Sha256};
use std::fs;
use std::path::Path;

/// The file's name in dist/.
pub const NAME: &str = "cordonry.html";

/// The helper's script in www.
const HELPER: &str = "helper.js";

/// What start.js takes from the one file in place of what it would load.
const BRINGS: &str = include_str!("in_one_file.js");

/// Takes the page's sources and a folder with the glue as a classic script.
pub fn make(site: &Site, glue_folder: &Path) -> Result<String> {
    let script = fs::read_to_string(glue_folder.join(glue::NAME).with_extension("js"))?;
    let module = fs::read(glue_folder.join(format!("{}_bg.wasm", glue::NAME)))?;
    assemble(site, &script, &module)
}

fn assemble(site: &Site, glue: &str, module: &[u8]) -> Result<String> {
    let page = site.text("index.html")?.replace("\r\n", "\n");
    let mut changes = Vec::new();
    let mut hashes = Vec::new();
    let mut scripts = 0;
    for tag in html::tags(&page) {
        let text = match tag.name.as_str() {
            "link" => match (tag.get("rel").unwrap_or_default(), tag.get("href")) {
                ("stylesheet", Some(path)) => html::style(path, &site.text(path)?)?,
                ("icon", Some(path)) => {
                    format!("<link rel=\"icon\" href=\"{}\">", data(site, path)?)
                }
                // Nothing can be loaded, now or early, so nothing is named.
                _ => String::new(),
            },
            "script" => {
                let Some(path) = tag.get("src") else {
                    bail!(
                        "www/index.html holds a script of its own; the policy allows only script files"
                    );
                };
                let parts = [
                    (" id=\"cordonry-glue\"", glue.replace("\r\n", "\n")),
                    // Words that no browser runs here: the helper is made of them.
                    (
                        " id=\"cordonry-helper\" type=\"text/plain\"",
                        script(site, HELPER)?,
                    ),
                    ("", BRINGS.replace("__MODULE__", &BASE64.encode(module))),
                    (" type=\"module\"", script(site, path)?),
                ];
                let mut text = Vec::new();
                for (kind, part) in &parts {
                    text.push(format!("<script{kind}>{}", embeddable(part)?));
                    if !kind.contains("text/plain") {
                        hashes.push(format!("'sha256-{}'", BASE64.encode(Sha256::digest(part))));
                    }
                }
                scripts += 1;
                // The page's own end tag closes the last one.
                text.join("</script>\n")
            }
            _ => continue,
        };
        changes.push((tag.range, text));
    }
    if scripts != 1 {
        bail!("www/index.html should have one script, and has {scripts}");
    }
    Ok(html::set_policy(
        &html::replace(&page, &changes),
        &policy::one_file(&hashes),
    ))
}

/// A script with its import of the glue turned into names that the glue has already set.
fn script(site: &Site, path: &str) -> Result<String> {
    let mut lines = Vec::new();
    for line in site.text(path)?.lines() {
        if line.starts_with("import ") || line.starts_with("import{") {
            lines.push(names(line).with_context(|| format!("www/{path}: `{line}`"))?);
        } else {
            lines.push(line.to_string());
        }
    }
    Ok(lines.join("\n") + "\n")
}

/// `import init, { a, b as c } from './cordonry_page.js';` as declarations.
fn names(import: &str) -> Result<String> {
    let glue = format!("./{}.js", glue::NAME);
    let (names, from) = import
        .strip_prefix("import")
        .and_then(|rest| rest.split_once(" from "))
        .context("only an import on one line, with names, can be put into the one file")?;
    if from.trim().trim_end_matches(';').trim_matches(['"', '\'']) != glue {
        bail!("only the import of {glue} can be put into the one file");
    }
    let (default, named) = match names.split_once('{') {
        Some((default, named)) => (default, named.trim().trim_end_matches('}')),
        None => (names, ""),
    };
    let default = default.trim().trim_end_matches(',').trim_end();
    let mut text = String::new();
    if !default.is_empty() {
        text.push_str(&format!("const {default} = wasm_bindgen;"));
    }
    let named = named.trim();
    if !named.is_empty() {
        text.push_str(&format!(
            "const {{ {} }} = wasm_bindgen;",
            named.replace(" as ", ": ")
        ));
    }
    Ok(text)
}

/// A script whose text cannot end its element early.
fn embeddable(script: &str) -> Result<&str> {
    let small = script.to_ascii_lowercase();
    if small.contains("</script") || small.contains("<!--") {
        bail!("a script holds `</script` or `<!--` and cannot stand inside a page");
    }
    Ok(script)
}

fn data(site: &Site, path: &str) -> Result<String> {
    let bytes = site
        .files
        .get(path)
        .with_context(|| format!("www/{path} is missing"))?;
    Ok(format!(
        "data:{};base64,{}",
        mime::of(path),
        BASE64.encode(bytes)
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    const HELP: &str = "import init, { answerMessage } from './cordonry_page.js';\nhelp();\n";
    const PAGE: &str = "<!doctype html><html><head><meta charset=\"utf-8\">\
        <link rel=\"manifest\" href=\"m.webmanifest\"><link rel=\"icon\" href=\"icon.svg\">\
        <link rel=\"stylesheet\" href=\"a.css\"><script type=\"module\" src=\"start.js\"></script></head></html>";

    fn site(start: &str, style: &str) -> Site {
        let mut site = Site::default();
        for (path, text) in [
            ("index.html", PAGE),
            ("a.css", style),
            ("icon.svg", "<svg/>"),
            ("start.js", start),
            ("helper.js", HELP),
        ] {
            site.files.insert(path.into(), text.into());
        }
        site
    }

    #[test]
    fn nothing_is_left_to_load() {
        let start = "import init from './cordonry_page.js';\ninit();\n";
        let html = assemble(&site(start, "a {}\n"), "let wasm_bindgen = 1;", b"wasm").unwrap();
        for tag in html::tags(&html) {
            assert!(tag.get("src").is_none(), "{html}");
            assert!(
                tag.get("href").is_none_or(|href| href.starts_with("data:")),
                "{html}"
            );
        }
        let script = "const init = wasm_bindgen;\ninit();\n";
        assert!(
            html.contains(&format!("<script type=\"module\">{script}</script>")),
            "{html}"
        );
        let hash = BASE64.encode(Sha256::digest(script));
        assert!(html.contains(&format!("'sha256-{hash}'")), "{html}");
        assert!(html.contains("<style>\na {}\n</style>"), "{html}");
        assert!(
            html.contains("<script id=\"cordonry-glue\">let wasm_bindgen = 1;</script>"),
            "{html}"
        );
        assert!(
            html.contains(&format!("atob(\"{}\")", BASE64.encode(b"wasm"))),
            "{html}"
        );
        // The helper's words are no script of the page: no hash lets them run in it.
        let help = "const init = wasm_bindgen;const { answerMessage } = wasm_bindgen;\nhelp();\n";
        assert!(
            html.contains(&format!(
                "<script id=\"cordonry-helper\" type=\"text/plain\">{help}</script>"
            )),
            "{html}"
        );
        assert!(
            !html.contains(&BASE64.encode(Sha256::digest(help))),
            "{html}"
        );
        assert!(html.contains("worker-src blob:"), "{html}");
    }

    #[test]
    fn imports_become_names() {
        for (import, expected) in [
            (
                "import init from './cordonry_page.js';",
                "const init = wasm_bindgen;",
            ),
            (
                "import init, { a, b as c } from \"./cordonry_page.js\"",
                "const init = wasm_bindgen;const { a, b: c } = wasm_bindgen;",
            ),
            (
                "import { a } from './cordonry_page.js';",
                "const { a } = wasm_bindgen;",
            ),
        ] {
            assert_eq!(names(import).unwrap(), expected, "{import}");
        }
        for import in [
            "import './other.js';",
            "import a from './other.js';",
            "import {",
        ] {
            assert!(names(import).is_err(), "{import}");
        }
    }

    #[test]
    fn what_would_break_is_refused() {
        let start = "import init from './cordonry_page.js';\n";
        for (start, style) in [
            ("'</script>'", ""),
            ("import './more.js';", ""),
            (start, "a { background: url(b.png) }"),
            (start, "@import 'b.css';"),
        ] {
            assert!(
                assemble(&site(start, style), "", b"").is_err(),
                "{start} {style}"
            );
        }
    }
}
