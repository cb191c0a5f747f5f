//! Why a file was not written.

use crate::reading::file::{NotRead, Standing, plain};
use crate::shop::folder::Difference;
use std::io;
use std::path::PathBuf;

/// Why a file or folder was not written; each says what to do instead.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// The file system refuses.
    #[error("{} cannot be written: {}; {instead}", .path.display(), plain(.source))]
    Unwritable {
        /// The place.
        path: PathBuf,
        /// Why.
        source: io::Error,
        /// Where to write instead.
        instead: &'static str,
    },
    /// Something else stands where a folder is wanted.
    #[error("{} cannot be written: it is {standing}, not a folder; {instead}", .path.display())]
    NotAFolder {
        /// The place.
        path: PathBuf,
        /// What stands there.
        standing: Standing,
        /// Where to write instead.
        instead: &'static str,
    },
    /// Something else stands where a file is wanted.
    #[error("{} is {standing}, so nothing was written; {instead}", .path.display())]
    NotAFile {
        /// The place.
        path: PathBuf,
        /// What stands there.
        standing: Standing,
        /// Where to write instead.
        instead: &'static str,
    },
    /// What stands there is not the program's own.
    #[error("{} {by}, so nothing was written; move it away, or {instead}", .path.display())]
    Occupied {
        /// The place.
        path: PathBuf,
        /// What stands there.
        by: Occupant,
        /// Where to write instead.
        instead: &'static str,
    },
    /// The place is that of one of the shop's tables.
    #[error("{} cannot be written: it is one of the shop's own tables; {instead}", .path.display())]
    OwnTable {
        /// The place.
        path: PathBuf,
        /// Where to write instead.
        instead: &'static str,
    },
    /// The folder of the file is not there.
    #[error("there is no folder {}; make it first, or {instead}", .path.display())]
    NoFolder {
        /// The folder.
        path: PathBuf,
        /// Where to write instead.
        instead: &'static str,
    },
    /// The shop's folder is not any more what was worked with.
    #[error("{0} while this ran, so nothing was changed; run it again")]
    Overtaken(Difference),
    /// Another run is changing the shop's tables.
    #[error("another fairdozen is writing into this shop; nothing was changed, try again")]
    Locked,
    /// A table cannot be written; none was.
    #[error("{name} cannot be written: {}; nothing was changed", plain(.source))]
    Unchanged {
        /// The table's file.
        name: String,
        /// Why.
        source: io::Error,
    },
    /// A table cannot be written, and one written before it cannot be taken back.
    #[error("{name} could not be changed, but {before} is changed already and stays so, because {why}; look at both")]
    HalfChanged {
        /// The table's file.
        name: String,
        /// The one changed already.
        before: String,
        /// Why it stays so.
        why: NotTakenBack,
    },
}

/// What stands in the place of one of the program's own files.
#[derive(Debug, thiserror::Error)]
pub enum Occupant {
    /// A file of the maker's.
    #[error("was not written by fairdozen")]
    Foreign,
    /// A file that cannot be read.
    #[error(transparent)]
    Unreadable(NotRead),
    /// No file.
    #[error("is {0}")]
    NoFile(Standing),
    /// Something that one may not look at.
    #[error("cannot be looked at ({})", plain(.0))]
    Hidden(io::Error),
}

/// Why a table's old bytes could not be put back.
#[derive(Debug, thiserror::Error)]
pub enum NotTakenBack {
    /// The maker saved it meanwhile.
    #[error("it was saved again")]
    SavedAgain,
    /// The file system refuses.
    #[error("its old rows cannot be put back ({})", plain(.0))]
    Failed(#[from] io::Error),
}
