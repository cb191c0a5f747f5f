//! Writes a folder of charts, texts and tables. They replace the program's own earlier files and nothing else: each kind of file carries
//! a mark by which it is recognized.

use super::error::{FileError, Occupant, Refusal};
use super::finished::Finished;
use super::place::{can_write, unwritable};
use crate::chart;
use crate::reading::file::{self, EntryKind, PathEntry};
use crate::report::review::{document, page};
use std::path::{Path, PathBuf};

/// How a file that the program wrote is recognized.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Mark {
    /// A page, by the generator in its head.
    Page,
    /// A PNG, by the software it names.
    Picture,
    /// A text, by its last line.
    Text,
    /// A manual page, by its title.
    Manual,
    /// A CSV file, by its headings: of many the first few, for an earlier version had fewer.
    Table(Vec<String>),
}

/// How many headings tell a table of ours from any other.
const DISTINCT: usize = 5;

impl Mark {
    fn is_on(&self, bytes: &[u8]) -> bool {
        match self {
            Self::Page => memchr::memmem::find(head(bytes), page::GENERATOR.as_bytes()).is_some(),
            Self::Picture => chart::is_ours(bytes),
            Self::Manual => memchr::memmem::find(head(bytes), b"\n.TH fairdozen").is_some(),
            Self::Text => bytes.ends_with(document::LAST_LINE.as_bytes()),
            Self::Table(headings) => {
                let line = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
                let found: Vec<&[u8]> = line.split(|byte| *byte == b',').collect();
                let is_short = headings.len() <= DISTINCT;
                (!is_short || found.len() == headings.len())
                    && headings.iter().take(DISTINCT).map(String::as_bytes).eq(found.into_iter().take(DISTINCT))
            }
        }
    }
}

/// The part of a page that names what made it, ahead of all the rest.
fn head(bytes: &[u8]) -> &[u8] {
    &bytes[..bytes.len().min(1024)]
}

/// A folder to write to, and every file that may be written there.
pub(crate) struct Answers<'a> {
    folder: &'a Path,
    names: Vec<(String, Mark)>,
    /// What to do if the folder cannot be used.
    elsewhere: String,
}

/// The usual advice, for commands that have the option.
pub const OUT: &str = "name another folder with --out";

impl<'a> Answers<'a> {
    /// Checks before slow work that a folder can be written to and that no file under those names is someone else's.
    pub(crate) fn in_folder(folder: &'a Path, names: Vec<(String, Mark)>, elsewhere: &str) -> Result<Self, FileError> {
        let answers = Self { folder, names, elsewhere: elsewhere.to_owned() };
        let entry = PathEntry::of(folder).map_err(|error| unwritable(folder, error, elsewhere))?;
        if !matches!(entry, PathEntry { kind: EntryKind::Folder, .. } | PathEntry { kind: EntryKind::Nothing, is_link: false }) {
            return Err(FileError::Refused { path: folder.to_owned(), why: Refusal::NotAFolder(entry), instead: elsewhere.to_owned() });
        }
        can_write(folder).map_err(|error| unwritable(folder, error, elsewhere))?;
        answers.own_files()?;
        Ok(answers)
    }

