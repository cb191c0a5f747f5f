//! The files of a shop's folder, their bytes read in one place and once.

use super::everyday_tables::tables_called;
use super::kinds::{FILE_TWICE, NO_FOLDER, UNKNOWN_FILE, UNREADABLE_FILE};
use super::settings;
use super::sources::{Contents, Found, Sources, is_workbook, sheet_name, table_of_file, table_of_sheet};
use super::specification::TABLES;
use crate::reading::file::{self, NotRead, plain};
use crate::reading::nearest::nearest;
use crate::reading::workbook::{Sheet, Workbook};
use crate::reading::{Advice, Problem, Severity, TableSpecification};
use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// The bytes of a shop's files, as they were when the folder was opened.
#[derive(Debug, Clone)]
pub struct Folder {
    path: PathBuf,
    /// The workbook that was named in place of the folder.
    workbook: Option<String>,
    /// By file name in small letters.
    files: BTreeMap<String, ShopFile>,
    problems: Vec<Problem>,
}

/// One file.
#[derive(Debug, Clone)]
struct ShopFile {
    /// The name as the folder spells it.
    name: String,
    bytes: Arc<[u8]>,
    /// Of a workbook that can be opened.
    workbook: Option<Workbook>,
    sheets: Vec<ShopSheet>,
}

/// One sheet of a workbook.
#[derive(Debug, Clone)]
struct ShopSheet {
    name: String,
    /// What to call it.
    called: String,
    /// The table it holds.
    table: Option<&'static TableSpecification>,
}

/// How a folder changed since it was read, with the name of the file as the folder spells it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Difference {
    /// Its bytes changed.
    Saved(String),
    /// It is new.
    New(String),
    /// It is gone, or can no longer be read.
    Gone(String),
}

impl std::fmt::Display for Difference {
    /// As in "orders.csv was saved".
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (name, what) = match self {
            Self::Saved(name) => (name, "was saved"),
            Self::New(name) => (name, "appeared"),
            Self::Gone(name) => (name, "was taken away"),
        };
        write!(f, "{name} {what}")
    }
}

/// The names a shop's files have where each table is one file.
fn known() -> impl Iterator<Item = String> {
    TABLES.iter().map(TableSpecification::file).chain([settings::FILE.to_owned()])
}

/// Whether a file name is one of a shop's, whatever its letter case.
#[must_use]
pub(crate) fn is_of_a_shop(name: &str) -> bool {
    name.eq_ignore_ascii_case(settings::FILE) || table_of_file(name).is_some() || is_workbook(name)
}

/// Whether a file is the mark of a program that has another one open, or hidden for another reason.
fn is_passed_over(name: &str) -> bool {
    name.starts_with('.') || name.starts_with("~$")
}

impl Folder {
    /// Reads every file in the folder that a shop may have; of a workbook named in place of a folder, that file and the `shop.toml` beside
    /// it. A file that cannot be read becomes a problem of [`Folder::load`].
    #[must_use]
    pub fn open(path: &Path) -> Self {
        Self::unopened(path).with_workbooks()
    }

    fn unopened(path: &Path) -> Self {
        let named = path.file_name().and_then(|name| name.to_str()).filter(|name| is_workbook(name) && path.is_file());
        let (place, workbook) = match named {
            Some(name) => (path.parent().unwrap_or(path), Some(name.to_owned())),
            None => (path, None),
        };
        let place = if place.as_os_str().is_empty() { Path::new(".") } else { place };
        Self::of(place, workbook)
    }

    /// The bytes of the same folder or workbook as they are now.
    #[must_use]
    pub(crate) fn read_again(&self) -> Self {
        Self::of(&self.path, self.workbook.clone())
    }

