//! The place of a file, before anything is written there.

use super::error::{FileError, Refusal};
use std::io;
use std::path::Path;

/// Checks before slow work begins that a folder can be written to, or created.
pub(super) fn can_write(folder: &Path) -> io::Result<()> {
    let there = folder.ancestors().find(|folder| folder.exists()).filter(|folder| !folder.as_os_str().is_empty());
    tempfile::tempfile_in(there.unwrap_or(Path::new("."))).map(drop)
}

/// The folder of a file.
pub(super) fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

pub(super) fn unwritable(path: &Path, source: io::Error, instead: &str) -> FileError {
    FileError::Refused { path: path.to_owned(), why: Refusal::System(source), instead: instead.to_owned() }
}
