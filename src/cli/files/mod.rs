//! Writes files, and is the only place that does. Each file is finished under a temporary name next to its place and then renamed, so
//! that no place ever holds half a file.
//!
//! [`tables`] changes the maker's own tables, [`answers`] writes a folder of charts and tables, [`single`] one file for other programs,
//! [`new_folder`] makes a folder. What a run that was stopped left under a temporary name, the next one removes.

pub mod answers;
mod error;
mod finished;
pub(crate) mod new_folder;
mod place;
pub mod single;
pub mod tables;

pub use error::FileError;
