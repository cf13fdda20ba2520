//! The library that writes the glue and the one that the page is compiled with must be of one version.

use crate::workspace;
use anyhow::{Context, Result, bail};

/// Fails, with the way out, if Cargo.lock holds two versions.
pub fn check_agreement() -> Result<()> {
    let path = workspace::root().join("Cargo.lock");
    let lock = std::fs::read_to_string(&path)
        .with_context(|| format!("{} cannot be read", path.display()))?;
    agreement(&lock)
}

fn agreement(lock: &str) -> Result<()> {
    let page = versions(lock, "wasm-bindgen");
    let glue = versions(lock, "wasm-bindgen-cli-support");
    match (page.as_slice(), glue.as_slice()) {
        ([page], [glue]) if page == glue => Ok(()),
        ([page], [glue]) => bail!(
            "the page is compiled with wasm-bindgen {page}, but its glue would be written for {glue}: in \
             crates/xtask/Cargo.toml set wasm-bindgen-cli-support = \"={page}\""
        ),
        _ => bail!(
            "Cargo.lock should hold wasm-bindgen and wasm-bindgen-cli-support once each, and holds {page:?} and {glue:?}"
        ),
    }
}

fn versions<'a>(lock: &'a str, package: &str) -> Vec<&'a str> {
    let name = format!("name = \"{package}\"");
    lock.split("[[package]]")
        .filter(|block| block.lines().any(|line| line == name))
        .filter_map(|block| {
            block
                .lines()
                .find_map(|line| line.strip_prefix("version = \"")?.strip_suffix('"'))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lock(page: &str, glue: &str) -> String {
        format!(
            "version = 4\n\n[[package]]\nname = \"wasm-bindgen\"\nversion = \"{page}\"\n\n\
             [[package]]\nname = \"wasm-bindgen-cli-support\"\nversion = \"{glue}\"\n"
        )
    }

    #[test]
    fn the_lock_of_this_workspace_agrees() {
        check_agreement().unwrap();
    }

    #[test]
    fn two_versions_are_told_with_the_way_out() {
        assert!(agreement(&lock("0.2.130", "0.2.130")).is_ok());
        let words = agreement(&lock("0.2.131", "0.2.130"))
            .unwrap_err()
            .to_string();
        assert!(
            words.contains("wasm-bindgen-cli-support = \"=0.2.131\""),
            "{words}"
        );
    }

    #[test]
    fn a_lock_without_them_is_told() {
        assert!(agreement("version = 4\n").is_err());
    }
}
