//! New bytes for a maker's own tables: all of them take their places, or none.
//!
//! They were worked out from the bytes of a folder that was opened a while ago. So under a lock, which only one writer of a shop can
//! hold, every file is read again: where any differs, what she saved meanwhile stays, and nothing is changed.

use super::FileError;
use super::error::NotTakenBack;
use super::finished::{Finished, TABLE_PREFIX};
use crate::reading::file;
use crate::shop::folder::{Difference, Folder};
use crate::shop::settings;
use crate::shop::specification::ORDERS;
use std::fs::{File, TryLockError};
use std::io;
use std::path::PathBuf;

/// Tables to change.
pub struct Change<'a> {
    folder: &'a Folder,
    /// By the name a shop knows each by, in the order they take their places.
    files: Vec<(String, Vec<u8>)>,
}

/// One of them, finished.
struct Ready<'a> {
    finished: Finished,
    place: Place<'a>,
}

/// Where one stands, and what with.
struct Place<'a> {
    path: PathBuf,
    /// The name it has in the folder.
    name: &'a str,
    /// What it is worked out from; `None` where there is no such file yet.
    old: Option<&'a [u8]>,
    new: &'a [u8],
}

impl<'a> Change<'a> {
    /// A change of some files of the folder it was worked out from.
    pub fn new(folder: &'a Folder, files: Vec<(String, Vec<u8>)>) -> Self {
        Self { folder, files }
    }

    /// The folder as it will be, in memory.
    pub fn changed(&self) -> Folder {
        self.folder.with(self.files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())))
    }

    /// Puts all in place, or changes nothing.
    pub fn commit(&self) -> Result<(), FileError> {
        let _lock = self.lock()?;
        if let Some(difference) = self.folder.difference(&Folder::open(self.folder.path())) {
            return Err(FileError::Overtaken(difference));
        }
        self.sweep();
        place(self.ready()?)
    }

    /// Keeps every other writer of the shop out for as long as the file stays open.
    fn lock(&self) -> Result<File, FileError> {
        let name = self.folder.name(settings::FILE);
        let file = file::open(&self.folder.path_of(settings::FILE)).map_err(|_| FileError::Overtaken(Difference::Gone(name.to_owned())))?;
        if let Err(TryLockError::WouldBlock) = file.try_lock() {
            return Err(FileError::Locked);
        }
        // Some network folders know no locks; what was read is compared all the same.
        Ok(file)
    }

    /// Removes what a writer that was stopped in the middle left in the folder: no other writes now.
    fn sweep(&self) {
        for entry in std::fs::read_dir(self.folder.path()).into_iter().flatten().flatten() {
            let is_left = entry.file_name().to_str().is_some_and(|name| name.starts_with(TABLE_PREFIX));
            if is_left && entry.file_type().is_ok_and(|found| found.is_file()) {
                // Where it cannot be removed, it harms nothing.
                let _ = std::fs::remove_file(entry.path());
            }
        }
    }

    fn ready(&self) -> Result<Vec<Ready<'_>>, FileError> {
        self.files.iter().map(|(file, new)| self.finish(file, new).map_err(|error| unchanged(self.folder.name(file), error))).collect()
    }

    fn finish<'s>(&'s self, file: &'s str, new: &'s [u8]) -> io::Result<Ready<'s>> {
        let (path, old) = (self.folder.path_of(file), self.folder.bytes(file));
        let finished = match old {
            Some(_) => Finished::replacing(&path, new, TABLE_PREFIX)?,
            // As private as what is beside it.
            None => Finished::fresh_like(&path, new, &self.folder.path_of(&ORDERS.file()), TABLE_PREFIX)?,
        };
        let place = Place { path: finished.path().to_owned(), name: self.folder.name(file), old, new };
        Ok(Ready { finished, place })
    }
}

/// Puts one after another in its place; where one cannot take it, those before it are taken back.
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
    /// Looks once more for what she saved in the last moment.
    fn take(&self, finished: Finished) -> Result<(), FileError> {
        if self.old.is_some_and(|old| !self.holds(old)) {
            return Err(FileError::Overtaken(Difference::Saved(self.name.to_owned())));
        }
        finished.take_place().map_err(|error| match error.kind() {
            io::ErrorKind::AlreadyExists => FileError::Overtaken(Difference::New(self.name.to_owned())),
            _ => unchanged(self.name, error),
        })
    }

    /// Gives the place back what stood there, unless something else was saved there since.
    fn take_back(&self) -> Result<(), NotTakenBack> {
        if !self.holds(self.new) {
            return Err(NotTakenBack::SavedAgain);
        }
        match self.old {
            Some(old) => Finished::replacing(&self.path, old, TABLE_PREFIX)?.take_place()?,
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
