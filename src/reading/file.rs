//! Looks at what is at a path and reads the bytes of ordinary files. Nothing else is ever opened: a pipe would wait for ever, and a
//! device may never end.

use std::fmt;
use std::fs::{File, FileType};
use std::io::{self, Read};
use std::path::Path;

/// What is at a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PathEntry {
    /// What it is, or what the link there leads to.
    pub kind: EntryKind,
    /// Whether there is a link at the path itself.
    pub is_link: bool,
}

/// A kind of thing at a path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EntryKind {
    /// Nothing at all.
    Nothing,
    /// An ordinary file.
    File,
    /// A folder.
    Folder,
    /// A named pipe.
    Pipe,
    /// A socket.
    Socket,
    /// A device.
    Device,
}

impl PathEntry {
    /// Looks at a path without opening anything.
    ///
    /// # Errors
    /// Fails without permission to look, or where links lead in a circle.
    pub fn of(path: &Path) -> io::Result<Self> {
        let absent = |error: &io::Error| error.kind() == io::ErrorKind::NotFound;
        let is_link = match std::fs::symlink_metadata(path) {
            Ok(found) => found.is_symlink(),
            Err(error) if absent(&error) => return Ok(Self { kind: EntryKind::Nothing, is_link: false }),
            Err(error) => return Err(error),
        };
        match std::fs::metadata(path) {
            Ok(found) => Ok(Self { kind: EntryKind::of(found.file_type()), is_link }),
            Err(error) if absent(&error) => Ok(Self { kind: EntryKind::Nothing, is_link }),
            Err(error) => Err(error),
        }
    }
}

impl EntryKind {
    #[cfg(unix)]
    fn of(found: FileType) -> Self {
        use std::os::unix::fs::FileTypeExt;
        match found {
            found if found.is_file() => Self::File,
            found if found.is_dir() => Self::Folder,
            found if found.is_fifo() => Self::Pipe,
            found if found.is_socket() => Self::Socket,
            _ => Self::Device,
        }
    }

    #[cfg(not(unix))]
    fn of(found: FileType) -> Self {
        match found {
            found if found.is_file() => Self::File,
            found if found.is_dir() => Self::Folder,
            _ => Self::Device,
        }
    }
}

impl fmt::Display for PathEntry {
    /// As in "orders.csv is a link to a folder".
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let what = match self.kind {
            EntryKind::Nothing if self.is_link => return f.write_str("a link that leads nowhere"),
            EntryKind::Nothing => "not there",
            EntryKind::File => "a file",
            EntryKind::Folder => "a folder",
            EntryKind::Pipe => "a pipe",
            EntryKind::Socket => "a socket",
            EntryKind::Device => "a device",
        };
        write!(f, "{}{what}", if self.is_link { "a link to " } else { "" })
    }
}

/// Why a file could not be read, as in "orders.csv is a folder, not a file".
#[derive(Debug, thiserror::Error)]
pub enum NotRead {
    /// There is no ordinary file.
    #[error("{}", not_a_file(*.0))]
    NotAFile(PathEntry),
    /// The file cannot be read.
    #[error("cannot be read: {}", plain(.0))]
    Failed(#[source] io::Error),
}

fn not_a_file(entry: PathEntry) -> String {
    match entry {
        PathEntry { kind: EntryKind::Nothing, is_link: false } => "cannot be read: it is not there".to_owned(),
        entry if entry.kind == EntryKind::Nothing => format!("is {entry}"),
        entry => format!("is {entry}, not a file"),
    }
}

/// Opens an ordinary file, or a link to one, for reading.
///
/// # Errors
/// [`NotRead`] if there is no such file or it cannot be opened.
pub fn open(path: &Path) -> Result<File, NotRead> {
    let entry = PathEntry::of(path).map_err(NotRead::Failed)?;
    if entry.kind != EntryKind::File {
        return Err(NotRead::NotAFile(entry));
    }
    File::open(path).map_err(NotRead::Failed)
}

/// Reads the bytes of an ordinary file, or of one that a link leads to.
///
/// # Errors
/// [`NotRead`] if there is no such file or it cannot be read.
pub fn read(path: &Path) -> Result<Vec<u8>, NotRead> {
    let mut file = open(path)?;
    let length = file.metadata().map_or(0, |found| found.len());
    let mut bytes = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
    file.read_to_end(&mut bytes).map_err(NotRead::Failed)?;
    Ok(bytes)
}

/// Words a file system's error for a person, without its number.
#[must_use]
pub fn plain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "it is not there".to_owned(),
        io::ErrorKind::PermissionDenied => "you do not have permission".to_owned(),
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "the disk can only be read".to_owned(),
        io::ErrorKind::NotADirectory => "part of its path is not a folder".to_owned(),
        _ => {
            let text = error.to_string();
            text.split_once(" (os error").map_or(text.clone(), |(said, _)| said.to_owned())
        }
    }
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use std::os::unix::fs::symlink;

    fn refused(path: &Path) -> String {
        read(path).unwrap_err().to_string()
    }

    #[test]
    fn only_ordinary_files_and_links_to_them_are_read() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        std::fs::write(at("file"), "x").unwrap();
        symlink(at("file"), at("link")).unwrap();
        assert_eq!((read(&at("file")).unwrap(), read(&at("link")).unwrap()), (b"x".to_vec(), b"x".to_vec()));
        assert!(std::process::Command::new("mkfifo").arg(at("pipe")).status().unwrap().success());
        for (name, target) in [("to nothing", at("gone")), ("to a device", "/dev/zero".into()), ("to a folder", folder.path().to_owned())] {
            symlink(target, at(name)).unwrap();
        }
        symlink(at("circle"), at("circle")).unwrap();
        let _socket = std::os::unix::net::UnixListener::bind(at("socket")).unwrap();
        for (name, says) in [
            ("gone", "cannot be read: it is not there"),
            (".", "is a folder, not a file"),
            ("pipe", "is a pipe, not a file"),
            ("socket", "is a socket, not a file"),
            ("to nothing", "is a link that leads nowhere"),
            ("to a device", "is a link to a device, not a file"),
            ("to a folder", "is a link to a folder, not a file"),
        ] {
            assert_eq!(refused(&at(name)), says, "{name}");
        }
        assert!(refused(&at("circle")).starts_with("cannot be read: "), "{}", refused(&at("circle")));
        assert!(!refused(&at("circle")).contains("os error"));
    }
}
