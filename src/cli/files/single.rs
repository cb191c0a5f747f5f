//! One file for other programs, in a place the maker names.

use super::finished::{Finished, PREFIX};
use super::{FileError, can_write, folder_of, unwritable};
use crate::reading::file::{Standing, What};
use crate::shop::folder::is_of_a_shop;
use std::path::{Path, PathBuf};

const INSTEAD: &str = "name another place with --out";

/// Whether a file can be written there: none of the shop's own, and nothing that is not an ordinary file; asked before slow work.
pub fn check(path: &Path, shop: &Path) -> Result<(), FileError> {
    let standing = Standing::of(path).map_err(|error| unwritable(path, error, INSTEAD))?;
    let is_new = standing == Standing { what: What::Nothing, is_link: false };
    if !is_new && standing.what != What::File {
        return Err(FileError::NotAFile { path: path.to_owned(), standing, instead: INSTEAD });
    }
    if is_of(path, shop) {
        return Err(FileError::OwnTable { path: path.to_owned(), instead: INSTEAD });
    }
    let place = place_of(path).unwrap_or_else(|| path.to_owned());
    let folder = folder_of(&place);
    if !folder.is_dir() {
        return Err(FileError::NoFolder { path: folder.to_owned(), instead: INSTEAD });
    }
    can_write(folder).map_err(|error| unwritable(path, error, INSTEAD))
}

/// Writes the file; a link is written through.
pub fn write(path: &Path, shop: &Path, bytes: &[u8]) -> Result<(), FileError> {
    check(path, shop)?;
    let finished = if path.exists() { Finished::replacing(path, bytes, PREFIX) } else { Finished::fresh(path, bytes) };
    finished.and_then(Finished::take_place).map_err(|error| unwritable(path, error, INSTEAD))
}

/// Where a path leads, links followed; where nothing stands yet, where it would.
fn place_of(path: &Path) -> Option<PathBuf> {
    path.canonicalize().ok().or_else(|| Some(folder_of(path).canonicalize().ok()?.join(path.file_name()?)))
}

/// Whether a path leads to one of the shop's files, or would become one.
fn is_of(path: &Path, shop: &Path) -> bool {
    let Some(place) = place_of(path) else { return false };
    let named = |path: &Path| path.file_name().and_then(|name| name.to_str()).is_some_and(is_of_a_shop);
    let is_inside = place.parent().is_some_and(|folder| shop.canonicalize().is_ok_and(|shop| shop == folder));
    let entries = std::fs::read_dir(shop).into_iter().flatten().flatten().map(|entry| entry.path());
    (is_inside && named(&place)) || entries.filter(|entry| named(entry)).any(|entry| entry.canonicalize().is_ok_and(|own| own == place))
}
