//! Smaller copies of the built files, for servers that send such copies as they stand.

use crate::{mime, workspace};
use anyhow::{Context, Result};
use flate2::{Compression, write::GzEncoder};
use sha2::{Digest, Sha256};
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};

/// A coding of HTTP, RFC 9110, section 8.4.1 (brotli: RFC 7932).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coding {
    Brotli,
    Gzip,
}

impl Coding {
    /// The smaller first.
    pub const ALL: [Coding; 2] = [Coding::Brotli, Coding::Gzip];

    /// Its name in `Accept-Encoding` and `Content-Encoding`.
    pub fn name(self) -> &'static str {
        match self {
            Coding::Brotli => "br",
            Coding::Gzip => "gzip",
        }
    }

    /// What is put behind a file's name for its copy.
    pub fn ending(self) -> &'static str {
        match self {
            Coding::Brotli => ".br",
            Coding::Gzip => ".gz",
        }
    }

    /// Where the copy of a file stands.
    pub fn beside(self, path: &Path) -> PathBuf {
        let mut name = path.as_os_str().to_owned();
        name.push(self.ending());
        name.into()
    }

    /// The bytes in this coding, at its best: what is written once is sent often.
    fn pack(self, bytes: &[u8]) -> Result<Vec<u8>> {
        let mut packed = Vec::new();
        match self {
            Coding::Brotli => {
                let best = brotli::enc::BrotliEncoderParams {
                    quality: 11,
                    lgwin: 22,
                    size_hint: bytes.len(),
                    ..Default::default()
                };
                brotli::BrotliCompress(&mut &*bytes, &mut packed, &best)?;
            }
            Coding::Gzip => {
                let mut encoder = GzEncoder::new(&mut packed, Compression::best());
                encoder.write_all(bytes)?;
                encoder.finish()?;
            }
        }
        Ok(packed)
    }
}

/// Writes the copies of one file beside it, where its kind packs well and a copy is smaller. What was packed once is
/// kept under target/.
pub fn write_beside(path: &Path, bytes: &[u8]) -> Result<()> {
    if !mime::is_text_like(mime::of(&path.to_string_lossy())) {
        return Ok(());
    }
    for coding in Coding::ALL {
        let packed = kept(&workspace::target().join("packed"), bytes, coding)?;
        if packed.len() < bytes.len() {
            let copy = coding.beside(path);
            fs::write(&copy, packed)
                .with_context(|| format!("{} cannot be written", copy.display()))?;
        }
    }
    Ok(())
}

/// The packed bytes, from the store if these bytes have been packed before.
fn kept(store: &Path, bytes: &[u8], coding: Coding) -> Result<Vec<u8>> {
    let name: String = Sha256::digest(bytes)[..16]
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect();
    let path = store.join(name + coding.ending());
    if let Ok(packed) = fs::read(&path) {
        return Ok(packed);
    }
    let packed = coding.pack(bytes)?;
    fs::create_dir_all(store)?;
    // In two steps, so that a build that is cut off leaves no half file.
    let half = store.join(format!("half-{}", std::process::id()));
    fs::write(&half, &packed)?;
    fs::rename(&half, &path).with_context(|| format!("{} cannot be written", path.display()))?;
    Ok(packed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    fn unpack(coding: Coding, packed: &[u8]) -> Vec<u8> {
        let mut bytes = Vec::new();
        match coding {
            Coding::Brotli => {
                brotli::BrotliDecompress(&mut &*packed, &mut bytes).unwrap();
            }
            Coding::Gzip => {
                flate2::read::GzDecoder::new(packed)
                    .read_to_end(&mut bytes)
                    .unwrap();
            }
        }
        bytes
    }

    #[test]
    fn packed_bytes_are_the_same_bytes_and_kept() {
        let store = workspace::target().join("tmp/packed");
        let _ = fs::remove_dir_all(&store);
        let bytes = "upright after upright ".repeat(200).into_bytes();
        for coding in Coding::ALL {
            let packed = kept(&store, &bytes, coding).unwrap();
            assert!(packed.len() < bytes.len() / 10, "{coding:?}");
            assert_eq!(unpack(coding, &packed), bytes, "{coding:?}");
            // From the store the second time: whatever stands there.
            for entry in fs::read_dir(&store).unwrap() {
                fs::write(entry.unwrap().path(), b"kept").unwrap();
            }
            assert_eq!(kept(&store, &bytes, coding).unwrap(), b"kept");
            assert_ne!(kept(&store, b"other", coding).unwrap(), b"kept");
        }
    }

    #[test]
    fn copies_stand_beside_what_packs_well() {
        let folder = workspace::target().join("tmp/beside");
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        let long = "a".repeat(1000);
        for (name, text, copies) in [
            ("a.css", long.as_str(), 2),
            ("b.png", long.as_str(), 0),
            ("c.txt", "c", 0),
        ] {
            let path = folder.join(name);
            write_beside(&path, text.as_bytes()).unwrap();
            let found = Coding::ALL.iter().filter(|c| c.beside(&path).exists());
            assert_eq!(found.count(), copies, "{name}");
        }
    }
}
