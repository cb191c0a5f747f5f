//! Writes one file for other programs, where the maker says.

use super::error::{FileError, Refusal};
use super::finished::Finished;
use super::place::{can_write, folder_of, unwritable};
use crate::reading::file::{EntryKind, PathEntry};
use crate::shop::folder::is_of_a_shop;
use std::path::{Path, PathBuf};

const INSTEAD: &str = "name another place with --out";

/// Checks before slow work that a file can be written there: the place is free or holds an ordinary file, and none of the shop's own.
pub fn check(path: &Path, shop: &Path) -> Result<(), FileError> {
    let entry = PathEntry::of(path).map_err(|error| unwritable(path, error, INSTEAD))?;
    let is_new = entry == PathEntry { kind: EntryKind::Nothing, is_link: false };
    if !is_new && entry.kind != EntryKind::File {
        return Err(FileError::Refused { path: path.to_owned(), why: Refusal::NotAFile(entry), instead: INSTEAD.to_owned() });
    }
    if is_of(path, shop) {
        return Err(FileError::Refused { path: path.to_owned(), why: Refusal::OwnTable, instead: INSTEAD.to_owned() });
    }
    let place = place_of(path).unwrap_or_else(|| path.to_owned());
    let folder = folder_of(&place);
    if !folder.is_dir() {
        return Err(FileError::NoFolder { path: folder.to_owned(), instead: INSTEAD.to_owned() });
    }
    can_write(folder).map_err(|error| unwritable(path, error, INSTEAD))
}

/// Writes the file; a link is written through.
pub fn write(path: &Path, shop: &Path, bytes: &[u8]) -> Result<(), FileError> {
    check(path, shop)?;
    let finished = if path.exists() { Finished::replacing(path, bytes) } else { Finished::fresh(path, bytes) };
    finished.and_then(Finished::take_place).map_err(|error| unwritable(path, error, INSTEAD))
}

/// The path with links followed; of a file that does not exist yet, its folder's with the file's name.
fn place_of(path: &Path) -> Option<PathBuf> {
    path.canonicalize().ok().or_else(|| Some(folder_of(path).canonicalize().ok()?.join(path.file_name()?)))
}

/// Whether a path leads to one of the shop's files, or a new file there would be one.
fn is_of(path: &Path, shop: &Path) -> bool {
    let Some(place) = place_of(path) else { return false };
    // A shop may be a workbook.
    if shop.is_file() {
        return shop.canonicalize().is_ok_and(|shop| shop == place);
    }
    let named = |path: &Path| path.file_name().and_then(|name| name.to_str()).is_some_and(is_of_a_shop);
    let is_inside = place.parent().is_some_and(|folder| shop.canonicalize().is_ok_and(|shop| shop == folder));
    let entries = std::fs::read_dir(shop).into_iter().flatten().flatten().map(|entry| entry.path());
    (is_inside && named(&place)) || entries.filter(|entry| named(entry)).any(|entry| entry.canonicalize().is_ok_and(|own| own == place))
}
