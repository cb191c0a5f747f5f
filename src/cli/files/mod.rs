//! Writes files, and is the only place that does. Each file is finished under a temporary name next to its place and then renamed, so
//! that no place ever holds half a file.
//!
//! [`tables`] changes the maker's own tables, [`answers`] writes a folder of charts and tables, [`single`] one file for other programs,
//! [`new_folder`] makes a folder. What a run that was stopped left under a temporary name, the next one removes.

pub mod answers;
mod error;
mod finished;
pub mod new_folder;
pub mod single;
pub mod tables;

pub use error::FileError;
use error::Refusal;
use std::io;
use std::path::Path;

/// Checks before slow work begins that a folder can be written to, or created.
fn can_write(folder: &Path) -> io::Result<()> {
    let there = folder.ancestors().find(|folder| folder.exists()).filter(|folder| !folder.as_os_str().is_empty());
    tempfile::tempfile_in(there.unwrap_or(Path::new("."))).map(drop)
}

/// The folder of a file.
fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn unwritable(path: &Path, source: io::Error, instead: &str) -> FileError {
    FileError::Refused { path: path.to_owned(), why: Refusal::System(source), instead: instead.to_owned() }
}