    fn of(path: &Path, workbook: Option<String>) -> Self {
        let mut folder = Self { path: path.to_owned(), workbook, files: BTreeMap::new(), problems: Vec::new() };
        let entries = match std::fs::read_dir(path) {
            Ok(entries) => entries,
            Err(error) => {
                folder.problems.push(no_folder(path, &error));
                return folder;
            }
        };
        let mut names: Vec<String> = entries.flatten().filter_map(|entry| entry.file_name().into_string().ok()).collect();
        names.retain(|name| match &folder.workbook {
            Some(named) => name == named || name.eq_ignore_ascii_case(settings::FILE),
            None => !is_passed_over(name),
        });
        names.sort_unstable();
        for name in names {
            if is_of_a_shop(&name) {
                folder.read(name.to_lowercase(), name);
            } else if Path::new(&name).extension().is_some_and(|extension| extension.eq_ignore_ascii_case("csv")) {
                let problem = Problem::of_file(&UNKNOWN_FILE, &name, "is not a table of a shop, so it was not read");
                let known: Vec<String> = known().collect();
                let near = nearest(&name.to_lowercase(), known.iter().map(String::as_str));
                folder.problems.push(match (near, tables_called(name.rsplit_once('.').map_or(&name, |(stem, _)| stem)).as_slice()) {
                    (Some(near), _) => problem.did_you_mean(near),
                    (None, [table]) => problem.instead(format!("if it holds {}, rename it '{} {name}'", table.name, table.name)),
                    (None, _) => problem,
                });
            }
        }
        folder
    }

    /// Keeps a file's bytes.
    fn keep(&mut self, key: String, name: String, bytes: Vec<u8>) {
        self.files.insert(key, ShopFile { name, bytes: bytes.into(), workbook: None, sheets: Vec::new() });
    }

    /// Opens the workbooks that are not open yet, and settles which table each sheet holds: the one that the settings say, else the one
    /// that its name begins with.
    fn with_workbooks(mut self) -> Self {
        for file in self.files.values_mut().filter(|file| is_workbook(&file.name) && file.workbook.is_none()) {
            match Workbook::open(&file.name, &file.bytes) {
                Ok(workbook) => {
                    let sheet = |sheet: &Sheet| {
                        let (name, called) = (sheet.name.clone(), sheet_name(&file.name, &sheet.name));
                        ShopSheet { name, called, table: None }
                    };
                    file.sheets = workbook.sheets().iter().map(sheet).collect();
                    file.workbook = Some(workbook);
                }
                Err(mut problem) => {
                    if let (Some(Advice::Do(mend)), None) = (&mut problem.instead, &self.workbook) {
                        mend.push_str(", or take it out of the folder if it is not part of your shop");
                    }
                    self.problems.push(*problem);
                }
            }
        }
        let named = self.settings(&mut Vec::new()).map(|settings| settings.sheets).unwrap_or_default();
        for sheet in self.files.values_mut().flat_map(|file| &mut file.sheets) {
            sheet.table = table_of_sheet(&sheet.name, &named);
        }
        self
    }

    fn read(&mut self, key: String, name: String) {
        match file::read(&self.path.join(&name)) {
            Ok(_) if self.files.contains_key(&key) => {
                let problem = Problem::of_file(&FILE_TWICE, &name, "is in the folder twice, in capitals and small letters");
                self.problems.push(problem.instead("keep one of the two"));
            }
            Ok(bytes) => self.keep(key, name, bytes),
            Err(error) => {
                let problem = Problem::of_file(&UNREADABLE_FILE, &name, error.to_string());
                let is_no_file = matches!(error, NotRead::NotAFile(_));
                self.problems.push(if is_no_file { problem.instead("replace it with the file itself") } else { problem });
            }
        }
    }