    /// Returns the folder.
    pub fn folder(&self) -> &'a Path {
        self.folder
    }

    /// Writes the files and removes earlier ones that are not among them. All are finished, and every place is checked again, before the
    /// first is renamed into its place.
    pub fn write(&self, files: &[(String, Vec<u8>)]) -> Result<(), FileError> {
        let failed = |path: &Path, error: std::io::Error| unwritable(path, error, &self.elsewhere);
        std::fs::create_dir_all(self.folder).map_err(|error| failed(self.folder, error))?;
        let mut ready = Vec::with_capacity(files.len());
        for (name, bytes) in files {
            debug_assert!(self.names.iter().any(|(known, mark)| known == name && mark.is_on(bytes)), "{name} must be known again");
            let path = self.folder.join(name);
            let is_there = std::fs::symlink_metadata(&path).is_ok();
            let finished = if is_there { Finished::replacing(&path, bytes) } else { Finished::fresh(&path, bytes) };
            ready.push((finished.map_err(|error| failed(&path, error))?, path));
        }
        let earlier = self.own_files()?;
        for (finished, path) in ready {
            finished.take_place().map_err(|error| failed(&path, error))?;
        }
        // Beside a page that knows nothing of it, a chart of another time would mislead.
        for name in earlier.iter().filter(|name| files.iter().all(|(written, _)| written != **name)) {
            let path = self.folder.join(name);
            std::fs::remove_file(&path).map_err(|error| failed(&path, error))?;
        }
        Ok(())
    }

    /// The names under which files of the program are in the folder.
    ///
    /// # Errors
    /// [`FileError::Occupied`] where anything else has one of the names.
    fn own_files(&self) -> Result<Vec<&str>, FileError> {
        let mut ours = Vec::new();
        for (name, mark) in &self.names {
            let path: PathBuf = self.folder.join(name);
            let occupied = |by: Occupant| Err(FileError::Occupied { path: path.clone(), by, instead: self.elsewhere.clone() });
            match PathEntry::of(&path) {
                Ok(PathEntry { kind: EntryKind::Nothing, is_link: false }) => {}
                Ok(PathEntry { kind: EntryKind::File, .. }) => match file::read(&path) {
                    Ok(bytes) if mark.is_on(&bytes) => ours.push(name.as_str()),
                    Ok(_) => return occupied(Occupant::Foreign),
                    Err(error) => return occupied(Occupant::Unreadable(error)),
                },
                Ok(entry) => return occupied(Occupant::NoFile(entry)),
                Err(error) => return occupied(Occupant::Hidden(error)),
            }
        }
        Ok(ours)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_known_by_their_marks_alone() {
        let page = format!("<!DOCTYPE html>\n<head>\n{}\n", page::GENERATOR);
        let text = format!("October.\n\n{}", document::LAST_LINE);
        let table = Mark::Table(["tier", "price"].map(String::from).into());
        for (mark, ours) in [(&Mark::Page, page.as_str()), (&Mark::Text, &text), (&table, "tier,price\nshape,4\n"), (&table, "tier,price")]
        {
            assert!(mark.is_on(ours.as_bytes()), "{ours}");
        }
        let many = Mark::Table(["part", "key", "tier", "orders", "pieces", "revenue", "certainty"].map(String::from).into());
        assert!(many.is_on(b"part,key,tier,orders,pieces,revenue\n"), "as an earlier version wrote it");
        let quoted = format!("<p>{}</p>{}", " ".repeat(1024), page::GENERATOR);
        for (mark, hers) in [
            (&Mark::Page, quoted.as_str()),
            (&Mark::Page, "<html>fairdozen</html>"),
            (&Mark::Text, &format!("{text}My own note.\n")),
            (&table, "tier,price,from\n"),
            (&table, ""),
            (&Mark::Picture, "fairdozen"),
            (&Mark::Manual, ".TH bake 1\n"),
            (&many, "part,key,tier,orders,price\n"),
            (&many, "part,key\n"),
        ] {
            assert!(!mark.is_on(hers.as_bytes()), "{hers}");
        }
    }

    /// What appears while the answer is worked out is found before the first file takes its place.
    #[test]
    fn every_place_is_looked_at_again() {
        let folder = tempfile::tempdir().unwrap();
        let names = ["a.csv", "b.csv", "c.csv"].map(|name| (name.to_owned(), Mark::Table(vec!["tier".to_owned()])));
        let answers = Answers::in_folder(folder.path(), names.into(), OUT).unwrap();
        let files = ["a.csv", "b.csv"].map(|name| (name.to_owned(), b"tier\nshape\n".to_vec()));
        let names = || {
            let mut names: Vec<_> = std::fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
            names.sort();
            names
        };
        for (name, text) in [("b.csv", "hers\n"), ("c.csv", "hers\n")] {
            std::fs::write(folder.path().join(name), text).unwrap();
            let refused = answers.write(&files).unwrap_err().to_string();
            assert!(refused.contains(&format!("{name} was not written by fairdozen")), "{refused}");
            assert_eq!((names(), std::fs::read_to_string(folder.path().join(name)).unwrap().as_str()), (vec![name.into()], text));
            std::fs::remove_file(folder.path().join(name)).unwrap();
        }
        std::fs::write(folder.path().join("c.csv"), "tier\nold\n").unwrap();
        answers.write(&files).unwrap();
        assert_eq!(names(), ["a.csv", "b.csv"], "an earlier answer's file goes");
    }
}
