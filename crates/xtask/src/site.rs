//! The built page: every file of it by relative path.
//!
//! What the page loads stands in a folder named by the build's stamp, so that an address never has two contents: it can
//! be kept for ever, and a page of one build meets no file of another. At the top are the files with an address of their
//! own: the page, its service worker, its manifest, and the examples.

use crate::{html, packed, policy};
use anyhow::{Context, Result};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The service worker, which is told the build's stamp and files.
const WORKER: &str = "sw.js";

/// The files that are found by their own address, whatever the build.
const PAGE: &str = "index.html";
const MANIFEST: &str = "manifest.webmanifest";
const EXAMPLES: &str = "examples/";

/// The part of the module that is kept on a device only once somebody has asked for it.
const LATER: &str = "split_pdf.wasm";

/// What the folder of a build's own files begins with.
pub const STAMPED: &str = "build-";

#[derive(Default)]
pub struct Site {
    pub files: BTreeMap<String, Vec<u8>>,
}

impl Site {
    /// Adds every file under a folder. Hidden files stay out.
    pub fn add_folder(&mut self, folder: &Path, prefix: &str) -> Result<()> {
        let entries =
            fs::read_dir(folder).with_context(|| format!("{} cannot be read", folder.display()))?;
        for entry in entries {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            if name.starts_with('.') {
                continue;
            }
            let path = format!("{prefix}{name}");
            if entry.path().is_dir() {
                self.add_folder(&entry.path(), &format!("{path}/"))?;
            } else {
                self.files.insert(path, fs::read(entry.path())?);
            }
        }
        Ok(())
    }

    /// Puts the styles into the page and the build's own files under its stamp, and gives the page its policy and the
    /// service worker its build: the last step.
    pub fn finish(&mut self) -> Result<()> {
        self.put_styles_in()?;
        let page = html::set_policy(&self.text(PAGE)?, &policy::meta());
        self.files.insert(PAGE.into(), page.into_bytes());
        let stamp = self.stamp();
        let folder = format!("{STAMPED}{stamp}/");
        let moved: Vec<String> = (self.files.keys())
            .filter(|path| ![PAGE, MANIFEST, WORKER].contains(&path.as_str()))
            .filter(|path| !path.starts_with(EXAMPLES))
            .cloned()
            .collect();
        for path in &moved {
            if let Some(bytes) = self.files.remove(path) {
                self.files.insert(format!("{folder}{path}"), bytes);
            }
        }
        for file in [PAGE, MANIFEST] {
            if self.files.contains_key(file) {
                let mut text = self.text(file)?;
                for path in &moved {
                    let old = format!("\"{path}\"");
                    text = text.replace(&old, &format!("\"{folder}{path}\""));
                }
                self.files.insert(file.into(), text.into_bytes());
            }
        }
        if self.files.contains_key(WORKER) {
            let list: Vec<&String> = (self.files.keys())
                .filter(|path| ![PAGE, WORKER].contains(&path.as_str()))
                .filter(|path| !path.starts_with(EXAMPLES) && !path.ends_with(LATER))
                .collect();
            let worker = self
                .text(WORKER)?
                .replace("__FILES__", &serde_json::to_string(&list)?)
                .replace("__BUILD__", &stamp);
            self.files.insert(WORKER.into(), worker.into_bytes());
        }
        Ok(())
    }

    /// The style sheets' text in place of their links, so that the first paint waits for no other file.
    fn put_styles_in(&mut self) -> Result<()> {
        let page = self.text(PAGE)?;
        let mut changes = Vec::new();
        for tag in html::tags(&page) {
            if !tag.is("link", "rel", "stylesheet") {
                continue;
            }
            let path = tag.get("href").context("a style sheet has no address")?;
            changes.push((tag.range.clone(), html::style(path, &self.text(path)?)?));
            self.files.remove(path);
        }
        let page = html::replace(&page, &changes);
        self.files.insert(PAGE.into(), page.into_bytes());
        Ok(())
    }

    pub fn text(&self, path: &str) -> Result<String> {
        let bytes = self
            .files
            .get(path)
            .with_context(|| format!("www/{path} is missing"))?;
        String::from_utf8(bytes.clone()).with_context(|| format!("www/{path} is not UTF-8"))
    }

