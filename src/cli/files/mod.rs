//! Writing files, in this room alone: each is finished under another name beside its place before it takes it, so that no place
//! ever holds half a file.
//!
//! [`tables`] changes the maker's own tables, [`answers`] writes a folder of charts and tables, [`single`] one file for other programs.

pub mod answers;
mod finished;
pub mod single;
pub mod tables;

use super::outcome::Outcome;
use crate::reading::file::plain;
use std::path::Path;

/// Whether a folder can be written to, or made; asked before slow work begins.
fn can_write(folder: &Path) -> std::io::Result<()> {
    let there = folder.ancestors().find(|folder| folder.exists()).filter(|folder| !folder.as_os_str().is_empty());
    tempfile::tempfile_in(there.unwrap_or(Path::new("."))).map(drop)
}

/// The folder a file lies in.
fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn unwritable(path: &Path, error: &std::io::Error, instead: &str) -> Outcome {
    Outcome::wrong(format!("{} cannot be written: {}; {instead}", path.display(), plain(error)))
}
