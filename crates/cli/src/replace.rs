//! A file is replaced whole or not at all.

use std::fs;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

/// Puts bytes into the file at `path`: first into a new file beside it, which takes its place once all is on the disk.
/// A link is kept, and what it leads to replaced. What is no file, such as a terminal or a pipe, is written straight to.
///
/// # Errors
/// What can't be made, written or put in place; the old file is whole then.
pub fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let path = target(path)?;
    let old = fs::metadata(&path).ok();
    if old.as_ref().is_some_and(|m| !m.is_file()) {
        let mut file = fs::OpenOptions::new().write(true).open(&path)?;
        file.write_all(bytes)?;
        return file.flush();
    }
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut file = new_file(folder).map_err(plain)?;
    file.write_all(bytes).map_err(plain)?;
    if let Some(old) = old {
        file.as_file().set_permissions(old.permissions())?;
    }
    file.as_file().sync_all()?;
    file.persist(&path).map_err(|e| e.error)?;
    // The new name is on the disk once its folder is.
    if let Ok(folder) = fs::File::open(folder) {
        let _ = folder.sync_all();
    }
    Ok(())
}

/// Where a path leads, also where nothing is there yet.
fn target(path: &Path) -> io::Result<PathBuf> {
    const MOST_LINKS: usize = 40;
    let mut path = path.to_path_buf();
    for _ in 0..MOST_LINKS {
        match fs::read_link(&path) {
            Ok(to) => path = path.parent().unwrap_or(Path::new("")).join(to),
            Err(_) => return Ok(path),
        }
    }
    Err(io::Error::other("too many links"))
}

/// An error without the name of the file that stood in for the one that was asked for.
fn plain(error: io::Error) -> io::Error {
    match error.to_string().split_once(" at path ") {
        Some((what, _)) => io::Error::new(error.kind(), what),
        None => error,
    }
}

/// A file beside the one to be replaced, with the permissions that any new file gets. It goes with its handle.
fn new_file(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".cordonry-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    builder.tempfile_in(folder)
}