    /// The folder's path.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The sources of every table, those of one table by their names.
    #[must_use]
    pub(crate) fn sources(&self) -> Sources<'_> {
        Sources::of(&self.found())
    }

    /// Every file, and in place of a workbook its sheets.
    pub(super) fn found(&self) -> impl Iterator<Item = Found<'_>> + Clone {
        self.files.values().flat_map(|file| {
            let text = Found { name: &file.name, table: table_of_file(&file.name), contents: Contents::Text(&file.bytes) };
            let sheets = file.workbook.iter().flat_map(move |workbook| {
                file.sheets.iter().map(move |sheet| {
                    let contents = Contents::Sheet { workbook, file: &file.name, sheet: &sheet.name };
                    Found { name: &sheet.called, table: sheet.table, contents }
                })
            });
            (!is_workbook(&file.name)).then_some(text).into_iter().chain(sheets)
        })
    }

    /// The workbooks in the folder, whether or not they can be opened.
    pub(super) fn workbooks(&self) -> impl Iterator<Item = &str> {
        self.files.values().map(|file| file.name.as_str()).filter(|name| is_workbook(name))
    }

    /// Whether a file in it cannot be read, so that what is in it is not known.
    pub(super) fn has_errors(&self) -> bool {
        self.problems.iter().any(|problem| problem.severity == Severity::Error)
    }

    /// Problems of the folder itself: it cannot be opened, or a file in it cannot be read.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    /// The bytes of a file, as they were when the folder was opened.
    #[must_use]
    pub fn bytes(&self, file: &str) -> Option<&[u8]> {
        self.files.get(file).map(|file| &*file.bytes)
    }

    /// A file's name as the folder spells it; of a file it lacks, the name in small letters.
    #[must_use]
    pub fn name<'a>(&'a self, file: &'a str) -> &'a str {
        self.files.get(file).map_or(file, |found| &found.name)
    }

    /// The settings, or, in a folder without them, the first of its files: by it the shop is locked, and new files are as private.
    #[must_use]
    pub(crate) fn first_file(&self) -> &str {
        let first = || self.files.keys().next().map_or(settings::FILE, String::as_str);
        if self.files.contains_key(settings::FILE) { settings::FILE } else { first() }
    }

    /// The path of a file, whether or not it exists yet.
    #[must_use]
    pub(crate) fn path_of(&self, file: &str) -> PathBuf {
        self.path.join(self.name(file))
    }

    /// A copy of the folder in memory with new bytes for some files; nothing is written.
    #[must_use]
    pub fn with<'a>(&self, files: impl IntoIterator<Item = (&'a str, &'a [u8])>) -> Self {
        let mut changed = self.clone();
        for (file, bytes) in files {
            let name = self.name(file).to_owned();
            changed.keep(file.to_owned(), name, bytes.to_vec());
        }
        changed.with_workbooks()
    }

    /// Compares with the same folder read again: the first file that differs, or `None` where none does.
    #[must_use]
    pub fn difference(&self, now: &Self) -> Option<Difference> {
        let gone = self.files.iter().find_map(|(known, file)| match now.files.get(known) {
            None => Some(Difference::Gone(file.name.clone())),
            Some(now) => ((&now.name, &now.bytes) != (&file.name, &file.bytes)).then(|| Difference::Saved(file.name.clone())),
        });
        let unread = |problem: &&Problem| problem.severity == Severity::Error && !self.problems.contains(problem);
        gone.or_else(|| {
            now.files.iter().find(|(known, _)| !self.files.contains_key(*known)).map(|(_, file)| Difference::New(file.name.clone()))
        })
        .or_else(|| now.problems.iter().find(unread).map(|problem| Difference::New(problem.file.clone())))
    }
}

/// The problem that says why a shop's folder cannot be opened.
fn no_folder(path: &Path, error: &io::Error) -> Problem {
    let why = match error.kind() {
        io::ErrorKind::NotFound => "cannot be opened: there is no such folder".to_owned(),
        io::ErrorKind::NotADirectory if path.is_file() => "is a file, and a shop is a folder or a workbook".to_owned(),
        io::ErrorKind::NotADirectory => "is not a folder".to_owned(),
        _ => format!("cannot be opened: {}", plain(error)),
    };
    let problem = Problem::of_file(&NO_FOLDER, &path.display().to_string(), why);
    problem.instead("name the folder that holds orders.csv and shop.toml")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_knows_in_what_it_differs_from_before() {
        let place = tempfile::tempdir().unwrap();
        let write = |name: &str, text: &str| std::fs::write(place.path().join(name), text).unwrap();
        write("Orders.CSV", "a");
        write("hours.csv", "b");
        let folder = Folder::open(place.path());
        let now = || folder.difference(&Folder::open(place.path()));
        assert_eq!(folder.path_of("orders.csv"), place.path().join("Orders.CSV"));
        write("notes.csv", "no table");
        assert_eq!(now(), None);
        write("Orders.CSV", "b");
        assert_eq!(now(), Some(Difference::Saved("Orders.CSV".into())));
        assert_eq!(folder.with([("orders.csv", &b"b"[..])]).difference(&Folder::open(place.path())), None);
        write("Orders.CSV", "a");
        write("tiers.csv", "");
        assert_eq!(now(), Some(Difference::New("tiers.csv".into())));
        std::fs::remove_file(place.path().join("tiers.csv")).unwrap();
        std::fs::create_dir(place.path().join("tiers.csv")).unwrap();
        assert_eq!(now(), Some(Difference::New("tiers.csv".into())));
        std::fs::remove_file(place.path().join("hours.csv")).unwrap();
        assert_eq!(now(), Some(Difference::Gone("hours.csv".into())));
    }
}
