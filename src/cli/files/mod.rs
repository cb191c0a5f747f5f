//! Writing files, in this room alone: each is finished under another name beside its place before it takes it, so that no place
//! ever holds half a file.
//!
//! [`tables`] changes the maker's own tables, [`answers`] writes a folder of charts and tables, [`single`] one file for other programs.

pub mod answers;
mod error;
mod finished;
pub mod single;
pub mod tables;

pub use error::FileError;
use std::io;
use std::path::Path;

/// Whether a folder can be written to, or made; asked before slow work begins.
fn can_write(folder: &Path) -> io::Result<()> {
    let there = folder.ancestors().find(|folder| folder.exists()).filter(|folder| !folder.as_os_str().is_empty());
    tempfile::tempfile_in(there.unwrap_or(Path::new("."))).map(drop)
}

/// The folder a file lies in.
fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn unwritable(path: &Path, source: io::Error, instead: &'static str) -> FileError {
    FileError::Unwritable { path: path.to_owned(), source, instead }
}
