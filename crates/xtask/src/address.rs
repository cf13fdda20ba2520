//! From the address that was asked for to a file in the served folder, and to nothing outside it.

use std::path::{Path, PathBuf};

/// The file that an address names, if it is one inside `root`.
pub fn file(root: &Path, address: &str) -> Option<PathBuf> {
    let path = root.join(relative(address)?);
    // A link inside the folder must not lead out of it either.
    let real = path.canonicalize().ok()?;
    (real.is_file() && real.starts_with(root.canonicalize().ok()?)).then_some(real)
}

/// The relative path that an address names, decoded once, or nothing if it is no plain path.
fn relative(address: &str) -> Option<String> {
    let path = address.split(['?', '#']).next()?;
    let path = decode(path.strip_prefix('/')?)?;
    let path = if path.is_empty() || path.ends_with('/') {
        path + "index.html"
    } else {
        path
    };
    let plain = path.split('/').all(|part| {
        !part.is_empty() && !part.starts_with('.') && !part.contains(['\\', ':', '\0'])
    });
    plain.then_some(path)
}

fn decode(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let high = char::from(rest.next()?).to_digit(16)?;
            let low = char::from(rest.next()?).to_digit(16)?;
            bytes.push(u8::try_from(high * 16 + low).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_addresses_are_paths() {
        for (address, expected) in [
            ("/", "index.html"),
            ("/?bench=300x10", "index.html"),
            ("/start.js", "start.js"),
            (
                "/examples/third-leaf.json?x=/../y",
                "examples/third-leaf.json",
            ),
            ("/examples/", "examples/index.html"),
            ("/a%20b.txt", "a b.txt"),
        ] {
            assert_eq!(relative(address).as_deref(), Some(expected), "{address}");
        }
    }

    #[test]
    fn no_address_leads_out() {
        for address in [
            "/../Cargo.toml",
            "/%2e%2e/Cargo.toml",
            "/examples/../../Cargo.toml",
            "/..%2fCargo.toml",
            "/..\\Cargo.toml",
            "/%5c..%5cCargo.toml",
            "//etc/passwd",
            "/%2fetc/passwd",
            "/.git/config",
            "/C:/windows",
            "/a%00b",
            "/a%zz",
            "/a%2",
            "/%ff",
            "start.js",
            "",
            "http://elsewhere/",
        ] {
            assert_eq!(relative(address), None, "{address}");
        }
    }

    #[test]
    fn only_files_inside_are_found() {
        let root = crate::workspace::root().join("crates/xtask");
        assert!(file(&root, "/Cargo.toml").is_some());
        assert!(file(&root, "/src").is_none());
        assert!(file(&root, "/no-such-file").is_none());
    }
}
