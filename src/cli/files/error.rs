//! Why a file was not written.

use crate::reading::file::{NotRead, PathEntry, plain};
use crate::shop::folder::Difference;
use std::io;
use std::path::PathBuf;

/// Why a file or folder was not written.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// The place will not do.
    #[error("{} {why}; {instead}", .path.display())]
    Refused {
        /// The place.
        path: PathBuf,
        /// Why it will not do.
        why: Refusal,
        /// Where to write instead.
        instead: String,
    },
    /// The place holds something that is not the program's own.
    #[error("{} {by}, so nothing was written; move it away, or {instead}", .path.display())]
    Occupied {
        /// The place.
        path: PathBuf,
        /// What it holds.
        by: Occupant,
        /// Where to write instead.
        instead: String,
    },
    /// The file's folder does not exist.
    #[error("there is no folder {}; make it first, or {instead}", .path.display())]
    NoFolder {
        /// The folder.
        path: PathBuf,
        /// Where to write instead.
        instead: String,
    },
    /// The shop's files changed since they were read.
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

/// Why a place cannot be written to.
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// The file system refuses.
    #[error("cannot be written: {}", plain(.0))]
    System(io::Error),
    /// A folder is wanted there.
    #[error("cannot be written: it is {0}, not a folder")]
    NotAFolder(PathEntry),
    /// A new or empty folder is wanted there.
    #[error("is not empty, so nothing was written")]
    NotEmpty,
    /// The folder would be replaced under the feet of who is in it.
    #[error("is the folder you are in, so nothing was written")]
    Here,
    /// A file is wanted there.
    #[error("is {0}, so nothing was written")]
    NotAFile(PathEntry),
    /// It is the file of one of the shop's tables.
    #[error("cannot be written: it is one of the shop's own tables")]
    OwnTable,
}

/// What is in the place of one of the program's own files.
#[derive(Debug, thiserror::Error)]
pub enum Occupant {
    /// A file of the maker's.
    #[error("was not written by fairdozen")]
    Foreign,
    /// A file that cannot be read.
    #[error(transparent)]
    Unreadable(NotRead),
    /// Something other than a file.
    #[error("is {0}")]
    NoFile(PathEntry),
    /// Something that may not be looked at.
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
