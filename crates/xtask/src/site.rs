//! The built page: every file of it by relative path.

use crate::{html, policy};
use anyhow::{Context, Result};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The service worker, which is told the build's stamp and files.
const WORKER: &str = "sw.js";

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

    /// Gives the page its policy and the service worker its build: the last step.
    pub fn finish(&mut self) -> Result<()> {
        let page = self.text("index.html")?;
        self.files.insert(
            "index.html".into(),
            html::set_policy(&page, &policy::meta()).into_bytes(),
        );
        if self.files.contains_key(WORKER) {
            let list: Vec<&String> = self.files.keys().filter(|path| *path != WORKER).collect();
            let worker = self
                .text(WORKER)?
                .replace("__FILES__", &serde_json::to_string(&list)?)
                .replace("__BUILD__", &self.stamp());
            self.files.insert(WORKER.into(), worker.into_bytes());
        }
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

    /// Writes the files into a folder that then holds these and no others.
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
            ("index.html", "<head></head>"),
            ("a.css", style),
            ("sw.js", "const build = '__BUILD__', files = __FILES__;"),
        ] {
            site.files.insert(path.into(), text.into());
        }
        site.finish().unwrap();
        site
    }

    #[test]
    fn the_worker_learns_build_and_files() {
        let worker = site("a {}").text("sw.js").unwrap();
        assert!(
            worker.ends_with("', files = [\"a.css\",\"index.html\"];"),
            "{worker}"
        );
        assert!(!worker.contains("__"), "{worker}");
        assert_eq!(worker, site("a {}").text("sw.js").unwrap());
        assert_ne!(worker, site("b {}").text("sw.js").unwrap());
    }

    #[test]
    fn the_page_states_its_policy() {
        let page = site("").text("index.html").unwrap();
        assert!(
            page.contains("script-src 'self' 'wasm-unsafe-eval'"),
            "{page}"
        );
    }

    #[test]
    fn a_site_without_a_page_is_told() {
        assert!(Site::default().finish().is_err());
    }
}
