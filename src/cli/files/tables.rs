//! Changes the maker's own tables: all of them or none.
//!
//! The new bytes were worked out from a folder that was read a while ago. So every file is read again under a lock, which only one
//! writer of a shop can hold: if any differs, nothing is changed, and what she saved meanwhile stays.

use super::error::{FileError, NotTakenBack};
use super::finished::Finished;
use crate::reading::file;
use crate::shop::folder::{Difference, Folder};
use crate::shop::specification::ORDERS;
use std::fs::{File, TryLockError};
use std::io;
use std::path::PathBuf;

/// Tables to change.
pub struct Change<'a> {
    folder: &'a Folder,
    /// By file name in small letters, in the order they are replaced.
    files: Vec<(String, Vec<u8>)>,
}

/// A table that is ready to take its place.
struct Ready<'a> {
    finished: Finished,
    place: Place<'a>,
}

/// A table's place, with its old and new bytes.
struct Place<'a> {
    path: PathBuf,
    /// The name as the folder spells it.
    name: &'a str,
    /// The bytes it was worked out from; `None` if there is no such file yet.
    old: Option<&'a [u8]>,
    new: &'a [u8],
}

impl<'a> Change<'a> {
    /// Prepares new bytes for some files of the folder they were worked out from.
    pub fn new(folder: &'a Folder, files: Vec<(String, Vec<u8>)>) -> Self {
        Self { folder, files }
    }

    /// Returns the changed folder, in memory.
    pub fn changed(&self) -> Folder {
        self.folder.with(self.files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())))
    }

    /// Replaces all the files, or none.
    pub fn commit(&self) -> Result<(), FileError> {
        let _lock = self.lock()?;
        if let Some(difference) = self.folder.difference(&self.folder.read_again()) {
            return Err(FileError::Overtaken(difference));
        }
        place(self.ready()?)
    }

    /// Locks the shop against other writers until the file is dropped.
    fn lock(&self) -> Result<File, FileError> {
        let name = self.folder.first_file();
        let file = file::open(&self.folder.path_of(name))
            .map_err(|_| FileError::Overtaken(Difference::Gone(self.folder.name(name).to_owned())))?;
        if let Err(TryLockError::WouldBlock) = file.try_lock() {
            return Err(FileError::Locked);
        }
        // Some network folders know no locks; what was read is compared all the same.
        Ok(file)
    }

    /// The file that the orders are in, or the first of them.
    fn orders(&self) -> PathBuf {
        let first = self.folder.sources().of_table(&ORDERS).first().map(|source| source.workbook().unwrap_or(source.name));
        self.folder.path().join(first.unwrap_or_default())
    }

    fn ready(&self) -> Result<Vec<Ready<'_>>, FileError> {
        self.files.iter().map(|(file, new)| self.finish(file, new).map_err(|error| unchanged(self.folder.name(file), error))).collect()
    }

    fn finish<'s>(&'s self, file: &'s str, new: &'s [u8]) -> io::Result<Ready<'s>> {
        let (path, old) = (self.folder.path_of(file), self.folder.bytes(file));
        let finished = match old {
            Some(_) => Finished::replacing(&path, new)?,
            // As private as what is beside it.
            None => Finished::fresh_like(&path, new, &self.orders())?,
        };
        let place = Place { path: finished.path().to_owned(), name: self.folder.name(file), old, new };
        Ok(Ready { finished, place })
    }
}

/// Replaces one file after another; if one fails, those before it are restored.
fn place(ready: Vec<Ready<'_>>) -> Result<(), FileError> {
    let mut placed: Vec<Place<'_>> = Vec::new();
    for Ready { finished, place } in ready {
        if let Err(refused) = place.take(finished) {
            for before in placed.iter().rev() {
                if let Err(why) = before.take_back() {
                    return Err(FileError::HalfChanged { name: place.name.to_owned(), before: before.name.to_owned(), why });
                }
            }
            return Err(refused);
        }
        placed.push(place);
    }
    Ok(())
}

impl Place<'_> {
    /// Takes the place, unless the file there changed at the last moment.
    fn take(&self, finished: Finished) -> Result<(), FileError> {
        if self.old.is_some_and(|old| !self.holds(old)) {
            return Err(FileError::Overtaken(Difference::Saved(self.name.to_owned())));
        }
        finished.take_place().map_err(|error| match error.kind() {
            io::ErrorKind::AlreadyExists => FileError::Overtaken(Difference::New(self.name.to_owned())),
            _ => unchanged(self.name, error),
        })
    }

    /// Restores the old bytes, unless the file was saved again since.
    fn take_back(&self) -> Result<(), NotTakenBack> {
        if !self.holds(self.new) {
            return Err(NotTakenBack::SavedAgain);
        }
        match self.old {
            Some(old) => Finished::replacing(&self.path, old)?.take_place()?,
            None => std::fs::remove_file(&self.path)?,
        }
        Ok(())
    }

    fn holds(&self, bytes: &[u8]) -> bool {
        file::read(&self.path).is_ok_and(|found| found == bytes)
    }
}

fn unchanged(name: &str, source: io::Error) -> FileError {
    FileError::Unchanged { name: name.to_owned(), source }
}

#[cfg(test)]
mod tests;
