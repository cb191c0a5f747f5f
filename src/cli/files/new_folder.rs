//! Makes a folder with files in it: all of it, or nothing.
//!
//! The folder is filled under a temporary name next to its place and then renamed, which no kill can do by halves.

use super::error::FileError;
use super::error::Refusal;
use super::finished::{is_left_over, is_locked};
use super::place::{folder_of, unwritable};
use crate::reading::file::{EntryKind, PathEntry};
use std::fs::{File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::{Builder, TempDir};

const INSTEAD: &str = "name a new folder";
/// Prefix of temporary names.
const PREFIX: &str = ".fairdozen-new-";

/// Checks that the place is free, or an empty folder.
pub fn check(folder: &Path) -> Result<(), FileError> {
    let refused = |why: Refusal| FileError::Refused { path: folder.to_owned(), why, instead: INSTEAD.to_owned() };
    let entry = PathEntry::of(folder).map_err(|error| unwritable(folder, error, INSTEAD))?;
    match entry {
        PathEntry { kind: EntryKind::Nothing, is_link: false } => {}
        PathEntry { kind: EntryKind::Folder, .. } => {
            let mut entries = std::fs::read_dir(folder).map_err(|error| unwritable(folder, error, INSTEAD))?;
            if entries.next().is_some() {
                return Err(refused(Refusal::NotEmpty));
            }
            if std::env::current_dir().and_then(|here| Ok(here.starts_with(folder.canonicalize()?))).unwrap_or(false) {
                return Err(refused(Refusal::Here));
            }
        }
        _ => return Err(refused(Refusal::NotAFolder(entry))),
    }
    let parent = folder_of(folder);
    if parent.is_dir() { Ok(()) } else { Err(FileError::NoFolder { path: parent.to_owned(), instead: INSTEAD.to_owned() }) }
}

/// Makes the folder.
pub(crate) fn create(folder: &Path, files: &[(String, Vec<u8>)]) -> Result<(), FileError> {
    check(folder)?;
    let failed = |error| unwritable(folder, error, INSTEAD);
    // An empty folder is replaced, not a link to it.
    let place = if folder.exists() { folder.canonicalize().map_err(failed)? } else { folder.to_owned() };
    let filled = filled(&place, files).map_err(failed)?;
    put(filled, &place).map_err(failed)
}

/// Fills a folder under a temporary name. A lock on its first file, held while others are written, keeps it from being swept.
fn filled(place: &Path, files: &[(String, Vec<u8>)]) -> io::Result<TempDir> {
    let parent = folder_of(place);
    sweep(parent);
    let mut builder = Builder::new();
    builder.prefix(PREFIX);
    // What is usual for a new folder, less what the process's mask forbids.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o777));
    let filled = builder.tempdir_in(parent)?;
    if let Ok(standing) = std::fs::metadata(place) {
        std::fs::set_permissions(filled.path(), standing.permissions())?;
    }
    let mut first: Option<File> = None;
    for (name, bytes) in files {
        let mut file = OpenOptions::new().write(true).create_new(true).open(filled.path().join(name))?;
        if first.is_none() {
            // Where there are no locks, nothing is swept either.
            let _ = file.try_lock();
        }
        file.write_all(bytes)?;
        file.sync_all()?;
        first.get_or_insert(file);
    }
    Ok(filled)
}

/// Renames a filled folder into its place. An empty folder there is replaced in one step where the system can do that.
fn put(filled: TempDir, place: &Path) -> io::Result<()> {
    let renamed = std::fs::rename(filled.path(), place);
    if renamed.is_err() && place.is_dir() {
        // Fails where it is not empty any more.
        std::fs::remove_dir(place)?;
        std::fs::rename(filled.path(), place)?;
    } else {
        renamed?;
    }
    // It is there no more under its temporary name.
    let _: PathBuf = filled.keep();
    Ok(())
}

/// Removes folders left by a run that was stopped.
fn sweep(parent: &Path) {
    for entry in std::fs::read_dir(parent).into_iter().flatten().flatten() {
        let path = entry.path();
        let is_in_use = || std::fs::read_dir(&path).into_iter().flatten().flatten().any(|file| is_locked(&file.path()));
        if is_left_over(&entry, PREFIX) && entry.file_type().is_ok_and(|found| found.is_dir()) && !is_in_use() {
            // Where it cannot be removed, it harms nothing.
            let _ = std::fs::remove_dir_all(&path);
        }
    }
}