    /// A stamp that changes with any file's name or bytes, and with nothing else.
    fn stamp(&self) -> String {
        let mut hash = Sha256::new();
        for (path, bytes) in &self.files {
            hash.update(path.len().to_le_bytes());
            hash.update(path);
            hash.update(bytes.len().to_le_bytes());
            hash.update(bytes);
        }
        hash.finalize()[..8]
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect()
    }

    /// Writes the files into a folder that then holds these, the packed copies of them, and no others.
    pub fn write(&self, folder: &Path) -> Result<()> {
        if folder.exists() {
            fs::remove_dir_all(folder)?;
        }
        for (path, bytes) in &self.files {
            let path = folder.join(path);
            if let Some(parent) = path.parent() {
                fs::create_dir_all(parent)?;
            }
            fs::write(&path, bytes)
                .with_context(|| format!("{} cannot be written", path.display()))?;
            packed::write_beside(&path, bytes)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(style: &str) -> Site {
        let mut site = Site::default();
        for (path, text) in [
            (
                "index.html",
                "<head><link rel=\"stylesheet\" href=\"a.css\"><link rel=\"icon\" href=\"i.svg\"></head>\
                 <script src=\"start.js\"></script>",
            ),
            ("a.css", style),
            ("start.js", "import './b.js';"),
            ("split_pdf.wasm", "later"),
            ("i.svg", "<svg/>"),
            ("examples/one.json", "{}"),
            (
                "manifest.webmanifest",
                "{\"icons\": [{ \"src\": \"i.svg\" }]}",
            ),
            ("sw.js", "const build = '__BUILD__', files = __FILES__;"),
        ] {
            site.files.insert(path.into(), text.into());
        }
        site.finish().unwrap();
        site
    }

    /// The folder of the build's own files.
    fn folder(site: &Site) -> String {
        let mut names = site.files.keys().filter_map(|path| path.split_once('/'));
        let (folder, _) = names.find(|(name, _)| name.starts_with(STAMPED)).unwrap();
        folder.to_string()
    }

    #[test]
    fn the_builds_own_files_stand_under_its_stamp() {
        let one = site("a {}");
        let folder = folder(&one);
        let files: Vec<&str> = one.files.keys().map(String::as_str).collect();
        assert_eq!(
            files,
            [
                &format!("{folder}/i.svg"),
                &format!("{folder}/split_pdf.wasm"),
                &format!("{folder}/start.js"),
                "examples/one.json",
                "index.html",
                "manifest.webmanifest",
                "sw.js",
            ]
        );
        let page = one.text("index.html").unwrap();
        for part in [
            format!("<link rel=\"icon\" href=\"{folder}/i.svg\">"),
            format!("<script src=\"{folder}/start.js\">"),
            "<style>\na {}</style>".to_string(),
            "script-src 'self' 'wasm-unsafe-eval'".to_string(),
        ] {
            assert!(page.contains(&part), "{part} in {page}");
        }
        assert!(!page.contains("stylesheet"), "{page}");
        let manifest = one.text("manifest.webmanifest").unwrap();
        assert!(
            manifest.contains(&format!("\"{folder}/i.svg\"")),
            "{manifest}"
        );
    }

    #[test]
    fn the_worker_learns_build_and_files() {
        let one = site("a {}");
        let folder = folder(&one);
        let stamp = folder.strip_prefix(STAMPED).unwrap();
        assert_eq!(
            one.text("sw.js").unwrap(),
            format!(
                "const build = '{stamp}', files = [\"{folder}/i.svg\",\"{folder}/start.js\",\"manifest.webmanifest\"];"
            )
        );
        assert_eq!(one.files, site("a {}").files);
        assert_ne!(folder, self::folder(&site("b {}")));
    }

    #[test]
    fn a_site_without_a_page_or_its_style_is_told() {
        assert!(Site::default().finish().is_err());
        let mut site = Site::default();
        let page = "<link rel=\"stylesheet\" href=\"a.css\">";
        site.files.insert("index.html".into(), page.into());
        assert!(site.finish().is_err());
    }
}
